"""Whether an edition prints the sign that stands where a size has no number.

It is an entry of a list of sizes, `10 (12, -)` or `- (2, 4)`, or a whole cell of a table. A dash in
the author's prose is none, nor is one between the numbers of rows.
"""

import re
from collections.abc import Iterable, Iterator
from typing import Final

from stitchproof.edition.model import (
    Block,
    Caution,
    Facts,
    Figure,
    Heading,
    Ink,
    Items,
    Paragraph,
    Part,
    Quote,
    Row,
    Table,
    Verbatim,
    Words,
)

_DASHES: Final = ("-", "–", "—")
_INSIDE: Final = re.compile(r"(?<=[(\[{,;:/])\s*([-–—])(?=\s*[)\]},;:/])")
_FIRST: Final = re.compile(r"^\s*([-–—])\s*(?=[(\[{]|$)")


def absent_sign(parts: Iterable[Part]) -> str:
    """Give the first such sign; empty where every size has every number."""
    found = (sign for part in parts for block in part.blocks for sign in _in_block(block))
    return next(found, "")


def _in_block(block: Block) -> Iterator[str]:
    match block:
        case Heading(_, words) | Paragraph(words) | Quote(words) | Caution(words):
            yield from _in_words(words)
        case Items(items):
            yield from (sign for words in items for sign in _in_words(words))
        case Facts(facts):
            yield from (sign for _, words in facts for sign in _in_words(words))
        case Row(words, count):
            yield from _in_words(words)
            yield from _in_list(count)
        case Table(_, _, rows):
            yield from (cell for row in rows for cell in row[1:] if cell in _DASHES)
        case Figure(_, _, _, table):
            yield from _in_block(table) if table is not None else ()
        case Verbatim():
            return


def _in_words(words: Words) -> Iterator[str]:
    for run in words:
        if run.ink is Ink.NUMBER:
            yield from _in_list(run.words)
        elif run.ink is Ink.LABEL:
            yield from _INSIDE.findall(run.words)


def _in_list(words: str) -> Iterator[str]:
    yield from _FIRST.findall(words)
    yield from _INSIDE.findall(words)
