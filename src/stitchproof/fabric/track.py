"""One way on: the live edge of a piece in one size, and how a row moves it.

Rows that are equal on equal edges are worked once: `Memory` keeps every worked course under the
identity of its steps, its numbers, the conventions and the edges within its reach, for all sizes
and all pieces.
"""

from collections.abc import Mapping
from dataclasses import field
from typing import Final, NamedTuple

from stitchproof.base.records import dataclass, replace
from stitchproof.fabric.alone import on_its_own
from stitchproof.fabric.conventions import Conventions
from stitchproof.fabric.edge import Edge
from stitchproof.fabric.founding import along_named_edge, begins_anew
from stitchproof.fabric.marked_anyhow import marked_anyhow
from stitchproof.fabric.memory import Facts, Memory
from stitchproof.fabric.rest import Rest, joins_rest, left_after, of_rest, of_row
from stitchproof.fabric.trouble import Unknown
from stitchproof.fabric.turned import from_last_space, opened, turned_round
from stitchproof.fabric.work import Ground, Made, work_course
from stitchproof.language.number import Number, Resolved
from stitchproof.language.tree import (
    Chain,
    Either,
    Join,
    Steps,
    ToMarked,
    Turn,
)
from stitchproof.language.walk import nodes

UNKNOWN: Final = Edge((), "", (), known=False)  # of which nothing can be told
KNOWN: Final = 2  # rows down that a kept row stands right in any case: itself, and what it took


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """Where the yarn is.

    Attributes
    ----------
    edge : Edge or None
        The live edge in the direction in which it was made; None when it is not known.
    founded : bool
        There has been a foundation; an unknown edge is then not an empty one.
    turned : bool or None
        The work was turned after the last row; None: not said; False: "do not turn".
    ahead : Chain or None
        A chain made for the next row.
    side : str
        Side that faced the maker in the last row: "RS", "WS" or empty.
    fastened : bool
        The yarn is cut.
    rest : (Edge, int, str) or None
        An edge that was left unworked from an anchor on, and the side that faced the maker then;
        `LOST` where it is not known from where on.
    older : tuple of (Edge, int, str)
        What rows before had left, which waits until that is worked: the back behind a front's neck.
    colour : str
        The colour on the hook; empty when none was named.
    astray : bool
        It was joined to an edge that is only named.
    spiral : bool
        The last round was worked round and not joined.
    in_space : bool
        It was joined into a space.
    short : bool
        The last row was one of short rows, which leave stitches for later.
    """

    edge: Edge | None = None
    founded: bool = False
    turned: bool | None = None
    ahead: Chain | None = None
    side: str = ""
    fastened: bool = False
    rest: Rest | None = None
    older: tuple[Rest, ...] = ()
    colour: str = ""
    astray: bool = False
    spiral: bool = False
    in_space: bool = False
    short: bool = False


@dataclass(slots=True, kw_only=True)
class Setting:
    """What holds for one row in one size.

    Attributes
    ----------
    resolved : Resolved
        What numbers come to.
    size : int
        Index into the worked sizes.
    conventions : Conventions
        What counts.
    choices : mapping of Either to int
        Readings taken.
    memory : Memory
        Courses worked before.
    ends, base
        The sides of the piece so far: see `Ground`.
    earlier : tuple of (int, Edge)
        Rows worked before, by number, where the steps name one.
    again : bool
        The row is an earlier one, worked again.
    known : dict of int to tuple
        Numbers of steps by their serial, as far as they were looked up.
    """

    resolved: Resolved
    size: int
    conventions: Conventions
    choices: Mapping[Either, int]
    memory: Memory
    ends: tuple[str, ...] = ()
    base: int = 0
    earlier: tuple[tuple[int, Edge], ...] = ()
    again: bool = False
    known: dict[int, tuple[int | None, ...]] = field(default_factory=dict, repr=False)

    def values_of(self, facts: Facts) -> tuple[int | None, ...]:
        """Give the numbers of some steps in this size, looked up once however often they recur.

        Raises
        ------
        Unknown
            When one has no value that fits the sizes.
        """
        values = self.known.get(facts.serial)
        if values is None:
            values = tuple(self.value_of(n) for n in facts.numbers)
            self.known[facts.serial] = values
        return values

    def value_of(self, number: Number) -> int | None:
        """Give a number in this size.

        Raises
        ------
        Unknown
            When it has no value that fits the sizes.
        """
        try:
            value = self.resolved.in_size(number, self.size)
        except LookupError:
            raise Unknown from None
        return value if value is None or isinstance(value, int) else int(value)


class Went(NamedTuple):
    """What one row comes to: what was made, where the yarn is after, the edge it was worked into.

    The edge is in the direction of working.
    """

    made: Made
    track: Track
    consumed: Edge | None


def advance(  # noqa: PLR0913 - all that is known of one row
    track: Track,
    steps: Steps,
    *,
    says_round: bool,
    side: str,
    told: bool = False,
    first: bool = False,
    setting: Setting,
) -> Went:
    """Work one row.

    Parameters
    ----------
    track : Track
        Where the yarn is before.
    steps : Steps
        The row.
    says_round : bool
        Its label says "Rnd".
    side : str
        Side the label gives, or empty.
    told : bool
        It states a count, by which it can be judged on an edge that is not known.
    first : bool
        It is numbered 1: what stands above may be another piece, without a heading between.
    setting : Setting
        What holds for it.

    """
    facts = setting.memory.facts(steps)
    turned = bool(track.turned) if facts.turn is None else facts.turn
    if track.older:
        last, older = of_row(track.rest, track.older, facts.rest, setting.value_of)
        track = track if last is track.rest else replace(track, rest=last, older=older)
    steps = of_rest(facts.rest) if _takes_up_rest(track, facts) else facts.rest
    if turned and track.spiral and not (says_round or facts.closes):
        track = replace(track, edge=opened(track.edge))
    ring = track.edge.ring if track.edge is not None else False
    anew = first and track.edge is not None and "S" in track.edge.roles and begins_anew(steps)
    afresh = anew or (track.fastened and facts.founds and not facts.joins)
    consumed = None if afresh else _oriented(track, facts, turned=turned)
    round_ = says_round or facts.closes or (ring and not _goes_flat(track, steps))
    named = track.astray if track.founded else facts.joins
    named = named or facts.on_named or (not track.founded and along_named_edge(steps))
    astray = consumed is None and named
    if astray:
        consumed = UNKNOWN
    ground = Ground(
        edge=consumed if (consumed is not None or facts.founds) else None,
        ahead=track.ahead,
        round=round_,
        conventions=setting.conventions,
        ends=setting.ends if facts.along else (),
        base=setting.base if facts.along else 0,
        colour=track.colour,
        astray=astray,
        spiral=track.spiral,
        in_space=track.in_space,
        earlier=setting.earlier,
        again=setting.again,
    )
    unknown = consumed is None and not afresh and (track.founded or not facts.founds)
    if not facts.read or unknown:
        made = _alone(steps, ground, setting) if told and facts.read else None
        made = made or Made(edge=None, troubles=(), fastened=facts.cuts)
    else:
        made = _worked(steps, ground, setting)
        if made.edge is None and not made.troubles and consumed is not None and not astray:
            made = _at_any_markers(steps, ground, setting) or made
        moved = astray and made.moved
        made = Made(edge=None, troubles=(), moved=True) if moved else made
        if astray and told and made.edge is None and begins_anew(steps):
            made = _on_own_chain(steps, ground, setting) or made
    goes_on = made.moved or (made.edge is not None and not made.edge.known)  # in the way it was
    now = side or facts.facing or _side_after(track, flips=turned if ring else True)
    after = Track(
        edge=made.edge,
        founded=track.founded or not facts.idle,
        turned=made.turned or (False if made.moved or facts.keeps else None),
        ahead=made.ahead,
        side=now,
        fastened=made.fastened or (track.fastened and facts.idle),
        colour=made.colour or track.colour,
        astray=astray and made.moved,
        spiral=(track.spiral if goes_on else round_) and (made.moved or not made.joined),
        in_space=track.in_space if made.moved else made.in_space,
    )
    left = consumed is not None and made.rest is not None and not astray
    rest, older = left_after(
        (track.rest, track.older),
        Rest(consumed, made.rest or 0, now) if left else None,
        took=_takes_up_rest(track, facts),
        short=track.short,
    )
    return Went(made, replace(after, rest=rest, older=older), consumed)


def _on_own_chain(steps: Steps, ground: Ground, setting: Setting) -> Made | None:
    """Work a strap along chains of its own, where nothing of it goes into the edge behind them."""
    made = _worked(steps, ground._replace(edge=None, astray=False), setting)
    return made if made.edge is not None and not made.troubles else None


def _alone(steps: Steps, ground: Ground, setting: Setting) -> Made | None:
    """Work a row on an edge of its own; None where it does not tell all of its places."""
    found = on_its_own(steps, setting.value_of, setting.choices, ring=ground.round)
    steps, edges = found if found is not None else ((), ())
    for edge in edges:
        made = _worked(steps, ground._replace(edge=edge), setting)
        if made.edge is not None and not made.troubles and not made.moved:
            return made
    return None


def _at_any_markers(steps: Steps, ground: Ground, setting: Setting) -> Made | None:
    """Work a row whose markers are nobody knows where; None where its count hangs on them."""
    edge = ground.edge
    if edge is None or not any(isinstance(node, ToMarked) for node in nodes(steps)):
        return None
    return marked_anyhow(
        steps,
        edge,
        setting.value_of,
        lambda marked: work_course(
            steps,
            ground._replace(edge=marked),
            setting.value_of,
            setting.choices,
            setting.memory.looks,
        ),
    )


def _worked(steps: Steps, ground: Ground, setting: Setting) -> Made:
    memory = setting.memory
    facts = memory.facts(steps)
    try:
        values = setting.values_of(facts)
        ahead = setting.value_of(ground.ahead.count) if ground.ahead is not None else None
    except Unknown:
        return work_course(steps, ground, setting.value_of, setting.choices, memory.looks)
    chosen = tuple(setting.choices.get(e, 0) for e in facts.doubts) if facts.doubts else ()
    key = (
        facts.serial,
        values,
        (ahead, ground.ahead.counts) if ground.ahead is not None else None,
        (ground.round, ground.again),
        setting.conventions.key,
        ground.edge.reach(facts.reach) if ground.edge is not None else None,
        chosen,
        ground.ends,
        ground.base,
        ground.colour,
        ground.spiral,
        ground.in_space,
        tuple((row, edge.digest) for row, edge in ground.earlier) if ground.earlier else (),
    )
    made = memory.made_before(key, steps)
    if made is None:
        made = work_course(steps, ground, setting.value_of, setting.choices, memory.looks)
        memory.keep_made(key, steps, made)
    return _standing_on(ground.edge, made, memory.deepest)


def _standing_on(below: Edge | None, made: Made, deepest: int) -> Made:
    """Put what was made before on the edge that is below it now.

    The row itself looks no deeper than its own reach, but a later one may look through it.
    """
    edge = made.edge
    if deepest <= KNOWN or below is None or edge is None or edge.below in (None, below):
        return made
    assert edge.below is not None
    kept, here = edge.below.reach(deepest), below.reach(deepest)
    if kept == here or kept[0] != here[0]:  # a round that was slipped along begins elsewhere
        return made
    return replace(made, edge=replace(edge, below=below))


# --------------------------------------------------------------------------- direction


def _oriented(track: Track, facts: Facts, *, turned: bool) -> Edge | None:
    """Give the live edge in the direction in which some steps meet it."""
    facing = facts.facing
    if _takes_up_rest(track, facts):
        assert track.rest is not None
        left, start, side, _ = track.rest
        if left is None:
            return None
        rest = left.from_anchor(start)
        return rest.turned if facing and side and facing != side else rest
    if facts.on_named:
        return None
    edge = track.edge
    if edge is None or (edge.ring and not edge.roles):
        return edge
    if edge.ring:
        return turned_round(edge) if turned else from_last_space(edge)
    if track.fastened and facing and track.side:
        return edge if facing == track.side else edge.turned
    if track.turned is False:
        return edge
    return edge.turned


def _takes_up_rest(track: Track, facts: Facts) -> bool:
    """Whether yarn is joined to what was left unworked, the other yarn being cut or done with."""
    if not facts.joins or track.rest is None:
        return False
    return track.fastened or joins_rest(facts.rest)


def _side_after(track: Track, *, flips: bool) -> str:
    if not track.side:
        return ""
    if not flips or track.turned is False:
        return track.side
    return "WS" if track.side == "RS" else "RS"


def _closes(steps: Steps) -> bool:
    return any(isinstance(s, Join) and s.do for s in steps)


def _goes_flat(track: Track, steps: Steps) -> bool:
    """Whether a row on a ring is turned and not joined: from there on it is flat."""
    if _closes(steps):
        return False
    return track.edge is not None and any(isinstance(s, Turn) and s.do for s in steps)


def placed(track: Track, edge: Edge | None) -> Track:
    """Give the same way on with another live edge."""
    return replace(track, edge=edge, founded=True)
