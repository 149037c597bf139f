"""Yarn joined to what a row left unworked: "skip next 16 sts of Row 18, join yarn in next st"."""

from stitchproof.base.records import replace
from stitchproof.language.tree import JoinYarn, Leave, On, Skip, Step, Steps


def joins_rest(steps: Steps) -> bool:
    """Whether yarn is joined behind stitches that are passed over, or to what it calls unworked."""
    for i, step in enumerate(steps):
        if isinstance(step, JoinYarn):
            return "unworked" in step.of or any(isinstance(s, Skip | Leave) for s in steps[:i])
    return False


def of_rest(steps: Steps) -> Steps:
    """Take what is passed over of a row that is named for the rest of it: no other is left."""
    if not any(isinstance(step, Skip) and isinstance(step.at, On) for step in steps):
        return steps
    return tuple(map(_of_rest, steps))


def _of_rest(step: Step) -> Step:
    if isinstance(step, Skip) and isinstance(step.at, On) and step.at.row is not None:
        return replace(step, at=step.at.at)
    return step
