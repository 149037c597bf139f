"""Names of sizes that can be nothing else: `S (M, L)` in any sentence, or the head of a table.

Such names are known by how they rise: `XS` below `S` below `M`, `NB` below `3-6m` below `1-2y`.
They are taken where no line says that it names the sizes, and only where the lists of the text hold
as many numbers, so that a sentence about some of the sizes is not taken for all of them.
"""

import re
from collections import Counter
from collections.abc import Sequence
from itertools import chain, islice
from typing import Final

from stitchproof.language.manuscript import BlockKind
from stitchproof.language.read.blocks import Stretch
from stitchproof.language.read.size_ranks import ONE_SIZE, SIZE_NAME, rise

_MORE: Final = rf"\s*[(\[]\s*{SIZE_NAME}(?:\s*[,:;/]\s*{SIZE_NAME})*\s*[)\]]"
_RISING: Final = re.compile(rf"(?<![\w-])(?P<all>{SIZE_NAME}(?:{_MORE})+)(?!\w)")
_OFFERED: Final = re.compile(
    r"\b(?:comes?|available|written|given|made|graded|sized|offered)\s+(?:in|for)\s+(?:sizes?\s+)?"
    rf"(?P<all>{SIZE_NAME}(?:\s*,\s*{SIZE_NAME})+(?:,?\s*(?:and|&)\s*{SIZE_NAME})?)(?!\s*(?:only|\w))"
)
_MEASURED: Final = re.compile(
    rf"(?<![\w-])(?P<name>{SIZE_NAME})\s*[:=–-]\s*\d[\d.½¼¾⅛⅜⅝⅞/]*(?:\s?[-–]\s?\d[\d.½¼¾]*)?"
    r"\s*(?:cm|ins?\b|inch|\"|”)"
)
_SLASHED_NAMES: Final = re.compile(rf"(?<![\w-])(?P<all>{ONE_SIZE}(?:\s*/\s*{ONE_SIZE})+)(?!\w)")
_NAME_ALONE: Final = r"[A-Z][A-Za-z’']{1,11}(?: [a-z]{2,8})?"
_NAMES_ALONE: Final = re.compile(
    rf"{_NAME_ALONE}\s*[(\[]\s*{_NAME_ALONE}(?:\s*[,:;/]\s*{_NAME_ALONE})+\s*[)\]]"
)
_SAYS_HOW: Final = re.compile(r"\b(?:brackets?|parenthes[ei]s)\b", re.IGNORECASE)
_PARTS: Final = re.compile(r"\s*[,:;()\[\]]+\s*|\s+(?:and|&)\s+")
_TITLE: Final = re.compile(
    r"(?:(?:u\.?k\.?|u\.?s\.?|eu|to fit|dress|finished"
    r"|(?:women|men|kid|child(?:ren)?)['’]?s)\s+)*"
    r"sizes?\s*:?",
    re.IGNORECASE,
)
_LISTED: Final = re.compile(
    r"(?<![\d-])\d[\d.½¼¾]*,?\s?(?:[(\[]\s*\d[\d.½¼¾]*(?:\s?[,:;/-]\s?\d[\d.½¼¾]*)*\s*[)\]]\s?)+"
)
_VALUES: Final = re.compile(r"\d[\d.½¼¾]*")
_MOST: Final = 300  # lists that are looked at
_LONGEST: Final = 14  # characters of a name


def sizes_by_rank(lines: Sequence[str], text: str) -> tuple[str, ...]:
    """Find names of sizes that rise, in a list, behind `comes in`, or with a measure each."""
    for words in lines:
        bracketed = "(" in words or "[" in words  # few lines need the longer look
        for found in (*(_RISING.finditer(words) if bracketed else ()), *_OFFERED.finditer(words)):
            names = tuple(name for name in _PARTS.split(found["all"]) if name)
            told = found.group() == words.strip(" .*_") or _SAYS_HOW.search(words)
            few = len(names) == 2 and not told  # noqa: PLR2004
            if not few and rise(names) and _agree(names, text):
                return names
        names = _slashed(words, text) if "/" in words else ()
        names = names or (_alone(words, text) if bracketed else ())
        if names:
            return names
        names = tuple(found["name"] for found in _MEASURED.finditer(words))
        if rise(names) and _agree(names, text):
            return names
    return ()


def _slashed(words: str, text: str) -> tuple[str, ...]:
    """Read `for newborn / 6 month babies`, `small/medium/large`, where slashes part the lists."""
    for found in _SLASHED_NAMES.finditer(words):
        names = tuple(re.split(r"\s*/\s*", found["all"]))
        lists = _SLASHED.findall(text) if len(names) > 2 else _TWO_SLASHED.findall(text)  # noqa: PLR2004
        alike = [one for one in lists if one.count("/") + 1 == len(names)]
        if rise(names) and (len(alike) >= _FEWEST or how_many_sizes(text) == len(names)):
            return names
    return ()


def _alone(words: str, text: str) -> tuple[str, ...]:
    """Read a line that is `Lap (Twin, Queen)` and no more, where the lists hold as many numbers."""
    found = _NAMES_ALONE.fullmatch(words.strip(" .*_"))
    names = tuple(name for name in _PARTS.split(found.group()) if name) if found else ()
    return names if names and len(set(names)) == len(names) == how_many_sizes(text) else ()


def sizes_of_table(stretches: Sequence[Stretch], text: str) -> tuple[str, ...]:
    """Find the sizes along the head of a table, or down its first column."""
    for stretch in stretches:
        if stretch.kind is not BlockKind.TABLE:
            continue
        rows = [_cells(line.of(text)) for line in stretch.lines]
        rows = [row for row in rows if row and any(cell.strip(":- ") for cell in row)]
        names = _of_rows(rows)
        if names and _agree(names, text):
            return names
    return ()


def _of_rows(rows: Sequence[tuple[str, ...]]) -> tuple[str, ...]:
    titled = bool(rows) and bool(_TITLE.fullmatch(rows[0][0]))
    down = tuple(row[0] for row in rows[1:])
    if titled and rise(down):
        return down
    for row in rows:
        names = row[1:]
        while names and not names[-1]:
            names = names[:-1]
        fits = len(set(names)) == len(names) > 1 and all(0 < len(n) <= _LONGEST for n in names)
        if fits and (_TITLE.fullmatch(row[0]) or (not row[0] and rise(names))):
            return names
    return ()


def _cells(line: str) -> tuple[str, ...]:
    return tuple(cell.strip(" *_") for cell in line.strip().strip("|").split("|"))


def how_many_sizes(text: str) -> int | None:
    """Tell how many sizes there are where none is named, by the lists that nearly all agree.

    Two numbers, `6 (12)`, are as often a row and its count.
    """
    shapes = (_LISTED, _SLASHED, _INSIDE)
    found = islice(chain.from_iterable(shape.finditer(text) for shape in shapes), _MOST)
    lengths = Counter(len(_VALUES.findall(one.group())) for one in found)
    many = {length: n for length, n in lengths.items() if length > 2}  # noqa: PLR2004
    most = max(many, key=lambda length: many[length], default=0)
    sure = most and many[most] >= _FEWEST and many[most] >= _NEARLY_ALL * sum(many.values())
    return most if sure else None


_SLASHED: Final = re.compile(r"(?<![\d/])\d+(?:\s?/\s?\d+){2,}(?!\s?[\d/])")
_TWO_SLASHED: Final = re.compile(r"(?<![\d/-])\d+\s?/\s?\d+(?!\s?[\d/½¼¾-])")
_INSIDE: Final = re.compile(r"(?<![\d½¼¾])(?<!\d )[(\[]\d+(?:, ?\d+){2,}[)\]]")  # `Ch (11, 13, 15)`
_FEWEST: Final = 3  # lists
_NEARLY_ALL: Final = 0.8  # of the lists


def _agree(names: Sequence[str], text: str) -> bool:
    """Whether the lists of a text hold as many numbers as there are names, or there is no list."""
    lengths = Counter(
        len(_VALUES.findall(found.group())) for found in islice(_LISTED.finditer(text), _MOST)
    )
    return not lengths or lengths.most_common(1)[0][0] == len(names)
