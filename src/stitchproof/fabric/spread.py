"""Stitches spread evenly without a number, which the count at the end of the line then gives.

"Sc evenly around neck, join. (80 sc)" tells what to make as "work 80 sc evenly around neck" does:
the places are left to the maker, the number is not.
"""

from typing import Final

from stitchproof.language.tree import (
    Each,
    Either,
    Evenly,
    Group,
    Make,
    Repeat,
    Stated,
    Statement,
    Step,
    Steps,
    Thing,
)

_SPACES: Final = frozenset((Thing.SPACE, Thing.CHAIN_SPACE))


def is_spread(steps: Steps) -> bool:
    """Tell whether steps spread stitches of which they give no number."""
    return any(_is_open(step) for step in steps)


def spread_as_told(steps: Steps, stated: Stated | None) -> Steps:
    """Give stitches that are spread evenly the number that the line states.

    Parameters
    ----------
    steps : Steps
        One row.
    stated : Stated or None
        What its line says it comes to.

    Returns
    -------
    Steps
        The same steps where the number is not theirs: they make others besides, or no one total
        of their kind is stated. Stitches of the same kind in corners and spaces are in the total.
    """
    if stated is None or stated.rowwise or len(stated.statements) != 1:
        return steps
    (statement,) = stated.statements
    made = [step for step in steps if isinstance(step, Make | Group | Repeat | Either)]
    if sum(_is_open(step) for step in made) != 1:
        return steps
    if not all((_is_open(s) or _in_spaces(s)) and _counts(statement, s) for s in made):
        return steps
    told: list[Step] = []
    for step in steps:
        if isinstance(step, Make) and _is_open(step):
            told.append(Make(step.stitch, at=Evenly(statement.number, "all"), place=step.place))
        elif step not in made:
            told.append(step)
    return tuple(told)


def _is_open(step: Step) -> bool:
    at = step.at if isinstance(step, Make) else None
    return isinstance(at, Evenly) and at.count is None and not at.change


def _in_spaces(step: Step) -> bool:
    """Tell whether stitches go into each corner or space of the edge, besides those spread."""
    return isinstance(step, Make) and isinstance(step.at, Each) and step.at.noun.thing in _SPACES


def _counts(statement: Statement, step: Step) -> bool:
    """Tell whether a statement counts the stitches of a step."""
    if statement.change or not isinstance(step, Make):
        return False
    thing, kind = statement.noun.thing, statement.noun.kind
    plain = thing is Thing.STITCH and not kind
    return plain or (thing is Thing.KIND and kind == step.stitch.kind)
