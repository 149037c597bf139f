"""Which reading was taken where the words allow several."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Address, Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen


@facts
class ReadingTaken:
    """The doubt and the reading, in a clause each."""

    code: ClassVar[Code] = Code("C415", "reading-taken", Level.NOTE)
    why: str
    taken: str
    decided: bool

    def message(self) -> str:
        """Say what was taken and what decided."""
        by = "it is what comes out even" if self.decided else "nothing decides; it is the usual way"
        return f"{self.why}; taken as {self.taken}: {by}"

    def help(self) -> str:
        """Say how to leave no doubt."""
        return "" if self.decided else "say it in full, so that a maker need not guess"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Say every choice between readings, once a line."""
    for course in seen.proof.courses:
        if course.reading is None or any(t is not None for t in course.troubles):
            continue
        for doubt, name in course.taken:
            yield Diagnostic(
                finding=ReadingTaken(doubt.why, name, doubt not in course.open),
                place=course.at(doubt.place),
                address=Address(course.section or None, course.label or None),
            )
