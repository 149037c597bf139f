"""Places named from the ends of an edge: "in first 3 sts", "in last dc"."""

from stitchproof.base.place import Span
from stitchproof.fabric.edge import CENTRE_STITCH
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.nouns import (
    Places,
    last_places,
    need_known,
    places_of,
    understood,
    within_limit,
)
from stitchproof.fabric.trouble import Failing, Stuck, Trouble
from stitchproof.language.tree import SPACE, Last, Noun, Thing


def first_of(hand: Hand, count: int, noun: Noun, where: Span) -> Places:
    """Give the first so many places of an edge, wherever the hand is."""
    hand.pass_covered()
    noun = understood(hand, noun, where)
    found = places_of(hand, noun)[:count]
    if len(found) < count and noun.thing is Thing.MARKED:
        need_known(hand, noun)
    if len(found) < count:
        raise Stuck(Trouble(Failing.TOO_FEW, where, count, len(found), noun))
    if found:
        hand.cursor = max(hand.cursor, found[-1][1])
        hand.last, hand.noun = found[-1], noun
    return found


def _behind_centre(hand: Hand) -> int:
    """Give where a row goes on: behind the middle of a group, past what is left of that group."""
    if hand.noun.kind != CENTRE_STITCH or hand.last is None:
        return hand.cursor
    parents, at = hand.edge.parents, hand.cursor
    while at < len(parents) and parents[at] == parents[hand.last[0]] != -1:
        at += 1
    return at


def last_of(hand: Hand, at: Last, times: int, where: Span) -> Places:
    """Give the last so many places of an edge; what is passed before them is left over."""
    hand.pass_covered()
    count = hand.number(at.number, where) * times
    if count == 0:
        return []
    noun = understood(hand, at.noun, where)
    places = within_limit(hand, last_places(hand, at, noun))
    found = places[-count:]
    if len(found) < count or found[0][0] < hand.cursor:
        had = sum(a >= hand.cursor for a, _ in found)
        raise Stuck(Trouble(Failing.TOO_FEW, where, count, had, noun))
    between = hand.edge.stitches_between(_behind_centre(hand), found[0][0])
    in_stitches = (Thing.STITCH, Thing.KIND, Thing.CHAIN)
    if between and noun.thing in in_stitches and hand.noun.thing in in_stitches:
        hand.troubles.append(Trouble(Failing.LEFT_OVER, where, 0, between))
    elif noun == SPACE and hand.noun.thing is Thing.SPACE:  # as many spaces as come before it
        split = hand.edge.ring and hand.edge.roles[:1] == hand.edge.roles[-1:] == "C"
        passed = sum(hand.cursor <= a and b <= found[0][0] for a, b in places)
        if passed and not split:  # the round begins within a space
            hand.troubles.append(Trouble(Failing.LEFT_OVER, where, 0, passed))
    hand.cursor, hand.last, hand.noun = found[-1][1], found[-1], noun
    return found
