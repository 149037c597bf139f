"""Rows called by their names that are the last ones: `Rep Neck Rows 2 and 3`.

Rows outside the count of the others have no number to be told by. Where those that a line names
are just the rows before it, in their order, the line says `Rep last 2 rows`.
"""

import re
from collections.abc import Mapping, Sequence
from typing import Final, TypeAlias

from stitchproof.base.records import replace
from stitchproof.language.number import plain
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, Cursor
from stitchproof.language.tree import Course

Tokens: TypeAlias = tuple[Token, ...]

_REPEAT: Final = word_set("rep repeat repeating work working alternate alternating")
_AND: Final = frozenset((",", "and", "&", "+"))
_RANGE: Final = frozenset(("-", "–", "to", "through", "thru"))
_EVEN: Final = word_set("plain even straight")
_ARTICLES: Final = word_set("the a an")
_MOST_WORDS: Final = 3  # of a name, before its row
_MOST_ROWS: Final = 20
_SINGULAR: Final = {"rows": "row", "rnds": "rnd", "rounds": "round"}


def as_last_rows(
    tokens: Tokens, named: Mapping[str, Course], before: Sequence[Course]
) -> Tokens | None:
    """Give a line with `last 2 rows` for the names of just those rows.

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
        None where the line names no rows, or others than the last ones.
    """
    cursor = Cursor(tokens)
    if not cursor.take_any(_REPEAT):
        return None
    cursor.take("between")
    start = cursor.at
    names = _names(cursor)
    count = len(names)
    if count < 2 or not (_are_last(names, named, before) or _in_lines(names, before)):  # noqa: PLR2004
        return None
    place = tokens[start].place.to(tokens[cursor.at - 1].place)
    number = replace(plain(count), place=place)
    last = Token(TokenKind.WORD, "last", place, None, "last")
    many = Token(TokenKind.NUMBER, str(count), place, number, str(count))
    kind = Token(TokenKind.WORD, "rows", place, None, "rows")
    return (*tokens[:start], last, many, kind, *tokens[cursor.at :])


def _are_last(names: list[str], named: Mapping[str, Course], before: Sequence[Course]) -> bool:
    """Whether names are those of the last lines, each a row; `plain row` may be any of them."""
    rows = list(before[-len(names) :])
    if len(rows) < len(names) or any(row.label.several for row in rows):
        return False
    known = [named.get(name) is row for name, row in zip(names, rows, strict=True)]
    unnamed = [name for name, is_it in zip(names, known, strict=True) if not is_it]
    others = any(name.split()[0] not in _EVEN or name in named for name in unnamed)
    return any(known) and not others


_LABEL: Final = re.compile(
    r"(?P<stem>[a-z’'-]+(?: [a-z’'-]+){0,2} (?:row|rn?d|round))s? (?P<first>\d{1,3})"
    r"(?:\s*[-–]\s*(?P<last>\d{1,3}))?(?!\s*[\d(\[])"
)


def _in_lines(names: list[str], before: Sequence[Course]) -> bool:
    """Whether names are those of the last lines, some of which are several: `Sleeve Rows 4-6`."""
    found: list[str] = []
    for course in reversed(before):
        told = _LABEL.match(course.label.words.lower())
        if told is None or len(found) >= len(names):
            break
        first, last = int(told["first"]), int(told["last"] or told["first"])
        if last - first > _MOST_ROWS:
            break
        found = [f"{told['stem']} {n}" for n in range(first, last + 1)] + found
    return found == names


def _names(cursor: Cursor) -> list[str]:
    """Read `the neck rows 2 and 3`, `the dec row and the plain row` as the name of each row."""
    names: list[str] = []
    while True:
        start = cursor.at
        cursor.take_any(_AND if names else frozenset())
        cursor.take_any(_ARTICLES)
        found = _one(cursor)
        if not found:
            cursor.at = start
            return names
        names += found


def _one(cursor: Cursor) -> list[str]:
    words: list[str] = []
    while cursor.text() not in ROWS:
        words.append(cursor.text())
        cursor.at += 1
        if len(words) > _MOST_WORDS or cursor.at >= len(cursor.tokens):
            return []
    kind = _SINGULAR.get(cursor.text(), cursor.text())
    cursor.at += 1
    if not words:
        return []
    stem = " ".join((*words, kind))
    numbers = _numbers(cursor)
    return [f"{stem} {number}" for number in numbers] if numbers else [stem]


def _numbers(cursor: Cursor) -> list[int]:
    """Read `2 and 3`, `1-4`, `1, 2 and 3` behind the name of rows."""
    found: list[int] = []
    while True:
        start = cursor.at
        joined = cursor.take_any(_AND if found else frozenset())
        ranged = bool(found) and not joined and cursor.take_any(_RANGE)
        number = cursor.number()
        value = number.value[0] if number and isinstance(number.value, tuple) else None
        times = cursor.text(1) in {"times", "time", "more"}
        if not isinstance(value, int) or times or (found and not (joined or ranged)):
            cursor.at = start
            return found
        cursor.at += 1
        if ranged and not found[-1] < value <= found[-1] + _MOST_ROWS:
            return []
        found += range(found[-1] + 1, value + 1) if ranged else [value]
