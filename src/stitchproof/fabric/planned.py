"""Rows laid out before they are worked: those of a line, and those worked before it."""

from collections.abc import Mapping, Sequence
from typing import Final, NamedTuple

from stitchproof.base.records import dataclass
from stitchproof.fabric.in_turn import Worked
from stitchproof.fabric.trouble import Trouble
from stitchproof.language.tree import (
    Either,
    Group,
    InPattern,
    Make,
    Repeat,
    Shape,
    Steps,
    Unread,
)

HIGHEST: Final = 10**7  # number of a row

WORK: Final = (Make, Group, Repeat, InPattern, Shape, Either, Unread)


@dataclass(frozen=True, slots=True)
class PlannedRow:
    """One row to be worked.

    Attributes
    ----------
    number : int or None
        Its number, where it has one.
    steps : Steps
        What is done.
    line : int
        Where the line begins that gives the steps: their places are told from there.
    covers : int
        How many rows it stands for: more than one where a schedule goes over those of a label.
    behind : int
        How many of the last steps are added by another line.
    """

    number: int | None
    steps: Steps
    line: int = 0
    covers: int = 1
    behind: int = 0

    @property
    def numbers(self) -> Sequence[int]:
        """The numbers of the rows it stands for."""
        if self.number is None:
            return ()
        if self.covers == 1:
            return (self.number,)
        return range(self.number - self.covers + 1, self.number + 1)

    @property
    def works(self) -> bool:
        """Whether stitches are worked in it: a chain, a turn or a cut yarn is no row."""
        return any(isinstance(step, WORK) for step in self.steps)

    @property
    def words(self) -> int:
        """Where its last words stand in the whole text, without what another line adds."""
        own = self.steps[: len(self.steps) - self.behind]
        return self.line + (own[-1].place.start if own else 0)


class Plan(NamedTuple):
    """The rows of one line in one size.

    Attributes
    ----------
    rows : tuple of PlannedRow
        In the order worked.
    troubles : tuple of Trouble
        What does not fit together.
    absent : bool
        The line is not worked in this size.
    open : bool
        It is worked on to a length nobody can turn into rows; `rows` is one turn of it.
    first : tuple of PlannedRow
        Rows worked once before the turns that `rows` is one of.
    numbers : sequence of int
        Row numbers of its label, also where its rows are not known.
    """

    rows: tuple[PlannedRow, ...] = ()
    troubles: tuple[Trouble, ...] = ()
    absent: bool = False
    open: bool = False
    numbers: Sequence[int] = ()
    first: tuple[PlannedRow, ...] = ()


class Past(NamedTuple):
    """What has been worked before, in one size.

    Attributes
    ----------
    by_number : mapping of int to PlannedRow
        The latest row of each number.
    rows : sequence of PlannedRow
        All rows of the piece in order.
    pieces : mapping of str to sequence of PlannedRow
        Rows of the pieces finished before, by title in lower case.
    rows_per_mm : float or None
        Row gauge of the piece, where a swatch gives it. [1/mm]
    steady : bool
        The last row kept the count.
    begun : bool
        Something lies below: rows of its own, or what it goes on from.
    done : sequence of Worked
        What the rows came to.
    parts : tuple of str
        Titles of the parts of the piece itself, in lower case: their rows are among its own.
    """

    by_number: Mapping[int, PlannedRow]
    rows: Sequence[PlannedRow]
    pieces: Mapping[str, Sequence[PlannedRow]]
    rows_per_mm: float | None = None
    steady: bool = True
    parts: tuple[str, ...] = ()
    begun: bool = False
    done: Sequence[Worked] = ()

    @property
    def worked(self) -> int:
        """How many rows of stitches there are."""
        return sum(row.works for row in self.rows)
