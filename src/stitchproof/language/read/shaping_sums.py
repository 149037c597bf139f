"""What the phases of a schedule come to where the first shaping row is told apart."""

from collections.abc import Sequence
from typing import TypeAlias

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number, plain
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


def with_rows(phases: Sequence[Phase], named: Sequence[Phase]) -> list[Phase]:
    """Add rows that are told by their numbers: behind "every 2nd row" they say which it means.

    `named` counts from the first row of the line, whatever was done before.
    """
    before = list(phases)
    if before and before[-1].times is None:
        before.pop()
    done = sum(_rows_of(phase) for phase in before)
    first = named[0]
    gap = _value(first.every) - done
    if not done or gap == _value(first.every):
        return [*before, *named]
    once = replace(first, every=plain(gap), times=ONE)
    more = _value(first.times) - 1 if first.times is not None else 0
    rest = [replace(first, times=plain(more))] if more else []
    return [*before, once, *rest, *named[1:]]


def last_so_often(
    phases: Sequence[Phase], rows: Number, before: Sequence[Phase] = ()
) -> list[Phase]:
    """Let the last phase go on until so many rows are shaped, those `before` it among them."""
    made = list(phases)
    if not made or made[-1].times is not None:
        return made
    done = [phase.times for phase in (*before, *made[:-1])]
    earlier = [_value(times) for times in done if times is not None]
    values = rows.value
    if len(earlier) < len(done) or not isinstance(values, tuple) or None in values:
        return made
    left = tuple(value - sum(earlier) for value in values if value is not None)
    if min(left) < 1:
        return made
    times = replace(rows, value=left, spelling=" ".join(str(value) for value in left))
    made[-1] = replace(made[-1], times=times, total=True, told=True)
    return made


def _rows_of(phase: Phase) -> int:
    return _value(phase.every) * (_value(phase.times) if phase.times is not None else 0)


def _value(number: Number) -> int:
    value = number.value[0] if isinstance(number.value, tuple) else None
    return value if isinstance(value, int) else 0


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
