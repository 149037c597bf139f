"""Which system of stitch names the words of a text speak for."""

from collections.abc import Iterable, Mapping
from functools import cache
from types import MappingProxyType
from typing import Final

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.trade import stitches
from stitchproof.trade.tables import Terms
from stitchproof.trade.terms import system_words


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
    if i >= len(tokens):
        return "", 0
    name = _SPOKEN.get(tokens[i].text, "")
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
