"""Markers that hang between two stitches: "sc in next 11 sts, PM, 2 sc in next st", then "SM".

Where an author slips markers and never works into a marked stitch, the markers stand before the
next stitch, as on a needle; else a marker is put into the stitch made last.
"""

from collections.abc import Sequence
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.courses import Course, Section
from stitchproof.language.tree import (
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
    steps = [node for section in sections for course in section.courses for node in nodes(course)]
    slipped = any(isinstance(node, Mark) and node.action == "slip" for node in steps)
    marked = any(isinstance(node, Marked) for node in steps)
    bare = any(isinstance(node, Mark) and _is_bare(node) for node in steps)
    if not slipped or marked or not bare:
        return tuple(sections)
    return tuple(
        replace(section, courses=tuple(map(_between, section.courses))) for section in sections
    )


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
