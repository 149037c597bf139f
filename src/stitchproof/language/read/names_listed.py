"""Lists of names of sizes: `S (M, L)`, `L and XL`, `3-6, 6-12 months`, `34 (36-38-40)`."""

import re
from typing import Final

from stitchproof.language.read.which_sizes import SIZE_GROUP

_OF_A_NAME: Final = r"(?:[ -](?:small|large|months?|mos?|years?|yrs?|toddler|x{0,3}[sml]|\d?x)\b)?"
NAME: Final = (
    rf"(?!(?:sizes?|only|except|are|is|in|given|shown)\b)[A-Za-z0-9][\w/.’'+–-]{{0,11}}{_OF_A_NAME}"
)
LIST: Final = (
    rf"(?:{SIZE_GROUP}(?=\s+sizes?\b)"
    rf"|{NAME}(?:(?:\s*(?:,|and|&|or|[(\[{{]|[)\]}}])+\s*|\s+(?:to|through)\s+){NAME})*\s*[)\]}}]*)"
)
_SIZE_SPLIT: Final = re.compile(r"\s*(?:[,:;()\[\]{}]|\band\b|&|\bor\b)+\s*", re.IGNORECASE)
_AGES: Final = re.compile(r"(?:years?|yrs?|months?|mo?ths?|mos?)(?: old)?", re.IGNORECASE)
_AGED: Final = re.compile(r"(?<=\d)\s+(?:years?|yrs?|months?|mo?ths?)(?: old)?$", re.IGNORECASE)
_DASHED: Final = re.compile(
    r"^\s*(?:\d+\s*[(\[]\s*\d+(?:\s*[-–]\s*\d+)+|\w+\s*[(\[]\s*\w+(?:\s*[-–]\s*\w+){2,})\s*[)\]]"
)
_EACH_DASH: Final = re.compile(r"\s*[-–()\[\]]+\s*")
_SLASHES: Final = re.compile(r"\s*/\s*")


def cut_names(words: str) -> tuple[str, ...]:
    """Cut a list of sizes; `XS/S` is one name where anything else parts the names."""
    dashed = "," not in words and _DASHED.search(words)  # `34 (36-38-40)`
    parts = (_EACH_DASH if dashed else _SIZE_SPLIT).split(words)
    names = tuple(n.strip(" .:*_/") for n in parts if n.strip(" .:*_/"))
    if names and _AGES.fullmatch(names[-1]):  # `4 [6: 8: 10] years`
        names = names[:-1]
    if len(names) > 1 and any(name[-1:].isdigit() for name in names[:-1]):  # `3-6, 6-12 months`
        names = (*names[:-1], _AGED.sub("", names[-1]))
    return tuple(_SLASHES.split(names[0])) if len(names) == 1 else names
