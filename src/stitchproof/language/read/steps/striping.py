"""How many rows each colour goes over."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.colours import is_yarn
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Frame, Reader
from stitchproof.language.tree import Remark, Steps


def rows_of_each(reader: Reader) -> bool:
    """Tell whether "2 rows with each colour" stands behind "working"."""
    counted = reader.number() is not None and reader.text(1) in {"rows", "rnds", "rounds", "row"}
    return counted and (
        bool({reader.text(i) for i in range(2, 6)} & _COLOURED) or rows_of_yarn(reader) > 0
    )


def read_stripe(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "2 rows A" behind what the rows are as a remark: it changes nothing that is counted."""
    length, start = rows_of_yarn(reader) if frame.steps else 0, reader.at
    if not length:
        return None
    reader.take(length)
    return (Remark(reader.words(start), reader.span(start)),)


def rows_of_yarn(reader: Reader) -> int:
    """Count the tokens of "2 rows A", "2 rows in B": a stripe; 0 where none stands there."""
    if reader.number() is None or reader.text(1) not in {"rows", "rnds", "rounds", "row", "rnd"}:
        return 0
    ahead = 3 if reader.text(2) in {"in", "of", "with"} else 2
    token = reader.token(ahead)
    if token is None or not is_yarn(token) or not token.written.isupper():
        return 0
    return ahead + 1 if reader.text(ahead + 1) in STOPS | CLOSING | {"", "and"} else 0


_COLOURED: Final = word_set("color colour colors colours stripe yarn shade")
