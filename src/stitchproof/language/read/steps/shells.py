"""Shells that no brackets hold: "3 dc, ch 2, 3 dc in next corner" all goes into the corner.

So does a petal, "sc, hdc, 5 dc, hdc, sc in next loop", which reads the same from both ends. Where
the place named is a stitch, the stitches before it may as well go one into each.
"""

from collections.abc import Sequence
from typing import Final, TypeAlias

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.doubt import open_reading
from stitchproof.language.read.steps.places import EACH, IN
from stitchproof.language.read.steps.reader import JOINING, Frame, Reader
from stitchproof.language.tree import (
    STITCH,
    Chain,
    Each,
    First,
    Group,
    Join,
    JoinYarn,
    Last,
    Make,
    Next,
    Noun,
    Repeat,
    Same,
    Step,
    Steps,
    Target,
    Thing,
    Turn,
    Within,
)

_Named: TypeAlias = Next | Same | Each | Within | First | Last
_SPACES: Final = frozenset((Thing.SPACE, Thing.CHAIN_SPACE, Thing.MARKED))
_STITCHES: Final = frozenset((Thing.STITCH, Thing.KIND, Thing.CHAIN))
_PLACED: Final = IN | EACH | word_set("next first last around across")
_WHY: Final = "stitches and chains before a place may all go into it, or only the last"
_NAMES: Final = ("all in the one place", "the last in it")
_PETAL: Final = 3  # kinds of stitches at least: "sc, dc, sc"
_LARGE: Final = 5


def settle_shells(reader: Reader, frame: Frame) -> None:
    """Put legs of one kind with chains between them into the place that the last one names.

    "2 dc, ch 2, 2 dc in corner" is a shell; of single stitches, "sc, ch 2, sc in corner", and
    where a stitch is the place, the counts have to decide.
    """
    frame.steps[:] = _with_shells(reader, frame.steps)


def _with_shells(reader: Reader, steps: Sequence[Step]) -> list[Step]:
    found: list[Step] = []
    i = 0
    while i < len(steps):
        step = steps[i]
        end = _run_end(reader, steps, i)
        if end and (_is_shell(steps, i, end) or _is_petal(steps[i:end])):
            found += _shell(tuple(steps[i:end]), behind_run=i > 0 and _sweeps(steps[i - 1]))
            end = _once_more(reader, steps, end, found)
        elif isinstance(step, Repeat):
            body = tuple(_with_shells(reader, step.body))
            found.append(step if body == step.body else replace(step, body=body))
            end = i + 1
        else:
            found.append(step)
            end = i + 1
        i = end
    return found


def _once_more(reader: Reader, steps: Sequence[Step], end: int, found: list[Step]) -> int:
    """Work the whole in the places behind an "and", too: "... in same loop and in each loop"."""
    last, whole = steps[end - 1], found[-1]
    while end < len(steps) and isinstance(whole, Group) and isinstance(last, Make):
        step = steps[end]
        if not isinstance(step, Make) or (step.stitch, step.each) != (last.stitch, last.each):
            break
        if reader.tokens[reader.first_of(step.place)].text not in JOINING:
            break
        found.append(replace(whole, at=step.at, place=step.place))
        end += 1
    return end


def _run_end(reader: Reader, steps: Sequence[Step], first: int) -> int:
    """Find where stitches without a place end in one that names a place for them all, or 0."""
    at = first
    while at < len(steps) and _is_leg(reader, steps[at]):
        at += 1
        if at < len(steps) and isinstance(steps[at], Chain):
            at += 1
    last = steps[at] if first < at < len(steps) else None
    if not isinstance(last, Make) or last.stitch.together != 1:
        return 0
    return at + 1 if _holds(last.at, begins=_begins(steps[:first])) else 0


def _is_leg(reader: Reader, step: Step) -> bool:
    """Tell whether a step makes stitches and names no place."""
    if not isinstance(step, Make) or not isinstance(step.at, Next) or step.at.noun != STITCH:
        return False
    if step.stitch.together != 1 or ONE not in {step.each, step.at.number}:
        return False
    return _PLACED.isdisjoint(reader.texts_of(step.place))


def _is_shell(steps: Sequence[Step], first: int, end: int) -> bool:
    """Tell whether legs of one kind and size have chains between them."""
    run = steps[first:end]
    legs = [step for step in run if isinstance(step, Make)]
    if len(run) != 2 * len(legs) - 1 or len({leg.stitch for leg in legs}) > 1:
        return False
    after_chain = first > 0 and isinstance(steps[first - 1], Chain)
    return _as_many(_made(legs[0]), _made(legs[-1]), after_chain=after_chain)


def _is_petal(run: Sequence[Step]) -> bool:
    """Tell whether stitches of several kinds read the same from both ends."""
    parts = [
        (step.stitch.kind, _made(step).value) if isinstance(step, Make) else ("", _chained(step))
        for step in run
    ]
    kinds = sum(isinstance(step, Make) for step in run)
    return kinds >= _PETAL and parts == parts[::-1] and len({kind for kind, _ in parts} - {""}) > 1


def _chained(step: Step) -> object:
    return step.count.value if isinstance(step, Chain) else None


def _made(step: Make) -> Number:
    return step.at.number if step.each == ONE and isinstance(step.at, Next) else step.each


def _as_many(one: Number, last: Number, *, after_chain: bool) -> bool:
    """Tell whether the legs are as large; one that a chain stands before may lack a stitch."""
    if one == last:
        return True
    few, many = one.value, last.value
    if not after_chain or not isinstance(few, tuple) or not isinstance(many, tuple):
        return False
    return all(a is not None and a + 1 == b for a, b in zip(few, many, strict=False))


def _begins(before: Sequence[Step]) -> bool:
    """Tell whether nothing is worked yet but chains and slip stitches."""
    return all(
        isinstance(step, Chain | Turn | Join | JoinYarn)
        or (isinstance(step, Make) and step.stitch.kind == "sl_st")
        for step in before
    )


def _holds(at: Target, *, begins: bool) -> bool:
    """Tell whether all that stands before a place may go into it.

    "2 dc, ch 2, 2 dc in same st" further on has its first leg in the next stitch, or no sense.
    """
    noun: Noun | None = at.noun if isinstance(at, _Named) else None
    one = not isinstance(at, Next | First | Last) or at.number == ONE
    if not one or noun is None:
        return False
    return noun.thing in _SPACES or (
        noun.thing in _STITCHES and (begins or not isinstance(at, Same))
    )


def _sweeps(step: Step) -> bool:
    return isinstance(step, Make | Group) and isinstance(step.at, Each)


def _shell(steps: Steps, *, behind_run: bool) -> Steps:
    """Put all into the one place; behind "dc in each dc to corner" nothing else is left for it."""
    last = steps[-1]
    assert isinstance(last, Make)
    body = tuple(
        replace(step, each=_made(step), at=Same()) if isinstance(step, Make) else step
        for step in (*steps[:-1], replace(last, at=Next()))
    )
    place = steps[0].place.to(last.place)
    whole = (Group(body, last.at, "", place),)
    if _is_sure(steps, last.at) or (behind_run and _in_space(last.at)):
        return whole
    readings = (steps, whole) if _one_each(steps, last.at) else (whole, steps)
    names = _NAMES if readings[0] == whole else _NAMES[::-1]
    return open_reading(readings, _WHY, names, place)


def _is_sure(steps: Steps, at: Target) -> bool:
    """Tell whether only the one place can be meant: a space, and more than a stitch in it."""
    legs = [step for step in steps if isinstance(step, Make)]
    many = any(_made(leg) != ONE for leg in legs) or len(legs) >= _LARGE
    return many and _in_space(at)


def _in_space(at: Target) -> bool:
    return isinstance(at, _Named) and at.noun.thing in _SPACES


def _one_each(steps: Steps, at: Target) -> bool:
    """Tell whether "dc, ch 1, dc in each st across" more likely begins with a stitch apart."""
    last = steps[-1]
    assert isinstance(last, Make)
    return isinstance(at, Each) and at.noun.thing in _STITCHES and _made(last) == ONE
