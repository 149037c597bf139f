"""Stitches that take turns along a row: "work FPdc and BPdc alternately around"."""

from typing import Final

from stitchproof.base.place import Span
from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.doubt import open_reading
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.places import read_target
from stitchproof.language.read.steps.reader import CLOSING, MARKS, OPENING, STOPS, Frame, Reader
from stitchproof.language.read.steps.stitches import read_stitch, starts_stitch
from stitchproof.language.tree import (
    AsLong,
    End,
    Last,
    Make,
    Next,
    Repeat,
    Steps,
    Target,
    ToLast,
)

_ALTERNATE: Final = word_set("alternate alternating")
_SAYS_SO: Final = _ALTERNATE | {"alternately"}
_WORK: Final = word_set("work working")
_STARTS: Final = word_set("starting beginning start begin")
_FAR: Final = 16  # tokens of what takes turns


def read_alternate(reader: Reader, frame: Frame) -> Steps | None:
    """Read "alternate FPdc and BPdc around", "1 sc and 1 dc alternately across"; else None.

    A row may end with either of two stitches, and the words leave that to the count; a round takes
    whole turns.
    """
    _ = frame
    if reader.said.isdisjoint(_SAYS_SO):
        return None
    start = reader.at
    lead = int(reader.text() in _WORK)
    first = reader.text(lead) in _ALTERNATE
    if first and reader.text(lead + 1) in OPENING:
        reader.take(lead + 1)
        return ()  # "alternate (FPdc, BPdc) around" repeats as any bracket does
    length = _turn_length(reader, lead + first, first=first)
    if not length:
        return None
    reader.take(lead + first)
    found = len(reader.found)
    body = _turn(reader, start + length)
    reader.accept("alternately")
    across = reader.text() == "across"
    until = read_until(reader) if starts_until(reader) else None
    begun = _begun_with(reader, body)
    if until != End() or not begun or not _stops(reader) or len(reader.found) > found:
        del reader.found[found:]
        reader.at = start
        return None
    span = reader.span(start)
    whole = Repeat(begun, AsLong(End()), "*", None, span)
    return _whichever_ends(whole, span) if across else (whole,)


def _turn_length(reader: Reader, ahead: int, *, first: bool) -> int:
    """Count the tokens up to the end of what takes turns; 0 where nothing says that it does."""
    if not first and not starts_stitch(reader, ahead + (reader.number(ahead) is not None)):
        return 0
    for i in range(ahead + 1, ahead + _FAR):
        text = reader.text(i)
        if text == "alternately":
            return i
        to_end = text == "to" and "end" in {reader.text(i + 1), reader.text(i + 2)}
        extent = text in {"around", "across"} and reader.text(i + 1) in STOPS | CLOSING | {""}
        if first and (to_end or extent):
            return i
        if not text or text in _BREAKS or (text == "," and not first):
            return 0
    return 0


_BREAKS: Final = OPENING.keys() | CLOSING | MARKS | {".", ";", ":"}


def _turn(reader: Reader, end: int) -> tuple[Make, ...]:
    """Read "1 FPdc and 1 BPdc", "FPdc around next st, BPdc around next st"; () for other words."""
    made: list[Make] = []
    while reader.at < end:
        start = reader.at
        number = reader.number() or ONE
        reader.take(reader.number() is not None)
        named = read_stitch(reader) if starts_stitch(reader) else None
        if named is None or named.special is not None or named.change:
            return ()
        at: Target | None = Next(number)
        if reader.at < end and reader.accept_any(_IN):
            at = read_target(reader)
        if not isinstance(at, Next) or reader.at > end:
            return ()
        made.append(Make(named.stitch, ONE, at, reader.span(start)))
        if reader.at < end and not reader.accept_any(_BETWEEN):
            return ()
        reader.accept("and")
    return tuple(made)


_IN: Final = word_set("in into around")
_BETWEEN: Final = frozenset(("and", "&", ",", "then"))


def _begun_with(reader: Reader, made: tuple[Make, ...]) -> tuple[Make, ...]:
    """Give what takes turns, the stitch that "starting with a FPdc" names first; () for none."""
    if len(made) < 2:  # noqa: PLR2004 - two take turns
        return ()
    if reader.text() != "," or reader.text(1) not in _STARTS or reader.text(2) != "with":
        return made
    reader.take(3)
    reader.accept_any(word_set("a an the one 1"))
    named = read_stitch(reader) if starts_stitch(reader) else None
    at = [i for i, step in enumerate(made) if named is not None and step.stitch == named.stitch]
    return (*made[at[0] :], *made[: at[0]]) if at else ()


def _whichever_ends(whole: Repeat, span: Span) -> Steps:
    """Leave open with which of two stitches a row ends."""
    match whole.body:
        case (Make(at=Next(number=one)) as first, Make(at=Next(number=other))) if (
            one == other == ONE and first.each == ONE
        ):
            odd = (replace(whole, often=AsLong(ToLast(ONE))), replace(first, at=Last(ONE)))
            return open_reading(((whole,), odd), _WHY, _NAMES, span)
        case _:
            return (whole,)


_WHY: Final = "stitches that take turns may end with either of them"
_NAMES: Final = ("with the second", "with the first")


def _stops(reader: Reader) -> bool:
    """Tell whether the clause is over; "ending with a dc" would say more of it."""
    return reader.ended() or (reader.text() in STOPS and reader.text(1) not in _ENDINGS)


_ENDINGS: Final = word_set("ending end ends finishing finish")
