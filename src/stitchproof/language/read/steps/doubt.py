"""Words that can be read in several ways, kept few enough to be settled.

Doubts within doubts multiply. Where a line would hold more than the fabric tries, the likeliest
reading is taken, which is also the one it would take if nothing decided.
"""

from typing import Final

from stitchproof.base.place import Span
from stitchproof.language.tree import Either, Group, Repeat, Steps

_MOST: Final = 5  # doubts within one doubt; each at least doubles the readings


def open_reading(
    readings: tuple[Steps, ...], why: str, names: tuple[str, ...], place: Span
) -> Steps:
    """Leave readings open, likeliest first; alike ones are one."""
    if len(readings) == 1 or _doubts(readings[0], _MOST) + _doubts(readings[-1], _MOST) >= _MOST:
        return readings[0]
    return (Either(readings, why, names, place),)


def _doubts(steps: Steps, most: int) -> int:
    """Count doubts in steps, those of every reading, up to `most`."""
    found = 0
    for step in steps:
        match step:
            case Either():
                found += 1 + sum(_doubts(reading, most) for reading in step.readings)
            case Repeat() | Group():
                found += _doubts(step.body, most)
            case _:
                pass
        if found >= most:
            return most
    return found


_WHY_BARE: Final = "a number before a stitch may mean one in each place, or all in one place"
_NAMES_BARE: Final = ("one in each", "all in one place")


def open_bare_counts(apart: Steps, together: Steps) -> Steps:
    """Leave open whether bare counts go into one place, over the stretch where it matters."""
    if len(apart) != len(together):
        return apart
    unlike = [i for i, (one, other) in enumerate(zip(apart, together, strict=True)) if one != other]
    if not unlike:
        return apart
    first, last = unlike[0], unlike[-1] + 1
    place = apart[first].place.to(apart[last - 1].place)
    doubt = open_reading((apart[first:last], together[first:last]), _WHY_BARE, _NAMES_BARE, place)
    return (*apart[:first], *doubt, *apart[last:])
