"""A border told by its sides: "18 sc evenly along each side and 3 sc in each corner"."""

from itertools import pairwise
from typing import Final

from stitchproof.base.records import replace
from stitchproof.fabric.edge import CORNER
from stitchproof.fabric.hand import Hand
from stitchproof.language.tree import Each, Evenly, Group, Make, Next, Steps

_SIDES: Final = 4  # of a piece that is as wide at its top as where it began
_EACH_SIDE: Final = ("each side", "each edge", "every side", "all sides", "all four sides")


def side_by_side(hand: Hand, steps: Steps) -> Steps:
    """Give steps with a border of equal sides told one by one, where a rectangle stands there.

    Parameters
    ----------
    hand : Hand
        Who works, before any of the steps.
    steps : Steps
        A row.
    """
    if hand.edge.ring or not hand.base or hand.base != hand.edge.count:
        return steps
    for i, (first, second) in enumerate(pairwise(steps)):
        side, corner = (first, second) if _along_each_side(first) else (second, first)
        if not _along_each_side(side) or not isinstance(corner, Make | Group):
            continue
        at = corner.at
        if isinstance(at, Each) and at.noun.kind == CORNER:
            one = replace(corner, at=Next(noun=at.noun))
            return (*steps[:i], *(side, one) * _SIDES, *steps[i + 2 :])
    return steps


def _along_each_side(step: object) -> bool:
    if not isinstance(step, Make) or not isinstance(step.at, Evenly):
        return False
    at = step.at
    told = at.count is not None and not at.change and not at.parts
    return told and any(words in at.along.lower() for words in _EACH_SIDE)
