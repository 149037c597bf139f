"""Works the steps of one course, as a maker would, in one size.

`work_course` is pure: the same steps, numbers, conventions and edge give the same stitches. A
course that cannot be worked to its end gives its trouble and no edge.
"""

from collections.abc import Mapping
from itertools import pairwise
from typing import NamedTuple

from stitchproof.base.place import NOWHERE
from stitchproof.base.records import dataclass, replace
from stitchproof.fabric.begin import ahead_of_foundation, first_kind
from stitchproof.fabric.beside import beside_space
from stitchproof.fabric.conventions import Conventions, Switch
from stitchproof.fabric.edge import CENTRE, Edge
from stitchproof.fabric.four_sides import side_by_side
from stitchproof.fabric.hand import Hand, Move, ValueOf
from stitchproof.fabric.looks import Looks
from stitchproof.fabric.marks import Marks, carried
from stitchproof.fabric.order import On
from stitchproof.fabric.stitching import run
from stitchproof.fabric.trouble import Failing, Stuck, Trouble, Unknown
from stitchproof.language.tree import (
    Chain,
    Either,
    Steps,
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
    steps: Steps, ground: Ground, value_of: ValueOf, choices: Mapping[Either, int], looks: Looks
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
    looks : Looks
        What was seen of steps before.
    """
    edge = ground.edge
    on = On(
        nothing=edge is None,
        ring=edge is not None and edge.ring,
        round=ground.round,
        beside_space=edge is not None and beside_space(edge.roles),
    )
    order = looks.order(steps, on)
    hand = Hand(edge, ground.conventions, value_of, choices, looks)
    hand.first_kind = first_kind(steps, choices)
    hand.extends = order.from_hook
    hand.ends, hand.base = ground.ends, ground.base
    hand.astray = ground.astray
    hand.from_join, hand.from_space = not ground.spiral, ground.in_space
    hand.slips_stand, hand.centres_only = order.slips_stand, order.centres_only
    hand.flat = not ground.round
    hand.earlier, hand.again = dict(ground.earlier), ground.again
    if ground.colour:
        hand.colours.append((0, ground.colour))
    if edge is None and order.into_ring:
        hand.edge, hand.founded, hand.centre, hand.limit = CENTRE, True, True, 0
    try:
        ahead = ground.ahead
        if ahead is not None and not order.with_chain and not ahead_of_foundation(hand, ahead):
            run(hand, (ahead,))
        hand.course = order.body
        hand.beside_chain = order.beside_chain
        run(hand, side_by_side(hand, order.body))
        hand.pass_covered()
        hand.left = hand.left or order.says_its_end
    except Stuck as stuck:
        hand.troubles.append(stuck.trouble)
        return Made(edge=None, troubles=tuple(hand.troubles), asked=tuple(hand.asked))
    except Unknown:
        return Made(edge=None, troubles=(), asked=tuple(hand.asked))
    return _finish(hand, ground, order.ahead, steps)


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
        if hand.marks:
            return edge  # what was skipped lies between the markers
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
    put_in = tuple(mark for mark in hand.marks if mark[1] < len(hand.kinds))
    if hand.unmarked or not (hand.edge.marks or put_in):
        return put_in
    up = carried(hand.edge.marks, hand.parents, "".join(hand.roles))
    return tuple(dict.fromkeys((*up, *put_in)))


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
