"""Edges that finished pieces keep, and what joins them: marks, seams, edges picked up.

Every piece keeps its last course and the ends of its rows, an anchor for each, named by the stitch
the row ends with. A seam relates intervals of two copies and makes no stitches; a round that joins
at a seam is worked on an edge put together from what the seams leave open.
"""

from collections.abc import Sequence

from stitchproof.base.records import dataclass
from stitchproof.fabric.edge import Edge
from stitchproof.fabric.over_rows import ValueOf
from stitchproof.fabric.trouble import Failing, Trouble, Unknown
from stitchproof.language.tree import Mark, SeamPlace, SeamSides, SeamTops, Step, Steps


@dataclass(slots=True)
class Finished:
    """A finished piece in one size, and what has been sewn of it.

    Attributes
    ----------
    title : str
        Its heading without "(make 2)".
    last : Edge or None
        Its last course.
    ends : tuple of str
        The stitch each row ends with, from the first row on.
    marked : int or None
        Row at whose top the edges are marked.
    tops : int or None
        Stitches sewn from each outer edge of the last course.
    sides : int or None
        Rows sewn from the hem.
    """

    title: str
    last: Edge | None
    ends: tuple[str, ...]
    marked: int | None = None
    tops: int | None = None
    sides: int | None = None


def row_end(edge: Edge | None) -> str:
    """Name the stitch that a row ends with, plain; empty when it is not known."""
    return edge.end if edge is not None else ""


def finish(steps: Steps, piece: Finished | None, value_of: ValueOf) -> tuple[Trouble, ...]:
    """Mark and sew what a line says, in one size.

    Returns
    -------
    tuple of Trouble
        What does not fit the piece.
    """
    if piece is None:
        return ()
    troubles: list[Trouble] = []
    for step in steps:
        try:
            trouble = _finish(step, piece, value_of)
        except Unknown:
            continue
        if trouble is not None:
            troubles.append(trouble)
    return tuple(troubles)


def _finish(step: Step, piece: Finished, value_of: ValueOf) -> Trouble | None:
    match step:
        case Mark(rows=rows) if rows is not None:
            return _mark(step, piece, value_of(rows))
        case SeamTops(count, opened):
            open_ = value_of(opened) if opened is not None else None
            taken = value_of(count) if count is not None else None
            return _sew_tops(step, piece, taken, open_)
        case SeamSides(whole=True):
            return None  # which edges, and how far, the names of the pieces would have to tell
        case SeamSides(rows):
            return _sew_sides(step, piece, value_of(rows) if rows is not None else None)
        case _:
            return None


def _mark(step: Mark, piece: Finished, row: int | None) -> Trouble | None:
    if row is None:
        return None
    if piece.ends and not 0 < row <= len(piece.ends):
        return Trouble(Failing.NO_ROW, step.place, row, len(piece.ends), what=f"{row}")
    piece.marked = row
    return None


def _sew_tops(
    step: SeamTops, piece: Finished, count: int | None, opened: int | None
) -> Trouble | None:
    if piece.last is None or count is None:
        return None
    have = piece.last.count
    if opened is None and 2 * count > have:
        return Trouble(Failing.TOO_FEW, step.place, 2 * count, have)
    if opened is not None and 2 * count + opened != have:
        # what stays open is doubtful now, and whatever is worked there says nothing more
        return Trouble(Failing.COUNT, step.place, 2 * count + opened, have, what="seam")
    piece.tops = count
    return None


def _sew_sides(step: SeamSides, piece: Finished, rows: int | None) -> Trouble | None:
    sewn = rows if rows is not None else piece.marked
    if sewn is None or not piece.ends:
        return None
    if rows is not None and piece.marked is not None and rows != piece.marked:
        return Trouble(Failing.COUNT, step.place, rows, piece.marked, what="marker")
    if sewn > len(piece.ends):
        return Trouble(Failing.NO_ROW, step.place, sewn, len(piece.ends), what=f"{sewn}")
    piece.sides = sewn
    return None


def opened(place: SeamPlace, pieces: Sequence[Finished]) -> Edge | None:
    """Give the round that begins at a seam; None when nothing is known of that seam.

    At a shoulder it is the seam, the open stitches of one copy, the other seam and the open
    stitches of the other copy; at a side the seam, the row ends above it up one edge, the shoulder
    seam, and down the other.
    """
    which = place.which
    for piece in reversed(pieces):
        if which in ("", "shoulder") and piece.tops is not None and piece.last is not None:
            return _neck(piece.last, piece.tops)
        if which in ("", "side", "underarm") and piece.sides is not None and piece.ends:
            return _armhole(piece.ends[piece.sides :])
    return None


def _neck(last: Edge, sewn: int) -> Edge | None:
    live = [k for k, role in zip(last.kinds, last.roles, strict=True) if role in "SK"]
    middle = tuple(live[sewn : len(live) - sewn])
    if not middle:
        return None
    half = ("seam", *middle)
    roles = "M" + "S" * len(middle)
    return Edge(half * 2, roles * 2, (-1,) * (2 * len(half)), ring=True)


def _armhole(ends: tuple[str, ...]) -> Edge | None:
    if not ends or "" in ends:
        return None
    kinds = ("seam", *ends, "seam", *reversed(ends))
    roles = "M" + "E" * len(ends) + "M" + "E" * len(ends)
    return Edge(kinds, roles, (-1,) * len(kinds), ring=True)
