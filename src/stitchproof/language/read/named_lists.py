"""Lists that name each size: `S: 40, M: 44, L: 48 sts`, `40 (S), 44 (M), 48 (L) sts`.

Such a list is read only where it names as many sizes as the pattern has, from small to large, so
that an abbreviation of one letter is never taken for a size.
"""

from types import MappingProxyType
from typing import Final

from stitchproof.language.number import Value
from stitchproof.language.read.numerals import Raw, word_set

_SIZES: Final = MappingProxyType(
    {
        word: rank
        for rank, words in enumerate(
            (
                "xxxs",
                "xxs",
                "xs",
                "s small",
                "m med medium",
                "l large",
                "xl 1x 1xl",
                "xxl 2x 2xl",
                "xxxl 3x 3xl",
                "xxxxl 4x 4xl",
                "5x 5xl",
                "6x 6xl",
            )
        )
        for word in words.split()
    }
)
_SAYING: Final = word_set("size sizes")  # `size S: 40`
_LARGE: Final = word_set("x xl")  # behind a digit: `2X`
_TELLING: Final = frozenset((":", "=", "-", "–", "—"))
_PARTING: Final = frozenset((",", ";", "/", "&", "and"))
_MOST_UNITS: Final = 5  # pieces of a unit


def named_list(raws: list[Raw], i: int, sizes: int | None) -> tuple[tuple[Value, ...], int] | None:
    """Read a list that begins at `i`: a value a size, and the index behind the last piece."""
    if sizes is None or sizes < 2:  # noqa: PLR2004
        return None
    if _name(raws, i) is not None:
        return _names_first(raws, i, sizes)
    if raws[i].kind == "number" and i + 1 < len(raws) and raws[i + 1].text == "(":
        return _names_behind(raws, i, sizes)
    return None


def _name(raws: list[Raw], i: int) -> tuple[int, int] | None:
    """Read the name of a size: how large it is, and the index behind it."""
    if i < len(raws) and raws[i].text in _SAYING:
        i += 1
    if i >= len(raws):
        return None
    raw = raws[i]
    if raw.kind == "number" and i + 1 < len(raws) and raws[i + 1].text in _LARGE:
        rank = _SIZES.get(raw.text + raws[i + 1].text) if raws[i + 1].start == raw.end else None
        return None if rank is None else (rank, i + 2)
    rank = _SIZES.get(raw.text)
    return None if rank is None else (rank, i + 1)


def _names_first(raws: list[Raw], i: int, sizes: int) -> tuple[tuple[Value, ...], int] | None:
    values: list[Value] = []
    least = -1
    unit: tuple[str, ...] = ()
    while (name := _name(raws, i)) is not None and name[0] > least:
        least, i = name
        if i < len(raws) and raws[i].text in _TELLING:
            i += 1
        if not _is_plain(raws, i):
            return None
        values.append(raws[i].value)
        end = i + 1
        words, i = _unit(raws, end)
        if unit and words[: len(unit)] != unit:
            return None
        if len(values) == sizes:
            return tuple(values), end
        unit = words
        i = _parted(raws, i)
    return None


def _names_behind(raws: list[Raw], i: int, sizes: int) -> tuple[tuple[Value, ...], int] | None:
    values: list[Value] = []
    least = -1
    while _is_plain(raws, i) and i + 1 < len(raws) and raws[i + 1].text == "(":
        name = _name(raws, i + 2)
        if name is None or name[0] <= least:
            return None
        values.append(raws[i].value)
        least, i = name
        if i >= len(raws) or raws[i].text != ")":
            return None
        i += 1
        if len(values) == sizes:
            return tuple(values), i
        i = _parted(raws, i)
    return None


def _is_plain(raws: list[Raw], i: int) -> bool:
    return i < len(raws) and raws[i].kind == "number" and raws[i].formula is None


def _unit(raws: list[Raw], i: int) -> tuple[tuple[str, ...], int]:
    """Read the few words between a number and what parts it from the next: `sts`, `ch-1 sps`."""
    words: list[str] = []
    while i < len(raws) and len(words) < _MOST_UNITS:
        joined = raws[i].text == "-" or bool(words and words[-1] == "-")
        if not joined and (raws[i].kind != "word" or raws[i].text in _PARTING | _SAYING):
            break
        if not joined and _name(raws, i) is not None:
            break
        words.append(raws[i].text)
        i += 1
    return tuple(words), i


def _parted(raws: list[Raw], i: int) -> int:
    while i < len(raws) and raws[i].text in _PARTING:
        i += 1
    return i
