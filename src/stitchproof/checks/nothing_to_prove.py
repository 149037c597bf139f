"""A manuscript without a single instruction."""

from collections.abc import Iterable, Iterator
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.place import Span
from stitchproof.checks.seen import Seen

_BLANK: Final = " \t\r\n\ufeff"


@facts
class NothingToProve:
    """Whether there are any words at all."""

    code: ClassVar[Code] = Code("C453", "nothing-to-prove", Level.WARNING)
    empty: bool

    def message(self) -> str:
        """Say that nothing was worked."""
        why = "the manuscript is empty" if self.empty else "no line is read as an instruction"
        return f"there is nothing to prove: {why}"

    def help(self) -> str:
        """Say what an instruction begins with."""
        return "begin each row with its label, as in `Row 1:`, or with a verb, as in `Ch 12`"


def find(seen: Seen, found: Iterable[Diagnostic]) -> Iterator[Diagnostic]:
    """Look for an instruction; where something else hides the rows, `found` has said so."""
    hidden = any(
        one.finding.code.level is not Level.NOTE and one.finding.code.number.startswith("L")
        for one in found
    )
    if seen.proof.courses or hidden:
        return
    manuscript = seen.manuscript
    start = manuscript.front.place.end if manuscript.front is not None else 0
    first = next((block.place for block in manuscript.blocks if block.place.start >= start), None)
    place = first or Span(manuscript.source, start, start)
    yield Diagnostic(finding=NothingToProve(not manuscript.text.strip(_BLANK)), place=place)
