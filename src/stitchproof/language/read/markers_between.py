"""Markers that hang between two stitches: "sc in next 11 sts, PM, 2 sc in next st", then "SM".

Where an author slips markers and never works into a marked stitch, the markers stand before the
next stitch, as on a needle; else a marker is put into the stitch made last. So too where a row
shapes right before a marker and right after it, and no stitch is between: "sc to 2 sts before
marker, sc2tog, sc2tog".
"""

from collections.abc import Iterator, Sequence
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.courses import Course, Section
from stitchproof.language.number import ONE, Number
from stitchproof.language.tree import (
    Each,
    Either,
    Group,
    Make,
    Mark,
    Marked,
    Next,
    Repeat,
    RepeatRows,
    Step,
    Steps,
    ToMarked,
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
    if not any(map(_is_bare, marks)):
        return tuple(sections)
    slipped = any(mark.action == "slip" for mark in marks)
    if not slipped and not any(_shapes_around(_steps(course)) for course in courses):
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


def _shapes_around(steps: Steps, behind: Steps = ()) -> bool:
    """Whether a row shapes right before a marker and right after it: nothing is between."""
    there = [step for step in (*steps, *behind) if not isinstance(step, Mark)]
    for to, before, after in zip(there, there[1:], there[2:], strict=False):
        if _to_marker(to) > 0 and _takes(before) == _to_marker(to) and _alike(before, after):
            return True
    return any(
        _shapes_around(step.body, step.body[:1]) for step in steps if isinstance(step, Repeat)
    )


def _to_marker(step: Step) -> int:
    """Give how many stitches before a marker a run ends; 0: it goes to none, or up to it."""
    if not isinstance(step, Make) or not isinstance(step.at, Each):
        return 0
    match step.at.until:
        case ToMarked(_, Number(value=(int(before),))):
            return before
        case _:
            return 0


def _takes(step: Step) -> int:
    """Count the stitches that one step of shaping takes; 0: it does not shape."""
    if not isinstance(step, Make) or step.at != Next():
        return 0
    together = step.stitch.together
    return together if together > 1 or step.each != ONE else 0


def _alike(one: Step, other: Step) -> bool:
    """Whether two steps shape in the same way, whichever way they lean."""
    return _takes(one) == _takes(other) and getattr(one, "each", None) == getattr(
        other, "each", None
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
