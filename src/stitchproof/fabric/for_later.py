"""What a piece leaves for later ones to refer to: its named edges, and its rows by title."""

from typing import TypeAlias

from stitchproof.base.records import replace
from stitchproof.fabric.conclude import Piece
from stitchproof.fabric.named import Finished
from stitchproof.fabric.past import row_ends
from stitchproof.fabric.planned import PlannedRow
from stitchproof.fabric.state import Progress

RowsByTitle: TypeAlias = dict[str, list[PlannedRow]]  # titles in lower case


def current(piece: Piece, here: Progress) -> Finished:
    """Give the named edges of a piece as far as it is worked."""
    last = here.tracks[0].edge if len(here.tracks) == 1 else None
    return Finished(piece.sections[0].title, last, row_ends(here), here.marked)


def keep_rows(piece: Piece, rows: list[RowsByTitle]) -> None:
    """Keep the rows of a piece by its title, for pieces that are worked like it."""
    title = piece.sections[0].title.lower()
    for of_size, here in zip(rows, piece.progress, strict=True):
        planned = [done.row for done in here.rows]
        if piece.moved:
            planned = [replace(row, line=row.line + piece.moved) for row in planned]
        if planned and title:
            of_size[title] = planned


def keep_edges(piece: Piece, finished: list[list[Finished]]) -> None:
    """Keep the named edges of a piece, for lines that mark or sew them."""
    for of_size, here in zip(finished, piece.progress, strict=True):
        if piece.own and any(r.edge is not None and r.edge.count for r in here.rows):
            of_size.append(current(piece, here))
