"""How names of sizes rise: babies before children before letters."""

import re
from collections.abc import Sequence
from itertools import pairwise
from types import MappingProxyType
from typing import Final

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
ONE_SIZE: Final = (
    r"(?:\d{0,2}X{0,4}[SML]|[1-9]XL?|(?:[Xx]-|[Ee]xtra )?(?:[Ss]mall|[Ll]arge)|[Mm]edium"
    rf"|NB|{'|'.join(f'[{w[0].upper()}{w[0]}]{w[1:]}' for w in _PERSONS if w != 'nb')}|{_AGE})\b"
)
SIZE_NAME: Final = rf"{ONE_SIZE}(?:[-–/]{ONE_SIZE})?"


def rise(names: Sequence[str]) -> bool:
    """Whether each of two or more names is of a larger size than the one before."""
    ranks = [size_rank(name) for name in names]
    known = [rank for rank in ranks if rank is not None]
    return len(known) == len(ranks) > 1 and all(a < b for a, b in pairwise(known))


def size_rank(name: str) -> tuple[int, int] | None:
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
