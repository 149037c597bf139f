"""Works along row ends: on an edge picked up from finished pieces, or beside the live edge."""

from stitchproof.base.place import Span
from stitchproof.fabric.aside import keep_live
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.trouble import Failing, Stuck, Trouble, Unknown
from stitchproof.language.tree import Make, Noun, RowEnds, Thing


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
    seen, made = 0, 0
    for i in range(hand.cursor, len(edge)):
        if edge.roles[i] == "E":
            rate = next((n for noun, n in rates if noun.kind in ("", edge.kinds[i])), None)
            if rate is None:
                raise Stuck(
                    Trouble(Failing.NO_PLACE, where, 1, 0, Noun(Thing.ROW_END, edge.kinds[i]))
                )
            hand.put(step.stitch.name, "S", [i] * rate, where)
            made += rate
            seen = seen or 1
        elif seen:
            _compare_edge(hand, stated, made, where)
            seen, made = 0, 0
    if seen:
        _compare_edge(hand, stated, made, where)
    hand.cursor = len(edge)


def _along_side(hand: Hand, step: Make, rates: list[tuple[Noun, int]], at: RowEnds) -> None:
    """Work along the row ends of the piece itself, beside its live edge."""
    if not hand.ends or "" in hand.ends:
        raise Unknown
    keep_live(hand)
    over = hand.number(at.over, step.place)
    if over > 1:
        _at_a_rate(hand, step, rates[0][1], over)
        return
    for end in hand.ends * at.edges:
        rate = next((n for noun, n in rates if noun.kind in ("", end)), None)
        if rate is None:
            raise Stuck(Trouble(Failing.NO_PLACE, step.place, 1, 0, Noun(Thing.ROW_END, end)))
        hand.put(step.stitch.name, "S", [-1] * rate, step.place)
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
