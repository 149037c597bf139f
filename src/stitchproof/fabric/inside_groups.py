"""Places inside a group made in one place: "3rd dc of next shell", "center of last fan"."""

from typing import Final

from stitchproof.base.place import Span
from stitchproof.fabric.edge import Interval
from stitchproof.fabric.groups import with_chains
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.nouns import Places, bound, places_of, understood
from stitchproof.fabric.spaces import runs_of
from stitchproof.fabric.trouble import NONE_OF_THEM, Failing, Stuck, Trouble, Unknown
from stitchproof.language.number import ONE
from stitchproof.language.tree import (
    CHAIN,
    SPACE,
    STITCH,
    Each,
    First,
    Last,
    Next,
    Noun,
    Nth,
    Same,
    Target,
    Thing,
    Within,
)


def within(hand: Hand, target: Within, where: Span) -> Places:
    """Give the stitch or space of each group that an ordinal, or the middle, tells.

    What lies behind it in the group stays passed: nobody works there who names the next group.
    """
    if target.noun == CHAIN and getattr(target.of, "noun", STITCH).thing in _SPACES:
        return _chains_of(hand, target, where)
    groups = _in_its_middle(hand, target) or _groups(hand, target.of, where)
    if not groups and isinstance(target.of, Each):
        raise Unknown  # what makes a group was not told
    found: Places = []
    begun_in = _begun_in(hand, target.of)
    groups = [begun_in, *groups][: len(groups)] if begun_in is not None else groups
    for a, b in groups:
        inside = [p for p in places_of(hand, target.noun) if a <= p[0] and p[1] <= b]
        n = len(inside) // 2 + 1 if target.ordinal is None else hand.number(target.ordinal, where)
        if not inside and target.noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE):
            if _has_another(hand, target, (a, b)):
                raise Stuck(Trouble(Failing.NO_PLACE, where, 1, NONE_OF_THEM, target.noun))
            raise Unknown
        if target.ordinal is None and target.noun == STITCH and "C" in hand.edge.roles[a:b]:
            inside = [p for p in hand.edge.places(SPACE) if a <= p[0] and p[1] <= b]
        if not inside and target.noun.thing is Thing.KIND:
            inside = [p for p in places_of(hand, STITCH) if a <= p[0] and p[1] <= b]
        n = len(inside) // 2 + 1 if target.ordinal is None else n
        even = target.ordinal is None and len(inside) % 2 == 0
        if even or not 0 < n <= len(inside):
            noun = target.noun
            raise Stuck(Trouble(Failing.TOO_FEW, where, max(n, 1), len(inside), noun))
        found.append(inside[n - 1])
    if groups:
        inside_it = groups[-1][0] < hand.cursor  # what is skipped of it is told on both sides
        hand.cursor = max(hand.cursor, found[-1][1] if inside_it else groups[-1][1])
        hand.last, hand.noun = found[-1], target.noun
    return found


_SPACES: Final = (Thing.SPACE, Thing.CHAIN_SPACE)


def _chains_of(hand: Hand, target: Within, where: Span) -> Places:
    """Give one chain of each space: "3rd ch of next ch-5 sp", "center ch of each ch-7 loop"."""
    spaces = _chosen(hand, target.of, understood(hand, target.of.noun, where), where)
    if not spaces and isinstance(target.of, Each):
        raise Unknown
    found: Places = []
    for a, b in spaces:
        n = (b - a) // 2 + 1 if target.ordinal is None else hand.number(target.ordinal, where)
        if target.ordinal is None and (b - a) % 2 == 0:
            n = (b - a) // 2  # of an even number either of the two in the middle
        if not 0 < n <= b - a:
            raise Stuck(Trouble(Failing.NO_PLACE, where, n, b - a, target.of.noun))
        found.append((a + n - 1, a + n))
    if found:
        hand.cursor = max(hand.cursor, found[-1][1])
        hand.last, hand.noun = found[-1], CHAIN
    return found


def _has_another(hand: Hand, target: Within, group: Interval) -> bool:
    """Whether a group of a name has one space, and that of other chains: "ch-2 sp of each V-st"."""
    of = getattr(target.of, "noun", STITCH)
    named = of.thing is Thing.GROUP and bool(of.kind) and bool(places_of(hand, of))
    runs = runs_of(hand.edge.roles[slice(*group)])
    wanted = target.noun.chains
    if not named or not hand.edge.known or wanted is None or len(runs) != 1:
        return False
    start, end = runs[0]
    return end - start != wanted


def _begun_in(hand: Hand, of: Target) -> Interval | None:
    """Give what lies ahead of the group in whose middle a round has slipped to, before it is begun.

    "Sl st to ch-1 sp of first shell, ch 1, *7 dc in ch-1 sp of shell": it is the first of them.
    """
    if not isinstance(of, Next) or not hand.edge.ring or hand.cursor or "S" in hand.roles:
        return None
    n = len(hand.edge)
    return next(((0, b - n) for _, b in places_of(hand, of.noun) if b > n), None)


def _groups(hand: Hand, of: Target, where: Span) -> Places:
    """Give the groups meant; where none of the name is there, what was made in one place."""
    noun = getattr(of, "noun", STITCH)
    if noun.kind == "block":
        raise Unknown  # of blocks that lean over; the next has its space at its far end
    if noun.thing is Thing.GROUP and noun.kind and not places_of(hand, noun):
        noun = Noun(Thing.GROUP)
    unnamed = noun.thing is Thing.GROUP and not noun.kind
    if unnamed and not hand.edge.known:
        raise Unknown
    try:
        return _chosen(hand, of, noun, where)
    except Stuck:
        if unnamed and _all_in_one_place(hand):
            raise Unknown from None  # "shell in next shell" on one group: which of it is a shell?
        raise


def _all_in_one_place(hand: Hand) -> bool:
    """Whether all stitches of the edge were made in one place, with chains between them."""
    made = {p for p, role in zip(hand.edge.parents, hand.edge.roles, strict=True) if role in "SK"}
    return len(made) == 1 and "C" in hand.edge.roles


def _nth(hand: Hand, of: Nth, groups: Places, where: Span) -> Places:
    """Give groups counted from where the row begins: "2nd V-st"."""
    wanted = [hand.number(one, where) for one in of.ordinals]
    if max(wanted) > len(groups):
        raise Stuck(Trouble(Failing.TOO_FEW, where, max(wanted), len(groups), of.noun))
    return [groups[n - 1] for n in wanted if n > 0]


def _in_its_middle(hand: Hand, target: Within) -> Places:
    """Give the group whose middle is the very next stitch: "sc in next 3 dc, sc in center dc"."""
    if target.ordinal is not None or not isinstance(target.of, Next) or target.of.number != ONE:
        return []
    at = hand.cursor
    groups = places_of(hand, target.of.noun) or places_of(hand, Noun(Thing.GROUP))
    return [(a, b) for a, b in groups if a < at == (a + b) // 2 and (b - a) % 2][:1]


def _ahead(hand: Hand, group: Interval) -> bool:
    """Whether a group lies ahead, or its middle does: "sk 2 dc, sc in center dc of next shell"."""
    start, end = group
    return start >= hand.cursor or (bool(hand.just_skipped) and (start + end) // 2 >= hand.cursor)


def _chosen(hand: Hand, of: Target, noun: Noun, where: Span) -> Places:
    """Give those of the groups that the words choose."""
    unnamed = noun.thing is Thing.GROUP and not noun.kind
    whole = [p for p in places_of(hand, noun) if not unnamed or p[1] - p[0] > 2]  # noqa: PLR2004
    if not whole and unnamed:
        if not getattr(of, "noun", noun).kind:
            raise Unknown  # "first scallop": what makes one was told in other words
        whole = list(with_chains(hand.edge.roles, hand.edge.parents))
    match of:
        case Next(number) | First(number) | Last(number):
            count = hand.number(number, where)
            if isinstance(of, Last):
                chosen = whole[-count:] if count else []
            else:
                ahead = [p for p in whole if _ahead(hand, p)] if isinstance(of, Next) else whole
                chosen = ahead[:count]
            if len(chosen) < count or (chosen and chosen[-1][1] > hand.limit):
                had = len(chosen)
                failing = Failing.TOO_FEW if had else Failing.NO_PLACE
                raise Stuck(Trouble(failing, where, count, had, of.noun))
            return chosen
        case Nth():
            return _nth(hand, of, places_of(hand, noun), where)
        case Each(until=until):
            end = bound(hand, until, where)
            return [(a, b) for a, b in whole if hand.cursor <= a and b <= end]
        case Same() if hand.last is not None:
            at = hand.last[0]
            return [p for p in places_of(hand, noun) if p[0] <= at < p[1]]
        case _:
            raise Unknown
