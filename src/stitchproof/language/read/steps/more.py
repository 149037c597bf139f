"""Stitches told as more in a place: "working 2 more dc in last st"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.doubt import open_reading
from stitchproof.language.read.steps.making import read_make
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.tree import AsLong, Each, End, Last, Make, Repeat, Same, Step, Steps

MORE: Final = word_set("more extra additional further")
_WHY: Final = "the last stitch may have been worked into before"


def read_more(reader: Reader, frame: Frame, number: Number, start: int) -> Steps | None:
    """Read from the stitch on, behind "2 more"; in the last place there may be one already."""
    steps = read_make(reader, frame, number, start)
    match steps:
        case (Make(at=Last(number=one)) as make,) if one == ONE and frame.steps:
            again = replace(make, at=Same())
        case _:
            return steps
    if _to_the_end(frame.steps[-1]):
        return (again,)
    names = ("in the last stitch, which is left", "once more in the stitch worked last")
    return open_reading(((make,), (again,)), _WHY, names, make.place)


def _to_the_end(step: Step) -> bool:
    """Tell whether a step goes on to the end of the row: nothing is left behind it."""
    match step:
        case Make(at=Each(until=End())) | Repeat(often=AsLong(until=End())):
            return True
        case Make(at=Last()):
            return True
        case _:
            return False
