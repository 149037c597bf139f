"""Stitches that a row skipped and comes back to."""

from stitchproof.base.place import Span
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.nouns import Places
from stitchproof.fabric.trouble import Failing, Stuck, Trouble, Unknown
from stitchproof.language.tree import (
    STITCH,
    Noun,
)

_FAR_BACK = 200  # anchors; what was skipped before that is not meant any more


def left_open(hand: Hand, count: int, noun: Noun, where: Span) -> Places:
    """Give the first of the stitches skipped last, which lie behind the cursor.

    Raises
    ------
    Unknown
        Where nothing was worked yet: an earlier row skipped them.
    """
    if not hand.kinds:
        raise Unknown
    worked = set(hand.parents[-_FAR_BACK:])
    behind = [p for p in hand.edge.places(STITCH) if p[0] < hand.cursor][-_FAR_BACK:]
    while behind and behind[-1][0] in worked:
        behind.pop()
    run = len(behind)
    while run and behind[run - 1][0] not in worked:
        run -= 1
    found = behind[run : run + count]
    if len(found) < count:
        raise Stuck(Trouble(Failing.TOO_FEW, where, count, len(found), noun))
    if found:
        hand.last = found[-1]
    return found
