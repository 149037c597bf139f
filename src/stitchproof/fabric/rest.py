"""Yarn joined to what a row left unworked: "skip next 16 sts of Row 18, join yarn in next st"."""

from collections.abc import Callable
from typing import Final, NamedTuple

from stitchproof.base.records import replace
from stitchproof.fabric.edge import Edge
from stitchproof.language.number import Number
from stitchproof.language.tree import JoinYarn, Leave, On, Remark, Skip, Step, Steps


class Rest(NamedTuple):
    """What a row left unworked.

    Attributes
    ----------
    edge : Edge or None
        The edge it was worked into; None where that is not known.
    start : int
        The anchor from which on it is left.
    side : str
        The side that faced the maker.
    row : int or None
        Number of the row whose edge that is, where it has one.
    """

    edge: Edge | None
    start: int
    side: str
    row: int | None = None


LOST: Final = Rest(None, 0, "")  # what was left unworked, nobody knows how much


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


def of_row(
    last: Rest | None, older: tuple[Rest, ...], steps: Steps, value_of: Callable[[Number], object]
) -> tuple[Rest | None, tuple[Rest, ...]]:
    """Put what a named row has left first: "miss next 6 sts of Round 34" behind a neck.

    Parameters
    ----------
    last, older : Rest or None, tuple of Rest
        What waits to be worked.
    steps : Steps
        The row that takes it up.
    value_of : callable
        Gives a number in this size.
    """
    named = next((s.at.row for s in steps if isinstance(s, Skip) and isinstance(s.at, On)), None)
    row = None if named is None else value_of(named)
    if row is None or last is None or last.edge is None or last.row == row:
        return last, older
    wanted = next((one for one in older if one.row == row), None)
    if wanted is None:
        return last, older
    return wanted, (*(one for one in older if one is not wanted), last)


def joins_rest(steps: Steps) -> bool:
    """Whether yarn is joined behind stitches that are passed over, or to what it calls unworked."""
    for i, step in enumerate(steps):
        if isinstance(step, JoinYarn):
            passed = any(isinstance(s, Skip | Leave) or _goes_back(s) for s in steps[:i])
            return passed or names_rest(step.of)
    return False


def names_rest(words: str) -> bool:
    """Whether words for an edge mean what was left of a row: "rem 21 sts", "unworked sts"."""
    said = set(words.lower().split())
    left = "unworked" in said or bool(said & {"rem", "remaining"})
    return left and ("unworked" in said or bool(said & {"st", "sts", "stitch", "stitches"}))


def _goes_back(step: Step) -> bool:
    """Whether a remark tells to go back to what was left: "return to rem sts"."""
    said = step.words.lower().split() if isinstance(step, Remark) else []
    back = said[:1] == ["return"] or said[:2] == ["go", "back"]
    return back and (names_rest(" ".join(said)) or "left" in said)


def of_rest(steps: Steps) -> Steps:
    """Take what is passed over of a row that is named for the rest of it: no other is left."""
    if not any(isinstance(step, Skip) and isinstance(step.at, On) for step in steps):
        return steps
    return tuple(map(_of_rest, steps))


def _of_rest(step: Step) -> Step:
    if isinstance(step, Skip) and isinstance(step.at, On) and step.at.row is not None:
        return replace(step, at=step.at.at)
    return step
