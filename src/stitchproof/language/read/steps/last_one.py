"""The last stitch, told for itself: "working last sc in top of beg ch", "last 2 sts together"."""

from dataclasses import replace

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.chains import read_counts_beside
from stitchproof.language.read.steps.colours import read_hook
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.places import IN, read_target
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.read.steps.remarks import starts_counts
from stitchproof.language.read.steps.skips import read_rest
from stitchproof.language.read.steps.stitches import as_int, read_stitch, starts_stitch
from stitchproof.language.tree import (
    STITCH,
    Each,
    Last,
    Make,
    Next,
    Nth,
    Origin,
    Remark,
    Steps,
    Thing,
    ToLast,
)


def read_the(reader: Reader, frame: Frame) -> Steps | None:
    """Read "the last one in the turning ch", "the larger hook"."""
    start = reader.at
    if starts_counts(reader):
        return read_counts_beside(reader, frame)
    reader.take()
    if reader.text() in {"larger", "smaller"}:
        return read_hook(reader, frame)
    if reader.text() in {"rest", "remaining", "rem", "other"}:
        return read_rest(reader, frame)
    last = reader.text() == "last" and (reader.text(1) == "one" or starts_stitch(reader, 1))
    return last_into_chain(reader, start) if last else None


def read_last(reader: Reader, frame: Frame) -> Steps | None:
    """Read "last dc in top of turning ch" behind "dc in each dc"."""
    _ = frame
    start = reader.at
    return last_into_chain(reader, start) if starts_stitch(reader, 1) else None


def last_together(reader: Reader, frame: Frame) -> Steps | None:
    """Read "working last 2 sts together" behind a run to the end, which then ends before them."""
    number = reader.number(1)
    count = as_int(number)
    again = frame.again
    reader.take(2)
    reader.accept_any(STITCHES)
    if not reader.accept_any(word_set("tog together")) or number is None or count is None:
        return None
    last = frame.steps[-1] if frame.steps else None
    if not isinstance(again, Make) or last is not again or again.at != Each(STITCH):
        return None
    frame.steps[-1] = replace(again, at=Each(STITCH, ToLast(number)))
    return (replace(again, stitch=replace(again.stitch, together=count), at=Last()),)


def last_into_chain(reader: Reader, start: int) -> Steps | None:
    """Keep "working last sc in top of beg ch" as a remark: the chain is the last place anyhow."""
    reader.take()
    if not reader.accept("one"):
        read_stitch(reader)
    if not reader.accept_any(IN):
        return None
    target = read_target(reader)
    turning = isinstance(target, Next) and target.noun.thing is Thing.TURNING_CHAIN
    if not turning and not (isinstance(target, Nth) and target.origin is Origin.TURNING_CHAIN):
        return None
    return (Remark(reader.words(start), reader.span(start)),)
