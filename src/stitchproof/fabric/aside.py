"""Leaves the live edge: along row ends, the other side of the foundation, spread over an edge."""

from typing import TypeGuard

from stitchproof.base.place import Span
from stitchproof.fabric.edge import CENTRE, COUNTED, Edge, Interval, foundation
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.trouble import Failing, Stuck, Trouble, Unknown
from stitchproof.language.number import ONE
from stitchproof.language.tree import (
    CHAIN,
    STITCH,
    Each,
    End,
    Evenly,
    First,
    Last,
    Next,
    Noun,
    OppositeSide,
    Target,
    Thing,
)

NO_PLACE: Interval = (-1, -1)  # the centre of a ring: worked into, but no anchor


def evenly(hand: Hand, target: Evenly, where: Span) -> list[Interval]:
    """Spread a stated number of stitches over the whole edge, wherever they go."""
    hand.pass_covered()
    if target.count is None:
        raise Unknown
    count = hand.number(target.count, where)
    parts = sum(hand.number(part, where) for part, _ in target.parts)
    if target.parts and parts != count:
        hand.troubles.append(Trouble(Failing.COUNT, target.count.place, count, parts))
    if target.change == "in all":
        count = max(count - sum(role in COUNTED for role in hand.roles), 0)
    elif target.change:
        if hand.astray:
            raise Unknown
        there = hand.edge.stitches_between(hand.cursor, hand.limit)
        if count > there:
            raise Stuck(Trouble(Failing.TOO_FEW, where, count, there))
        count = there + count if target.change == "increased" else there - count
    else:
        keep_live(hand)
        hand.astray = True
    hand.cursor = hand.limit
    return [NO_PLACE] * count


def turn_aside(hand: Hand, target: Target) -> None:
    """Go on along the row ends of the piece itself where a step names some of them."""
    if not isinstance(target, Next | First | Last | Each):
        return
    if "E" in hand.edge.roles:
        _to_base(hand, target.noun)
        return
    if target.noun.thing is not Thing.ROW_END:
        return
    if not hand.ends or "" in hand.ends:
        if not isinstance(target, Each) and "M" not in hand.edge.roles:
            keep_live(hand)  # of another piece: as many as are told
            hand.cursor, hand.astray = hand.limit, True
        return
    keep_live(hand)
    n = len(hand.ends)
    hand.edge = Edge(kinds=hand.ends, roles="E" * n, parents=(-1,) * n)
    hand.cursor, hand.limit, hand.last = 0, n, None
    hand.other_side, hand.astray, hand.on_base = True, False, False


def _to_base(hand: Hand, noun: Noun) -> None:
    """Go on along the foundation behind the row ends of the piece, where chains are named."""
    if noun.thing is Thing.CHAIN and hand.other_side and hand.base and hand.cursor >= hand.limit:
        hand.edge = foundation(hand.base)
        hand.cursor, hand.limit, hand.last = 0, hand.base, None
        hand.on_base = True


def keep_live(hand: Hand) -> None:
    """Keep the live edge for later where the work turns aside before any of it is taken."""
    if hand.cursor == 0 and not hand.other_side and hand.edge.count:
        hand.live = hand.edge


def begins_base(target: Target) -> TypeGuard[First]:
    """Whether the first chain of a foundation is named: "3 sc in first ch" at a corner."""
    return isinstance(target, First) and target.number == ONE and target.noun.thing is Thing.CHAIN


def find_again(hand: Hand, target: Each | First) -> None:
    """Go on along an edge that is known: the foundation, or the live edge if nothing took it."""
    if target.noun.thing is Thing.CHAIN and hand.base:
        hand.edge, hand.on_base = foundation(hand.base), True
    elif target.noun.thing is Thing.STITCH and hand.live is not None and not hand.live.ring:
        hand.edge, hand.live = hand.live, None
    else:
        return
    hand.cursor, hand.limit, hand.last = 0, len(hand.edge), None
    hand.other_side, hand.astray = True, False


def told_beyond(hand: Hand, noun: Noun, count: int) -> list[Interval]:
    """Give places that no edge holds, of which there are as many as are told; else none.

    "3 ch, 1 tr" goes into the loop before "(2 tr, 1 ch) 5 times into the loop"; behind the
    stitches that a round has left come the chains that it made there.
    """
    into_ring = hand.edge is CENTRE and hand.begun and noun == STITCH
    if into_ring:
        hand.founded = hand.centre = True
        hand.cursor = hand.limit
    elif hand.edge.part and noun == CHAIN and hand.cursor >= hand.limit:
        hand.astray = True
    else:
        return []
    return [NO_PLACE] * count


def only_told(hand: Hand, target: OppositeSide) -> bool:
    """Whether all that is known of the other side is how many stitches go into it."""
    beyond = hand.astray and not hand.base and isinstance(target.at, Next)
    return beyond or hand.around_opening


def turn_over(hand: Hand, at: Target, where: Span) -> None:
    """Go on along the other side of the foundation, from the chain worked last.

    That chain is worked again on its other side only where it holds one stitch and the words take
    all chains: "each ch", or a number that is that of all.
    """
    if hand.on_base:
        return
    worked = [p for p in hand.parents if p >= 0]
    if ("F" not in hand.edge.roles or hand.other_side) and hand.base:
        chains = hand.base
    elif not worked or "F" not in hand.edge.roles:
        raise Unknown
    else:
        over = hand.remaining()
        if over:
            hand.troubles.append(Trouble(Failing.LEFT_OVER, where, 0, over))
        last = max(worked)
        chains = last - min(worked)
        everything = isinstance(at, Each) and at.until == End()
        everything |= isinstance(at, Next) and hand.number(at.number, where) == chains + 1
        chains += everything and worked.count(last) == 1
    hand.edge = foundation(chains)
    hand.cursor, hand.limit, hand.last = 0, chains, None
    hand.other_side = hand.on_base = True
