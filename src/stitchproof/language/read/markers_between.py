"""Markers that hang between two stitches: "sc in next 11 sts, PM, 2 sc in next st", then "SM".

Where an author slips markers and never works into a marked stitch, the markers stand before the
next stitch, as on a needle; else a marker is put into the stitch made last.
"""

from collections.abc import Iterator, Sequence
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.courses import Course, Section
from stitchproof.language.tree import (
    Either,
    Group,
    Mark,
    Marked,
    Repeat,
    RepeatRows,
    Step,
    Steps,
)
from stitchproof.language.walk import nodes

BETWEEN: Final = "between"


def with_markers_between(sections: Sequence[Section]) -> tuple[Section, ...]:
    """Let markers hang between stitches where the author's words go by that.

    Parameters
    ----------
    sections : sequence of Section
        All of a manuscript.

    Returns
    -------
    tuple of Section
        The same where no marker is slipped, or stitches are marked.
    """
    courses = [course for section in sections for course in section.courses]
    marks = [mark for course in courses for mark in _marks(_steps(course))]
    if not any(mark.action == "slip" for mark in marks) or not any(map(_is_bare, marks)):
        return tuple(sections)
    if any(isinstance(node, Marked) for course in courses for node in nodes(course)):
        return tuple(sections)
    return tuple(
        replace(section, courses=tuple(map(_between, section.courses))) for section in sections
    )


def _steps(course: Course) -> Steps:
    return course.does.extra if isinstance(course.does, RepeatRows) else course.does


def _marks(steps: Steps) -> Iterator[Mark]:
    """Give what is done with markers: most manuscripts have none, so nothing else is looked at."""
    for step in steps:
        match step:
            case Mark():
                yield step
            case Repeat(body) | Group(body):
                yield from _marks(body)
            case Either(readings):
                for reading in readings:
                    yield from _marks(reading)
            case _:
                pass


def _is_bare(mark: Mark) -> bool:
    return mark.action == "place" and mark.at is None and mark.rows is None


def _between(course: Course) -> Course:
    if isinstance(course.does, RepeatRows):
        return course
    does = _hung(course.does)
    return course if does == course.does else replace(course, does=does)


def _hung(steps: Steps) -> Steps:
    return tuple(map(_hung_one, steps))


def _hung_one(step: Step) -> Step:
    match step:
        case Mark() if _is_bare(step):
            return replace(step, action=BETWEEN)
        case Repeat(body) | Group(body):
            return replace(step, body=_hung(body))
        case _:
            return step
