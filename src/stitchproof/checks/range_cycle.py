"""A range of rows ends in the middle of the rows it repeats."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen, gathered
from stitchproof.fabric.trouble import Failing


@facts
class RangeNotWhole:
    """Rows in the label and rows in one repeat, for each size."""

    code: ClassVar[Code] = Code("C408", "range-not-whole", Level.WARNING)
    rows: tuple[int, ...]
    cycle: int

    def message(self) -> str:
        """Both numbers."""
        return (
            f"covers {size_list(self.rows)} rows, "
            f"which is no whole number of repeats of {self.cycle} rows"
        )

    def help(self) -> str:
        """Say what makes it clear."""
        return "name the row it ends with, or change the last row of the label"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find ranges that stop inside a repeat of rows without saying so."""
    for found in gathered(seen, Failing.RANGE):
        if found.troubles[0].what == "cycle":
            yield Diagnostic(
                finding=RangeNotWhole(found.had, found.wanted[0]),
                place=found.place,
                address=found.address(),
                sizes=found.named_sizes(),
            )
