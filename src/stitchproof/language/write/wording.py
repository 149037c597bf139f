"""How prose is worded: whose terms, short or in full, which sizes."""

import re
from collections.abc import Mapping
from dataclasses import field
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.number import Number, NumberKind, Resolved, Value
from stitchproof.language.tree import Special
from stitchproof.language.write.formula import written
from stitchproof.language.write.numbers import ABSENT, is_length, length_words, number_words
from stitchproof.language.write.swap import in_other_terms, other
from stitchproof.language.write.unfold import in_full
from stitchproof.trade.tables import Terms

_NONE: Final[Mapping[str, Special]] = MappingProxyType({})
_NO_NUMBERS: Final[Mapping[str, Number]] = MappingProxyType({})
_CENTRED: Final = re.compile(r"\bcent(?:er|re) (?:ch-\d )?sp")
_MISSED: Final = MappingProxyType({"sk": "miss", "skipped": "missed"})
_CODE: Final = re.compile(r"(?P<name>MC|CC)(?P<which>\d?)")
_SUFFIXES: Final = MappingProxyType({1: "st", 2: "nd", 3: "rd"})
_TEENS: Final = range(11, 14)


def _nth(value: int) -> str:
    suffix = "th" if value % 100 in _TEENS else _SUFFIXES.get(value % 10, "th")
    return f"{value}{suffix}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wording:
    """What decides the words, apart from the tree.

    Attributes
    ----------
    terms : str
        Whose stitch names: "US" or "UK".
    written_in : str or None
        Whose stitch names the author's own words use that are kept; None: these.
    full : bool
        No abbreviations.
    aloud : bool
        For the ear: repeats in sentences, no bare signs. It is not meant to be read back.
    resolved : Resolved or None
        Print what numbers come to in the sizes worked now; None keeps them as the author spells
        them, formulas between braces.
    groups : tuple of int
        How many sizes stand together in a printed list.
    specials : mapping of str to Special
        Stitches the author defined, by lower-case name; a name that is not here is not written.
    spelled : mapping of str to Number
        Numbers by their spelling, for words that are kept as the author wrote them.
    lengths : frozenset of str
        Names of formulas that are lengths.
    british : bool
        The author spells "centre", whosever stitch names these are.
    centred : bool
        The author has one place to increase at and calls it the centre: no corner.
    """

    terms: Terms = "US"
    written_in: Terms | None = None
    full: bool = False
    aloud: bool = False
    resolved: Resolved | None = None
    groups: tuple[int, ...] = ()
    specials: Mapping[str, Special] = field(default_factory=lambda: _NONE)
    spelled: Mapping[str, Number] = field(default_factory=lambda: _NO_NUMBERS)
    lengths: frozenset[str] = frozenset()
    british: bool = False
    centred: bool = False

    def word(self, short: str) -> str:
        """Give a word of the trade, short or in full, in these terms."""
        if self.terms == "UK" and short in _MISSED:
            return _MISSED[short]
        if short == "center" and (self.terms == "UK" or self.british):
            return "centre"
        return _FULL.get(short, short) if self.full else short

    # ------------------------------------------------------------------ numbers

    def kept(self, words: str) -> str:
        """Give the author's own words in these terms, with numbers printed where sizes are."""
        if self.written_in not in {None, self.terms}:
            words = in_other_terms(words, other(self.terms))
        if self.resolved is None or not self.spelled:
            return words
        for spelling in sorted(self.spelled, key=len, reverse=True):
            if spelling and spelling in words:
                words = words.replace(spelling, self.number(self.spelled[spelling]))
        return words

    def told(self, words: str) -> str:
        """Give the author's own words, in full where all is."""
        kept = self.kept(words)
        return in_full(kept, self.terms) if self.full else kept

    def yarn(self, name: str) -> str:
        """Give the name of a yarn; in full, `MC` and `CC2` are colours by their names."""
        code = _CODE.fullmatch(name)
        if not self.full or code is None:
            return name
        words = in_full(code["name"], self.terms)
        words = words.replace("color", "colour") if self.british else words
        return f"{words} {code['which']}".rstrip()

    def values(self, number: Number) -> tuple[Value, ...] | None:
        """Give what a number comes to in the sizes printed; None where that is not known."""
        if self.resolved is not None:
            return self.resolved.of(number)
        return number.value if isinstance(number.value, tuple) else None

    def number(self, number: Number) -> str:
        """Print a number."""
        if self.resolved is not None:
            values = self.resolved.of(number)
            if values is not None and self._is_length(number):
                return length_words(values, self.groups)
            if values is not None:
                return number_words(values, self.groups)
        if not isinstance(number.value, tuple):
            return number.spelling or f"{{{written(number.value)}}}"
        if number.kind is NumberKind.LENGTH:
            return number.spelling or length_words(number.value)
        if number.spelling and len(number.value) > 1 and _is_plain_list(number.spelling):
            return number.spelling
        return _listed([_value(value) for value in number.value])

    def _is_length(self, number: Number) -> bool:
        if number.kind is NumberKind.LENGTH:
            return True
        return not isinstance(number.value, tuple) and is_length(number.value, self.lengths)

    def ordinal(self, number: Number) -> str | None:
        """Print an ordinal, or one for each size: `3rd (4th, 5th)`; None where there is none."""
        values = self.values(number)
        if not values or any(not isinstance(value, int) or value < 1 for value in values):
            return None
        words = str(values[0]) if len(set(values)) == 1 else self.number(number)
        return re.sub(r"\d+", lambda found: _nth(int(found[0])), words)

    def is_one(self, number: Number) -> bool:
        """Tell whether a number is 1 in every size."""
        values = self.values(number)
        return bool(values) and set(values or ()) == {1}

    def is_none(self, number: Number) -> bool:
        """Tell whether a number is 0 or absent in every size printed."""
        values = self.values(number) if self.resolved is not None else None
        return bool(values) and all(not value for value in values or ())


def wording_of(manuscript: Manuscript) -> Wording:
    """Give a manuscript's own words: its terms, and the stitches its author names."""
    return Wording(
        terms=manuscript.terms,
        specials={special.name: special for special in manuscript.specials},
        british="centre" in manuscript.text,
        centred=_CENTRED.search(manuscript.text) is not None and "corner" not in manuscript.text,
    )


def _value(value: Value) -> str:
    return ABSENT if value is None else number_words((value,))


def _listed(shown: list[str]) -> str:
    """Print every entry, also where all are alike: the author has one for each size."""
    first, *rest = shown
    return f"{first} ({', '.join(rest)})" if rest else first


def _is_plain_list(spelling: str) -> bool:
    """Tell whether a list reads back wherever it stands, and as one: not "50, 60, 70, join".

    All sizes in one bracket, "(50, 60, 70)", would be taken for a remark or a count.
    """
    bracketed = any(char in "([{" for char in spelling[1:]) and ", (" not in spelling
    return bracketed and not any(char.isalpha() for char in spelling)


# What abbreviations stand for; the same in both systems.
_FULL: Final = MappingProxyType(
    {
        "st": "stitch",
        "sts": "stitches",
        "ch": "chain",
        "chs": "chains",
        "sp": "space",
        "sps": "spaces",
        "lp": "loop",
        "sk": "skip",
        "rep": "repeat",
        "beg": "beginning",
        "rnd": "round",
        "Rnd": "Round",
        "rnds": "rounds",
        "RS": "right side",
        "WS": "wrong side",
        "sl st": "slip stitch",
        "patt": "pattern",
    }
)
