"""Abbreviations of instructions and the words that tell US from UK terms."""

from collections.abc import Iterator, Mapping
from functools import cache
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.trade import stitches, tables
from stitchproof.trade.tables import Confidence, Row, Terms

# Stitches whose own names the other system gives to nothing. Names of taller stitches exist in
# both and stand for different things, and rare ones are spelled in too many ways to be sure of.
_TELLING: Final[Mapping[Terms, frozenset[str]]] = MappingProxyType(
    {
        "US": frozenset({"sc", "hdc", "esc", "ehdc", "fsc", "fhdc"}),
        "UK": frozenset({"hdc", "ehdc", "fhdc"}),
    }
)


@dataclass(frozen=True, slots=True)
class Abbreviation:
    """An abbreviation and what it stands for.

    Attributes
    ----------
    abbr : str
        As printed: `RS`, `rep`, `FPtr`.
    meaning : str
        In the spelling of the system asked for.
    source, confidence : str
        Where it comes from.
    """

    abbr: str
    meaning: str
    source: str
    confidence: Confidence


@dataclass(frozen=True, slots=True)
class SystemWords:
    """Words that only one system uses, lower case.

    Attributes
    ----------
    sure : frozenset of str
        No text in the other system has them: `sc`, `hdc`; `htr`.
    hints : frozenset of str
        Most texts in the other system have not: `skip`, `gauge`; `miss`, `tension`. Canadian
        patterns mix them, so they decide nothing alone.
    """

    sure: frozenset[str]
    hints: frozenset[str]


@cache
def abbreviations(terms: Terms) -> Mapping[str, Abbreviation]:
    """Give every abbreviation of a system by its lower-case spelling, stitches included.

    Post stitches and stitches drawn together are endless; `explain` knows those too.
    """
    found: dict[str, Abbreviation] = {}
    for kind in stitches.stitches().values():
        one = _stitch(stitches.Named(kind.id), terms)
        for word in (one.abbr.lower(), f"{one.abbr.lower()}s"):
            found.setdefault(word, one)
        for word in kind.us_words if terms == "US" else kind.uk_words:
            if len(word) <= len(one.abbr) + 1:
                found.setdefault(word, Abbreviation(word, one.meaning, one.source, one.confidence))
    for row in tables.rows(tables.table("terms"), "abbreviation"):
        if tables.text(row, "system") in ("", terms):
            _add(found, row, terms)
    return MappingProxyType(found)


@cache
def measures() -> Mapping[str, Abbreviation]:
    """Give the abbreviations of units of length and mass by their lower-case spelling."""
    found: dict[str, Abbreviation] = {}
    for row in tables.rows(tables.table("terms"), "measure"):
        _add(found, row, "US")
    return MappingProxyType(found)


def explain(word: str, terms: Terms) -> Abbreviation | None:
    """Say what an abbreviation stands for, post stitches and stitches drawn together included."""
    known = abbreviations(terms).get(word.lower())
    if known:
        return known
    named = stitches.named(word, terms)
    return _stitch(named, terms) if named else None


@cache
def system_words(terms: Terms) -> SystemWords:
    """Give the words that belong to this system and not to the other one."""
    other: Terms = "UK" if terms == "US" else "US"
    known, foreign = stitches.words(terms), stitches.words(other)
    own = {one for one, kind in known.items() if kind in _TELLING[terms] and one not in foreign}
    short = {stitches.abbreviation(kind, terms=terms) for kind in _TELLING[terms]} & own
    together = {f"{one}{number}tog" for one in short for number in range(2, 6)}
    posts = {f"{side}{one}" for one in short for side in ("fp", "bp")}
    return SystemWords(frozenset(own | together | posts), frozenset(_told_apart(terms)))


def _told_apart(terms: Terms) -> Iterator[str]:
    key = terms.lower()
    for row in tables.rows(tables.table("terms"), "told_apart"):
        yield tables.text(row, key)
        yield from tables.words(row, f"{key}_also")


def _stitch(one: stitches.Named, terms: Terms) -> Abbreviation:
    row = stitches.stitches()[one.kind]
    return Abbreviation(
        stitches.abbreviation(one.kind, one.post, one.together, terms),
        stitches.long_name(one.kind, one.post, one.together, terms),
        row.source,
        row.confidence,
    )


def _add(found: dict[str, Abbreviation], row: Row, terms: Terms) -> None:
    meaning = tables.text(row, "meaning") or tables.text(row, terms.lower())
    one = Abbreviation(
        tables.text(row, "abbr"), meaning, tables.text(row, "source"), tables.confidence(row)
    )
    for word in (one.abbr, *tables.words(row, "also")):
        found.setdefault(word.lower(), one)
