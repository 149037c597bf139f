"""What a line that works rows again adds to them."""

from collections.abc import Sequence
from typing import Final

from stitchproof.fabric.planned import WORK
from stitchproof.language.number import ONE
from stitchproof.language.tree import (
    Chain,
    Evenly,
    FastenOff,
    Group,
    Make,
    RepeatRows,
    Shape,
    Steps,
    Turn,
)
from stitchproof.language.walk import moved, nodes

_EACH_ROW: Final = ((ONE, ONE),)


def parted_extra(extra: Steps) -> tuple[Steps, Steps]:
    """Part what is done besides from a chain behind the last row: `Rep Row 2, then ch 5`."""
    chains = [step for step in extra if isinstance(step, Chain)]
    others = any(isinstance(step, WORK) for step in extra)
    if len(chains) != 1 or others or chains[0].counts is not None:
        return extra, ()
    at = extra.index(chains[0])
    return extra[:at], extra[at:]


def as_labelled(does: RepeatRows, cycle: int, many: int) -> bool:
    """Whether `Rows 2-8: As Row 2 of Back` works that row as often as the label says."""
    return bool(does.piece) and does.first is not None and does.often is None and many > cycle


def shapes_each_row(extra: Steps) -> bool:
    """Tell whether so many stitches are said to come or go in each of the rows worked again."""
    return any(isinstance(step, Shape) and step.phases == _EACH_ROW for step in extra)


def shape_already(rows: Sequence[Steps]) -> bool:
    """Tell whether rows shape by themselves.

    "Rep Row 2, increasing 8 sts each row" then tells what Row 2 comes to; of a plain row it is one
    more thing to do.
    """
    return any(_shapes(steps) for steps in rows)


def without_shapes(extra: Steps) -> Steps:
    """Leave out what rows worked again come to by themselves."""
    return tuple(step for step in extra if not isinstance(step, Shape) or step.phases != _EACH_ROW)


def _shapes(steps: Steps) -> bool:
    """Tell whether stitches are made in one place, or drawn together."""
    return any(
        isinstance(node, Group)
        or (isinstance(node, Make) and (node.each != ONE or node.stitch.together > 1))
        for node in nodes(steps)
    )


def told_whole(extra: Steps) -> bool:
    """Tell whether a row is told by what is said beside it: "continue, increasing 8 sts evenly"."""
    return any(isinstance(s, Make) and isinstance(s.at, Evenly) for s in extra)


def fastened(extra: Steps) -> Steps:
    """Give what fastens off behind the last of rows worked again, where the line says so."""
    if told_whole(extra):
        return ()
    return tuple(step for step in parted_extra(extra)[0] if isinstance(step, FastenOff))


def ended(steps: Steps, extra: Steps, by: int) -> Steps:
    """End the last row as is said beside it: "Do not turn.", "Fasten off."."""
    said = any(isinstance(step, Turn) and not step.do for step in extra)
    match steps:
        case (*others, Turn(do=True)) if others and said:
            steps = tuple(others)
    return (*steps, *moved(fastened(extra), by))


def ends_by_measure(does: RepeatRows) -> bool:
    """Tell whether a length, a count or a wish says when to stop, and not a number of rows."""
    measured = does.until_length is not None or does.until_count is not None
    return measured or bool(does.until_words)
