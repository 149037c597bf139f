"""Rows worked again with another number between their shaping: `working 3 sc between increases`.

The number is told outright. How many more that is than in the row that is named, that row tells:
the line then says `working 1 more sc between increases`.
"""

from collections.abc import Sequence
from typing import Final, TypeAlias

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, plain
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS
from stitchproof.language.tree import Course, Make, Next, Repeat, RepeatRows

Tokens: TypeAlias = tuple[Token, ...]

_UNITS: Final = word_set("st sts stitch stitches sc hdc dc htr tr")
_SHAPED: Final = word_set("inc incs increase increases dec decs decrease decreases")
_AGAIN: Final = word_set("rep repeat as same")
_DEEPEST: Final = 40  # rows that stand on one another in this way


def with_difference(tokens: Tokens, before: Sequence[Course]) -> Tokens | None:
    """Give a line with how many more or fewer stitches it has between its shaping.

    Parameters
    ----------
    tokens : tuple of Token
        The words of the line behind its label.
    before : sequence of Course
        The lines before it.

    Returns
    -------
    tuple of Token or None
        None where the line says something else, or nothing is known of the row that it names.
    """
    if not tokens or tokens[0].text not in _AGAIN:
        return None
    at = _told(tokens)
    had = _between(_named(tokens, before), before) if at else None
    number = tokens[at].number if at else None
    value = number.value if number is not None else None
    if had is None or not isinstance(value, tuple) or len(value) != 1:
        return None
    by = value[0] - had if isinstance(value[0], int) else 0
    if not by:
        return None
    place = tokens[at].place
    told = Token(TokenKind.NUMBER, str(abs(by)), place, replace(plain(abs(by)), place=place))
    way = "more" if by > 0 else "fewer"
    return (*tokens[:at], told, Token(TokenKind.WORD, way, place, None, way), *tokens[at + 1 :])


def _told(tokens: Tokens) -> int:
    """Find the number of `3 sc between increases`; 0 where none stands."""
    for i in range(1, len(tokens) - 3):
        unit, between, which = (token.text for token in tokens[i + 1 : i + 4])
        which = tokens[i + 4].text if which == "the" and i + 4 < len(tokens) else which
        shaped = between == "between" and which in _SHAPED
        if tokens[i].kind is TokenKind.NUMBER and unit in _UNITS and shaped:
            return i
    return 0


def _named(tokens: Tokens, before: Sequence[Course]) -> Course | None:
    """Find the row of `Repeat round 4`, `Rep last rnd`."""
    for i, token in enumerate(tokens[:4]):
        follows = tokens[i + 1].text if i + 1 < len(tokens) else ""
        if token.text in {"last", "previous"} and follows in ROWS:
            return before[-1] if before else None
        if token.text in ROWS and i + 1 < len(tokens) and tokens[i + 1].number is not None:
            return _numbered(tokens[i + 1].number, before)
    return None


def _numbered(number: object, before: Sequence[Course]) -> Course | None:
    return next(
        (c for c in reversed(before) if c.label.first == number and not c.label.several), None
    )


def _between(course: Course | None, before: Sequence[Course]) -> int | None:
    """Count the plain stitches between the shaping of a row; None where that is not plain."""
    more = 0
    for _ in range(_DEEPEST):
        if course is None:
            return None
        does = course.does
        if not isinstance(does, RepeatRows):
            found = _in_repeat(does)
            return None if found is None else found + more
        one = does.first is not None and does.first == does.last and not does.extra
        if not one and does.back != ONE:
            return None
        more += does.between
        above = before[: before.index(course)]
        course = _numbered(does.first, above) if one else above[-1] if above else None
    return None


def _in_repeat(steps: Sequence[object]) -> int | None:
    repeats = [step for step in steps if isinstance(step, Repeat)]
    body = repeats[0].body if len(repeats) == 1 else ()
    straight = [
        step
        for step in body
        if isinstance(step, Make) and step.each == ONE and step.stitch.together == 1
    ]
    if len(straight) != 1 or len(body) != 2:  # noqa: PLR2004 - it and what shapes
        return None
    at = straight[0].at
    value = at.number.value if isinstance(at, Next) else ()
    return value[0] if isinstance(value, tuple) and isinstance(value[0], int) else None
