"""A loop named before the stitches that it holds for: "FLO: sc in each st"."""

from stitchproof.language.read.steps import placed, stitches
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.tree import Steps


def read_short_loop_first(reader: Reader, frame: Frame) -> Steps | None:
    """Read "FLO: sc in each st" for all that follows, "BLO 1 sc in each st" for that alone."""
    loop = stitches.SHORT_LOOPS[reader.text()]
    reader.take()
    if reader.accept(":") or reader.accept(",") or reader.number() is None:
        reader.loop = loop
        return ()
    before, reader.loop = reader.loop, loop
    steps = placed.read_numbered(reader, frame)
    reader.loop = before
    return steps
