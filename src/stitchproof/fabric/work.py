"""Works the steps of one course, as a maker would, in one size.

`work_course` is pure: the same steps, numbers, conventions and edge give the same stitches. A
course that cannot be worked to its end gives its trouble and no edge.
"""

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

from stitchproof.base.place import NOWHERE
from stitchproof.base.records import dataclass
from stitchproof.fabric.begin import first_kind
from stitchproof.fabric.conventions import Conventions, Switch
from stitchproof.fabric.edge import CENTRE, Edge
from stitchproof.fabric.four_sides import side_by_side
from stitchproof.fabric.hand import Hand, Move, ValueOf
from stitchproof.fabric.marks import Marks, carried
from stitchproof.fabric.phrases import (
    before_turning_chain,
    beside_space,
    space_of_turning_chain,
)
from stitchproof.fabric.stitching import run
from stitchproof.fabric.trouble import Failing, Stuck, Trouble, Unknown
from stitchproof.language.tree import (
    Chain,
    Colour,
    Each,
    Either,
    Facing,
    Group,
    Join,
    Leave,
    MagicRing,
    Make,
    Next,
    Nth,
    Origin,
    Remark,
    Repeat,
    Ring,
    Skip,
    Steps,
    To,
    ToLast,
    Turn,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What working one course gives.

    Attributes
    ----------
    edge : Edge or None
        The new live edge, in the direction of working; None when it is not known.
    troubles : tuple of Trouble
        What failed.
    ahead : Chain or None
        A chain at the end that begins the next course.
    turned, joined, fastened : bool
        What was done at the end.
    in_space : bool
        It was joined into a space.
    rest : int or None
        Anchor of the consumed edge from which the author left it unworked.
    asked : tuple of Switch
        Turning chains whose counting nobody said beside them.
    moved : bool
        Nothing was made; the yarn was only moved along.
    rows : int
        How many rows it came to; more than one for shaping by a schedule.
    colour : str
        The colour on the hook after it; empty when none was ever named.
    moves : tuple of Move or None
        Of shaping by a schedule: what its rows do to the ends of the fabric; None where that is
        not told, and for any other course.
    """

    edge: Edge | None
    troubles: tuple[Trouble, ...]
    ahead: Chain | None = None
    turned: bool = False
    joined: bool = False
    in_space: bool = False
    spiral: bool = False
    fastened: bool = False
    rest: int | None = None
    asked: tuple[Switch, ...] = ()
    moved: bool = False
    rows: int = 1
    colour: str = ""
    moves: tuple[Move, ...] | None = None


class Ground(NamedTuple):
    """What a course is worked on.

    Attributes
    ----------
    edge : Edge or None
        In the direction of working; None before any foundation.
    ahead : Chain or None
        The chain made at the end of the course before.
    round : bool
        It is worked round, joined or not.
    conventions : Conventions
        The counting rules.
    ends : tuple of str
        The stitch each row of the piece ends with, where the steps work along them.
    base : int
        Stitches along its foundation.
    colour : str
        The colour on the hook; empty when none was named.
    astray : bool
        The edge is only named, and what is made on it is known by the numbers told.
    spiral : bool
        The round before was not joined.
    in_space : bool
        It was joined into a space.
    earlier : tuple of (int, Edge)
        Earlier rows that the steps name, by number.
    again : bool
        The steps are those of an earlier row, worked again.
    """

    edge: Edge | None
    ahead: Chain | None
    round: bool
    conventions: Conventions
    ends: tuple[str, ...] = ()
    base: int = 0
    colour: str = ""
    astray: bool = False
    spiral: bool = False
    in_space: bool = False
    earlier: tuple[tuple[int, Edge], ...] = ()
    again: bool = False


def work_course(
    steps: Steps, ground: Ground, value_of: ValueOf, choices: Mapping[Either, int]
) -> Made:
    """Work one course.

    Parameters
    ----------
    steps : Steps
        What the author says.
    ground : Ground
        What it is worked on.
    value_of : callable
        A number's value in this size; raises `Unknown` where it has none.
    choices : mapping of Either to int
        Which reading is taken.
    """
    body, ahead = _split_ahead(steps, ground)
    if ground.edge is not None and beside_space(ground.edge.roles):
        body = space_of_turning_chain(body)
    hand = Hand(ground.edge, ground.conventions, value_of, choices, first_kind(steps, choices))
    hand.extends = _from_hook(body)
    hand.ends, hand.base = ground.ends, ground.base
    hand.astray = ground.astray
    hand.from_join, hand.from_space = not ground.spiral, ground.in_space
    hand.slips_stand = slips_in_texture(body)
    hand.earlier, hand.again = dict(ground.earlier), ground.again
    if ground.colour:
        hand.colours.append((0, ground.colour))
    if ground.edge is None and _into_ring(body):
        hand.edge, hand.founded, hand.centre, hand.limit = CENTRE, True, True, 0
    try:
        if ground.ahead is not None and not _starts_with_chain(body):
            run(hand, (ground.ahead,))
        hand.course = body
        hand.beside_chain = before_turning_chain(body)
        run(hand, side_by_side(hand, body))
        hand.pass_covered()
        hand.left = hand.left or _says_where_it_ends(body)
    except Stuck as stuck:
        hand.troubles.append(stuck.trouble)
        return Made(edge=None, troubles=tuple(hand.troubles), asked=tuple(hand.asked))
    except Unknown:
        return Made(edge=None, troubles=(), asked=tuple(hand.asked))
    return _finish(hand, ground, ahead, steps)


def slips_in_texture(steps: Steps) -> bool:
    """Whether slip stitches take turns with others: `*hdc in next st, sl st in next st; rep`."""
    for step in steps:
        if not isinstance(step, Repeat):
            continue
        kinds = {s.stitch.kind for s in step.body if isinstance(s, Make)}
        plain = all(isinstance(s, Make | Remark) for s in step.body)
        if plain and "sl_st" in kinds and len(kinds) > 1:
            return True
    return False


def _finish(hand: Hand, ground: Ground, ahead: Chain | None, steps: Steps) -> Made:
    rest: int | None = None
    if hand.kinds:
        over = 0 if hand.centre else hand.left_behind()
        if over and not hand.left and over != hand.slipped_over():
            place = steps[-1].place if steps else NOWHERE
            hand.troubles.append(Trouble(Failing.LEFT_OVER, place, 0, over))
        if hand.left or over > 0:
            rest = hand.cursor
    return Made(
        edge=_edge(hand, ground),
        troubles=tuple(hand.troubles),
        ahead=ahead,
        turned=hand.turned,
        joined=hand.joined,
        in_space=hand.in_space,
        spiral=hand.spiral,
        fastened=hand.fastened,
        rest=rest,
        asked=tuple(hand.asked),
        moved=ground.edge is not None and not hand.kinds,
        rows=hand.rows,
        colour=hand.colours[-1][1] if hand.colours else "",
        moves=None if hand.shaped is None else hand.shaped.moves,
    )


def _edge(hand: Hand, ground: Ground) -> Edge:
    if not hand.kinds:
        edge = hand.edge
        if hand.marks and edge.kinds:
            edge = replace(edge, marks=(*edge.marks, *hand.marks))
        if hand.joined and not edge.ring:
            return Edge(edge.kinds, edge.roles, edge.parents, ring=True, centre=True)
        return edge.from_anchor(hand.cursor) if hand.cursor and not edge.ring else edge
    roles = "".join(hand.roles)
    if hand.conventions.slips_count or not set(roles) & set("SK"):
        roles = roles.replace("L", "S")
    return Edge(
        kinds=tuple(hand.kinds),
        roles=roles,
        parents=tuple(hand.parents),
        ring=hand.joined or ground.round or (hand.centre and not hand.turned),
        below=hand.edge if not hand.other_side else ground.edge,
        groups=tuple(hand.groups),
        marks=_marks(hand),
        turning=hand.turning,
        colours=_colours(hand),
        known=not hand.guessed,
    )


def _marks(hand: Hand) -> Marks:
    """Give the markers that were put in, and those that went up from the edge below."""
    if hand.unmarked:
        return tuple(hand.marks)
    up = carried(hand.edge.marks, hand.parents, "".join(hand.roles))
    return tuple(dict.fromkeys((*up, *hand.marks)))


def _colours(hand: Hand) -> tuple[str, ...]:
    """Give each stitch the colour it was worked in."""
    if not hand.colours:
        return ()
    starts = [0, *(at for at, _ in hand.colours), len(hand.kinds)]
    names = ["", *(name for _, name in hand.colours)]
    return tuple(
        name
        for name, (start, end) in zip(names, pairwise(starts), strict=True)
        for _ in range(start, end)
    )


# --------------------------------------------------------------------------- order


_QUIET = (Remark, Colour, Facing)


def _split_ahead(steps: Steps, ground: Ground) -> tuple[Steps, Chain | None]:
    """Part off a chain at the end that begins the next course."""
    if ground.edge is None and not any(isinstance(s, Make | Group | Repeat) for s in steps):
        return steps, None
    end = len(steps)
    found: int | None = None
    turn = joined = False
    while end > 0:
        step = steps[end - 1]
        if isinstance(step, Turn) and step.do and not turn:
            turn = True
        elif isinstance(step, Chain) and found is None:
            found = end - 1
        elif isinstance(step, Join) and found is not None:
            joined = True
            break
        elif not isinstance(step, _QUIET):
            break
        end -= 1
    if found is not None and end == 0 and ground.edge is not None and not ground.edge.ring:
        chain = steps[found]  # a line that is a chain alone: the next row is worked back along it
        assert isinstance(chain, Chain)
        return (*steps[:found], *steps[found + 1 :]), chain
    if found is None or end == 0:
        return steps, None
    last = isinstance(steps[end - 1], Make | Group | Repeat | Either | Skip | Leave)
    if not (joined or (last and (turn or not ground.round))):
        return steps, None
    chain = steps[found]
    assert isinstance(chain, Chain)
    return (*steps[:found], *steps[found + 1 :]), chain


def _says_where_it_ends(steps: Steps) -> bool:
    """Whether the last thing worked ends before the end, as told: "sc to last 3 sts, turn"."""
    turns = any(isinstance(step, Turn) and step.do for step in steps)
    for step in reversed(steps):
        if isinstance(step, Make) and step.stitch.kind == "sl_st":
            return turns and step.at == Next()  # a short row: "sl st in next st, turn"
        if isinstance(step, Make):
            return isinstance(step.at, Each) and isinstance(step.at.until, ToLast | To)
        if isinstance(step, Group | Repeat | Skip | Either | Chain):
            return False
    return False


def _starts_with_chain(steps: Steps) -> bool:
    for step in steps:
        if isinstance(step, Chain):
            return True
        if not isinstance(step, (*_QUIET, Turn)):
            return False
    return False


def _into_ring(steps: Steps) -> bool:
    """Whether steps begin in a ring that they do not make themselves of chains."""
    for step in steps:
        match step:
            case Join(ring=True) | MagicRing() | Skip():
                return False
            case Make(at=at) | Group(at=at):
                return isinstance(at, Ring)
            case Repeat(body):
                return _into_ring(body)
            case _:
                pass
    return False


def _from_hook(steps: Steps) -> bool:
    """Whether the first stitch goes into a chain counted from the hook."""
    for step in steps:
        if isinstance(step, Make):
            return isinstance(step.at, Nth) and step.at.origin is Origin.HOOK
        if isinstance(step, Group | Repeat | Skip | Either):
            return False
    return False
