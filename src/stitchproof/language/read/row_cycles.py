"""Rows worked again in turn, several times: `[Rep Rnd 2 twice, then rep Rnd 6 once] 4 times`."""

from dataclasses import replace
from typing import Final

from stitchproof.language.number import Number, NumberKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import Cursor, read_named_rows
from stitchproof.language.read.steps.reader import OPENING
from stitchproof.language.tree import RepeatRows, Times

_AGAIN: Final = word_set("rep repeat work")
_JOINING: Final = word_set("then and next , ;")
_MOST: Final = 60  # rows of one turn


def read_cycle(cursor: Cursor) -> RepeatRows | None:
    """Read a bracket of rows in their order, and how often it is worked; None for anything else."""
    start = cursor.at
    closing = OPENING.get(cursor.text())
    if closing is None:
        return None
    cursor.at += 1
    rows: list[Number] = []
    parts = 0
    while cursor.text() != closing:
        again = cursor.take_any(_AGAIN)
        part = _part(cursor) if again or parts else None
        if part is None or len(rows) + len(part) > _MOST:
            cursor.at = start
            return None
        rows += part
        parts += 1
        cursor.take_any(_JOINING)
    cursor.at += 1
    often = cursor.number()
    if parts < 2 or often is None:  # noqa: PLR2004 - one alone needs no bracket
        cursor.at = start
        return None
    cursor.at += 1
    more = cursor.take("more")
    if not cursor.take_any(word_set("times time")) and often.spelling not in {"once", "twice"}:
        cursor.at = start
        return None
    times = Times(replace(often, kind=NumberKind.TIME), more=cursor.take("more") or more)
    return RepeatRows(first=rows[0], last=rows[-1], listed=tuple(rows), often=times)


def _part(cursor: Cursor) -> list[Number] | None:
    """Read `Rnd 2 twice`, `Rows 2-4`, `Row 6 once`: every row of it, in order."""
    named = read_named_rows(cursor)
    if named is None or named.first is None or named.last is None:
        return None
    rows = list(named.listed) or _between(named.first, named.last)
    times = _times(cursor)
    return None if rows is None or times is None else rows * times


def _between(first: Number, last: Number) -> list[Number] | None:
    low, high = _plain(first), _plain(last)
    if low is None or high is None or not low <= high < low + _MOST:
        return None
    return [
        first if row == low else replace(first, value=(row,), spelling=str(row))
        for row in range(low, high + 1)
    ]


def _times(cursor: Cursor) -> int | None:
    """Read `twice`, `3 times`; nothing is once; None where it is not one plain number."""
    number = cursor.number()
    if number is None:
        return 1
    plain = _plain(number)
    cursor.at += 1
    cursor.take_any(word_set("times time"))
    return plain


def _plain(number: Number) -> int | None:
    value = number.value
    one = value[0] if isinstance(value, tuple) and len(value) == 1 else None
    return one if isinstance(one, int) else None
