"""Where working an instruction fails: facts for the checks, no words."""

from dataclasses import field
from enum import Enum
from typing import Final

from stitchproof.base.place import NOWHERE, Span
from stitchproof.base.records import dataclass
from stitchproof.language.tree import STITCH, Noun

NONE_OF_THEM: Final = (
    -1
)  # every place of a kind is asked for, and there is none: perhaps on purpose


class Failing(Enum):
    """How an instruction fails in the fabric."""

    COUNT = "count"  # it makes another number than it says
    UNEVEN = "uneven"  # a repeat does not come out even
    TOO_FEW = "too few"  # it needs more places than there are
    LEFT_OVER = "left over"  # it leaves places and does not say so
    NO_PLACE = "no place"  # a place that is not there
    NO_ROW = "no row"  # a row that is not there
    RANGE = "range"  # the rows of a label and the rows told do not agree
    SIDE = "side"  # it ends on another side than it says
    LIMIT = "limit"  # larger than any fabric made by hand


@dataclass(frozen=True, slots=True)
class Trouble:
    """One failing of one instruction in one size.

    Attributes
    ----------
    failing : Failing
        Its kind.
    place : Span
        The words that fail; told from where their line begins, until the line is judged.
    wanted, had : int
        What the words say or need, and what there is.
    noun : Noun
        Which places are too few or missing; what is left over are stitches.
    what : str
        What else is counted or missing: the author's unit, "seam", "rows", "Row 20".
    """

    failing: Failing
    place: Span = field(default=NOWHERE)
    wanted: int = 0
    had: int = 0
    noun: Noun = STITCH
    what: str = ""


class Stuck(Exception):  # noqa: N818 - not an error of ours: the words lead nowhere
    """Raised inside the worker when an instruction cannot be worked on; never leaves the fabric."""

    def __init__(self, trouble: Trouble) -> None:
        super().__init__(trouble.failing.value)
        self.trouble = trouble


class Unknown(Exception):  # noqa: N818 - as above
    """Raised inside the worker at words or numbers that are not known; never leaves the fabric."""
