"""Slipping to where a row or a round begins, before its first stitch."""

from stitchproof.base.records import replace
from stitchproof.fabric.aside import NO_PLACE
from stitchproof.fabric.edge import Interval
from stitchproof.fabric.endings import begin_at
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.reach import reach
from stitchproof.language.tree import (
    SPACE,
    Chain,
    Each,
    First,
    Group,
    Make,
    Next,
    Same,
    Target,
    Thing,
    To,
)


def slip_to_start(hand: Hand, step: Make) -> None:
    """Slip to where a row or round begins: a ring then starts there, a row leaves them behind."""
    if _stands_in_first(hand, step.at):
        hand.cursor = 1  # "next" is the stitch behind the one the round before was joined to
    places = reach(hand, step.at, 1, step.place)
    if not places or places[-1] == NO_PLACE:
        return
    start, end = places[-1]
    at = step.at
    if hand.edge.ring and isinstance(at, Each) and isinstance(at.until, To) and _is_space(at.until):
        start, end = next(p for p in hand.edge.places(at.until.noun) if p[0] >= end)
    if hand.edge.ring and not (hand.flat and isinstance(at, First)):
        if isinstance(at, Next | First) and at.noun.thing is Thing.CHAIN:
            start, end = _loop_of(hand, (start, end))
        hand.slid += hand.edge.stitches_between(0, start)
        begin_at(hand, at, (start, end))
    else:
        hand.put("sl_st", "L", [a for a, _ in places], step.place)


def _loop_of(hand: Hand, chain: Interval) -> Interval:
    """Give the loop that a chain slipped along is of: the round begins in it, whole."""
    loops = hand.edge.places(SPACE) if hand.edge.roles[chain[0]] == "C" else []
    return next((loop for loop in loops if loop[0] <= chain[0] < loop[1]), chain)


_FEWEST = 2  # stitches of a round that has a next one


def _stands_in_first(hand: Hand, at: Target) -> bool:
    """Whether the hook stands in the first stitch of a joined round and goes on to the next."""
    joined = hand.edge.ring and hand.from_join and not hand.looped
    if not joined or hand.cursor or len(hand.edge) < _FEWEST:
        return False
    return isinstance(at, Next) and at.noun.thing in (Thing.STITCH, Thing.KIND)


def _is_space(until: To) -> bool:
    """Whether stitches slipped along end at a space, into which the hook then goes."""
    return until.noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE)


def slipped_into(hand: Hand, step: Group) -> Group:
    """Begin a round in "(sl st, ch 3, 2 dc) in first corner": the chain stands there."""
    match step.body:
        case (Make(stitch=stitch) as slip, Chain(), *_) if stitch.kind == "sl_st":
            if hand.begun or not hand.edge.ring:
                return step
            slip_to_start(hand, replace(slip, at=step.at))
            return replace(step, body=step.body[1:], at=Same(SPACE))
        case _:
            return step


def works_into_slips(hand: Hand) -> bool:
    """Whether slip stitches of the row below count, and are worked into."""
    pairs = zip(hand.edge.kinds, hand.edge.roles, strict=True)
    return any(kind == "sl_st" and role == "S" for kind, role in pairs)
