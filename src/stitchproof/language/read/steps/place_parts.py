"""Parts of a place that change nothing: "across" behind a count."""

from typing import Final

from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.parts import part_length
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader
from stitchproof.language.read.steps.sides import along_foundation
from stitchproof.language.tree import (
    Next,
    Target,
)

_ROWS: Final = word_set("row rows rnd rnds round rounds")


def spread(reader: Reader, target: Next) -> Target:
    """Go past "across" behind a count of places, which says nothing more; tell the other side."""
    below = along_foundation(reader, target)
    if below is not None:
        return below
    if reader.text() in {"across", "around"}:
        follows = reader.text(1)
        if not follows or follows in STOPS or follows in CLOSING or follows in _ROWS:
            reader.take()
            reader.accept_any(_ROWS)
        else:
            reader.take(1 + length if (length := part_length(reader, 1)) else 0)
    elif reader.text() == "to" and target.number != ONE and _to_space(reader):
        read_until(reader)  # "dc in next 21 dc to first ch-1 sp": the number says how far
    return target


def _to_space(reader: Reader) -> bool:
    """Tell whether "to first ch-1 sp", "to next marker" stands there."""
    far = {reader.text(i) for i in range(2, 7)}
    return (
        reader.text(1) in {"first", "next", "last"} and bool(far & _PLACES) and starts_until(reader)
    )


_PLACES: Final = word_set("sp space marker")


def accept_across(reader: Reader) -> bool:
    """Go past "across", "around" where the step ends with it."""
    closes = not reader.text(1) or reader.text(1) in STOPS
    return closes and bool(reader.accept_any(_EXTENTS))


_EXTENTS: Final = word_set("across around")
