"""Lines over many rows in words: on which rows a schedule shapes, how long rows go on as before."""

from collections.abc import Iterator, Sequence
from typing import Final

from stitchproof.base.diagnostics import listed
from stitchproof.base.records import dataclass
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.number import Number, Resolved
from stitchproof.language.tree import RepeatRows, Shape

_MOST_ROWS: Final = 24  # shaping rows that are named one by one


def schedule_lines(
    courses: Sequence[WorkedCourse], line: int, resolved: Resolved, index: int
) -> Iterator[str]:
    """Tell a line that shapes over many rows, or goes on as before; nothing for any other.

    Parameters
    ----------
    courses : sequence of WorkedCourse
        All lines of the manuscript.
    line : int
        Which of them.
    resolved : Resolved
        With the one size that is told.
    index : int
        Which of the sizes worked.
    """
    course = courses[line]
    does = course.course.does
    if isinstance(does, RepeatRows):
        yield from _as_before(does, course, index)
        return
    before = courses[line - 1].worked[index] if line and not course.course.label.round else None
    shapes = [step for step in does if isinstance(step, Shape)]
    plans = _plans(shapes, before, resolved)
    for i, plan in enumerate(plans):
        yield from _shaped(plan, first=not i, alone=len(plans) == 1)
    counted = [plan.count for plan in plans if plan.count is not None]
    if len(plans) > 1 and len(counted) == len(plans) and before is not None:
        total = " ".join(f"{'+' if plan.added else '−'} {plan.total}" for plan in plans)
        yield f"{before} {total} = {counted[-1]}."
        yield f"The line is {max(plan.last for plan in plans)} rows in all."


def _as_before(does: RepeatRows, course: WorkedCourse, index: int) -> Iterator[str]:
    rows = course.rows[index] if index < len(course.rows) else None
    count = course.worked[index]
    stays = "" if count is None else f"; at the end there are {count} sts"
    if rows is not None:
        noun = "row" if rows == 1 else "rows"
        yield f"{rows} {noun} more, worked as the rows before{stays}."
    elif does.until_length is not None or does.until_words:
        yield f"Rows are worked as those before until it is long enough{stays}."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """One schedule in one size, its rows counted from the beginning of the line.

    Attributes
    ----------
    step : Shape
        As it was read.
    each : int
        Stitches one shaping row changes, at all its ends together.
    rows : tuple of int or None
        The shaping rows; None where how often is not told.
    last : int
        The last row of the line so far.
    before, count : int or None
        Stitches before and after, where they are known.
    """

    step: Shape
    each: int
    rows: tuple[int, ...] | None
    last: int
    before: int | None
    count: int | None

    @property
    def added(self) -> bool:
        """Whether it adds stitches."""
        return self.step.change == "increased"

    @property
    def total(self) -> int:
        """How many stitches it changes in all."""
        return self.each * len(self.rows or ())


def _plans(shapes: list[Shape], before: int | None, resolved: Resolved) -> list[_Plan]:
    """Lay out the schedules of a line, one after another or side by side."""
    plans: list[_Plan] = []
    start = last = 0
    for step in shapes:
        each = _value(step.stitches, resolved)
        if each is None:
            return []
        each *= step.ends
        start = start if step.beside else last
        rows = _rows(step, each, start, before, resolved)
        by = each * len(rows or ()) * (1 if step.change == "increased" else -1)
        count = None if before is None or rows is None else before + by
        last = max([last, *(rows or ())])
        plans.append(_Plan(step=step, each=each, rows=rows, last=last, before=before, count=count))
        before = count
    return plans


def _shaped(plan: _Plan, *, first: bool, alone: bool) -> Iterator[str]:
    added = "added" if plan.added else "taken away"
    where = f" at {'each ' if plan.step.ends > 1 else ''}{plan.step.at}" if plan.step.at else ""
    unit = "1 st is" if plan.each == 1 else f"{plan.each} sts are"
    lead = "On each shaping row"
    if not first:
        lead = "At the same time, on rows of their own," if plan.step.beside else "After that,"
    yield f"{lead} {unit} {added}{'' if alone else where}."
    rows = plan.rows
    if rows is None:
        return
    if len(rows) <= _MOST_ROWS:
        named = listed(tuple(map(str, rows)))
        many = "rows are" if len(rows) > 1 else "row is"
        yield f"Counted from the beginning of this line, the shaping {many}: {named}."
    last = f", {rows[-1]} rows in all" if alone and rows and rows[-1] > 1 else ""
    yield f"{len(rows)} × {plan.each} = {plan.total} sts{last}."
    if alone and plan.before is not None:
        yield f"{plan.before} {'+' if plan.added else '−'} {plan.total} = {plan.count}."


def _rows(
    step: Shape, each: int, start: int, before: int | None, resolved: Resolved
) -> tuple[int, ...] | None:
    """Give the numbers of the shaping rows from here; None where how often is not told."""
    if not step.phases:
        return None
    rows: list[int] = []
    at = start
    for every, times in step.phases:
        apart = _value(every, resolved)
        often = _until(step, each, len(rows), before, resolved)
        if times is not None:
            often = _value(times, resolved)
        if apart is None or often is None:
            return None
        for _ in range(often):
            at += apart
            rows.append(at)
    return tuple(rows)


def _until(step: Shape, each: int, done: int, before: int | None, resolved: Resolved) -> int | None:
    """Count the shaping rows that are left until the stitches are those that are told."""
    until = None if step.until is None else _value(step.until, resolved)
    if until is None or before is None or not each:
        return None
    return max(abs(until - before) // each - done, 0)


def _value(number: Number, resolved: Resolved) -> int | None:
    values = resolved.of(number)
    one = values[0] if values else None
    return one if isinstance(one, int) else None
