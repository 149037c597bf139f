"""What begins with "with": a side, a yarn, a hook, or other work within the run before."""

from typing import Final

from stitchproof.language.read.steps.advice import read_advice
from stitchproof.language.read.steps.beginnings import FAR
from stitchproof.language.read.steps.brackets import read_bracket
from stitchproof.language.read.steps.colours import read_colour
from stitchproof.language.read.steps.facing import SIDES, faces, facing
from stitchproof.language.read.steps.last_one import last_into_chain, names_last
from stitchproof.language.read.steps.making import read_make
from stitchproof.language.read.steps.nouns import CORNER
from stitchproof.language.read.steps.places import IN
from stitchproof.language.read.steps.reader import OPENING, Frame, Reader
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import (
    Each,
    Evenly,
    First,
    Group,
    Last,
    Make,
    Next,
    Remark,
    Step,
    Steps,
)


def read_with(reader: Reader, frame: Frame) -> Steps | None:
    """Read "with RS facing", "with larger hook", "with A", "using B"."""
    start = reader.at
    reader.take()
    if reader.text() in OPENING:
        steps = read_bracket(reader, frame)
        return steps if steps and _shares(frame, steps[0]) else None
    number = reader.number()
    placed = any(reader.text(i) in IN for i in range(2, _FURTHEST_PLACE))
    if number is not None and starts_stitch(reader, 1) and placed:
        reader.take()
        steps = read_make(reader, frame, number, start)
        last = frame.steps[-1] if frame.steps else None
        if steps and isinstance(last, Make) and isinstance(last.at, Evenly):
            among = (Remark(reader.words(start), reader.span(start)),)  # of those in all
            return steps if last.at.count is None else among
        return steps if steps and _shares(frame, steps[0]) else None
    counted = int(number is not None)
    bare = starts_stitch(reader, counted) and reader.text(counted + 1) in {",", "in"}
    if bare and _run_before(frame):
        return ()  # "dc in each st around with dc, ch 2, dc in each corner sp"
    _pass_article(reader)
    if names_last(reader):
        return last_into_chain(reader, frame, start)
    if reader.text() in SIDES and faces(reader):
        return facing(reader, start)
    same_side = reader.sees("same", "side")
    turned = any(reader.text(i) == "facing" for i in range(2, FAR + 3))
    together = reader.text() in SIDES and "together" in {reader.text(i) for i in range(1, 4)}
    held = together or any(reader.text(i) == "held" for i in range(FAR))
    if held or (same_side and turned):
        reader.at = start
        return read_advice(reader, frame)
    return read_colour(reader, frame, start)


_FURTHEST_PLACE: Final = 6  # tokens: a number and the longest name of a stitch


def _run_before(frame: Frame) -> Each | None:
    """Give how far the step before goes, if it works each of what it names."""
    last = frame.steps[-1] if frame.steps else None
    at = last.at if isinstance(last, Make | Group) else None
    return at if isinstance(at, Each) else None


def _shares(frame: Frame, step: Step) -> bool:
    """Tell whether a step works places of its own within the run before it."""
    run = _run_before(frame)
    if run is None or not isinstance(step, Make | Group) or step.at == run:
        return False
    corners = isinstance(step.at, Next) and step.at.noun == CORNER  # "each of the 4 corners"
    return isinstance(step.at, Each | First | Last) or corners


def _pass_article(reader: Reader) -> None:
    """Go past "the" and "a", but not past a yarn called A."""
    token = reader.token()
    if token is not None and token.written in {"the", "a", "The"}:
        reader.take()
