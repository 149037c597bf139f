"""A line that only skips stitches: those that the yarn of the next line is joined behind."""

from collections.abc import Sequence
from typing import TypeAlias

from stitchproof.base.records import replace
from stitchproof.language.tree import (
    Course,
    Facing,
    JoinYarn,
    Next,
    Remark,
    RepeatRows,
    Section,
    Skip,
)
from stitchproof.language.walk import moved

Lines: TypeAlias = list[tuple[Section, Course]]


def skips_alone(course: Course) -> bool:
    """Whether a line skips stitches and does no more: `Skip the next 16 sts`."""
    if isinstance(course.does, RepeatRows) or course.stated is not None:
        return False
    plain = all(isinstance(s, Skip | Remark | Facing) for s in course.does)
    return plain and any(isinstance(s, Skip) and isinstance(s.at, Next) for s in course.does)


def skipped_ahead(lines: Sequence[tuple[Section, Course]]) -> Lines:
    """Give the lines of a piece, what one only skips being skipped where the next joins yarn."""
    found: Lines = list(lines)
    for i, (section, course) in enumerate(found[:-1]):
        beside, following = found[i + 1]
        if not skips_alone(course) or not _joins(following) or course.only != following.only:
            continue
        assert not isinstance(course.does, RepeatRows)
        assert not isinstance(following.does, RepeatRows)
        ahead = moved(course.does, course.place.start - following.place.start)
        said = tuple(Remark("skip", step.place) for step in course.does)
        found[i] = section, replace(course, does=said)
        found[i + 1] = beside, replace(following, does=(*ahead, *following.does))
    return found


def _joins(course: Course) -> bool:
    if isinstance(course.does, RepeatRows):
        return False
    first = next((s for s in course.does if not isinstance(s, Remark | Facing)), None)
    return isinstance(first, JoinYarn) and isinstance(first.at, Next)
