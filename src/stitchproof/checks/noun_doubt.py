"""A line names a stitch that the row below does not hold."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from stitchproof.base.diagnostics import Address, Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen, a_or_an, place_name, words

if TYPE_CHECKING:
    from stitchproof.base.place import Span


@facts
class StitchNamedAbsent:
    """The stitch named."""

    code: ClassVar[Code] = Code("C412", "stitch-named-absent", Level.WARNING)
    stitch: str
    words: str

    def message(self) -> str:
        """Say which stitch."""
        return f"`{self.words}` names {a_or_an(self.stitch)}, but the row below holds none"

    def help(self) -> str:
        """Say how it was taken."""
        return "name the stitch that is there, or write st"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find stitches named that are not there; they are worked as the next stitch."""
    told: set[Span] = set()
    for course in seen.proof.courses:
        if not course.doubts or any(t is not None for t in course.troubles):
            continue
        fresh = [doubt for doubt in course.doubts if doubt.place not in told]
        told.update(doubt.place for doubt in course.doubts)  # rows worked again say it again
        for doubt in fresh[:1]:
            yield Diagnostic(
                finding=StitchNamedAbsent(place_name(seen, doubt.noun), words(seen, doubt.place)),
                place=doubt.place,
                address=Address(course.section or None, course.label or None),
            )
