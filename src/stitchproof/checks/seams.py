"""What is sewn does not fit the piece."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen, gathered, words
from stitchproof.fabric.trouble import Failing


@facts
class SeamMismatch:
    """What the seam takes and what there is, for each wrong size."""

    code: ClassVar[Code] = Code("C409", "seam-mismatch", Level.ERROR)
    told: tuple[int, ...]
    have: tuple[int, ...]
    rows: bool
    words: str

    def message(self) -> str:
        """Both numbers."""
        if self.rows:
            return (
                f"`{self.words}` comes to {size_list(self.told)} rows, "
                f"but the edges are marked at the top of Row {size_list(self.have)}"
            )
        return (
            f"`{self.words}` comes to {size_list(self.told)} sts with both edges, "
            f"but the last row has {size_list(self.have)}"
        )

    def help(self) -> str:
        """Say where to look."""
        return "check both numbers against the last row of the piece"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Hold seams against the edges they join."""
    for found in gathered(seen, Failing.COUNT):
        noun = found.troubles[0].what
        if noun in ("seam", "marker"):
            yield Diagnostic(
                finding=SeamMismatch(
                    found.wanted, found.had, noun == "marker", words(seen, found.place)
                ),
                place=found.place,
                address=found.address(),
                sizes=found.named_sizes(),
            )
