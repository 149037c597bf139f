"""Rows that take turns: a line that goes on "in pattern" goes on with the one whose turn it is."""

from collections import Counter
from collections.abc import Sequence
from typing import Final, Protocol, TypeVar

from stitchproof.language.tree import Course, RepeatRows

_FAR: Final = 200  # rows that are looked back over


class OfLine(Protocol):
    """A row whose steps a line gives."""

    @property
    def line(self) -> int:
        """Where the line begins."""


Row = TypeVar("Row", bound=OfLine)


def rows_in_turn(rows: Sequence[Row]) -> list[Row]:
    """Give the rows that were worked in turn up to the last one, beginning with the next.

    A row between that was worked once shapes; it is none of the pattern.

    Parameters
    ----------
    rows : sequence of Row
        All rows of the piece, in order.

    Returns
    -------
    list of Row
        One turn of them; only the last row where none took turns.
    """
    recent = rows[-_FAR:]
    often = Counter(row.line for row in recent)
    same = [i for i, row in enumerate(recent) if row.line == recent[-1].line]
    for before, after in zip(reversed(same[:-1]), reversed(same[1:]), strict=True):
        turn = recent[before + 1 : after + 1]
        if all(often[row.line] > 1 for row in turn):
            return list(turn) if len(turn) > 1 else list(rows[-1:])
    return list(rows[-1:])


def is_unnamed(course: Course) -> bool:
    """Whether a line goes on without saying with which rows: `Cont in patt until ...`."""
    does = course.does
    if not isinstance(does, RepeatRows) or does.listed or does.piece:
        return False
    return does.first is None and does.back is None
