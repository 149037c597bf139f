"""Rows called by a name: `Rep Dec Row`, `Work Even Row twice`."""

from dataclasses import replace
from typing import Final

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.lex import Token
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor
from stitchproof.language.read.row_schedules import read_phase, read_times
from stitchproof.language.tree import Course, Label, RepeatRows, Unread
from stitchproof.language.walk import moved

_AGAIN: Final = word_set("rep repeat work working")
_NO_NAME: Final = word_set("next last first this following foll previous")
_LONGEST: Final = 4  # words of a name


def row_name(label: Label) -> str:
    """Give the name of a row that has one and no number: `dec row`; empty else."""
    words = label.words.lower().split("(")[0].split()
    named = label.first is None and 1 < len(words) <= _LONGEST and words[-1] in ROWS
    return " ".join(words) if named and words[0] not in _NO_NAME else ""


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
    cursor = Cursor(tokens)
    if not cursor.take_any(_AGAIN):
        return None
    cursor.take("the")
    name = _name(cursor)
    row = named.get(name)
    if row is None or isinstance(row.does, RepeatRows):
        return None
    times: Number = read_times(cursor) or ONE
    cursor.take_any(word_set("more again"))
    rest = _behind_the_count(cursor, course)
    if not rest:
        if read_phase(cursor) is None:
            return None
        return replace(course, does=(Unread("", course.place.shifted(-course.place.start)),))
    own = course.label
    numbered = own.first is not None or own.span is not None
    label = own if numbered else replace(own, span=times)
    apart = row.place.start - course.place.start
    return replace(course, label=label, does=moved(row.does, apart))


def _name(cursor: Cursor) -> str:
    words: list[str] = []
    while len(words) < _LONGEST and cursor.at < len(cursor.tokens):
        words.append(cursor.text())
        cursor.at += 1
        if words[-1] in ROWS:
            return " ".join(words)
    return ""


def _behind_the_count(cursor: Cursor, course: Course) -> bool:
    """Whether nothing but the stated count is left."""
    if cursor.done():
        return True
    at = cursor.at
    while cursor.tokens[at].text in STOPS | {"(", "["}:
        at += 1
    stated = course.stated.statements[0].place if course.stated else None
    return stated is not None and stated.start <= cursor.tokens[at].place.start
