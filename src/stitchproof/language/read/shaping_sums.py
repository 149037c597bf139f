"""What schedules of shaping come to: stitches of one row, phases, several schedules in one.

A line may shape two edges by schedules of their own. The tree holds one schedule a line; the
others are brought to the stitches of the smallest, so that the sum is exact.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import gcd
from typing import TypeAlias

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.row_schedules import Phase
from stitchproof.language.tree import Shape, Step, Steps

Phases: TypeAlias = tuple[tuple[Number, Number], ...]


def times_over(number: Number, over: int) -> Number | None:
    """Multiply a number; None for one between braces."""
    if over == 1:
        return number
    if not isinstance(number.value, tuple):
        return None
    values = tuple(None if v is None else v * over for v in number.value)
    spelled = [("-" if v is None else str(v)) for v in values]
    words = f"{spelled[0]} ({', '.join(spelled[1:])})" if len(values) > 1 else spelled[0]
    return Number(value=values, spelling=words, place=number.place)


def in_one_row(each: Number, ends: int) -> tuple[Number, int]:
    """Give the stitches of one shaping row, and how many such rows one event stands for."""
    whole = times_over(each, ends)
    return (each, ends) if whole is None else (whole, 1)


def phases_of(phases: Sequence[Phase], over: int, *, more: bool) -> Phases | None:
    """Give the phases; `more`: "next and every 4th row 3 times" has the next row besides."""
    made: list[tuple[Number, Number]] = []
    for phase in phases:
        times = phase.times or ONE
        if phase.first is None:
            made.append((phase.every, times))
        elif more and not phase.total:
            made += [(phase.first, ONE), (phase.every, times)]
        else:
            made += _with_the_first(phase.first, phase.every, times)
    scaled = [(every, times_over(times, over)) for every, times in made]
    whole = [(every, times) for every, times in scaled if times is not None]
    return tuple(whole) if len(whole) == len(made) else None


def _with_the_first(first: Number, every: Number, times: Number) -> list[tuple[Number, Number]]:
    """Take the first time out of all: 3 times are once and twice more."""
    values = times.value
    if not isinstance(values, tuple) or any(v is None or v < 1 for v in values):
        return [(every, times)]
    left = tuple(v - 1 for v in values if v is not None)
    rest = replace(times, value=left, spelling=" ".join(str(v) for v in left))
    return [(first, ONE), (every, rest)] if any(left) else [(first, ONE)]


def in_one(steps: Steps) -> Steps | None:
    """Bring the schedules of a line together; None where that cannot be done."""
    shapes = [step for step in steps if isinstance(step, Shape)]
    if len(shapes) < 2:  # noqa: PLR2004 - nothing to bring together
        return steps
    sizes = [_plain(shape.stitches) for shape in shapes]
    whole = [size for size in sizes if size]
    same = len({shape.change for shape in shapes}) == 1
    if not same or len(whole) != len(sizes) or any(shape.until for shape in shapes[:-1]):
        return None
    unit = gcd(*whole)
    phases: list[tuple[Number, Number]] = []
    for shape, size in zip(shapes, whole, strict=True):
        for every, times in shape.phases:
            scaled = times_over(times, size // unit)
            if scaled is None:
                return None
            phases.append((every, scaled))
    smallest = next(s.stitches for s in shapes if _plain(s.stitches) == min(whole))
    stitches = smallest if min(whole) == unit else Number(value=(unit,), spelling=str(unit))
    place = shapes[0].place.to(shapes[-1].place)
    until = shapes[-1].until
    kept = tuple(phases) if not until else ()
    one = Shape(shapes[0].change, stitches, kept, until, partly=True, place=place)
    rest: list[Step] = [step for step in steps if not isinstance(step, Shape)]
    at = next(i for i, step in enumerate(steps) if isinstance(step, Shape))
    return (*rest[:at], one, *rest[at:])


def _plain(number: Number) -> int:
    """Give a number that is one for all sizes; 0 for any other."""
    value = number.value
    one = value[0] if isinstance(value, tuple) and len(value) == 1 else None
    return one if isinstance(one, int) else 0
