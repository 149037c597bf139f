"""Rows worked again without their turning chain."""

from stitchproof.language.tree import Chain, Group, Make, Steps, makes_stitches


def chainless(steps: Steps) -> Steps:
    """Leave out the turning chain of a row: at its end where it stands there, else at its start."""
    behind = [i for i, step in enumerate(steps) if isinstance(step, Chain)]
    last = max((i for i, step in enumerate(steps) if isinstance(step, Make | Group)), default=-1)
    first = next((i for i, step in enumerate(steps) if makes_stitches((step,))), -1)
    if behind and behind[-1] > last >= 0:
        return (*steps[: behind[-1]], *steps[behind[-1] + 1 :])
    if first in behind:
        return (*steps[:first], *steps[first + 1 :])
    return steps
