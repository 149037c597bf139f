"""Slip stitches that close a round."""

from stitchproof.language.number import ONE
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.read.steps.short_rows import has_made
from stitchproof.language.tree import First, Join, Make, Next, Nth, Origin, Steps, Thing


def joined(steps: Steps, reader: Reader, frame: Frame, start: int) -> Steps:
    """Take a slip stitch into the first stitch, after stitches were made, for a join."""
    step = steps[0]
    if not isinstance(step, Make) or step.stitch.kind != "sl_st" or reader.depth:
        return steps
    at = step.at
    if not has_made(frame):
        return steps
    turning = isinstance(at, Next) and at.noun.thing is Thing.TURNING_CHAIN
    turning = turning or (isinstance(at, Nth) and at.origin is Origin.TURNING_CHAIN)
    if turning or (isinstance(at, First) and at.number == ONE):
        return (Join(at, place=reader.span(start)),)
    return steps
