"""Rows with so many plain stitches more, or fewer, between those that shape than an earlier row."""

from collections.abc import Iterator, Sequence
from typing import Final

from stitchproof.base.records import replace
from stitchproof.fabric.edge import GAP
from stitchproof.fabric.trouble import Unknown
from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.tree import (
    Between,
    Chain,
    Each,
    Group,
    Last,
    Make,
    Next,
    Noun,
    Repeat,
    Step,
    Steps,
    Thing,
    Times,
)


def grown_rows(cycle: Sequence[Steps], rows: int, by: int, *, groups: bool) -> Iterator[Steps]:
    """Give so many rows, turn upon turn of a cycle: those that shape grow with every turn.

    Raises
    ------
    Unknown
        Where it is not plain what grows.
    """
    grow = sides_grown if groups else grown
    even = [len(cycle) > 1 and _is_even(steps) for steps in cycle]
    if all(even):
        raise Unknown
    for i in range(rows):
        turn, at = divmod(i, len(cycle))
        yield cycle[at] if even[at] else grow(cycle[at], by * (turn + 1))


def _is_even(steps: Steps) -> bool:
    """Whether a row only works one stitch in every place."""
    made = [step for step in steps if _takes(step)]
    return (
        bool(made)
        and all(
            isinstance(step, Make)
            and step.each == ONE
            and isinstance(step.at, Each)
            and step.stitch.together == 1
            for step in made
        )
        and not any(isinstance(step, Repeat) for step in steps)
    )


def grown(steps: Steps, by: int) -> Steps:
    """Give the steps of a row with `by` stitches more between its shaping.

    Raises
    ------
    Unknown
        Where the row does not part into plain stitches and shaping.
    """
    repeats = [i for i, step in enumerate(steps) if isinstance(step, Repeat)]
    if len(repeats) != 1:
        raise Unknown
    at = repeats[0]
    repeat = steps[at]
    assert isinstance(repeat, Repeat)
    if any(isinstance(step, Make) and _is_plain(step) for step in steps[at + 1 :]):
        raise Unknown  # whether these grow too is not said
    begun = any(map(_takes, steps[:at]))
    before = _with_more(steps[:at], by) if begun else steps[:at]
    return (*before, replace(repeat, body=_with_more(repeat.body, by)), *steps[at + 1 :])


def sides_grown(steps: Steps, by: int) -> Steps:
    """Give the steps of a round with `by` groups more along each of its sides.

    Raises
    ------
    Unknown
        Where not every side repeats its groups a number of times.
    """
    found = 0
    grown_steps: list[Step] = []
    steps = tuple(map(_in_next_gap, steps))
    for step in steps:
        match step:
            case Repeat(body, Times(number, more)) if _is_side(body):
                longer = _sum(number, by)
                if longer is None or more:
                    raise Unknown
                grown_steps.append(replace(step, often=Times(longer)))
                found += 1
            case Repeat(body):
                inner = sides_grown(body, by)
                grown_steps.append(replace(step, body=inner))
            case _:
                grown_steps.append(step)
    alone = [i for i, step in enumerate(steps) if _in_space(step) and _side_at(steps, i)]
    if found + len(alone) != 1:
        raise Unknown  # where the sides lie is not plain
    if alone:
        at, end = alone[0], alone[0] + _side_at(steps, alone[0])
        grown_steps[at:end] = [Repeat(steps[at:end], Times(plain(1 + by)))]
    return tuple(grown_steps)


def _in_next_gap(step: Step) -> Step:
    """Take a group "in space between next two groups", "in last space between groups" for one gap.

    So worked, a side of several goes from gap to gap.
    """
    if not isinstance(step, Make) or step.each == ONE:
        return step
    match step.at:
        case Between(Next(noun=Noun(Thing.GROUP))):
            return replace(step, at=Next(ONE, _GAP))
        case Last(number, Noun(Thing.SPACE, kind)) if number == ONE and kind in {"", GAP}:
            return replace(step, at=Next(ONE, _GAP))
        case _:
            return step


_GAP: Final = Noun(Thing.SPACE, GAP)


def _side_at(steps: Steps, i: int) -> int:
    """Count the steps of a group and the chain behind it; groups in gaps have none. 0: no side."""
    if _is_side(steps[i : i + 2]):
        return 2
    at = getattr(steps[i], "at", None)
    return int(isinstance(at, Next) and at.noun == _GAP)


def _is_side(steps: Steps) -> bool:
    """Whether steps are one group in the next space and a chain: `(3 dc in next sp, ch 1)`."""
    match steps:
        case (Make() as step,) | (Make() as step, Chain()):
            return _in_space(step)
        case _:
            return False


def _in_space(step: Step) -> bool:
    """Whether a group is made in the next space that is no corner."""
    if not isinstance(step, Make) or not isinstance(step.at, Next):
        return False
    noun = step.at.noun
    slipped = step.stitch.kind == "sl_st"
    side = not noun.kind or noun.kind == GAP
    return not slipped and step.at.number == ONE and noun.thing in _SPACES and side


_SPACES: Final = (Thing.SPACE, Thing.CHAIN_SPACE)


def _with_more(steps: Steps, by: int) -> Steps:
    """Lengthen the one run of plain stitches; where there is none, put one before the shaping."""
    made = [i for i, step in enumerate(steps) if _takes(step)]
    runs = [i for i in made if _is_plain(steps[i])]
    shaped = [i for i in made if i not in runs]
    if len(runs) > 1 or not shaped or (not runs and len(shaped) > 1) or not _all_known(steps):
        raise Unknown
    if runs:
        step = steps[runs[0]]
        assert isinstance(step, Make)
        assert isinstance(step.at, Next)
        number = _sum(step.at.number, by)
        longer: Steps = (
            () if number is None else (replace(step, at=replace(step.at, number=number)),)
        )
        return (*steps[: runs[0]], *longer, *steps[runs[0] + 1 :])
    shaping = steps[shaped[0]]
    if by < 0 or not isinstance(shaping, Make):
        raise Unknown
    single = replace(shaping.stitch, together=1)
    run = replace(shaping, stitch=single, each=ONE, at=Next(plain(by)))
    return (*steps[: shaped[0]], run, *steps[shaped[0] :])


def _takes(step: Step) -> bool:
    """Whether a step works stitches on; the yarn is slipped to where a round begins."""
    return isinstance(step, Group) or (isinstance(step, Make) and step.stitch.kind != "sl_st")


def _is_plain(step: Step) -> bool:
    """Whether one stitch is worked in each of so many places."""
    return (
        isinstance(step, Make)
        and step.each == ONE
        and step.stitch.together == 1
        and isinstance(step.at, Next)
    )


def _all_known(steps: Steps) -> bool:
    return all(isinstance(step, Make | Chain | Group) for step in steps)


def _sum(number: Number, by: int) -> Number | None:
    """Add to a number in every size; None where nothing is left in any."""
    if not isinstance(number.value, tuple):
        raise Unknown
    values = [None if value is None else value + by for value in number.value]
    known = [value for value in values if value is not None]
    if not known or min(known) < 0 or (min(known) == 0 < max(known)):
        raise Unknown
    return None if max(known) == 0 else replace(number, value=tuple(values))
