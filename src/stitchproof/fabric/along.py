"""Works along row ends: on an edge picked up from finished pieces, or beside the live edge."""

import re
from typing import Final, TypeAlias

from stitchproof.base.place import Span
from stitchproof.fabric.aside import keep_live
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.trouble import Failing, Stuck, Trouble, Unknown
from stitchproof.language.tree import Make, Noun, RowEnds, Thing

Rates: TypeAlias = list[tuple[Noun, int]]  # stitches for each kind of row end
_SIDE: Final = re.compile("E+")


def along_row_ends(hand: Hand, step: Make, at: RowEnds) -> None:
    """Work the row ends from here on, at the rates the author gives for each kind of row."""
    hand.begun = True
    hand.pass_covered()
    edge, where = hand.edge, step.place
    rates = [(noun, hand.number(number, where)) for noun, number in at.rates]
    if "E" not in edge.roles:
        _along_side(hand, step, rates, at)
        return
    if "E" not in edge.roles[hand.cursor :]:
        raise Stuck(Trouble(Failing.NO_PLACE, where, 1, 0, Noun(Thing.ROW_END)))
    stated = None if at.stated is None else hand.number(at.stated, where)
    for side in _SIDE.finditer(edge.roles, hand.cursor):
        ends = edge.kinds[side.start() : side.end()]
        by_end = {end: _rate(rates, end, where) for end in dict.fromkeys(ends)}
        parents = [i for i, end in enumerate(ends, side.start()) for _ in range(by_end[end])]
        hand.put(step.stitch.name, "S", parents, where)
        _compare_edge(hand, stated, len(parents), where)
    hand.cursor = len(edge)


def _rate(rates: Rates, end: str, where: Span) -> int:
    """Give the stitches for a row that ends with a stitch."""
    rate = next((n for noun, n in rates if noun.kind in ("", end)), None)
    if rate is None:
        raise Stuck(Trouble(Failing.NO_PLACE, where, 1, 0, Noun(Thing.ROW_END, end)))
    return rate


def _along_side(hand: Hand, step: Make, rates: Rates, at: RowEnds) -> None:
    """Work along the row ends of the piece itself, beside its live edge."""
    if not hand.ends or "" in hand.ends:
        raise Unknown
    keep_live(hand)
    over = hand.number(at.over, step.place)
    if over > 1:
        _at_a_rate(hand, step, rates[0][1], over)
        return
    by_end = {end: _rate(rates, end, step.place) for end in dict.fromkeys(hand.ends)}
    made = sum(by_end[end] for end in hand.ends) * at.edges
    hand.put(step.stitch.name, "S", [-1] * made, step.place)
    hand.swept = hand.astray = True


def _at_a_rate(hand: Hand, step: Make, rate: int, over: int) -> None:
    """Work `rate` stitches for every `over` rows."""
    if len(hand.ends) % over:
        raise Unknown  # what the rows left over get is not told
    hand.put(step.stitch.name, "S", [-1] * (len(hand.ends) // over * rate), step.place)
    hand.swept = hand.astray = True


def _compare_edge(hand: Hand, stated: int | None, made: int, where: Span) -> None:
    trouble = Trouble(Failing.COUNT, where, stated or 0, made, what="edge")
    if stated is not None and stated != made and trouble not in hand.troubles:
        hand.troubles.append(trouble)
