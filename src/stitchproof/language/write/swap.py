"""The words of one system of terms in the other, one by one, so that the way back is the same.

`dc` of a UK text is `sc` of a US one, and every name moves by one step. A name is changed into
the one that stands in its place in the other system, spelled, joined and capitalised alike; a name
that both systems give to the same stitch (`sl st`, `shell`) stays. Where no name of the other
system leads back to the very same word, the plain name of the stitch is taken and that is told.
"""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.trade.stitches import StitchKind, stitches
from stitchproof.trade.tables import Terms

_LETTER: Final = r"[^\W\d_]"
_BETWEEN: Final = r"(?:[ \t]*\r?\n[ \t]*|[ \t\u00a0]+|-)"
_POSTS: Final = r"(?P<post>(?:fp|bp)[ -]?|[fb]lo?)?"
# Long names move word by word; the longer come first.
_STEPS_UP: Final = (
    ("half double", "half treble"),
    ("single crochet", "double crochet"),
    ("double crochet", "treble crochet"),
    ("triple treble", "quadruple treble"),
    ("double treble", "triple treble"),
    ("treble", "double treble"),
)
# Around a post a stitch is named in short as well: "front post treble", "raised treble front".
_POST_PAIRS: Final = tuple(
    (f"{around} {us}", f"{around} {uk}")
    for around in ("post", "raised")
    for us, uk in (
        ("double crochet", "treble crochet"),
        ("double", "treble"),
        ("treble crochet", "double treble crochet"),
        ("treble", "double treble"),
    )
)
_POST_NAMES: Final[Mapping[Terms, Mapping[str, str]]] = MappingProxyType(
    {"US": dict(_POST_PAIRS), "UK": {uk: us for us, uk in _POST_PAIRS}}
)
_LONG: Final = ("crochet", "treble", "double", "single", "half")


@dataclass(frozen=True, slots=True)
class Swap:
    """One word and what takes its place.

    Attributes
    ----------
    start, end : int
        Where the word stands.
    words : str
        What is put there.
    back : bool
        The way back gives the very same word.
    """

    start: int
    end: int
    words: str
    back: bool = True


@dataclass(frozen=True, slots=True)
class _Name:
    """The name in the other system, and whether it leads back."""

    words: str
    back: bool


def other(terms: Terms) -> Terms:
    """Give the other system."""
    return "UK" if terms == "US" else "US"


@cache
def _own(terms: Terms) -> Mapping[str, str]:
    """Give every name of a system, lower case, as the table has it, with the stitch's id."""
    found: dict[str, str] = {}
    for kind in stitches().values():
        for name in _names_of(kind, terms):
            found.setdefault(name, kind.id)
    return MappingProxyType(found)


def _names_of(kind: StitchKind, terms: Terms) -> tuple[str, ...]:
    if terms == "US":
        names = (kind.us, kind.us_name, *kind.us_words)
    else:
        names = (kind.uk, kind.uk_name, *kind.uk_words)
    return tuple(name.lower() for name in names if "." not in name)  # stops: `_DOTTED`


@cache
def _names(terms: Terms) -> Mapping[str, _Name]:
    """Give for every name that changes the one in the other system."""
    to = other(terms)
    found: dict[str, _Name] = {}
    for name, kind in _own(terms).items():
        if _own(to).get(name) != kind:
            words = _counterpart(name, kind, terms)
            found[name] = _Name(words, _counterpart_back(words, kind, to) == name)
    found |= {name: _Name(words, back=True) for name, words in _POST_NAMES[terms].items()}
    return MappingProxyType(found)


def _counterpart(name: str, kind: str, terms: Terms) -> str:
    """Find the name that stands in the same place in the other system."""
    to = other(terms)
    row = stitches()[kind]
    short = (row.us, row.uk) if terms == "US" else (row.uk, row.us)
    if name == short[0].lower():
        return short[1].lower()
    moved = _moved(name, terms)
    if moved is not None and _own(to).get(moved) == kind:
        return moved
    if any(word in name for word in _LONG):
        return (row.uk_name if to == "UK" else row.us_name).lower()
    return short[1].lower()


def _counterpart_back(name: str, kind: str, terms: Terms) -> str:
    """Find where a name leads back to; empty where it names another stitch on the way."""
    if _own(terms).get(name) != kind:
        return ""
    return name if _own(other(terms)).get(name) == kind else _counterpart(name, kind, terms)


def _moved(name: str, terms: Terms) -> str | None:
    """Move a name of several words one step, word by word."""
    up = terms == "US"
    for us, uk in _STEPS_UP:
        here, there = (us, uk) if up else (uk, us)
        if re.search(rf"(?<!\w){here}(?!\w)", name):
            return re.sub(rf"(?<!\w){here}(?!\w)", there, name, count=1)
    *first, last = name.split(" ")
    for row in stitches().values():
        here, there = (row.us, row.uk) if up else (row.uk, row.us)
        if last == here.lower() and first:
            return " ".join((*first, there.lower()))
    return None


# Abbreviations that some write with stops: "d.c.", "h.tr."
_DOTTED: Final = MappingProxyType(
    {"sc": "s.c", "dc": "d.c", "hdc": "h.d.c", "htr": "h.tr", "dtr": "d.tr"}
)


def _dottable(part: str) -> str:
    return _DOTTED[part].replace(".", r"\.?") if part in _DOTTED else re.escape(part)


@cache
def _pattern(terms: Terms) -> re.Pattern[str]:
    names = sorted({*_own(terms), *_POST_NAMES[terms]}, key=lambda name: (-len(name), name))
    spelled = "|".join(
        _BETWEEN.join(_dottable(part) for part in re.split(r"[ -]", name)) for name in names
    )
    return re.compile(
        rf"(?<!{_LETTER})(?:{_POSTS}(?P<name>{spelled})|r(?P<raised>{spelled})(?=[fb](?!{_LETTER})))"
        rf"(?P<tail>s|[fb]lo?|[fb])?(?!{_LETTER})",
        re.IGNORECASE,
    )


_FOREIGN: Final = re.compile(r"\b(?:US|UK|U\.S\.|U\.K\.|American|British)[ :=]+$")
# What says whose terms the text uses: "US terms", "Abbreviations are UK".
_KINDS: Final = (
    r"(?:terms|terminology|abbreviations|stitch names|names|notation|conventions?|wording)"
)
_STATEMENT: Final = re.compile(
    r"\b(?P<ahead>US|UK|USA|U\.S\.|U\.K\.|American|British)"
    rf"(?=(?:\s+(?:crochet|stitch|english))*\s+{_KINDS}\b|\s+crochet\s*(?:[.!,;)]|$))"
    rf"|\b(?:{_KINDS}|stitch(?:es)?(?: used)?)\s*(?:[:=(\[]|\b(?:are|is)\b)"
    r"(?:\s+(?:all|in|given|those|the|of))*\s*"
    r"(?P<behind>(?-i:US|UK|U\.S\.|U\.K\.)|American|British)"
    r"(?!\w|\s*(?:[/&]|and\b|or\b|sizes?\b|hooks?\b|(?-i:[A-Z])\b|\d))",
    re.IGNORECASE | re.MULTILINE,
)
_BEFORE: Final = 60  # characters before a name that may say whose it is
_ENTRY: Final = re.compile(r"[\w/-]\s*[=:–—-]\s*$")  # what a name explains: "tr = treble"


def swaps(text: str, start: int, end: int, terms: Terms, *, works: bool) -> Iterator[Swap]:
    """Find the names of stitches between two offsets, and what takes their place.

    Parameters
    ----------
    text : str
        The whole text.
    start, end : int
        The stretch.
    terms : Terms
        The system it is written in.
    works : bool
        It is an instruction; in other words a bare "treble" may be no stitch.
    """
    names = _names(terms)
    for found in _pattern(terms).finditer(text, start, end):
        group = "name" if found["name"] else "raised"
        spelled = found[group]
        name = re.sub(rf"{_BETWEEN}", " ", spelled.lower())
        name = name if name in names else spelled.lower()
        dotted = "." in spelled and name.replace(".", "") in _DOTTED
        name = name.replace(".", "") if dotted else name
        to = names.get(name)
        if to is None or _is_foreign(text, start, found.start()):
            continue
        explains = _ENTRY.search(text, max(start, found.start() - _NEAR), found.start())
        if not works and name in {"treble", "pop", "spike"} and not explains:
            continue
        new = _DOTTED.get(to.words, to.words) if dotted else to.words
        words = _spelled_alike(spelled, new)
        yield Swap(found.start(group), found.end(group), words, to.back and _turns(spelled, words))


_NEAR: Final = 12  # characters before a name


def _is_foreign(text: str, start: int, at: int) -> bool:
    """Tell whether a name is said to be the other system's: "(UK tr)", but not "terms are UK:"."""
    told = _FOREIGN.search(text, max(start, at - _NEAR), at)
    if told is None:
        return False
    said = _STATEMENT.finditer(text, max(start, at - _BEFORE), at)
    return not any(one.end() > told.start() for one in said)


def _spelled_alike(old: str, new: str) -> str:
    """Give new words the capitals and the joins of the old."""
    parts = re.split(rf"({_BETWEEN})", old)
    joins = parts[1::2]
    words = new.split(" ")
    words = _capitals(parts[0::2], words)
    if len(words) - 1 == len(joins) + 1:
        joins = [" ", *joins]
    elif len(words) - 1 < len(joins):
        joins = joins[len(joins) - len(words) + 1 :]
    elif len(words) - 1 > len(joins):
        joins = [" "] * (len(words) - 1)
    return "".join(part for pair in zip(words, [*joins, ""], strict=True) for part in pair)


def _capitals(old: list[str], new: list[str]) -> list[str]:
    whole = "".join(old)
    if whole.isupper():
        return [word.upper() for word in new]
    if len(old) > 1 and all(word[:1].isupper() for word in old):
        return [word.capitalize() for word in new]
    if whole[:1].isupper():
        return [new[0].capitalize(), *new[1:]]
    return new


def _turns(old: str, new: str) -> bool:
    """Tell whether capitals and joins of the old words come out of the new ones again."""
    plain = re.sub(_BETWEEN, " ", old.lower())
    return _spelled_alike(new, plain) == old


# --------------------------------------------------------------------------- other words


@dataclass(frozen=True, slots=True)
class Pair:
    """A word that each system has its own of.

    `works`: only instructions use it so, and lists that explain it ("miss = skip"). `both`: each of
    the two means this and nothing else to makers of either system, so that they change places also
    in a text that uses the other's ("miss" of a Canadian one), and the way back finds them again.
    """

    us: str
    uk: str
    works: bool = False
    both: bool = False


PAIRS: Final = (
    Pair("sk", "miss", works=True, both=True),
    Pair("gauge", "tension"),
    Pair("yo", "yrh", both=True),
    Pair("yarn over", "yarn round hook", both=True),
)


@cache
def pair_pattern(word: str, *, explained: bool = False) -> re.Pattern[str]:
    """Give what finds a word of a pair; `explained`: only where a list says what it means."""
    spelled = _BETWEEN.join(word.split(" "))
    behind = rf"(?!{_LETTER})" + (r"(?=[ \t]*[=:–—])" if explained else "")
    return re.compile(rf"(?<!{_LETTER}){spelled}{behind}", re.IGNORECASE)


def pair_swaps(
    text: str, within: tuple[int, int], here: str, there: str, *, explained: bool = False
) -> Iterator[Swap]:
    """Find a word of a pair between two offsets, and the other system's."""
    for found in pair_pattern(here, explained=explained).finditer(text, *within):
        words = _spelled_alike(found[0], there)
        yield Swap(found.start(), found.end(), words, _turns(found[0], words))


def in_other_terms(words: str, terms: Terms) -> str:
    """Put words of an instruction that are in some terms into the others, word by word."""
    found = [*swaps(words, 0, len(words), terms, works=True)]
    found += statement_swaps(words, 0, len(words), terms)
    for pair in PAIRS:
        here, there = (pair.us, pair.uk) if terms == "US" else (pair.uk, pair.us)
        found += pair_swaps(words, (0, len(words)), here, there)
    for swap in sorted(found, key=lambda one: -one.start):
        words = f"{words[: swap.start]}{swap.words}{words[swap.end :]}"
    return words


_SYSTEMS: Final = (("US", "UK"), ("U.S.", "U.K."), ("American", "British"))


def statement_swaps(text: str, start: int, end: int, terms: Terms) -> Iterator[Swap]:
    """Find "US terms", and what it says in the other system."""
    for found in _STATEMENT.finditer(text, start, end):
        group = "ahead" if found["ahead"] else "behind"
        for us, uk in _SYSTEMS:
            here, there = (us, uk) if terms == "US" else (uk, us)
            if found[group].lower() == here.lower():
                words = there if found[group] == here else there.lower()
                plain = found[group] in (here, here.lower())
                yield Swap(found.start(group), found.end(group), words, plain)
