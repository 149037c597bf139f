"""A bracket that only says how often: "sc, inc (6x)"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.how_much import read_times
from stitchproof.language.read.steps.reader import OPENING, Frame, Reader
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import Steps


def times_alone(reader: Reader) -> bool:
    """Tell whether "(6x)", "(x 6)", "(6 times)" stands at the cursor, and nothing else in it."""
    if reader.text() not in OPENING or reader.partner[reader.at] != reader.at + 3:
        return False
    counted = reader.number(1) is not None and reader.text(2) in {"x", "times"}
    return counted or (reader.text(1) == "x" and reader.number(2) is not None)


def names_what_it_holds(reader: Reader) -> bool:
    """Tell whether "shell of 5 dc" stands there: a group that is told where it is made."""
    if reader.text(1) != "of" or reader.number(2) is None or reader.text() not in _GROUPS:
        return False
    return starts_stitch(reader, 3)


_GROUPS: Final = word_set("shell fan group cluster scallop petal")


def spells_it_out(reader: Reader) -> bool:
    """Tell whether "shell (5 dc) in next st" stands there: its makeup, where it is made."""
    close = reader.partner[reader.at + 1] if reader.text(1) in OPENING else -1
    if reader.text() not in _GROUPS or reader.number(2) is None or not starts_stitch(reader, 3):
        return False
    placed = [token.text for token in reader.tokens[close + 1 : close + 2]]
    return close == reader.at + 4 and placed in (["in"], ["into"])


def starred_times(reader: Reader, frame: Frame) -> bool:
    """Tell whether "* 6" closes a line that opened no repeat: "3 sc, inc, * 6"."""
    if frame.marks or reader.depth or reader.number(1) is None:
        return False
    return reader.text(2) in {"", ".", ",", ";"}


def read_times_alone(reader: Reader, frame: Frame) -> Steps | None:
    """Read "sc, inc (6x)": all since the start so often, or the last of it."""
    reader.take()
    steps = read_times(reader, frame)
    reader.take()
    return steps
