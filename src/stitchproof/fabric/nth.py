"""Places counted off: "4th ch from hook", "6th and 12th st", "3rd ch of turning ch"."""

from bisect import bisect_left

from stitchproof.base.place import Span
from stitchproof.fabric.begin import origin_of
from stitchproof.fabric.edge import Interval
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.nouns import Places, places_of
from stitchproof.fabric.trouble import Failing, Stuck, Trouble
from stitchproof.language.tree import SPACE, TURNING_CHAIN, Noun, Nth, Origin, Thing


def at_ordinals(hand: Hand, target: Nth, where: Span) -> Places:
    """Give the places of ordinals and move past the last of them."""
    hand.pass_covered()
    found: Places = []
    for ordinal in target.ordinals:
        n = hand.number(ordinal, where)
        if n == 0:
            continue
        found.append(_ordinal(hand, n, target, where))
    return found


def _chain_ahead(hand: Hand, n: int) -> Interval | None:
    """Give a chain of the space ahead, where "3rd ch of ch-5" cannot be of the turning chain.

    That of a round has been passed, once the round has begun; its end is joined by a slip stitch.
    """
    if not hand.edge.ring or not hand.cursor or "S" not in hand.roles:
        return None
    places = hand.edge.places(SPACE)
    a, b = next(((a, b) for a, b in places if a >= hand.cursor), (0, 0))
    return (a + n - 1, a + n) if b - a >= n and b <= hand.limit else None


def _ordinal(hand: Hand, n: int, target: Nth, where: Span) -> Interval:
    noun, origin = target.noun, origin_of(hand, target)
    match origin:
        case Origin.HOOK | Origin.EDGE:
            places = places_of(hand, noun)
            start = 0
        case Origin.HERE:
            places = places_of(hand, noun)
            start = bisect_left(places, (hand.cursor, -1))
        case Origin.TURNING_CHAIN:
            ahead = _chain_ahead(hand, n)
            if ahead is not None:
                hand.cursor, hand.last, hand.noun = ahead[1], ahead, noun
                return ahead
            places = places_of(hand, Noun(Thing.TURNING_CHAIN))
            if n > (chains := hand.edge.turning) > 0:
                hand.troubles.append(Trouble(Failing.NO_PLACE, where, n, chains, TURNING_CHAIN))
            start, n = 0, min(n, 1)
    if start + n > len(places) or places[start + n - 1][1] > hand.limit:
        raise Stuck(Trouble(Failing.TOO_FEW, where, n, len(places) - start, noun))
    place = places[start + n - 1]
    if origin is Origin.TURNING_CHAIN and place[0] < hand.cursor and not hand.edge.ring:
        raise Stuck(Trouble(Failing.TOO_FEW, where, 1, 0, TURNING_CHAIN))
    hand.cursor, hand.last, hand.noun = max(hand.cursor, place[1]), place, noun
    return place
