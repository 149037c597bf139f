"""Works repeats: a number of times, or as often as whole repeats fit.

A repeat that runs "across" may be followed by steps that need some places themselves ("ending
with dc in last st"). Then fewer repeats are tried until the rest comes out even (`search`). What
cannot come out even is a trouble with the width of the repeat and what is left.
"""

from collections.abc import Callable
from typing import Final

from stitchproof.base.records import replace
from stitchproof.fabric.hand import MOST_ANCHORS, Hand, Moment
from stitchproof.fabric.left_open import left_below
from stitchproof.fabric.nouns import bound
from stitchproof.fabric.trouble import Failing, Stuck, Trouble, Unknown
from stitchproof.language.tree import (
    AsLong,
    Between,
    Each,
    Group,
    Make,
    Next,
    Repeat,
    Skip,
    Skipped,
    Step,
    Steps,
    Thing,
    Times,
    To,
    ToLast,
    Until,
    Within,
)

Run = Callable[[Hand, Steps], None]
_MOST_BACK: Final = 64  # how many repeats the steps after one may take back
_SPACES: Final = frozenset({Thing.SPACE, Thing.CHAIN_SPACE})
_MOST_TRIES: Final = 256  # in one course


def loop(hand: Hand, step: Repeat, run: Run) -> None:
    """Work a repeat whose end is told: a number of times, or up to a place."""
    match step.often:
        case Times(number, more):
            _times(hand, step, hand.number(number, step.place) + more, run)
        case AsLong() if hand.astray:
            raise Unknown  # how often it fits
        case AsLong(until):
            _go_below(hand, step.body)
            end, limit = _end_of(hand, step, until, run), hand.limit
            hand.limit = end
            moments = _as_long(hand, step, run, most=_MOST_BACK if step.cut is not None else 1)
            if step.cut is not None:
                _last_part(hand, step, moments, run)
            hand.pass_covered()
            over = _left(hand, step.body)
            if over:
                hand.troubles.append(
                    Trouble(Failing.UNEVEN, step.place, _width(hand, moments), over)
                )
            if not _at_turning_chain(hand, until, end):
                hand.cursor = max(hand.cursor, end)
            hand.limit = limit


def _go_below(hand: Hand, body: Steps) -> None:
    """Go to the row below that the repeat works into, whose end is then that of the repeat."""
    first = next((s for s in body if isinstance(s, Make | Group)), None)
    if first is not None and isinstance(first.at, Skipped):
        left_below(hand, first.at.row, first.place)


def _end_of(hand: Hand, step: Repeat, until: Until, run: Run) -> int:
    """Give the anchor before which a repeat ends.

    In a round that was slipped along first, "to last st" may mean the last before the stitches
    slipped over, which are then left: it does where only so the repeat comes out even.
    """
    end = bound(hand, until, step.place)
    if not hand.slid or not isinstance(until, ToLast) or step.cut is not None:
        return end
    start, limit, told = hand.moment(), hand.limit, len(hand.troubles)
    before = _anchor_before(hand, hand.slid)
    for whole in (limit, before):
        hand.limit = whole
        hand.limit = end = bound(hand, until, step.place)
        moments = _as_long(hand, step, run, most=1)
        even = not hand.remaining() and len(moments) > 1
        hand.back_to(start)
        del hand.troubles[told:]
        if even:
            hand.limit = whole
            return end
    hand.limit = limit
    return bound(hand, until, step.place)


def _anchor_before(hand: Hand, stitches: int) -> int:
    """Give the anchor before the last stitches of the edge."""
    at = len(hand.edge)
    while at > hand.cursor and hand.edge.stitches_between(at, len(hand.edge)) < stitches:
        at -= 1
    return at


def _at_turning_chain(hand: Hand, until: Until, end: int) -> bool:
    """Whether a run "to ch-4" ends at the chains that are left of it, which may be worked into."""
    named = isinstance(until, ToLast) and until.noun.thing is Thing.TURNING_CHAIN
    return named and set(hand.edge.roles[hand.cursor : end]) == {"C"}


def _left(hand: Hand, body: Steps) -> int:
    """Count what a repeat leaves: one that works stitches too passes over none of them."""
    over = hand.remaining()
    if over == 1 and _ends_in_gap(body):
        return 0  # the stitch behind the last gap
    if over and hand.slid and any(map(_inside_a_group, body)):
        # the first of the groups begins at the end of a round that was slipped into its middle
        return 0 if hand.edge.stitches_between(hand.cursor, hand.limit) == hand.slid else over
    if over == 0 and hand.noun.thing in _SPACES and any(_names_stitches(s) for s in body):
        return hand.edge.stitches_between(hand.cursor, hand.limit)
    return over


def _ends_in_gap(body: Steps) -> bool:
    made = [s for s in body if isinstance(s, Make | Group)]
    return bool(made) and isinstance(made[-1].at, Between)


def _inside_a_group(step: Step) -> bool:
    """Whether a step goes into a place of a group: `sc in 3rd dc of next petal`."""
    return isinstance(step, Make | Group) and isinstance(step.at, Within)


def _names_stitches(step: Step) -> bool:
    match step:
        case Make(_, _, Next(_, noun)) | Skip(Next(_, noun)) | Group(_, Next(_, noun)):
            return noun.thing not in _SPACES
        case Repeat(body):
            return any(_names_stitches(s) for s in body)
        case _:
            return False


def _times(hand: Hand, step: Repeat, times: int, run: Run) -> None:
    whole = times - 1 if step.cut is not None and times > 0 else times
    done, (under, tiles) = 0, hand.looks.body(step.body)
    first = hand.cursor
    while done < whole:
        before = hand.moment()
        try:
            run(hand, step.body)
        except Stuck as stuck:
            raise _too_often(hand, step, stuck, (first, before.cursor, done, whole)) from stuck
        done += 1
        made = len(hand.kinds) - before.made
        if made * (whole - done) > MOST_ANCHORS or (made == 0 and hand.cursor == before.cursor):
            if made == 0:
                return
            raise Stuck(Trouble(Failing.LIMIT, step.place, whole, MOST_ANCHORS))
        if tiles and whole - done > 1:
            done += hand.tile(before, whole - done, under=under)
    if step.cut is not None and times > 0:
        run(hand, step.body[: step.cut])


def _too_often(hand: Hand, step: Repeat, stuck: Stuck, way: tuple[int, int, int, int]) -> Stuck:
    """Say of a repeat that runs out of stitches what all its times need, not what one step does."""
    start, end, done, whole = way
    if done == 0 or stuck.trouble.failing is not Failing.TOO_FEW:
        return stuck
    taken, over = (
        hand.edge.stitches_between(start, end),
        hand.edge.stitches_between(end, hand.limit),
    )
    needed = taken // done * whole
    if taken % done or needed <= taken + over:
        return stuck
    return Stuck(Trouble(Failing.TOO_FEW, step.place, needed, taken + over))


def _as_long(hand: Hand, step: Repeat, run: Run, most: int = _MOST_BACK) -> list[Moment]:
    """Work whole repeats up to the limit; give the states after each of the last of them."""
    moments = [hand.moment()]
    if hand.elsewhere or hand.astray:
        raise Unknown  # nobody can tell how far an edge goes that only its name tells
    under, tiles = hand.looks.body(step.body)
    while hand.cursor < hand.limit:
        before = hand.moment()
        troubles = len(hand.troubles)
        try:
            run(hand, step.body)
        except Stuck as stuck:
            hand.back_to(before)
            del hand.troubles[troubles:]
            first = len(moments) == 1 and stuck.trouble.failing is not Failing.TOO_FEW
            if step.cut is None and (first or _off_the_beat(hand, moments, stuck)):
                raise
            break
        if hand.cursor == before.cursor and not hand.covered:
            raise Stuck(Trouble(Failing.UNEVEN, step.place, 0, hand.remaining()))
        moments.append(hand.moment())
        if tiles:
            _tile(hand, before, moments, most, under=under)
    _last_side(hand, step, moments, run)
    return moments


def _last_side(hand: Hand, step: Repeat, moments: list[Moment], run: Run) -> None:
    """Work on to the end of a round behind its last corner, though nobody says so.

    In "dc in each st to corner, 3 dc in corner; rep around" the first side was begun in its middle.
    """
    first = step.body[0] if step.body else None
    if not hand.edge.ring or len(moments) == 1 or hand.cursor >= hand.limit:
        return
    match first:
        case Make(at=Each(each, To(noun))) | Group(at=Each(each, To(noun))):
            if any(p[0] >= hand.cursor for p in hand.edge.places(noun)):
                return
            run(hand, (replace(first, at=Each(each)),))
            moments.append(hand.moment())
        case _:
            pass


def _off_the_beat(hand: Hand, moments: list[Moment], stuck: Stuck) -> bool:
    """Whether places enough are left for more repeats, but not the right ones."""
    if stuck.trouble.failing is not Failing.NO_PLACE or stuck.trouble.wanted <= 1:
        return False  # only a post some rows below tells that the beat is lost
    left = hand.edge.stitches_between(moments[-1].cursor, hand.limit)
    return left >= 2 * max(_width(hand, moments), 1)


def _tile(hand: Hand, before: Moment, moments: list[Moment], most: int, *, under: bool) -> None:
    first = moments[-1]
    laid = hand.tile(before, hand.limit, under=under)
    stride, made = first.cursor - before.cursor, first.made - before.made
    moments += [first.later(stride * k, made * k) for k in range(max(1, laid - most), laid + 1)]


def search(hand: Hand, step: Repeat, rest: Steps, run: Run) -> None:
    """Work a repeat and all that follows it, as often as lets the rest come out even."""
    moments = _as_long(hand, step, run)
    troubles = len(hand.troubles)
    stuck: Stuck | None = None
    over = hand.remaining()
    for then in reversed(moments[-_MOST_BACK:]):
        hand.tries += 1
        if hand.tries > _MOST_TRIES:
            break
        hand.back_to(then)
        del hand.troubles[troubles:]
        try:
            if step.cut is not None:
                run(hand, step.body[: step.cut])
            run(hand, rest)
        except Stuck as failed:
            stuck = failed if stuck is None else stuck
            continue
        if hand.left or (hand.left_behind() == 0 and len(hand.troubles) == troubles):
            return
    hand.back_to(moments[-1])
    del hand.troubles[troubles:]
    if stuck is not None and stuck.trouble.failing not in (Failing.TOO_FEW, Failing.LEFT_OVER):
        raise stuck
    raise Stuck(Trouble(Failing.UNEVEN, step.place, _width(hand, moments), over))


def _last_part(hand: Hand, step: Repeat, moments: list[Moment], run: Run) -> None:
    for then in reversed(moments[-_MOST_BACK:]):
        hand.back_to(then)
        try:
            run(hand, step.body[: step.cut])
        except Stuck:
            continue
        if hand.remaining() == 0:
            return
    hand.back_to(moments[-1])


def _width(hand: Hand, moments: list[Moment]) -> int:
    if len(moments) <= 1:
        return 0
    return hand.edge.stitches_between(moments[-2].cursor, moments[-1].cursor)
