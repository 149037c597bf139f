"""What may stand around a stated count: work before it, and nothing of the edge behind it."""

from itertools import pairwise
from typing import Final

from stitchproof.language.read.asides import ADORNMENTS, is_aside, makes_nothing
from stitchproof.language.read.count_words import CLOSING, STOPS, Counting, Tokens, word_at
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.stated_words import only_stops
from stitchproof.language.read.statements import (
    read_statements,
)

DASHES: Final = frozenset(("–", "—", "=", "-", "→", "…"))


HARMLESS: Final = word_set(
    "turn join fasten fo finish cut break do don't place pm move mark change changing"
    " switch drop remove rotate end weave carry note rs ws you ss sl slip pull leave"
    " leaving tie and begin now ending being this these there secure keep then fold stuff flatten"
    " rejoin sew insert stuffing stiffen block press starch gather thread close add"
)


ROW_ENDS: Final = word_set(
    "across around end turn join last each every rep repeat off row rows rnd rnds round rounds"
    " times ring even twice once more ch joining all"
)


_MAKES: Final = frozenset(("ch", "chs", "chain", "turn", "join"))


def worked_before(tokens: Tokens, at: int) -> bool:
    """Whether anything but chains and turns stands before: else `12 sc` is the work itself."""
    words = (t.text for t in tokens[:at] if t.kind is TokenKind.WORD)
    return any(word not in _MAKES for word in words)


def ends_a_row(tokens: Tokens, at: int) -> bool:
    """Whether the clause before `at` works to the end of its row."""
    i = at - 1
    while i > 0 and tokens[i].text in STOPS:
        i -= 1
    while i >= 0 and tokens[i].text not in {".", ";"}:
        if tokens[i].text in ROW_ENDS:
            return True
        i -= 1
    return False


def harmless(tokens: Tokens, at: int, bound: int, counting: Counting) -> bool:
    """Whether nothing is worked into the edge from here on: a turn, a join, a remark."""
    i = at
    fresh, talk = True, False
    while i < bound:
        text = tokens[i].text
        if text in CLOSING:
            close = next((j for j in range(i, bound) if tokens[j].text == CLOSING[text]), bound)
            if fresh and word_at(tokens, close + 1) in {
                "times",
                "in",
                "into",
                "x",
                "twice",
                "around",
            }:
                return False
            i, fresh = close + 1, False
            continue
        if text in STOPS or text in {"*", "**", "_"}:
            fresh = True
        elif fresh and _adorns(tokens, i, bound):
            while i < bound and tokens[i].text not in {".", "!"}:
                i += 1
            continue
        elif fresh:
            said = _clause(tokens, i, bound)
            aside = text == "try" or is_aside(said, counting.terms)  # "try it on every so often"
            more = talk and tokens[i - 1].text == "," and makes_nothing(said, counting.terms)
            talk = aside or more
            if not talk and not _harmless_head(tokens, i, bound, counting):
                return False
            fresh = False
        i += 1
    return True


_PUT: Final = word_set(
    "put place insert add attach pop fix secure position install snap set sew glue"
)
_NEAR: Final = 6  # words


def _adorns(tokens: Tokens, at: int, bound: int) -> bool:
    """Whether eyes or buttons are put in: where, and how many stitches apart, makes nothing."""
    near = {token.text for token in tokens[at + 1 : min(at + _NEAR, bound)]}
    return tokens[at].text in _PUT and bool(near & ADORNMENTS)


def _harmless_head(tokens: Tokens, at: int, bound: int, counting: Counting) -> bool:
    text = tokens[at].text
    if text in {"ch", "chain"}:  # the turning chain of the next row
        rest = [t.text for t in tokens[at + 2 : at + 5] if t.text != "("]
        return not rest or rest[0] in {".", ",", ";", "turn", "and", "counts"}
    if text in {"sl", "ss", "slip"}:
        near = {t.text for t in tokens[at : at + 12]}  # into the next, and off: it ends a spiral
        sewn = near & {"together", "tog", "layers", "tube", "seam"} or {"row", "to"} <= near
        return bool(near & {"join", "first", "top", "fasten", "off"}) or bool(sewn)
    if tokens[at].kind is TokenKind.NUMBER:
        statements, end, _ = read_statements(tokens, at, bound, counting, strict=True)
        return bool(statements) and word_at(tokens, end) in {".", ";", "", ","}
    pair = (text, word_at(tokens, at + 1))
    return text in HARMLESS or text in DASHES or pair in _HARMLESS_PAIRS or _in_spirals(tokens, at)


_HARMLESS_PAIRS: Final = frozenset((("f", "/"), ("do", "not")))


def _in_spirals(tokens: Tokens, at: int) -> bool:
    """Whether "work in a spiral", "continue in rounds" begins: how all that follows is worked."""
    ahead = at + 1
    while word_at(tokens, ahead) in {"in", "a", "the", "continuous", "working"}:
        ahead += 1
    spiral = word_at(tokens, ahead) in {"spiral", "spirals", "rounds", "rnds"}
    return word_at(tokens, at) in {"work", "working", "continue"} and spiral and ahead > at + 1


def _clause(tokens: Tokens, at: int, bound: int) -> str:
    """Give the words up to the next stop."""
    end = at
    while end < bound and tokens[end].text not in STOPS:
        end += 1
    return " ".join(t.text for t in tokens[at:end])


def convention_behind(tokens: Tokens, at: int, bound: int) -> bool:
    """Whether `(first 3 chs count as a dc)` stands behind a count, and nothing else."""
    closing = CLOSING.get(word_at(tokens, at), "")
    close = next((i for i in range(at, bound) if tokens[i].text == closing), bound)
    told = any(token.text in _COUNTS for token in tokens[at:close])
    return told and only_stops(tokens, close + 1, bound)


_COUNTS: Final = frozenset(("count", "counts", "counting", "counted"))


def is_range(tokens: Tokens, dash: int) -> bool:
    """Whether a dash joins two numbers: `As Rows 3–7`, but not `Rep Row 5–31 sc`."""
    text, beside = tokens[dash].text, tokens[dash - 1 : dash + 2]
    named = word_at(tokens, dash - 2)
    if text not in {"–", "—"} or tokens[dash - 1].kind is not TokenKind.NUMBER or named in _ONE_ROW:
        return False
    if text == "—" and named not in _ROWS:
        return False
    return len(beside) > 2 and all(  # noqa: PLR2004 - the dash and its neighbours
        one.place.end == other.place.start for one, other in pairwise(beside)
    )


_ONE_ROW: Final = frozenset(("row", "rnd", "round"))
_ROWS: Final = frozenset(("rows", "rounds", "rnds"))
