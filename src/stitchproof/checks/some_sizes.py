"""A long run of rows that only some sizes have, with nothing for the others beside it."""

from collections.abc import Iterator
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.courses import address, is_row, pieces
from stitchproof.checks.seen import Seen
from stitchproof.fabric.proof import WorkedCourse

_LONG: Final = 6  # lines, from which a maker of another size may lose her place


@facts
class RunForSomeSizes:
    """How many lines, and the first and the last of them."""

    code: ClassVar[Code] = Code("C448", "run-for-some-sizes", Level.NOTE)
    lines: int
    first: str
    last: str

    def message(self) -> str:
        """Say how long it is."""
        return (
            f"{self.lines} lines from `{self.first}` to `{self.last}` are worked in no other size, "
            "and nothing stands in their place there"
        )

    def help(self) -> str:
        """Say what to do."""
        return "give the sizes one set of rows with `0 (0, 2) times`, or a heading for each"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Look for rows one after another that the same sizes leave out."""
    for courses in pieces(seen):
        rows = [c for c in courses if is_row(c)]
        left_out = {frozenset(c.absent) for c in rows}
        for run in _runs(rows):
            out = frozenset(run[0].absent)
            mine = tuple(n for n in seen.proof.sizes if n not in out)
            if len(run) >= _LONG and mine and not any(set(mine) <= other for other in left_out):
                yield Diagnostic(
                    finding=RunForSomeSizes(len(run), run[0].label, run[-1].label),
                    place=run[0].at(run[0].course.label.place),
                    address=address(run[0]),
                    sizes=mine,
                )


def _runs(rows: list[WorkedCourse]) -> Iterator[list[WorkedCourse]]:
    """Give the stretches of rows that the same sizes leave out."""
    run: list[WorkedCourse] = []
    for row in rows:
        if run and (not row.absent or row.absent != run[-1].absent):
            yield run
            run = []
        if row.absent:
            run.append(row)
    if run:
        yield run
