"""Yarn joined to what a row left unworked: "skip next 16 sts of Row 18, join yarn in next st"."""

from typing import TypeAlias

from stitchproof.base.records import replace
from stitchproof.fabric.edge import Edge
from stitchproof.language.tree import JoinYarn, Leave, On, Skip, Step, Steps

Rest: TypeAlias = tuple[Edge | None, int, str]
"""The edge that was left unworked, from which anchor on, and the side that faced the maker."""


def left_after(
    before: tuple[Rest | None, tuple[Rest, ...]], rest: Rest | None, *, took: bool, short: bool
) -> tuple[Rest | None, tuple[Rest, ...]]:
    """Give what waits to be worked after a row: what was left last, and what rows before left.

    What a neck leaves of a front is worked before what the front has left of the body.

    Parameters
    ----------
    before : tuple
        What waited before the row.
    rest : Rest or None
        What the row itself has left.
    took : bool
        It took up what was left last.
    short : bool
        That was left by a short row, which those behind it work over.
    """
    last, older = before
    if rest is not None:
        return rest, older if last is None or took or short else (*older, last)
    if took and older:
        return older[-1], older[:-1]
    return last, older


def joins_rest(steps: Steps) -> bool:
    """Whether yarn is joined behind stitches that are passed over, or to what it calls unworked."""
    for i, step in enumerate(steps):
        if isinstance(step, JoinYarn):
            return "unworked" in step.of or any(isinstance(s, Skip | Leave) for s in steps[:i])
    return False


def of_rest(steps: Steps) -> Steps:
    """Take what is passed over of a row that is named for the rest of it: no other is left."""
    if not any(isinstance(step, Skip) and isinstance(step.at, On) for step in steps):
        return steps
    return tuple(map(_of_rest, steps))


def _of_rest(step: Step) -> Step:
    if isinstance(step, Skip) and isinstance(step.at, On) and step.at.row is not None:
        return replace(step, at=step.at.at)
    return step
