"""What a step means by the steps beside it, wherever they are worked."""

from collections.abc import Callable, Iterator
from typing import Literal

from stitchproof.base.records import replace
from stitchproof.fabric.edge import CENTRE_STITCH, CORNER
from stitchproof.language.number import ONE
from stitchproof.language.tree import (
    CHAIN,
    SPACE,
    STITCH,
    Chain,
    Each,
    Either,
    End,
    First,
    Group,
    Last,
    Make,
    Next,
    Noun,
    Nth,
    Origin,
    Repeat,
    Same,
    Skip,
    Step,
    Steps,
    Thing,
    To,
)

_STITCHES = (Thing.STITCH, Thing.KIND)


def sweeps(step: Step) -> bool:
    """Whether a step works every place to the end."""
    return (
        isinstance(step, Make | Group)
        and isinstance(step.at, Each)
        and isinstance(step.at.until, End)
    )


def ends_in_turning_chain(rest: Steps) -> bool:
    """Whether the next stitch goes into the turning chain: "..., dc in top of turning ch"."""
    for step in rest:
        if isinstance(step, Make):
            at = step.at
            if isinstance(at, Nth):
                return at.origin is Origin.TURNING_CHAIN
            return isinstance(at, Next | Last) and at.noun.thing is Thing.TURNING_CHAIN
        if isinstance(step, Group | Repeat | Skip | Either):
            return False
    return False


def names_turning_chain(rest: Steps) -> Literal["", "chain", "space"]:
    """Say what of the turning chain comes next: itself, or its space ("in ch-4 sp, in 3rd ch")."""
    if ends_in_turning_chain(rest):
        return "chain"
    at = rest[0].at if rest and isinstance(rest[0], Make) else None
    space = isinstance(at, Next | Last) and at.noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE)
    return "space" if space and ends_in_turning_chain(rest[1:]) else ""


def beside_space(roles: str) -> bool:
    """Whether the turning chain at the end of a row has a space beside it."""
    return roles.endswith("CK")


def space_of_turning_chain(steps: Steps) -> Steps:
    """Take "sc in turning-chain sp, sc in 3rd ch of turning chain" for its space and for itself."""
    return tuple(
        replace(step, at=Next(ONE, SPACE))
        if isinstance(step, Make)
        and isinstance(step.at, Next)
        and step.at.noun.thing is Thing.TURNING_CHAIN
        and ends_in_turning_chain(steps[i + 1 :])
        else step
        for i, step in enumerate(steps)
    )


def up_to_spaces(steps: Steps) -> Steps:
    """Take "dc in each dc across sleeve, dc in next ch-2 sp, dc in each dc …" up to that space.

    A run to the end of the row that other stitches follow ends at the space that comes next.
    """
    return tuple(
        replace(step, at=replace(step.at, until=To(space)))
        if isinstance(step, Make | Group)
        and isinstance(step.at, Each)
        and sweeps(step)
        and step.at.noun.thing in _STITCHES
        and (space := _space_next(steps, i)) is not None
        and any(map(_takes_stitches, steps[i + 2 :]))
        else step
        for i, step in enumerate(steps)
    )


def _space_next(steps: Steps, i: int) -> Noun | None:
    """Give the space that the step behind one goes into."""
    step = steps[i + 1] if i + 1 < len(steps) else None
    at = step.at if isinstance(step, Make | Group) else None
    spaces = (Thing.SPACE, Thing.CHAIN_SPACE)
    alone = isinstance(at, Next | Last) and at.number == ONE and at.noun.thing in spaces
    return at.noun if alone and isinstance(at, Next | Last) else None


def _takes_stitches(step: Step) -> bool:
    """Whether a step works stitches on, or passes some over."""
    at = step.at if isinstance(step, Make | Group | Skip) else None
    return isinstance(at, Next | Last | Each) and at.noun.thing in _STITCHES


def up_to_corners(steps: Steps) -> Steps:
    """Take "3 dc in each ch-1 sp along side, ch 1, (3 dc, ch 2, 3 dc) in corner" up to that corner.

    Parameters
    ----------
    steps : Steps
        A round; its repeats are looked into.
    """
    found: list[Step] = []
    for i, step in enumerate(steps):
        if isinstance(step, Repeat):
            body = _last_to_corner(up_to_corners(step.body))
            found.append(step if body == step.body else replace(step, body=body))
            continue
        corner = _corner_next(steps[i + 1 :]) if sweeps(step) else None
        if corner is None or not isinstance(step, Make | Group) or not isinstance(step.at, Each):
            found.append(step)
        else:
            found.append(replace(step, at=replace(step.at, until=To(corner))))
    return tuple(found)


def _last_to_corner(body: Steps) -> Steps:
    """Take "*(...) in corner, 1 dc in each st along side; rep" up to the corner it begins with."""
    last, corner = (body[-1], _corner_next(body)) if body else (None, None)
    if corner is None or not isinstance(last, Make | Group) or not isinstance(last.at, Each):
        return body
    at = replace(last.at, until=To(corner)) if sweeps(last) else last.at
    return (*body[:-1], replace(last, at=at))


def _corner_next(rest: Steps) -> Noun | None:
    """Give the corner that the next stitches go into, also those of a repeat; chains apart."""
    for step in rest:
        if isinstance(step, Repeat):
            return _corner_next(step.body)
        at = step.at if isinstance(step, Make | Group) else None
        if isinstance(at, Next) and at.number == ONE and at.noun.kind == CORNER:
            return at.noun
        if not isinstance(step, Chain):
            return None
    return None


def before_turning_chain(steps: Steps) -> Last | None:
    """Give the last stitch that is named beside the turning chain, and so is not the chain itself.

    "*…; rep from * to last dc, sc in last dc, sc in last ch-1 sp, sc in 3rd ch of turning ch."
    """
    for i, step in enumerate(steps):
        at = step.at if isinstance(step, Make | Group) else None
        named = isinstance(at, Last) and at.noun.thing in (Thing.KIND, Thing.STITCH)
        if named and names_turning_chain(steps[i + 1 :]):
            return at if isinstance(at, Last) else None
    return None


def centres_only(steps: Steps) -> bool:
    """Whether a course works the middle of groups only: "*sc in center dc of next petal, ch 7"."""
    worked = [step.at for step in _worked(steps) if not isinstance(step.at, Same)]
    middles = [isinstance(at, Next) and at.noun.kind == CENTRE_STITCH for at in worked]
    return bool(middles) and all(middles)


def _worked(steps: Steps) -> Iterator[Make | Group | Skip]:
    """Give what works places or passes them over, slip stitches apart; of doubts the likeliest."""
    for step in steps:
        match step:
            case Repeat(body):
                yield from _worked(body)
            case Either(readings):
                yield from _worked(readings[0])
            case Make(stitch) if stitch.kind == "sl_st":
                pass
            case Make() | Group() | Skip():
                yield step
            case _:
                pass


def in_a_space(rest: Steps) -> bool:
    """Whether the next step goes into a space: "to turning ch, sc in the ch-1 sp"."""
    at = rest[0].at if rest and isinstance(rest[0], Make | Group) else None
    return isinstance(at, Next) and at.noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE)


def alternating(
    steps: Steps, every_chain: Callable[[Step], bool] = lambda _: False
) -> tuple[Make | Group, ...]:
    """Give the steps at the front that share one run: "in each st and in each ch-1 sp across".

    Parameters
    ----------
    steps : Steps
        The steps.
    every_chain : callable
        Tells whether a step takes every chain that lies ahead, which the edge decides.
    """
    found: list[Make | Group] = []
    nouns: set[Noun] = set()
    open_, all_chains = True, False
    for step in steps:
        if open_ and nouns and all(map(_leaves_spaces, nouns)):
            all_chains = every_chain(step)
            step = _on_the_way(step, all_chains=all_chains)  # noqa: PLW2901
        if not (isinstance(step, Make | Group) and isinstance(step.at, Each)):
            break
        if step.at.noun in nouns or not open_:
            break
        nouns.add(step.at.noun)
        open_ = isinstance(step.at.until, End)
        found.append(step)
    spaces = sum(noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE) for noun in nouns)
    kinds = sum(noun.thing in (Thing.KIND, Thing.CHAIN) for noun in nouns)
    kinds += sum(noun.thing is Thing.GROUP and bool(noun.kind) for noun in nouns) if kinds else 0
    marked = any(noun.thing is Thing.MARKED for noun in nouns)
    named = any(noun.kind in (CORNER, CENTRE_STITCH) for noun in nouns) or marked
    chained = bool(found) and _every_stitch(found[0]) and CHAIN in nouns
    named = named or all_chains or chained
    apart = 0 < spaces < len(nouns) or len(nouns) in (spaces, kinds) or named
    return tuple(found) if len(found) > 1 and apart else tuple(found[:1])


def _leaves_spaces(noun: Noun) -> bool:
    """Whether other spaces may lie among the places of a noun: "each dc and each ch-1 sp"."""
    some = noun.thing is Thing.STITCH_OR_CHAIN and noun.chains is not None
    return some or noun.thing in _STITCHES


def _every_stitch(step: Make | Group) -> bool:
    return isinstance(step.at, Each) and step.at.noun == STITCH


def _on_the_way(step: Step, *, all_chains: bool) -> Step:
    """Take "4 sc in ch-6 sp" behind "sc in each sc" for the space that lies among them."""
    at = step.at if isinstance(step, Make | Group) else None
    if not isinstance(step, Make | Group) or not isinstance(at, Next) or at.noun.kind:
        return step
    if all_chains or at.noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE):
        return replace(step, at=Each(at.noun))
    return step


def with_stitch(steps: Steps, i: int) -> bool:
    """Whether a stitch closes a round in place of its last chains: "ch 2, dc in first sc"."""
    step = steps[i]
    if not isinstance(step, Make) or not isinstance(step.at, First) or step.at.number != ONE:
        return False
    after = any(isinstance(s, Make | Group | Repeat | Either | Skip) for s in steps[i + 1 :])
    before = i - 1
    while before > 0 and isinstance(steps[before], Skip):
        before -= 1  # "ch 2, sk last 2 dc, dc in first sc"
    return before >= 0 and isinstance(steps[before], Chain) and not after


def names_exceptions(step: Step, following: Step) -> bool:
    """Whether a step works every stitch and the next names some of them to be worked otherwise."""
    if not isinstance(step, Make) or not isinstance(following, Make | Group) or not sweeps(step):
        return False
    at = following.at
    if isinstance(at, Each):  # "sc around, working 2 sc in every 4th st"
        assert isinstance(step.at, Each)
        return at.apart != ONE and step.at.apart == ONE and at.noun.thing in _STITCHES
    return isinstance(at, Nth) and at.origin is Origin.EDGE and at.noun.thing is Thing.STITCH


def may_be_every_chain(step: Step) -> bool:
    """Whether a step may take every chain that lies ahead: "1 sc in each of the 7 ch"."""
    at = step.at if isinstance(step, Make) else None
    return isinstance(at, Next) and at.noun.thing is Thing.CHAIN and not at.noun.kind
