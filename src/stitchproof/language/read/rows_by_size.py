"""Row labels in which each size has rows of its own: `14 (15-16, 17-18)`, `5-12, 5-14, 5-16`.

Where each size has one row, `14 (15, 16)`, it is a number like any other; where one of them has a
range, the list cannot be a number.
"""

import re
from typing import Final

_NTH: Final = r"(?:st|nd|rd|th)?"
_TO: Final = r"\s?(?:[-–—&]|(?:and|to)\b)\s?"
_NAMED: Final = r"(?:(?i:r|rows?|rn?ds?|rounds?)\.?\s?)?"  # `R11-R28 (R13-R34)`
_ITEM: Final = rf"{_NAMED}\d{{1,4}}{_NTH}(?:{_TO}{_NAMED}\d{{1,4}}{_NTH})?(?![\w])"
_INSIDE: Final = rf"\s?{_ITEM}(?:\s?[,:;/]\s?{_ITEM})*\s?"
_BRACKET: Final = rf"(?:\({_INSIDE}\)|\[{_INSIDE}\]|\{{{_INSIDE}\}})"
_BEHIND: Final = re.compile(rf"(?P<first>{_ITEM})\s?(?P<more>{_BRACKET}(?:\s?{_BRACKET})*)")
_WHOLE: Final = re.compile(rf"[(\[]\s?{_ITEM}(?:\s?[,:;]\s?{_ITEM})+\s?[)\]]")
_SLASHED: Final = re.compile(rf"{_ITEM}(?:\s?/\s?{_ITEM})+")
_BARE: Final = re.compile(rf"{_ITEM}(?:,\s?{_ITEM}){{1,19}}(?=\s?(?:[:.(]|[–—-]\s))")
_SINGULAR: Final = re.compile(r"\b(?:row|rn?d|round)\.?\s*$", re.IGNORECASE)
_REACH: Final = 8
_FAR: Final = 600  # characters of a line
_ROWS: Final = re.compile(rf"(\d+){_NTH}(?:{_TO}{_NAMED}(\d+))?")
_RANGED: Final = re.compile(rf"{_NAMED}\d+{_NTH}{_TO}")
_APART: Final = re.compile(rf"(\d+){_NTH}\s?(?:&|and)\s?(\d+)")


def rows_by_size(
    text: str, start: int, end: int, sizes: int
) -> tuple[tuple[tuple[int, int], ...], int] | None:
    """Read the rows of each size: first and last, and where they end.

    Parameters
    ----------
    text : str
        The text of the label, and what comes behind it.
    start, end : int
        Where the numbers begin, and the end of what may be read.
    sizes : int
        How many sizes there are; 0: not known.
    """
    behind = _BEHIND.match(text, start, end)
    if behind is not None and not _follow(behind.group()):
        return None
    if behind is not None and _are_ranges(behind["first"], behind["more"], sizes):
        return _rows(behind.group()), behind.end()
    whole = _WHOLE.match(text, start, end)
    if whole is not None:
        rows = _rows(whole.group())
        return (rows, whole.end()) if _has_range(rows) and len(rows) == sizes else None
    slashed = _SLASHED.match(text, start, end)
    if slashed is not None:
        rows = _rows(slashed.group())
        ranged = _RANGED.match(slashed.group().partition("/")[0])
        end_alone = ranged and not _has_range(rows[1:])  # `6-16/22/30`
        return (rows, slashed.end()) if len(rows) == sizes and not end_alone else None
    bare = _BARE.match(text, start, end)
    if bare is not None:
        rows = _rows(bare.group())
        if len(rows) == sizes and (_overlap(rows) or _as_listed(text, *bare.span(), sizes)):
            return rows, bare.end()
    return None


def _overlap(rows: tuple[tuple[int, int], ...]) -> bool:
    """Whether the rows of `5-12, 5-14, 5-16` cannot all be worked one after another."""
    return _has_range(rows) and len({one for one, _ in rows}) == 1


def _as_listed(text: str, start: int, end: int, sizes: int) -> bool:
    """Whether `Rnd 13, 15, 17` is one round whose line lists its numbers in the same way."""
    singular = _SINGULAR.search(text, max(0, start - _REACH), start)
    alike = rf"\b\d{{1,5}}(?:,\s\d{{1,5}}){{{sizes - 1}}}\b(?!\s?[,(\[])"
    return bool(singular and re.search(alike, text[end : end + _FAR]))


def _rows(words: str) -> tuple[tuple[int, int], ...]:
    return tuple((int(one), int(other or one)) for one, other in _ROWS.findall(words))


def _follow(words: str) -> bool:
    """Whether the rows of every `23 & 24` follow one another, as those of a range do."""
    return all(int(other) == int(one) + 1 for one, other in _APART.findall(words))


def _has_range(rows: tuple[tuple[int, int], ...]) -> bool:
    return any(one != other for one, other in rows)


def _are_ranges(first: str, more: str, sizes: int) -> bool:
    """Whether each size has rows of its own behind those of the first.

    `11-13` behind `9` are two more sizes where there are three.
    """
    rows = _rows(more)
    if not _has_range(rows):
        return False
    ranged = _has_range(_rows(first))
    if len(rows) == 1:
        return ranged or sizes == 2  # noqa: PLR2004 - two sizes
    return ranged or sizes in {0, len(rows) + 1}
