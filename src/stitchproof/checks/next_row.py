"""`Work even` and `continue in pattern` where the rows before do not say which row comes next."""

import re
from collections.abc import Iterator
from typing import ClassVar, Final, TypeAlias

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.courses import address, is_row, pieces, steps_of
from stitchproof.checks.seen import Seen, words
from stitchproof.fabric.edge import base_kind
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import Loop, Make, Post, RepeatRows
from stitchproof.language.walk import nodes

# `Rows 2-5 form the pattern`, `pattern repeat`, `repeat rows 2 and 3`: what comes next is told
_TELLS: Final = re.compile(
    r"\b(?:form|set|establish|make)(?:s|ed|ing)?\b[^.\n]{0,30}\bpatt"
    r"|\bpatt(?:ern)?\s+(?:rows?|rnds?|rep(?:eats?)?)\b|\b(?:row|stitch|st)\s+(?:patt(?:ern)?|repeat)\b"
    r"|\brep(?:eat|eating)?\.?\s+(?:the\s+)?(?:these\s+|last\s+)?(?:\w+\s+)?(?:rows|rnds|rounds)\b"
    r"|\balternat",
    re.IGNORECASE,
)
Fabric: TypeAlias = frozenset[tuple[str, Post, Loop]]


@facts
class NextRowNotNamed:
    """The words, and the two rows that are not alike."""

    code: ClassVar[Code] = Code("C444", "next-row-not-named", Level.NOTE)
    words: str
    before: str
    last: str

    def message(self) -> str:
        """Say what is not known."""
        return (
            f"`{self.words}` does not say which row comes next: `{self.before}` and `{self.last}` "
            "are not alike, and no rows are named as the pattern"
        )

    def help(self) -> str:
        """Say what to do."""
        return "name the rows that are repeated, and the row it begins with"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find lines that go on as before, behind rows of which the last two are not alike."""
    if not any(_goes_on(c) for c in seen.proof.courses) or _TELLS.search(seen.manuscript.text):
        return
    for courses in pieces(seen):
        rows: list[WorkedCourse] = []
        for course in courses:
            does = _goes_on(course)
            if does is not None and _unlike(rows):
                yield Diagnostic(
                    finding=NextRowNotNamed(
                        words(seen, course.at(does.place)), rows[-2].label, rows[-1].label
                    ),
                    place=course.at(does.place),
                    address=address(course),
                )
                return
            if is_row(course):
                rows.append(course)


def _goes_on(course: WorkedCourse) -> RepeatRows | None:
    """Give what a line does that goes on as before and names no row."""
    does = course.course.does
    if not isinstance(does, RepeatRows) or does.extra or does.piece:
        return None
    return does if does.first is None and does.back is None and not does.listed else None


def _unlike(rows: list[WorkedCourse]) -> bool:
    """Whether the last two rows behind the first make other stitches, each of them known."""
    if len(rows) <= 2 or not (rows[-1].read and rows[-2].read):  # noqa: PLR2004 - first, two more
        return False
    last, before = _fabric(rows[-1]), _fabric(rows[-2])
    return bool(last) and bool(before) and last != before


def _fabric(course: WorkedCourse) -> Fabric:
    """Give the stitches a row is made of; those drawn together are of their own kind."""
    return frozenset(
        (base_kind(node.stitch.kind), node.stitch.post, node.stitch.loop)
        for node in nodes(steps_of(course))
        if isinstance(node, Make)
    )
