"""Conventions stated outside the rows.

`The ch-1 and ch-2 at the start of rows never count as a st` is one rule for each length of chain.
Narrative is searched for such sentences and for nothing else.
"""

import re
from collections.abc import Iterator
from itertools import zip_longest
from types import MappingProxyType
from typing import Final

from stitchproof.base.place import Span
from stitchproof.language.read.openings import STANDS_FOR, STANDS_FOR_NOTHING, is_convention
from stitchproof.language.tree import Counts, Post, Rule, Stitch
from stitchproof.trade import stitches
from stitchproof.trade.tables import Terms

_COUNT: Final = re.compile(
    r"\b(?P<negative>(?:(?:do(?:es)?|is|are|will|shall|should)\s*(?:not|n['’]t)\s+(?:be\s+)?|(?:are|is)\s+never\s+(?:be\s+)?"
    r"|never\s+(?:be\s+)?|not\s+))?(?:always\s+|be\s+|are\s+|is\s+|will\s+)*(?P<verb>count(?:s|ed|ing)?)\b",
    re.IGNORECASE,
)
_BEING: Final = re.compile(  # what a chain is, or does, where nobody says that it counts
    r"(?P<no>\b(?:is|are)\s*(?:not|n['’]t|never)\s+(?:(?:considered|treated\s+as|seen\s+as)\s+)?"
    r"(?:an?\s+)?st(?:itch(?:es)?|s)?\b"
    r"|\b(?:is|are)\s+(?:only|just|merely|simply)\s+(?:there\s+)?(?:for|to)\s+(?:\w+\s+){0,2}height"
    rf"|\b{STANDS_FOR_NOTHING})"
    rf"|\b{STANDS_FOR}|\b(?:is|are)\b(?=\s+(?:always\s+)?(?:an?|the|one|1|your)\s+[a-z])",
    re.IGNORECASE,
)
_LONGEST: Final = 600  # characters of a sentence that states a convention
_SENTENCE: Final = re.compile(r"[.;!?](?=\s|$|\))|\n\s*(?=[-•*]\s)|\n\s*\n")
_NUMBERS: Final = MappingProxyType({"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6})
_WORD_NUMBER: Final = r"(?:\d{1,2}|one|two|three|four|five|six)"
_SPACE: Final = re.compile(
    rf"\b(?:ch(?:ain)?s?[\s-]*(?P<after>{_WORD_NUMBER})?[\s-]*"
    r"(?:(?:corner|raglan|cent(?:er|re)|neck|increase|point|v)[\s-]+)?"
    r"(?:sps?|spaces?|lps?|loops?|arch(?:es)?)"
    rf"|(?P<before>{_WORD_NUMBER})[\s-]ch(?:ain)?[\s-](?:sps?|spaces?|loops?))\b",
    re.IGNORECASE,
)
_SLIP: Final = re.compile(r"\b(?:sl(?:ip)?[\s.-]*st(?:itch)?(?:es|s)?|ss)\b", re.IGNORECASE)
_TURNING: Final = re.compile(
    r"\b(?:t-?ch|(?:turning|beg(?:inning)?|start(?:ing)?|first|initial)\.?[\s-]+(?:\w+[\s-]+)?"
    r"(?:\d\s?)?ch(?:ain)?s?|(?:\d\s?)?ch(?:ain)?s?\b[^.]*\b(?:start|beg(?:inning)?|turning|turn|height))",
    re.IGNORECASE,
)
_CHAINS: Final = re.compile(
    rf"\bch(?:ain)?s?[\s-]*(?P<after>{_WORD_NUMBER})\b|\b(?P<before>{_WORD_NUMBER})[\s-]?ch(?:ain)?s?\b"
    rf"|(?:\bof|,|\band|\bor|/)\s*-?(?P<more>\d{{1,2}})\b(?!\s*(?:st|sc|h?dc|h?tr|row))",
    re.IGNORECASE,
)
_AS: Final = re.compile(
    r"\s+(?:in\s+the\s+stitch\s+count\s+)?(?:as|for)\s+(?:(?:the|an?|one|your|its|first|1st|always"
    r"|\d(?:st|nd|rd|th)|full)\s+|1\s*(?=[a-z]))*(?P<what>[a-z][a-z .-]{1,40})?"
    r"(?:\s*(?:and|\+|plus|,)\s*(?:(?:an?|one)\s+)?ch(?:ain)?[\s-]*(?P<chains>\d{1,2}|one|two|three)?)?",
    re.IGNORECASE,
)
_TIMES_EACH: Final = re.compile(r"\s+as\s+(?P<number>\d{1,2}|two|three|four)\s+", re.IGNORECASE)
_APART: Final = re.compile(r"\s+(?:separately|apart|on\s+their\s+own)\b", re.IGNORECASE)
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
    before = ""
    for a, b in _sentences(text, start, end):
        said = _MARKS.sub("", text[a : min(b, a + _LONGEST)])
        words, before = _of_what(said, before), said
        place = Span(source, a, b)
        if "count" in words.lower():
            parts = _stands_and_counts(words)
            for part in parts or (words,):
                found += _counting(part, place, terms)
                found += _standing(part, place, terms) if parts else ()
        elif "=" in words and (
            is_convention(words, 0) or _TURNING.match(words) or _EQUALS.match(words)
        ):
            found += _equal(words, place, terms)
        elif _BEING.search(words):
            found += _standing(words, place, terms)
        elif "times" in words:
            found += _repeats(words, place)
    return tuple(found)


def _stands_and_counts(words: str) -> tuple[str, ...]:
    """Part `3ch stands for the first tr, 1ch does not count`; empty where it says one thing."""
    parts = tuple(_PARTS.split(words))
    stands = [not _COUNT.search(part) and bool(_BEING.search(part)) for part in parts]
    counts = [bool(_COUNT.search(part)) for part in parts]
    return parts if any(stands) and any(counts) else ()


_PARTS: Final = re.compile(  # before another chain of which something is said
    r"(?:[,;]|\b(?:and|but|while)\b)\s*(?=(?:the\s+|an?\s+)?(?:\d\s?ch|ch(?:ain)?s?[\s-]?\d)"
    r"(?:\s+(?:at|in)\s[^,;]{0,40}?)?\s+(?:stands?|is|are|do(?:es)?|counts?|acts?|never|always)\b)",
    re.IGNORECASE,
)


def _standing(words: str, place: Span, terms: Terms) -> Iterator[Rule]:
    """Read what a chain stands for where nobody says that it counts."""
    being = _BEING.search(words) if not _COUNT.search(words) else None
    if being is not None:
        rest = " as" + words[being.end() :]
        yield from _one(words[: being.start()], rest, place, terms, negative=bool(being["no"]))


def _equal(words: str, place: Span, terms: Terms) -> Iterator[Rule]:
    """Read `ch 3 = 1 dc throughout`, `3ch = 1tr, 1ch = 0`."""
    for part in _AND_CHAIN.split(words):
        subject, equals, means = part.partition("=")
        if not equals or _SLIP.fullmatch(subject.strip()):
            continue  # `Sl st = slip stitch` explains an abbreviation
        none = _NONE.match(means) is not None
        yield from _one(subject, f" as {means.strip()}", place, terms, negative=none)


_AND_CHAIN: Final = re.compile(
    r"(?:[,;&]|\band\b)\s*(?=(?:\d+\s?ch|ch\s?\d)[^,;=]*=)", re.IGNORECASE
)
_EQUALS: Final = re.compile(  # `3ch = 1tr`
    r"\s*(?:[-•*]\s*)?(?:\d\s?ch|ch\s?\d)\s*=\s*(?:(?:1|one|an?|(?:the\s+)?first)\s*)?(?:[a-z]{2,4}|0)\b",
    re.IGNORECASE,
)
_NONE: Final = re.compile(r"\s*(?:0|nothing|no|none)\b", re.IGNORECASE)
_MARKS: Final = re.compile(r"\*\*|__")  # `are **not** counted`
_THEY: Final = re.compile(r"(?:they|these|those|this|that|it)\b(?=\s+\w)", re.IGNORECASE)


def _of_what(words: str, before: str) -> str:
    """Put what `They do count` speaks of in its place: the sentence before names it."""
    they = _THEY.match(words)
    speaks = they is not None and "count" in words.lower() and "count" not in before.lower()
    return before + words[they.end() :] if they is not None and speaks else words


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
_BY_LENGTH: Final = re.compile(  # `counts as a dc (ch 3) or as a dc and a ch-1 sp (ch 4)`
    r"\bas\s+(?P<what>[^()]{1,40}?)\s*[(]\s*(?:if\s+)?ch(?:ain)?[\s-]*(?P<chain>\d)\s*[)]",
    re.IGNORECASE,
)
_AND_AS: Final = re.compile(  # `ch 3 counts as 1 dc and ch 5 as 1 dc and ch 2`
    r"(?:[,;/]|\band\b|&)\s*(?P<chain>(?:the\s+)?ch(?:ain)?s?[\s-]*\d+)(?=\s+as\b)", re.IGNORECASE
)
_ARE: Final = re.compile(
    r"\s+(?:(?:do not |don['’]t )?includes?|are|is|exclude|given|in|at)\b", re.IGNORECASE
)
_AS_SUCH: Final = re.compile(r"\s+as\s+such\b", re.IGNORECASE)
_OF_THE_COUNT: Final = (
    r"\b(?:in|of|from|into)\s+"
    r"(?:(?:the|your|any|all|these|each|final|total|overall|stitch|st|row|round|rnd)\s+)*"
)
_IN_THE_COUNT: Final = re.compile(  # `are not included in the stitch counts`
    r"\b(?P<no>(?:(?:is|are|will|do(?:es)?)\s*(?:not|n['’]t|never)|never|not)\s+(?:be\s+)?)?"
    r"(?:included?|(?P<out>left\s+out|excluded?|omitted)|(?:a\s+)?part|(?(no)|(?!)))\s*"
    rf"{_OF_THE_COUNT}(?:counts?|totals?)\b",
    re.IGNORECASE,
)
_NO_VERB: Final = re.compile(  # `shown in the stitch counts`
    r"\b(?:in|from|into)\s+(?:(?:the|your|any|all|these|final|total|overall|stitch|st)\s+)+$",
    re.IGNORECASE,
)


def _counting(words: str, place: Span, terms: Terms) -> Iterator[Rule]:
    """Read what counts and what does not."""
    told = _IN_THE_COUNT.search(words)
    if told is None:
        yield from _by_verbs(words, place, terms)
        return
    earlier = [verb.end() for verb in _COUNT.finditer(words, 0, told.start())]
    if earlier:
        yield from _by_verbs(words[: told.start()], place, terms)
    subject = words[earlier[-1] if earlier else 0 : told.start()]
    negative = bool(told["no"]) != bool(told["out"])
    yield from _one(subject, " as a st", place, terms, negative=negative)
    yield from _by_verbs(words[told.end() :], place, terms)


def _by_verbs(words: str, place: Span, terms: Terms) -> Iterator[Rule]:
    """Read what counts and what does not, verb by verb."""
    at = 0
    verbs = list(_COUNT.finditer(words))
    for verb, following in zip_longest(verbs, verbs[1:]):
        subject = words[at : verb.start()]
        noun = verb.group().lower() in {"count", "counts"} and _NO_VERB.search(subject)
        if noun and not re.match(r"\s+as\b", words[verb.end() :]):
            continue
        end = following.start() if following is not None else len(words)
        other = _OTHER_CHAIN.search(words, verb.end(), end) if following is not None else None
        other = other or _AND_AS.search(words, verb.end(), end)
        rest = words[verb.end() : other.start() if other is not None else None]
        at = verb.end() if other is None else other.start()
        if verb.group().lower() in {"count", "counts"} and _ARE.match(rest):
            yield from _included(rest, place)  # `stitch counts include the ch-1 spaces`
            continue
        if told := list(_BY_LENGTH.finditer(rest)):
            for one in told:
                yield from _one(
                    f"ch {one['chain']}", f" as {one['what']}", place, terms, negative=False
                )
            continue
        if verb["verb"].lower() == "count" and not re.search(
            r"(?<![a-z])(?:ch|chain|sts?|stitch|sps?|spaces?|t-?ch)", subject, re.IGNORECASE
        ):
            subject = rest.split(" as ")[0]  # `do not count the ch-1 as a st`
            at = len(words) - len(rest) + len(subject)
            rest = rest[len(subject) :]
        if as_such := _AS_SUCH.match(rest) and _BEING.search(subject):
            subject, rest = subject[: as_such.start()], f" as{subject[as_such.end() :]}"
        if "counting" not in verb.group().lower():
            negative = bool(verb["negative"] or _NONE_OF.match(subject))
            yield from _one(subject, rest, place, terms, negative=negative)
        if other is not None and other.re is _AND_AS:
            and_as = other["chain"], words[other.end() : end]
            yield from _one(*and_as, place, terms, negative=False)


_NONE_OF: Final = re.compile(r"\s*(?:none|neither|no)\b", re.IGNORECASE)


def _included(rest: str, place: Span) -> Iterator[Rule]:
    """Read `include both the dc and the ch-1 spaces`: the spaces count too."""
    includes = re.match(r"\s+(?:do not |don['’]t )?includes?\b", rest, re.IGNORECASE)
    space = _SPACE.search(rest) if includes else None
    if includes is not None and space is not None and not _TIMES_EACH.search(rest):
        chains = _as_int(space["after"] or space["before"])
        negative = "n" in includes.group().split("include")[0].lower()
        yield Rule("chain spaces", chains=chains, holds=not negative, place=place)


def _one(subject: str, rest: str, place: Span, terms: Terms, *, negative: bool) -> Iterator[Rule]:
    space = _SPACE.search(subject)
    if space:
        chains = _as_int(space["after"] or space["before"])
        several = _TIMES_EACH.match(rest)
        if several and _as_int(several["number"]) != chains:
            return  # counted as something that no switch says
        holds = not negative and not _APART.match(rest)
        yield Rule("chain spaces", chains=chains, holds=holds, place=place)
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
    if not turning and not _NAMES_A_CHAIN.search(subject):
        return
    counts = Counts("", throughout=True) if negative else _counts(rest, terms)
    if counts is None:
        return
    for chains in chains_named or (None,):
        yield Rule("turning chain", counts=counts, chains=chains, place=place)


_ONE_STITCH: Final = re.compile(r"\s+(?:1|one|an?)\s?(?=[a-z])", re.IGNORECASE)
_SAYS_NO_MORE: Final = re.compile(r"\s*(?:throughout|here)?\s*$", re.IGNORECASE)
_NAMES_A_CHAIN: Final = re.compile(r"(?<![a-z])ch(?:ain)?s?(?![a-z])", re.IGNORECASE)


def _counts(rest: str, terms: Terms) -> Counts | None:
    """Read `as the first dc and ch 1 throughout`."""
    told = _AS.match(rest) or _AS.match(f" as{rest}" if _ONE_STITCH.match(rest) else "")
    if told is None:
        return Counts("st", throughout=True) if _SAYS_NO_MORE.match(rest) else None
    stitch = _stitch((told["what"] or "st").strip(), terms)
    if stitch is None:
        return None
    with_chain = _WITH_CHAIN.search(rest, told.start(), told.end() + _NUMBER_BEHIND)
    beside = with_chain is not None and with_chain.start() <= told.end()
    if with_chain is None or not beside:
        return Counts(stitch, throughout=True)
    return Counts(stitch, _as_int(with_chain[1] or with_chain[2]) or 1, throughout=True)


_WITH_CHAIN: Final = re.compile(
    r"(?:\b(?:and|plus|with)\b|[+&,])\s*(?:an?\s+)?(?:(\d{1,2}|one|two|three)[\s-]?)?"
    r"ch(?:ain)?s?(?![a-z])(?:[\s-]*(\d{1,2}|one|two|three)\b)?",
    re.IGNORECASE,
)
_NUMBER_BEHIND: Final = 12  # characters: `two chains`, `ch 2`


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
