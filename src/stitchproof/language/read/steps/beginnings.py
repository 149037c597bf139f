"""How a line begins and ends: "start with a magic ring", "ending with sc in last st", "go back"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.advice import read_advice
from stitchproof.language.read.steps.chains import read_chain, read_ring
from stitchproof.language.read.steps.fastening import read_fasten_off
from stitchproof.language.read.steps.making import read_make
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.parts import part_length
from stitchproof.language.read.steps.placed import read_numbered
from stitchproof.language.read.steps.places import EACH
from stitchproof.language.read.steps.reader import STOPS, Frame, Reader
from stitchproof.language.read.steps.rings import ring_length
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.starting import read_starting
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import (
    Chain,
    Remark,
    Steps,
)

FAR: Final = 8  # words


def read_start(reader: Reader, frame: Frame) -> Steps | None:
    """Read "start with a magic ring"."""
    if not frame.steps and _from_where(reader):
        start = reader.at
        reader.take(4)
        return (Remark(reader.words(start), reader.span(start)),)
    if reader.text(1) in {"in", "at"}:
        return _at_an_edge(reader, frame) or read_starting(reader, frame)
    ahead = 2 if reader.text(1) == "with" else 1
    if reader.text(ahead) in CHAINS:
        reader.take(ahead)
        return ()
    made = starts_stitch(reader, ahead + 1) or reader.text(ahead + 1) in CHAINS
    of = reader.text(ahead) in {"a", "an"} and reader.text(ahead + 2) == "of"
    if reader.number(ahead) is not None and made and not of:
        reader.take(ahead)
        return read_numbered(reader, frame)
    if reader.text(ahead) in {"a", "an"}:
        ahead += 1
    ahead += ahead > 1 and reader.text(ahead) in _BASES
    if ahead > 1 and reader.text(ahead) in CHAINS:
        reader.take(ahead)
        return read_chain(reader, frame)
    if ring_length(reader, ahead):
        reader.take(ahead)
        return read_ring(reader, frame)
    if ahead > 1 and starts_stitch(reader, ahead):
        start = reader.at
        reader.take(ahead)
        return read_make(reader, frame, None, start)
    return read_starting(reader, frame)


def _at_an_edge(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "Start at the bottom." before what founds the piece as a remark."""
    length = part_length(reader, 2)
    if frame.steps or not length or reader.text(2 + length) != ".":
        return None
    start = reader.at
    reader.take(2 + length)
    return (Remark(reader.words(start), reader.span(start)),)


def _from_where(reader: Reader) -> bool:
    """Tell whether "from the top," stands before what founds the piece: where that will be."""
    named = reader.text(1) in {"from", "at"} and reader.text(2) == "the"
    if not named or reader.text(4) not in {",", ":"}:
        return False
    ahead = 5
    while reader.text(ahead) in _FOUNDING:
        ahead += 1
    counted = reader.number(ahead) is not None
    return bool(ring_length(reader, ahead)) or reader.text(ahead + counted) in CHAINS


_BASES: Final = word_set("foundation base starting beginning")
_FOUNDING: Final = word_set("make form a an with")


def read_go_back(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "go back", "return to Row 18" before what is worked there: the place says where.

    "Return to the unworked sts" says which edge the yarn is joined to.
    """
    _ = frame
    start = reader.at
    if not reader.accept("go", "back") and not reader.accept("return"):
        return None
    rows = {reader.text(1), reader.text(2)} & _ROWS
    rows |= {reader.text(i) for i in range(1, FAR)} & _LEFT
    while rows and reader.text() not in _STOPPED:
        reader.take()
    return (Remark(reader.words(start), reader.span(start)),)


_ROWS: Final = word_set("row rnd round")
_LEFT: Final = word_set("unworked rem remaining left skipped held")
_STOPPED: Final = frozenset((",", ";", ".", ":", "and", ""))


def read_beg(reader: Reader, frame: Frame) -> Steps | None:
    """Read "beg with a ch 3"; "beg cluster" is the name of a stitch."""
    if reader.text(1) in {"in", "at"}:
        return read_starting(reader, frame)
    if reader.text(1) == "with":
        return read_start(reader, frame)
    return read_make(reader, frame, None, reader.at) if starts_stitch(reader) else None


def read_end(reader: Reader, frame: Frame) -> Steps | None:
    """Read "end off", "ending with sc in last st", "ending with a WS row"."""
    if reader.text(1) == "off":
        return read_fasten_off(reader, frame)
    if reader.text(1) == "at" and any(reader.text(i) in _MARKERS for i in range(2, 5)):
        return read_advice(reader, frame)
    if reader.text(1) in {"with", "by"} and reader.text() != "end":
        reader.take(2)
        if reader.text() == "a" and reader.text(2) in {"row", "rnd", "round", "side"}:
            return read_advice(reader, frame)
        reader.take(reader.text() in {"a", "an", "one"} and starts_stitch(reader, 1))
        return ()
    if reader.text(1) == "with":
        reader.take(2)
        reader.take(reader.text() in {"a", "an", "one"} and starts_stitch(reader, 1))
        return ()
    if starts_stitch(reader, 1) or reader.text(1) in {"sk", "skip"}:
        reader.take()
        return ()
    ahead = 3 if reader.text(2) == "the" else 2
    in_last = reader.text(1) in {"in", "at"} and reader.text(ahead) == "last"
    if in_last and reader.text(ahead + 1) in STITCHES and reader.text(ahead + 2) in STOPS | {""}:
        return read_advice(reader, frame)  # "ending in last st"
    return None


_MARKERS: Final = word_set("marker markers")


def read_from(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "from the hook count 3 chains", "from the armhole edge," as a remark.

    The stitch names its chain itself, and a row begins where the hook is.
    """
    start, length = reader.at, part_length(reader, 1)
    begins = all(isinstance(step, Remark) for step in frame.steps)
    if length and begins and reader.text(length + 1) in {",", ":"}:
        reader.take(length + 1)
        return (Remark(reader.words(start), reader.span(start)),)
    words = [reader.text(i) for i in range(FAR)]
    chained = bool(frame.steps) and isinstance(frame.steps[-1], Chain)
    if chained and words[1] in EACH and not reader.depth:
        return read_advice(reader, frame)  # "ch 50 from each top corner": two ties
    return read_advice(reader, frame) if "hook" in words and "count" in words else None
