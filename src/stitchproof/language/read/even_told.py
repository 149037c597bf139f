"""Rows worked even: within a cycle (`[4 rnds even, then 1 inc rnd as Rnd 3] 4 times`), spelled out.

Which row of a cycle that is, the rows before tell: the last one that works one stitch in each. The
line then says `4 rnds even as Rnd 2`.
"""

from collections.abc import Sequence
from typing import Final, TypeAlias

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS
from stitchproof.language.tree import (
    Chain,
    Course,
    Each,
    Join,
    Make,
    Remark,
    RepeatRows,
    Steps,
    Turn,
)

Tokens: TypeAlias = tuple[Token, ...]

_EVEN: Final = word_set("even straight plain")
_LEADS: Final = word_set("rep repeat work ( [")
_FURTHEST: Final = 60  # tokens of such a line
_AS: Final = word_set("as like ( [ in same")


def with_even_rows(tokens: Tokens, before: Sequence[Course]) -> Tokens | None:
    """Give a line with the row that its even rows are worked as.

    Parameters
    ----------
    tokens : tuple of Token
        The words of the line behind its label.
    before : sequence of Course
        The lines before it.

    Returns
    -------
    tuple of Token or None
        None where the line says something else, or no row before is worked even.
    """
    if not tokens or tokens[0].text not in _LEADS or len(tokens) > _FURTHEST:
        return None
    ends = [i for i in range(3, len(tokens)) if _tells_no_row(tokens, i)]
    others = any(t.text == "as" and tokens[i + 1].text in ROWS for i, t in enumerate(tokens[:-1]))
    row = _last_even(before) if ends and others else None
    if row is None:
        return None
    told: list[Token] = []
    for i, token in enumerate(tokens):
        if i in ends:
            place = tokens[i - 1].place
            words = (Token(TokenKind.WORD, word, place, None, word) for word in ("as", "row"))
            told += (*words, Token(TokenKind.NUMBER, row.spelling, place, row))
        told.append(token)
    return tuple(told)


def spelled_out_even(tokens: Tokens) -> int:
    """Count the tokens of `Work even in hdc:`, `Work even.` before a row; 0: no such words."""
    if len(tokens) < _SHORTEST or tokens[0].text not in _WORKS or tokens[1].text not in _EVEN:
        return 0
    for i, token in enumerate(tokens[2:_LEAD], 2):
        if token.text in {":", ",", "."}:
            return i + 1 if tokens[i + 1 :] else 0
        if token.kind is not TokenKind.WORD or token.text in ROWS | _LENGTHS:
            return 0
    return 0


def works_whole_row(steps: Steps) -> bool:
    """Whether steps begin with a chain or work into each stitch: a row of their own."""
    return any(
        isinstance(step, Make) and isinstance(step.at, Each) for step in steps
    ) and isinstance(steps[0], Chain | Make)


_WORKS: Final = word_set("work continue cont working continuing")
_LENGTHS: Final = word_set("for until till")
_SHORTEST: Final = 4  # tokens of `Work even: dc`
_LEAD: Final = 9  # tokens before such a colon


def _tells_no_row(tokens: Tokens, end: int) -> bool:
    """Tell whether `4 rnds even`, `4 even rnds` ends at a token, and no row is named behind."""
    words = {tokens[end - 1].text, tokens[end - 2].text}
    counted = tokens[end - 3].number is not None
    even = bool(words & _EVEN) and bool(words & ROWS)
    return counted and even and tokens[end].text not in _AS


def _last_even(before: Sequence[Course]) -> Number | None:
    """Find the number of the last row that works one stitch in each and nothing else."""
    for course in reversed(before):
        if course.label.first is not None and _is_even(course):
            return course.label.first
    return None


def _is_even(course: Course) -> bool:
    if isinstance(course.does, RepeatRows):
        return False
    made = [s for s in course.does if not isinstance(s, Chain | Turn | Join | Remark)]
    match made:
        case [Make() as make]:
            return make.each == ONE and make.stitch.together == 1 and isinstance(make.at, Each)
        case _:
            return False
