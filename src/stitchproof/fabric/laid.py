"""Lays a worked manuscript down flat: every stitch of every row, in every size.

The fabric itself is kept as edges that stand on one another. Who wants to see single stitches (a
chart, an explanation, a second opinion) has them here as rows of kinds and places.
"""

from stitchproof.base.records import dataclass
from stitchproof.fabric.attempt import DoneRow
from stitchproof.fabric.conclude import Piece
from stitchproof.fabric.conventions import Conventions
from stitchproof.fabric.known_lines import Done
from stitchproof.fabric.memory import Memory
from stitchproof.fabric.prove import pieces_of
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.number import Resolved
from stitchproof.language.tree import makes_stitches


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidRow:
    """One row in one size, stitch by stitch.

    Attributes
    ----------
    number : int or None
        Its number, where it has one.
    course : int
        Index of its line among the lines of the piece.
    kinds : tuple of str
        (N,) stitch names in the order made; "ch" for chains.
    roles : str
        (N,) one letter each, as on `edge.Edge`.
    places : tuple of int
        (N,) index into the row below, in the direction of working, of the place it was worked
        in: the first chain of a space, the first of stitches drawn together, the stitch behind a
        post some rows below; -1: none.
    into : tuple of str
        (B,) stitch names of the row below, in the direction of working.
    ring : bool
        The last stitch stands beside the first.
    colours : tuple of str
        (N,) colour of each stitch in the author's word; empty when none was named.
    """

    number: int | None
    course: int
    kinds: tuple[str, ...]
    roles: str
    places: tuple[int, ...]
    into: tuple[str, ...]
    ring: bool
    colours: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidPiece:
    """One piece in all worked sizes.

    Attributes
    ----------
    title : str
        Its heading without "(make 2)".
    conventions : Conventions
        What counted as a stitch in it.
    rows : tuple of tuple of LaidRow
        (W,) its rows in each size; a row that is not known ends them.
    wrong : tuple of int or None
        (W,) index of the first of its lines that is wrong in each size; None: all are right.
    lines : int
        How many lines it has.
    """

    title: str
    conventions: Conventions
    rows: tuple[tuple[LaidRow, ...], ...]
    wrong: tuple[int | None, ...]
    lines: int


def lay_down(
    manuscript: Manuscript, resolved: Resolved, memory: Memory | None = None
) -> tuple[LaidPiece, ...]:
    """Work a manuscript and lay all of its rows down.

    Parameters
    ----------
    manuscript : Manuscript
        What the author wrote, read.
    resolved : Resolved
        What its numbers come to.
    memory : Memory, optional
        Courses worked before.

    Returns
    -------
    tuple of LaidPiece
        In the order of the text.
    """
    pieces = pieces_of(manuscript, resolved, memory if memory is not None else Memory())
    return tuple(_piece(piece, len(resolved.names)) for piece in pieces)


def _piece(piece: Piece, sizes: int) -> LaidPiece:
    return LaidPiece(
        title=piece.sections[0].title,
        conventions=piece.conventions,
        rows=tuple(_rows(piece.lines, size) for size in range(sizes)),
        wrong=tuple(
            next((i for i, line in enumerate(piece.lines) if line.troubles[size]), None)
            for size in range(sizes)
        ),
        lines=len(piece.lines),
    )


def _rows(lines: list[Done], size: int) -> tuple[LaidRow, ...]:
    laid: list[LaidRow] = []
    for i, line in enumerate(lines):
        first = line.judged.outcomes[size].first if line.judged is not None else None
        for done in first.rows if first is not None else ():
            if done.consumed is not None and not makes_stitches(done.row.steps):
                continue
            row = _row(done, i)
            if row is None:
                return tuple(laid)
            laid.append(row)
    return tuple(laid)


def _row(done: DoneRow, course: int) -> LaidRow | None:
    if done.edge is None:
        return None
    # a round that was slipped along begins elsewhere than the edge it was given
    into = done.edge.below if done.edge.below is not None else done.consumed
    return LaidRow(
        number=done.row.number,
        course=course,
        kinds=done.edge.kinds,
        roles=done.edge.roles,
        places=_places(done.edge.parents),
        into=into.kinds if into is not None else (),
        ring=done.edge.ring,
        colours=done.edge.colours,
    )


def _places(parents: tuple[int, ...]) -> tuple[int, ...]:
    """Give the places of stitches, told as one kind of none; mostly there is no other."""
    none = -1
    if min(parents, default=none) >= none:
        return parents
    return tuple(max(place, none) for place in parents)
