"""Seams and markers as places."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import STITCHES, pass_marked
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.steps.spaces_ahead import SPACES
from stitchproof.language.tree import (
    Marked,
    SeamPlace,
)

_WHICH_SEAMS: Final = word_set("shoulder side other next first second underarm raglan")


def seam(reader: Reader) -> SeamPlace | None:
    """Read "seam", "shoulder seam"."""
    if reader.accept("seam"):
        return SeamPlace("")
    if reader.text() in _WHICH_SEAMS and reader.text(1) == "seam":
        which = reader.text()
        reader.take(2)
        return SeamPlace(which)
    return None


def marked(reader: Reader) -> Marked | None:
    """Read "marker", "marked st"."""
    if reader.accept("marker"):
        return Marked()
    if reader.text(1) in STITCHES | SPACES:
        reader.take(2)
        return Marked()
    return Marked() if pass_marked(reader) else None
