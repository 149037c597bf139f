"""Where a schedule ends: `until 40 (42) sts rem`, `until 3 dec rows have been worked`."""

from typing import Final

from stitchproof.language.number import Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, Cursor
from stitchproof.language.read.shaping_ends import UNITS

_UNTIL: Final = frozenset(("until", "till", "to"))
_SHAPED: Final = word_set("dec decs decrease inc incs increase shaping")


def count_at_end(cursor: Cursor) -> Number | None:
    """Read `until 40 (42, 46) sts rem`, `to 40 sts`; None, and nothing taken, for anything else."""
    start = cursor.at
    cursor.take(",")
    if cursor.take_any(_UNTIL):
        cursor.take_any(word_set("there are is you have only a total of"))
        number = cursor.number()
        if number is not None and cursor.text(1) in UNITS:
            cursor.at += 2
            cursor.take_any(word_set("rem remain remaining are left in all total on the hook"))
            return number
    cursor.at = start
    return None


def rows_in_all(cursor: Cursor) -> Number | None:
    """Read `until 3 (3, 4) dec rows have been worked`; None, and nothing taken, otherwise."""
    start = cursor.at
    cursor.take(",")
    if cursor.take_any(_UNTIL):
        cursor.take_any(word_set("there are you have worked a total of"))
        number = cursor.number()
        cursor.at += 1
        if number is not None and cursor.take_any(_SHAPED) and cursor.take_any(ROWS):
            cursor.take_any(word_set("have has been are worked completed done in all total"))
            return number
    cursor.at = start
    return None
