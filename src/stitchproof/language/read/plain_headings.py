"""Headings that stand as plain lines: `CUFF`, `**Thumb**`, `Right Sleeve (make 2)`.

Text that was pasted from a word processor has lost the marks of its headings. A short line by
itself is one where the next words are worked, and where it is set in bold or in capitals, or names
a part of a garment. In a manuscript whose pieces have marked headings no other line is one, nor
where work stands before the first: what a heading named there would be one part among its rows.
"""

import re
from collections.abc import Sequence
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.manuscript import BlockKind
from stitchproof.language.read.asides import names_part
from stitchproof.language.read.blocks import Line, Stretch
from stitchproof.language.read.openings import opens_with_a_label, opens_with_a_verb
from stitchproof.language.read.sections import Region, heading_region

_LEVEL: Final = 2  # below the title
_LONGEST: Final = 60  # characters
_MOST_WORDS: Final = 6
_SHAPE: Final = re.compile(
    r"[*_]*[A-Za-z][A-Za-z'’ /&,-]*(?:\((?:make|work|both)\s[\w ]+\))?:?[*_]*"
)


def with_plain_headings(text: str, stretches: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
    """Give the stretches with those made headings that stand as plain lines.

    Parameters
    ----------
    text : str
        The whole file.
    stretches : tuple of Stretch
        As its marks and blank lines part it.
    """
    if any(one.kind is BlockKind.HEADING and one.level > 1 for one in stretches):
        return stretches
    plain = [i for i, one in enumerate(stretches) if _heads(text, one, stretches[i + 1 : i + 4])]
    if not plain or any(_works(text, line) for one in stretches[: plain[0]] for line in one.lines):
        return stretches
    heads = set(plain)
    return tuple(_heading(text, one) if i in heads else one for i, one in enumerate(stretches))


def _heading(text: str, one: Stretch) -> Stretch:
    """Give a line as a heading, without the marks that set it in bold."""
    words = text[one.start : one.end]
    start = one.start + len(words) - len(words.lstrip("*_ "))
    end = one.end - (len(words) - len(words.rstrip("*_ ")))
    return replace(one, kind=BlockKind.HEADING, level=_LEVEL, start=start, end=end)


def _works(text: str, line: Line) -> bool:
    words = line.of(text).strip()
    return opens_with_a_label(words) or opens_with_a_verb(words)


def _heads(text: str, one: Stretch, below: Sequence[Stretch]) -> bool:
    if one.kind is not BlockKind.PROSE or len(one.lines) != 1 or one.end - one.start > _LONGEST:
        return False
    words = text[one.start : one.end]
    if not _SHAPE.fullmatch(words) or len(words.split()) > _MOST_WORDS:
        return False
    bare = words.strip("*_ :")
    if heading_region(bare) not in {Region.PIECE, Region.FINISHING} or opens_with_a_label(bare):
        return False
    worked = [any(_works(text, line) for line in stretch.lines) for stretch in below]
    return any(worked) if _set_off(words) else any(worked[:1]) and names_part(bare)


def _set_off(words: str) -> bool:
    """Whether a line is in bold or in capitals as a whole."""
    bold = words[:2] == words[-2:] and words[:2] in {"**", "__"}
    return bold or words.partition("(")[0].isupper()
