"""Words of a stated count: what ends it, and what may stand beside it without being counted."""

from collections.abc import Mapping
from dataclasses import field
from types import MappingProxyType
from typing import Final, TypeAlias

from stitchproof.base.records import dataclass
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.tree import Special
from stitchproof.trade.tables import Terms

Tokens: TypeAlias = tuple[Token, ...]

CLOSING: Final = {"(": ")", "[": "]", "{": "}"}
STOPS: Final = frozenset((".", ";", ",", "!", ":"))
OF_STITCH: Final = word_set("double treble triple dc tr crochet")
BESIDE: Final = frozenset((",", "and", "&", "+", "plus", "with"))


CHAIN_WORDS: Final = word_set("ch chs chain chains tch")


_NONE: Final[Mapping[str, Special]] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Counting:
    """What the reader of counts has to know.

    Attributes
    ----------
    terms : Terms
        Whose stitch names the text uses.
    specials : mapping of str to Special
        Stitches and groups the author defined, by lower-case name.
    """

    terms: Terms = "US"
    specials: Mapping[str, Special] = field(default_factory=lambda: _NONE)


def word_at(tokens: Tokens, at: int) -> str:
    """Give a token's folded characters; empty where there is none."""
    return tokens[at].text if 0 <= at < len(tokens) else ""


def past_halves(tokens: Tokens, at: int, bound: int) -> int:
    """Go past `with half a shell at each end`, `, 2 half fans of 5 tr`: halves are not counted."""
    i = at + 1 if word_at(tokens, at) in BESIDE else at
    counted = i < bound and tokens[i].kind is TokenKind.NUMBER
    i += i > at and (counted or word_at(tokens, i) in {"a", "one", "1"})
    if i == at or word_at(tokens, i) != "half" or word_at(tokens, i + 1) in OF_STITCH:
        return at
    while i < bound and (tokens[i].kind is TokenKind.WORD or word_at(tokens, i - 1) == "of"):
        i += 1
    return i if i >= bound or tokens[i].text in STOPS | set(CLOSING.values()) else at


def past_between(tokens: Tokens, at: int, bound: int) -> int:
    """Go past `with 1ch between`, `, a ch-2 sp between each`: what lies between is not counted."""
    i = at
    while i < min(bound, at + 2) and tokens[i].text in BESIDE:  # `, with`
        i += 1
    led = i > at
    while i < bound and (tokens[i].text in _LYING or tokens[i].kind is TokenKind.NUMBER):
        i += 1
    if not led or word_at(tokens, i) not in {"between", "betw"}:
        return at
    if not {token.text for token in tokens[at:i]} & (CHAIN_WORDS | _GAPS):
        return at
    while i < bound and tokens[i].kind is TokenKind.WORD:
        i += 1
    return i if i >= bound or tokens[i].text in STOPS | set(CLOSING.values()) else at


_GAPS: Final = word_set("sp sps space spaces gap gaps loop loops")
_LYING: Final = CHAIN_WORDS | _GAPS | word_set("a an one each the -")


def past_one_of_halves(tokens: Tokens, at: int, bound: int) -> int:
    """Go past `, the split shell counting as one`, `(both halves count as 1)`: how it counts."""
    opened = CLOSING.get(word_at(tokens, at), "")
    if not opened and word_at(tokens, at) != ",":
        return at
    i = at + 1
    while i < min(bound, at + _LONGEST_HALVES) and word_at(tokens, i) not in _COUNTING:
        i += 1
    if not opened and word_at(tokens, at + 1) in {"counting", "including"}:
        return _past_counting_in(tokens, at + 1, bound) or at
    halves = {token.text for token in tokens[at + 1 : i]} & _SPLIT
    if not halves or word_at(tokens, i) not in _COUNTING or word_at(tokens, i + 1) != "as":
        return at
    i += 2
    if word_at(tokens, i) not in {"one", "1", "a"}:
        return at
    i += 1
    while i < bound and tokens[i].kind is TokenKind.WORD:
        i += 1
    if opened:
        return i + 1 if word_at(tokens, i) == opened else at
    return i if i >= bound or tokens[i].text in STOPS | set(CLOSING.values()) else at


def _past_counting_in(tokens: Tokens, at: int, bound: int) -> int | None:
    """Go past `counting the one at the join`, which is no other stitch than one of those made."""
    i = at + 1
    i += word_at(tokens, i) in {"the", "in"}
    if word_at(tokens, i) not in {"one", "1", "split", "last", "first"}:
        return None
    i += 1
    while i < bound and tokens[i].kind is TokenKind.WORD:
        i += 1
    return i if i >= bound or tokens[i].text in STOPS else None


_LONGEST_HALVES: Final = 8  # tokens: "the first and last half shells counting as one"
_COUNTING: Final = word_set("counting counted count counts")
_SPLIT: Final = word_set("split half halves halved divided")


def _past_being(tokens: Tokens, at: int) -> int:
    """Skip `each ch being 1 st`, `every ch counts as a st`; stay where nothing says so."""
    i = at + 2
    while word_at(tokens, i) in _BEING_ONE:
        i += 1
    told = word_at(tokens, i - 1) in {"st", "sts", "stitch", "1", "one"}
    ends = word_at(tokens, i) in STOPS | {""} or word_at(tokens, i) in CLOSING.values()
    return i if told and ends else at


_BEING_ONE: Final = word_set("being is counts counting counted as a an 1 one st stitch")


def with_chains(tokens: Tokens, at: int) -> int:
    """Skip `with the chains`, `chains included`: they are counted too; stay where none are named.

    A length behind them is that of spaces: `24 sc with 3 ch-2 sps`.
    """
    if word_at(tokens, at) in {"each", "every"} and word_at(tokens, at + 1) in CHAIN_WORDS:
        return _past_being(tokens, at)
    led = word_at(tokens, at) == "with"
    i = at + (led or word_at(tokens, at) in {"each", "every"})
    i += word_at(tokens, i) in {"the", "all"}
    i += word_at(tokens, i) in _WHOSE
    counted = _is_number(tokens, i) and word_at(tokens, i + 1) in CHAIN_WORDS  # `1ch counts`
    i += counted
    if word_at(tokens, i) not in CHAIN_WORDS - {"tch"}:
        return at
    named = i + 1
    named += word_at(tokens, named) == "-"
    named += not counted and _is_number(tokens, named)  # `ch-1 counts`
    named += word_at(tokens, named) in _SPACES
    told = word_at(tokens, named) in _COUNTED_TOO
    if told and word_at(tokens, named).startswith("count") and not _counts_apart(tokens, at, named):
        return at  # `(3 skipped chs count as dc)` says what they are
    if not told and (counted or named > i + 1 + (word_at(tokens, i + 1) in _SPACES)):
        return at
    i = named + told
    i += told and word_at(tokens, i) == "in"
    if told and word_at(tokens, i) == "as":
        i = past_as(tokens, i)
    ends = word_at(tokens, i) in STOPS | {""} or word_at(tokens, i) in CLOSING.values()
    return i if (led or told) and ends else at


def _counts_apart(tokens: Tokens, at: int, verb: int) -> bool:
    """Tell whether `chs count` is said behind a comma of a count; `counted` is said anywhere."""
    said = word_at(tokens, verb) == "counted"
    return said or (at > 0 and tokens[at - 1].text in {",", ";", "("})


_WHOSE: Final = word_set("underarm armhole sleeve added new bridge thumb neck corner")
_SPACES: Final = word_set("sp sps space spaces")
_COUNTED_TOO: Final = word_set("included counted counts count")


def _is_number(tokens: Tokens, at: int) -> bool:
    return at < len(tokens) and tokens[at].number is not None


def past_as(tokens: Tokens, at: int) -> int:
    """Skip `as a st`, `1 dc`, `the first htr`: what a chain counts as."""
    while at < len(tokens) and (_is_number(tokens, at) or tokens[at].text in _AS_STITCH):
        at += 1
    return at


_AS_STITCH: Final = word_set("as a one the first st stitch sts sc dc hdc htr tr dtr")
