"""Tells every row that was worked: its steps as they were settled, its stitches, their places.

`laid` gives rows for drawing; here each row also keeps what was done in it and which line of the
manuscript it is of, so that one row can be explained.
"""

from collections.abc import Iterator, Mapping

from stitchproof.base.records import dataclass
from stitchproof.fabric.attempt import DoneRow
from stitchproof.fabric.conventions import Conventions
from stitchproof.fabric.known_lines import Done
from stitchproof.fabric.memory import Memory
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.fabric.prove import pieces_of
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.number import Resolved
from stitchproof.language.tree import Course, RepeatRows, Steps
from stitchproof.language.walk import eithers_in, settled


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldRow:
    """One row in one size.

    Attributes
    ----------
    line : int
        Index of its line among those of the manuscript that `Proof.courses` lists.
    number : int or None
        Its number, where it has one.
    steps : tuple of Step
        What was done, readings settled.
    side : str
        "RS" or "WS": the side that faced the maker; empty where that is not known.
    kinds : tuple of str
        (N,) stitch names in the order made; "ch" for chains.
    roles : str
        (N,) one letter each, as on `edge.Edge`.
    places : tuple of int
        (N,) index into the row below of the place of each; -1: none.
    into : tuple of str
        (B,) stitch names of the row below, in the direction of working.
    into_roles : str
        (B,) one letter each.
    ring : bool
        It is closed to a ring.
    conventions : Conventions
        What counted as a stitch.
    """

    line: int
    number: int | None
    steps: Steps
    side: str
    kinds: tuple[str, ...]
    roles: str
    places: tuple[int, ...]
    into: tuple[str, ...]
    into_roles: str
    ring: bool
    conventions: Conventions

    @property
    def count(self) -> int:
        """Stitches on it that count."""
        return sum(role in "SK" for role in self.roles)


def tell(
    manuscript: Manuscript,
    resolved: Resolved,
    memory: Memory,
    rows_per_mm: Mapping[str, float] | None = None,
) -> tuple[tuple[ToldRow, ...], ...]:
    """Work a manuscript and tell all of its rows.

    Parameters
    ----------
    manuscript : Manuscript
        What the author wrote, read.
    resolved : Resolved
        What its numbers come to.
    memory : Memory
        Courses worked before.
    rows_per_mm : mapping of str to float
        Row gauge of each piece by its heading. [1/mm]

    Returns
    -------
    tuple of tuple of ToldRow
        (W,) the rows of each size in the order of the text; rows that are not known are left out.
    """
    told: list[list[ToldRow]] = [[] for _ in resolved.names]
    line = 0
    for piece in pieces_of(manuscript, resolved, memory, rows_per_mm):
        for done in piece.lines:
            for size, rows in enumerate(told):
                rows.extend(_rows(done, size, line, piece.conventions))
            line += 1
    return tuple(tuple(rows) for rows in told)


def settled_course(manuscript: Manuscript, worked: WorkedCourse) -> Course:
    """Give a line as it was written, its readings settled.

    A worked line may leave out what begins a piece elsewhere ("join at a shoulder seam"); where
    nothing had to be settled, the line as it was read is the whole of it.
    """
    for section in manuscript.sections:
        for course in section.courses:
            if course.place == worked.place and course.label == worked.course.label:
                does = course.does
                doubtful = not isinstance(does, RepeatRows) and eithers_in(does)
                return worked.course if doubtful else course
    return worked.course


def _rows(done: Done, size: int, line: int, conventions: Conventions) -> Iterator[ToldRow]:
    if done.judged is None:
        return
    first = done.judged.outcomes[size].first
    for row in first.rows if first is not None else ():
        steps = row.row.steps
        choices = done.judged.choices
        told = _row(row, line, settled(steps, choices) if choices else steps, conventions)
        if told is not None:
            yield told


def _row(row: DoneRow, line: int, steps: Steps, conventions: Conventions) -> ToldRow | None:
    edge = row.edge
    if edge is None or not edge.known:
        return None
    below = edge.below if edge.below is not None else row.consumed
    size = len(below) if below is not None else 0
    return ToldRow(
        line=line,
        number=row.row.number,
        steps=steps,
        side=row.side,
        kinds=edge.kinds,
        roles=edge.roles,
        places=tuple(place if 0 <= place < size else -1 for place in edge.parents),
        into=below.kinds if below is not None else (),
        into_roles=below.roles if below is not None else "",
        ring=edge.ring,
        conventions=conventions,
    )
