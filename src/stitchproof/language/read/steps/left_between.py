"""Stitches left in the middle of a row: "leave next 24 sts unworked for sleeve, hdc in next 36"."""

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number
from stitchproof.language.read.steps.reader import Frame
from stitchproof.language.tree import (
    AsLong,
    Chain,
    Each,
    Facing,
    Group,
    JoinYarn,
    Last,
    Leave,
    Make,
    Mark,
    Next,
    On,
    Remark,
    Repeat,
    Skip,
    Step,
    Thing,
    To,
    ToMarked,
)

_BETWEEN = (Chain, Mark, Remark)


def settle_left(frame: Frame) -> None:
    """Take a number of stitches left, behind which the row goes on, for stitches passed over."""
    steps = frame.steps
    for i, step in enumerate(steps):
        if not isinstance(step, Leave) or step.number is None or step.noun.thing is Thing.GROUP:
            continue
        behind = next((s for s in steps[i + 1 :] if not isinstance(s, _BETWEEN)), None)
        if behind is not None and _goes_on(behind):
            steps[i] = Skip(Next(step.number, step.noun), step.place)


def _goes_on(step: Step) -> bool:
    """Tell whether a step works on along the same row."""
    if isinstance(step, Repeat):
        return bool(step.body) and _goes_on(step.body[0])
    at = step.at if isinstance(step, Make | Group | Skip) else None
    if isinstance(at, On):
        return at.row is None and "lining" in at.piece.lower().split()  # in place of those left
    return isinstance(at, Next | Each | Last) and (not isinstance(at, Last) or at.number != ONE)


def settle_rejoined(frame: Frame) -> None:
    """Let "skip 20 sts for neck, rejoin yarn to next st of Row 36" join behind what was skipped."""
    skipped = False
    for i, step in enumerate(frame.steps):
        at = step.at if isinstance(step, JoinYarn) and skipped else None
        if isinstance(at, On) and at.at == Next():
            frame.steps[i] = replace(step, at=Next())
        skipped = isinstance(step, Skip) or (skipped and isinstance(step, Facing | Remark))


def settle_last_before(frame: Frame) -> None:
    """Take "sk last st" behind "to last st before ch-2 sp" for the one before that space."""
    steps = frame.steps
    for i, step in enumerate(steps):
        at = step.at if isinstance(step, Skip | Make) else None
        if not isinstance(at, Last) or at.noun.thing not in {Thing.STITCH, Thing.KIND}:
            continue
        before = next((s for s in reversed(steps[:i]) if not isinstance(s, _BETWEEN)), None)
        if _stops_before(before, at.number):
            assert isinstance(step, Skip | Make)
            steps[i] = replace(step, at=Next(at.number, at.noun))


def _stops_before(step: Step | None, number: Number) -> bool:
    """Tell whether a run ends so many stitches before a place further on."""
    match step:
        case Repeat(often=AsLong(To(before=before))) | Make(at=Each(until=To(before=before))):
            return before == number
        case Repeat(often=AsLong(ToMarked(before=before))):
            return before == number
        case Make(at=Each(until=ToMarked(before=before))):
            return before == number
        case _:
            return False
