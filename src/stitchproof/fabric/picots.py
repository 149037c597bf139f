"""Picots, and stitches back along a chain just made: they take nothing of the edge."""

from stitchproof.fabric.begin import origin_of
from stitchproof.fabric.hand import Hand
from stitchproof.language.tree import (
    Each,
    Last,
    Make,
    Next,
    Nth,
    Origin,
    Thing,
)


def goes_back(hand: Hand, step: Make) -> bool:
    """Close a picot, or work back along a chain just made: it takes nothing of the edge."""
    at = step.at
    if step.stitch.kind == "sl_st" and isinstance(at, Last):
        if _closes_picot(hand, at, step):
            hand.groups.append(("picot", len(hand.kinds), len(hand.kinds)))
            return True
        if _loops_back(hand, at, step):
            return True
    if isinstance(at, Nth) and origin_of(hand, at) is Origin.HOOK:
        if not hand.kinds or only_chains(hand):
            return False
        hand.groups.append(("picot", len(hand.kinds), len(hand.kinds)))
        chains = len(hand.roles) - len("".join(hand.roles).rstrip("C"))
        hand.back = chains - hand.number(at.ordinals[0], step.place)
        return True
    if hand.back <= 0 or not isinstance(at, Next | Each) or at.noun.thing is not Thing.CHAIN:
        return False
    taken = hand.back if isinstance(at, Each) else hand.number(at.number, step.place)
    if taken > hand.back:
        return False
    hand.back -= taken
    return True


def _closes_picot(hand: Hand, at: Last, step: Make) -> bool:
    """Whether "3ch, ss in last dc" goes back into the dc that the chain stands on.

    The last stitch of the row below may be meant where no more than that is left of it.
    """
    below = len(hand.roles) - 1
    while below >= 0 and hand.roles[below] == "C":
        below -= 1
    if below in (-1, len(hand.roles) - 1) or hand.roles[below] != "S" or hand.just_skipped:
        return False
    named = at.noun.thing is Thing.KIND and hand.kinds[below] == at.noun.kind
    if not named or hand.number(at.number, step.place) != 1:
        return False
    left = hand.edge.stitches_between(hand.cursor, hand.limit)
    return left != 1 or any(name == "picot" for name, _, _ in hand.groups)


def _loops_back(hand: Hand, at: Last, step: Make) -> bool:
    """Whether a chain behind a row that is worked whole is joined to its last stitch: a loop."""
    if hand.roles[-1:] != ["C"] or at.noun.thing not in (Thing.STITCH, Thing.KIND):
        return False
    made = any(role == "S" for role in hand.roles)
    over = hand.edge.stitches_between(hand.cursor, hand.limit)
    return made and not over and hand.number(at.number, step.place) == 1


def only_chains(hand: Hand) -> bool:
    """Whether nothing but a chain stands, the skipped ones of a foundation with their space too."""
    founding = hand.cursor == 0 and "F" in hand.edge.roles
    return all(role in ("KTC" if founding else "KT") for role in hand.roles)
