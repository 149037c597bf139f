"""Where a round begins for the next one: turned, or slipped into its last space."""

from stitchproof.fabric.edge import Edge
from stitchproof.fabric.spaces import runs_of


def turned_round(edge: Edge) -> Edge:
    """Give a joined round from its other side: the hook stands in the stitch it was joined to."""
    back = edge.turned
    joined = max(back.roles.rfind(role) for role in "SKF")
    return back.rotated(joined) if joined > 0 else back


def from_last_space(edge: Edge) -> Edge:
    """Give a round from the space on, in which a stitch that closed it left the hook."""
    if edge.roles[-1:] != "C" or edge.kinds[-1] == "ch":
        return edge
    return edge.rotated(runs_of(edge.roles)[-1][0])
