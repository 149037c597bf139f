"""A count in a unit that the row does not make."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Address, Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen, many
from stitchproof.language.tree import Make, Step


@facts
class CountUnit:
    """The unit."""

    code: ClassVar[Code] = Code("C417", "count-unit", Level.NOTE)
    unit: str

    def message(self) -> str:
        """Say how it was compared."""
        return f"states {many(self.unit)}, but makes none; the number was compared with all sts"

    def help(self) -> str:
        """Say what would be exact."""
        return "name the stitch that is made, or write sts"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find counts whose noun nothing made, where the number is right all the same."""
    for course in seen.proof.courses:
        if not course.units or any(t is not None for t in course.troubles):
            continue
        does = course.course.does
        slips = isinstance(does, tuple) and any(_slips(step) for step in does)
        for statement in course.units:
            if slips and statement.noun.kind == "sl_st":
                continue  # they lie on the stitches that the edge still has
            yield Diagnostic(
                finding=CountUnit(statement.unit or "st"),
                place=course.at(statement.place),
                address=Address(course.section or None, course.label or None),
            )


def _slips(step: Step) -> bool:
    return isinstance(step, Make) and step.stitch.kind == "sl_st"
