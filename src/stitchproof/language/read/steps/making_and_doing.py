"""What "making" and "do" begin: "making 2 sc in first st", or care: "making it loose"."""

from stitchproof.language.read.steps.advice import read_advice
from stitchproof.language.read.steps.brackets import read_bracket
from stitchproof.language.read.steps.fastening import read_negative
from stitchproof.language.read.steps.making import read_make
from stitchproof.language.read.steps.reader import OPENING, Frame, Reader
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import Steps


def read_making(reader: Reader, frame: Frame) -> Steps | None:
    """Read stitches that are made behind "making"; anything else is advice."""
    start, counted = reader.at, reader.number(1) is not None
    if not starts_stitch(reader, 2 if counted else 1):
        return read_advice(reader, frame)
    reader.take()
    number = reader.number()
    reader.take(counted)
    return read_make(reader, frame, number, start)


def read_do(reader: Reader, frame: Frame) -> Steps | None:
    """Read "do (3 dc, ch 1, 3 dc) in next sp", and "do not turn"."""
    if reader.text(1) not in OPENING:
        return read_negative(reader, frame)
    reader.take()
    return read_bracket(reader, frame)
