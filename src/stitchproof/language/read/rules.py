"""Conventions stated outside the rows, and whose stitch names a text uses.

`The ch-1 and ch-2 at the start of rows never count as a st` is one rule for each length of chain.
Narrative is searched for such sentences and for nothing else.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from itertools import zip_longest
from types import MappingProxyType
from typing import Final

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.openings import is_convention
from stitchproof.language.tree import Counts, Post, Rule, Stitch
from stitchproof.trade import stitches
from stitchproof.trade.tables import Terms
from stitchproof.trade.terms import system_words

_COUNT: Final = re.compile(
    r"\b(?P<negative>(?:(?:do(?:es)?|is|are|will|shall|should)\s*(?:not|n['’]t)\s+(?:be\s+)?|(?:are|is)\s+never\s+(?:be\s+)?"
    r"|never\s+(?:be\s+)?|not\s+))?(?:always\s+|be\s+|are\s+|is\s+|will\s+)*(?P<verb>count(?:s|ed|ing)?)\b",
    re.IGNORECASE,
)
_BEING: Final = re.compile(  # what a chain is, or does, where nobody says that it counts
    r"\b(?:(?P<no>(?:is|are)\s*(?:not|n['’]t|never)\s+(?:(?:considered|treated\s+as|seen\s+as)\s+)?"
    r"(?:an?\s+)?st(?:itch(?:es)?|s)?\b"
    r"|(?:is|are)\s+(?:only|just|merely|simply)\s+(?:there\s+)?(?:for|to)\s+(?:\w+\s+){0,2}height)"
    r"|(?:always\s+)?(?:stands?(?:\s+in)?\s+for|takes?\s+the\s+place\s+of|replaces?)\b)",
    re.IGNORECASE,
)
_LONGEST: Final = 600  # characters of a sentence that states a convention
_SENTENCE: Final = re.compile(r"[.;!?](?=\s|$|\))|\n\s*(?=[-•*]\s)|\n\s*\n")
_NUMBERS: Final = MappingProxyType({"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6})
_WORD_NUMBER: Final = r"(?:\d{1,2}|one|two|three|four|five|six)"
_SPACE: Final = re.compile(
    rf"\b(?:ch(?:ain)?s?[\s-]*(?P<after>{_WORD_NUMBER})?[\s-]*(?:sps?|spaces?|lps?|loops?|arch(?:es)?)"
    rf"|(?P<before>{_WORD_NUMBER})[\s-]ch(?:ain)?[\s-](?:sps?|spaces?|loops?))\b",
    re.IGNORECASE,
)
_SLIP: Final = re.compile(r"\b(?:sl(?:ip)?[\s.-]*st(?:itch)?(?:es|s)?|ss)\b", re.IGNORECASE)
_TURNING: Final = re.compile(
    r"\b(?:t-?ch|(?:turning|beg(?:inning)?|start(?:ing)?|first|initial)\.?[\s-]+(?:\w+[\s-]+)?ch(?:ain)?s?"
    r"|(?:\d\s?)?ch(?:ain)?s?\b[^.]*\b(?:start|beg(?:inning)?|turning|turn|height))",
    re.IGNORECASE,
)
_CHAINS: Final = re.compile(
    rf"\bch(?:ain)?s?[\s-]*(?P<after>{_WORD_NUMBER})\b|\b(?P<before>{_WORD_NUMBER})[\s-]?ch(?:ain)?s?\b"
    rf"|(?:\bof|,|\band|\bor|/)\s*-?(?P<more>\d{{1,2}})\b(?!\s*(?:st|sc|h?dc|h?tr|row))",
    re.IGNORECASE,
)
_AS: Final = re.compile(
    r"\s+(?:in\s+the\s+stitch\s+count\s+)?(?:as|for)\s+(?:(?:the|a|an|one|1|your|its|first|1st"
    r"|\d\w\w|full)\s+)*(?P<what>[a-z][a-z .-]{1,40})?"
    r"(?:\s*(?:and|\+|plus|,)\s*(?:(?:an?|one)\s+)?ch(?:ain)?[\s-]*(?P<chains>\d{1,2}|one|two|three)?)?",
    re.IGNORECASE,
)
_TIMES_EACH: Final = re.compile(r"\s+as\s+(?P<number>\d{1,2}|two|three|four)\s+", re.IGNORECASE)
_REPEATS: Final = re.compile(
    r"\b(?:rep(?:eat)?s?\b[^.;]{0,60}?\btimes|number of (?:times|repeats))\b"
    r"(?P<means>[^.;]{0,120})",
    re.IGNORECASE,
)
_IN_ALL: Final = re.compile(
    r"\b(?:in total|in all|total number|altogether|including the first)\b", re.IGNORECASE
)
_MORE: Final = re.compile(
    r"\b(?:in addition|additional|more times|after the first|besides the first)\b", re.IGNORECASE
)


def find_rules(text: str, start: int, end: int, source: str, terms: Terms) -> tuple[Rule, ...]:
    """Find the conventions that a stretch of narrative states."""
    found: list[Rule] = []
    for a, b in _sentences(text, start, end):
        words = text[a : min(b, a + _LONGEST)]
        place = Span(source, a, b)
        if "count" in words.lower():
            found += _counting(words, place, terms)
        elif "=" in words and is_convention(words, 0):  # `ch 3 = 1 dc throughout`
            subject, _, means = words.partition("=")
            found += _one(subject, f" as {means.strip()}", place, terms, negative=False)
        elif being := _BEING.search(words):
            rest = " as" + words[being.end() :]
            found += _one(words[: being.start()], rest, place, terms, negative=bool(being["no"]))
        elif "times" in words:
            found += _repeats(words, place)
    return tuple(found)


def _sentences(text: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    at = start
    for stop in _SENTENCE.finditer(text, start, end):
        yield _trimmed(text, at, stop.start())
        at = stop.end()
    yield _trimmed(text, at, end)


def _trimmed(text: str, start: int, end: int) -> tuple[int, int]:
    while start < end and text[start].isspace():
        start += 1
    while end > start and text[end - 1].isspace():
        end -= 1
    return start, end


def _repeats(words: str, place: Span) -> Iterator[Rule]:
    told = _REPEATS.search(words)
    if told is None or not re.search(r"\b(?:means?|is|are|gives?|includes?)\b", told["means"]):
        return
    if _IN_ALL.search(told["means"]):
        yield Rule("repeats", holds=False, place=place)
    elif _MORE.search(told["means"]):
        yield Rule("repeats", holds=True, place=place)


_OTHER_CHAIN: Final = re.compile(
    r"(?:[,;/]|\band\b|&)\s*(?:the\s+)?(?:ch(?:ain)?s?[\s-]*\d|\d[\s-]?ch\b)[^,;]*$", re.IGNORECASE
)
_AND_AS: Final = re.compile(  # `ch 3 counts as 1 dc and ch 5 as 1 dc and ch 2`
    r"(?:[,;/]|\band\b|&)\s*(?P<chain>(?:the\s+)?ch(?:ain)?s?[\s-]*\d+)(?=\s+as\b)", re.IGNORECASE
)
_ARE: Final = re.compile(r"\s+(?:are|is|include|exclude|given|in|at)\b", re.IGNORECASE)


def _counting(words: str, place: Span, terms: Terms) -> Iterator[Rule]:
    """Read what counts and what does not, verb by verb."""
    at = 0
    verbs = list(_COUNT.finditer(words))
    for verb, following in zip_longest(verbs, verbs[1:]):
        subject = words[at : verb.start()]
        end = following.start() if following is not None else len(words)
        other = _OTHER_CHAIN.search(words, verb.end(), end) if following is not None else None
        other = other or _AND_AS.search(words, verb.end(), end)
        rest = words[verb.end() : other.start() if other is not None else None]
        at = verb.end() if other is None else other.start()
        if verb.group().lower() == "counts" and _ARE.match(rest):
            continue  # `stitch counts are dc only`
        if verb["verb"].lower() == "count" and not re.search(
            r"\b(?:ch|chain|st|sts|stitch|stitches|sps?|spaces?|t-?ch)", subject, re.IGNORECASE
        ):
            subject = rest.split(" as ")[0]  # `do not count the ch-1 as a st`
            at = len(words) - len(rest) + len(subject)
            rest = rest[len(subject) :]
        if "counting" not in verb.group().lower():
            yield from _one(subject, rest, place, terms, negative=bool(verb["negative"]))
        if other is not None and other.re is _AND_AS:
            and_as = other["chain"], words[other.end() : end]
            yield from _one(*and_as, place, terms, negative=False)


def _one(subject: str, rest: str, place: Span, terms: Terms, *, negative: bool) -> Iterator[Rule]:
    space = _SPACE.search(subject)
    if space:
        chains = _as_int(space["after"] or space["before"])
        several = _TIMES_EACH.match(rest)
        if several and _as_int(several["number"]) != chains:
            return  # counted as something that no switch says
        yield Rule("chain spaces", chains=chains, holds=not negative, place=place)
        return
    if _SLIP.search(subject):
        yield Rule("slip stitches", holds=not negative, place=place)
    chains_named = tuple(
        dict.fromkeys(
            number
            for m in _CHAINS.finditer(subject)
            if (number := _as_int(m["after"] or m["before"] or m["more"])) is not None
        )
    )
    turning = _TURNING.search(subject)
    if not turning and not chains_named:
        return
    if not turning and not re.search(r"\bch(?:ain)?s?\b|\bch\d", subject, re.IGNORECASE):
        return
    counts = Counts("", throughout=True) if negative else _counts(rest, terms)
    if counts is None:
        return
    for chains in chains_named or (None,):
        yield Rule("turning chain", counts=counts, chains=chains, place=place)


def _counts(rest: str, terms: Terms) -> Counts | None:
    """Read `as the first dc and ch 1 throughout`."""
    told = _AS.match(rest)
    if told is None:
        return None
    stitch = _stitch((told["what"] or "st").strip(), terms)
    if stitch is None:
        return None
    with_chain = _WITH_CHAIN.search(rest, told.start(), told.end() + _NUMBER_BEHIND)
    chains = (_as_int(with_chain[1]) or 1) if with_chain else 0
    return Counts(stitch, chains, throughout=True)


_WITH_CHAIN: Final = re.compile(r"\bch(?:ain)?[\s-]*(\d{1,2}|one|two|three)?\b", re.IGNORECASE)
_NUMBER_BEHIND: Final = 6  # characters: `two`, `2`


def _stitch(words: str, terms: Terms) -> str | None:
    """Read the longest stitch name that the words begin with."""
    parts = re.split(r"[\s]+", words.lower().strip(" .-"))
    for end in range(min(len(parts), 5), 0, -1):
        name = " ".join(parts[:end])
        if name in {"st", "stitch", "sts", "stitches"}:
            return "st"
        named = stitches.named(name, terms)
        if named is not None:
            return Stitch(named.kind, post=Post(named.post), together=named.together).name
    return None


def _as_int(words: str | None) -> int | None:
    if words is None:
        return None
    return int(words) if words.isdigit() else _NUMBERS.get(words.lower())


# --------------------------------------------------------------------------- terms


@dataclass(frozen=True, slots=True)
class Heard:
    """Which system the words of a text speak for.

    Attributes
    ----------
    us, uk : (str, Span) or None
        The first word that only this system has.
    open : (str, Span) or None
        The first word that means one stitch in one system and another in the other.
    hint : Terms or None
        The system that words of habit (`miss`, `skip`) speak for, if only one.
    """

    us: tuple[str, Span] | None = None
    uk: tuple[str, Span] | None = None
    open: tuple[str, Span] | None = None
    hint: Terms | None = None


@dataclass(frozen=True, slots=True)
class HeardLine:
    """Which system the words of one line speak for.

    Attributes
    ----------
    first : mapping of str to (str, Span)
        The first word for each of "us", "uk" and "open"; see `Heard`.
    hints : frozenset of Terms
        The systems that words of habit speak for.
    heights : frozenset of Terms
        Those that the heights of stitches speak for.
    """

    first: Mapping[str, tuple[str, Span]]
    hints: frozenset[Terms]
    heights: frozenset[Terms]


def hear_terms(lines: Iterable[tuple[int, HeardLine]]) -> Heard:
    """Gather what lines speak for, each with where it begins."""
    heard: dict[str, tuple[str, Span]] = {}
    hints: set[Terms] = set()
    heights: set[Terms] = set()
    for start, line in lines:
        for way, (word, place) in line.first.items():
            if way not in heard:
                heard[way] = word, place.shifted(start)
        hints |= line.hints
        heights |= line.heights
    hint = _hint(heights, hints)
    return Heard(heard.get("us"), heard.get("uk"), heard.get("open"), hint)


def hear_line(tokens: tuple[Token, ...], own: frozenset[str]) -> HeardLine:
    """Listen for words that belong to one system only, names of the author's left out.

    Parameters
    ----------
    tokens : tuple of Token
        Words of an instruction.
    own : frozenset of str
        Names that the author defined.
    """
    us, uk = system_words("US"), system_words("UK")
    first: dict[str, tuple[str, Span]] = {}
    hints: set[Terms] = set()
    before: Token | None = None
    for token in tokens:
        if token.kind is TokenKind.WORD:
            place = token.place
            pair = f"{before.text} {token.text}" if before is not None else token.text
            for word in (pair, token.text):
                if word in own:
                    continue
                if word in us.sure:
                    first.setdefault("us", (word, place))
                elif word in uk.sure and not (word == token.text and _is_half(before)):
                    first.setdefault("uk", (word, place))
                elif word in _open_words():
                    first.setdefault("open", (word, place))
            if token.text in us.hints:
                hints.add("US")
            elif token.text in uk.hints:
                hints.add("UK")
        before = token if token.kind is TokenKind.WORD else None
    return HeardLine(first, frozenset(hints), _by_height(tokens))


@cache
def _open_words() -> frozenset[str]:
    """Give the words that mean one stitch in one system and another in the other."""
    us, uk = stitches.words("US"), stitches.words("UK")
    return frozenset(word for word in us.keys() & uk.keys() if us[word] != uk[word])


def _hint(heights: set[Terms], hints: set[Terms]) -> Terms | None:
    """Choose the system that habits speak for; how high a stitch is tells more than a spelling."""
    if hints or "UK" in heights:  # what is taken anyhow stays told as taken
        hints = heights or hints
    return next(iter(hints)) if len(hints) == 1 else None


_HEIGHTS: Final[Mapping[tuple[str, int], Terms]] = MappingProxyType(
    {("dc", 3): "US", ("dc", 1): "UK", ("tr", 3): "UK", ("tr", 4): "US", ("dtr", 4): "UK"}
)
_FROM_HOOK: Final[Mapping[tuple[str, int], Terms]] = MappingProxyType(
    {("dc", 4): "US", ("dc", 2): "UK", ("tr", 4): "UK", ("tr", 5): "US"}
)
_NEAR_BY: Final = 6  # words between a chain and what it counts as


def _by_height(tokens: tuple[Token, ...]) -> frozenset[Terms]:
    """Hear a system in how high a stitch is: `3ch (counts as 1tr)`, `dc in 4th ch from hook`."""
    found: set[Terms | None] = set()
    for i, token in enumerate(tokens):
        if token.text == "as" and i and tokens[i - 1].text in {"counts", "count"}:
            what = next((n for k in range(i + 1, i + 5) if (n := _name_at(tokens, k)[0])), "")
            chains = [_whole(t) for t in tokens[max(i - _NEAR_BY, 0) : i - 1]]
            known = [_HEIGHTS.get((what, n)) for n in chains if n is not None]
            found.update(known[-1:])
        elif (name := _name_at(tokens, i))[0]:
            at = i + name[1]
            rest = [t.text for t in tokens[at : at + 5] if t.text != "the"]
            if rest[:1] == ["in"] and rest[2:3] in (["ch"], ["chain"]) and rest[3:4] == ["from"]:
                found.add(_FROM_HOOK.get((name[0], _whole(tokens[at + 1]) or 0)))
    return frozenset(terms for terms in found if terms is not None)


_SPOKEN: Final[Mapping[str, str]] = MappingProxyType(
    {"dc": "dc", "double": "dc", "tr": "tr", "treble": "tr", "dtr": "dtr"}
)


def _name_at(tokens: tuple[Token, ...], i: int) -> tuple[str, int]:
    """Name the stitch at a token where both systems have the name, and say how long it is."""
    name = _SPOKEN.get(tokens[i].text, "") if i < len(tokens) else ""
    before = tokens[i - 1].text if i else ""
    if not name or before in {"half", "double", "triple"}:
        return "", 0
    words = [token.text for token in tokens[i : i + 3]]
    if words[:2] == ["double", "treble"]:
        name, words = "dtr", words[1:]
    end = 2 if words[1:2] == ["crochet"] else 1
    return name, end + (name == "dtr" and tokens[i].text == "double")


def _whole(token: Token) -> int | None:
    values = token.number.value if token.number is not None else None
    match values:
        case (int(value),):
            return value
        case _:
            return None


def _is_half(before: Token | None) -> bool:
    return before is not None and before.text == "half"
