"""From an edition to plain text: 78 characters wide, in an order that can be read aloud.

No drawing characters and no columns made of blanks: a table is read out row by row, because a
screen reader reads lines and not columns.
"""

import re
from collections.abc import Iterator
from typing import Final, TypeAlias

from stitchproof.edition.characters import printable
from stitchproof.edition.model import (
    SIZE,
    Block,
    Caution,
    Edition,
    Facts,
    Figure,
    Heading,
    Items,
    Paragraph,
    Part,
    Quote,
    Row,
    Table,
    Verbatim,
    read_out,
)

Lines: TypeAlias = Iterator[str]

WIDTH: Final = 78
_WORD: Final = re.compile(r"[(\[{]\u00a0[)\]}]\S*|\S+")  # `( )` is not taken apart
_NAME_AND_WORDS: Final = 2  # columns


def text(edition: Edition) -> bytes:
    """Write an edition as plain text.

    Parameters
    ----------
    edition : Edition
        What is published.

    Returns
    -------
    bytes
        Lines of at most 78 characters where the words allow it, in UTF-8.
    """
    return "".join(f"{printable(line)}\n" for line in _lines(edition)).encode("utf-8")


def _lines(edition: Edition) -> Lines:
    title = f"{edition.title}, size {edition.size}" if edition.size else edition.title
    if edition.draft:
        yield from _notice(edition)
    yield from _folded(title.upper())
    yield "=" * min(max(len(title), 3), WIDTH)
    if edition.facts:
        yield ""
    for name, words in edition.facts:
        yield from _folded(f"{name}: {read_out(words)}", hang="  ")
    for part in edition.parts:
        yield ""
        if edition.draft and part.title:
            yield from _notice(edition)
        yield from _part(part)
    yield ""
    yield "End of the pattern."
    if edition.draft:
        yield ""
        yield from _folded(f"*** {edition.notice} ***")


def _notice(edition: Edition) -> Lines:
    """Say it again before every part: plain text has no pages of its own."""
    yield from _folded(f"*** {edition.notice} ***")
    yield ""


def _part(part: Part) -> Lines:
    title = read_out(part.title)
    if title:
        yield from _folded(title)
        yield "-" * min(len(title), WIDTH)
        yield ""
    for index, block in enumerate(part.blocks):
        if index:
            yield ""
        yield from _block(block)


def _block(block: Block) -> Lines:  # noqa: C901, PLR0912 - one arm for each kind of block
    match block:
        case Heading(_, words):
            yield from _folded(read_out(words))
            yield "." * min(len(read_out(words)), WIDTH)
        case Paragraph(words):
            yield from _folded(read_out(words))
        case Quote(words):
            yield from _folded(read_out(words), first="  ", hang="  ")
        case Items(items, numbered):
            for number, item in enumerate(items, start=1):
                mark = f"{number}. " if numbered else "- "
                yield from _folded(read_out(item), first=mark, hang=" " * len(mark))
        case Facts(facts):
            for name, words in facts:
                yield from _folded(f"{name}: {read_out(words)}", hang="  ")
        case Row(words, count, _):
            yield from _folded(f"{read_out(words)} {count}".rstrip())
        case Table():
            yield from _table(block)
        case Figure(caption, _, alt, table):
            yield from _folded(f"{caption}. {alt}")
            if table:
                yield ""
                yield from _table(table)
        case Caution(words):
            yield from _folded(f"CAUTION: {read_out(words)}", hang="  ")
        case Verbatim(kept):
            yield from kept.splitlines()


def _table(table: Table) -> Lines:
    yield from _folded(f"{table.caption}:")
    two = len(table.head) == _NAME_AND_WORDS and table.head[0] != SIZE
    if two and any(table.head):  # of the author's: a list of words and what they mean
        yield from _folded(": ".join(filter(None, table.head)), first="  ", hang="    ")
    for name, *cells in table.rows:
        if two:
            yield from _folded(f"{name}: {cells[0]}", first="  ", hang="    ")
            continue
        told = "; ".join(
            f"{column} {cell}" for column, cell in zip(table.head[1:], cells, strict=True)
        )
        yield from _folded(f"{name}: {told}", first="  ", hang="    ")


def _folded(words: str, first: str = "", hang: str = "") -> Lines:
    """Break a line at blanks; a word longer than a line stays whole."""
    line, empty = first, True
    for found in _WORD.findall(words):
        word = found.replace("\u00a0", " ")
        if not empty and len(line) + 1 + len(word) > WIDTH:
            yield line
            line, empty = hang, True
        line += word if empty else f" {word}"
        empty = False
    yield line.rstrip()
