"""Cables and crossed stitches, which skip stitches and come back to them, under their own name."""

from collections.abc import Callable

from stitchproof.fabric.groups import counted_as
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.nouns import bound
from stitchproof.fabric.trouble import Stuck, Unknown
from stitchproof.language.number import ONE
from stitchproof.language.tree import STITCH, Each, Group, Next, Steps


def work_crossed(hand: Hand, step: Group, run: Callable[[Hand, Steps], None]) -> None:
    """Work a cable over the next stitches: as many as it takes it has to leave.

    What does not come out so is not known, and not wrong: how it is worked stands elsewhere.
    """
    if not isinstance(step.at, Next | Each) or not hand.edge.known:
        raise Unknown  # which of the stitches is which is not told
    if isinstance(step.at, Each):
        if step.at.noun != STITCH or step.at.apart != ONE:
            raise Unknown
        end = bound(hand, step.at.until, step.place)
        while hand.cursor < end:
            _one(hand, step, run)
        return
    if hand.number(step.at.number, step.place) not in (1, _one(hand, step, run)):
        raise Unknown


def _one(hand: Hand, step: Group, run: Callable[[Hand, Steps], None]) -> int:
    """Work one cable; tell how many stitches it takes."""
    start, made, told = hand.cursor, len(hand.kinds), len(hand.troubles)
    try:
        run(hand, step.body)
    except Stuck as stuck:
        raise Unknown from stuck
    over = hand.edge.stitches_between(start, hand.cursor)
    if over < 1 or len(hand.kinds) - made != over or len(hand.troubles) > told:
        raise Unknown
    if step.name:
        hand.groups.append((counted_as(step.name), made, len(hand.kinds)))
    return over
