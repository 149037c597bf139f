"""Whether a line begins a fabric of its own, or on an edge that is only named."""

from typing import Final

from stitchproof.language.number import NONE, Number
from stitchproof.language.tree import (
    Chain,
    Each,
    Either,
    Evenly,
    Group,
    JoinYarn,
    MagicRing,
    Make,
    Nth,
    On,
    Origin,
    Repeat,
    Ring,
    Skip,
    Step,
    Steps,
    Turn,
)

FOUNDING: Final = frozenset(("fsc", "fhdc", "fdc"))  # stitches that make their own foundation


def on_named_edge(steps: Steps) -> bool:
    """Whether a row begins on an edge that is only named: "join yarn at underarm"."""
    rejoin = next((s for s in steps if isinstance(s, JoinYarn)), None)
    return rejoin is not None and bool(rejoin.of) and rejoin.at is None


def along_named_edge(steps: Steps) -> bool:
    """Whether a row begins with so many stitches along an edge that is only named."""
    made = next((s for s in steps if isinstance(s, Make | Group | Repeat | Skip)), None)
    at = made.at if isinstance(made, Make) else None
    return isinstance(at, Evenly) and bool(at.along) and at.count is not None


def joins_yarn(steps: Steps) -> bool:
    """Whether a row begins with yarn joined, wherever that is."""
    return any(isinstance(step, JoinYarn) for step in steps)


def begins_anew(steps: Steps) -> bool:
    """Whether steps begin in a ring of their own, or along a chain of their own from the hook."""
    chained = False
    for step in steps:
        match step:
            case MagicRing() | Make(at=Ring()):
                return not chained
            case Chain():
                chained = True
            case Make(at=Nth(origin=Origin.HOOK)):
                return chained
            case Make() | Group() | Repeat() | Either() | Skip() | JoinYarn():
                return False
            case _:
                pass
    return False


def founds(steps: Steps) -> bool:
    """Whether steps begin a fabric of their own."""
    for i, step in enumerate(steps):
        match step:
            case MagicRing():
                return True
            case Chain(count) if count == NONE and _skips(steps[i + 1 :]):
                return False  # "skip 3 ch (counts as dc)": of a chain that is there
            case Chain(count):
                return _chainfounds(steps[i + 1 :], only_turns=_is_short(count))
            case Make():
                return step.stitch.kind in FOUNDING or _into_ring(step)
            case Either(readings):
                return founds((*readings[0], *steps[i + 1 :]))
            case Group() | Repeat():
                return _into_chain(step, chained=False)
            case Skip() | JoinYarn():
                return False
            case _:
                pass
    return False


def _skips(rest: Steps) -> bool:
    return bool(rest) and isinstance(rest[0], Skip)


_TURNING: Final = 4  # chains; so few before "dc in each ch" stand for a stitch


def _is_short(count: Number) -> bool:
    """Whether a chain is no longer than a turning chain in any size."""
    values = count.value if isinstance(count.value, tuple) else ()
    return bool(values) and all(v is not None and v <= _TURNING for v in values)


def _chainfounds(rest: Steps, *, only_turns: bool = False) -> bool:
    """Whether steps behind a chain go into it; `only_turns`: it is as short as a turning chain."""
    if only_turns and any(isinstance(step, Turn) for step in rest) and not _works(rest):
        return False  # "ch 1, turn", and something that is no stitch
    for step in rest:
        if isinstance(step, Make | Repeat | Group | Skip):
            return not (only_turns and _into_each(step)) and _into_chain(step)
        if isinstance(step, Either):
            return _chainfounds(step.readings[0], only_turns=only_turns)
    return True


def _works(steps: Steps) -> bool:
    return any(isinstance(step, Make | Repeat | Group | Either) for step in steps)


def _into_each(step: Step) -> bool:
    """Whether a step is worked in every chain there is."""
    return isinstance(step, Make) and isinstance(step.at, Each) and not isinstance(step.at, On)


def _into_chain(step: Step, *, chained: bool = True) -> bool:
    match step:
        case Make(at=On(row=None)):
            return True  # into another piece, beside chains made now
        case Make(at=at):
            return _into_ring(step) or (chained and _names_chain(at))
        case Group(at=at):
            return isinstance(at, Ring) or (chained and _names_chain(at))
        case Repeat(body):
            return bool(body) and _into_chain(body[0], chained=chained)
        case Skip():
            return chained and _names_chain(step.at)
        case _:
            return False


def _names_chain(at: object) -> bool:
    noun = getattr(at, "noun", None)
    return noun is not None and noun.thing.value in ("ch", "ring")


def _into_ring(step: Make) -> bool:
    return isinstance(step.at, Ring)
