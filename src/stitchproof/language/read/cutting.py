"""Where an instruction begins in the middle of a line of the text."""

import re
from collections.abc import Iterator
from typing import Final

from stitchproof.language.read.blocks import Line
from stitchproof.language.read.label_numbers import Source
from stitchproof.language.read.neighbours import FOUNDED, SHORT
from stitchproof.language.read.openings import (
    LABEL_INSIDE,
    REACH,
    ROWS_AGAIN_INSIDE,
    opens_with_a_label,
    opens_with_a_verb,
    states_a_convention,
)
from stitchproof.language.read.specials import is_definition


def cut_lines(source: Source, lines: tuple[Line, ...]) -> Iterator[Line]:
    """Cut lines where `Rep Rows 2 and 3`, or a foundation, begins in the middle of one."""
    for line in lines:
        start = _foundation(source.text, line)
        if start > line.start:
            yield Line(line.start, start)
        for end, following in _cuts(source.text, line):
            alone = end - start < SHORT and _LABEL_ALONE.fullmatch(source.text, start, end)
            if not alone:
                yield Line(start, end)
                start = following
        yield Line(start, line.end)


def _cuts(text: str, line: Line) -> list[tuple[int, int]]:
    """Find where rows worked again, or another row with its label, begin in a line.

    Given are where what stands before ends, and where the other begins.
    """
    found = [m.span() for m in ROWS_AGAIN_INSIDE.finditer(text, line.start, line.end)]
    found += [m.span() for m in LABEL_INSIDE.finditer(text, line.start, line.end)]
    found += [m.span("gap") for m in _NEW_YARN.finditer(text, line.start, line.end)]
    if "=" in text[line.start : line.end]:
        told = _EXPLAINED.finditer(text, line.start, line.end)
        found += [m.span() for m in told if is_definition(text[m.end() : line.end])]
    return sorted(found)


_EXPLAINED: Final = re.compile(r"(?<=[.!])\s+(?=[A-Z][A-Za-z-]{0,14}(?: st)?\s?=\s)")


def _foundation(text: str, line: Line) -> int:
    """Find `Ch 41` behind a sentence that is no instruction; the line's start where there is none.

    `Make a slip knot. Ch 41.`
    """
    words = line.of(text)[:_FOUNDED_BY]
    cut = FOUNDED.search(words)
    if cut is None or opens_with_a_label(words) or opens_with_a_verb(words):
        return line.start
    titled = words.find(":", 0, cut.start())
    if titled > 0 and opens_with_a_label(words[titled + 1 :]):
        return line.start  # `Shape neck: 1st row: (RS). Ch 2. …`
    if titled > 0 and _BY_LOOPS.search(words, cut.end()):
        return line.start  # `Fhdc: Foundation half double crochet. Ch 2, yo, insert hook …`
    if states_a_convention(line.of(text)[: _FOUNDED_BY + REACH], cut.end()):
        return line.start  # `Worked flat. Ch 3 always = dc.`
    return line.start + cut.end()


_LIST: Final = r"[(\[][^()\[\]]{0,60}[)\]][^()\[\]{}]{0,30}"
_COUNT: Final = rf"[(\[{{][^()\[\]{{}}]{{0,60}}(?:{_LIST}){{0,3}}[)\]}}]"
_NEW_YARN: Final = re.compile(  # what is done elsewhere is no part of the row that was fastened off
    rf"(?i:asten off\.)(?:\s*{_COUNT})?(?P<gap>\s+)(?=(?:Join|Rejoin|Attach|Reattach)\s"
    r"|With (?:RS|WS|right|wrong)\b[^.:*]{0,40}\b(?:join|rejoin|attach)\s)"
)
_BY_LOOPS: Final = re.compile(  # how one stitch is made
    r"\b(?:yoh?|yrh|yarn over|insert (?:the )?hook|(?:draw|pull) (?:up|through))\b", re.IGNORECASE
)
_FOUNDED_BY: Final = 160  # characters before a foundation in the middle of a line
_LABEL_ALONE: Final = re.compile(
    r"\s*(?:[-•*]\s+)?(?:\w{1,10}\.?\s*)?"
    r"(?:\d+(?:st|nd|rd|th)\b|\b(?:rows?|rnds?|rounds?)\b"
    r"|[\d\s,&/–—-]|\bto\b|\band\b|[(\[{][\w\s,:;/&–—-]{1,60}[)\]}])*[.:)\]}]?"
)
