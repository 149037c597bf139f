"""Rows that go from marker to marker, where nobody told in which stitches the markers are.

"Dc in each st to marker, 2 dc in next st, dc in each st to end" makes one stitch more wherever the
marker is. Such a row is worked with its markers put in here and there; where that comes to one
count, it is the count of the row, and nothing else of its edge is known.
"""

from collections.abc import Callable
from typing import Final

from stitchproof.base.records import replace
from stitchproof.fabric.edge import COUNTED, Edge, base_kind, supposed
from stitchproof.fabric.over_rows import ValueOf
from stitchproof.fabric.trouble import Unknown
from stitchproof.fabric.work import Made
from stitchproof.language.tree import (
    AsLong,
    Each,
    Group,
    Make,
    Marked,
    Repeat,
    Skip,
    Step,
    Steps,
    Times,
    ToMarked,
)

Work = Callable[[Edge], Made]
_APART: Final = 3  # stitches between two markers, at least
_SHIFTS: Final = (0, 1, -1)  # where else each marker is tried


def marked_anyhow(steps: Steps, edge: Edge, value_of: ValueOf, work: Work) -> Made | None:
    """Give what a row makes wherever its markers are; None where that is not one count.

    Parameters
    ----------
    steps : Steps
        What is worked.
    edge : Edge
        What it is worked on, with its own markers or without.
    value_of : callable
        Gives a number in this size.
    work : callable
        Works the steps on an edge.
    """
    try:
        many = sum(_markers(step, value_of) for step in steps)
    except Unknown:
        return None
    if "C" in edge.roles:
        return None  # the markers may be in chain spaces
    live = [i for i, role in enumerate(edge.roles) if role in COUNTED]
    if not many > 0 or len(live) < _APART * (many + 1):
        return None
    tried = [work(_marked(edge, live, many, shift)) for shift in _SHIFTS]
    counts = {made.edge.count if made.edge is not None else None for made in tried}
    made = tried[0]
    if len(counts) > 1 or made.edge is None or any(one.troubles for one in tried):
        return None
    if made.rest is not None or made.moved or made.rows > 1:
        return None  # which stitches it leaves hangs on where the markers are
    kind = base_kind(max(made.edge.made.items(), key=lambda item: (item[1], item[0]))[0])
    return replace(made, edge=supposed(made.edge.count, kind, ring=made.edge.ring))


def _marked(edge: Edge, live: list[int], many: int, shift: int) -> Edge:
    """Put so many markers into an edge, evenly but for a shift."""
    apart = len(live) / (many + 1)
    places = (live[round(apart * (i + 1)) + shift] for i in range(many))
    return replace(edge, marks=tuple(("", at) for at in places))


def _markers(step: Step, value_of: ValueOf) -> int:
    """Count the markers that a step goes to.

    Raises
    ------
    Unknown
        Where that is not told: "rep from * around".
    """
    match step:
        case Make(at=Each(until=ToMarked())) | Skip(at=Each(until=ToMarked())):
            return 1
        case Group(at=Each(until=ToMarked())):
            return 1
        case Repeat(body, Times(number, more), _, None):
            inside = sum(_markers(one, value_of) for one in body)
            return inside * ((value_of(number) or 0) + more) if inside else 0
        case Repeat(body, AsLong(until)):
            if any(_markers(one, value_of) or _is_marked(one) for one in body):
                raise Unknown
            return int(isinstance(until, ToMarked))
        case _:
            return 0


def _is_marked(step: Step) -> bool:
    return isinstance(step, Make | Group | Skip) and isinstance(step.at, Marked)
