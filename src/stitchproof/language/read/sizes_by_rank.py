"""Names of sizes that can be nothing else: `S (M, L)` in any sentence, or the head of a table.

Such names are known by how they rise: `XS` below `S` below `M`, `NB` below `3-6m` below `1-2y`.
They are taken where no line says that it names the sizes, and only where the lists of the text hold
as many numbers, so that a sentence about some of the sizes is not taken for all of them.
"""

import re
from collections import Counter
from collections.abc import Sequence
from itertools import islice, pairwise
from types import MappingProxyType
from typing import Final

from stitchproof.language.manuscript import BlockKind
from stitchproof.language.read.blocks import Stretch
from stitchproof.language.read.size_names import letters_rank

_AGE: Final = r"\d{1,2}(?:[-–]\d{1,2})?\s?(?:mo?s?|M|y|Y|T|yrs?|months?|years?)"
_PERSONS: Final = MappingProxyType(
    {
        word: rank
        for rank, words in enumerate(
            (
                ("preemie", "premature"),
                ("newborn", "nb"),
                ("baby", "infant"),
                ("toddler",),
                ("child", "kid", "kids", "children"),
                ("tween", "youth", "teen"),
                ("adult", "woman", "women", "ladies"),
                ("man", "men"),
            )
        )
        for word in words
    }
)
_ONE: Final = (
    r"(?:\d{0,2}X{0,4}[SML]|[1-9]XL?|(?:[Xx]-|[Ee]xtra )?(?:[Ss]mall|[Ll]arge)|[Mm]edium"
    rf"|NB|{'|'.join(f'[{w[0].upper()}{w[0]}]{w[1:]}' for w in _PERSONS if w != 'nb')}|{_AGE})\b"
)
_NAME: Final = rf"{_ONE}(?:[-–/]{_ONE})?"
_MORE: Final = rf"\s*[(\[]\s*{_NAME}(?:\s*[,:;/]\s*{_NAME})*\s*[)\]]"
_RISING: Final = re.compile(rf"(?<![\w-])(?P<all>{_NAME}(?:{_MORE})+)(?!\w)")
_OFFERED: Final = re.compile(
    r"\b(?:comes?|available|written|given|made|graded|sized|offered)\s+(?:in|for)\s+(?:sizes?\s+)?"
    rf"(?P<all>{_NAME}(?:\s*,\s*{_NAME})+(?:,?\s*(?:and|&)\s*{_NAME})?)(?!\s*(?:only|\w))"
)
_MEASURED: Final = re.compile(
    rf"(?<![\w-])(?P<name>{_NAME})\s*[:=–-]\s*\d[\d.½¼¾⅛⅜⅝⅞/]*(?:\s?[-–]\s?\d[\d.½¼¾]*)?"
    r"\s*(?:cm|ins?\b|inch|\"|”)"
)
_PARTS: Final = re.compile(r"\s*[,:;()\[\]]+\s*|\s+(?:and|&)\s+")
_TITLE: Final = re.compile(
    r"(?:(?:u\.?k\.?|u\.?s\.?|eu|to fit|dress|finished"
    r"|(?:women|men|kid|child(?:ren)?)['’]?s)\s+)*"
    r"sizes?\s*:?",
    re.IGNORECASE,
)
_LISTED: Final = re.compile(
    r"(?<![\d-])\d[\d.½¼¾]*\s?(?:[(\[]\s*\d[\d.½¼¾]*(?:\s?[,:;/-]\s?\d[\d.½¼¾]*)*\s*[)\]]\s?)+"
)
_VALUES: Final = re.compile(r"\d[\d.½¼¾]*")
_MOST: Final = 2_000  # lists that are looked at
_LONGEST: Final = 14  # characters of a name


def sizes_by_rank(lines: Sequence[str], text: str) -> tuple[str, ...]:
    """Find names of sizes that rise, in a list, behind `comes in`, or with a measure each."""
    for words in lines:
        for found in (*_RISING.finditer(words), *_OFFERED.finditer(words)):
            names = tuple(name for name in _PARTS.split(found["all"]) if name)
            few = len(names) == 2 and found.group() != words.strip(" .*_")  # noqa: PLR2004
            if not few and rise(names) and _agree(names, text):
                return names
        names = tuple(found["name"] for found in _MEASURED.finditer(words))
        if rise(names) and _agree(names, text):
            return names
    return ()


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


def rise(names: Sequence[str]) -> bool:
    """Whether each of two or more names is of a larger size than the one before."""
    ranks = [_rank(name) for name in names]
    known = [rank for rank in ranks if rank is not None]
    return len(known) == len(ranks) > 1 and all(a < b for a, b in pairwise(known))


def _rank(name: str) -> tuple[int, int] | None:
    """Tell where a name stands among all: babies before children before letters."""
    whole = name.lower()
    age = re.fullmatch(r"(?P<first>\d{1,2})(?:[-–]\d{1,2})?\s?(?P<unit>[a-z]+)", whole)
    if age is not None and re.fullmatch(_AGE, name):
        months = int(age["first"]) * (1 if age["unit"].startswith("m") else 12)
        return (2, months)
    first = re.split("[-–/]", whole.replace("x-", "x"), maxsplit=1)[0]
    letters = letters_rank(first.replace(" ", ""))
    if letters is not None:
        return (3, letters)
    person = _PERSONS.get(first)
    return None if person is None else (1, person)


def _agree(names: Sequence[str], text: str) -> bool:
    """Whether the lists of a text hold as many numbers as there are names, or there is no list."""
    lengths = Counter(
        len(_VALUES.findall(found.group())) for found in islice(_LISTED.finditer(text), _MOST)
    )
    return not lengths or lengths.most_common(1)[0][0] == len(names)
