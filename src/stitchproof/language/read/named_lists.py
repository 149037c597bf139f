"""Numbers that name their sizes: `S: 40, M: 44, L: 48 sts`, `40 (S), 44 (M), 48 (L) sts`.

Such a list is read only where it names all sizes of the pattern, from small to large, or where it
says that it speaks of sizes, so that an abbreviation of one letter is never taken for a size.
"""

from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.language.number import Value
from stitchproof.language.read.numerals import Raw
from stitchproof.language.read.size_names import SAYING, SizeNames

_TELLING: Final = frozenset((":", "=", "-", "–", "—"))
_PARTING: Final = frozenset((",", ";", ".", "/", "&", "and"))
_OPENING: Final = {"(": ")", "[": "]"}
_MOST_UNITS: Final = 5  # pieces of a unit
_REACH: Final = 12  # pieces from one number to the next


@dataclass(frozen=True, slots=True)
class NamedList:
    """A list that names its sizes.

    Attributes
    ----------
    values : tuple of Value
        A value a size; None where it gives none.
    end : int
        Index behind the number; what it counts stands behind it.
    unit_end : int
        Index behind what it counts.
    rest : int
        Index behind the whole list; between the last two stands no more than a name.
    """

    values: tuple[Value, ...]
    end: int
    unit_end: int
    rest: int


def named_list(raws: list[Raw], i: int, sizes: SizeNames) -> NamedList | None:
    """Read a list that begins at a piece."""
    if len(sizes.names) < 2:  # noqa: PLR2004
        return None
    text = raws[i].text
    if raws[i].kind == "number" and (behind := _names_behind(raws, i, sizes)) is not None:
        return behind
    said = text in SAYING or (text == "for" and i + 1 < len(raws) and raws[i + 1].text in SAYING)
    return _names_first(raws, i, sizes) if said or text in sizes.forms else None


def names_all(raws: list[Raw], i: int, sizes: SizeNames) -> int:
    """Read `for S (M, L)` behind a list of numbers: the index behind it; the same one if none."""
    at = i
    opened = raws[at].text in _OPENING
    at += opened
    said = False
    while at < len(raws) and raws[at].text in {"for", "the"} | SAYING:
        said, at = True, at + 1
    if not said and not opened:
        return i
    texts = _texts(raws, at, _REACH * max(len(sizes.names), 1))
    named, length = sizes.run(texts, 0)
    if len(sizes.names) < 2 or named != tuple(range(len(sizes.names))):  # noqa: PLR2004
        return i
    at += length
    while at < len(raws) and raws[at].text in SAYING | {"respectively"}:
        at += 1
    if not opened:
        return at
    return at + 1 if at < len(raws) and raws[at].text == _OPENING[raws[i].text] else i


def every_size(raws: list[Raw], i: int) -> int:
    """Read `for all sizes` behind a number, bracketed or not: the index behind it; or the same."""
    opened = raws[i].text in _OPENING
    at = i + opened
    while at < len(raws) and raws[at].text in {"for", "in", "same", "the"}:
        at += 1
    if at + 1 >= len(raws) or raws[at].text not in {"all", "every", "each"}:
        return i
    at += 1 + (raws[at + 1].text == "the")
    if at >= len(raws) or raws[at].text not in SAYING:
        return i
    closed = at + 1 < len(raws) and raws[at + 1].text == _OPENING.get(raws[i].text)
    return at + 1 if not opened else at + 2 if closed else i


def _texts(raws: list[Raw], i: int, most: int) -> list[str]:
    return [raw.text for raw in raws[i : i + most]]


def _name(raws: list[Raw], i: int, sizes: SizeNames) -> tuple[int, int, bool] | None:
    """Read the name of a size: which one, the index behind it, whether it says "size"."""
    said = False
    while i < len(raws) and raws[i].text in {"for", "the"} | SAYING:
        said, i = said or raws[i].text in SAYING, i + 1
    found = _size(raws, i, sizes)
    return None if found is None else (*found, said)


def _size(raws: list[Raw], i: int, sizes: SizeNames) -> tuple[int, int] | None:
    if i >= len(raws) or raws[i].text not in sizes.forms:
        return None
    found = sizes.at(_texts(raws, i, _REACH), 0)
    return None if found is None else (found[0], i + found[1])


def _names_first(raws: list[Raw], i: int, sizes: SizeNames) -> NamedList | None:
    values: list[Value] = [None] * len(sizes.names)
    last, at, all_said = -1, i, True
    read: NamedList | None = None
    unit: tuple[str, ...] = ()
    while (name := _name(raws, at, sizes)) is not None and name[0] > last:
        last, at, said = name
        all_said = all_said and said
        at += at < len(raws) and raws[at].text == "only"
        told = at < len(raws) and raws[at].text in _TELLING
        at += told
        if (sizes.is_number(last) and not told) or not _is_plain(raws, at):
            break
        values[last] = raws[at].value
        words, after = _unit(raws, at + 1, sizes)
        if unit and words[: len(unit)] != unit:
            break
        unit = words
        read = NamedList(tuple(values), at + 1, after, after)
        at = _parted(raws, after)
    whole = read is not None and None not in read.values
    return read if whole or (read is not None and all_said and unit) else None


def _names_behind(raws: list[Raw], i: int, sizes: SizeNames) -> NamedList | None:
    values: list[Value] = []
    at = i
    while _is_plain(raws, at) and len(values) < len(sizes.names):
        end = at + 1
        _, unit_end = _unit(raws, end, sizes)
        named = _named_behind(raws, unit_end, sizes)
        if named is None or named[0] != len(values):
            return None
        values.append(raws[at].value)
        if len(values) == len(sizes.names):
            return NamedList(tuple(values), end, unit_end, named[1])
        at = _parted(raws, named[1])
    return None


def _named_behind(raws: list[Raw], i: int, sizes: SizeNames) -> tuple[int, int] | None:
    """Read `(S)`, `for size S`, `S` behind a number and what it counts."""
    opened = _OPENING.get(raws[i].text, "") if i < len(raws) else ""
    at = i + bool(opened)
    name = _name(raws, at, sizes)
    if name is None or (sizes.is_number(name[0]) and not (opened or name[2] or name[1] > at + 1)):
        return None
    size, at, _ = name
    if opened and (at >= len(raws) or raws[at].text != opened):
        return None
    return size, at + bool(opened)


def _is_plain(raws: list[Raw], i: int) -> bool:
    return i < len(raws) and raws[i].kind == "number" and raws[i].formula is None


def _unit(raws: list[Raw], i: int, sizes: SizeNames) -> tuple[tuple[str, ...], int]:
    """Read the few words between a number and what parts it from the next: `sts`, `ch-1 sps`."""
    words: list[str] = []
    while i < len(raws) and len(words) < _MOST_UNITS:
        joined = raws[i].text == "-" or bool(words and words[-1] == "-")
        if not joined and (raws[i].kind != "word" or raws[i].text in _PARTING | SAYING | {"for"}):
            break
        if not joined and _size(raws, i, sizes) is not None:
            break
        words.append(raws[i].text)
        i += 1
    return tuple(words), i


def _parted(raws: list[Raw], i: int) -> int:
    while i < len(raws) and raws[i].text in _PARTING:
        i += 1
    return i
