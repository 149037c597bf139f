"""Skips what a step names: stitches, chain spaces, those behind, the one under a turning chain."""

from typing import Final

from stitchproof.fabric.aside import turn_aside
from stitchproof.fabric.begin import skipped_first
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.phrases import beyond_chain, just_begun, under_chain
from stitchproof.fabric.reach import reach
from stitchproof.fabric.slipping import works_into_slips
from stitchproof.fabric.trouble import Failing, Trouble
from stitchproof.language.tree import (
    Behind,
    Each,
    First,
    Group,
    Last,
    Make,
    Next,
    Skip,
    Step,
    Thing,
    To,
)

_SPACES: Final = (Thing.SPACE, Thing.CHAIN_SPACE)


def skip(hand: Hand, step: Skip, following: Step | None) -> None:
    """Go past what a step names; it is remembered for the step after it."""
    if isinstance(step.at, First | Next):
        turn_aside(hand, step.at)
        skipped_first(hand, step, None)
    match step.at:
        case Behind():
            hand.pass_covered()
        case First(number, noun) if (
            just_begun(hand)
            and hand.number(number, step.place) == 1
            and noun.thing is not Thing.ROW_END
        ):
            return  # the stitch that the turning chain stands on
        case Next(_, noun) | First(_, noun) if noun.kind == "sl_st" and not works_into_slips(hand):
            return  # nothing is worked into them anyway
        case Each(noun) if hand.cursor >= hand.limit and noun.thing in _SPACES:
            return  # "sc around, skipping the ch-1 sps": that is how it was worked
        case Next(number) if hand.covered and hand.number(number, step.place) == len(hand.covered):
            hand.pass_covered()
        case _:
            if under_chain(hand, step, following) or _before_last_group(hand, step, following):
                return
            _past_space_here(hand, step)
            last, before, listed = hand.last, hand.cursor, hand.skipped
            hand.skipped = reach(hand, beyond_chain(hand, step), 1, step.place)
            if listed and listed[-1][1] == before:
                _check_list(hand, step, before)
            hand.most_skipped = max(hand.most_skipped, len(hand.skipped))
            hand.last = last


def _past_space_here(hand: Hand, step: Skip) -> None:
    """Go past the space that lies right ahead: "ch 4, sk sleeve sts to next ch-1 sp" is another."""
    until = step.at.until if isinstance(step.at, Each) else None
    if not isinstance(until, To) or until.noun.thing not in _SPACES:
        return
    ahead = [p for p in hand.places(until.noun) if p[0] >= hand.cursor]
    if len(ahead) > 1 and not hand.edge.stitches_between(hand.cursor, ahead[0][0]):
        hand.cursor = ahead[0][1]


def _before_last_group(hand: Hand, step: Skip, following: Step | None) -> bool:
    """Skip the last loop before a group: "sk last loop, shell in last shell"."""
    group = following.at if isinstance(following, Make | Group) else None
    if not isinstance(step.at, Last) or not isinstance(group, Last):
        return False
    if step.at.noun.thing not in _SPACES or group.noun.thing is not Thing.GROUP:
        return False
    groups = hand.places(group.noun)
    count, ahead = hand.number(step.at.number, step.place), hand.places(step.at.noun)
    spaces = [p for p in ahead if hand.cursor <= p[0] and groups and p[1] <= groups[-1][0]]
    if not spaces or len(spaces) < count:
        return False
    hand.skipped = spaces[-count:]
    hand.most_skipped, hand.cursor = max(hand.most_skipped, count), spaces[-1][1]
    return True


def _check_list(hand: Hand, step: Skip, before: int) -> None:
    """Report what lies between stitches that are skipped and the space that is skipped with them.

    "Skip (ch-2 sp, 32 dc, ch-2 sp)" lists all that is skipped.
    """
    if isinstance(step.at, Next) and step.at.noun.thing in _SPACES and hand.skipped:
        between = hand.edge.stitches_between(before, hand.skipped[0][0])
        if between:
            hand.troubles.append(Trouble(Failing.LEFT_OVER, step.place, 0, between))
