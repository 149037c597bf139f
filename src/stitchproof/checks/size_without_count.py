"""A count leaves a size out, and nothing says that the row is not for it."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.courses import address
from stitchproof.checks.seen import Seen, words
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import Statement


@facts
class SizeWithoutCount:
    """The count as it is written."""

    code: ClassVar[Code] = Code("C435", "size-without-count", Level.WARNING)
    words: str

    def message(self) -> str:
        """Say what is missing."""
        return f"`{self.words}` gives no count, but the row is worked"

    def help(self) -> str:
        """Say what to do."""
        return "give the count, or say for which sizes the row is"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find dashes in counts of sizes in which the row is worked."""
    for course in seen.proof.courses:
        stated = course.course.stated
        for statement in stated.statements if stated is not None else ():
            left = _left_out(seen, course, statement)
            if left:
                yield Diagnostic(
                    finding=SizeWithoutCount(words(seen, course.at(statement.place))),
                    place=course.at(statement.place),
                    address=address(course),
                    sizes=left,
                )
                break


def _left_out(seen: Seen, course: WorkedCourse, statement: Statement) -> tuple[str, ...]:
    """Give the sizes the count has a dash for and in which the line makes stitches."""
    values = seen.resolved.of(statement.number)
    if values is None or None not in values or len(_units(course)) > 1:
        return ()
    named = zip(seen.proof.sizes, values, course.worked, strict=True)
    return tuple(n for n, v, made in named if v is None and made and n not in course.absent)


def _units(course: WorkedCourse) -> tuple[str, ...]:
    """Give the units a line counts in; with several, one may be made in some sizes only."""
    stated = course.course.stated
    return tuple(s.unit for s in stated.statements) if stated is not None else ()
