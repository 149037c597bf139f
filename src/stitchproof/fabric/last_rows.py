"""Lines that work the last rows again: these rows decide what such a line comes to."""

from collections.abc import Sequence
from typing import TypeAlias

from stitchproof.fabric.planned import PlannedRow
from stitchproof.fabric.state import Bench, Progress
from stitchproof.language.tree import Course, RepeatRows

LastRows: TypeAlias = tuple[tuple[PlannedRow, ...], ...]


def works_last_rows(course: Course) -> bool:
    """Whether a line works the last so many rows again, and nothing else tells how often."""
    does = course.does
    if not isinstance(does, RepeatRows) or does.back is None or does.piece or does.until_words:
        return False
    if does.phases:
        return False  # the rows between are earlier ones
    return does.until_rows is None and does.until_count is None and does.until_length is None


def last_rows(course: Course, progress: Sequence[Progress], bench: Bench) -> LastRows:
    """Give the (W,) rows that such a line works again; nothing for any other line."""
    does = course.does
    if not works_last_rows(course) or not isinstance(does, RepeatRows) or does.back is None:
        return ()
    backs = bench.resolved.of(does.back) or ()
    return tuple(
        tuple(here.planned[-int(back or 1) :]) for here, back in zip(progress, backs, strict=False)
    )


def stand_alike(before: LastRows, now: LastRows, moved: int) -> bool:
    """Whether the same rows are to be worked again, all of them moved as far as their line."""
    return len(before) == len(now) and all(
        len(some) == len(others) and all(map(_is_same, some, others, [moved] * len(some)))
        for some, others in zip(before, now, strict=True)
    )


def _is_same(one: PlannedRow, other: PlannedRow, moved: int) -> bool:
    return one.steps is other.steps and one.line + moved == other.line
