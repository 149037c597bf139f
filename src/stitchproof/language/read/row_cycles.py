"""Rows worked again in turn, several times: `[Rep Rnd 2 twice, then rep Rnd 6 once] 4 times`.

So too rows that are counted: `Work 3 rows straight (as Row 2), then 1 inc row (as Row 5), 4 times`.
"""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import Number, NumberKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, Cursor, read_named_rows
from stitchproof.language.read.steps.reader import OPENING
from stitchproof.language.tree import RepeatRows, Times

_AGAIN: Final = word_set("rep repeat work")
_JOINING: Final = word_set("then and next followed by , ;")
_MOST: Final = 60  # rows of one turn


def read_cycle(cursor: Cursor) -> RepeatRows | None:
    """Read rows in their order, and how often they are worked; None for anything else.

    They stand in a bracket, or are counted: then it is plain that the last number is of all.
    """
    start = cursor.at
    made = _cycle(cursor)
    if made is None:
        cursor.at = start
    return made


def _cycle(cursor: Cursor) -> RepeatRows | None:
    led = cursor.take_any(_AGAIN)
    closing = OPENING.get(cursor.text(), "")
    counted = _counted_ahead(cursor, 1 if closing else 0)
    if not closing and not (led and counted):
        return None
    cursor.at += bool(closing)
    rows: list[Number] = []
    parts = 0
    while not cursor.done() and (not closing or cursor.text() != closing):
        again = cursor.take_any(_AGAIN)
        part = _counted(cursor) or (_part(cursor) if again or parts or led else None)
        if part is None and not closing and parts:
            break
        if part is None or len(rows) + len(part) > _MOST:
            return None
        rows += part
        parts += 1
        cursor.take_any(_JOINING)
    cursor.at += bool(closing)
    times = _in_all(cursor) if len(rows) > 1 else None  # one alone needs no bracket
    if times is None:
        return None
    return RepeatRows(first=rows[0], last=rows[-1], listed=tuple(rows), often=times)


def _in_all(cursor: Cursor) -> Times | None:
    """Read `4 times`, `twice more`, `4 (4, 5) times altogether`."""
    cursor.take_any(word_set("a total of x"))
    led = cursor.tokens[cursor.at - 1].text in {"of", "x"}
    often = cursor.number()
    if often is None:
        return None
    cursor.at += 1
    more = cursor.take("more")
    named = cursor.take_any(word_set("times time")) or often.spelling in {"once", "twice"}
    if not named and not led:
        return None
    times = Times(replace(often, kind=NumberKind.TIME), more=cursor.take("more") or more)
    cursor.take_any(word_set("in all total altogether"))
    return times


def _counted_ahead(cursor: Cursor, ahead: int) -> bool:
    return _counted(Cursor(cursor.tokens, cursor.at + ahead)) is not None


def _counted(cursor: Cursor) -> list[Number] | None:
    """Read `3 rows straight (as Row 2)`, `1 inc row as Row 5`: so many of that row."""
    start = cursor.at
    number = cursor.number()
    many = _plain(number) if number is not None else None
    cursor.at += 1
    cursor.take_any(_KINDS)
    if many is not None and many <= _MOST and cursor.take_any(ROWS):
        cursor.take_any(_KINDS)
        closing = OPENING.get(cursor.text(), "")
        cursor.at += bool(closing)
        cursor.take_any(word_set(", -"))
        alike = cursor.take_any(word_set("as like same in for rep repeat"))
        named = cursor.number() if alike and cursor.take_any(ROWS) else None
        cursor.at += 1
        if named is not None and (not closing or cursor.take(closing)):
            return [named] * many
    cursor.at = start
    return None


_KINDS: Final = word_set(
    "straight even plain more inc increase increasing dec decrease decreasing shaping shaped worked"
)


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
    start = cursor.at
    cursor.at += 1
    named = cursor.take_any(word_set("times time"))
    if not named and number.spelling not in {"once", "twice"}:
        cursor.at = start  # so many rows of the next part
        return 1
    return plain


def _plain(number: Number) -> int | None:
    value = number.value
    one = value[0] if isinstance(value, tuple) and len(value) == 1 else None
    return one if isinstance(one, int) else None
