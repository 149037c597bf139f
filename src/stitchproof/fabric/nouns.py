"""What a noun means on the edge at hand, and where a run up to a place ends."""

from bisect import bisect_left

from stitchproof.base.place import Span
from stitchproof.fabric.aside import turn_aside
from stitchproof.fabric.edge import CENTRE_STITCH, CORNER, Edge, Interval
from stitchproof.fabric.groups import with_chains
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.marks import UNSURE
from stitchproof.fabric.spaces import runs_of
from stitchproof.fabric.trouble import Failing, Stuck, Trouble, Unknown
from stitchproof.language.tree import (
    CHAIN,
    MARKED,
    SPACE,
    STITCH,
    End,
    Last,
    Noun,
    Thing,
    To,
    ToLast,
    ToMarked,
    Until,
)

Places = list[Interval]


def places_of(hand: Hand, noun: Noun) -> Places:
    """List all places of a noun on the hand's edge."""
    return hand.places(noun)


def ahead(hand: Hand, noun: Noun) -> Places:
    """List all places of a noun that may be the next; the ends of a flat piece are corners.

    Raises
    ------
    Unknown
        See `need_known`.
    """
    places = places_of(hand, noun)
    if noun.kind == CORNER and places and not hand.edge.ring and hand.cursor > places[-1][0]:
        raise Unknown  # whether the last stitch, which is worked already, is the corner
    need_known(hand, noun)
    return places


_FANS = frozenset(("cluster", "shell", "fan", "v_st", "v-st"))


def called_groups(hand: Hand, noun: Noun) -> bool:
    """Whether groups without a name are meant: "gap between clusters" where there are only such."""
    if noun.thing is Thing.GROUP and not noun.kind:
        return True
    called = noun.thing in (Thing.GROUP, Thing.KIND) and noun.kind in _FANS
    return called and not places_of(hand, noun) and bool(places_of(hand, Noun(Thing.GROUP)))


def understood(hand: Hand, noun: Noun, where: Span) -> Noun:
    """Take a stitch that the edge does not hold at all for any stitch, and keep the doubt.

    So too of a stitch named beside chains ("each dc and ch-1 sp"); all of both are worked then.
    """
    if noun.kind in _FANS and called_groups(hand, noun):
        return Noun(Thing.GROUP)
    if noun == CHAIN and hand.edge.known and hand.edge.count and not places_of(hand, noun):
        hand.troubles.append(Trouble(Failing.NO_PLACE, where, 0, 0, noun))
        return STITCH  # a row into the foundation is worked again on stitches
    beside = noun.thing is Thing.STITCH_OR_CHAIN and bool(noun.kind)
    named = Noun(Thing.KIND, noun.kind) if beside else noun
    if named.thing is not Thing.KIND or not hand.edge.known or places_of(hand, named):
        return noun
    if hand.edge.count == 0 and "F" not in hand.edge.roles:
        return noun
    trouble = Trouble(Failing.NO_PLACE, where, 0, 0, named)
    if trouble not in hand.troubles:
        hand.troubles.append(trouble)
    return noun if beside else STITCH


def need_posts(hand: Hand, places: Places, where: Span) -> None:
    """Object to post stitches around the chains of a foundation: they have no posts.

    Raises
    ------
    Stuck
        Where the first place is such a chain.
    """
    first = places[0][0] if places else -1
    if first >= 0 and not hand.other_side and hand.edge.roles[first] == "F":
        raise Stuck(Trouble(Failing.NO_PLACE, where, 1, 0, Noun(Thing.KIND, "post")))


def need_known(hand: Hand, noun: Noun) -> None:
    """Stay quiet about places that this edge cannot tell of.

    Raises
    ------
    Unknown
        For spaces between groups without chains, for ends of rows of another edge, and for a
        marker that was placed in an earlier row.
    """
    edge = hand.edge
    if noun.kind in (CORNER, CENTRE_STITCH):
        if not edge.places(noun):
            raise Unknown
        return
    if not edge.known and noun.thing is not Thing.STITCH and not edge.places(noun):
        raise Unknown
    if not edge.known and noun.thing is Thing.STITCH_OR_CHAIN:
        raise Unknown  # a count alone does not tell how many chains lie between its stitches
    if noun.thing is Thing.SPACE and "C" not in edge.roles and edge.count and not edge.places(noun):
        raise Unknown
    if noun.thing in (Thing.ROW_END, Thing.SEAM) and not set(edge.roles) & set("EM"):
        raise Unknown
    if noun.thing is Thing.MARKED:
        _need_marks(edge)


def _need_marks(edge: Edge) -> None:
    """Stay quiet about markers whose stitches are not known, and those of an earlier row."""
    if UNSURE in edge.marks:
        raise Unknown
    below = None if edge.marks else edge.below
    for _ in range(4):
        if below is None:
            return
        if below.marks or not below.known:
            raise Unknown
        below = below.below


def bound(hand: Hand, until: Until, where: Span) -> int:
    """Give the anchor before which a run of stitches or a repeat ends."""
    match until:
        case End():
            return hand.limit
        case ToLast(noun=Noun(Thing.TURNING_CHAIN)) if hand.edge.ring and not places_of(
            hand, until.noun
        ):
            return _next_of(hand, SPACE, where)  # "to ch-5": those made at an underarm
        case ToLast(number, noun):
            turn_aside(hand, Last(number, noun))  # "to last 2 row ends"
            count = hand.number(number, where)
            places = fans_with_chains(hand, noun)
            if not places:
                meant = last_places(hand, Last(number, noun), understood(hand, noun, where))
                places = within_limit(hand, meant)
            if count == 0:
                hand.spent = True
                return hand.limit
            if count > len(places) or places[-count][0] < hand.cursor:
                raise Stuck(Trouble(Failing.TOO_FEW, where, count, len(places), noun))
            before = places[-count][0]
            if noun.thing is Thing.TURNING_CHAIN and hand.space_next:
                before = len(hand.edge.roles[:before].rstrip("C"))  # its space is worked then
            return max(before, hand.cursor)
        case To(noun, before, nth):
            which = hand.number(nth, where)
            return _back(
                hand, _next_of(hand, noun, where, which), hand.number(before, where), where
            )
        case ToMarked(_, before):
            return _back(hand, _next_of(hand, MARKED, where), hand.number(before, where), where)


def within_limit(hand: Hand, places: Places) -> Places:
    """Leave out the stitches that a round slipped over, where it was found to end before them."""
    if not hand.slid or hand.limit == len(hand.edge):
        return places
    return [place for place in places if place[1] <= hand.limit]


def absent_space(hand: Hand, noun: Noun) -> Noun | None:
    """Give the space of "each dc and each ch-2 sp" where all spaces there are of other chains."""
    if noun.thing is not Thing.STITCH_OR_CHAIN or noun.chains is None or not hand.edge.known:
        return None
    lengths = {end - start for start, end in runs_of(hand.edge.roles)}
    if not lengths or noun.chains in lengths:
        return None
    return Noun(Thing.CHAIN_SPACE, chains=noun.chains)


def fans_with_chains(hand: Hand, noun: Noun) -> Places:
    """Give the fans that nobody named, of stitches and chains in one place; none without chains.

    Raises
    ------
    Unknown
        Where they are not all alike: where the last begins is not told then.
    """
    if "C" not in hand.edge.roles or noun.kind not in _FANS or places_of(hand, noun):
        return []
    found = list(with_chains(hand.edge.roles, hand.edge.parents))
    if not found or len({hand.edge.kinds[a:b] for a, b in found}) > 1:
        raise Unknown
    return found


def last_places(hand: Hand, at: Last, noun: Noun) -> Places:
    """Give the places of which the last are meant: not the turning chain that is named beside."""
    places = places_of(hand, noun)
    if at != hand.beside_chain or not places or hand.edge.roles[places[-1][0]] not in "KT":
        return places
    return places[:-1]


def _next_of(hand: Hand, noun: Noun, where: Span, nth: int = 1) -> int:
    """Give the anchor of the nth place of a noun; behind the last one, a round ends at its first.

    Raises
    ------
    Stuck
        When there is none.
    """
    places = ahead(hand, noun)
    i = bisect_left(places, (hand.cursor, -1))
    passed = bool(hand.just_skipped) and hand.just_skipped[-1][1] == hand.cursor
    there = i < len(places) and places[i][0] == hand.cursor
    spaces = noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE)
    if there and (hand.cursor == hand.reached or (passed and spaces)):
        i += 1  # the step before went up to this one, or skipped all before it: the next is meant
    i += max(nth, 1) - 1
    if i < len(places):
        hand.reached = places[i][0]
        return places[i][0]
    if places and hand.edge.ring and hand.begun:
        return hand.limit
    raise Stuck(Trouble(Failing.NO_PLACE, where, 1, 0, noun))


def _back(hand: Hand, anchor: int, by: int, where: Span) -> int:
    """Give the anchor so many stitches before one."""
    if not by:
        return anchor
    before = [a for a, _ in places_of(hand, STITCH) if hand.cursor <= a < anchor]
    if by > len(before):
        raise Stuck(Trouble(Failing.TOO_FEW, where, by, len(before)))
    return before[-by]
