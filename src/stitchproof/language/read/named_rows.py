"""Rows called by a name: `Rep Dec Row`, `Work Even Row twice`."""

import re
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Final

from stitchproof.base.place import Span
from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.read.even_between import read_even_between
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor
from stitchproof.language.read.row_schedules import (
    Phase,
    read_phase,
    read_rows_by_number,
    read_times,
)
from stitchproof.language.tree import (
    Course,
    Either,
    FastenOff,
    Group,
    Label,
    Make,
    Repeat,
    RepeatRows,
    Shape,
    Skip,
    Steps,
    Unread,
)
from stitchproof.language.walk import moved

_AGAIN: Final = word_set("rep repeat repeating work working")
_LIKE: Final = word_set("as same like for")
_ARTICLES: Final = word_set("the a an")
_WORKING_IN: Final = word_set("working repeating rep repeat with")
_FURTHEST_CLAUSE: Final = 14  # words before "working a dec rnd"
_BEFORE_A_COUNT: Final = frozenset(("(", "[", "–", "—", "-", "="))
_NO_NAME: Final = word_set("next last first this following foll previous")
_LONGEST: Final = 4  # words of a name
_FURTHEST: Final = 8  # words between going on and the name of the row
_TIMES: Final = word_set("times time more x")


_BESIDE: Final = re.compile(r"[(\[](?P<name>[^()\[\]]{1,40})[)\]]")


def row_names(label: Label) -> tuple[str, ...]:
    """Give the names of a row: `dec row`, `cuff rnd 2`, the `inc row` of `Row 5 (Inc Row)`."""
    told = label.words.lower()
    own = [] if label.first is not None else [told.split("(")[0]]
    beside = [m["name"] for m in _BESIDE.finditer(told)] if "(" in told or "[" in told else []
    names: list[str] = []
    for words in map(str.split, (*own, *beside)):
        kind = words[-2] if len(words) > 2 and words[-1].isdigit() else words[-1] if words else ""  # noqa: PLR2004
        if 1 < len(words) <= _LONGEST and kind in ROWS and words[0] not in _NO_NAME:
            names.append(_as_one_name(words))
    return tuple(names)


def _as_one_name(words: Sequence[str]) -> str:
    """Give one spelling of a name: the `decrease round` is the `dec rnd`."""
    return " ".join(_SHORT.get(word, word) for word in words)


_SHORT: Final = MappingProxyType(
    {"decrease": "dec", "increase": "inc", "decreasing": "dec", "increasing": "inc"}
    | {"round": "rnd", "rounds": "rnd", "rnds": "rnd", "rows": "row"}
)
_BETWEEN: Final = word_set("every each ev alternate alt even straight plain without from")
_FURTHEST_NAME: Final = 60  # tokens of such a line


def with_row_numbers(
    tokens: tuple[Token, ...], named: Mapping[str, Course], before: Sequence[Course]
) -> tuple[Token, ...] | None:
    """Give a line with `row 7` for the `dec row` that is worked again among others, worked even.

    Parameters
    ----------
    tokens : tuple of Token
        The words of the line behind its label.
    named : mapping of str to Course
        The named rows so far.
    before : sequence of Course
        The lines before it.

    Returns
    -------
    tuple of Token or None
        None where it names no such row, or one that has no number and is not the last.
    """
    if not named or len(tokens) > _FURTHEST_NAME:
        return None
    if not {token.text for token in tokens} & _BETWEEN:
        return None
    for i in range(len(tokens)):
        cursor = Cursor(tokens, i)
        row = named.get(_name(cursor))
        if row is None:
            continue
        place = tokens[i].place.to(tokens[cursor.at - 1].place)
        told: tuple[Token, ...]
        if row.label.first is not None and row.label.first == row.label.last:
            number = replace(row.label.first, place=place)
            told = (
                Token(TokenKind.WORD, "row", place, None, "row"),
                Token(TokenKind.NUMBER, number.spelling, place, number, number.spelling),
            )
        elif before and before[-1] is row:
            words = ("last", "row")
            told = tuple(Token(TokenKind.WORD, word, place, None, word) for word in words)
        else:
            return None
        made = (*tokens[:i], *told, *tokens[cursor.at :])
        return made if read_even_between(Cursor(made)) is not None else None
    return None


def again_by_name(
    course: Course, tokens: tuple[Token, ...], named: dict[str, Course]
) -> Course | None:
    """Read a line that works a named row again; None where it is another line.

    Parameters
    ----------
    course : Course
        The line as it was read.
    tokens : tuple of Token
        Its words behind the label.
    named : dict of str to Course
        The named rows so far.
    """
    if not named:
        return None
    cursor = Cursor(tokens, begins=begins_at(course.label))
    _pass_going_on(cursor, named if course.label.several else {})
    if not (cursor.take_any(_AGAIN) or cursor.take_any(_LIKE)):
        return None
    row = named.get(_named(cursor))
    told = isinstance(course.does, RepeatRows) and bool(course.does.phases)
    if row is None or told or isinstance(row.does, RepeatRows):
        return None
    times: Number = read_times(cursor) or ONE
    cursor.take_any(word_set("more again"))
    ends = _fastens_off(cursor)
    rest = bool(ends) or _behind_the_count(cursor, course)
    if not rest:
        phase = read_phase(cursor)
        phases = read_rows_by_number(cursor) or ((phase,) if phase is not None else ())
        if not phases:
            return None
        place = course.place.shifted(-course.place.start)
        shape = _as_schedule(row.does, phases, place, several=course.label.several)
        known = shape is not None and _behind_the_count(cursor, course)
        return replace(course, does=(shape if known and shape else Unread("", place),))
    own = course.label
    numbered = own.first is not None or own.span is not None
    label = own if numbered else replace(own, span=times)
    apart = row.place.start - course.place.start
    return replace(course, label=label, does=(*moved(row.does, apart), *ends))


def _named(cursor: Cursor) -> str:
    """Read `the dec row`, `as a dec rnd` behind "working": the name of a row."""
    cursor.take_any(_LIKE)
    cursor.take_any(_ARTICLES)
    return _name(cursor)


def _works_in_between(cursor: Cursor, named: dict[str, Course]) -> int:
    """Find `working a dec rnd` behind `Hdc in each st around,`; 0 where it does not stand there."""
    for ahead in range(1, _FURTHEST_CLAUSE):
        if cursor.text(ahead) not in STOPS or cursor.text(ahead + 1) not in _WORKING_IN:
            continue
        there = Cursor(cursor.tokens, cursor.at + ahead + 2)
        if _named(there) in named:
            return ahead + 1
    return 0


def _pass_going_on(cursor: Cursor, named: dict[str, Course]) -> None:
    """Go past `Continue in hdc,`, `Hdc in each st around,` before `working a dec rnd every …`."""
    cursor.at += _works_in_between(cursor, named)
    start = cursor.at
    if cursor.take_any(word_set("cont continue continuing work working")):
        for _ in range(_FURTHEST):
            plain = cursor.text() not in STOPS | _AGAIN and cursor.number() is None
            cursor.at += plain and not cursor.done()
        cursor.take(",")
        cursor.take_any(word_set("and but"))
        if cursor.text() in _AGAIN:
            return
    cursor.at = start


def _as_schedule(
    does: Steps, phases: tuple[Phase, ...], place: Span, *, several: bool
) -> Shape | None:
    """Say what a row that shapes its ends comes to, worked every so many rows; None for others."""
    made = [step for step in does if isinstance(step, Make)]
    last = phases[-1]
    if (last.times is None and not several) or last.first is not None or not made:
        return None
    gains = [_gain(step) for step in made]
    ends = [gains[0], *([gains[-1]] if len(gains) > 1 else [])]
    by = max(ends, key=abs)
    if not by or any(gains[1:-1]) or any(gain not in {0, by} for gain in ends):
        return None
    if any(isinstance(step, Group | Repeat | Skip | Either | Unread) for step in does):
        return None
    change = "increased" if by > 0 else "decreased"
    times = sum(gain == by for gain in ends)
    told = tuple((phase.every, phase.times) for phase in phases)
    return Shape(change, plain(abs(by)), told, ends=times, place=place)


def begins_at(label: Label | None, *, last: bool = False) -> int:
    """Give the number of the first row of a label, or the last; 0 where sizes have others."""
    number = None if label is None else label.last if last else label.first
    value = number.value if number is not None else None
    row = value[0] if isinstance(value, tuple) and len(set(value)) == 1 else None
    return row if isinstance(row, int) else 0


def _gain(step: Make) -> int:
    """Count the stitches that a step makes more than it takes, where it takes one place."""
    if step.stitch.together > 1:
        return 1 - step.stitch.together
    number = step.each.value
    each = number[0] if isinstance(number, tuple) and len(number) == 1 else 1
    return each - 1 if isinstance(each, int) else 0


def _name(cursor: Cursor) -> str:
    words: list[str] = []
    while len(words) < _LONGEST and cursor.at < len(cursor.tokens):
        words.append(cursor.text())
        cursor.at += 1
        if words[-1] in ROWS:
            number = cursor.text()
            if len(words) > 1 and number.isdigit() and cursor.text(1) not in _TIMES:
                cursor.at += 1
                words.append(number)
            return _as_one_name(words)
    return ""


def _fastens_off(cursor: Cursor) -> Steps:
    """Read `. Fasten off.` at the end."""
    at = cursor.at
    while cursor.at < len(cursor.tokens) and cursor.text() in STOPS:
        cursor.at += 1
    start = cursor.at
    if cursor.take("fasten", "off") and cursor.done():
        tokens = cursor.tokens
        return (FastenOff(place=tokens[start].place.to(tokens[start + 1].place)),)
    cursor.at = at
    return ()


def _behind_the_count(cursor: Cursor, course: Course) -> bool:
    """Whether nothing but the stated count is left."""
    if cursor.done():
        return True
    at = cursor.at
    while at < len(cursor.tokens) and cursor.tokens[at].text in STOPS | _BEFORE_A_COUNT:
        at += 1
    if at == len(cursor.tokens):
        return True
    stated = course.stated.statements[0].place if course.stated else None
    return stated is not None and stated.start <= cursor.tokens[at].place.start
