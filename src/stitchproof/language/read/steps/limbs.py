"""Pieces that one round joins: "12 sc around first leg, sc in 3 chs, 12 sc around second leg"."""

from stitchproof.base.records import replace
from stitchproof.language.read.steps.reader import Frame
from stitchproof.language.read.steps.rows_below import LIMBS, OTHERS
from stitchproof.language.tree import Evenly, Make, Next, On

_LEADS = frozenset(("around", "round", "along", "across", "the"))


def settle_limbs(frame: Frame) -> None:
    """Take a number of stitches around each of two limbs for one in each of their stitches.

    So many around one limb alone may be spread along an edge that has more, or fewer.
    """
    named = {i: limb for i, step in enumerate(frame.steps) if (limb := _limb(step))}
    if len({limb.lower() for limb in named.values()}) < 2:  # noqa: PLR2004 - two limbs
        return
    for i, limb in named.items():
        step = frame.steps[i]
        if isinstance(step, Make) and isinstance(step.at, Evenly) and step.at.count is not None:
            frame.steps[i] = replace(step, at=On(Next(step.at.count), piece=limb))


def _limb(step: object) -> str:
    """Name the limb that a number of stitches goes around: "first leg"; empty for all else."""
    match step:
        case Make(at=Evenly(count, along, "", ())) if count is not None:
            words = along.split()
            while words and words[0].lower() in _LEADS:
                words = words[1:]
            match [word.lower() for word in words]:
                case [which, limb] if which in OTHERS and limb in LIMBS:
                    return " ".join(words)
                case _:
                    return ""
        case Make(at=On(piece=piece)):
            return piece
        case _:
            return ""
