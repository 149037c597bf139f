"""A schedule laid over the rows of a label: `Rows 6-25: Inc 1 st every 4th row 5 times`."""

from collections.abc import Callable, Sequence
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.tree import Either, Label, RepeatRows, Shape, Steps

ValueOf = Callable[[Number], int | None]
MOST_ROWS: Final = 20_000
EVEN: Final[Steps] = (Shape("increased", plain(0), ((ONE, ONE),)),)


def is_scheduled(steps: Steps) -> bool:
    """Tell whether steps shape over many rows at once."""
    shapes = [step for step in steps if isinstance(step, Shape)]
    for step in steps:
        if isinstance(step, Either):
            shapes += [one for way in step.readings for one in way if isinstance(one, Shape)]
    return any(every != ONE or times != ONE for one in shapes for every, times in one.phases)


def over_rows(does: Steps, many: int, value_of: ValueOf) -> tuple[Steps, int, int]:
    """Lay the schedules of a line over so many rows.

    Parameters
    ----------
    does : Steps
        What the line says.
    many : int
        Rows that its label covers.
    value_of : callable
        Gives a number in one size.

    Returns
    -------
    steps, told, least
        What is done over all the rows; how many rows the words come to, and how few they can be
        laid over.
    """
    timed = tuple(
        _timed(step, many, value_of) if isinstance(step, Shape) else step for step in does
    )
    told, least = _extent([step for step in timed if isinstance(step, Shape)], value_of)
    return timed, told, least


def _timed(step: Shape, rows: int, value_of: ValueOf) -> Shape:
    """Say how often a schedule fits into so many rows, where it does not say that itself."""
    every, times = step.phases[-1] if step.phases else (ONE, ONE)
    if times is not None or step.until is not None:
        return step
    done = sum(
        (value_of(e) or 0) * (value_of(t) or 0) for e, t in step.phases[:-1] if t is not None
    )
    fits = max(rows - done, 0) // max(value_of(every) or 1, 1)
    return replace(step, phases=(*step.phases[:-1], (every, plain(fits))))


def _extent(shapes: Sequence[Shape], value_of: ValueOf) -> tuple[int, int]:
    """Count the rows schedules take, one after another or side by side, and the fewest they can.

    The first shaping row may be the first of all, however many are between them.
    """
    start = end = 0
    firsts: list[int] = []
    for step in shapes:
        start = start if step.beside else end
        at = start
        for every, times in step.phases:
            apart = value_of(every) or 0
            often = (value_of(times) or 0) if times is not None else 0
            firsts += [at + apart] if often else []
            at += apart * often
        end = max(end, at)
    return end, end - max(min(firsts, default=1) - 1, 0)


def turn_begun(does: RepeatRows, value_of: ValueOf) -> int:
    """Give how many rows of one turn more are worked: "then Rows 2 and 3 once more"."""
    if does.then_to is None:
        return 0
    last = value_of(does.then_to) or 0
    if does.listed:
        rows = [value_of(number) for number in does.listed]
        return rows.index(last) + 1 if last in rows else 0
    return max(last - ((value_of(does.first) or 0) if does.first is not None else last) + 1, 0)


def label_numbers(label: Label, value_of: ValueOf) -> Sequence[int] | None:
    """Give the row numbers of a label; zeros for rows without one; None: not in this size."""
    if label.listed:
        values = [value_of(n) for n in label.listed]
        return [v for v in values if v is not None] or None
    if label.span is not None:
        span = value_of(label.span)
        return [0] * min(span, MOST_ROWS + 1) if span else None
    if label.first is None:
        return []
    first = value_of(label.first)
    last = value_of(label.last) if label.last is not None else first
    if first is None or last is None or last < first:
        return None
    return range(first, last + 1)
