"""Stitches that name no place, put into one place: a ring, or "all in next st" behind them."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.places import IN, read_in
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.tree import (
    SPACE,
    STITCH,
    Chain,
    Colour,
    Either,
    Group,
    MagicRing,
    Make,
    Next,
    Remark,
    Repeat,
    Ring,
    Same,
    Step,
    Steps,
    Target,
)

_FIRST_STEPS: Final = 4
FOUNDATIONS: Final = frozenset(("fsc", "fhdc", "fdc"))


def forget_chain(frame: Frame) -> None:
    """Keep "ch 2" before foundation stitches as a remark: the first of them is worked in it."""
    if all(isinstance(step, Chain | Remark) for step in frame.steps):
        frame.steps[:] = [
            Remark(f"ch {step.count.spelling}", step.place) if isinstance(step, Chain) else step
            for step in frame.steps
        ]


def into_ring(steps: Steps, frame: Frame, reader: Reader) -> Steps:
    """Put stitches without a place into the ring that the line began with, or works in."""
    if reader.ring:
        return tuple(into(step, Ring()) for step in steps)
    ringed = any(isinstance(step, MagicRing) for step in frame.steps[:_FIRST_STEPS])
    step = steps[0]
    if not ringed or len(steps) != 1 or not isinstance(step, Make):
        return steps
    if not isinstance(step.at, Next) or not _in_ring(frame.steps):
        return steps
    each = step.at.number if step.each == ONE else step.each
    return (replace(step, each=each, at=Ring()),)


def reach_back(frame: Frame, at: Target) -> None:
    """Put the steps before the cursor that name no place where the last one goes: the ring."""
    frame.steps[frame.run :] = [into(step, at) for step in frame.steps[frame.run :]]


def bound_with(frame: Frame, steps: Steps) -> Steps:
    """Read "2 dc + 2 ch + 2 dc in ch-2 sp": all that a "+" binds goes into the one place."""
    body, last = frame.steps[frame.plus :], steps[0]
    bare = all(
        isinstance(step, Chain)
        or (isinstance(step, Make) and isinstance(step.at, Next) and step.at.noun == STITCH)
        for step in body
    )
    if len(steps) != 1 or not isinstance(last, Make) or not body or not bare:
        return steps
    del frame.steps[frame.plus :]
    inside = tuple(into(step, Same()) for step in (*body, replace(last, at=Next())))
    return (Group(inside, last.at, "", body[0].place.to(last.place)),)


def into(step: Step, at: Target) -> Step:
    """Put a step that names no place into one place."""
    match step:
        case Make(at=Next(number, noun)) if noun == STITCH and ONE in {number, step.each}:
            return replace(step, each=number if step.each == ONE else step.each, at=at)
        case Repeat():
            return replace(step, body=tuple(into(inner, at) for inner in step.body))
        case Either():
            return into(step.readings[0][0], at) if len(step.readings[0]) == 1 else step
        case _:
            return step


def read_all_in(reader: Reader, frame: Frame) -> Steps | None:
    """Read "2 dc, ch 1, 2 dc all in next st", "..., all in ring": the place of all before it."""
    start = reader.at
    reader.take()
    if not reader.accept_any(IN):
        return _all_the_way(reader, frame, start)
    place = read_in(reader)
    first = frame.run
    if place is None or first >= len(frame.steps):
        return None
    body = frame.steps[first:]
    if place.at == Ring():
        frame.steps[first:] = [into(step, place.at) for step in body]
        frame.run = len(frame.steps)
        return ()
    if isinstance(body[0], Chain) and first == 0:
        first, body = 1, body[1:]
    if not any(isinstance(step, Make | Repeat) for step in body):
        return None
    del frame.steps[first:]
    inside = tuple(into(step, Same()) for step in body)
    span = body[0].place.to(reader.span(start))
    match inside:
        case (Make() as alone,):
            return (replace(alone, at=place.at, place=span),)
        case _:
            return (Group(inside, place.at, "", span),)


def _in_ring(steps: list[Step]) -> bool:
    """Tell whether the last stitch went into the ring, or none was made yet."""
    for step in reversed(steps):
        if not isinstance(step, Chain | Remark | Colour):
            return isinstance(step, MagicRing) or (isinstance(step, Make) and step.at == Ring())
    return False


def into_loop(step: Step) -> Step:
    """Let "sl st into loop" go to the next loop of chains: nobody slips into a magic ring."""
    ring = isinstance(step, Make) and step.at == Ring()
    return replace(step, at=Next(ONE, SPACE)) if isinstance(step, Make) and ring else step


def _all_the_way(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Keep "all the way round" behind "1 dc in each ch-1 sp," as a remark: each goes as far."""
    if not frame.steps or not reader.accept("the", "way"):
        return None
    if not reader.accept_any(word_set("round around across along")):
        return None
    return (Remark(reader.words(start), reader.span(start)),)


def pass_end(reader: Reader) -> None:
    """Go past "at the far end", "at end of row" behind foundation stitches."""
    ahead = 1
    while reader.text(ahead) in _WHICH_END:
        ahead += 1
    if reader.text() == "at" and reader.text(ahead) in {"end", "side"}:
        reader.take(ahead + 1)
        behind = 2 if reader.text(1) in {"the", "this"} else 1
        reader.take(behind + 1 if reader.text() == "of" and reader.text(behind) in _ROWS else 0)


_WHICH_END: Final = word_set("the far other this same opposite that")
_ROWS: Final = word_set("row rnd round")
