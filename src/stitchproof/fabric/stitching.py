"""Works steps one after another: what each kind of step does to the hand.

`run` is given back to the repeats, which work their bodies with it.
"""

from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from functools import partial

from stitchproof.base.records import replace
from stitchproof.fabric.along import along_row_ends
from stitchproof.fabric.begin import begin_chain, extend, origin_of, skipped_chains, skipped_first
from stitchproof.fabric.crossed import work_crossed
from stitchproof.fabric.edge import CENTRE, CENTRE_STITCH, CORNER, POST, Interval, foundation
from stitchproof.fabric.endings import join, joins_edge, leave, mark, rejoin
from stitchproof.fabric.founding import FOUNDING
from stitchproof.fabric.groups import counted_as
from stitchproof.fabric.hand import MOST_ANCHORS, Hand
from stitchproof.fabric.looks import Look, look_at
from stitchproof.fabric.nouns import bound, need_known, need_posts, places_of, understood
from stitchproof.fabric.phrases import (
    before_last,
    by_size,
    closes_round,
    every_chain,
    is_slip,
    opens_with_loop,
    passed_unsaid,
)
from stitchproof.fabric.picots import goes_back
from stitchproof.fabric.reach import reach
from stitchproof.fabric.repeat import loop, search
from stitchproof.fabric.schedule import go_on
from stitchproof.fabric.skipping import skip
from stitchproof.fabric.slipping import slip_to_start, slipped_into
from stitchproof.fabric.trouble import NONE_OF_THEM, Failing, Stuck, Trouble, Unknown
from stitchproof.language.tree import (
    SPACE,
    STITCH,
    Chain,
    Colour,
    Each,
    Either,
    Facing,
    FastenOff,
    First,
    Group,
    InPattern,
    Join,
    JoinYarn,
    Leave,
    MagicRing,
    Make,
    Mark,
    Next,
    Noun,
    Nth,
    Origin,
    Post,
    Remark,
    Repeat,
    Ring,
    RowEnds,
    Same,
    SeamSides,
    SeamTops,
    Shape,
    Skip,
    Step,
    Steps,
    Thing,
    Turn,
    Unread,
)
from stitchproof.trade.stitches import SEVERAL


def run(hand: Hand, steps: Steps) -> None:
    """Work steps one after another."""
    passed = 0
    for i, seen in enumerate(hand.looks.of(steps)):
        if i < passed:
            continue
        look = look_at(steps, i, partial(every_chain, hand)) if seen.chains_decide else seen
        step = look.step
        if isinstance(step, Repeat):
            hand.looped = True
            hand.spent = hand.spent or by_size(step)
            if opens_with_loop(hand, step):
                hand.begun = True  # its chain comes again and again: a loop, no turning chain
            if look.searched:
                search(hand, step, look.rest, run)
                return
        hand.space_next = look.space_next
        passed = i + _with_those_beside(hand, look)


def _with_those_beside(hand: Hand, look: Look) -> int:
    """Work a step as those beside it say; tell how many of them are worked with it."""
    step = look.step
    if look.except_for and look.following is not None:
        _with_exceptions(hand, step, look.following)
        return 2
    if len(look.together) > 1:
        with _before_turning_chain(hand) if look.before_chain else nullcontext():
            _interleave(hand, look.together)
        return len(look.together)
    if look.before_chain:
        with _before_turning_chain(hand, space=look.before_chain == "space"):
            _do(hand, step, None)
    elif isinstance(step, Repeat) and hand.edge.ring:
        _do_round(hand, step, look.rest)
    elif isinstance(step, Make) and look.closes and hand.edge.ring:
        _do(hand, replace(step, at=First()), None)
        hand.roles[-1] = "C"  # it stands for the last chains of the space that it closes
        hand.joined = True
    else:
        _do(hand, step, look.following)
    return 1


def _do_round(hand: Hand, step: Repeat, rest: Steps) -> None:
    """Work a repeat of a round, which may end within the next of its times."""
    told = len(hand.troubles)
    _do(hand, step, rest[0] if rest else None)
    if len(hand.troubles) == told:
        return
    last = hand.troubles[-1]
    uneven = last.failing is Failing.UNEVEN and last.place == step.place
    if uneven and last.had == passed_unsaid(hand, step, rest):
        del hand.troubles[-1]
    elif uneven and before_last(hand, step, rest, last.had):
        del hand.troubles[-1]
        hand.cursor -= last.had


@contextmanager
def _before_turning_chain(hand: Hand, *, space: bool = False) -> Iterator[None]:
    """Let a run to the end leave the turning chain, and its space, for the steps that name them."""
    limit = hand.limit
    places = hand.places(Noun(Thing.TURNING_CHAIN))
    if places and places[-1][0] > hand.cursor:
        end = places[-1][0]
        while space and end > hand.cursor and hand.edge.roles[end - 1] == "C":
            end -= 1
        hand.limit = min(limit, end)
    yield
    hand.limit = limit


def _with_exceptions(hand: Hand, each: Step, other: Step) -> None:
    """Work every place, some of them otherwise: "sc around, working 2 sc in 3rd and 6th st"."""
    assert isinstance(each, Make)
    assert isinstance(other, Make | Group)
    assert isinstance(each.at, Each)
    places = [p for p in places_of(hand, each.at.noun) if p[0] >= hand.cursor]
    if isinstance(other.at, Each):
        apart = max(hand.number(other.at.apart, other.place), 1)
        wanted = set(range(apart, len(places) + 1, apart))
    else:
        assert isinstance(other.at, Nth)
        wanted = {hand.number(n, other.place) for n in other.at.ordinals}
    if max(wanted, default=0) > len(places):
        short = Trouble(Failing.TOO_FEW, other.place, max(wanted), len(places), other.at.noun)
        raise Stuck(short)
    for i, place in enumerate(places):
        hand.last = place
        _do(hand, replace(other if i + 1 in wanted else each, at=Same(STITCH)), None)
    hand.cursor, hand.noun = hand.limit, STITCH


def _interleave(hand: Hand, steps: tuple[Make | Group, ...]) -> None:
    """Work steps that each take every place of their own kind, in the order of the edge."""
    last = steps[-1]
    assert isinstance(last.at, Each)
    end = bound(hand, last.at.until, last.place)
    places: list[tuple[Interval, Make | Group]] = []
    named: set[int] = set()  # corners and spaces, which plainer names beside them leave out
    for step in sorted(steps, key=_how_narrow, reverse=True):
        assert isinstance(step.at, Each)
        noun = understood(hand, step.at.noun, step.place)
        if _at_corner(step) or (_in_spaces(step) and not hand.edge.known):
            need_known(hand, noun)
        own = [p for p in places_of(hand, noun) if hand.cursor <= p[0] and p[1] <= end]
        spaces = _in_spaces(step) or _in_groups(step)
        if not own and spaces and not all(_in_spaces(other) for other in steps):
            none = Trouble(Failing.NO_PLACE, step.place, 1, NONE_OF_THEM, step.at.noun)
            hand.troubles.append(none)
        places += [(place, step) for place in own if place[0] not in named]
        if _at_corner(step) or spaces:
            named |= {i for a, b in own for i in range(a, b)}
    for place, step in sorted(places, key=lambda p: p[0]):
        hand.last = place
        _do(hand, replace(step, at=Same(SPACE)), None)
    hand.cursor, hand.noun = end, STITCH


def _how_narrow(step: Make | Group) -> tuple[bool, bool, bool]:
    """Order places: what is a corner is no plain space, and stitches of a group are in it."""
    return _at_corner(step), _in_groups(step), _in_spaces(step)


def _in_groups(step: Make | Group) -> bool:
    """Tell whether a step works groups of a name, or post stitches, whose stitches have others."""
    noun = step.at.noun if isinstance(step.at, Each) else None
    grouped = noun is not None and noun.thing is Thing.GROUP and bool(noun.kind)
    return grouped or (noun is not None and noun.kind == POST)


def _in_spaces(step: Make | Group) -> bool:
    spaces = (Thing.SPACE, Thing.CHAIN_SPACE)
    return isinstance(step.at, Each) and step.at.noun.thing in spaces


def _at_corner(step: Make | Group) -> bool:
    if not isinstance(step.at, Each):
        return False
    noun = step.at.noun
    return noun.kind in (CORNER, CENTRE_STITCH) or noun.thing is Thing.MARKED


def _do(  # noqa: C901, PLR0912 - one arm a step
    hand: Hand, step: Step, following: Step | None
) -> None:
    hand.note_skipped(step)
    match step:
        case Make():
            _make(hand, step)
        case Chain():
            _chain(hand, step, following)
        case Skip():
            skip(hand, step, following)
        case Group():
            _group(hand, step)
        case Repeat():
            loop(hand, step, run)
        case Either(readings):
            run(hand, readings[hand.choices.get(step, 0)])
        case Turn(do):
            hand.turned = hand.turned or do
        case Join():
            join(hand, step)
        case MagicRing():
            hand.edge, hand.founded, hand.centre = CENTRE, True, True
            hand.limit = 0
        case Leave():
            leave(hand, step)
        case FastenOff(do):
            hand.fastened = do
        case JoinYarn(at):
            if at is not None:
                rejoin(hand, step)
        case Mark():
            mark(hand, step)
        case Shape() | InPattern():
            go_on(hand, step)
        case Unread() | SeamTops() | SeamSides():
            raise Unknown
        case Colour(name, hook):
            if not hook:
                hand.colours.append((len(hand.kinds), name))
        case Remark() | Facing():
            pass


def _make(hand: Hand, step: Make) -> None:
    stitch, where = step.stitch, step.place
    if stitch.kind in FOUNDING and (not hand.founded or isinstance(step.at, Next)):
        _found(hand, step)
        return
    if stitch.kind in SEVERAL or not (hand.founded or isinstance(step.at, Ring)):
        raise Unknown
    if goes_back(hand, step):
        return
    if isinstance(step.at, Nth) and origin_of(hand, step.at) is Origin.HOOK:
        skipped_chains(hand, step, None)
    if isinstance(step.at, RowEnds):
        along_row_ends(hand, step, step.at)
        return
    each = hand.number(step.each, where)
    if each == 0:
        return
    if stitch.kind == "picot":
        # it stands on what was made last and takes nothing of the edge
        hand.groups += [(stitch.kind, len(hand.kinds), len(hand.kinds))] * each
        return
    if stitch.kind == "sl_st" and (closes_round(hand, step) or joins_edge(hand, step)):
        return
    textured = hand.slips_stand and isinstance(step.at, First | Nth) and not hand.edge.ring
    if stitch.kind == "sl_st" and not hand.begun and not textured and not hand.looped:
        slip_to_start(hand, step)
    else:
        _make_in(hand, step, each)


def _make_in(hand: Hand, step: Make, each: int) -> None:
    """Make `each` stitches in every place of a step."""
    stitch, where = step.stitch, step.place
    places = reach(hand, step.at, stitch.together, where)
    if stitch.post is not Post.NONE:
        need_posts(hand, places, where)
    over = len(places) % stitch.together
    if over and isinstance(step.at, Each):
        raise Stuck(Trouble(Failing.UNEVEN, where, stitch.together, over))
    hand.begun = True
    firsts = [-1 if hand.other_side else a for a, _ in places[:: stitch.together]]
    role = "L" if stitch.kind == "sl_st" and not hand.slips_stand else "S"
    if each == 1:
        hand.put(stitch.name, role, firsts, where)
    else:
        if len(firsts) * each > 10 * len(hand.edge) + 10_000:
            raise Stuck(Trouble(Failing.LIMIT, where, each, len(firsts)))
        if hand.other_side:  # what goes into one place of another side is a group there too
            firsts = [-2 - len(hand.kinds) - i for i in range(len(firsts))]
        hand.put(stitch.name, role, [a for a in firsts for _ in range(each)], where)


def _found(hand: Hand, step: Make) -> None:
    """Make stitches and their foundation in one, as a beginning or on from the row's stitches."""
    if not isinstance(step.at, Next):
        raise Unknown
    count = hand.number(step.at.number, step.place)
    hand.founded = hand.begun = True
    hand.put(step.stitch.name, "S", [-1] * count, step.place)


def _chain(hand: Hand, step: Chain, following: Step | None) -> None:
    count = hand.number(step.count, step.place)
    if count == 0 and step.counts is not None:
        if isinstance(following, Make | Group):
            skipped_chains(hand, following, step.counts)
        elif isinstance(following, Skip):
            skipped_first(hand, following, step.counts)
        return
    if not hand.founded:
        hand.edge, hand.founded = foundation(count), True
        hand.limit = count
        return
    if hand.astray and not hand.begun and not hand.first_kind:
        return  # "join yarn at underarm, ch 9": what it begins is told by the next line
    if not hand.begun:
        if hand.extends and "F" not in hand.edge.roles:
            extend(hand, count)
        else:
            begin_chain(hand, count, step.counts, following)
        return
    hand.put("ch", "C", [-1] * count, step.place)


def _group(hand: Hand, step: Group) -> None:
    skipped_chains(hand, step, None)
    if any(isinstance(inner, Skip) for inner in step.body):
        work_crossed(hand, step, run)
        return
    step = slipped_into(hand, step)
    places = reach(hand, step.at, 1, step.place)
    lead = next((s for s in step.body if not is_slip(s)), None)
    if not isinstance(lead, Chain):
        hand.begun = True  # else the round begins with a chain within the group
    after, noun = hand.cursor, hand.noun
    if not places:
        return
    start = len(hand.kinds)
    _group_at(hand, step, places[0])
    made = len(hand.kinds) - start
    if start + made * len(places) > MOST_ANCHORS:
        raise Stuck(Trouble(Failing.LIMIT, step.place, made * len(places), MOST_ANCHORS))
    first = places[0][0]
    for a, b in places[1:]:
        if step.name:
            hand.groups.append((counted_as(step.name), len(hand.kinds), len(hand.kinds) + made))
        block = hand.parents[start : start + made]
        hand.kinds += hand.kinds[start : start + made]
        hand.roles += hand.roles[start : start + made]
        hand.parents += [a if p == first else p for p in block]
        hand.last = (a, b)
    hand.cursor, hand.noun = max(after, hand.cursor), noun


def _group_at(hand: Hand, step: Group, place: tuple[int, int]) -> None:
    start = len(hand.kinds)
    hand.last = place
    for inner in step.body:
        hand.last = place
        _do(hand, inner, None)
    if step.name:
        hand.groups.append((counted_as(step.name), start, len(hand.kinds)))
    hand.last = place
