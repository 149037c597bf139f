"""Markers worked to, moved or taken out that nobody put in, and markers left in for good."""

import re
from collections.abc import Iterator
from typing import ClassVar, Final, TypeAlias

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.place import Span
from stitchproof.checks.courses import address, steps_of
from stitchproof.checks.narrative import without
from stitchproof.checks.seen import Seen, words
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import MARKED, Join, Mark, Marked, Step, ToMarked
from stitchproof.language.walk import nodes

# "mark the first stitch", "place a marker", "use markers": a list of notions places nothing
_PLACED: Final = re.compile(
    r"\bpm\b|\bmark(?:s|ing)?\b"
    r"|\bmarked\b(?!\s+(?:st|sts|stitch|stitches|ch|sp|space|corner|cent(?:er|re)|s?h?dc|h?tr|sc)\b)"
    r"|\b(?:plac|put|insert|attach|hang|add|us|clip|hook|leav|keep|with)\w*\s[^.\n]{0,50}\bmarkers?\b",
    re.IGNORECASE,
)
_ALL: Final = re.compile(r"\bmarkers\b|\b(?:both|all|each|every)\b|\bas you\b", re.IGNORECASE)
_Marked: TypeAlias = tuple[WorkedCourse, Mark]


@facts
class MarkerNotPlaced:
    """The words that work to it, take it out or move it."""

    code: ClassVar[Code] = Code("C445", "marker-not-placed", Level.WARNING)
    words: str

    def message(self) -> str:
        """Say what is missing."""
        return f"`{self.words}` speaks of a marker that nothing has placed"

    def help(self) -> str:
        """Say what to do."""
        return "say where the marker is placed, or leave these words out"


@facts
class MarkerNotRemoved:
    """How many markers are placed and how many taken out."""

    code: ClassVar[Code] = Code("C446", "marker-not-removed", Level.NOTE)
    placed: int
    removed: int
    words: str

    def message(self) -> str:
        """Both numbers."""
        verb = "is" if self.removed == 1 else "are"
        return (
            f"`{self.words}`: {self.placed} markers are placed, and {self.removed} {verb} removed"
        )

    def help(self) -> str:
        """Say what to do."""
        return "say which markers are removed, or when the others are"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Hold markers placed against those moved and taken out."""
    marks = [(c, s) for c in seen.proof.courses for s in steps_of(c) if isinstance(s, Mark)]
    later: list[tuple[WorkedCourse, Step]] = [(c, s) for c, s in marks if s.action not in _PLACING]
    missed = any(t is not None and t.noun == MARKED for c in seen.proof.courses for t in c.troubles)
    if len(later) == len(marks) and not missed:
        later += [(c, s) for c in seen.proof.courses for s in steps_of(c) if _works_to(s)]
    if later:
        found = _unplaced(seen, marks, later) or _left_in(seen, marks)
        if found is not None:
            yield found


_PLACING: Final = ("place", "between")


def _works_to(step: Step) -> bool:
    """Whether a step is worked in a marked stitch, or up to one."""
    return any(isinstance(node, Marked | ToMarked) for node in nodes(step))


def _unplaced(
    seen: Seen, marks: list[_Marked], later: list[tuple[WorkedCourse, Step]]
) -> Diagnostic | None:
    """Find a marker that is worked to, moved or taken out and of which no word tells."""
    course, step = min(later, key=lambda one: one[0].at(one[1].place).start)
    if any(s.action in _PLACING for _, s in marks):
        return None
    text = without(seen.manuscript.text, tuple(c.at(s.place) for c, s in later))
    if _PLACED.search(text):
        return None
    return Diagnostic(
        finding=MarkerNotPlaced(words(seen, course.at(step.place))),
        place=course.at(step.place),
        address=address(course),
    )


def _left_in(seen: Seen, marks: list[_Marked]) -> Diagnostic | None:
    """Find markers that stay in where others, one by one, are taken out.

    Markers that run along with the rounds, and those of rows worked more than once, are not
    counted; nor does anything hold where some words of the work are not understood.
    """
    placed = [(c, s) for c, s in marks if s.action == "place" and not s.edges]
    removed = [(c, s) for c, s in marks if s.action == "remove"]
    counted = all(not _in_rounds(c) and set(c.rows) == {1} for c, _ in (*placed, *removed))
    known = all(course.read for course in seen.proof.courses)
    if not removed or not counted or not known or len(placed) <= len(removed):
        return None
    course, step = removed[-1]
    if any(_ALL.search(_clause(seen, c.at(s.place))) for c, s in removed):
        return None
    return Diagnostic(
        finding=MarkerNotRemoved(len(placed), len(removed), words(seen, course.at(step.place))),
        place=course.at(step.place),
        also=tuple((c.at(s.place), "placed here") for c, s in placed),
        address=address(course),
    )


def _in_rounds(course: WorkedCourse) -> bool:
    return course.course.label.round or any(isinstance(s, Join) for s in steps_of(course))


def _clause(seen: Seen, place: Span) -> str:
    behind = seen.manuscript.text[place.start : place.end + 40]
    return re.split(r"[.;\n]", behind, maxsplit=1)[0]
