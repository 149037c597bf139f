"""Whether a line begins a fabric of its own, or on an edge that is only named."""

from stitchproof.language.tree import (
    Chain,
    Either,
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
)


def on_named_edge(steps: Steps) -> bool:
    """Whether a row begins on an edge that is only named: "join yarn at underarm"."""
    rejoin = next((s for s in steps if isinstance(s, JoinYarn)), None)
    return rejoin is not None and bool(rejoin.of) and rejoin.at is None


def joins_yarn(steps: Steps) -> bool:
    """Whether a row begins with yarn joined, wherever that is."""
    return any(isinstance(step, JoinYarn) for step in steps)


def begins_afresh(steps: Steps) -> bool:
    """Whether a line begins a fabric of its own where the yarn was cut before."""
    return founds(steps) and not any(isinstance(step, JoinYarn) for step in steps)


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
            case Chain():
                return _chainfounds(steps[i + 1 :])
            case Make():
                return step.stitch.kind in ("fsc", "fhdc", "fdc") or _into_ring(step)
            case Either(readings):
                return founds((*readings[0], *steps[i + 1 :]))
            case Group() | Repeat():
                return _into_chain(step)
            case Skip() | JoinYarn():
                return False
            case _:
                pass
    return False


def _chainfounds(rest: Steps) -> bool:
    for step in rest:
        if isinstance(step, Make | Repeat | Group | Skip):
            return _into_chain(step)
        if isinstance(step, Either):
            return _chainfounds(step.readings[0])
    return True


def _into_chain(step: Step) -> bool:
    match step:
        case Make(at=On(row=None)):
            return True  # into another piece, beside chains made now
        case Make(at=at):
            return _into_ring(step) or _names_chain(at)
        case Group(at=at):
            return isinstance(at, Ring) or _names_chain(at)
        case Repeat(body):
            return bool(body) and _into_chain(body[0])
        case Skip():
            return _names_chain(step.at)
        case _:
            return False


def _names_chain(at: object) -> bool:
    noun = getattr(at, "noun", None)
    return noun is not None and noun.thing.value in ("ch", "ring")


def _into_ring(step: Make) -> bool:
    return isinstance(step.at, Ring)
