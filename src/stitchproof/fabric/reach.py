"""Finds the places that a target names, from where the hand is.

`reach` gives the places and moves the hand's cursor past them; what is made there is the
caller's matter. A place that does not exist raises `Stuck` with the facts.
"""

from bisect import bisect_left
from itertools import pairwise
from typing import Final

from stitchproof.base.place import Span
from stitchproof.fabric.aside import (
    NO_PLACE,
    begins_base,
    evenly,
    find_again,
    only_told,
    told_beyond,
    turn_aside,
    turn_over,
)
from stitchproof.fabric.below import kind_below, stands_below
from stitchproof.fabric.edge import CORNER, GAP, base_kind
from stitchproof.fabric.first_last import first_of, last_of
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.inside_groups import within
from stitchproof.fabric.left_open import left_below, left_open
from stitchproof.fabric.nouns import (
    Places,
    absent_space,
    ahead,
    bound,
    called_groups,
    need_known,
    places_of,
    understood,
)
from stitchproof.fabric.nth import at_ordinals
from stitchproof.fabric.other_edges import elsewhere, go_to_row
from stitchproof.fabric.trouble import NONE_OF_THEM, Failing, Stuck, Trouble, Unknown
from stitchproof.language.tree import (
    MARKED,
    SPACE,
    STITCH,
    TURNING_CHAIN,
    Behind,
    Below,
    Between,
    Each,
    End,
    Evenly,
    First,
    Last,
    Marked,
    Next,
    Noun,
    Nth,
    On,
    OppositeSide,
    Ring,
    RowEnds,
    Same,
    SeamPlace,
    Skipped,
    Target,
    Thing,
    Until,
    Within,
)
from stitchproof.language.walk import nodes


def reach(  # noqa: C901, PLR0911, PLR0912 - one arm a target
    hand: Hand, target: Target, times: int, where: Span
) -> Places:
    """Give the places of a target and move past them.

    Parameters
    ----------
    hand : Hand
        Who works; its cursor moves.
    target : Target
        What the words name.
    times : int
        Places that each stitch takes (2 for sc2tog).
    where : Span
        The words, for the facts of a failing.

    Returns
    -------
    list of (int, int)
        Intervals of anchors in the order worked.
    """
    hand.swept = False
    if hand.elsewhere:
        return elsewhere(hand, target, times, where)
    turn_aside(hand, target)
    if isinstance(target, Skipped) and hand.astray:
        hand.around_opening = True  # what lies across it is told by numbers too
    if isinstance(target, OppositeSide):
        if only_told(hand, target):
            return elsewhere(hand, target, times, where)
        hand.astray = False
    elif hand.astray and (isinstance(target, Each) or begins_base(target)):
        find_again(hand, target)
    if hand.other_side and hand.cursor >= hand.limit and _at_corner(target):
        hand.astray = True  # between two sides of a piece
    if hand.astray and not isinstance(target, _TOLD):
        raise Unknown
    if hand.astray and not isinstance(target, Evenly):
        return elsewhere(hand, target, times, where)
    match target:
        case Next(number, noun):
            return _next(hand, hand.number(number, where) * times, noun, where)
        case Each(noun, until, apart):
            return _each(hand, noun, until, where)[:: max(hand.number(apart, where), 1)]
        case Same(noun, _, begins):
            begun = _same(hand, noun, where)
            return [*begun, *_next(hand, times - 1, STITCH, where)] if begins else begun
        case First(number, noun):
            return first_of(hand, hand.number(number, where) * times, noun, where)
        case Last():
            return last_of(hand, target, times, where)
        case Nth():
            return at_ordinals(hand, target, where)
        case Ring():
            return _ring(hand)
        case Below():
            return _below(hand, target, where)
        case Between(at):
            return _between(hand, at, where)
        case Marked():
            return _marked(hand, where)
        case Behind():
            hand.pass_covered()
            return []
        case Skipped():
            return _skipped(hand, target, where)
        case Within():
            return within(hand, target, where)
        case On(at):
            on_row = go_to_row(hand, target, where)
            return reach(hand, at, times, where) if on_row else elsewhere(hand, at, times, where)
        case SeamPlace():
            return _one(hand, Noun(Thing.SEAM), where)
        case RowEnds():
            return _each(hand, Noun(Thing.ROW_END), End(), where)
        case OppositeSide(at):
            turn_over(hand, at, where)
            return reach(hand, at, times, where)
        case Evenly():
            return evenly(hand, target, where)


# What a number alone can be told of.
_TOLD = (Next, First, Last, Same, Skipped, Evenly, On, SeamPlace)


def _at_corner(target: Target) -> bool:
    return isinstance(target, Next) and target.noun.kind == CORNER


def _skipped(hand: Hand, target: Skipped, where: Span) -> Places:
    count, first = hand.number(target.number, where), hand.number(target.nth, where) - 1
    if left_below(hand, target.row, where):
        return _next(hand, count, target.noun, where)
    return left_open(hand, count + first, target.noun, where)[first:]


def _next(hand: Hand, count: int, noun: Noun, where: Span) -> Places:
    hand.pass_covered()
    if count == 0:
        return []
    told = told_beyond(hand, noun, count)
    if told:
        return told
    noun = understood(hand, noun, where)
    places = ahead(hand, noun)
    i = bisect_left(places, (hand.cursor, -1))
    found = places[i : i + count]
    if len(found) < count or found[-1][1] > hand.limit:
        had = sum(b <= hand.limit for _, b in found)
        none = had == 0 and count == 1 and noun.thing in _NAMED
        raise Stuck(Trouble(Failing.NO_PLACE if none else Failing.TOO_FEW, where, count, had, noun))
    between = hand.edge.stitches_between(hand.cursor, found[0][0])
    plain = "C" not in hand.edge.roles and len(set(hand.edge.parents)) == len(hand.edge)
    stitches = hand.noun.thing in (Thing.STITCH, Thing.KIND)
    if between and plain and noun == TURNING_CHAIN and stitches:
        hand.troubles.append(Trouble(Failing.LEFT_OVER, where, 0, between))
    hand.cursor, hand.last, hand.noun = found[-1][1], found[-1], noun
    return found


_NAMED: Final = (Thing.CHAIN_SPACE, Thing.SPACE, Thing.GROUP, Thing.SEAM)


def _each(hand: Hand, noun: Noun, until: Until, where: Span) -> Places:
    hand.pass_covered()
    noun = understood(hand, noun, where)
    need_known(hand, noun)
    end = bound(hand, until, where)
    places = places_of(hand, noun)
    i = bisect_left(places, (hand.cursor, -1))
    j = bisect_left(places, (end, -1))
    found = places[i:j]
    if found and found[-1][1] > end:
        found = found[:-1]  # a space that holds the end is not before it
    if not found and not hand.edge.roles.strip("C") and noun == STITCH:
        raise Unknown  # below stand chains at most: what was worked there was not told
    if not found:
        none = isinstance(until, End) and hand.edge.stitches_between(hand.cursor, end) == 0
        if none and not hand.spent:
            failing = Failing.TOO_FEW if noun.thing is Thing.STITCH else Failing.NO_PLACE
            raise Stuck(Trouble(failing, where, 1, 0, noun))
        if noun.thing in (Thing.CHAIN_SPACE, Thing.SPACE, Thing.GROUP):
            hand.troubles.append(Trouble(Failing.NO_PLACE, where, 1, NONE_OF_THEM, noun))
    if (absent := absent_space(hand, noun)) is not None:
        hand.troubles.append(Trouble(Failing.NO_PLACE, where, 1, 0, absent))
    hand.last = found[-1] if found else hand.last
    hand.cursor, hand.noun = end, noun
    spaces = noun.thing is Thing.CHAIN and "S" in hand.edge.roles
    whole = noun.thing in (Thing.STITCH, Thing.CHAIN) and not spaces
    if found and isinstance(until, End) and not whole:
        # what lies behind the last of them may still be worked ("..., dc in top of turning ch")
        hand.cursor, hand.swept = found[-1][1], True
    return found


def _same(hand: Hand, noun: Noun, where: Span) -> Places:
    place = hand.last
    if place is None:
        in_space = _space(noun) or (hand.from_space and hand.edge.ring and not hand.cursor)
        places = places_of(hand, SPACE if in_space else STITCH)
        i = bisect_left(places, (hand.cursor, -1))
        if i == len(places):
            raise Stuck(Trouble(Failing.NO_PLACE, where, 1, 0, noun))
        place = places[i]
    hand.cursor = max(hand.cursor, place[1])
    hand.last = place
    hand.noun = noun if _space(noun) else hand.noun
    return [place]


def _space(noun: Noun) -> bool:
    return noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE)


def _ring(hand: Hand) -> Places:
    """Work into the centre: a magic ring, a ring of chains, or the space worked last."""
    hand.pass_covered()
    hand.founded = hand.centre = True
    hand.cursor = hand.limit
    return [NO_PLACE]


def _below(hand: Hand, target: Below, where: Span) -> Places:
    """Look below the places of `at`; they stay to be passed behind the post."""
    rows = hand.number(target.rows, where)
    cursor = hand.cursor
    found = _skipped_behind(hand, target, where) or reach(hand, target.at, 1, where)
    for a, _ in found:
        kind = kind_below(hand.edge, a, rows - 1)
        wanted = target.noun
        if kind is None and hand.edge.roles[a] == "C":
            continue  # behind the chain that passed it by
        if kind is None:
            raise Stuck(Trouble(Failing.NO_PLACE, where, rows, 0, wanted))
        if wanted.thing is Thing.KIND and kind not in ("st", wanted.kind):
            right = base_kind(kind) == wanted.kind and kind.startswith(("fp", "bp")) is False
            if not right:
                raise Stuck(Trouble(Failing.NO_PLACE, where, rows, 0, wanted))
    if rows > 1:
        hand.covered = (*hand.covered, *found)
        hand.cursor = max(cursor, found[0][0]) if found else cursor
    return found


def _skipped_behind(hand: Hand, target: Below, where: Span) -> Places:
    """Give the stitches just skipped, when these posts stand before exactly them."""
    at, skipped = target.at, hand.just_skipped
    if not isinstance(at, Next) or not skipped or hand.number(target.rows, where) <= 1:
        return []
    if hand.number(at.number, where) != len(skipped):
        return []
    right = all(stands_below(hand, a, target, where) for a, _ in skipped)
    ahead = hand.edge.places(at.noun)
    i = bisect_left(ahead, (hand.cursor, -1))
    next_right = all(stands_below(hand, a, target, where) for a, _ in ahead[i : i + 1])
    several = len(skipped) > 1 and not _comes_back(hand)  # they stand for those skipped
    covers = not next_right or several
    return list(skipped) if right and covers else []


def _comes_back(hand: Hand) -> bool:
    """Whether the course names stitches that were skipped, or that lie behind others."""
    return any(isinstance(node, Behind | Skipped) for node in nodes(hand.course))


def _between(hand: Hand, at: Next | First | Last | Each, where: Span) -> Places:
    """Give the gaps between stitches; the stitch after a gap stays to be worked between again."""
    cursor = hand.cursor
    if called_groups(hand, at.noun):
        return _between_groups(hand, at, where)
    if isinstance(at, Next) and hand.number(at.number, where) == 1:
        before = _next(hand, 1, at.noun, where)[0][0]  # "in sp before next dc"
        hand.cursor, hand.last = before, (before - 1, before)
        return [hand.last]
    if isinstance(at, Next):
        pair = _next(hand, 2, at.noun, where)
        hand.cursor = pair[1][0]
        hand.last = (pair[0][1] - 1, pair[1][0])
        return [hand.last]
    first = hand.cursor
    found = reach(hand, at, 1, where)
    if isinstance(at, First | Last) and len(found) == 1:
        (a, b) = found[0]  # the gap before the first, or after the last
        hand.last = (a - 1, a) if isinstance(at, First) else (b - 1, b)
        hand.cursor = a if isinstance(at, First) else b
        return [hand.last]
    if isinstance(at, Each) and first > 0 and found and at.noun.thing is not Thing.GROUP:
        found = [(found[0][0] - 1, found[0][0]), *found]  # the gap beside the turning chain
    gaps = [(b - 1, b) for (_, b), _ in pairwise(found)]
    if gaps:
        hand.last = gaps[-1]
    hand.cursor = max(cursor, hand.cursor)
    return gaps


def _between_groups(hand: Hand, at: Next | First | Last | Each, where: Span) -> Places:
    """Give the gaps between groups without a name, where the edge is made of them.

    Raises
    ------
    Unknown
        Elsewhere: which stitches make a group would be a guess.
    """
    noun = Noun(Thing.SPACE, GAP)
    hand.gaps_named = True
    if not hand.edge.places(noun):
        raise Unknown
    if isinstance(at, First) and hand.number(at.number, where) > 1:  # "sp before 2nd group"
        return first_of(hand, 1, noun, where)
    if isinstance(at, First | Last):  # "sp before first group", "sp after last group"
        start, end = hand.edge.places(Noun(Thing.GROUP))[0 if isinstance(at, First) else -1]
        behind = start if isinstance(at, First) else end
        if behind < hand.cursor or behind in (0, len(hand.edge)):
            raise Unknown
        hand.cursor, hand.last = behind, (behind - 1, behind)
        return [hand.last]
    if isinstance(at, Each):
        return _each(hand, noun, at.until, where)
    return _next(hand, 1, noun, where)


def _marked(hand: Hand, where: Span) -> Places:
    """Give the marked place; behind a skip that tells how many, nothing else lies before it."""
    skipped, before = hand.just_skipped, hand.cursor
    found = _one(hand, MARKED, where)
    if skipped and skipped[-1][1] == before:
        between = hand.edge.stitches_between(before, found[0][0])
        if between:
            hand.troubles.append(Trouble(Failing.LEFT_OVER, where, 0, between))
    return found


def _one(hand: Hand, noun: Noun, where: Span) -> Places:
    return _next(hand, 1, noun, where)
