"""Counts the work of one proof, so that no manuscript takes more than a bounded part of it.

Each anchor of a row that was not met before in this proof counts once, and each row a little more,
whether it was kept from an earlier proof or not: the same manuscript meets its limit at the same
place. Trying other readings and settings has an allowance of its own; when that is used up, the
likeliest reading stands.
"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import field
from typing import Final, NamedTuple

from stitchproof.base.records import dataclass
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


@dataclass(slots=True)
class Meter:
    """What one proof has taken so far.

    Rows are only noted while so few of them are noted that no limit can be near, and counted from
    then on, in the order in which they were noted.

    Attributes
    ----------
    most : int
        The most that the rows may be counted for, were each of them new. [anchors]
    trying : int
        How deep in trials the work is.
    stopped : Course or None
        The line at which the work had to end.
    log : list of Metered
        Every row, in order.
    """

    most: int = 0
    trying: int = 0
    stopped: Course | None = None
    log: list[Metered] = field(default_factory=list)
    _worked: int = 0  # on the manuscript as it is read [anchors]
    _tried: int = 0  # on other readings and settings [anchors]
    _counted: int = 0  # rows of the log
    _met: set[int] = field(default_factory=set)  # by identity; the log keeps the edges alive

    def row(self, edge: Edge | None, consumed: Edge | None) -> None:
        """Note a row: what it made, or what it was tried on when it could not be worked."""
        self.log.append(Metered(edge, consumed, bool(self.trying)))
        of = edge if edge is not None else consumed
        self.most += A_ROW + (len(of.roles) if of is not None else 0)

    def repeat(self, rows: Sequence[Metered], most: int) -> None:
        """Note rows again that were noted before."""
        self.log += rows if not self.trying else (row._replace(trial=True) for row in rows)
        self.most += most

    def _count(self) -> None:
        """Count the rows that were noted since."""
        for edge, consumed, trial in self.log[self._counted :]:
            taken = A_ROW
            if edge is None:
                taken += len(consumed) if consumed is not None else 0
            elif id(edge) not in self._met:
                self._met.add(id(edge))
                taken += len(edge)
            if trial:
                self._tried += taken
            else:
                self._worked += taken
        self._counted = len(self.log)

    def _is_far(self, more: int = 0) -> bool:
        """Whether no limit can be near, however the rows are counted."""
        most = self.most + more
        return most <= MOST_WORK and most <= MOST_TRIALS

    def allows(self, most: int) -> bool:
        """Whether rows of so many anchors may still be worked, were all of them new."""
        if self._is_far(most):
            return True
        self._count()
        return self._worked + most <= MOST_WORK and self._tried + most <= MOST_TRIALS

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
        if self.trying:
            return self.out_of_trials
        if self._is_far():
            return False
        self._count()
        return self._worked > MOST_WORK

    @property
    def out_of_trials(self) -> bool:
        """Whether nothing more may be tried."""
        if self._is_far():
            return False
        self._count()
        return self._tried > MOST_TRIALS
