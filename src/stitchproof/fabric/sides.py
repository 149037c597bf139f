"""Counts the stitches of each side of an edge that has corners: "9 dc per side".

What a side is, authors do not agree on: with the stitches of the corners or without them, with the
spaces on it or without. Each is a fair way to count, as long as all sides come to the same.
"""

from typing import Final

from stitchproof.fabric.edge import CORNER, COUNTED, Edge, base_kind
from stitchproof.language.tree import Noun, Thing

_FEWEST: Final = 3  # corners of a motif


def per_side(edge: Edge, noun: Noun) -> tuple[int, ...]:
    """Count stitches of each side in the ways that are fair; none where the sides differ.

    Parameters
    ----------
    edge : Edge
        A ring with corners.
    noun : Noun
        Stitches, or those of a kind.
    """
    if not edge.ring or noun.thing not in {Thing.STITCH, Thing.KIND}:
        return ()
    open_corners = "C" in edge.roles
    corners = edge.places(Noun(Thing.SPACE if open_corners else Thing.STITCH, CORNER))
    if len(corners) < _FEWEST:
        return ()
    n = len(edge)
    around = [*corners[1:], (corners[0][0] + n, corners[0][1] + n)]
    sides = {
        _side(edge, noun, end, start) for (_, end), (start, _) in zip(corners, around, strict=True)
    }
    if len({side[0] for side in sides}) != 1:
        return ()
    ways: list[int] = []
    for between, at_corners, spaces, chains in sorted(sides):
        whole = between if open_corners else between + 1  # a corner stitch is of one side
        ways += (between, whole, between - at_corners, between + 2)
        ways += (between + spaces, between + chains, between + spaces + 2)
        ways.append(between - at_corners + spaces)
    return tuple(dict.fromkeys(way for way in ways if way > 0))


def _side(edge: Edge, noun: Noun, start: int, end: int) -> tuple[int, int, int, int]:
    """Count stitches, those of the corners, spaces and chains from an anchor to another."""
    n = len(edge)
    at = [i % n for i in range(start, end)]
    live = [
        i
        for i in at
        if edge.roles[i] in COUNTED
        and (noun.thing is Thing.STITCH or noun.kind in (edge.kinds[i], base_kind(edge.kinds[i])))
    ]
    if not at:
        return 0, 0, 0, 0
    beside = {edge.parents[at[0]], edge.parents[at[-1]]} - {-1}
    of_corners = sum(edge.parents[i] in beside for i in live)
    roles = "".join(edge.roles[i] for i in at)
    chains = roles.count("C")
    spaces = sum(
        role == "C" and before != "C" for before, role in zip(" " + roles, roles, strict=False)
    )
    return len(live), of_corners, spaces, chains
