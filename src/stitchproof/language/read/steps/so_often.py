"""How often, said before what is repeated: "6 x (sc, inc)"."""

from stitchproof.language.number import Number
from stitchproof.language.read.steps.brackets import read_bracket
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.tree import (
    Repeat,
    Steps,
    Times,
)


def so_often(reader: Reader, frame: Frame, number: Number, start: int) -> Steps | None:
    """Read "6 x (sc, inc)": how often stands before what is repeated."""
    reader.take()
    mark, close = reader.text(), reader.partner[reader.at]
    if close < 0 or reader.depth >= 32:  # noqa: PLR2004 - the bracket reader reports it
        return read_bracket(reader, frame)
    reader.take()
    reader.depth += 1
    body = tuple(reader.inner(reader, close).steps)
    reader.depth -= 1
    reader.at = close + 1
    return (Repeat(body, Times(number), mark, None, reader.span(start)),)
