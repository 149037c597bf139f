"""A round among rows, or a row among rounds."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.courses import address, closes, is_row, number, pieces
from stitchproof.checks.seen import Seen
from stitchproof.fabric.proof import WorkedCourse

_FEWEST = 3  # lines that show what the piece is


@facts
class RowOrRound:
    """The word that stands there, and that of the lines around it."""

    code: ClassVar[Code] = Code("C426", "row-or-round", Level.WARNING)
    said: str
    around: str

    def message(self) -> str:
        """Give both words."""
        return f"is called a {self.said}, but is worked like the {self.around}s before and after it"

    def help(self) -> str:
        """Say what to do."""
        return f"call it a {self.around}"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find lines whose word differs from that of all others of the piece, worked alike."""
    for courses in pieces(seen):
        rows = [c for c in courses if is_row(c)]
        odd = [c for c in rows if c.course.label.round]
        if 2 * len(odd) > len(rows):
            odd = [c for c in rows if not c.course.label.round]
        if len(odd) == 1 and len(rows) >= _FEWEST and _runs_on(rows, odd[0], seen):
            said, around = ("Rnd", "Row") if odd[0].course.label.round else ("Row", "Rnd")
            yield Diagnostic(
                finding=RowOrRound(said, around),
                place=odd[0].at(odd[0].course.label.place),
                address=address(odd[0]),
            )


def _runs_on(rows: list[WorkedCourse], odd: WorkedCourse, seen: Seen) -> bool:
    """Whether the lines beside it close alike, and its number comes between theirs."""
    at = rows.index(odd)
    beside = [rows[i] for i in (at - 1, at + 1) if 0 <= i < len(rows)]
    alike = all(c.read and closes(c) == closes(odd) for c in (*beside, odd))
    if not alike or len(beside) != 2 or closes(odd) == odd.course.label.round:  # noqa: PLR2004
        return False
    ends = [number(c, seen, last=True) for c in (beside[0], odd)]
    starts = [number(c, seen) for c in (odd, beside[1])]
    return all(
        end is not None and start is not None and tuple(n + 1 for n in end) == start
        for end, start in zip(ends, starts, strict=True)
    )
