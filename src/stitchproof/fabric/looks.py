"""What each step of a course means by those beside it, seen once for all sizes.

Steps are read in the light of those that follow: whether a run leaves the turning chain for them,
whether they decide how often a repeat is worked. None of that depends on the edge or on numbers.
"""

from collections.abc import Callable
from dataclasses import field
from typing import Literal, NamedTuple

from stitchproof.base.records import dataclass
from stitchproof.fabric.beside import (
    alternating,
    ends_in_turning_chain,
    in_a_space,
    may_be_every_chain,
    names_exceptions,
    names_turning_chain,
    sweeps,
    with_stitch,
)
from stitchproof.fabric.edge import CENTRE_STITCH, CORNER
from stitchproof.fabric.order import On, Ordered, in_order
from stitchproof.language.tree import (
    AsLong,
    Behind,
    Below,
    Chain,
    Each,
    Either,
    End,
    First,
    Group,
    Make,
    Next,
    Noun,
    Nth,
    Remark,
    Repeat,
    Same,
    Skip,
    Skipped,
    Step,
    Steps,
    Thing,
    Times,
)


class Look(NamedTuple):
    """A step among those beside it.

    Attributes
    ----------
    step, following : Step, Step or None
        The step, and the one behind it.
    rest : Steps
        All that stand behind it.
    together : tuple of Make or Group
        The steps from here on that share one run.
    except_for : bool
        The following step names places where this one is worked otherwise.
    searched : bool
        How often this repeat is worked is decided by the rest.
    before_chain : str
        What of the turning chain its run leaves for steps that name it: "chain", or also its
        "space".
    space_next : bool
        What follows goes into a space.
    closes : bool
        On a ring, it closes the round in place of its last chains.
    chains_decide : bool
        The chains that lie ahead decide what it shares its run with.
    """

    step: Step
    following: Step | None
    rest: Steps
    together: tuple[Make | Group, ...]
    except_for: bool
    searched: bool
    before_chain: Literal["", "chain", "space"]
    space_next: bool
    closes: bool
    chains_decide: bool


class Body(NamedTuple):
    """What the steps of a repeat look at: the stitches below the edge; only what comes next."""

    under: bool
    tiles: bool


@dataclass(slots=True)
class Looks:
    """What was seen of steps, by their identity; the steps are kept alive."""

    _seen: dict[int, tuple[Steps, tuple[Look, ...]]] = field(default_factory=dict)
    _bodies: dict[int, tuple[Steps, Body]] = field(default_factory=dict)
    _orders: dict[tuple[int, On], Ordered] = field(default_factory=dict)

    def __len__(self) -> int:
        return len(self._seen) + len(self._bodies) + len(self._orders)

    def of(self, steps: Steps) -> tuple[Look, ...]:
        """Look at each of some steps."""
        known = self._seen.get(id(steps))
        if known is None:
            looks = tuple(look_at(steps, i) for i in range(len(steps)))
            known = self._seen[id(steps)] = steps, looks
        return known[1]

    def body(self, body: Steps) -> Body:
        """Look at the steps of a repeat."""
        known = self._bodies.get(id(body))
        if known is None:
            known = self._bodies[id(body)] = body, Body(_looks_below(body), _can_tile(body))
        return known[1]

    def order(self, steps: Steps, on: On) -> Ordered:
        """Look at the order of the steps of a course."""
        known = self._orders.get((id(steps), on))
        if known is None:
            known = self._orders[id(steps), on] = in_order(steps, on)
        return known

    def clear(self) -> None:
        """Forget all of it."""
        self._seen.clear()
        self._bodies.clear()
        self._orders.clear()


def look_at(steps: Steps, i: int, every_chain: Callable[[Step], bool] = lambda _: False) -> Look:
    """Look at a step; where chains ahead decide what it means, `every_chain` tells of them."""
    step, rest = steps[i], steps[i + 1 :]
    each = isinstance(step, Make | Group) and isinstance(step.at, Each)
    together = alternating(steps[i:], every_chain) if each else ()
    behind = steps[i + max(len(together), 1) :]
    before: Literal["", "chain", "space"] = ""
    if len(together) > 1:
        ends = sweeps(together[-1]) and ends_in_turning_chain(behind)
        before = "chain" if ends else ""
    elif sweeps(step):
        before = names_turning_chain(rest)
    return Look(
        step=step,
        following=rest[0] if rest else None,
        rest=rest,
        together=together,
        except_for=bool(rest) and names_exceptions(step, rest[0]),
        searched=isinstance(step, Repeat) and _wants_search(step, rest),
        before_chain=before,
        space_next=in_a_space(behind),
        closes=with_stitch(steps, i),
        chains_decide=each and any(map(may_be_every_chain, rest)),
    )


def _wants_search(step: Repeat, rest: Steps) -> bool:
    """Whether the steps after a repeat decide how often it is worked."""
    return (
        isinstance(step.often, AsLong)
        and isinstance(step.often.until, End)
        and (step.cut is not None or any(_consumes(s) for s in rest))
    )


def _consumes(step: Step) -> bool:
    match step:
        case Make(at=First()):
            return False  # behind a repeat it closes the round where that began
        case Make() | Skip() | Group():
            return True
        case Repeat(body):
            return any(_consumes(s) for s in body)
        case Either(readings):
            return any(_consumes(s) for reading in readings for s in reading)
        case _:
            return False


def _looks_below(body: Steps) -> bool:
    return any(
        (isinstance(s, Make) and isinstance(s.at, Below))
        or (isinstance(s, Group | Repeat) and _looks_below(s.body))
        for s in body
    )


def _can_tile(body: Steps) -> bool:
    """Whether a body only looks at what comes next, so that equal edges give equal stitches."""
    return all(_local(step) for step in body)


def _local(step: Step) -> bool:
    match step:
        case Make(_, _, at) | Skip(at):
            return _local_target(at)
        case Group(body, at, name):
            return not name and _local_target(at) and _can_tile(body)
        case Repeat(body, often):
            return isinstance(often, Times) and _can_tile(body)
        case Chain() | Remark():
            return True
        case _:
            return False


def _local_target(at: object) -> bool:
    match at:
        case Next(_, Noun(thing, kind)):
            shaped = kind in (CENTRE_STITCH, CORNER)  # found by the groups they stand in
            return thing is not Thing.GROUP and not shaped
        case Same(begins=False) | Behind() | Skipped():
            return True
        case Below(rows, under):
            return rows.value in ((1,), (2,)) and isinstance(under, Next)
        case Nth():
            return False
        case _:
            return False
