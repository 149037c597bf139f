"""How many rows each colour goes over."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import Reader


def rows_of_each(reader: Reader) -> bool:
    """Tell whether "2 rows with each colour" stands behind "working"."""
    counted = reader.number() is not None and reader.text(1) in {"rows", "rnds", "rounds", "row"}
    return counted and bool({reader.text(i) for i in range(2, 6)} & _COLOURED)


_COLOURED: Final = word_set("color colour colors colours stripe yarn shade")
