"""How much is repeated, and how often, where the words leave it open or no mark stands."""

from collections.abc import Sequence
from typing import Final

from stitchproof.base.place import Span
from stitchproof.base.records import replace
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.doubt import open_reading
from stitchproof.language.read.steps.often import HowOften, read_often, starts_often
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.tree import (
    AsLong,
    Chain,
    First,
    Make,
    Next,
    Remark,
    Repeat,
    Step,
    Steps,
    Times,
    Turn,
)

_LONGEST_ROW: Final = 64  # steps; a longer line is no repeat without a mark


def maybe_outside(repeat: Repeat, frame: Frame) -> Step:
    """Leave open whether "*...* 4 more times" is more than stands before the mark, or in it."""
    often = repeat.often
    first = first_worked(frame)
    if not isinstance(often, Times) or not often.more or first >= len(frame.steps):
        return repeat
    outside = replace(repeat, often=Times(often.number))
    words = often.number.spelling
    why = f"`{words} more times` may follow what stands before the mark, or what stands in it"
    names = (f"{words} more", f"{words} in all")
    return open_reading(((repeat,), (outside,)), why, names, repeat.place)[0]


def around(reader: Reader, body: Sequence[Step], start: int) -> Span:
    """Give the place of a repeat: from the first of its steps to the cursor."""
    place = reader.span(start)
    return replace(place, start=body[0].place.start) if body and body[0].place.source else place


def pass_these(reader: Reader) -> None:
    """Go past "these 6 sts", "last 4 sts": how wide what is repeated is."""
    if reader.text() not in {"these", "those", "last"} or reader.number(1) is None:
        return
    if reader.text(2) in word_set("st sts stitch stitches"):
        reader.take(3)


def maybe_more(repeat: Repeat, how: HowOften) -> Step:
    """Leave open whether "rep from * 4 times" means 4 more or 4 in all."""
    if not how.open or not isinstance(how.often, Times):
        often = how.often
        if isinstance(often, Times) and not often.more and not how.total:
            often = replace(often, more=True)
        return replace(repeat, often=often)
    number = how.often.number
    words = number.spelling
    said = words if words in {"once", "twice", "thrice"} else f"{words} times"
    more = replace(repeat, often=Times(number, more=True))
    total = replace(repeat, often=Times(number))
    why = f"`{said}` may be {words} more or {words} in all"
    names = (f"{words} more", f"{words} in all")
    return open_reading(((more,), (total,)), why, names, repeat.place)[0]


def read_times(reader: Reader, frame: Frame) -> Steps | None:
    """Read "x 6" behind plain steps: the last one so often, or all since the start."""
    start = reader.at
    how = read_often(reader)
    whole = first_worked(frame)
    if how is None or whole >= len(frame.steps):
        return None
    span = around(reader, frame.steps[whole : whole + 1], start)
    readings: list[Steps] = []
    last = len(frame.steps) - 1
    starts = (whole, last) if last - whole < _LONGEST_ROW else (last,)
    for first in dict.fromkeys(starts):
        body = tuple(frame.steps[first:])
        kept = tuple(frame.steps[whole:first])
        readings.append((*kept, Repeat(body, how.often, "", None, span)))
    del frame.steps[whole:]
    why = f"`{reader.words(start)}` may repeat the whole line or its last stitches"
    return open_reading(tuple(readings), why, ("the whole line", "the last"), span)


def first_worked(frame: Frame) -> int:
    """Give the index of the first step behind the chain and the turn that a row begins with."""
    whole = 0
    while whole < len(frame.steps) and isinstance(frame.steps[whole], Chain | Turn | Remark):
        whole += 1
    return whole


def unmarked(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read "Repeat around.": the sentence before, or the whole row behind its first chain."""
    if not (starts_often(reader) or _nothing_follows(reader)):
        return None
    how = read_often(reader) if starts_often(reader) else HowOften(AsLong())
    if how is None or not frame.steps:
        return None
    whole = first_worked(frame)
    sentence = frame.sentence if frame.sentence < len(frame.steps) else frame.before
    sentence = max(sentence, whole)
    if whole >= len(frame.steps):
        return None
    span = around(reader, frame.steps[whole : whole + 1], start)
    readings = []
    starts = (sentence, whole) if len(frame.steps) - whole <= _LONGEST_ROW else (sentence,)
    for first in dict.fromkeys(starts):
        body = _again(tuple(frame.steps[first:]))
        kept = tuple(frame.steps[whole:first])
        readings.append((*kept, maybe_more(Repeat(body, how.often, "", None, span), how)))
    del frame.steps[whole:]
    why = "what is repeated may be the last sentence or the whole row"
    names = ("the last sentence", "the whole row")
    return open_reading(tuple(readings), why, names, span)


def _again(body: Steps) -> Steps:
    """Take "first 5 sts" of what is repeated for the next five: it goes on from there."""
    match body:
        case (Make(at=First(number, noun)) as step, *rest):
            return (replace(step, at=Next(number, noun)), *rest)
        case _:
            return body


def _nothing_follows(reader: Reader) -> bool:
    return reader.ended() or reader.text() in {".", ",", ";"}
