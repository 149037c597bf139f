"""Stitches that a row skipped and comes back to."""

from stitchproof.base.place import Span
from stitchproof.base.records import replace
from stitchproof.fabric.edge import Interval
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.nouns import Places
from stitchproof.fabric.trouble import Failing, Stuck, Trouble, Unknown
from stitchproof.language.number import Number
from stitchproof.language.tree import (
    STITCH,
    Noun,
)

_FAR_BACK = 200  # anchors; what was skipped before that is not meant any more


def left_open(hand: Hand, count: int, noun: Noun, where: Span) -> Places:
    """Give the first of the stitches skipped last, which lie behind the cursor.

    Where this row skipped none and comes to a space of chains, an earlier row skipped them: they
    are seen behind those chains, whose place is then taken.

    Raises
    ------
    Unknown
        Where nothing was worked yet: an earlier row skipped them.
    """
    space = _chains_ahead(hand)
    if not hand.kinds and space is None:
        raise Unknown
    worked = set(hand.parents[-_FAR_BACK:])
    behind = [p for p in hand.edge.places(STITCH) if p[0] < hand.cursor][-_FAR_BACK:]
    while behind and behind[-1][0] in worked:
        behind.pop()
    run = len(behind)
    while run and behind[run - 1][0] not in worked:
        run -= 1
    found = behind[run : run + count]
    if space is not None and (not found or (found[0][0] == 0 and hand.roles[:1] == ["K"])):
        hand.cursor, hand.last = space[1], space
        return [space] * count
    if len(found) < count:
        raise Stuck(Trouble(Failing.TOO_FEW, where, count, len(found), noun))
    if found:
        hand.last = found[-1]
    return found


def left_below(hand: Hand, row: Number | None, where: Span) -> bool:
    """Go to the stitches that a row further down has left, behind what was worked over them.

    Returns
    -------
    bool
        Whether the hand is there.
    """
    number = None if row is None else hand.number(row, where)
    if number is None or hand.row == number:
        return number is not None
    edge, over = hand.earlier.get(number), hand.earlier.get(number + 1)
    if edge is None or over is None or over.below is None or not edge.ring:
        return False
    live = over.digest in (hand.edge.digest, hand.edge.turned.digest)
    if live or hand.kinds or edge.digest != over.below.digest:
        return False
    worked = set(over.parents)
    roles = "".join("T" if i in worked else role for i, role in enumerate(edge.roles))
    hand.edge, hand.row = replace(edge, roles=roles), number
    hand.cursor, hand.limit, hand.last, hand.covered = 0, len(edge), None, ()
    return True


def _chains_ahead(hand: Hand) -> Interval | None:
    """Give the space of chains that the hand stands before."""
    start = end = hand.cursor
    while end < hand.limit and hand.edge.roles[end] == "C":
        end += 1
    return (start, end) if end > start else None
