"""Rounds that slip to a space and work there: "sl st to corner sp, ch 3, 2 dc in corner sp"."""

from collections.abc import Sequence
from typing import Final

from stitchproof.base.place import Span
from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.tree import (
    SPACE,
    Chain,
    Colour,
    Facing,
    First,
    Group,
    Make,
    Next,
    Remark,
    Same,
    Step,
    Thing,
    Turn,
)

_SPACES: Final = frozenset((Thing.SPACE, Thing.CHAIN_SPACE))
_BEFORE: Final = (Chain, Colour, Facing, Remark, Turn)
_ANOTHER: Final = word_set("next following foll each every another second 2nd all")


def settle_slipped(reader: Reader, frame: Frame) -> None:
    """Let what is made in the space just slipped to be in the same: no "next" stands there."""
    steps = frame.steps
    if not steps or steps[0].place.start > reader.tokens[0].place.start:
        return  # within a repeat the next space is as near
    for i, step in enumerate(steps):
        if not isinstance(step, _BEFORE) and not _is_slip(step):
            return  # the round has begun
        at = step.at if isinstance(step, Make) else None
        if not isinstance(at, Next | First) or at.number != ONE or at.noun.thing not in _SPACES:
            continue
        behind = i + 1
        while behind < len(steps) and isinstance(steps[behind], Chain | Remark):
            behind += 1
        made = steps[behind] if i + 1 < behind < len(steps) else None
        if (
            isinstance(made, Make | Group)
            and not _is_slip(made)
            and made.at in (at, Next(ONE, SPACE))
            and not _arches(steps[i + 1 : behind], made)
            and not _says_another(reader, made.place)
        ):
            steps[behind] = replace(made, at=Same(at.noun))
            return


def _is_slip(step: Step) -> bool:
    return isinstance(step, Make) and step.stitch.kind == "sl_st"


def _arches(chained: Sequence[Step], made: Make | Group) -> bool:
    """Tell whether the chains reach to the next space: "ch 4, sc in ch-3 sp" stands for no sc."""
    kind = made.stitch.kind if isinstance(made, Make) else ""
    return kind == "sc" and any(isinstance(s, Chain) and s.count != ONE for s in chained)


def _says_another(reader: Reader, place: Span) -> bool:
    return not _ANOTHER.isdisjoint(reader.texts_of(place))
