"""Where a row is shaped twice: how far from its beginning, and how far from its end."""

from stitchproof.fabric.edge import Edge
from stitchproof.language.tree import First, Last, Make, Next, Steps

Pair = tuple[int, int]  # stitches before the first shaping, stitches behind the last
_TWICE = 2


def shaped_twice(steps: Steps) -> bool:
    """Whether a row decreases exactly twice, or increases exactly twice."""
    return _decreases(steps) == _TWICE or _increases(steps) == _TWICE


def _decreases(steps: Steps) -> int:
    return sum(isinstance(s, Make) and s.stitch.together > 1 for s in steps)


def _increases(steps: Steps) -> int:
    """Count the increases; none where the row decreases too."""
    if _decreases(steps):
        return 0
    return sum(
        isinstance(s, Make) and s.each.value == (_TWICE,) and isinstance(s.at, First | Last | Next)
        for s in steps
    )


def pair_of(steps: Steps, edge: Edge | None) -> Pair | None:
    """Give how far from either end a row is shaped; None where that is not known.

    Parameters
    ----------
    steps : Steps
        A row that is shaped twice.
    edge : Edge or None
        What it made.
    """
    if edge is None or not edge.known or edge.ring:
        return None
    if _decreases(steps):
        at = [(i, i) for i, kind in enumerate(edge.kinds) if kind.endswith("tog")]
    else:
        below = edge.parents
        at = [(i, i + 1) for i in range(len(edge) - 1) if below[i] == below[i + 1] >= 0]
    if len(at) != _TWICE:
        return None
    (first, _), (_, last) = at
    return edge.stitches_between(0, first), edge.stitches_between(last + 1, len(edge))
