"""Where a round begins for the next one: turned, or slipped into its last space."""

from stitchproof.base.records import replace
from stitchproof.fabric.edge import Edge
from stitchproof.fabric.spaces import runs_of


def turned_round(edge: Edge) -> Edge:
    """Give a joined round from its other side: the hook stands in the stitch it was joined to."""
    back = edge.turned
    joined = max(back.roles.rfind(role) for role in "SKF")
    return back.rotated(joined) if joined > 0 else back


def opened(edge: Edge | None) -> Edge | None:
    """Give what was worked into a ring and not joined as a row, where the next one is turned."""
    if edge is None or edge.below is None or not (edge.ring and edge.below.centre):
        return edge
    return replace(edge, ring=False)


def from_last_space(edge: Edge) -> Edge:
    """Give a round from the space on, in which a stitch that closed it left the hook."""
    if edge.roles[-1:] != "C" or edge.kinds[-1] == "ch":
        return edge
    return edge.rotated(runs_of(edge.roles)[-1][0])
