"""Which sizes a line means: `Large`, `2nd and 3rd`, `M to XL`, `L and up`, `two largest`."""

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

SIZE_GROUP: Final = (  # several sizes by where they stand among all
    r"(?:(?:first|last|smallest|largest|smaller|larger)\s+(?:two|three|four|five|\d)"
    r"|(?:two|three|four|five|\d)\s+(?:first|last|smaller|smallest|larger|largest))"
)
_OF_ALL: Final = re.compile(
    r"(?:the\s+)?(?:(?P<number>two|three|four|five|\d)\s+(?P<which>first|last|larger|largest|smaller"
    r"|smallest)|(?P<such>first|last|smallest|largest|smaller|larger)(?:\s+(?P<many>two|three|four|five|\d))?)",
    re.IGNORECASE,
)
_FEW: Final = MappingProxyType({"two": 2, "three": 3, "four": 4, "five": 5})
_ORDINALS: Final = (
    *("first", "second", "third", "fourth", "fifth"),
    *("sixth", "seventh", "eighth", "ninth", "tenth"),
)
_NTH: Final = re.compile(r"(\d{1,2})(?:st|nd|rd|th)", re.IGNORECASE)
_RANGE: Final = re.compile(r"(?P<one>\S+)(?:\s+(?:to|through)\s+|\s?[-–]\s?)(?P<other>\S+)")
_UPWARDS: Final = frozenset(("up", "upwards", "above", "larger", "bigger", "over"))
_DOWNWARDS: Final = frozenset(("down", "below", "smaller", "under"))
_WORDS: Final = MappingProxyType(
    {"small": "s", "medium": "m", "large": "l", "extra large": "xl", "x-large": "xl"}
)


def named_sizes(names: tuple[str, ...], sizes: tuple[str, ...]) -> tuple[str, ...]:
    """Find sizes by the names that a line gives them: `Large` is `L`; empty if one is unknown.

    Parameters
    ----------
    names : tuple of str
        As the line has them; one may stand for several sizes, such as `two largest` or `M-XL`.
    sizes : tuple of str
        All sizes of the pattern, smallest first.
    """
    known = _known(sizes)
    numbered = all(name.isdecimal() for name in names) and not set(names) & set(sizes)
    found: list[int] = []
    for name in names:
        words = name.lower()
        told: tuple[int, ...]
        if found and words in _UPWARDS:
            told = tuple(range(found[-1] + 1, len(sizes)))
        elif found and words in _DOWNWARDS:
            told = tuple(range(found[-1]))
        elif numbered:
            told = _nth(int(name), sizes)
        else:
            told = _meant(name, known, sizes)
        if not told:
            return ()
        found += told
    return tuple(dict.fromkeys(sizes[at] for at in found))


def _known(sizes: tuple[str, ...]) -> dict[str, int]:
    """Give which size a word is, `6-12 months` also without its unit where that tells it."""
    known = {_plain(size): at for at, size in enumerate(sizes)}
    bare = [_UNIT.sub("", name) for name in known]
    for name, at in zip(bare, list(known.values()), strict=True):
        if bare.count(name) == 1:
            known.setdefault(name, at)
    return known


_UNIT: Final = re.compile(r"(?<=\d)\s?(?:months?|mths?|mos?|m|years?|yrs?|y)$")


def _plain(name: str) -> str:
    return _WORDS.get(name.lower(), name.lower())


def _meant(name: str, known: Mapping[str, int], sizes: tuple[str, ...]) -> tuple[int, ...]:
    """Tell which sizes one name means; empty where it names none."""
    one = _one(name, known, sizes)
    if one:
        return one
    some = _OF_ALL.fullmatch(name)
    if some is not None:
        number = (some["number"] or some["many"] or "1").lower()
        many = min(_FEW.get(number) or int(number), len(sizes))
        small = (some["which"] or some["such"]).lower().startswith(("f", "s"))
        return tuple(range(len(sizes)))[:many] if small else tuple(range(len(sizes)))[-many:]
    ends = _RANGE.fullmatch(name)
    if ends is None:
        return ()
    first, last = (_one(ends[end], known, sizes) for end in ("one", "other"))
    return tuple(range(first[0], last[0] + 1)) if first and last else ()


def _one(name: str, known: Mapping[str, int], sizes: tuple[str, ...]) -> tuple[int, ...]:
    """Tell which size a name is: its own, another word for it, or where it stands: `2nd`."""
    own = known.get(_plain(name), known.get(_UNIT.sub("", _plain(name))))
    if own is not None:
        return (own,)
    nth = _NTH.fullmatch(name)
    if nth is not None:
        return _nth(int(nth[1]), sizes)
    word = name.lower()
    return _nth(_ORDINALS.index(word) + 1, sizes) if word in _ORDINALS else ()


def _nth(number: int, sizes: tuple[str, ...]) -> tuple[int, ...]:
    return (number - 1,) if 0 < number <= len(sizes) else ()
