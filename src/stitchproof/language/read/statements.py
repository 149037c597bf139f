"""Statements of a count: `40 dc and 4 ch-2 sps`, `2 sts increased`, `not counting the sl sts`."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, NumberKind
from stitchproof.language.read.changes_told import as_many, more_or_fewer
from stitchproof.language.read.count_words import (
    BESIDE,
    CHAIN_WORDS,
    CLOSING,
    STOPS,
    Counting,
    Tokens,
    past_as,
    past_between,
    past_halves,
    past_one_of_halves,
    with_chains,
    word_at,
)
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.units import Unit, read_unit
from stitchproof.language.tree import CHAIN, STITCH, Noun, Statement, Thing

_AND: Final = frozenset((",", "and", "&", "+", ";", "plus", "=", "/", "|", "with", "–", "—", ":"))
_CHANGES: Final = {
    **dict.fromkeys(("increased", "inc'd", "incd", "increase", "increases", "added"), "increased"),
    **dict.fromkeys(("decreased", "dec'd", "decd", "decrease", "decreases"), "decreased"),
}
_FILLERS: Final = word_set(
    "total in all made remain remaining rem left now around across remains altogether still"
)

_ROWS: Final = word_set("row rnd round")

Extra = tuple[tuple[str, ...], tuple[str, ...]]


def read_statements(
    tokens: Tokens, at: int, bound: int, counting: Counting, *, strict: bool
) -> tuple[tuple[Statement, ...], int, Extra]:
    """Read `40 dc and 4 ch-2 sps`; `strict`: every number needs a unit of the trade."""
    found: list[Statement] = []
    end = at
    i = at
    while i < bound:
        one = more_or_fewer(tokens, i, bound) if found else None
        one = one or _statement(tokens, i, bound, counting, strict=strict)
        if one is None and found:
            one = as_many(tokens, i, found[-1], counting)
            one = (
                one
                or _last_thing(tokens, i, bound, counting)
                or _single(tokens, i, bound, counting)
            )
        if one is None or (not found and one[0].each and word_at(tokens, one[1] - 3) == "in"):
            break  # `(3 sc in each corner)` is worked
        said, end = one
        if said.each and not said.unit and found:  # `8 groups of 3 dc, 2 per side`
            said = replace(said, noun=found[-1].noun, unit=found[-1].unit)
        found.append(said)
        held = _held(tokens, end, bound, counting)
        if held is not None:
            found += held[0]
            end = held[1]
        end = past_between(tokens, past_halves(tokens, end, bound), bound)
        end = _past_one_thing(tokens, end, bound)
        more = end
        while more < bound and more - end < 2 and tokens[more].text in _AND:  # noqa: PLR2004 - `, and`
            more += 1
        if more == end or with_chains(tokens, more) > more:  # `87 sts, 1ch counts`
            break
        i = more
    if not found:
        return (), at, ((), ())
    extra: Extra = ((), ())
    end = past_one_of_halves(tokens, end, bound)
    told = _extra(tokens, end, bound, counting)
    if told is not None:
        extra, end = told
    return tuple(found), end, extra


def _past_one_thing(tokens: Tokens, at: int, bound: int) -> int:
    """Go past `and a ch 7`, `, thumb hole`, `+ ch-6`, with which the count ends: no stitch."""
    i = at
    while i < min(at + 2, bound) and tokens[i].text in BESIDE:  # `, and`
        i += 1
    if i == at or word_at(tokens, i)[:1].isdigit():
        return at
    # without an article a chain alone may be made: `24 sts, ch 1`
    named = _THINGS if word_at(tokens, i) in {"a", "an", "one"} else _THINGS - _CHAINS
    named = _THINGS if "+" in {token.text for token in tokens[at:i]} else named
    while i < min(bound, at + _LONGEST_THING) and tokens[i].text not in _PARTED:
        beside = {word_at(tokens, i - 1), word_at(tokens, i + 1)}  # `ch-7`, `7-ch`
        if tokens[i].text == "-" and not beside & _CHAINS:
            break
        i += 1
    words = {token.text for token in tokens[at:i]}
    ends = i >= bound or tokens[i].text in STOPS | set(CLOSING.values()) | {"*"}
    return i if words & named and not words & _WORKED_IN and ends else at


_CHAINS: Final = frozenset(("ch", "chain"))
_WORKED_IN: Final = word_set("in into each next turn join sk skip miss work make rep repeat")
_LONGEST_THING: Final = 7  # tokens: "and a ch-7 thumb opening"
_PARTED: Final = STOPS | set(CLOSING) | set(CLOSING.values()) | {"and", "&", "+", "plus", "*"}
_THINGS: Final = word_set(
    "ch chain sp space loop lp hole opening gap slit buttonhole thumbhole armhole armholes handle"
    " strap eyelet underarm underarms"
)
_TOLD_WITH: Final = word_set("incl including counting excl excluding")


def _held(
    tokens: Tokens, at: int, bound: int, counting: Counting
) -> tuple[tuple[Statement, ...], int] | None:
    """Read `(12 sc and 12 tr)` behind `24 sts`: the same, told in other units."""
    closing = CLOSING.get(word_at(tokens, at))
    if closing is None:
        return None
    found: list[Statement] = []
    i = at + 1
    while (one := _statement(tokens, i, bound, counting, strict=True)) is not None:
        found.append(one[0])
        i = one[1]
        if word_at(tokens, i) not in _AND:
            break
        while word_at(tokens, i) in _AND:
            i += 1
    return (tuple(found), i + 1) if found and word_at(tokens, i) == closing else None


def _statement(
    tokens: Tokens, at: int, bound: int, counting: Counting, *, strict: bool
) -> tuple[Statement, int] | None:
    counts = at < bound and tokens[at].kind is TokenKind.NUMBER
    number = tokens[at].number if counts else None
    if number is None or number.kind is not NumberKind.COUNT:
        return None
    by = 2 if word_at(tokens, at + 1) in {"x", "×"} and at + 2 < bound else 1
    unit = read_unit(tokens, at + by, counting.terms, counting.specials)
    if word_at(tokens, at + by) in _TOLD_WITH:
        unit = None  # `(64 incl. ch)`
    if unit is not None and (unit.end > bound or (strict and not unit.known)):
        unit = None
    noun: Noun = unit.noun if unit else STITCH
    end = unit.end if unit else at + 1
    length = end + 1 < bound and word_at(tokens, end) == "of" and tokens[end + 1].number
    if noun.thing is Thing.CHAIN and length:
        end += 2  # `2 underarm chains of 4 (4, 5)`
        end += word_at(tokens, end) in {"ch", "chs", "each"}
    loose = unit is not None and (not unit.known or unit.noun.kind == "handle")
    if loose and _named_in_two(tokens, end, bound):
        end += 1
    each, end = _each(tokens, end)
    if unit is None and strict and not each:
        return None
    change = _change(tokens, end) if end < bound else ""
    if change:
        end += 1
    while end < bound and tokens[end].text in _FILLERS:
        if tokens[end].text == "in" and word_at(tokens, end + 1) not in {"all", "total"}:
            break
        end += 1
    end = _past_the_row(tokens, end, bound)
    place = tokens[at].place.to(tokens[end - 1].place)
    return Statement(number, noun, unit.words if unit else "", change, each, place), end


def _named_in_two(tokens: Tokens, at: int, bound: int) -> bool:
    """Tell whether `openings` of `2 handle openings` stands there, with which the count ends."""
    word = word_at(tokens, at)
    ends = at + 1 >= bound or tokens[at + 1].text in STOPS | set(CLOSING.values())
    return at < bound and ends and word in _OPENINGS


_OPENINGS: Final = word_set(
    "opening openings hole holes loop loops space spaces gap gaps slit slits handles straps groups"
)


def _last_thing(
    tokens: Tokens, at: int, bound: int, counting: Counting
) -> tuple[Statement, int] | None:
    """Read `3 valleys` behind `46 sts,`: whatever its name, where the words end with it."""
    one = _statement(tokens, at, bound, counting, strict=False)
    ends = one is not None and (one[1] >= bound or word_at(tokens, one[1]) in {",", ".", ";"})
    return one if ends and one is not None and one[0].unit else None


def _single(
    tokens: Tokens, at: int, bound: int, counting: Counting
) -> tuple[Statement, int] | None:
    """Read `a ch-5 loop` behind `22 sts and`: one of them."""
    if tokens[at].text not in {"a", "an"}:
        return None
    unit = read_unit(tokens, at + 1, counting.terms, counting.specials)
    if unit is None or not unit.known or unit.end > bound:
        return None
    place = tokens[at].place.to(tokens[unit.end - 1].place)
    one = replace(ONE, spelling=tokens[at].text, place=tokens[at].place)
    return Statement(one, unit.noun, unit.words, place=place), unit.end


PARTS: Final = word_set(
    "side corner petal section repeat point panel wedge segment end shell group cluster loop"
    " sp space leaf motif leg arm spoke fan cup sleeve front"
)
_ALONG: Final = word_set("on along in at down for to of")
_PER: Final = word_set("each every per a")


def _each(tokens: Tokens, at: int) -> tuple[str, int]:
    """Read `per side`, `on each side`, `between corners`: the part of which each holds so many."""
    i = at + 1 if word_at(tokens, at) == "between" else at
    if i > at:
        i += word_at(tokens, i) in {"the", "each"}
        i += word_at(tokens, i) in {"them", "these"}
        if word_at(tokens, i) in STOPS | {"", *CLOSING.values()}:
            return "", i  # `12 sps between`
        if word_at(tokens, i) not in {"corner", "corners"}:
            return "", at
        more = {"sp", "sps", "space", "spaces", "group", "groups", "st", "sts"}
        return "side", i + 2 if word_at(tokens, i + 1) in more else i + 1
    along = word_at(tokens, i) in _ALONG
    i += along
    word = word_at(tokens, i)
    if word not in _PER or (along and word in {"per", "a"}):
        return "", at
    part = word_at(tokens, i + 1)
    if part not in PARTS:
        return "", at
    i += 2
    if word_at(tokens, i) == "between" and part == "side":
        i = _each(tokens, i)[1]
    return part, i


def _past_the_row(tokens: Tokens, at: int, bound: int) -> int:
    """Go past `at the end of Row 10`, `after Rnd 3`: a count is of the last row anyhow."""
    end = at
    if word_at(tokens, end) == "at":
        end += 2 if word_at(tokens, end + 1) == "the" else 1
        if word_at(tokens, end) != "end":
            return at
        if word_at(tokens, end + 1) != "of":
            return end + 1
        end += 1
    elif word_at(tokens, end) != "after":
        return at
    end += 1
    end += word_at(tokens, end) in {"the", "this"}
    end += word_at(tokens, end) in {"last", "final"}
    if end < bound and tokens[end].kind is TokenKind.ORDINAL:  # `at end of 4th row`
        return min(end + 2, bound) if word_at(tokens, end + 1) in _ROWS else at
    if word_at(tokens, end) not in _ROWS:
        return at
    end += 1
    numbered = end < bound and tokens[end].kind is TokenKind.NUMBER
    return min(end + 1 if numbered else end, bound)


def _change(tokens: Tokens, at: int) -> str:
    """Read `increased`, `dec'd`, or `inc` where nothing comes behind it."""
    word = word_at(tokens, at)
    short = {"inc": "increased", "dec": "decreased"}.get(word, "")
    ends = word_at(tokens, at + 1) in STOPS | {"", *CLOSING.values()}
    return _CHANGES.get(word, short if ends else "")


def _extra(tokens: Tokens, at: int, bound: int, counting: Counting) -> tuple[Extra, int] | None:
    """Read `(not counting the sl sts)`, `, including turning ch`."""
    opened = CLOSING.get(word_at(tokens, at), "")
    i = at + 1 if opened or word_at(tokens, at) == "," else at
    out = word_at(tokens, i) in {"not", "excluding", "without", "excl"}
    counted = i + 1 if word_at(tokens, i) == "not" else i
    that_is = word_at(tokens, i) == "that" and word_at(tokens, i + 1) == "is"
    counted = i + 1 if that_is else counted  # `that is the dc and the 1 ch`
    told = that_is or word_at(tokens, counted) in {"counting", "including", "incl"}
    chains = with_chains(tokens, i)
    if chains > i and (not opened or word_at(tokens, chains) == opened):
        return ((), ("ch",)), chains + 1 if opened else chains
    if not told and (not out or counted > i):
        return _left_out(tokens, at, bound)
    short = word_at(tokens, counted) in {"incl", "excl"} and word_at(tokens, counted + 1) == "."
    kinds, i = _kinds(tokens, counted + 1 + short, bound, counting)
    kinds = tuple(kind for kind in kinds if "ch" in kind) if that_is else kinds
    if not kinds or (opened and word_at(tokens, i) != opened):
        return None
    return ((kinds, ()) if out else ((), kinds)), i + 1 if opened else i


def _left_out(tokens: Tokens, at: int, bound: int) -> tuple[Extra, int] | None:
    """Read `; the beginning ch 2 does not count` behind a count."""
    if word_at(tokens, at) not in {",", ";", "–", "—", "."}:
        return None
    chain = _past(tokens, at + 1, bound, _CHAIN_NAMED)
    if not {token.text for token in tokens[at + 1 : chain]} & CHAIN_WORDS:
        return None
    end = _past(tokens, chain, bound, _NO_COUNT)
    if not {"not", "doesn't", "don't"} & {token.text for token in tokens[chain:end]}:
        return _counted_in(tokens, chain)
    return (("tch",), ()), end


def _counted_in(tokens: Tokens, at: int) -> tuple[Extra, int] | None:
    """Read `is 1 dc`, `= first dc`, `counts as 1 st` behind `, beg ch`: it is counted too."""
    if word_at(tokens, at) not in _BEING:
        return None
    end = past_as(tokens, at + 1)
    ends = end > at + 1 and word_at(tokens, end) in STOPS | {"", *CLOSING.values()}
    return (((), ("tch",)), end) if ends else None


_BEING: Final = word_set("is = counts being are")


_CHAIN_NAMED: Final = CHAIN_WORDS | word_set(
    "the - beg beginning starting turning first at start missed skipped"
)
_NO_COUNT: Final = word_set(
    "does do is are not doesn't don't count counted included in the as a st stitch"
)


def _kinds(tokens: Tokens, at: int, bound: int, counting: Counting) -> tuple[tuple[str, ...], int]:
    """Read the things that are counted in or left out, up to a stop."""
    ends = {*CLOSING.values(), ".", ";"}
    kinds: list[str] = []
    i = at
    while i < bound and tokens[i].text not in ends:
        unit = read_unit(tokens, i, counting.terms, counting.specials)
        if tokens[i].text in _TURNING or (unit is not None and _is_length(tokens, unit, i)):
            kinds.append("tch")
            i = _past(tokens, i + 1, bound, frozenset(("ch", "chain", "-")))
        elif tokens[i].text == "as":  # `as a st`, `as one dc`: how, not what
            while i < bound and tokens[i].text not in {*ends, ","}:
                i += 1
        elif unit is not None and unit.known and unit.end <= bound:
            kinds.append(unit.noun.kind or unit.words)
            i = unit.end
        else:
            i += 1
    return tuple(kinds), i


_TURNING: Final = word_set("turning tch beg beginning starting")


def _is_length(tokens: Tokens, unit: Unit, at: int) -> bool:
    """Tell whether `ch 3`, `ch-3`, a chain that is named by its length, stands there."""
    after = at + 2 if word_at(tokens, at + 1) == "-" else at + 1
    return unit.noun == CHAIN and after < len(tokens) and tokens[after].number is not None


def _past(tokens: Tokens, at: int, bound: int, words: frozenset[str]) -> int:
    while at < bound and (tokens[at].text in words or tokens[at].number is not None):
        at += 1
    return at


def is_sts(statements: tuple[Statement, ...]) -> bool:
    """Tell whether stitches, a change or a part are counted: no words of work read so."""
    return any(s.noun == STITCH or s.change or s.each for s in statements)


def of_the_row(statements: tuple[Statement, ...]) -> tuple[Statement, ...]:
    """Leave out `2 sts` behind `7 V-sts`: those beside the groups, and not all of the row."""
    groups = [one.number.value for one in statements if one.noun.thing is Thing.GROUP]
    if not groups or not isinstance(groups[0], tuple):
        return statements
    fewest = [value for value in groups[0] if isinstance(value, int)]
    return tuple(one for one in statements if not _fewer(one, min(fewest, default=0)))


def _fewer(one: Statement, groups: int) -> bool:
    values = one.number.value if one.noun == STITCH and one.unit else ()
    return bool(values) and isinstance(values, tuple) and all((v or 0) < groups for v in values)
