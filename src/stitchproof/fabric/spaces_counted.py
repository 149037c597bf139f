"""Rows without a count, where the author counts chain spaces as stitches in the rows that have one.

"(19 sts)" behind fifteen hdc and four ch-1 spaces counts each space; the next row of that kind has
19 stitches too, though nobody says so.
"""

from collections.abc import Sequence
from typing import Final

from stitchproof.base.records import replace
from stitchproof.fabric.known_lines import Done
from stitchproof.fabric.proof import PerSize, WorkedCourse
from stitchproof.fabric.tally import in_stitches, open_row
from stitchproof.language.tree import Thing

PLAIN: Final = 0  # the way to count that leaves chain spaces out
_OPEN: Final = (1, 2)  # each space, or each chain of it, is a stitch


def with_spaces(
    lines: Sequence[Done], told: Sequence[WorkedCourse], way: int
) -> tuple[list[WorkedCourse], int]:
    """Count the rows that state nothing as those before them are counted.

    Parameters
    ----------
    lines : sequence of Done
        The lines of a piece, judged.
    told : sequence of WorkedCourse
        What is told of each.
    way : int
        How the last open row before the piece was counted: a way of `ways_to_count` for stitches.

    Returns
    -------
    (courses, way)
        What is told of each line now, and how the last open row is counted.
    """
    out: list[WorkedCourse] = []
    for line, one in zip(lines, told, strict=True):
        way = _way_of(line, way)
        out.append(_counted(line, one, way) if way in _OPEN else one)
    return out, way


def _way_of(line: Done, before: int) -> int:
    """Give the way in which a line that states its stitches counts an open row."""
    stated, judged = line.course.stated, line.judged
    one = in_stitches(stated) if stated is not None else None
    if stated is None or one is None or judged is None or one.noun.thing is not Thing.STITCH:
        return before
    way = judged.ways[stated.statements.index(one)]
    return max(way, PLAIN) if _is_open(line) else before


def _is_open(line: Done) -> bool:
    outcomes = line.judged.outcomes if line.judged is not None else ()
    firsts = (o.first for o in outcomes if not o.absent)
    edges = [first.track.edge for first in firsts if first is not None]
    return any(edge is not None and "C" in edge.roles for edge in edges)


def _counted(line: Done, told: WorkedCourse, way: int) -> WorkedCourse:
    if line.course.stated is not None or line.judged is None or not _is_open(line):
        return told
    worked: list[int | None] = []
    for count, outcome in zip(told.worked, line.judged.outcomes, strict=True):
        edge = outcome.first.track.edge if outcome.first is not None else None
        worked.append(count if count is None or edge is None else open_row(edge)[way - 1])
    per_size: PerSize = tuple(worked)
    return replace(told, worked=per_size)
