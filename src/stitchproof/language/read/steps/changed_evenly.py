"""Stitches added or taken here and there: "increasing 6 sts evenly", "decreasing to 60 sts"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number, NumberKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.both_ends import at_both_ends, changed_at_both
from stitchproof.language.read.steps.places import IN
from stitchproof.language.read.steps.reader import JOINING, OPENING, STOPS, Frame, Reader
from stitchproof.language.read.steps.stitches import read_stitch, starts_stitch
from stitchproof.language.tree import (
    Chain,
    Each,
    End,
    Evenly,
    Make,
    Remark,
    Skip,
    Step,
    Steps,
    Stitch,
    Turn,
)

INCREASES: Final = word_set("increasing increase inc inc'ing incing inc'g")
DECREASES: Final = word_set("decreasing decrease dec dec'ing decing dec'g")
_CHANGES: Final = INCREASES | DECREASES
_SHAPING: Final = word_set("increases incs decreases decs increase decrease inc dec")
_UNITS: Final = word_set("st sts stitch stitches")
_TIMES: Final = word_set("times time")
_DOING: Final = word_set("working work with making placing")
_FAR: Final = 14  # tokens from "working" to "evenly"


def read_change_of_count(reader: Reader, frame: Frame) -> Steps | None:
    """Read "increasing 6 sts evenly" behind "sc around", or "dec 8 sts evenly across" alone."""
    start = reader.at
    spread = reader.accept("evenly")
    change = "increased" if reader.text() in INCREASES else "decreased"
    reader.take()
    spread = reader.accept("evenly") or spread
    to = reader.text() == "to" and reader.number(1) is not None
    reader.take(to)
    number = reader.number()
    if number is None:
        return None
    reader.take()
    named = None
    reader.accept_any(_UNITS) if at_both_ends(reader, 1) else None
    if number == ONE and at_both_ends(reader):
        return changed_at_both(reader, frame, change)
    if not reader.accept_any(_UNITS | _TIMES) and starts_stitch(reader):
        named = read_stitch(reader)
    spread = reader.accept("evenly") or spread
    if not spread and not to:
        return None
    reader.take_until(STOPS | JOINING | OPENING.keys())
    stitch = Stitch(reader.main) if named is None else named.stitch
    at = Evenly(number, "", "in all") if to else Evenly(number, reader.words(start), change)
    return _over_the_run(frame, Make(stitch, at=at, place=reader.span(start)))


def read_while(reader: Reader, frame: Frame) -> Steps | None:
    """Read "while decreasing 4 sts evenly" behind what it is done in."""
    if reader.text(1) not in _CHANGES or reader.number(2) is None:
        return None
    reader.take()
    return read_change_of_count(reader, frame)


def read_changed_evenly(reader: Reader, frame: Frame) -> Steps | None:
    """Read "inc 6 sts evenly", "working 4 hdc2tog evenly spaced"; else nothing is taken."""
    if "evenly" not in reader.said:
        return None
    start = reader.at
    steps: Steps | None = _evenly_work(reader)
    if steps is not None:
        return steps
    told = reader.text() in _CHANGES and reader.number(1) is not None
    if told or (reader.text() == "evenly" and reader.text(1) in _CHANGES):
        steps = read_change_of_count(reader, frame)
    elif reader.text() in _DOING and _says_evenly(reader):
        steps = _read_shaping(reader, frame)
    if steps is None:
        reader.at = start
    return steps


def _evenly_work(reader: Reader) -> Steps | None:
    """Read "evenly work 48 hdc around neck": the number is spread along what is named."""
    start = reader.at
    number = reader.number(2)
    if not reader.sees("evenly", "work") or number is None or not starts_stitch(reader, 3):
        return None
    reader.take(3)
    named = read_stitch(reader)
    along = reader.at
    reader.take_until(STOPS | OPENING.keys())
    words = reader.words(along)
    if named is None or named.special is not None or not words:
        reader.at = start
        return None
    at = Evenly(number, words)
    return (Make(named.stitch, at=at, place=reader.span(start)),)


def _says_evenly(reader: Reader) -> bool:
    """Tell whether "evenly" stands in the clause, and no edge to go along behind it."""
    for i in range(1, _FAR):
        if reader.text(i) == "evenly":
            return reader.text(i + 1) in _BEHIND | STOPS | {""}
        if not reader.text(i) or reader.text(i) in STOPS:
            return False
    return False


_BEHIND: Final = word_set("spaced around across over distributed spread ( [ x") | _TIMES


def _read_shaping(reader: Reader, frame: Frame) -> Steps | None:
    """Read "working 2 hdc in same st 8 times evenly spaced", "with 8 increases evenly around"."""
    start, found = reader.at, len(reader.found)
    last = frame.steps[-1] if frame.steps else None
    reader.take()
    number = reader.number()
    reader.take(number is not None)
    reader.accept_any(word_set("a an"))
    gained = _gained(reader, number)
    if gained is None or not _is_run(last):
        del reader.found[found:]
        return None
    each, times = gained
    reader.accept("evenly")
    times = times or _so_often(reader)
    reader.accept("evenly")
    reader.take_until(STOPS | JOINING | OPENING.keys())
    count = _times(times, abs(each)) if times is not None else None
    if count is None:
        return None
    change = "increased" if each > 0 else "decreased"
    at = Evenly(count, reader.words(start), change)
    return _over_the_run(frame, Make(Stitch(reader.main), at=at, place=reader.span(start)))


def _gained(reader: Reader, number: Number | None) -> tuple[int, Number | None] | None:
    """Read a stitch that shapes: by how many stitches, and how often where that stands before."""
    if reader.text() in _SHAPING and not starts_stitch(reader, 1):
        text = reader.text()
        reader.take()
        return (1 if text in INCREASES or text[:3] == "inc" else -1), number
    named = read_stitch(reader) if starts_stitch(reader) else None
    if named is None or named.special is not None:
        return None
    if named.change:
        return (1 if named.change == "inc" else -1), number
    if named.stitch.together > 1:
        return 1 - named.stitch.together, number
    several = _one(number)
    here = reader.at
    if not reader.accept_any(IN) or several < 2:  # noqa: PLR2004 - two in one place
        return None
    reader.accept_any(word_set("the a an"))
    if not reader.accept_any(word_set("same one single next 1")) or starts_stitch(reader, 1):
        reader.at = here
        return None
    if not reader.accept_any(_UNITS):
        if not starts_stitch(reader):
            return None
        read_stitch(reader)
    return several - 1, None


def _so_often(reader: Reader) -> Number | None:
    """Read "8 times", "x 8"."""
    lead = int(reader.text() == "x")
    number = reader.number(lead)
    if number is None or not (lead or reader.text(1) in _TIMES):
        return None
    reader.take(lead + 1)
    reader.accept_any(_TIMES)
    return number


def _over_the_run(frame: Frame, made: Make) -> Steps:
    """Let the run of plain stitches before it be the one that changes; alone it is a row."""
    last = frame.steps[-1] if frame.steps else None
    if isinstance(last, Make) and _is_run(last):
        frame.steps[-1] = replace(last, at=made.at, place=last.place.to(made.place))
        return ()
    if isinstance(made.at, Evenly) and "follows" in made.at.along.split():
        return (Remark(made.at.along, made.place),)
    return (made,)


def _is_run(step: Step | None) -> bool:
    """Whether a step works each stitch, or as many as fit evenly."""
    if not isinstance(step, Make):
        return False
    at = step.at
    open_ = isinstance(at, Evenly) and at.count is None and not at.change
    return isinstance(at, Each) or open_


def settle_changed(frame: Frame) -> None:
    """Let "increasing 8 sts evenly" before the row change the run of stitches that follows."""
    steps = frame.steps
    for i, step in enumerate(steps):
        if not isinstance(step, Make) or not isinstance(step.at, Evenly) or not step.at.change:
            continue
        behind = i + 1
        while behind < len(steps) and isinstance(steps[behind], Chain | Turn | Remark | Skip):
            behind += 1
        run = steps[behind] if behind < len(steps) else None
        whole = isinstance(run, Make) and isinstance(run.at, Each) and run.at.until == End()
        if behind == i + 1 or not whole or not isinstance(run, Make):
            continue
        steps[behind] = replace(run, at=step.at)
        steps[i] = Remark(step.at.along, step.place)
        return


def _times(number: Number, by: int) -> Number | None:
    """Give so many times a number; None for a formula."""
    if by == 1:
        return replace(number, kind=NumberKind.COUNT)
    if not isinstance(number.value, tuple):
        return None
    values = tuple(None if value is None else value * by for value in number.value)
    first, *others = map(str, values)
    spelling = f"{first} ({', '.join(others)})" if others else first
    return replace(number, value=values, spelling=spelling, kind=NumberKind.COUNT)


def _one(number: Number | None) -> int:
    """Give a whole number that is the same in all sizes; 0 where none stands."""
    match number.value if number is not None else None:
        case (int(value),):
            return value
        case _:
            return 0
