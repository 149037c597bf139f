"""Counts the work of one proof, so that no manuscript takes more than a bounded part of it.

Each anchor of a row that was not met before in this proof counts once, and each row a little more,
whether it was kept from an earlier proof or not: the same manuscript meets its limit at the same
place. Trying other readings and settings has an allowance of its own; when that is used up, the
likeliest reading stands.
"""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Final, NamedTuple

from stitchproof.fabric.edge import Edge
from stitchproof.language.tree import Course

MOST_WORK: Final = 3_000_000  # anchors; a large garment in ten sizes has half a million
MOST_TRIALS: Final = 1_000_000
A_ROW: Final = 50  # anchors that take as long as finding a row that is known


class Metered(NamedTuple):
    """A row that was counted."""

    edge: Edge | None
    consumed: Edge | None
    trial: bool


def most_of(rows: Iterable[Metered]) -> int:
    """Give the most anchors that some rows may be counted for."""
    return sum(A_ROW + len(row.edge or row.consumed or ()) for row in rows)


@dataclass(slots=True)
class Meter:
    """What one proof has taken so far.

    Attributes
    ----------
    worked : int
        On the manuscript as it is read. [anchors]
    tried : int
        On other readings and settings. [anchors]
    trying : int
        How deep in trials the work is.
    stopped : Course or None
        The line at which the work had to end.
    log : list of Metered
        Every row that was counted, in order.
    """

    worked: int = 0
    tried: int = 0
    trying: int = 0
    stopped: Course | None = None
    log: list[Metered] = field(default_factory=list)
    _met: set[int] = field(default_factory=set)  # by identity; `Memory` keeps the edges alive

    def row(self, edge: Edge | None, consumed: Edge | None) -> None:
        """Count a row: what it made, or what it was tried on when it could not be worked."""
        self.log.append(Metered(edge, consumed, bool(self.trying)))
        self._count(edge, consumed)

    def _count(self, edge: Edge | None, consumed: Edge | None) -> None:
        taken = A_ROW
        if edge is None:
            taken += len(consumed) if consumed is not None else 0
        elif id(edge) not in self._met:
            self._met.add(id(edge))
            taken += len(edge)
        if self.trying:
            self.tried += taken
        else:
            self.worked += taken

    def repeat(self, rows: Sequence[Metered]) -> None:
        """Count rows again that were counted before."""
        before = self.trying
        if not before:
            self.log += rows
        for row in rows:
            self.trying = before + row.trial
            if before:
                self.row(row.edge, row.consumed)
            else:
                self._count(row.edge, row.consumed)
        self.trying = before

    def allows(self, most: int) -> bool:
        """Whether rows of so many anchors may still be worked, were all of them new."""
        return self.worked + most <= MOST_WORK and self.tried + most <= MOST_TRIALS

    @contextmanager
    def trial(self, really: bool = True) -> Iterator[None]:  # noqa: FBT001, FBT002 - reads as words
        """Count what is done inside as a trial; the end of a trial is not the end of the work."""
        before = self.stopped
        self.trying += really
        yield
        self.trying -= really
        if really:
            self.stopped = before

    @property
    def over(self) -> bool:
        """Whether what is being done now has taken all that it may."""
        return self.out_of_trials if self.trying else self.worked > MOST_WORK

    @property
    def out_of_trials(self) -> bool:
        """Whether nothing more may be tried."""
        return self.tried > MOST_TRIALS
