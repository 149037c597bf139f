"""Work goes on after the yarn was cut, and nothing says where it is joined again."""

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.courses import address, between, is_row, number, pieces, steps_of
from stitchproof.checks.seen import Seen
from stitchproof.fabric.founding import founds
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import (
    Chain,
    Colour,
    FastenOff,
    Group,
    JoinYarn,
    MagicRing,
    Make,
    Repeat,
)

_JOINS: Final = re.compile(r"\b(?:re)?join|\battach|\bstanding\b|\bnew\b|\bwith\b", re.IGNORECASE)
_ONE_YARN: Final = re.compile(
    r"(?:[Ff]asten(?:ing)? off|[Cc]ut|[Bb]reak(?: off)?)\s+(?:the\s+)?(?:yarn\s+|colou?r\s+)?"
    r"(?:[A-Z]{1,2}\b|(?:first|second|main|contrast\w*)\s+(?:yarn|colou?r)\b)"
)


@facts
class YarnNotRejoined:
    """The line that ends with the yarn cut."""

    code: ClassVar[Code] = Code("C429", "yarn-not-rejoined", Level.WARNING)
    before: str

    def message(self) -> str:
        """Say what is missing."""
        return (
            f"goes on after `{self.before}` fastened off, and nothing says where to join the yarn"
        )

    def help(self) -> str:
        """Say what to do."""
        return "say where the yarn is joined, or take `fasten off` out of the row before"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Look at every row whose number follows on one that fastened off."""
    for courses in pieces(seen):
        rows = [c for c in courses if steps_of(c) or c.course.label.first is not None]
        row: WorkedCourse | None = None
        for before, after in pairwise(rows):
            if before.course.label.first is not None:
                row = before
            if row is None or not _cuts(before, seen) or not _follows(row, after, seen):
                continue
            silent = _JOINS.search(between(before, after, seen)) is None
            if silent and _goes_on(after, seen):
                yield Diagnostic(
                    finding=YarnNotRejoined(row.label),
                    place=after.at(after.course.label.place),
                    address=address(after),
                )


def _follows(row: WorkedCourse, after: WorkedCourse, seen: Seen) -> bool:
    """Whether the number of a row follows on that of another, in every size."""
    first, last = number(after, seen), number(row, seen, last=True)
    return first is not None and last is not None and first == tuple(n + 1 for n in last)


def _cuts(course: WorkedCourse, seen: Seen) -> bool:
    """Whether a line ends with the one yarn cut, in every size."""
    last = steps_of(course)[-2:]
    cut = any(isinstance(s, FastenOff) and s.do for s in last)
    if not cut or course.course.only or any(isinstance(s, JoinYarn | Colour) for s in last):
        return False
    text = seen.manuscript.text[course.place.start : course.place.end]
    return _ONE_YARN.search(text) is None


def _goes_on(course: WorkedCourse, seen: Seen) -> bool:
    """Whether a line works on where the last one ended."""
    if not is_row(course) or not course.read or course.course.only:
        return False
    steps = steps_of(course)
    if founds(steps) or any(isinstance(s, JoinYarn | Colour | MagicRing) for s in steps):
        return False
    made = next((s for s in steps if isinstance(s, Chain | Make | Repeat | Group)), None)
    end = course.at(made.place).start if made is not None else course.place.end
    return _JOINS.search(seen.manuscript.text, course.place.start, end) is None
