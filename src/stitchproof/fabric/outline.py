"""The outline of a piece from its worked rows, in stitches and rows.

A row lies where its stitches were worked: each stitch stands above its parent, so a row is shifted
against the one below by the middle of (parent's place - own place) over its stitches. Increases at
one end therefore move only that end; increases spread over the row move both.
"""

from collections.abc import Sequence
from statistics import median

from stitchproof.fabric.edge import Edge
from stitchproof.fabric.proof import Shape
from stitchproof.language.tree import Make, Steps
from stitchproof.language.walk import nodes


def shape_of(
    edges: Sequence[Edge | None], consumed: Sequence[Edge | None], sides: Sequence[str]
) -> Shape | None:
    """Lay the rows of a piece above one another.

    Parameters
    ----------
    edges, consumed : sequence of Edge or None
        (R,) edge made by each row, and the edge it was worked into, in working direction.
    sides : sequence of str
        (R,) side facing the maker; unknown rows alternate from the RS.

    Returns
    -------
    Shape or None
        None when a row is not known.
    """
    rows = [(e, c) for e, c in zip(edges, consumed, strict=True) if e is None or e.count]
    if not rows or any(e is None or not e.known for e, _ in rows):
        return None
    del sides
    ring = all(e is not None and e.ring for e, _ in rows)
    left: list[float] = []
    right: list[float] = []
    start, forward = 0.0, -1.0  # the first row runs from right to left, seen from the RS
    before: Edge | None = None
    for edge, into in rows:
        assert edge is not None
        n = edge.count
        if before is None or into is None:
            start = float(n) if forward < 0 else 0.0
        else:
            if into is not before and not edge.ring:  # turned: the row comes back
                start += forward * before.count
                forward = -forward
            if not edge.ring:  # where a round begins moves nothing; its parents may wrap around
                start += forward * _shift(edge, into)
        end = start + forward * n
        left.append(min(start, end))
        right.append(max(start, end))
        before = edge
    flat = bool(ring and rows[0][1] is not None and not rows[0][1].count)
    return Shape(ring, tuple(left), tuple(right), flat=flat)


def makes_stitches(steps: Steps) -> bool:
    """Say whether steps make a row: joining, chaining and fastening off alone make none."""
    return any(isinstance(node, Make) for node in nodes(steps))


def _shift(edge: Edge, into: Edge) -> float:
    """Give how far a row begins after the beginning of the row below, in stitches."""
    ranks: list[int] = []
    seen = 0
    for role in into.roles:
        ranks.append(seen)
        seen += role in "SK"
    own = 0
    shifts: list[int] = []
    for role, parent in zip(edge.roles, edge.parents, strict=True):
        if role in "SK":
            if parent >= 0:
                shifts.append(ranks[parent] - own)
            own += 1
    return float(median(shifts)) if shifts else 0.0
