"""Stitches that a short row left: "sc in each of the 6 unworked sts" behind others."""

from stitchproof.base.records import replace
from stitchproof.language.read.steps.made import Found
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.tree import (
    Either,
    Group,
    Make,
    Next,
    On,
    Step,
)


def of_short_row(reader: Reader, frame: Frame, found: Found, start: int) -> Found:
    """Read "sc in each of the 6 unworked sts" behind others: those a short row left."""
    at = found.place.at
    named = any(reader.tokens[i].text == "unworked" for i in range(start, reader.at))
    if not named or not isinstance(at, Next) or not has_made(frame):
        return found
    return replace(found, place=replace(found.place, at=On(at, piece="unworked")))


def has_made(frame: Frame) -> bool:
    """Tell whether stitches stand before the cursor."""
    return any(isinstance(step, Make | Group | Either) or _repeats(step) for step in frame.steps)


def _repeats(step: Step) -> bool:
    return type(step).__name__ == "Repeat"
