"""Loops that hold for the rest of a line: "working in back loops only", "through front loops"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import read_noun
from stitchproof.language.read.steps.places import EACH
from stitchproof.language.read.steps.reader import STOPS, Reader
from stitchproof.language.read.steps.stitches import loop_length, read_loop
from stitchproof.language.tree import Loop


def loop_for_line(reader: Reader, ahead: int) -> Loop | None:
    """Read "in the back loops only" where a stop follows: it holds for the rest of the line."""
    after = ahead + loop_length(reader, ahead)
    if reader.text(after) == "of" and reader.text(after + 1) in EACH and after > ahead:
        start = reader.at
        reader.take(ahead)
        loop = read_loop(reader)
        reader.take(2)
        read_noun(reader)
        if reader.text() in STOPS:
            return loop
        reader.at = start
        return None
    this_row = after
    while reader.text(this_row) in _THIS_ROW and after > ahead:
        this_row += 1
    if after == ahead or reader.text(this_row) not in STOPS | {"", ")"}:
        return None
    reader.take(ahead)
    loop = read_loop(reader)
    reader.take(this_row - after)
    return loop


_THIS_ROW: Final = word_set("for on this row rnd round throughout whole entire the")
