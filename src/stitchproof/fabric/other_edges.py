"""Edges that only the words of the author name, behind one that was worked evenly."""

from stitchproof.base.place import Span
from stitchproof.fabric.aside import NO_PLACE
from stitchproof.fabric.edge import Edge
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.nouns import Places
from stitchproof.fabric.trouble import Unknown
from stitchproof.language.tree import (
    Evenly,
    First,
    Last,
    Marked,
    Next,
    Nth,
    On,
    OppositeSide,
    Same,
    SeamPlace,
    Skipped,
    Target,
)


def go_to_row(hand: Hand, target: On, where: Span) -> bool:
    """Go to the edge of an earlier row; another piece is known by its words alone.

    Returns
    -------
    bool
        Whether the hand is on a row of this piece.

    Raises
    ------
    Unknown
        Where nothing is known of that row, or it was worked flat.
    """
    if target.row is None and hand.begun and "lining" in target.piece.lower().split():
        return False  # a pocket's own stitches, worked in place of some of the edge
    if target.row is None:
        if set(hand.roles) <= set("CTK"):  # a bridge of chains, which is worked into
            del hand.kinds[:], hand.roles[:], hand.parents[:]
        hand.elsewhere = hand.begun = hand.founded = True
        return False
    row = hand.number(target.row, where)
    if hand.row == row:
        return True
    edge = hand.earlier.get(row)
    if edge is not None and not edge.ring and hand.begun and hand.cursor >= hand.limit:
        hand.elsewhere = hand.founded = True  # behind a short row: what it left of that one
        return False
    if edge is not None and edge.digest in (hand.edge.digest, hand.edge.turned.digest):
        return True  # the row that is worked into anyhow
    if edge is not None and _is_rest(hand.edge, edge):
        return True  # what was left of that row is taken up
    if edge is None or not edge.ring:
        raise Unknown
    hand.edge, hand.row = edge, row
    hand.cursor, hand.limit, hand.last, hand.covered = 0, len(edge), None, ()
    return True


def _is_rest(edge: Edge, row: Edge) -> bool:
    """Tell whether an edge is what was left unworked of a row, from either side."""
    n = len(edge)
    if not 0 < n < len(row):
        return False
    return any(
        one.kinds == whole.kinds[-n:] and one.parents == whole.parents[-n:]
        for one in (edge, edge.turned)
        for whole in (row, row.turned)
    )


def elsewhere(hand: Hand, target: Target, times: int, where: Span) -> Places:
    """Give places on edges that only the author's words name, behind an edge worked evenly.

    Raises
    ------
    Unknown
        Where the words give no number.
    """
    match target:
        case Next(number) | First(number) | Last(number) | Skipped(number):
            count = hand.number(number, where) * times
            first = -2 - len(hand.kinds)  # places of their own: what goes into one is a group
            return [(first - i, first - i) for i in range(count)]
        case Same(begins=False) | Nth(ordinals=(_,)) | Marked() | SeamPlace():
            return [NO_PLACE]
        case OppositeSide(at) | On(at, None):
            return elsewhere(hand, at, times, where)
        case Evenly(count) if not target.change and count is not None:
            return [NO_PLACE] * hand.number(count, where)
        case _:
            raise Unknown
