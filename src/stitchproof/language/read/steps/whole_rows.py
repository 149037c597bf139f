"""Whole rows of one stitch: "work across in sc", "1 row of sc", "one rnd in hdc"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.making import read_make
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.places import read_target
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.read.steps.stitches import (
    SHORT_LOOPS,
    as_int,
    read_stitch,
    starts_stitch,
)
from stitchproof.language.tree import STITCH, Each, End, Make, Next, Steps

_ROWS: Final = word_set("row rnd round")
_EXTENTS: Final = word_set("across around even")


def across_in(reader: Reader) -> bool:
    """Tell whether "across in sc", "in hdc across" stands there."""
    ahead = 1 if reader.text() in _EXTENTS else 0
    if reader.text(ahead + 1) in SHORT_LOOPS:
        return False
    return reader.text(ahead) == "in" and starts_stitch(reader, ahead + 1) and not _is_place(reader)


def _is_place(reader: Reader) -> bool:
    return reader.text(1) in STITCHES or (reader.text() == "in" and reader.text(2) in STITCHES)


def read_across(reader: Reader, start: int) -> Steps | None:
    """Read "work across in sc", "work in hdc around": one in each stitch."""
    reader.accept_any(_EXTENTS)
    reader.take()
    named = read_stitch(reader)
    number = reader.number(1)
    first = reader.text(2 if reader.text(1) == "the" else 1) in {"first", "next"}
    if named is not None and reader.text() in {"over", "across"} and first:
        reader.take()
        target = read_target(reader)
        return None if target is None else (Make(named.stitch, ONE, target, reader.span(start)),)
    if named is not None and reader.text() in {"for", "over"} and number is not None:
        reader.take(2)
        reader.accept_any(STITCHES)
        return (Make(named.stitch, ONE, Next(number), reader.span(start)),)
    until = read_until(reader) if starts_until(reader) else End()
    if named is None or until is None:
        return None
    return (Make(named.stitch, ONE, Each(STITCH, until), reader.span(start)),)


def one_row(reader: Reader) -> int:
    """Count the tokens of "1 rnd of", "one row in" before a stitch; 0: not there."""
    if as_int(reader.number()) != 1 or reader.text(1) not in _ROWS:
        return 0
    length = 3 if reader.text(2) in {"of", "in"} else 2
    return length if starts_stitch(reader, length) else 0


def whole_row(reader: Reader, frame: Frame, length: int) -> Steps | None:
    """Read "1 row of sc", "1 rnd of sc evenly around": one in each stitch unless it says more."""
    reader.take(length)
    steps = read_make(reader, frame, None, reader.at)
    match steps:
        case (Make(at=Next()) as make,):
            return (replace(make, at=Each(STITCH)),)
        case _:
            return steps
