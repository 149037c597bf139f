"""Where a piece stands in every size, and what a line came to in all of them."""

from collections.abc import Mapping, Sequence
from dataclasses import field
from typing import NamedTuple

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.fabric.attempt import Attempt, DoneRow
from stitchproof.fabric.conventions import Switch
from stitchproof.fabric.memory import Memory
from stitchproof.fabric.planned import PlannedRow
from stitchproof.fabric.track import Track
from stitchproof.fabric.trouble import Trouble
from stitchproof.language.number import Resolved
from stitchproof.language.tree import Either


@dataclass(slots=True)
class Progress:
    """One piece in one size, so far."""

    tracks: tuple[Track, ...] = (Track(),)  # as worked; and as stated, while both are open
    rows: list[DoneRow] = field(default_factory=list)
    by_number: dict[int, PlannedRow] = field(default_factory=dict)
    planned: list[PlannedRow] = field(default_factory=list)  # of `rows`, readings settled
    marked: int | None = None  # row at whose top the edges are marked
    wrong: set[int] = field(default_factory=set)  # `PlannedRow.words` of rows that have failed
    rows_unsure: bool = False  # how many rows there are is not known
    doubted: Span | None = None  # the line whose count is wrong, while both tracks are open
    meant: dict[Span, bool] = field(default_factory=dict)  # whether its stated count was meant
    ends: tuple[int, tuple[str, ...]] = (
        0,
        (),
    )  # so many rows, and what those with stitches end with
    base: int = 0  # stitches along the foundation of that piece
    parts: tuple[str, ...] = ()  # titles of its parts so far, in lower case
    behind: tuple[str, ...] = ()  # row ends of the piece that it goes on from
    sides: tuple[str, ...] = ()  # row ends of all the parts that it goes on from, one on another

    def take(self, rows: Sequence[DoneRow]) -> None:
        """Take over rows that were worked."""
        self.rows += rows
        for done in rows:
            self.planned.append(done.row)
            for number in done.row.numbers:
                self.by_number[number] = done.row


class Outcome(NamedTuple):
    """One line in one size.

    Attributes
    ----------
    absent : bool
        Not worked in this size.
    attempts : tuple of Attempt
        One for each track it was tried on.
    troubles : tuple of Trouble
        Of its rows as a whole.
    open : bool
        Worked to a length.
    echo : bool
        It works rows again that have failed before: what is wrong has been said.
    numbers : sequence of int
        Row numbers of its label.
    """

    absent: bool = False
    attempts: tuple[Attempt, ...] = ()
    troubles: tuple[Trouble, ...] = ()
    open: bool = False
    echo: bool = False
    numbers: Sequence[int] = ()

    @property
    def first(self) -> Attempt | None:
        """The attempt on the edge as worked."""
        return self.attempts[0] if self.attempts else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """One line in all sizes, its readings settled.

    Attributes
    ----------
    outcomes : tuple of Outcome
        (W,) one a size.
    choices : mapping of Either to int
        The readings taken.
    ways : tuple of int
        For each statement, which way of counting it was taken.
    troubles : tuple of Trouble or None
        (W,) what is wrong, counts included; None: nothing.
    asked : tuple of Switch
        Turning chains whose counting nobody said beside them, in order.
    open : tuple of Either
        Doubts that more than one reading settled equally well.
    """

    outcomes: tuple[Outcome, ...]
    choices: Mapping[Either, int]
    ways: tuple[int, ...]
    troubles: tuple[Trouble | None, ...]
    asked: tuple[Switch, ...]
    open: tuple[Either, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What a piece is worked with.

    Attributes
    ----------
    resolved : Resolved
        What numbers come to.
    memory : Memory
        Courses worked before.
    pieces : tuple of mapping
        (W,) rows of earlier pieces by title.
    rows_per_mm : float or None
        Row gauge. [1/mm]
    wrong : tuple of frozenset of int
        (W,) words of rows of earlier pieces that have failed: see `PlannedRow.words`.
    """

    resolved: Resolved
    memory: Memory
    pieces: tuple[Mapping[str, Sequence[PlannedRow]], ...]
    rows_per_mm: float | None = None
    wrong: tuple[frozenset[int], ...] = ()
