"""A repeat does not come out even on the row below."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen, gathered, words
from stitchproof.fabric.trouble import Failing


@facts
class RepeatUneven:
    """Width of the repeat and what is left, for each wrong size."""

    code: ClassVar[Code] = Code("C402", "repeat-uneven", Level.ERROR)
    width: tuple[int, ...]
    left: tuple[int, ...]
    words: str

    def message(self) -> str:
        """Say what is left over."""
        width = max(self.width)
        over = f"{size_list(self.left)} st{'s' if set(self.left) != {1} else ''}"
        taken = f" takes {width} st{'s' if width != 1 else ''} and" if width else ""
        return f"the repeat `{self.words}`{taken} does not come out even: {over} left"

    def help(self) -> str:
        """Say where to look."""
        return "check the count of the row below, or say how the repeat ends"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find repeats that leave stitches of the row below."""
    for found in gathered(seen, Failing.UNEVEN):
        yield Diagnostic(
            finding=RepeatUneven(found.wanted, found.had, words(seen, found.place)),
            place=found.place,
            address=found.address(),
            sizes=found.named_sizes(),
        )
