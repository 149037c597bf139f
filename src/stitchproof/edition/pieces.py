"""Which lines of a manuscript make which piece, by the headings they stand under.

A heading of level 2 begins a piece, also where it has no lines of its own but deeper headings that
have; the fabric names such a piece by the first of those.
"""

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.fabric.outline import makes_stitches
from stitchproof.fabric.proof import Proof, WorkedCourse
from stitchproof.language.manuscript import BlockKind, Manuscript

PICTURE: Final = re.compile(r"!\[(?P<words>[^\]]*)\]\(\s*<?(?P<target>[^)>]*)>?\s*\)")
_SCHEMATIC: Final = re.compile(r"schematic:\s*(?P<piece>.+)", re.IGNORECASE)
_PIECE: Final = 2  # the level of headings that begin a piece
_REMARK: Final = re.compile(r"\s*\([^()]*\)\s*$")


def title_of(heading: str) -> str:
    """Give a heading without "(make 2)" and the like."""
    return _REMARK.sub("", heading)


@dataclass(frozen=True, slots=True)
class PieceParts:
    """A piece: the heading it stands under, and how many rows each section has in each size."""

    heading: str
    rows: Mapping[int, tuple[int | None, ...]]


def piece_names(manuscript: Manuscript) -> Mapping[str, str]:
    """Give the names that pieces may be asked for by, each with the title of its piece."""
    headings: dict[str, None] = {}
    heading = ""
    for block in manuscript.blocks:
        if block.kind is BlockKind.HEADING and block.level <= _PIECE:
            heading = manuscript.text[block.place.start : block.place.end]
        elif block.course is not None and heading:
            headings[heading] = None
    titles = [title_of(heading) for heading in headings]
    return MappingProxyType(dict(zip((*titles, *headings), titles * 2, strict=True)))


def picture_target(markup: str) -> tuple[str, str]:
    """Give what a picture points at, and the piece whose schematic it asks for, if it does."""
    found = PICTURE.search(markup)
    if found is None:
        return markup.strip(), ""
    target = found["target"].strip()
    wanted = _SCHEMATIC.match(target)
    return target, wanted["piece"].strip() if wanted else ""


def parts_of_pieces(manuscript: Manuscript, proof: Proof) -> Mapping[str, PieceParts]:
    """Find what belongs to each piece, by the name of its first section."""
    worked = {course.place.start: course for course in proof.courses}
    sections = manuscript.sections
    found: dict[str, PieceParts] = {}
    heading, rows = "", dict[int, tuple[int | None, ...]]()
    for block in manuscript.blocks:
        if block.kind is BlockKind.HEADING and block.level <= _PIECE:
            heading = manuscript.text[block.place.start : block.place.end]
            rows = {}
        elif block.course is not None:
            index, _ = block.course
            if not rows:
                found.setdefault(sections[index].name, PieceParts(heading, rows))
            course = worked.get(block.place.start)
            more = _rows_of(course, proof.sizes)
            before = rows.get(index, (0,) * len(proof.sizes))
            rows[index] = tuple(
                None if a is None or b is None else a + b for a, b in zip(before, more, strict=True)
            )
    return found


def _rows_of(course: WorkedCourse | None, names: tuple[str, ...]) -> tuple[int | None, ...]:
    """Give how many rows a line makes in each size; None where that is not known."""
    if course is None:
        return (None,) * len(names)
    does = course.course.does
    if isinstance(does, tuple) and not makes_stitches(does):
        return (0,) * len(names)
    rows = course.rows or (None,) * len(names)
    return tuple(
        0 if name in course.absent else often for name, often in zip(names, rows, strict=True)
    )
