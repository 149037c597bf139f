"""A part of an earlier row that is worked again by its marks: "work from * to # of Row 6"."""

from collections.abc import Mapping, Sequence
from typing import Final, TypeAlias

from stitchproof.base.records import replace
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.row_names import ROWS
from stitchproof.language.read.steps.reader import MARKS

Tokens: TypeAlias = tuple[Token, ...]

_LENGTH: Final = 7  # tokens of "from * to # of Row 6"
_WORK: Final = frozenset(("work", "working", "rep", "repeat"))


def recalled(tokens: Tokens, rows: Mapping[str, Tokens]) -> Tokens | None:
    """Put into a line what stands between two marks of an earlier row.

    Parameters
    ----------
    tokens : tuple of Token
        The line.
    rows : mapping of str to tuple of Token
        The words of earlier rows by their numbers.

    Returns
    -------
    tuple of Token or None
        None where the line names no part of an earlier row, or that row has no such marks.
    """
    for i, lead in enumerate(tokens[: 1 - _LENGTH]):
        if lead.text != "from":
            continue
        first, to, last, of, row, number = (t.text for t in tokens[i + 1 : i + _LENGTH])
        named = to in {"to", "through"} and of in {"of", "in"} and row in ROWS
        if not named or first not in MARKS or last not in MARKS:
            continue
        between = _between(rows.get(number, ()), first, last)
        if not between:
            return None
        start = i - 1 if i and tokens[i - 1].text in _WORK else i
        place = tokens[start].place.to(tokens[i + _LENGTH - 1].place)
        there = tuple(replace(token, place=place) for token in between)
        return (*tokens[:start], *there, *tokens[i + _LENGTH :])
    return None


def _between(tokens: Sequence[Token], first: str, last: str) -> Sequence[Token]:
    """Give what stands between the first of one mark and the next of another."""
    marks = [(i, token.text) for i, token in enumerate(tokens) if token.kind is TokenKind.MARK]
    start = next((i for i, text in marks if text == first), None)
    if start is None:
        return ()
    end = next((i for i, text in marks if text == last and i > start), None)
    return () if end is None else [t for t in tokens[start + 1 : end] if t.text not in MARKS]
