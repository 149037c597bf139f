"""A bracket that only says how often: "sc, inc (6x)"."""

from stitchproof.language.read.steps.how_much import read_times
from stitchproof.language.read.steps.reader import OPENING, Frame, Reader
from stitchproof.language.tree import Steps


def times_alone(reader: Reader) -> bool:
    """Tell whether "(6x)", "(x 6)", "(6 times)" stands at the cursor, and nothing else in it."""
    if reader.text() not in OPENING or reader.partner[reader.at] != reader.at + 3:
        return False
    counted = reader.number(1) is not None and reader.text(2) in {"x", "times"}
    return counted or (reader.text(1) == "x" and reader.number(2) is not None)


def read_times_alone(reader: Reader, frame: Frame) -> Steps | None:
    """Read "sc, inc (6x)": all since the start so often, or the last of it."""
    reader.take()
    steps = read_times(reader, frame)
    reader.take()
    return steps
