"""What is sewn or put in beside the work: eyes, buttons, stuffing."""

from typing import Final

from stitchproof.language.read.asides import ADORNMENTS
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.tree import (
    Remark,
    Steps,
)


def read_adornment(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "insert eyes between Rnds 9 and 10, with 7 sts between them" as a remark."""
    _ = frame
    start = reader.at
    near = {reader.text(i) for i in range(1, _NEAR)}
    if not near & ADORNMENTS:
        return None
    reader.take_until({".", ";", "!"})
    return (Remark(reader.words(start), reader.span(start)),)


_NEAR: Final = 8  # words
