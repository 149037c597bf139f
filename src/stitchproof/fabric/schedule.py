"""Shaping by a schedule: the count and the rows it comes to, without the single stitches.

"Dec 1 st at each end of every 4th row 3 times" says how many stitches go and over how many rows,
and leaves how each row is worked to the fabric as it is. The edge that comes of it is therefore
known by its count alone, and its outline by the ends that move on each of its rows.
"""

from stitchproof.fabric.edge import COUNTED, base_kind
from stitchproof.fabric.hand import Hand, Move, Shaped
from stitchproof.fabric.over_rows import MOST_ROWS
from stitchproof.fabric.reach import reach
from stitchproof.fabric.trouble import Failing, Stuck, Trouble, Unknown
from stitchproof.language.tree import InPattern, Shape


def go_on(hand: Hand, step: Shape | InPattern) -> None:
    """Work on in the fabric as it is."""
    if isinstance(step, Shape):
        _shape(hand, step)
    else:
        _in_pattern(hand, step)


def _shape(hand: Hand, step: Shape) -> None:
    """Work all shaping rows of a schedule at once, after the schedules before it or beside one."""
    there = hand.edge.count
    if not hand.edge.roles or not there:
        raise Unknown
    before = hand.shaped or Shaped(hand.moment(), there, 0, 0)
    start = before.start if step.beside else before.rows
    by = hand.number(step.stitches, step.place) * step.ends
    rows = events = 0
    told: list[int] = []
    for every, times in step.phases:
        apart = max(hand.number(every, step.place), 1)
        if times is None:
            n = _left(hand, step, before.count, by, events)
        else:
            n = hand.number(times, step.place)
        if start + rows + n * apart <= MOST_ROWS:
            told += range(start + rows + apart, start + rows + n * apart + 1, apart)
        events += n
        rows += n * apart
    count = _after(hand, step, before.count, by * events)
    hand.back_to(before.since)
    kind = base_kind(max(hand.edge.made.items(), key=lambda item: (item[1], item[0]))[0])
    hand.put(kind, "S", [-1] * count, step.place)
    hand.begun = hand.swept = hand.guessed = True
    hand.rows = max(before.rows, start + rows)
    moves: tuple[Move, ...] | None = None
    if before.moves is not None and step.phases and len(told) == events:
        moves = (*before.moves, *_moves(step, by // step.ends, told))
    hand.shaped = Shaped(before.since, count, start, hand.rows, moves)


def _moves(step: Shape, by: int, rows: list[int]) -> tuple[Move, ...]:
    """Give what each shaping row does to the ends of the fabric."""
    signed = by if step.change == "increased" else -by
    return tuple(Move(row, signed, step.at, step.ends) for row in rows)


def _after(hand: Hand, step: Shape, there: int, by: int) -> int:
    """Count the stitches after a schedule that changes so many in all."""
    count = there + by if step.change == "increased" else there - by
    if step.until is not None:
        until = hand.number(step.until, step.place)
        if step.phases and until != count:
            raise Stuck(Trouble(Failing.COUNT, step.place, until, count))
        count = until
    if count <= 0:
        raise Stuck(Trouble(Failing.TOO_FEW, step.place, by, there))
    return count


def _left(hand: Hand, step: Shape, there: int, by: int, events: int) -> int:
    """Count the shaping rows that are left until the stitches are those that are told."""
    assert step.until is not None
    until = hand.number(step.until, step.place)
    change = (until - there) if step.change == "increased" else (there - until)
    return max(change - by * events, 0) // by if by else 0


def _in_pattern(hand: Hand, step: InPattern) -> None:
    """Work each stitch as it stands below, where there are no spaces that a row may move."""
    start = hand.cursor
    places = reach(hand, step.at, 1, step.place)
    if any(role not in COUNTED for role in hand.edge.roles[start : hand.cursor]):
        raise Unknown
    for a, _ in places:
        hand.put(base_kind(hand.edge.kinds[a]), "S", [a], step.place)
    hand.begun = hand.guessed = True
