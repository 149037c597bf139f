"""Rows that tell by themselves how many places they take, on an edge that nobody knows.

After words that could not be read, or where the yarn is joined to stitches left long before, the
live edge is not known. A row in which every place has a number ("sc in each of 4 chs, sc in each
of 10 skipped sts") makes what it makes all the same: it is worked on an edge of just so many
places. Anything that goes "across", or to the last so many, needs a real edge.
"""

from collections.abc import Mapping

from stitchproof.base.records import replace
from stitchproof.fabric.edge import Edge, supposed
from stitchproof.fabric.hand import MOST_ANCHORS
from stitchproof.fabric.over_rows import ValueOf
from stitchproof.fabric.trouble import Unknown
from stitchproof.language.number import Number
from stitchproof.language.tree import (
    STITCH,
    Chain,
    Colour,
    Either,
    Facing,
    FastenOff,
    First,
    Group,
    Join,
    JoinYarn,
    Last,
    Make,
    Mark,
    Next,
    Remark,
    Repeat,
    Same,
    Skip,
    Skipped,
    Step,
    Steps,
    Target,
    Times,
    Turn,
)
from stitchproof.language.walk import settled


def on_its_own(
    steps: Steps, value_of: ValueOf, choices: Mapping[Either, int], *, ring: bool
) -> tuple[Steps, tuple[Edge, ...]] | None:
    """Give steps to be worked on an edge of their own, and the edges to try in turn.

    The second edge has a place more: for a turning chain that stands on one.

    Returns
    -------
    (steps, edges) or None
        None where some place has no number.
    """
    plain: list[Step] = []
    try:
        taken = sum(_take(step, plain, value_of) for step in settled(steps, choices))
    except Unknown:
        return None
    if not 0 < taken < MOST_ANCHORS:
        return None
    return tuple(plain), tuple(supposed(n, "st", ring=ring) for n in (taken, taken + 1))


def _take(step: Step, plain: list[Step], value_of: ValueOf) -> int:
    """Keep a step as it is worked on such an edge, and count the places it takes.

    Raises
    ------
    Unknown
        Where that has no number.
    """
    match step:
        case Make(stitch, _, at):
            plain.append(replace(step, at=_plain(at)))
            return _places(at, value_of) * stitch.together
        case Group(body, at):
            if any(not isinstance(inner, Make | Chain) for inner in body):
                raise Unknown
            plain.append(replace(step, at=_plain(at)))
            return _places(at, value_of)
        case Skip(at):
            plain.append(replace(step, at=_plain(at)))
            return _places(at, value_of)
        case Repeat(body, Times(number, more), _, None):
            inner: list[Step] = []
            each = sum(_take(one, inner, value_of) for one in body)
            plain.append(replace(step, body=tuple(inner)))
            return each * ((value_of(number) or 0) + more)
        case Mark("place" | "between", None) if any(isinstance(one, Make) for one in plain):
            plain.append(step)  # in or behind the stitch made last
            return 0
        case JoinYarn() | Mark():
            return 0  # where that is, is not known either
        case Chain() | Turn() | Join() | FastenOff() | Facing() | Colour() | Remark():
            plain.append(step)
            return 0
        case _:
            raise Unknown


def _places(at: Target, value_of: ValueOf) -> int:
    match at:
        case Same():
            return 0
        case Next(number) | First(number) | Last(number) | Skipped(number):
            return _counted(number, value_of)
        case _:
            raise Unknown


def _counted(number: Number, value_of: ValueOf) -> int:
    value = value_of(number)
    if value is None:
        raise Unknown
    return value


def _plain(at: Target) -> Target:
    """Take a place for any place: what stands there is not known."""
    match at:
        case Next(number) | First(number) | Last(number):
            return replace(at, noun=STITCH)
        case Skipped(number):
            return Next(number)
        case _:
            return at
