"""What a step means by where the hand is, and by the steps beside it."""

from stitchproof.base.records import replace
from stitchproof.fabric.beside import with_stitch
from stitchproof.fabric.hand import Hand
from stitchproof.language.number import plain
from stitchproof.language.tree import (
    AsLong,
    Chain,
    Each,
    Either,
    Group,
    Last,
    Make,
    Next,
    Repeat,
    Skip,
    Step,
    Steps,
    Target,
    Thing,
    Times,
    ToLast,
    Turn,
)


def every_chain(hand: Hand, step: Step) -> bool:
    """Tell whether "1 sc in each of the 7 ch" is every chain that lies ahead."""
    at = step.at if isinstance(step, Make) else None
    if not isinstance(at, Next) or at.noun.thing is not Thing.CHAIN or at.noun.kind:
        return False
    chains = hand.edge.roles.count("C", hand.cursor, hand.limit)
    return chains > 1 and hand.number(at.number, step.place) == chains


def closes_round(hand: Hand, step: Make) -> bool:
    """Whether a slip stitch at the end of a round goes into the first stitch of the same round."""
    if not hand.begun or not hand.edge.ring or not isinstance(step.at, Next):
        return False
    if step.at.noun.thing is not Thing.STITCH or hand.remaining():
        return False
    over = hand.edge.stitches_between(hand.cursor, hand.limit)  # behind the last space
    return not over or over != hand.number(step.at.number, step.place)


def passed_unsaid(hand: Hand, step: Repeat, rest: Steps) -> int:
    """Count the stitches that the end of a round passes as its repeat does, and does not say.

    "*ch 3, sk next 2 sts, sc in next st; rep from * around, ch 3, join": the last chains begin the
    repeat once more, and the join is where its stitch would be.
    """
    match step.body, rest:
        case (Chain() as over, Skip(Next(number)) as skip, Make(), *_), (Chain() as last, *tail):
            closed = bool(tail) and with_stitch(rest, 1)
            if not closed and hand.number(over.count, over.place) != hand.number(
                last.count, last.place
            ):
                return 0
            more = tail[1:] if closed else tail
            if any(isinstance(s, Make | Group | Repeat | Either | Skip) for s in more):
                return 0
            return hand.number(number, skip.place)
        case _:
            return 0


def before_last(hand: Hand, step: Repeat, rest: Steps, over: int) -> bool:
    """Tell whether `over` stitches before the last are told behind a repeat that ends there.

    "Rep from * to last sc, sk 2 dc, 5 dc in last sc" ends before those two dc.
    """
    match step.often, rest:
        case AsLong(ToLast(_, noun)), (Skip(Next(number)) as skip, Make(at=Last(_, last)), *_):
            plain_ones = not hand.edge.roles.count("C", hand.cursor - over, hand.cursor)
            return noun == last and plain_ones and hand.number(number, skip.place) == over
        case _:
            return False


def under_chain(hand: Hand, step: Skip, following: Step | None) -> bool:
    """Whether the one stitch skipped is that on which a counted turning chain stands."""
    at = step.at
    if not isinstance(at, Next) or hand.roles != ["K"] or hand.number(at.number, step.place) != 1:
        return False
    solid = isinstance(following, Make) and (
        isinstance(following.at, Each)
        or (isinstance(following.at, Next) and hand.number(following.at.number, step.place) > 1)
    )
    return solid if hand.conventions.under is None else hand.conventions.under


def by_size(step: Repeat) -> bool:
    """Tell whether a repeat is done another number of times in each size.

    "*…* 0 (2, 4, 6) times, sc in each remaining st": in one of them nothing may remain.
    """
    if not isinstance(step.often, Times):
        return False
    value = step.often.number.value
    return not isinstance(value, tuple) or len(set(value)) > 1


def beyond_chain(hand: Hand, step: Skip) -> Target:
    """Give what a skip passes where the stitch under a chain and its space is one of those said."""
    at = step.at
    opens = just_begun(hand) and len(hand.roles) > 1 and hand.conventions.under
    if not opens or not isinstance(at, Next) or hand.number(at.number, step.place) < 2:  # noqa: PLR2004
        return at
    return replace(at, number=plain(hand.number(at.number, step.place) - 1))


def just_begun(hand: Hand) -> bool:
    """Whether nothing stands but a turning chain that counts, and its space."""
    return bool(hand.roles) and hand.roles[0] == "K" and set(hand.roles[1:]) <= {"C"}


def opens_with_loop(hand: Hand, step: Repeat) -> bool:
    """Whether a repeat that begins a course begins with a chain: `*ch 3, skip 1, sl st in next`."""
    if hand.begun or hand.kinds or not hand.founded or not hand.edge.roles or not step.body:
        return False
    if isinstance(step.often, Times) and hand.number(step.often.number, step.place) < 2:  # noqa: PLR2004
        return False  # of some sizes alone: nothing comes again
    return isinstance(step.body[0], Chain) and not any(isinstance(s, Turn) for s in step.body)


def is_slip(step: Step) -> bool:
    """Whether a step is a slip stitch."""
    return isinstance(step, Make) and step.stitch.kind == "sl_st"
