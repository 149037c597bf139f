"""Lines over many rows in words: on which rows a schedule shapes, how long rows go on as before."""

from collections.abc import Iterator, Sequence
from typing import Final

from stitchproof.base.diagnostics import listed
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
    for step in does:
        if isinstance(step, Shape):
            yield from _shaped(step, before, resolved)
            before = None


def _as_before(does: RepeatRows, course: WorkedCourse, index: int) -> Iterator[str]:
    rows = course.rows[index] if index < len(course.rows) else None
    count = course.worked[index]
    stays = "" if count is None else f"; at the end there are {count} sts"
    if rows is not None:
        noun = "row" if rows == 1 else "rows"
        yield f"{rows} {noun} more, worked as the rows before{stays}."
    elif does.until_length is not None or does.until_words:
        yield f"Rows are worked as those before until it is long enough{stays}."


def _shaped(step: Shape, before: int | None, resolved: Resolved) -> Iterator[str]:
    each = _value(step.stitches, resolved)
    if each is None:
        return
    added = step.change == "increased"
    verb = "are added" if added else "are taken away"
    unit = "1 st" if each == 1 else f"{each} sts"
    yield f"On each shaping row {unit} {verb.replace('are', 'is') if each == 1 else verb}."
    rows = _rows(step, resolved)
    if rows is None:
        return
    if step.partly:
        yield "Several schedules are told in one line; count the rows of each for itself."
    elif len(rows) <= _MOST_ROWS:
        named = listed(tuple(map(str, rows)))
        yield (
            f"Counted from here, the shaping rows are: {named}."
            if len(rows) > 1
            else (f"Counted from here, the shaping row is: {named}.")
        )
    total = each * len(rows)
    several = rows and rows[-1] > 1 and not step.partly
    last = f", {rows[-1]} rows in all" if several else ""
    yield f"{len(rows)} × {each} = {total} sts{last}."
    if before is not None:
        sign = "+" if added else "−"
        after = before + total if added else before - total
        yield f"{before} {sign} {total} = {after}."


def _rows(step: Shape, resolved: Resolved) -> list[int] | None:
    """Give the numbers of the shaping rows from here; None where how often is not told."""
    if not step.phases:
        return None
    rows: list[int] = []
    at = 0
    for every, times in step.phases:
        apart, often = _value(every, resolved), _value(times, resolved)
        if apart is None or often is None:
            return None
        for _ in range(often):
            at += apart
            rows.append(at)
    return rows


def _value(number: Number, resolved: Resolved) -> int | None:
    values = resolved.of(number)
    one = values[0] if values else None
    return one if isinstance(one, int) else None
