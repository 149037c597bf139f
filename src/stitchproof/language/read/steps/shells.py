"""Shells that no brackets hold: "3 dc, ch 2, 3 dc in next corner" all goes into the corner."""

from collections.abc import Sequence
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number
from stitchproof.language.read.steps.doubt import open_reading
from stitchproof.language.read.steps.reader import Frame
from stitchproof.language.tree import (
    STITCH,
    Chain,
    Each,
    Group,
    Make,
    Next,
    Noun,
    Repeat,
    Same,
    Step,
    Steps,
    Target,
    Thing,
)

_SPACES: Final = frozenset((Thing.SPACE, Thing.CHAIN_SPACE, Thing.MARKED))
_WHY: Final = "stitches and chains before a space may all go into it, or only the last"
_NAMES: Final = ("all in the space", "the last in the space")


def settle_shells(frame: Frame) -> None:
    """Put legs of one kind with chains between them into the space that the last one names.

    "2 dc, ch 2, 2 dc in corner" is a shell; of single stitches, "sc, ch 2, sc in corner", the
    counts have to decide.
    """
    frame.steps[:] = _with_shells(frame.steps)


def _with_shells(steps: Sequence[Step]) -> list[Step]:
    found: list[Step] = []
    i = 0
    while i < len(steps):
        step = steps[i]
        end = _shell_end(steps, i)
        if end:
            found += _shell(tuple(steps[i:end]))
        elif isinstance(step, Repeat):
            body = tuple(_with_shells(step.body))
            found.append(step if body == step.body else replace(step, body=body))
        else:
            found.append(step)
        i = end or i + 1
    return found


def _shell_end(steps: Sequence[Step], first: int) -> int:
    """Find where the shell that begins here ends, or 0: legs of one size, chains between them."""
    leg = _leg(steps[first])
    if leg is None:
        return 0
    at = first
    while at + 2 < len(steps) and isinstance(steps[at + 1], Chain):
        at += 2
        last = steps[at]
        if not isinstance(last, Make) or not _alike(leg, last):
            return 0
        if _holds(last.at):
            after_chain = first > 0 and isinstance(steps[first - 1], Chain)
            return at + 1 if _as_many(_made(leg), _made(last), after_chain=after_chain) else 0
        if _leg(last) is None:
            return 0
    return 0


def _leg(step: Step) -> Make | None:
    """Give a step that makes stitches and names no place."""
    if not isinstance(step, Make) or not isinstance(step.at, Next) or step.at.noun != STITCH:
        return None
    return step if ONE in {step.each, step.at.number} else None


def _alike(one: Make, other: Make) -> bool:
    return one.stitch == other.stitch and one.stitch.together == 1


def _made(step: Make) -> Number:
    return step.at.number if step.each == ONE and isinstance(step.at, Next) else step.each


def _as_many(one: Number, last: Number, *, after_chain: bool) -> bool:
    """Tell whether the legs are as large; one that a chain stands before may lack a stitch."""
    if one == last:
        return True
    few, many = one.value, last.value
    if not after_chain or not isinstance(few, tuple) or not isinstance(many, tuple):
        return False
    return all(a is not None and a + 1 == b for a, b in zip(few, many, strict=False))


def _holds(at: Target) -> bool:
    noun: Noun | None = at.noun if isinstance(at, Next | Same | Each) else None
    one = not isinstance(at, Next) or at.number == ONE
    return one and noun is not None and noun.thing in _SPACES


def _shell(steps: Steps) -> Steps:
    last = steps[-1]
    assert isinstance(last, Make)
    body = tuple(
        replace(step, each=_made(step), at=Same()) if isinstance(step, Make) else step
        for step in (*steps[:-1], replace(last, at=Next()))
    )
    place = steps[0].place.to(last.place)
    whole = (Group(body, last.at, "", place),)
    return whole if last.each != ONE else open_reading((whole, steps), _WHY, _NAMES, place)
