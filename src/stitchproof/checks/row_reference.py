"""A line refers to a row that is not there."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.row_numbers import numbers_passed_over
from stitchproof.checks.seen import Seen, gathered, words
from stitchproof.fabric.trouble import Failing


@facts
class RowReferenceAbsent:
    """The row named."""

    code: ClassVar[Code] = Code("C406", "row-reference-absent", Level.ERROR)
    row: str
    back: int
    have: int
    words: str

    def message(self) -> str:
        """Say which row is missing."""
        if self.row == "rows back":
            return f"`{self.words}` goes {self.back} rows back, but {self.have} have been worked"
        if self.row.isdigit():
            return f"`{self.words}` refers to Row {self.row}, which has not been worked before it"
        return f"`{self.words}` refers to `{self.row}`, which is not worked before it"

    def help(self) -> str:
        """Say where to look."""
        return "check the row numbers"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find references to rows that do not exist."""
    for found in gathered(seen, Failing.NO_ROW):
        first = found.troubles[0]
        if first.what.isdigit() and int(first.what) in numbers_passed_over(found.course, seen):
            continue  # its number is missing, and that is told
        yield Diagnostic(
            finding=RowReferenceAbsent(
                first.what, first.wanted, first.had, words(seen, found.place)
            ),
            place=found.place,
            address=found.address(),
            sizes=found.named_sizes(),
        )
