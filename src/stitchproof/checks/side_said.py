"""A side is named later on, and no row says which side it is."""

import re
from collections.abc import Iterator
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.place import NOWHERE, Span
from stitchproof.checks.courses import address, closes, is_row, pieces, steps_of
from stitchproof.checks.seen import Seen, words
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import Facing, JoinYarn, RepeatRows, Turn

_SIDE: Final = r"(?:[RW]\.?S\b|(?:right|wrong)[ -]sides?)"
# `(RS)`, `Row 1 is the right side`, `odd rows are RS`, `mark this side as RS`
_TELLS: Final = re.compile(
    rf"[(\[]\s*{_SIDE}[^)\]]{{0,20}}[)\]]"
    rf"|\b(?:rows?|rnds?|rounds?|numbered|odd|even|mark\w*|is|are|as|facts?)\b[^.\n]{{0,40}}\b{_SIDE}"
    rf"|\b{_SIDE}[^.\n]{{0,30}}\b(?:rows?|rnds?|rounds?|marked|is|are)\b",
    re.IGNORECASE,
)


@facts
class SideNotSaid:
    """The words that name a side."""

    code: ClassVar[Code] = Code("C443", "side-not-said", Level.NOTE)
    words: str
    row: str

    def message(self) -> str:
        """Say what is missing."""
        return f"`{self.words}` names a side, and nothing says which side `{self.row}` brings up"

    def help(self) -> str:
        """Say what to do."""
        return f"mark the first row of the piece, such as `{self.row} (RS)`"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find the first side named behind rows that were turned and never told apart."""
    if any(course.course.label.side for course in seen.proof.courses):
        return
    first: WorkedCourse | None = None
    for courses in pieces(seen):
        for course in courses:
            place = _named(course) if first is not None else None
            if first is not None and place is not None:
                if _TELLS.search(seen.manuscript.text) is None:
                    yield Diagnostic(
                        finding=SideNotSaid(words(seen, place), first.label),
                        place=place,
                        address=address(course),
                    )
                return
            if first is None and is_row(course) and _flat(courses):
                first = course


def _flat(courses: list[WorkedCourse]) -> bool:
    """Whether a piece is worked in rows that are turned."""
    steps = [s for c in courses for s in steps_of(c)]
    if any(c.course.label.round or closes(c) for c in courses):
        return False
    return any(isinstance(s, Turn) and s.do for s in steps)


def _named(course: WorkedCourse) -> Span | None:
    """Give the words with which a line names a side."""
    does = course.course.does
    if isinstance(does, RepeatRows):
        return course.at(does.place) if does.ending and does.place != NOWHERE else None
    for step in does:
        if isinstance(step, Facing) or (isinstance(step, JoinYarn) and step.facing):
            return course.at(step.place)
    return None
