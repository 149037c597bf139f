"""How a course ends, breaks off and begins again: joins, stitches left, yarn rejoined, marks."""

from stitchproof.fabric.aside import NO_PLACE
from stitchproof.fabric.edge import BODY, CENTRE_STITCH, GAP, Edge, Interval
from stitchproof.fabric.groups import centres
from stitchproof.fabric.hand import Hand
from stitchproof.fabric.marks import HUNG, UNSURE, Marks
from stitchproof.fabric.reach import reach
from stitchproof.fabric.spaces import runs_of
from stitchproof.fabric.trouble import Failing, Trouble
from stitchproof.language.number import ONE
from stitchproof.language.tree import (
    STITCH,
    Between,
    Each,
    First,
    Join,
    JoinYarn,
    Last,
    Leave,
    Make,
    Mark,
    Marked,
    Next,
    Noun,
    Nth,
    Same,
    Target,
    Thing,
)

_SPACES = (Thing.SPACE, Thing.CHAIN_SPACE)
IN_GAP: Interval = (-2, -2)  # a gap where a round began: a place, but no anchor


def join(hand: Hand, step: Join) -> None:
    """Close the round, or the foundation to a ring; `do` False leaves it a spiral."""
    if not step.do:
        hand.spiral = True
        return
    hand.pass_covered()
    hand.joined = True
    match step.at:
        case First(noun=noun) | Next(noun=noun) | Last(noun=noun) | Same(noun):
            hand.in_space = noun.thing in _SPACES
        case _:
            hand.in_space = False
    if step.ring and not hand.kinds:
        hand.edge = Edge(
            hand.edge.kinds, hand.edge.roles, hand.edge.parents, ring=True, centre=True
        )


def leave(hand: Hand, step: Leave) -> None:
    """Leave the rest unworked, and hold the number left against what is said."""
    hand.left = True
    hand.pass_covered()
    if step.number is None:
        return
    count = hand.number(step.number, step.place)
    over = hand.remaining()
    if hand.noun.thing is Thing.KIND:  # stitches of all kinds are left
        over = hand.edge.stitches_between(hand.cursor, hand.limit)
    if step.noun.thing is Thing.GROUP:
        over = sum(start >= hand.cursor for start, _ in hand.edge.places(step.noun)) or count
    slid = {0, hand.slid, hand.slid + 1} if hand.slid else {0}  # they too are left, at its end
    if over - count not in slid and hand.edge.known:
        hand.troubles.append(Trouble(Failing.LEFT_OVER, step.place, count, over))


def rejoin(hand: Hand, step: JoinYarn) -> None:
    """Begin in a named place: the row goes on from there."""
    assert step.at is not None
    if hand.astray:
        return
    places = reach(hand, step.at, 1, step.place)
    if not places or places[-1] == NO_PLACE:
        return
    start, end = places[-1]
    if hand.edge.ring:
        begin_at(hand, step.at, (start, end))
    else:
        hand.cursor, hand.last = start, (start, end)


def begin_at(hand: Hand, at: Target, place: Interval) -> None:
    """Let a round begin at a place; a gap between two stitches is then beside its first stitch."""
    start, end = place
    gaps = hand.edge.places(Noun(Thing.SPACE, GAP))
    gap = isinstance(at, Between) or ((start, end) in gaps and hand.edge.roles[start] != "C")
    hand.edge = hand.edge.rotated(end % len(hand.edge) if gap else start)
    hand.cursor, hand.limit = 0, len(hand.edge)
    hand.last = IN_GAP if gap else (0, end - start)
    hand.begun_in_gap = gap


def mark(hand: Hand, step: Mark) -> None:
    """Mark a stitch of what was made so far, or of the edge when nothing was made."""
    if step.rows is not None:
        return
    if step.action == "remove":
        hand.unmarked = True
        return
    made = [i for i, role in enumerate(hand.roles) if role in "SK"]
    if step.action == "between" and made:
        hand.marks.append((HUNG, len(hand.roles)))
        return
    if step.action == "slip" and hand.edge.marks:
        return  # it goes up with the row
    if not made:
        hand.marks += _on_edge(hand, step)
        return
    middle = isinstance(step.at, Same) and step.at.noun.kind == CENTRE_STITCH
    if step.action == "move" and (step.at is None or middle) and hand.edge.marks:
        return  # it goes up with the row, into the middle of what is made in its stitch
    if step.action in {"move", "slip"} and step.at is None and not hand.edge.known:
        hand.marks.append(UNSURE)  # from a stitch that nobody knows
        return
    hand.marks += _on_made(hand, step, made)


def _on_made(hand: Hand, step: Mark, made: list[int]) -> list[tuple[str, int]]:
    """Give the marks for stitches of what was made so far."""
    match step.at:
        case Marked():
            at = -1
        case Each(noun=noun) | Next(noun=noun) if noun.thing in _SPACES and _are_several(step.at):
            return _in_spaces(hand, step, noun)
        case Next(noun=noun) | Same(noun) | First(noun=noun) if noun.thing in _SPACES:
            at = _last_space(hand)
        case Next(noun=noun) | Same(noun) if noun.kind == CENTRE_STITCH:
            at = _last_centre(hand, made)
        case Each(noun=noun) if noun.kind == CENTRE_STITCH:
            return [(step.name, i) for i, _ in centres(hand.parents, ring=False)] or [UNSURE]
        case Each():
            return [UNSURE]
        case First():
            at = made[0]
        case Nth(ordinals):
            numbers = [hand.number(n, step.place) or len(made) for n in ordinals]
            held = _made_together(hand, made) if len(numbers) == 1 else []
            if numbers[0] <= len(held):
                told = hand.looped or step.action == "move"  # else of them, or of the row
                return [(step.name, held[numbers[0] - 1]) if told else UNSURE]
            return [(step.name, made[min(n, len(made)) - 1]) for n in numbers]
        case _:
            at = made[-1]
    return [(step.name, at) if at >= 0 else UNSURE]


def _made_together(hand: Hand, made: list[int]) -> list[int]:
    """Give the stitches made last in one place, where they are several and not the whole row."""
    place = hand.parents[made[-1]]
    held = [i for i in made if hand.parents[i] == place]
    return held if 1 < len(held) < len(made) else []


def _last_centre(hand: Hand, made: list[int]) -> int:
    """Give the middle one of the stitches made last in one place; -1 where there is none."""
    place = hand.parents[made[-1]]
    held = [i for i in made if hand.parents[i] == place]
    return held[len(held) // 2] if len(held) % 2 else -1


def _are_several(at: Target | None) -> bool:
    return isinstance(at, Each) or (isinstance(at, Next) and at.number != ONE)


def _in_spaces(hand: Hand, step: Mark, noun: Noun) -> list[tuple[str, int]]:
    """Mark all spaces made so far; where others lie among them, which are meant is not told."""
    runs = runs_of("".join(hand.roles))
    if noun.chains is not None:
        runs = [(start, end) for start, end in runs if end - start == noun.chains]
    told = len({end - start for start, end in runs}) == 1
    if isinstance(step.at, Next):
        told = told and len(runs) == hand.number(step.at.number, step.place)
    return [(step.name, start) for start, _ in runs] if told else [UNSURE]


def _last_space(hand: Hand) -> int:
    """Give where the chains made last begin; -1 where none were made."""
    at = "".join(hand.roles).rfind("C")
    while at > 0 and hand.roles[at - 1] == "C":
        at -= 1
    return at


def _on_edge(hand: Hand, step: Mark) -> Marks:
    """Mark stitches of the edge that stands there already."""
    places: list[tuple[int, int]] = []
    match step.at:
        case Next(number, noun) if noun.thing in _SPACES:  # "in the 4 ch-1 sps": in all of them
            places = hand.edge.places(noun)[: hand.number(number, step.place)]
        case Next(number, noun) if hand.cursor:  # "skip 7 sts, place marker in next st"
            ahead = [p for p in hand.edge.places(noun) if p[0] >= hand.cursor]
            places = ahead[: hand.number(number, step.place)][-1:]
            hand.cursor = places[-1][1] if places else hand.cursor
        case First(number, noun) | Next(number, noun):
            places = hand.edge.places(noun)[: hand.number(number, step.place)][-1:]
        case Last(number, noun):
            places = hand.edge.places(noun)[-hand.number(number, step.place) :][:1]
        case Each(noun=noun) if noun.thing is not Thing.STITCH or noun.kind:
            places = hand.edge.places(noun)
        case Nth(ordinals):
            sts = hand.edge.places(STITCH)
            wanted = [hand.number(n, step.place) for n in ordinals]
            places = [sts[n - 1] for n in wanted if 0 < n <= len(sts)]
            if len(places) < len(wanted):
                return (UNSURE,)
        case _:
            pass
    return tuple((step.name, start) for start, _ in places) or (UNSURE,)


def joins_edge(hand: Hand, step: Make) -> bool:
    """Slip to the edge that a rib or an edging stands on; the rest of that edge is for later."""
    at = step.at
    if not isinstance(at, Next) or at.noun.kind != BODY:
        return False
    hand.pass_covered()
    count = hand.number(at.number, step.place)
    here = [p for p in hand.edge.places(STITCH) if p[0] >= hand.cursor][:count]
    hand.put("sl_st", "L", [-1] * count, step.place)
    hand.cursor = here[-1][1] if here else hand.cursor
    hand.begun = hand.left = True
    return True
