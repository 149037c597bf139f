"""A line refers to a row that is not there."""

import re
from collections.abc import Iterator
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.row_numbers import numbers_passed_over
from stitchproof.checks.seen import Seen, gathered, words
from stitchproof.fabric.trouble import Failing

_ROUND: Final = re.compile(r"\b(?:rn?d|round)s?\b", re.IGNORECASE)


@facts
class RowReferenceAbsent:
    """The row named, by its number in each wrong size, or by its words."""

    code: ClassVar[Code] = Code("C406", "row-reference-absent", Level.ERROR)
    row: str
    numbers: tuple[int, ...]
    back: int
    have: int
    words: str

    def message(self) -> str:
        """Say which row is missing."""
        if self.row == "rows back":
            return f"`{self.words}` goes {self.back} rows back, but {self.have} have been worked"
        if self.numbers:
            named = f"{self.row} {size_list(self.numbers)}"
            return f"`{self.words}` refers to {named}, which has not been worked before it"
        return f"`{self.words}` refers to `{self.row}`, which is not worked before it"

    def help(self) -> str:
        """Say where to look."""
        return "check the row numbers"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find references to rows that do not exist."""
    for found in gathered(seen, Failing.NO_ROW):
        first = found.troubles[0]
        numbers = tuple(int(one.what) for one in found.troubles if one.what.isdigit())
        if numbers and numbers[0] in numbers_passed_over(found.course, seen):
            continue  # its number is missing, and that is told
        said = words(seen, found.place)
        round_ = _ROUND.search(said) or found.course.course.label.round
        row = ("Rnd" if round_ else "Row") if numbers else first.what
        yield Diagnostic(
            finding=RowReferenceAbsent(row, numbers, first.wanted, first.had, said),
            place=found.place,
            address=found.address(),
            sizes=found.named_sizes(),
        )
