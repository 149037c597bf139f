"""Sizes in which a line comes to the same: it is worked in one of them, and taken for the others.

What a line comes to in a size depends on where the work stands there and on what its numbers come
to. A garment has many lines in which both are the same in several sizes: a cuff, a border, a sleeve
that grows with every other size.
"""

from collections.abc import Callable, Hashable
from typing import NamedTuple

from stitchproof.fabric.meter import Meter, Metered
from stitchproof.fabric.state import Bench, Outcome, Progress
from stitchproof.language.number import Number, Resolved, Value
from stitchproof.language.tree import Course, RepeatRows, Stated


class _Worked(NamedTuple):
    """What a line came to, and what working it took."""

    outcome: Outcome
    metered: tuple[Metered, ...]
    most: int


class EqualSizes:
    """One line, with one choice of its readings, in the sizes in which it was worked."""

    def __init__(self, course: Course, bench: Bench) -> None:
        self._meter: Meter = bench.memory.meter
        self._resolved: Resolved = bench.resolved
        self._values: list[tuple[Value, ...]] | None = _values(course, bench)  # (W,)
        self._worked: dict[Hashable, _Worked] = {}

    def outcome(self, here: Progress, size: int, work: Callable[[], Outcome]) -> Outcome:
        """Give what the line comes to in a size; `work` it unless an equal size is known."""
        decides = self._decides(here, size)
        if decides is None:
            return work()
        meter = self._meter
        known = self._worked.get(decides)
        if known is not None and meter.allows(known.most):
            meter.repeat(known.metered, known.most)
            return known.outcome
        noted, most = len(meter.log), meter.most
        found = work()
        if meter.stopped is None:
            worked = _Worked(found, tuple(meter.log[noted:]), meter.most - most)
            self._worked[decides] = worked
        return found

    def _decides(self, here: Progress, size: int) -> Hashable | None:
        """Give all that decides what the line comes to in a size; None: that is not known."""
        if self._values is None or here.wrong or self._meter.stopped is not None:
            return None
        ahead: list[Value] = []
        for track in here.tracks:
            if track.ahead is not None:
                try:
                    ahead.append(self._resolved.in_size(track.ahead.count, size))
                except LookupError:
                    return None
        return here.tracks, self._values[size], tuple(ahead)


def _values(course: Course, bench: Bench) -> list[tuple[Value, ...]] | None:
    """Give what the numbers of a line come to in each size; None where more decides it."""
    if isinstance(course.does, RepeatRows) or course.only or len(bench.resolved.chosen) == 1:
        return None
    facts = bench.memory.facts(course.does)
    if facts.along or facts.elsewhere:
        return None
    label = course.label
    named = (label.first, label.last, label.span, *label.listed)
    numbers = (*facts.numbers, *(n for n in named if n is not None), *_stated(course.stated))
    values = [bench.resolved.of(number) for number in numbers]
    known = [one for one in values if one is not None]
    if len(known) < len(values):
        return None
    return list(zip(*known, strict=True)) or [()] * len(bench.resolved.chosen)


def _stated(stated: Stated | None) -> list[Number]:
    if stated is None:
        return []
    return [one.number for row in (stated.statements, *stated.rowwise) for one in row]
