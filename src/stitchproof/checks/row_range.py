"""The rows of a label and the rows told do not agree."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen, gathered
from stitchproof.fabric.trouble import Failing


@facts
class RowRangeMismatch:
    """Rows in the label and rows told, for each wrong size."""

    code: ClassVar[Code] = Code("C407", "row-range-mismatch", Level.ERROR)
    labelled: tuple[int, ...]
    told: tuple[int, ...]

    def message(self) -> str:
        """Both numbers."""
        return (
            f"the label covers {size_list(self.labelled)} rows, "
            f"but the words come to {size_list(self.told)}"
        )

    def help(self) -> str:
        """Say where to look."""
        return "change the last row of the label or the number of times"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find labels that cover another number of rows than is told."""
    for found in gathered(seen, Failing.RANGE):
        if found.troubles[0].what == "rows":
            yield Diagnostic(
                finding=RowRangeMismatch(found.had, found.wanted),
                place=found.place,
                address=found.address(),
                sizes=found.named_sizes(),
            )
