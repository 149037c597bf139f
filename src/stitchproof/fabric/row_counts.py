"""Counts told for each row of a line: `Rows 3-5: ... (42 dc) (38 dc) (34 dc)`."""

from collections.abc import Sequence

from stitchproof.fabric.edge import Edge
from stitchproof.fabric.tally import Beside, smallest_held, stitches, ways_to_count
from stitchproof.fabric.track import Setting
from stitchproof.fabric.trouble import Failing, Trouble, Unknown
from stitchproof.language.tree import Stated, Statement, Thing

_COUNTED = (Thing.STITCH, Thing.KIND)


def wrong_rows(
    stated: Stated | None, rows: Sequence[tuple[Edge | None, Edge | None]], setting: Setting
) -> tuple[Trouble, ...]:
    """Tell which rows before the last come to another count than is told for them.

    Parameters
    ----------
    stated : Stated or None
        What the line says.
    rows : sequence of (Edge or None, Edge or None)
        For every row worked its edge and the edge it was worked into.
    setting : Setting
        The size, and what its numbers come to.

    Returns
    -------
    tuple of Trouble
        Placed from where the line begins; none where the groups of counts are not one a row.
    """
    if stated is None or len(stated.rowwise) != len(rows):
        return ()
    found: list[Trouble] = []
    for (edge, below), told in zip(rows[:-1], stated.rowwise, strict=False):
        if edge is None or (not edge.known and len(told) > 1):
            continue
        before = stitches(below, setting.conventions) if below is not None else 0
        beside = Beside(before, before, 0, alone=len(told) == 1, held=smallest_held(stated))
        for one in told:
            said = _said(one, setting)
            if one.each or one.noun.thing not in _COUNTED or said is None:
                continue
            numbers = ways_to_count(edge, one, beside, setting.conventions).numbers
            if numbers and said not in numbers:
                made = min(numbers, key=lambda n: abs(n - said))
                found.append(Trouble(Failing.COUNT, one.place, said, made, what=one.unit))
    return tuple(found)


def _said(statement: Statement, setting: Setting) -> int | None:
    try:
        return setting.value_of(statement.number)
    except Unknown:
        return None
