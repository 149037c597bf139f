"""The names of a pattern's sizes among its words: `size S`, `Sizes L and XL`, `S (M, L)`.

A size is found by the name the pattern gives it, or by another word for the same: `Medium` is `M`.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import field
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.language.read.numerals import word_set

SAYING: Final = word_set("size sizes")  # `size S: 40`
_PARTING: Final = frozenset((",", ";", "/", "&", "and", "or", ":", "-", "(", "[", ")", "]"))
_BY_RANK: Final = (  # smallest first, with the other words for each
    ("xxxs",),
    ("xxs", "2xs"),
    ("xs", "x-small", "extrasmall"),
    ("s", "sm", "small"),
    ("m", "med", "medium"),
    ("l", "lg", "large"),
    ("xl", "1x", "1xl", "x-large", "extralarge"),
    ("xxl", "2x", "2xl"),
    ("xxxl", "3x", "3xl"),
    ("xxxxl", "4x", "4xl"),
    ("5x", "5xl"),
    ("6x", "6xl"),
)
_WORDS: Final = MappingProxyType({word: words[0] for words in _BY_RANK for word in words})
_RANKS: Final = MappingProxyType(
    {word.replace("-", ""): rank for rank, words in enumerate(_BY_RANK) for word in words}
)
_PIECE: Final = re.compile(r"[0-9]+|[^\W\d_]+|\S")


def letters_rank(word: str) -> int | None:
    """Tell where a size by letters stands among all: `xs` before `s`; None where it is none."""
    return _RANKS.get(word)


def listed_in(names: Sequence[str], text: str, start: int, end: int) -> range:
    """Tell where words list all sizes by name: `8/10 (12/14, 16/18)` is no list of numbers."""
    if len(names) < _FEWEST or not any(name[:1].isdigit() for name in names):
        return range(0)
    listed = r"\s*[,;:()\[\]{}]+\s*".join(map(re.escape, names))
    found = re.compile(rf"(?<![\w/]){listed}(?![\w/])").search(text, start, end)
    return range(0) if found is None else range(*found.span())


_FEWEST: Final = 2


@dataclass(frozen=True, slots=True)
class SizeNames:
    """The sizes of a pattern, as its words name them.

    Attributes
    ----------
    names : tuple of str
        As the pattern has them, smallest first.
    forms : mapping of str to tuple of (int, tuple of str)
        By their first piece: what may name a size, cut as words are cut, in lower case, and which
        size it is; longer ones first.
    """

    names: tuple[str, ...] = ()
    forms: Mapping[str, tuple[tuple[int, tuple[str, ...]], ...]] = field(
        default_factory=dict, compare=False, repr=False
    )

    @classmethod
    def of(cls, names: tuple[str, ...]) -> "SizeNames":
        """Cut the names of a pattern's sizes."""
        forms: dict[str, list[tuple[int, tuple[str, ...]]]] = {}
        for size, name in enumerate(names):
            pieces = tuple(_PIECE.findall(name.lower()))
            for form in (pieces, *_OTHERS.get("".join(pieces), ())):
                if form:
                    forms.setdefault(form[0], []).append((size, form))
        order = {word: sorted(some, key=lambda one: -len(one[1])) for word, some in forms.items()}
        return cls(names, {word: tuple(some) for word, some in order.items()})

    def at(self, texts: Sequence[str], i: int) -> tuple[int, int] | None:
        """Read a name that begins at a word: which size it is, and the index behind it."""
        if i >= len(texts):
            return None
        for size, form in self.forms.get(texts[i], ()):
            end = i + len(form)
            if tuple(texts[i:end]) == form:
                return size, end
        return None

    def is_number(self, size: int) -> bool:
        """Whether nothing but how it is used tells a name from a number: `32`, `6-8`."""
        return not any(letter.isalpha() for letter in self.names[size])

    def run(self, texts: Sequence[str], i: int) -> tuple[tuple[int, ...], int]:
        """Read names with signs and words between: `L and XL`, `S (M, L)`; none: the same index."""
        found: list[int] = []
        end = at = i
        while at < len(texts):
            if found and texts[at] in _PARTING:
                at += 1
                continue
            one = self.at(texts, at)
            if one is None or one[0] in found:
                break
            found.append(one[0])
            end = at = one[1]
        while found and texts[end : end + 1] in ([")"], ["]"]) and _opened(texts, i, end):
            end += 1
        return tuple(found), end


def _opened(texts: Sequence[str], start: int, end: int) -> bool:
    """Whether a bracket stands open between two indices."""
    words = texts[start:end]
    return sum(w in "([" for w in words) > sum(w in ")]" for w in words)


def _other_words() -> dict[str, tuple[tuple[str, ...], ...]]:
    """Give for every word of a size, run together, the other words for it, cut."""
    alike: dict[str, list[str]] = {}
    for word, plain in _WORDS.items():
        alike.setdefault(plain, []).append(word)
    return {
        word.replace("-", ""): tuple(tuple(_PIECE.findall(one)) for one in words if one != word)
        for words in alike.values()
        for word in words
    }


_OTHERS: Final = MappingProxyType(_other_words())
NO_SIZES: Final = SizeNames()
