"""How a course begins: the turning chain, and the chains skipped in a foundation.

A chain that counts as a stitch stands on the first place of the edge and takes it; one that does
not stands beside it, and the first stitch goes into the first place.
"""

from collections.abc import Mapping
from typing import Final

from stitchproof.base.records import replace
from stitchproof.fabric.conventions import NOT_A_STITCH, customary
from stitchproof.fabric.edge import base_kind
from stitchproof.fabric.hand import Hand
from stitchproof.language.tree import (
    CHAIN,
    SPACE,
    STITCH,
    Chain,
    Counts,
    Either,
    First,
    Group,
    Make,
    Next,
    Nth,
    Origin,
    Repeat,
    Same,
    Skip,
    Step,
    Steps,
)


def first_kind(steps: Steps, choices: Mapping[Either, int]) -> str:
    """Name the first stitch that is made, plain; empty when none is."""
    for step in steps:
        match step:
            case Make(stitch) if stitch.kind != "sl_st":
                return stitch.kind
            case Group(body) | Repeat(body):
                inner = first_kind(body, choices)
            case Either(readings):
                inner = first_kind(readings[choices.get(step, 0)], choices)
            case _:
                inner = ""
        if inner:
            return inner
    return ""


def begin_chain(hand: Hand, chains: int, counts: Counts | None, following: Step | None) -> None:
    """Make the chain that a course begins with."""
    hand.turning = chains
    kind = hand.first_kind
    if counts is None and hand.edge.ring and not hand.from_join and isinstance(following, Skip):
        settled = Counts("", chains=chains)  # a spiral has no beginning: it bridges what is skipped
    elif counts is None or counts.stitch == "st":
        switch = (kind, chains, _of_block(hand, kind, chains))
        settled = hand.conventions.turning(switch)
        if kind:  # else no stitch follows that it could stand for
            hand.asked.append(switch)
        if counts is None and chains == 1 and _into_first(following):
            settled = NOT_A_STITCH  # nobody increases beside a single chain
        if counts is not None and not settled.stitch:
            settled = customary_counted(kind, chains)
    else:
        settled = counts
    _stand(hand, settled, kind, chains)
    loop = not settled.stitch and settled.chains > 0
    if loop and hand.edge.ring and hand.from_join and isinstance(following, Skip):
        place = _first_place(hand)  # the loop springs from the stitch of the join
        hand.cursor = max(hand.cursor, place[1]) if place is not None else hand.cursor


def _of_block(hand: Hand, kind: str, chains: int) -> bool:
    """Whether a chain begins a block, as those in the foundation of the piece did.

    "Sl st in next ch-3 sp, ch 3, 3 dc in same sp" where the first row was "ch 6, dc in 4th ch".
    """
    if hand.edge.ring or hand.last is None or hand.edge.roles[slice(*hand.last)].strip("C"):
        return False
    return hand.conventions.turning((kind, chains, True)) == Counts("", chains=chains)


def _into_first(step: Step | None) -> bool:
    """Whether a step works the very first stitch of the row."""
    return isinstance(step, Make | Group) and isinstance(step.at, First | Same)


def customary_counted(kind: str, chains: int) -> Counts:
    """Give what a chain counts as, when it is known that it counts."""
    counted = [c for c in customary(kind, chains) if c.stitch]
    return counted[0] if counted else Counts(kind or "st")


def _stand(hand: Hand, counts: Counts, kind: str, chains: int) -> None:
    if counts.stitch:
        name = kind if counts.stitch == "st" else base_kind(counts.stitch)
        place = hand.last if hand.last is not None else _first_place(hand)
        parent = place[0] if place is not None else -1
        hand.kinds.append(name or "ch")
        hand.roles.append("K")
        hand.parents.append(parent)
        if place is not None:
            hand.cursor = max(hand.cursor, place[1])
            hand.last = place
        hand.begun = True
    elif chains > 1 and not counts.chains:
        hand.kinds.append("ch")
        hand.roles.append("T")
        hand.parents.append(-1)
    if counts.chains > 0:
        hand.kinds += ["ch"] * counts.chains
        hand.roles += ["C"] * counts.chains
        hand.parents += [-1] * counts.chains
    hand.begun = True


def _first_place(hand: Hand) -> tuple[int, int] | None:
    if hand.edge.ring and hand.cursor == 0 and hand.edge.roles[:1] == "C":
        return hand.edge.places(SPACE)[0]  # the yarn was moved into this space
    places = hand.edge.places(STITCH) or hand.edge.places(CHAIN)
    return next(((a, b) for a, b in places if a >= hand.cursor), None)


def origin_of(hand: Hand, at: Nth) -> Origin:
    """Say from where an ordinal counts: a foundation has no turning chain but itself."""
    foundation = set(hand.edge.roles) == {"F"}
    return Origin.HOOK if foundation and at.origin is Origin.TURNING_CHAIN else at.origin


_LONGEST_BLOCK: Final = 12  # chains that a block worked on from its corner begins with


def skipped_chains(hand: Hand, step: Make | Group, counts: Counts | None) -> None:
    """Settle what the chains skipped in "in 4th ch from hook" stand for, once a course."""
    at = step.at
    if not isinstance(at, Nth) or origin_of(hand, at) is not Origin.HOOK or hand.begun:
        return
    skipped = hand.number(at.ordinals[0], step.place) - 1
    kind = step.stitch.kind if isinstance(step, Make) else first_kind(step.body, hand.choices)
    _stand_at_hook(hand, kind, skipped, counts)


def skipped_first(hand: Hand, step: Skip, counts: Counts | None) -> None:
    """Settle what the chains stand for that a row skips before its first stitch.

    "Skip first 3 ch, dc in next ch" on a foundation is "dc in 4th ch from hook".
    """
    at = step.at
    if hand.begun or hand.cursor or set(hand.edge.roles) != {"F"} or hand.edge.ring:
        return
    if not isinstance(at, First | Next) or at.noun != CHAIN:
        return
    skipped = hand.number(at.number, step.place)
    if skipped > 1:
        _stand_at_hook(hand, hand.first_kind, skipped, counts)


def _stand_at_hook(hand: Hand, kind: str, skipped: int, counts: Counts | None) -> None:
    settled = counts
    if settled is None:
        settled = hand.conventions.turning((kind, skipped, True))
        hand.asked.append((kind, skipped, True))
        if settled == Counts("", chains=skipped) and hand.edge.roles.count("F") > _LONGEST_BLOCK:
            settled = hand.conventions.said(skipped) or settled
    elif settled.stitch == "st":
        settled = customary_counted(kind, skipped)
    hand.turning = skipped
    if settled == NOT_A_STITCH or not (settled.stitch or settled.chains):
        hand.begun = True
        return
    if counts is None and settled.chains > 0 and settled.stitch:
        # half of the chains beyond the stitch lie below the space
        settled = Counts(settled.stitch, chains=settled.chains // 2)
    hand.last = (0, 0)
    _stand(hand, settled, kind, skipped)
    hand.last = None


def ahead_of_foundation(hand: Hand, chain: Chain) -> bool:
    """Lengthen a foundation by its turning chain where the row counts chains from the hook."""
    if not hand.extends or set(hand.edge.roles) != {"F"}:
        return False
    extend(hand, hand.number(chain.count, chain.place))
    return True


def extend(hand: Hand, count: int) -> None:
    """Add chains at the beginning of a row, to be worked into."""
    edge = hand.edge
    hand.edge = replace(
        edge,
        colours=(),
        kinds=("ch",) * count + edge.kinds,
        roles="F" * count + edge.roles,
        parents=(-1,) * count + edge.parents,
        groups=tuple((g, a + count, b + count) for g, a, b in edge.groups),
        marks=tuple((m, at + count) for m, at in edge.marks),
    )
    hand.limit = len(hand.edge)
