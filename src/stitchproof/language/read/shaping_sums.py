"""What the phases of a schedule come to where the first shaping row is told apart."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.row_schedules import Phase

Phases: TypeAlias = tuple[tuple[Number, Number | None], ...]


def phases_of(phases: Sequence[Phase], *, more: bool) -> Phases:
    """Give the phases; `more`: "next and every 4th row 3 times" has the next row besides."""
    made: list[tuple[Number, Number | None]] = []
    for phase in phases:
        if phase.first is None:
            made.append((phase.every, phase.times))
        elif phase.times is None or (more and not phase.total):
            made += [(phase.first, ONE), (phase.every, phase.times)]
        else:
            made += _with_the_first(phase.first, phase.every, phase.times)
    return tuple(made)


def _with_the_first(
    first: Number, every: Number, times: Number
) -> list[tuple[Number, Number | None]]:
    """Take the first time out of all: 3 times are once and twice more."""
    values = times.value
    if not isinstance(values, tuple) or any(v is None or v < 1 for v in values):
        return [(every, times)]
    left = tuple(v - 1 for v in values if v is not None)
    rest = replace(times, value=left, spelling=" ".join(str(v) for v in left))
    return [(first, ONE), (every, rest)] if any(left) else [(first, ONE)]
