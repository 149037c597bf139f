"""Rows worked in turn: which is first (`Beginning with Row 3, rep Rows 2 and 3`), a turn begun."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import Number, Value, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor, read_named_rows
from stitchproof.language.tree import RepeatRows

_BEGINNING: Final = word_set("beginning beg starting commencing begin start")
_WORKED_AGAIN: Final = word_set("rep repeat reps rpt repeating work working alternate alternating")
_MOST: Final = 60  # rows of one turn


def first_of_them(cursor: Cursor) -> int | None:
    """Read `Beginning with a Row 3,` before rows that are worked in turn; None if none is named."""
    start = cursor.at
    number = _named(cursor)
    cursor.take_any(frozenset((",", "and")))
    if number is None or cursor.text() not in _WORKED_AGAIN:
        cursor.at = start
        return None
    return number


def begun_with(cursor: Cursor, made: RepeatRows) -> RepeatRows:
    """Read `beginning with Row 3` behind rows that are worked in turn."""
    start = cursor.at
    number = _named(cursor)
    again = None if number is None else turned(made, number)
    if again is None or not (cursor.done() or cursor.text() in STOPS):
        cursor.at = start
        return made
    return again


def turned(made: RepeatRows, first: int) -> RepeatRows | None:
    """Let rows worked in turn begin with one of them; None where it is none of them."""
    rows = [_value(number) for number in made.listed] or _between(made)
    if first not in rows or None in rows:
        return None
    at = rows.index(first)
    order = tuple(plain(row) for row in (*rows[at:], *rows[:at]) if row is not None)
    return made if at == 0 else replace(made, first=order[0], last=order[-1], listed=order)


def then_begun(cursor: Cursor, made: RepeatRows) -> RepeatRows:
    """Read `, then Rows 2 and 3 once more` behind `Rep Rows 2-7 nine times`: a turn begun."""
    start = cursor.at
    cursor.take_any(frozenset((",", ";")))
    cursor.take_any(frozenset(("and", "followed")))
    if made.often is None or made.then_to is not None or not cursor.take_any(_THEN):
        cursor.at = start
        return made
    cursor.take_any(_WORKED_AGAIN)
    rows = read_named_rows(cursor)
    cursor.take_any(frozenset(("once", "again")))
    cursor.take_any(frozenset(("more", "again")))
    ends = cursor.done() or cursor.text() in STOPS
    if rows is None or not ends or _begins(rows) != _begins(made) or _begins(rows) is None:
        cursor.at = start
        return made
    return replace(made, then_to=rows.listed[-1] if rows.listed else rows.last or rows.first)


_THEN: Final = frozenset(("then", "by"))


def _begins(rows: RepeatRows) -> tuple[Value, ...] | None:
    """Give the number of the first of some rows, where it is written."""
    first = rows.listed[0] if rows.listed else rows.first
    return first.value if first is not None and isinstance(first.value, tuple) else None


def _named(cursor: Cursor) -> int | None:
    """Read `beginning with a row 3`, `starting on Rnd 3`."""
    if not cursor.take_any(_BEGINNING):
        return None
    cursor.take_any(frozenset(("with", "on", "at", "from", "a", "an", "the")))
    if not cursor.take_any(ROWS):
        return None
    number = cursor.number()
    cursor.at += number is not None
    return _value(number)


def _between(made: RepeatRows) -> list[int | None]:
    low, high = _value(made.first), _value(made.last)
    if low is None or high is None or not 0 <= high - low < _MOST:
        return []
    return list(range(low, high + 1))


def _value(number: Number | None) -> int | None:
    match number.value if number is not None else None:
        case (int(value),):
            return value
        case _:
            return None
