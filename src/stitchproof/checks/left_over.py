"""A line ends before the row below does, and does not say so."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen, gathered, words
from stitchproof.fabric.trouble import Failing


@facts
class StitchesLeftOver:
    """Places left, and places said to be left, for each wrong size."""

    code: ClassVar[Code] = Code("C404", "stitches-left-over", Level.ERROR)
    left: tuple[int, ...]
    said: tuple[int, ...]
    words: str

    def message(self) -> str:
        """Say how many are left."""
        left = f"{size_list(self.left)} st{'s' if set(self.left) != {1} else ''}"
        if any(self.said):
            return f"leaves {left} unworked, but says {size_list(self.said)}"
        return f"leaves {left} of the row below unworked and does not say so"

    def help(self) -> str:
        """Say the ways out."""
        if any(self.said):
            return f"write {size_list(self.left)}, or check the count of the row below"
        return "work to the end of the row, or say that the rest is left unworked"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find lines that leave stitches behind."""
    for found in gathered(seen, Failing.LEFT_OVER):
        yield Diagnostic(
            finding=StitchesLeftOver(found.had, found.wanted, words(seen, found.place)),
            place=found.place,
            address=found.address(),
            sizes=found.named_sizes(),
        )
