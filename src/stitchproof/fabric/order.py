"""What is known of a course from the order of its steps, whatever the size."""

from itertools import takewhile
from typing import NamedTuple, TypeGuard

from stitchproof.fabric.beside import (
    before_turning_chain,
    centres_only,
    space_of_turning_chain,
    up_to_corners,
    up_to_spaces,
)
from stitchproof.language.stitch import Loop
from stitchproof.language.tree import (
    Chain,
    Colour,
    Each,
    Either,
    Facing,
    Group,
    Join,
    Last,
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
    Step,
    Steps,
    To,
    ToLast,
    Turn,
)

_QUIET = (Remark, Colour, Facing)


class On(NamedTuple):
    """What a course is worked on, as far as it decides where the course ends.

    Attributes
    ----------
    nothing, ring : bool
        There is no edge; it is a ring.
    round : bool
        The course is worked round, joined or not.
    beside_space : bool
        The edge ends in a turning chain with a space beside it.
    """

    nothing: bool
    ring: bool
    round: bool
    beside_space: bool


class Ordered(NamedTuple):
    """What is known of a course from the order of its steps.

    Attributes
    ----------
    steps : Steps
        All of them: what is known is kept by their identity.
    body, ahead : Steps, Chain or None
        The course without a chain at its end that begins the next one; that chain.
    from_hook, into_ring, with_chain : bool
        It begins in a chain counted from the hook; in a ring; with a chain.
    slips_stand : bool
        Its slip stitches take turns with other stitches.
    centres_only : bool
        It is worked in the middle of groups and nowhere else.
    says_its_end : bool
        It says that it ends before the end of the edge.
    beside_chain : Last or None
        The last stitch that it names beside the turning chain.
    """

    steps: Steps
    body: Steps
    ahead: Chain | None
    from_hook: bool
    into_ring: bool
    with_chain: bool
    slips_stand: bool
    centres_only: bool
    says_its_end: bool
    beside_chain: Last | None


def in_order(steps: Steps, on: On) -> Ordered:
    """Look at the order of the steps of a course."""
    body, ahead = _split_ahead(steps, on)
    body = up_to_spaces(space_of_turning_chain(body) if on.beside_space else body)
    body = up_to_corners(body) if on.ring else body
    return Ordered(
        steps=steps,
        body=body,
        ahead=ahead,
        from_hook=_from_hook(body),
        into_ring=_into_ring(body),
        with_chain=_starts_with_chain(body),
        slips_stand=_slips_in_texture(body),
        centres_only=centres_only(body),
        says_its_end=_says_where_it_ends(body),
        beside_chain=before_turning_chain(body),
    )


def _split_ahead(steps: Steps, on: On) -> tuple[Steps, Chain | None]:
    """Part off a chain at the end that begins the next course."""
    if on.nothing and not any(isinstance(s, Make | Group | Repeat) for s in steps):
        return _turned_foundation(steps)
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
    if found is not None and end == 0 and not on.nothing and not on.ring:
        chain = steps[found]  # a line that is a chain alone: the next row is worked back along it
        assert isinstance(chain, Chain)
        return (*steps[:found], *steps[found + 1 :]), chain
    if found is None or end == 0:
        return steps, None
    last = isinstance(steps[end - 1], Make | Group | Repeat | Either | Skip | Leave)
    if not (joined or (last and (turn or not on.round))):
        return steps, None
    chain = steps[found]
    assert isinstance(chain, Chain)
    return (*steps[:found], *steps[found + 1 :]), chain


def _turned_foundation(steps: Steps) -> tuple[Steps, Chain | None]:
    """Part off the turning chain behind a foundation: `Ch 20, ch 3 to turn`."""
    chains = [i for i, step in enumerate(steps) if isinstance(step, Chain)]
    plain = all(isinstance(step, (*_QUIET, Chain, Turn)) for step in steps)
    turned = any(isinstance(step, Turn) and step.do for step in steps)
    match chains:
        case [_, last] if plain and turned:
            chain = steps[last]
            assert isinstance(chain, Chain)
            return (*steps[:last], *steps[last + 1 :]), chain
        case _:
            return steps, None


def _slips_in_texture(steps: Steps) -> bool:
    """Whether slip stitches are stitches of the row: `*hdc in next st, sl st in next st; rep`.

    So they are in one loop, and in a foundation before others: a hat is narrower at its crown.
    """
    if _slips_along_hook(steps):
        return True
    for step in steps:
        if _is_slip(step) and step.stitch.loop is not Loop.BOTH:
            return True
        if not isinstance(step, Repeat):
            continue
        kinds = {s.stitch.kind for s in step.body if isinstance(s, Make)}
        plain = all(isinstance(s, Make | Remark) for s in step.body)
        if plain and "sl_st" in kinds and len(kinds) > 1:
            return True
    return False


def _is_slip(step: Step) -> TypeGuard[Make]:
    """Whether a step makes slip stitches."""
    return isinstance(step, Make) and step.stitch.kind == "sl_st"


def _slips_along_hook(steps: Steps) -> bool:
    """Whether a foundation begins with slip stitches, and other stitches follow them."""
    made = [step for step in steps if not isinstance(step, (*_QUIET, Turn))]
    slips = list(takewhile(_is_slip, made))
    if len(slips) in {0, len(made)} or isinstance(made[len(slips)], Chain):
        return False
    first = slips[0]
    at = first.at if isinstance(first, Make) else None
    return isinstance(at, Nth) and at.origin is Origin.HOOK


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
    """Whether chains are made first; none are where only those skipped at the hook are told."""
    for step in steps:
        if isinstance(step, Chain) and step.count.value == (0,) and step.counts is not None:
            continue
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
