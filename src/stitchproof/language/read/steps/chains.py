"""Chains and rings: "ch 3", "ch-1", "3ch", "chain loosely 40", "make a magic ring"; and turns."""

from typing import Final

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.advice import works_on
from stitchproof.language.read.steps.brackets import attach_counts
from stitchproof.language.read.steps.parts import accept_part
from stitchproof.language.read.steps.reader import STOPS, Frame, Reader
from stitchproof.language.read.steps.remarks import read_counts, starts_counts
from stitchproof.language.read.steps.rings import ring_length
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import read_stitch, starts_stitch
from stitchproof.language.read.steps.sums import added
from stitchproof.language.tree import (
    Chain,
    Counts,
    MagicRing,
    Make,
    Nth,
    Remark,
    Ring,
    Step,
    Steps,
    Stitch,
    Turn,
)

_MANNER: Final = word_set("loosely tightly more fairly very")


def read_chain(reader: Reader, frame: Frame) -> Steps | None:
    """Read from "ch" on."""
    start = reader.at
    reader.take()
    reader.pass_over(_MANNER)
    reader.accept("of")
    ahead = 1 if reader.text() == "-" or _is_abbreviated(reader) else 0
    number = reader.number(ahead)
    if number is not None and _is_number_of_next(reader, ahead):
        number = None
    if number is not None:
        reader.take(ahead + 1)
        number = added(reader, number, reader.at - 1)
    if number is not None and reader.accept("picot"):  # "ch-4 picot"
        span = reader.span(start)
        return (Chain(number, None, span), Make(Stitch("sl_st"), ONE, Nth((number,)), span))
    return chained(reader, frame, number or ONE, start)


def _is_abbreviated(reader: Reader) -> bool:
    """Tell whether the stop of "ch. 3" belongs to the abbreviation."""
    stop = reader.token()
    touching = stop is not None and stop.place.start == reader.tokens[reader.at - 1].place.end
    follows = reader.text(2) in {",", ";", ".", "", "(", "and"}
    return touching and reader.text() == "." and reader.number(1) is not None and follows


def _is_number_of_next(reader: Reader, ahead: int) -> bool:
    """Tell whether the number behind a bare "ch" belongs to what follows: "ch 2 dc" is not read."""
    return ahead == 0 and reader.text(1) in {"time", "times"}


def chained(reader: Reader, frame: Frame, number: Number, start: int) -> Steps | None:
    """Read what may follow a chain: manner, what it counts as, what it is for."""
    reader.pass_over(_MANNER)
    reader.accept_any(word_set("st sts stitches stitch"))
    place = reader.span(start)
    chain = Chain(number, None, place)
    if starts_counts(reader) and reader.text() in {
        "counts",
        "count",
        "does",
        "counted",
        "do",
        "not",
    }:
        counts = read_counts(reader)
        return None if counts is None else (Chain(number, counts, reader.span(start)),)
    if reader.accept("to", "turn") or reader.accept("for", "turning"):
        return (chain, Turn(place=reader.span(reader.at - 1)))
    if reader.text() == "for":
        return _for(reader, chain, frame)
    return (chain,)


def _for(reader: Reader, chain: Chain, frame: Frame) -> Steps | None:
    """Read "for first dc", "for turning ch"."""
    start = reader.at
    reader.take()
    reader.pass_over(word_set("first the a"))
    if reader.accept_any(word_set("turning turn")):
        reader.accept_any(CHAINS)
        return (chain,)
    if starts_stitch(reader):
        named = read_stitch(reader)
        if named is not None:
            return (Chain(chain.count, Counts(named.stitch.name), reader.span(start - 2)),)
    words_start = reader.at
    reader.take_until({",", ";", ".", "(", "["})
    _ = words_start, frame
    return (chain, Remark(reader.words(start), reader.span(start)))


def read_ring(reader: Reader, frame: Frame) -> Steps | None:
    """Read "magic ring", "adjustable loop", "MR"."""
    start = reader.at
    _ = frame
    if reader.text() in {"mr", "mc"}:
        reader.take()
        return (MagicRing(reader.span(start)),)
    length = ring_length(reader)
    if not length:
        return None
    reader.take(length)
    ring = MagicRing(reader.span(start))
    number = reader.number(1)
    if reader.text() not in {"with", "of"} or number is None or not starts_stitch(reader, 2):
        return (ring,)
    beside = reader.at
    reader.take(2)
    named = read_stitch(reader)
    if named is None:
        return None
    return (ring, Make(named.stitch, number, Ring(), reader.span(beside)))


def read_turn(reader: Reader, frame: Frame) -> Steps | None:
    """Read "turn", "turn work", "turn, no chain"."""
    start = reader.at
    reader.take()
    if reader.text() == "," and reader.text(1) == "no" and reader.text(2) in CHAINS:
        turn = Turn(place=reader.span(start))
        reader.take()
        beside = reader.at
        reader.take(2)
        return (turn, Remark(reader.words(beside), reader.span(beside)))
    turned = _turned_out(reader)
    if turned:
        reader.take(turned)
        return (Remark(reader.words(start), reader.span(start)),)
    if reader.text() == "without":
        return (Turn(place=reader.span(start)), *read_to_stop(reader, start + 1))
    reader.pass_over(word_set("your the work piece tube hat bag sock again back"))
    accept_part(reader)
    _ = frame
    if _to_other_side(reader):
        reader.opposite = True
        return read_to_stop(reader, start)
    on = reader.text() in {"and", ",", ";"} and reader.text(1) == "work"
    if on and reader.text(2) == "along" and {reader.text(i) for i in range(3, 6)} & _OTHERS:
        return (Remark(reader.words(start), reader.span(start)),)  # the piece, not the row
    upside = "upside" in {reader.text(i) for i in range(_NEAR)}
    sideways = reader.number() is not None or _is_sideways(reader) or upside
    if sideways or reader.sees("to", "work") or reader.sees("to", "crochet"):
        far = {reader.text(i) for i in range(2, 6)}
        reader.opposite = reader.opposite or (not sideways and bool(far & _OTHERS))
        return read_to_stop(reader, start)
    return (Turn(place=reader.span(start)),)


_OUT: Final = 8  # words of "the finished tube right side out"


def _turned_out(reader: Reader) -> int:
    """Count the tokens of "tube right side out", "inside out": the piece is turned, not the row."""
    ahead = 0
    while ahead < _OUT and reader.text(ahead) not in STOPS | {"", "out"}:
        ahead += 1
    before = reader.text(ahead - 1) if ahead else ""
    out = reader.text(ahead) == "out" and before in {"side", "sides", "inside", "rs"}
    return ahead + 1 if out else 0


def read_short_turn(reader: Reader, frame: Frame) -> Steps | None:
    """Read "T." for "turn"."""
    closed = not reader.text(1) or reader.text(1) in STOPS
    return read_turn(reader, frame) if closed else None


_SIDEWAYS: Final = word_set("clockwise counterclockwise anticlockwise sideways degrees 90")


_OTHERS: Final = word_set("other opposite")
_LEADING: Final = word_set("to and work working back down on along the in into across of")


def _to_other_side(reader: Reader) -> bool:
    """Tell whether "to the other side", "to work along opposite side" stands there."""
    ahead = 0
    while reader.text(ahead) in _LEADING:
        ahead += 1
    return ahead > 0 and reader.text(ahead) in _OTHERS and reader.text(ahead + 1) == "side"


_NEAR: Final = 4  # words


def _is_sideways(reader: Reader) -> bool:
    """Tell whether "a quarter turn clockwise", "90 degrees" stands there."""
    if reader.text() in {"a", "by"} and reader.text(1) in {"quarter", "half"}:
        return True
    return reader.text() in _SIDEWAYS


def read_to_stop(reader: Reader, start: int) -> Steps:
    """Keep the words up to the next stop, or to what is worked then, as a remark."""
    while not reader.ended() and reader.text() not in {",", ";", ".", ":", "(", "["}:
        if works_on(reader):
            break
        reader.take()
    return (Remark(reader.words(start), reader.span(start)),)


def read_counts_beside(reader: Reader, frame: Frame) -> Steps | None:
    """Read "counts as dc", "does not count as a st" without brackets, behind a chain."""
    start = reader.at
    if not starts_counts(reader):
        return None
    counts = read_counts(reader)
    if counts is None:
        return None
    if attach_counts(frame, counts):
        return ()
    step: Step = Remark(reader.words(start), reader.span(start))
    return (step,)
