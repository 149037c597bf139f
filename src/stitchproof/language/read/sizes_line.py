"""The line that names the sizes of a pattern: `Sizes: S (M, L)`, or the one below `SIZES`."""

import re
from typing import Final

from stitchproof.language.manuscript import BlockKind
from stitchproof.language.read.blocks import Stretch
from stitchproof.language.read.sections import read_sizes_line, stands_alone
from stitchproof.language.read.sizes_by_rank import (
    how_many_sizes,
    sizes_by_rank,
    sizes_of_table,
)
from stitchproof.language.read.sizes_in_passing import sizes_among, sizes_by_body

SIZES_REACH: Final = 240  # characters of a line that may name the sizes
_OF_SIZES: Final = ("to make", "size", "fit", "age")
_SENTENCE: Final = re.compile(r"^[^.:]{1,60}\.\s+(?=Sizes?\b[^.]{0,30}:)")  # `UK terms. Sizes: …`
_LONGEST_NAME: Final = 12  # characters of a size without the word before it
_JOINED: Final = re.compile(
    r"(?:\d{0,2}X{0,4}[SML]|[1-9]X)(?:[-–](?:\d{0,2}X{0,4}[SML]|[1-9]X))+"
    r"|(?:small|medium|large)(?:[-–](?:medium|large))+",
    re.IGNORECASE,
)
_DASHED_LIST: Final = re.compile(
    r"\d\s?[(\[]\d{1,3}(?:[-–]\d{1,3})+[)\]]\s(?:sts?|sc|h?dc|h?tr|ch)\b"
)


def find_sizes_line(text: str, stretches: tuple[Stretch, ...]) -> tuple[str, ...]:
    """Find the line that names the sizes, the one below `SIZES`, or a sentence with their names.

    Where others come before `Sizes: XS (S, M)`, such as "directions are for size X-Small", its
    names are taken. Where no line says that it names them, what can be nothing else does.
    """
    below, lines, many = False, list[str](), how_many_sizes(text)
    told: tuple[str, ...] = ()
    for stretch in stretches:
        if stretch.kind not in {BlockKind.PROSE, BlockKind.QUOTE, BlockKind.HEADING}:
            below = False
            continue
        for line in stretch.lines:
            words = line.of(text)[:SIZES_REACH].strip()
            lines.append(words)
            named = f"Sizes: {words.strip('*_ •-')}" if below else _SENTENCE.sub("", words)
            if below or any(word in words.lower() for word in _OF_SIZES):
                names = read_sizes_line(named)
                if names and (not below or all(len(n) <= _LONGEST_NAME for n in names)):
                    names = _parted_like_lists(names, text)
                    own = below or named.strip("*_ •-").lower().startswith("size")
                    if own and len(names) == len(told or names) and _agrees(names, many):
                        return names
                    told = told or (names if many in {None, len(names)} else ())
            below = stands_alone(words)
    found = (
        told
        or sizes_among(lines)
        or sizes_by_rank(lines, text)
        or sizes_of_table(stretches, text)
        or sizes_by_body(lines)
    )
    return found if _agrees(found, many) else ()  # nearly all lists know better


def _agrees(names: tuple[str, ...], many: int | None) -> bool:
    """Whether names are as many as the values of lists, or of several lists in a row."""
    return many is None or (bool(names) and len(names) % many == 0)


def _parted_like_lists(names: tuple[str, ...], text: str) -> tuple[str, ...]:
    """Take `S (M-L)` for three sizes where a dash parts the lists of the text: `12 (13-14) dc`."""
    if len(names) != 2 or not _JOINED.fullmatch(names[1]):  # noqa: PLR2004 - one and the others
        return names
    return (names[0], *re.split("[-–]", names[1])) if _DASHED_LIST.search(text) else names
