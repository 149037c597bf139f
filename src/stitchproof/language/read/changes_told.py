"""How a count differs from the one before it: `44 sts; 4 sts more`, `36 sts, 2 fewer`."""

from typing import Final

from stitchproof.language.number import NumberKind
from stitchproof.language.read.count_words import CLOSING, STOPS, Counting, Tokens, word_at
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.units import read_unit
from stitchproof.language.tree import STITCH, Statement

_CHANGES: Final = {
    "more": "increased",
    "extra": "increased",
    "fewer": "decreased",
    "less": "decreased",
}
_STITCHES: Final = word_set("st sts stitch stitches")
_CLOSED: Final = STOPS | frozenset(CLOSING.values())


def more_or_fewer(tokens: Tokens, at: int, bound: int) -> tuple[Statement, int] | None:
    """Read `4 sts more`, `4 more sts`, `4 more than last row` behind another count."""
    number = tokens[at].number if tokens[at].kind is TokenKind.NUMBER else None
    if number is None or number.kind is not NumberKind.COUNT:
        return None
    i = at + 1
    named = word_at(tokens, i) in _STITCHES
    i += named
    change = _CHANGES.get(word_at(tokens, i), "")
    if not change:
        return None
    i += 1
    if not named and word_at(tokens, i) in _STITCHES:
        named = True
        i += 1
    if word_at(tokens, i) == "than":
        while i < bound and tokens[i].kind is TokenKind.WORD:
            i += 1
    if i < bound and tokens[i].text not in _CLOSED:
        return None
    place = tokens[at].place.to(tokens[i - 1].place)
    return Statement(number, STITCH, "st" if named else "", change, place=place), i


def as_many(
    tokens: Tokens, at: int, before: Statement, counting: Counting
) -> tuple[Statement, int] | None:
    """Read `as many ch sps`, `the same number of ch-1 sps` behind another count."""
    start = at
    for words in _AS_MANY:
        if tuple(word_at(tokens, at + i) for i in range(len(words))) == words:
            at += len(words)
            break
    unit = read_unit(tokens, at, counting.terms, counting.specials) if at > start else None
    if unit is None or not unit.known:
        return None
    place = tokens[start].place.to(tokens[unit.end - 1].place)
    return Statement(before.number, unit.noun, unit.words, place=place), unit.end


_AS_MANY: Final = (("as", "many"), ("the", "same", "number", "of"), ("same", "number", "of"))
