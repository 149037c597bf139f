"""Stitches that are left for another part, when no part takes them up."""

import re
from collections.abc import Iterator
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.courses import address, steps_of
from stitchproof.checks.seen import Seen, words
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import Leave, Next, Skip

_PART: Final = re.compile(
    r"\bfor\s+(?:the\s+|a\s+|each\s+)?(?:\w+\s+)?"
    r"(?P<part>sleeve|thumb|leg|arm|shoulder|front|back|strap|flap|half|side|pocket)s?\b",
    re.IGNORECASE,
)
_COMES_BACK: Final = re.compile(
    r"\b(?:unworked|skipped|remaining|rem|held|left|join\w*|rejoin\w*|attach\w*|pick(?:ed)?|other"
    r"|opposite|second|edging|border|sew\w*|seam\w*|evenly)\b",
    re.IGNORECASE,
)


@facts
class StitchesNotTakenUp:
    """How many stitches are left, for each size, and for what."""

    code: ClassVar[Code] = Code("C447", "stitches-not-taken-up", Level.NOTE)
    left: tuple[int, ...]
    words: str
    part: str

    def message(self) -> str:
        """Say how many."""
        if self.part:
            return (
                f"`{self.words}` keeps {size_list(self.left)} sts for the {self.part}, "
                f"and nothing after it speaks of a {self.part}"
            )
        return f"`{self.words}` leaves {size_list(self.left)} sts, and nothing comes back to them"

    def help(self) -> str:
        """Say what to do."""
        return "add the part that is worked on them, or say that they stay as they are"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find stitches kept for a part that does not come, once for each part."""
    told: set[str] = set()
    for course in seen.proof.courses:
        for step in steps_of(course):
            if isinstance(step, Skip):
                yield from _kept(seen, course, step, told)
            elif isinstance(step, Leave):
                yield from _left(seen, course, step)


def _kept(seen: Seen, course: WorkedCourse, step: Skip, told: set[str]) -> Iterator[Diagnostic]:
    """Look for the part that an author names beside stitches passed over."""
    text, place = seen.manuscript.text, course.at(step.place)
    clause = re.split(r"[.,;:\n]", text[place.start : place.end + 60], maxsplit=1)[0]
    named = _PART.search(clause)
    values = seen.resolved.of(step.at.number) if isinstance(step.at, Next) else None
    left = tuple(v for v in values or () if isinstance(v, int) and v > 1)  # no "the sleeve sts"
    part = named["part"].lower() if named is not None else ""
    if named is None or not left or part in told or part in text[course.place.end :].lower():
        return
    told.add(part)
    yield Diagnostic(
        finding=StitchesNotTakenUp(left, " ".join(clause.split()), part),
        place=place,
        address=address(course),
    )


def _left(seen: Seen, course: WorkedCourse, step: Leave) -> Iterator[Diagnostic]:
    """Look for anything that comes back to more stitches than the row has worked itself."""
    known = [
        (left, made)
        for left, made in zip(course.left, course.worked, strict=True)
        if left is not None and made is not None
    ]
    if not known or not all(left > made for left, made in known):
        return
    if _COMES_BACK.search(seen.manuscript.text, course.place.end) is None:
        yield Diagnostic(
            finding=StitchesNotTakenUp(
                tuple(n for n, _ in known), words(seen, course.at(step.place)), ""
            ),
            place=course.at(step.place),
            address=address(course),
        )
