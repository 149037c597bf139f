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
    Times,
    ToLast,
    Turn,
)


def settle_tails(frame: Frame) -> None:
    """Let a repeat stop before what its ending takes: "ending with sc in last st"."""
    for i in frame.tails:
        step = frame.steps[i] if i < len(frame.steps) else None
        if not isinstance(step, Repeat):
            continue
        if isinstance(step.often, Times) and i in frame.last_reps and _cuts(step, 1):
            _end_otherwise(frame, i, step)
        if step.often != AsLong(End()):
            continue
        taken = _taken(frame.steps, i + 1)
        whole = step if taken is None else replace(step, often=AsLong(ToLast(taken)))
        instead = i in frame.last_reps or _ends_instead(step, frame.steps[i + 1 :])
        frame.steps[i] = whole
        if instead and _cuts(step, 1):
            _end_otherwise(frame, i, step)


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


def _end_otherwise(frame: Frame, i: int, step: Repeat) -> None:
    """Leave open whether the ending stands for the last stitches of the repeat, or behind it.

    It may stand for as many as it holds itself, or for one more.
    """
    end = i + 1
    while end < len(frame.steps) and not isinstance(frame.steps[end], Turn | Join | FastenOff):
        end += 1
    ending = tuple(frame.steps[i + 1 : end])
    made = sum(isinstance(inner, Make | Group) for inner in ending)
    cuts = _cuts(step, made + 1 if i in frame.last_reps and made > 1 else 1)
    instead = tuple((replace(step, cut=cut), *ending) for cut in cuts)
    readings = (*instead, (frame.steps[i], *ending))
    names = (*(_INSTEAD for _ in cuts), _BEHIND)
    frame.steps[i:end] = open_reading(readings, _LAST_WHY, names, step.place)


_LAST_WHY: Final = "how the last repeat ends may stand for its last stitches or behind it"
_INSTEAD: Final = "instead of its last stitches"
_BEHIND: Final = "behind the last whole repeat"


def _cuts(step: Repeat, most: int) -> tuple[int, ...]:
    """Find where the last time of a repeat may end otherwise: before its last stitches."""
    made = [i for i, inner in enumerate(step.body) if i and isinstance(inner, Make | Group)]
    return tuple(reversed(made[-most:]))


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
