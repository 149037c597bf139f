"""Rows worked again with others worked even between: `[5 rnds even, rep Rnd 7] 4 times`.

The same is said by `Rep Rnd 7 every 6th rnd 4 times`. Both come to phases: on every so many rows,
so often.
"""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number, NumberKind, Value
from stitchproof.language.read.even_rows import MANNER, PLAIN, even_rows, whole_number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor, read_named_rows
from stitchproof.language.read.row_often import rows_back
from stitchproof.language.read.row_schedules import Phase, read_phase
from stitchproof.language.read.shaping_sums import phases_of
from stitchproof.language.read.shaping_until import count_at_end
from stitchproof.language.read.steps.reader import OPENING
from stitchproof.language.tree import RepeatRows

_AGAIN: Final = word_set("rep repeat repeating work working")
_GOING_ON: Final = word_set("cont continue continuing keep work working to in and but always also")
_ARTICLES: Final = word_set("the a an another one 1")
_JOINING: Final = word_set(", ; then and followed by next")
_SHAPED_AS: Final = word_set("dec decrease decreasing inc increase increasing shape shaping")
_LIKE: Final = word_set("as in for of on like")
_TIMES: Final = word_set("times time")
_ONCE: Final = word_set("once again more")
_IN_ALL: Final = word_set("in all total altogether")
_LEAD: Final = 8  # words before `repeating Row 4`


def read_even_between(cursor: Cursor) -> RepeatRows | None:
    """Read an earlier row worked again on every so many rows; None for anything else."""
    start = cursor.at
    made = _turns(cursor)
    if made is None:
        cursor.at = start
        made = _on_every(cursor)
    if made is None:
        cursor.at = start
    return made


# --------------------------------------------------------------------------- turn after turn


def _turns(cursor: Cursor) -> RepeatRows | None:
    """Read `[Work 5 rows even, then rep Row 7] 4 times` and the like."""
    closing = OPENING.get(cursor.text(), "")
    star = cursor.take("*")
    cursor.at += bool(closing)
    even, row, leading = _one_turn(cursor)
    if even is None or row is None or (closing and not cursor.take(closing)):
        return None
    every = _more(even)
    if every is None:
        return None
    until = None
    times: Number | None = ONE
    if star:
        times = _from_the_star(cursor)
        until = count_at_end(cursor) if times is None else None
    elif closing:
        times = _so_often(cursor)
        until = count_at_end(cursor) if times is None else None
    else:
        times = _these_again(cursor, every) or _behind_a_comma(cursor) or ONE
    if times is None and until is None:
        return None
    return replace(row, phases=((every, times),), until_count=until, leading=leading)


def _one_turn(cursor: Cursor) -> tuple[Number | None, RepeatRows | None, bool]:
    """Read the even rows of a turn and its shaped one, and tell whether that one leads."""
    even = even_rows(cursor)
    leading = even is None
    row = None
    if even is not None and not cursor.take_any(_JOINING) and cursor.text() in _LIKE:
        return None, None, False  # "3 rnds even as for Rnd 5" names the row they are worked as
    row = _row(cursor)
    if leading and row is not None and cursor.take_any(_JOINING):
        even = even_rows(cursor)
    return even, row, leading


def _row(cursor: Cursor) -> RepeatRows | None:
    """Read `rep Row 7`, `work Rnd 7 once more`, `the last row again`: one earlier row."""
    start = cursor.at
    cursor.take_any(_AGAIN)
    cursor.take_any(_LIKE)
    cursor.take_any(_ARTICLES)
    named = read_named_rows(cursor) or rows_back(cursor)
    single = named is not None and (named.back == ONE or named.first is named.last is not None)
    if named is None or not single:
        cursor.at = start
        return None
    cursor.take_any(_ONCE)
    return named


# --------------------------------------------------------------------------- how often


def _so_often(cursor: Cursor) -> Number | None:
    """Read `4 times`, `twice`, `4 (4, 5) times in all`, `3 more times` behind a turn."""
    start = cursor.at
    cursor.take_any(word_set("a total of x for"))
    led = cursor.at > start
    number = whole_number(cursor)
    if number is None:
        cursor.at = start
        return None
    more = cursor.take("more")
    words = number.spelling.split(" ")[0]
    told = cursor.take_any(_TIMES) or words in {"once", "twice", "thrice"} or led
    more = cursor.take("more") or more
    cursor.take_any(_IN_ALL)
    if not told:
        cursor.at = start
        return None
    number = replace(number, kind=NumberKind.COUNT)
    return _more(number) if more else number


def _from_the_star(cursor: Cursor) -> Number | None:
    """Read `; rep from * 3 more times` behind a turn: how often it is worked in all."""
    start = cursor.at
    cursor.take_any(STOPS)
    if not cursor.take_any(_AGAIN) or not cursor.take("from", "*"):
        cursor.at = start
        return None
    cursor.take("to", "*")
    here = cursor.at
    number = _so_often(cursor)
    if number is None:
        return None
    said = {token.text for token in cursor.tokens[here : cursor.at]}
    said |= {word for token in cursor.tokens[here : cursor.at] for word in token.text.split(" ")}
    in_all = bool(said & (_IN_ALL | {"more"}))
    return number if in_all else _more(number)


def _these_again(cursor: Cursor, every: Number) -> Number | None:
    """Read `. Rep these 6 rows 4 more times`: how often the turn is worked in all."""
    start = cursor.at
    cursor.take_any(STOPS | {"and", "then"})
    if cursor.at > start and cursor.take_any(_AGAIN):
        cursor.take("the")
        if cursor.take_any(word_set("these last previous this")):
            number = whole_number(cursor)
            whole = number is None or number.value == every.value
            if whole and (cursor.take_any(ROWS) or cursor.take_any(word_set("sequence turn"))):
                here = cursor.at
                often = _so_often(cursor)
                said = {token.text for token in cursor.tokens[here : cursor.at]}
                if often is not None:
                    return often if said & (_IN_ALL | {"more"}) else _more(often)
    cursor.at = start
    return None


def _behind_a_comma(cursor: Cursor) -> Number | None:
    """Read `, 4 times` behind a turn that stands in no bracket."""
    start = cursor.at
    number = _so_often(cursor) if cursor.take(",") else None
    if number is None:
        cursor.at = start
    return number


def _more(number: Number) -> Number | None:
    """Give one more in every size; None where the number is a formula."""
    if not isinstance(number.value, tuple):
        return None
    values: tuple[Value, ...] = tuple(
        None if value is None else value + 1 for value in number.value
    )
    first, *others = map(str, values)
    spelling = f"{first} ({', '.join(others)})" if others else first
    return replace(number, value=values, spelling=spelling)


# --------------------------------------------------------------------------- every so many rows


def _on_every(cursor: Cursor) -> RepeatRows | None:
    """Read `Rep Row 7 every 6th row 4 times, then every 4th row twice`."""
    _past_a_lead(cursor)
    shaped = cursor.take_any(_SHAPED_AS)
    if not cursor.take_any(_LIKE if shaped else _AGAIN):
        return None
    row = _row(cursor)
    if row is None:
        return None
    phases: list[Phase] = []
    while True:
        start = cursor.at
        cursor.take_any(STOPS | {"and", "then"} if phases else frozenset((",",)))
        phase = read_phase(cursor)
        if phase is None:
            cursor.at = start
            break
        phases.append(phase)
    until = count_at_end(cursor)
    last = phases[-1] if phases else None
    if last is None or all(phase.every == ONE for phase in phases):
        return None
    if any(phase.first is not None and phase.times and not phase.told for phase in phases):
        return None  # nobody says whether the first is one of them
    if any(phase.times is None for phase in phases[:-1]) or (last.times is None) != bool(until):
        return None
    return replace(row, phases=phases_of(phases, more=True), until_count=until)


def _past_a_lead(cursor: Cursor) -> None:
    """Go past `Continue in hdc,`, `Work even,` before `repeating Row 4 every 6th row`."""
    start = cursor.at
    if cursor.take_any(_GOING_ON):
        for _ in range(_LEAD):
            if cursor.text() in _AGAIN | _SHAPED_AS and cursor.text() != "even":
                break
            cursor.at += cursor.text() in MANNER | PLAIN | STOPS | _GOING_ON | ROWS
        if cursor.at > start and cursor.text() in _AGAIN | _SHAPED_AS:
            return
    cursor.at = start
