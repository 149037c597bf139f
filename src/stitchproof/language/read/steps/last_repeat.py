"""How the last time of a repeat ends: "rep from * across, ending with sc in last st"."""

from collections.abc import Sequence
from itertools import islice
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.read.steps.doubt import open_reading
from stitchproof.language.read.steps.reader import Frame
from stitchproof.language.tree import (
    STITCH,
    AsLong,
    Chain,
    End,
    FastenOff,
    Group,
    Join,
    Last,
    Make,
    Next,
    Nth,
    Origin,
    Remark,
    Repeat,
    Skip,
    Step,
    Thing,
    ToLast,
    Turn,
)


def settle_tails(frame: Frame) -> None:
    """Let a repeat stop before what its ending takes: "ending with sc in last st"."""
    for i in frame.tails:
        step = frame.steps[i] if i < len(frame.steps) else None
        if not isinstance(step, Repeat) or step.often != AsLong(End()):
            continue
        taken = _taken(frame.steps, i + 1)
        whole = step if taken is None else replace(step, often=AsLong(ToLast(taken)))
        instead = i in frame.last_reps or _ends_instead(step, frame.steps[i + 1 :])
        cut = _last_made(step) if instead else 0
        frame.steps[i] = whole
        if cut:
            _end_otherwise(frame, i, replace(step, cut=cut))


def _ends_instead(step: Repeat, ending: Sequence[Step]) -> bool:
    """Tell whether the ending is the last stitch of a repeat, made elsewhere or otherwise.

    "Ending with sc in top of ch-3" tells where it goes; "ending with 3 dc in last sc", behind "5 dc
    in next sc", how many are made.
    """
    made = [s for s in ending if isinstance(s, Make | Group | Repeat | Skip)]
    last = step.body[-1] if step.body else None
    match made, last:
        case [Make(stitch, each, Last() as there)], Make(other, often, Next() as at):
            alike = (stitch, there.noun) == (other, at.noun) and each != often
            return alike and there.number == at.number == ONE
        case [Make(stitch, each, at)], Make(other, often, Next(number=number)):
            turning = isinstance(at, Next) and at.noun.thing is Thing.TURNING_CHAIN
            turning = turning or (isinstance(at, Nth) and at.origin is Origin.TURNING_CHAIN)
            return turning and (stitch, each, number) == (other, often, ONE)
        case _:
            return False


def _end_otherwise(frame: Frame, i: int, cut: Repeat) -> None:
    """Leave open whether the ending stands for the last stitches of the repeat, or behind it."""
    end = i + 1
    while end < len(frame.steps) and not isinstance(frame.steps[end], Turn | Join | FastenOff):
        end += 1
    ending = tuple(frame.steps[i + 1 : end])
    readings = ((cut, *ending), (frame.steps[i], *ending))
    frame.steps[i:end] = open_reading(readings, _LAST_WHY, _LAST_NAMES, cut.place)


_LAST_WHY: Final = "how the last repeat ends may stand for its last stitches or behind it"
_LAST_NAMES: Final = ("instead of its last stitches", "behind the last whole repeat")


def _last_made(step: Repeat) -> int:
    """Find the last stitches of a repeat, which its last time may end otherwise; 0 for none."""
    made = [i for i, inner in enumerate(step.body) if isinstance(inner, Make | Group)]
    return made[-1] if made else 0


def _taken(steps: list[Step], first: int) -> Number | None:
    """Count the places that the simple steps from `first` on take; None where it is not plain."""
    total = 0
    for step in islice(steps, first, None):
        match step:
            case Make(at=Next(number, noun) | Last(number, noun)) if noun.thing is STITCH.thing or (
                noun.thing.name == "KIND"
            ):
                count = _whole(number)
                by = step.stitch.together
            case Skip(at=Next(number, noun)) if noun.thing.name in {"STITCH", "KIND", "CHAIN"}:
                count, by = _whole(number), 1
            case Chain() | Remark():
                count, by = 0, 1
            case Turn() | Join() | FastenOff():
                break
            case _:
                return None
        if count is None:
            return None
        total += count * by
    return plain(total) if total else None


def _whole(number: Number) -> int | None:
    value = number.value
    if isinstance(value, tuple) and len(value) == 1 and isinstance(value[0], int):
        return value[0]
    return None


# --------------------------------------------------------------------------- without a mark
