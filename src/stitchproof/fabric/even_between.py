"""An earlier row worked again on every so many rows: the rows between are worked even."""

from collections.abc import Sequence
from itertools import chain, repeat
from typing import Final

from stitchproof.fabric.edge import Edge, base_kind
from stitchproof.fabric.over_rows import EVEN, MOST_ROWS, ValueOf
from stitchproof.fabric.planned import Past, PlannedRow
from stitchproof.fabric.trouble import Unknown
from stitchproof.language.tree import RepeatRows

EVEN_ROW: Final = PlannedRow(None, EVEN)


def between_even(
    does: RepeatRows, rows: Sequence[PlannedRow], past: Past, value_of: ValueOf
) -> tuple[list[PlannedRow], list[PlannedRow]]:
    """Lay out the phases of rows worked again.

    Parameters
    ----------
    does : RepeatRows
        With phases.
    rows : sequence of PlannedRow
        The rows worked again.
    past : Past
        What was worked before: its last even row is worked between.
    value_of : callable
        Gives a number in one size.

    Returns
    -------
    laid, turn
        All rows told so often; and one turn of the last phase, where a count at the end tells how
        often it is worked.

    Raises
    ------
    Unknown
        Where nobody can tell how an even row is worked, or the rows are too many.
    """
    laid: list[PlannedRow] = []
    for every, times in does.phases:
        apart = value_of(every) or 0
        between = max(apart - len(rows), 0)
        even = [_even_row(rows, past)] * min(between, MOST_ROWS) if between else []
        turn = [*rows, *even] if does.leading else [*even, *rows]
        if times is None:
            return laid, turn
        often = value_of(times) or 0
        if len(laid) + often * len(turn) > MOST_ROWS:
            raise Unknown
        laid += chain.from_iterable(repeat(turn, often))
    return laid, []


def _even_row(rows: Sequence[PlannedRow], past: Past) -> PlannedRow:
    """Give a row that keeps the count: the last such one of the same stitches, or one as below."""
    again = {id(row.steps) for row in rows}
    done = past.done[-len(past.rows) :]
    if len(done) == len(past.rows):
        fabric = _main_kind(done[-1].edge) if done else ""
        for row, worked in zip(reversed(past.rows), reversed(done), strict=True):
            edge, before = worked.edge, worked.consumed
            if edge is None or before is None or not row.works or id(row.steps) in again:
                continue
            if edge.count == before.count and _main_kind(edge) == fabric and row.covers == 1:
                return PlannedRow(None, row.steps, row.line)
        if done and done[-1].edge is not None and _has_spaces(done[-1].edge):
            raise Unknown
    return EVEN_ROW


def _main_kind(edge: Edge | None) -> str:
    """Give the stitch that most of an edge is made of."""
    if edge is None or not edge.made:
        return ""
    return base_kind(max(edge.made.items(), key=lambda item: (item[1], item[0]))[0])


def _has_spaces(edge: Edge) -> bool:
    return "C" in edge.roles
