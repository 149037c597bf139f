"""A popcorn told by what the hook does: "5 dc in next st, drop loop, insert hook in first dc, ...".

The stitches stand before; the loop is dropped, the hook goes into the first of them and the loop is
drawn through, so that all of them become one stitch.
"""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import OPENING, Frame, Reader
from stitchproof.language.read.steps.stitches import as_int
from stitchproof.language.tree import Chain, Counts, Make, Remark, Steps, Stitch, Turn

_DROPS: Final = word_set("drop remove take slip")
_DROPPED: Final = word_set("loop lp hook")
_DRAWN: Final = word_set("pull draw pulling drawing bring")
_LONGEST: Final = 36  # tokens from the dropped loop to where it is drawn through
_FEWEST: Final = 3  # stitches of a popcorn


def read_dropped_loop(reader: Reader, frame: Frame) -> Steps | None:
    """Read "drop loop from hook, insert hook in first dc, draw dropped loop through"."""
    last = frame.steps[-1] if frame.steps else None
    near = {reader.text(i) for i in range(1, 5)}
    if reader.text() not in _DROPS or not near & _DROPPED or not isinstance(last, Make):
        return None
    several = as_int(last.each)
    length = _drawn_through(reader)
    if several is None or several < _FEWEST or not length:
        return None
    start = reader.at
    reader.take(length)
    made = replace(
        last, stitch=Stitch("popcorn"), each=ONE, place=last.place.to(reader.span(start))
    )
    if reader.text() in OPENING and reader.partner[reader.at] > 0:
        close = reader.partner[reader.at]
        if reader.tokens[close - 1].text in {"made", "complete", "completed"}:
            reader.take(close + 1 - reader.at)
    frame.steps[-1:] = []
    _with_first_chain(frame)
    return (made,)


def _drawn_through(reader: Reader) -> int:
    """Count the tokens up to where the loop is drawn through; 0 where it is not told."""
    drawn = inserted = False
    for i in range(1, _LONGEST):
        text = reader.text(i)
        if not text or text in {";", "*"}:
            return 0
        inserted = inserted or text == "insert" or (text == "hook" and drawn is False and i > 2)  # noqa: PLR2004
        drawn = drawn or text in _DRAWN
        if drawn and inserted and text == "through":
            closes = reader.text(i + 1)
            more = 2 if closes in {"loop", "it", "st", "stitch"} else 1
            return i + more
    return 0


def _with_first_chain(frame: Frame) -> None:
    """Draw the chain that a round begins with into its first popcorn."""
    steps = [step for step in frame.steps if not isinstance(step, Turn | Remark)]
    match steps:
        case [Chain(count, _, place) as chain]:
            i = next(i for i, step in enumerate(frame.steps) if step is chain)
            frame.steps[i] = Chain(count, Counts(""), place)
        case _:
            pass
