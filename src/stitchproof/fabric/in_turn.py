"""Rows that take turns: a line that goes on "in pattern" goes on with the one whose turn it is."""

from collections import Counter
from collections.abc import Sequence
from typing import Final, Protocol, TypeVar

from stitchproof.fabric.edge import Edge
from stitchproof.language.tree import Course, RepeatRows

_FAR: Final = 200  # rows that are looked back over


class OfLine(Protocol):
    """A row whose steps a line gives."""

    @property
    def line(self) -> int:
        """Where the line begins."""


class Worked(Protocol):
    """A row that was worked, with the edges before and after it."""

    @property
    def edge(self) -> Edge | None:
        """The edge it made."""

    @property
    def consumed(self) -> Edge | None:
        """The edge it was worked into."""


Row = TypeVar("Row", bound=OfLine)


def rows_in_turn(rows: Sequence[Row], worked: Sequence[Worked]) -> list[Row]:
    """Give the rows that were worked in turn up to the last one, beginning with the next.

    A row between that was worked once, or that changed the count, shapes; it is none of the
    pattern.

    Parameters
    ----------
    rows : sequence of Row
        (R,) all rows of the piece, in order.
    worked : sequence of Worked
        (R,) what they came to.

    Returns
    -------
    list of Row
        One turn of them; only the last row where none took turns.
    """
    recent, came_to = rows[-_FAR:], worked[-_FAR:]
    often = Counter(row.line for row in recent)
    same = [i for i, row in enumerate(recent) if row.line == recent[-1].line]
    if len(recent) == len(came_to):
        for before, after in zip(reversed(same[:-1]), reversed(same[1:]), strict=True):
            turn = range(before + 1, after + 1)
            if all(often[recent[i].line] > 1 and _keeps(came_to[i]) for i in turn):
                return list(recent[before + 1 : after + 1]) if len(turn) > 1 else list(rows[-1:])
    return list(rows[-1:])


def _keeps(worked: Worked) -> bool:
    """Whether a row kept the count."""
    edge, before = worked.edge, worked.consumed
    return edge is not None and before is not None and edge.count == before.count


def is_unnamed(course: Course) -> bool:
    """Whether a line goes on without saying with which rows: `Cont in patt until ...`."""
    does = course.does
    if not isinstance(does, RepeatRows) or does.listed or does.piece:
        return False
    return does.first is None and does.back is None
