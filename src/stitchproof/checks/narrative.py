"""The words of a manuscript that are no instructions."""

from collections.abc import Iterator
from typing import Final

from stitchproof.base.place import Span
from stitchproof.language.manuscript import BlockKind, Manuscript

_TOLD: Final = (BlockKind.PROSE, BlockKind.LIST, BlockKind.QUOTE, BlockKind.TABLE)
MOST_SEARCHED: Final = 20_000_000  # characters times words looked for; no pattern comes near
_LONGEST: Final = 2_000  # characters of a line that are looked at


def lines(manuscript: Manuscript, *kinds: BlockKind) -> Iterator[Span]:
    """Give the lines of paragraphs, lists, quotes and tables, or of some of them."""
    wanted = kinds or _TOLD
    for block in manuscript.blocks:
        if block.kind not in wanted:
            continue
        start = block.place.start
        for line in manuscript.text[start : block.place.end].splitlines(keepends=True):
            end = start + min(len(line.rstrip()), _LONGEST)
            yield Span(block.place.source, start, end)
            start += len(line)


def without(text: str, places: tuple[Span, ...]) -> str:
    """Give a text with some stretches left out, which come in order."""
    parts, at = [], 0
    for place in places:
        parts.append(text[at : place.start])
        at = max(at, place.end)
    return " ".join((*parts, text[at:]))
