"""The outline of a piece from its worked rows, in stitches and rows.

A row lies where its stitches were worked: each stitch stands above its parent, so a row is shifted
against the one below by the middle of (parent's place - own place) over its stitches. Increases at
one end therefore move only that end; increases spread over the row move both.

Rows that are shaped by a schedule have no stitches of their own; their ends move as it says. Which
end "the neck edge" is tells only the name of a piece: of a left front, as worn, it is the left one
seen from the right side. Where it does not tell, the piece is not drawn.
"""

import re
from collections.abc import Sequence
from statistics import median
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.fabric.attempt import DoneRow
from stitchproof.fabric.edge import Edge
from stitchproof.fabric.hand import Move
from stitchproof.fabric.proof import Shape
from stitchproof.language.tree import InPattern, Make, Steps
from stitchproof.language.tree import Shape as Schedule
from stitchproof.language.walk import nodes

_BOTH: Final = 2
_SIDE_OF_PIECE: Final = re.compile(r"\b(left|right)\b", re.IGNORECASE)
_BACK: Final = re.compile(r"\bback\b", re.IGNORECASE)
_OUTER: Final = re.compile(r"\b(?:armhole|underarm|side|sleeve)\b", re.IGNORECASE)
_INNER: Final = re.compile(r"\b(?:neck|front|cent(?:er|re))\b", re.IGNORECASE)


@dataclass(slots=True)
class _Line:
    """Where the row worked last lies: its ends, and which way it was worked."""

    left: float
    right: float
    forward: bool  # from left to right, seen from the RS

    @property
    def start(self) -> float:
        """Where the row begins."""
        return self.left if self.forward else self.right

    def lay(self, start: float, count: int) -> None:
        """Lay the next row down from where it begins."""
        end = start + (count if self.forward else -count)
        self.left, self.right = min(start, end), max(start, end)

    def turn(self) -> None:
        """Go back along the row."""
        self.forward = not self.forward


def shape_of(done: Sequence[DoneRow], title: str) -> Shape | None:
    """Lay the rows of a piece above one another.

    Parameters
    ----------
    done : sequence of DoneRow
        (R,) its rows.
    title : str
        What the piece is called.

    Returns
    -------
    Shape or None
        None when a row is not known.
    """
    rows = [row for row in done if row.edge is None or row.edge.count]
    if not rows or not all(_is_told(row) for row in rows):
        return None
    left: list[float] = []
    right: list[float] = []
    line = _Line(0.0, 0.0, forward=False)  # the first row runs from right to left, from the RS
    before: DoneRow | None = None
    for row in rows:
        if row.moves is None:
            _lay(row, before, line)
        elif not _shaped(row, before, line, title):
            return None
        left.append(line.left)
        right.append(line.right)
        before = row
    ring = all(row.edge is not None and row.edge.ring for row in rows)
    first = rows[0].consumed
    return Shape(
        ring, tuple(left), tuple(right), flat=bool(ring and first is not None and not first.count)
    )


def makes_stitches(steps: Steps) -> bool:
    """Say whether steps make a row: joining, chaining and fastening off alone make none."""
    return any(isinstance(node, Make | InPattern | Schedule) for node in nodes(steps))


def _is_told(row: DoneRow) -> bool:
    """Tell whether it is known where a row lies; one worked in pattern stands on the one below."""
    edge = row.edge
    if edge is None:
        return False
    stands = (p >= 0 for role, p in zip(edge.roles, edge.parents, strict=True) if role in "SK")
    return edge.known or row.moves is not None or all(stands)


def _lay(row: DoneRow, before: DoneRow | None, line: _Line) -> None:
    """Lay a row above the one before it, by its stitches."""
    edge, into = row.edge, row.consumed
    assert edge is not None
    if before is None or before.edge is None or into is None:
        line.lay(0.0 if line.forward else float(edge.count), edge.count)
        return
    start = line.start
    if into is not before.edge and not edge.ring:  # turned: the row comes back
        start += before.edge.count if line.forward else -before.edge.count
        line.turn()
    if not edge.ring:  # where a round begins moves nothing; its parents may wrap around
        start += _shift(edge, into) * (1 if line.forward else -1)
    line.lay(start, edge.count)


def _shaped(row: DoneRow, before: DoneRow | None, line: _Line, title: str) -> bool:
    """Move the ends of a row that a schedule shapes; say whether it is told which ones."""
    edge, into = row.edge, row.consumed
    assert edge is not None
    if before is None:
        line.lay(0.0, 0 if into is None else into.count)
        line.left, line.right, line.forward = min(line.left, 0.0), max(line.right, 0.0), False
    elif not edge.ring and (before.edge is edge or into is not before.edge):
        line.turn()
    for move in row.moves or ():
        ends = _ends(move, line, title)
        if not ends:
            return False
        line.left -= move.by if "left" in ends else 0
        line.right += move.by if "right" in ends else 0
    return line.left <= line.right


def _ends(move: Move, line: _Line, title: str) -> tuple[str, ...]:
    """Tell which ends of a row move, seen from the RS; none where the words do not say."""
    if move.ends == _BOTH:
        return "left", "right"
    begins = "left" if line.forward else "right"
    if move.at in {"beg", "end"}:
        return (begins if move.at == "beg" else _other(begins),)
    worn = _SIDE_OF_PIECE.findall(title)
    if len(worn) != 1 or bool(_INNER.search(move.at)) == bool(_OUTER.search(move.at)):
        return ()
    side = worn[0].lower()
    inner = _other(side) if _BACK.search(title) else side
    return (inner if _INNER.search(move.at) else _other(inner),)


def _other(side: str) -> str:
    return "right" if side == "left" else "left"


def _shift(edge: Edge, into: Edge) -> float:
    """Give how far a row begins after the beginning of the row below, in stitches.

    Chains added before the row lie ahead of the row below: `edge.below` is the two of them.
    """
    ranks = _ranks(edge.below if edge.below is not None else into, into)
    own = 0
    shifts: list[int] = []
    for role, parent in zip(edge.roles, edge.parents, strict=True):
        if role in "SK":
            if 0 <= parent < len(ranks):
                shifts.append(ranks[parent] - own)
            own += 1
    return float(median(shifts)) if shifts else 0.0


def _ranks(below: Edge, into: Edge) -> list[int]:
    """Give the place of each anchor, counted from the beginning of the row below."""
    added = len(below.roles) - len(into.roles)
    ahead = added if added > 0 and below.roles.endswith(into.roles) else 0
    ranks = list(range(-ahead, 0))
    seen = 0
    for role in below.roles[ahead:]:
        ranks.append(seen)
        seen += role in "SK"
    return ranks
