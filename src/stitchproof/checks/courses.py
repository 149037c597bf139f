"""What several checks ask of instruction lines: their piece, how they turn, whether they close."""

from collections.abc import Iterator

from stitchproof.base.diagnostics import Address
from stitchproof.checks.seen import Seen
from stitchproof.fabric.going_on import PIECE_LEVEL
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import (
    Chain,
    Colour,
    Facing,
    Join,
    Leave,
    Mark,
    Remark,
    RepeatRows,
    Steps,
    Turn,
)

_BEFORE_A_ROW = (Chain, Colour, Facing, Remark, Mark)
_BEHIND_A_ROW = (Chain, Colour, Remark, Mark, Leave, Join)


def pieces(seen: Seen) -> Iterator[list[WorkedCourse]]:
    """Give the lines of each piece: those of a level-2 heading and of the deeper ones below it."""
    courses: list[WorkedCourse] = []
    start = 0
    for section in seen.manuscript.sections:
        own = seen.proof.courses[start : start + len(section.courses)]
        start += len(own)
        if section.level <= PIECE_LEVEL and courses:
            yield courses
            courses = []
        courses += own
    if courses:
        yield courses


def address(course: WorkedCourse) -> Address:
    """Give the address of a line."""
    return Address(course.section or None, course.label or None)


def steps_of(course: WorkedCourse) -> Steps:
    """Give what is done; nothing for a line that works earlier rows again."""
    does = course.course.does
    return () if isinstance(does, RepeatRows) else does


def is_row(course: WorkedCourse) -> bool:
    """Whether a line carries the number of a row or round, and gives its steps."""
    return course.course.label.first is not None and bool(steps_of(course))


def closes(course: WorkedCourse) -> bool:
    """Whether a line joins its end to its beginning."""
    return any(isinstance(s, Join) and s.do and not s.ring for s in steps_of(course))


def first_turn(course: WorkedCourse) -> Turn | None:
    """Give the turn a line begins with: `Ch 1, turn, sc in …`."""
    for step in steps_of(course):
        if isinstance(step, Turn):
            return step
        if not isinstance(step, _BEFORE_A_ROW):
            return None
    return None


def last_turn(course: WorkedCourse) -> Turn | None:
    """Give the turn a line ends with: `… in last st, turn`."""
    for step in reversed(steps_of(course)):
        if isinstance(step, Turn):
            return None if step is first_turn(course) else step
        if not isinstance(step, _BEHIND_A_ROW):
            return None
    return None


def between(before: WorkedCourse, after: WorkedCourse, seen: Seen) -> str:
    """Give the narrative between two lines, where an author may say what the lines do not."""
    start = before.place.end
    return seen.manuscript.text[start : min(after.place.start, start + 2_000)]


def number(course: WorkedCourse, seen: Seen, *, last: bool = False) -> tuple[int, ...] | None:
    """Give the number of the first or last row a line covers, one a worked size."""
    label = course.course.label
    named = (label.last or label.first) if last else label.first
    values = seen.resolved.of(named) if named is not None else None
    if values is None or not all(isinstance(v, int) for v in values):
        return None
    return tuple(v for v in values if isinstance(v, int))
