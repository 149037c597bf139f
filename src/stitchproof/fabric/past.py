"""What a piece has come to so far in one size, as the lines that follow ask for it."""

from typing import Final

from stitchproof.fabric.edge import Edge
from stitchproof.fabric.named import row_end
from stitchproof.fabric.planned import Past, PlannedRow
from stitchproof.fabric.state import Bench, Progress
from stitchproof.language.tree import Colour, Facing, JoinYarn, On, Remark, Turn


def past_of(here: Progress, bench: Bench, size: int) -> Past:
    """Give what a line may work again."""
    return Past(
        by_number=here.by_number,
        rows=here.planned,
        pieces=bench.pieces[size],
        rows_per_mm=bench.rows_per_mm,
        steady=_steady(here),
        parts=here.parts,
        begun=here.tracks[0].edge is not None,
        done=here.rows,
    )


def row_ends(here: Progress) -> tuple[str, ...]:
    """Name the stitch each row of a piece ends with; empty when how many there are is not known."""
    ends = own_ends(here)
    return () if here.rows_unsure or "" in ends else ends or here.behind


def own_ends(here: Progress) -> tuple[str, ...]:
    """Name the stitch each row of the piece itself ends with; "" for one that is not known."""
    if here.rows_unsure:
        return ("",)
    rows, ends = here.ends
    if rows != len(here.rows):
        steps = {id(r.row.steps): r.row for r in here.rows}  # rows worked again share theirs
        works = {one for one, row in steps.items() if row.works}
        made = (
            r
            for r in here.rows
            if id(r.row.steps) in works or (r.edge is None and not _joins_here(r.row))
        )
        ends = tuple(row_end(r.edge) for r in made if r.edge is None or r.edge.count)
        here.ends = len(here.rows), ends
    return ends


def _joins_here(row: PlannedRow) -> bool:
    """Whether a line only joins yarn at an edge of the piece itself: no row ends there."""
    joined = [step for step in row.steps if isinstance(step, JoinYarn)]
    moves = all(isinstance(s, JoinYarn | Facing | Colour | Remark | Turn) for s in row.steps)
    if not moves or len(joined) != 1:
        return False
    at = joined[0].at
    named = at.piece if isinstance(at, On) else joined[0].of
    words = set(named.lower().replace("-", " ").split())
    return bool(words & _EDGES) and words <= _EDGES | _WHICH


_EDGES: Final = frozenset(("edge", "side", "corner", "end"))
_WHICH: Final = frozenset(
    (
        *("the", "a", "an", "of", "at", "on", "in", "to", "one", "either", "other", "same", "this"),
        *("long", "short", "straight", "right", "left", "hand", "lower", "upper", "top", "bottom"),
        *("first", "last", "row", "rows", "piece", "beginning"),
    )
)


def numbered(here: Progress) -> tuple[tuple[int, Edge], ...]:
    """Give the edges of the rows worked so far that have a number."""
    edges = {r.row.number: r.edge for r in here.rows if r.row.number is not None and r.edge}
    return tuple((number, edge) for number, edge in edges.items() if edge.known)


def base_of(here: Progress) -> int:
    """Count the stitches along the foundation of a piece, or of the one it goes on with."""
    if here.base:
        return here.base
    for edge in (r.edge for r in here.rows if r.edge is not None):
        if edge.ring and edge.roles and not edge.roles.strip("F"):
            return len(edge)  # chains joined to a ring: all of them are worked into
        if edge.count:
            return edge.count
    return 0


def _steady(here: Progress) -> bool:
    """Whether the last row kept the count."""
    if not here.rows:
        return True
    last = here.rows[-1]
    if last.edge is None or last.consumed is None:
        return False
    return last.edge.count == last.consumed.count
