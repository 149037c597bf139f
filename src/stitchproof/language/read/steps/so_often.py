"""How often, said before what is repeated: "6 x (sc, inc)"."""

from stitchproof.base.records import replace
from stitchproof.language.number import Number, NumberKind
from stitchproof.language.read.numerals import TIMES
from stitchproof.language.read.steps.brackets import read_bracket
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Frame, Reader
from stitchproof.language.tree import (
    Repeat,
    Steps,
    Times,
)


def times_behind(reader: Reader) -> Number | None:
    """Read "twice", "3 times" that ends a step: "dc2tog over next 2 sts twice"."""
    number = reader.number()
    if number is None:
        return None
    told = reader.text() in TIMES or reader.text(1) in {"times", "time"}
    length = 1 if reader.text() in TIMES else 2
    if not told or reader.text(length) not in STOPS | CLOSING | {""}:
        return None
    reader.take(length)
    return replace(number, kind=NumberKind.COUNT)


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
