"""Markers that are placed and never spoken of again."""

import re
from collections.abc import Iterator
from typing import ClassVar, Final, TypeGuard

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.courses import address, steps_of
from stitchproof.checks.narrative import without
from stitchproof.checks.seen import Seen, words
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import First, Join, Last, Mark, Step

_SPOKEN: Final = re.compile(r"\b(?:un)?mark(?:er|ed|ers|s|ing|ings)?\b|\b[ps]m\b", re.IGNORECASE)
_ENDS: Final = (First, Last, type(None))


@facts
class MarkerNotUsed:
    """The words that place it."""

    code: ClassVar[Code] = Code("C430", "marker-not-used", Level.NOTE)
    words: str

    def message(self) -> str:
        """Say what is missing."""
        return f"`{self.words}` marks a stitch that nothing uses"

    def help(self) -> str:
        """Say what to do."""
        return "say what the marker is for, or leave it out"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find markers in the middle of a flat row after which no word tells of one."""
    placed = [(c, s) for c in seen.proof.courses for s in steps_of(c) if _is_placed(s, c)]
    if not placed:
        return
    text, places = seen.manuscript.text, tuple(c.at(step.place) for c, step in placed)
    if _SPOKEN.search(without(text, places)):
        return
    course = placed[0][0]
    yield Diagnostic(
        finding=MarkerNotUsed(words(seen, places[0])),
        place=places[0],
        also=tuple((other, "and here") for other in places[1:]),
        address=address(course),
    )


def _is_placed(step: Step, course: WorkedCourse) -> TypeGuard[Mark]:
    """Whether a step marks a stitch; that a round begins or a row ends is use enough."""
    if not isinstance(step, Mark) or step.action != "place" or step.rows is not None:
        return False
    round_ = course.course.label.round or any(isinstance(s, Join) for s in steps_of(course))
    return not round_ and not isinstance(step.at, _ENDS)
