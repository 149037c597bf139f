"""Work that goes on as it began: "sc in next st, ch 1, sk 1, sc in next st, ch 1, sk 1, and so on".

What is meant shows in the steps before: those that were told twice, one time right behind the
other, are repeated. Where nothing was told twice, nobody knows what goes on.
"""

from typing import Final

from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.making import read_make
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import AsLong, End, Make, Repeat, Step, Steps

_GOING: Final = (("keep",), ("carry", "on"), ("go", "on"), ("continue",), ("keep", "on"))
SO_ON: Final = frozenset(("…", "so", "etc"))
_LONGEST: Final = 12  # steps of what is repeated


def goes_on(reader: Reader, frame: Frame, end: int) -> bool:
    """Read "and so on across", "… sc in last st"; nothing is taken where nothing is repeated."""
    length = 2 if reader.text() == "so" else 1
    if reader.text() == "so" and reader.text(1) != "on":
        return False
    size = _repeated(frame.steps)
    if not size:
        return False
    start = reader.at
    reader.take(length)
    until = read_until(reader) if reader.at < end and starts_until(reader) else End()
    if until is None:
        reader.at = start
        return False
    body = tuple(frame.steps[-size:])
    while tuple(frame.steps[-size:]) == body:
        del frame.steps[-size:]
    place = body[0].place.to(reader.span(start))
    if until == End():
        frame.tails.append(len(frame.steps))
    frame.steps.append(Repeat(body, AsLong(until), place=place))
    frame.again = None
    return True


def read_keep_going(reader: Reader, frame: Frame) -> Steps | None:
    """Read "keep making dc until 1 st is left", "carry on with sc to last st"."""
    start = reader.at
    if reader.text() not in _KEEPING_FIRST:
        return None
    length = next((len(words) for words in _KEEPING if reader.sees(*words)), 0)
    if not length or not starts_stitch(reader, length):
        return None
    reader.take(length)
    return read_make(reader, frame, None, start)


_KEEPING: Final = (
    ("keep", "going", "with"),
    *((*going, doing) for going in _GOING for doing in ("making", "working", "with")),
)
_KEEPING_FIRST: Final = frozenset(words[0] for words in _KEEPING)


def _repeated(steps: list[Step]) -> int:
    """Count the steps at the end that stand there twice; 0 where none do."""
    for size in range(1, min(len(steps) // 2, _LONGEST) + 1):
        last = steps[-size:]
        made = any(isinstance(step, Make) for step in last)
        if made and steps[-2 * size : -size] == last:
            return size
    return 0
