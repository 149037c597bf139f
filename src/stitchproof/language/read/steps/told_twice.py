"""Work told in short and then in full: "sc across, working 1 sc in each sc and 2 sc in each sp"."""

from collections.abc import Callable
from itertools import pairwise
from typing import Final, TypeGuard

from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS
from stitchproof.language.read.steps.nouns import CENTRE_STITCH, STITCHES
from stitchproof.language.read.steps.places import EACH, IN, read_in
from stitchproof.language.read.steps.reader import (
    CLOSING,
    JOINING,
    MARKS,
    OPENING,
    STOPS,
    Frame,
    Reader,
)
from stitchproof.language.read.steps.stitches import read_stitch, starts_stitch
from stitchproof.language.tree import (
    CHAIN,
    STITCH,
    Each,
    End,
    Evenly,
    Group,
    Make,
    Next,
    Noun,
    Remark,
    RowEnds,
    Step,
    Steps,
    Thing,
)

_WORK: Final = word_set("work working")
_STITCHES: Final = (Thing.STITCH, Thing.KIND, Thing.STITCH_OR_CHAIN)

Read = Callable[[Reader, Frame, int], "Steps | None"]


def read_told_below(reader: Reader) -> Steps | None:
    """Keep "work 2 hdc in every 6th st around as follows:" as a remark: what follows says it.

    So too of "two sts are decreased on each row", "in the next round we will join the legs".
    """
    told = _told_of_rows(reader)
    if told:
        start = reader.at
        reader.take(told)
        return (Remark(reader.words(start), reader.span(start)),)
    if "follows" not in reader.said:
        return None
    ahead = 1 if reader.text() in _WORK else 0
    if not starts_stitch(reader, ahead + (reader.number(ahead) is not None)):
        return None
    while reader.text(ahead) and reader.text(ahead) not in _BREAKS:
        if reader.sees_at(ahead, "as", "follows"):
            start = reader.at
            reader.take(ahead + 2)
            reader.accept(":")
            return (Remark(reader.words(start), reader.span(start)),)
        ahead += 1
    return None


def _told_of_rows(reader: Reader) -> int:
    """Count the tokens of a sentence about rows that others tell; 0 where it is work itself."""
    ahead = 2 if reader.text(1) == "the" else 1
    coming = reader.text() in IN and reader.text(ahead) in {"next", "following"}
    coming = coming and reader.text(ahead + 1) in ROWS and reader.text(ahead + 2) in {"we", "you"}
    changed = reader.number() is not None and reader.text(1) in STITCHES
    changed = changed and reader.text(2) in {"are", "is"} and reader.text(3) in _CHANGED
    if not coming and not changed:
        return 0
    length = 4
    while reader.text(length) and reader.text(length) not in {".", ";", ":", "!"} | CLOSING:
        length += 1
    return length


_CHANGED: Final = word_set("decreased increased dec inc added lost")


def told_in_full(reader: Reader, frame: Frame, start: int, read: Read) -> Steps | None:
    """Read what "working" says of the step before it: how it is spread, or in what it is worked."""
    if frame.steps and (reader.ended() or reader.text() in STOPS):
        return ()  # "working" before a count that has been taken out
    if _spread_before(frame) and _of_total(reader, frame):
        return ()
    if reader.number() is not None and starts_stitch(reader, 1) and _spread_before(frame):
        if _in_total(reader, frame):
            return ()
        return _how_spread(frame, read(reader, frame, start))
    return _in_each(reader, frame, start)


def _of_total(reader: Reader, frame: Frame) -> bool:
    """Read "a total of 46 sts" behind "hdc evenly around armhole": so many are made there."""
    start = reader.at
    number = reader.number(3) if reader.sees("a", "total", "of") else None
    last = frame.steps[-1]
    if number is None or not isinstance(last, Make) or not isinstance(last.at, Evenly):
        return False
    reader.take(4)
    named = starts_stitch(reader) and read_stitch(reader) is not None
    if not named and not reader.accept_any(STITCHES):
        reader.at = start
        return False
    frame.steps[-1] = replace(last, at=replace(last.at, count=number))
    return True


def _in_total(reader: Reader, frame: Frame) -> bool:
    """Read "40 dc in total" behind "dc evenly around armhole": so many are made there."""
    start, number = reader.at, reader.number()
    reader.take()
    if read_stitch(reader) is not None and reader.accept("in") and reader.accept_any(_TOTAL):
        last = frame.steps[-1]
        assert isinstance(last, Make)
        assert isinstance(last.at, Evenly)
        frame.steps[-1] = replace(last, at=replace(last.at, count=number))
        return True
    reader.at = start
    return False


_TOTAL: Final = word_set("total all")


def _in_each(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read "working in each st and in each of the 5 chs" behind "hdc around"."""
    last = frame.steps[-1] if frame.steps else None
    if reader.text() not in IN or reader.text(1) not in EACH or last is None or not _sweeps(last):
        return None
    steps: Steps = ()
    while reader.text() in IN or (reader.text() in {"and", "&"} and reader.text(1) in IN):
        reader.take(2 if reader.text() not in IN else 1)
        place = read_in(reader)
        if place is None or not isinstance(last, Make):
            return None
        steps = (*steps, replace(last, at=place.at, place=reader.span(start)))
        start = reader.at
    return steps


def _how_spread(frame: Frame, steps: Steps | None) -> Steps | None:
    """Read "working 1 sc in each st" behind "sc evenly", which it explains; corners it does not."""
    match steps:
        case (Make(at=Each(noun=noun)),) if noun.thing in {Thing.SPACE, Thing.CHAIN_SPACE}:
            return steps
        case None | ():
            return steps
        case _:
            words = frame.steps.pop()
            frame.steps.append(Remark("evenly", words.place))
            return steps


def _spread_before(frame: Frame) -> bool:
    """Tell whether "sc evenly across" without a number stands right before."""
    last = frame.steps[-1] if frame.steps else None
    return isinstance(last, Make) and isinstance(last.at, Evenly) and last.at.count is None


_BREAKS: Final = STOPS | CLOSING | JOINING | MARKS | OPENING.keys() | {"follows"}


def settle_told_twice(reader: Reader, frame: Frame) -> None:
    """Take "sc across" and what tells of its stitches behind it, "working ...", for one step."""
    steps = frame.steps
    for i in range(len(steps) - 2, -1, -1):
        first, second = steps[i], steps[i + 1]
        if _sweeps(first) and _in_stitches(second) and _working(reader, second):
            steps[i : i + 2] = [replace(second, place=first.place.to(second.place))]
        elif _sweeps(first) and _in_underarms(reader, second):
            assert isinstance(first, Make)
            place = first.place.to(second.place)
            each = Each(Noun(Thing.STITCH_OR_CHAIN))
            steps[i : i + 2] = [replace(first, at=each, place=place)]
        elif (ends := _one_in_each_end(reader, first, second)) is not None:
            steps[i : i + 2] = [ends]


def _in_underarms(reader: Reader, step: Step) -> bool:
    """Tell whether "1 hdc in each of the 4 chs at each underarm" is what a step says."""
    at = step.at if isinstance(step, Make) else None
    if not isinstance(at, Next) or at.noun != CHAIN or getattr(step, "each", ONE) != ONE:
        return False
    start = reader.first_of(step.place)
    words = [token.text for token in reader.tokens[start : start + _FAR_UNDERARM]]
    return any(pair in {("each", "underarm"), ("both", "underarms")} for pair in pairwise(words))


_FAR_UNDERARM: Final = 14  # tokens of such words


def _one_in_each_end(reader: Reader, first: Step, second: Step) -> Make | None:
    """Give "28 sc, one in each row end" as one step: how many there are, and where they go."""
    if not isinstance(first, Make) or not isinstance(second, Make):
        return None
    match first.at, second.at:
        case ((Next(number, noun) | Evenly(number, noun)), RowEnds() as ends):
            told = number not in {None, ONE} and (noun == STITCH or isinstance(noun, str))
        case _:
            return None
    at = reader.first_of(second.place)
    words = reader.tokens[at : at + 2]
    short = len(words) > 1 and words[0].number is not None and words[1].text in IN
    if not told or not short or first.stitch != second.stitch or first.each != ONE:
        return None
    place = first.place.to(second.place)
    return replace(second, at=replace(ends, stated=number), place=place)


def _sweeps(step: Step) -> bool:
    return isinstance(step, Make) and step.at == Each(STITCH)


def _in_stitches(step: Step) -> TypeGuard[Make | Group]:
    at = step.at if isinstance(step, Make | Group) else None
    every = at if isinstance(at, Each) and at.until == End() and at.apart == ONE else None
    return every is not None and every.noun.thing in _STITCHES and every.noun != CENTRE_STITCH


def _working(reader: Reader, step: Make | Group) -> bool:
    """Tell whether "working" stands right before a step, or is its first word."""
    at = reader.first_of(step.place)
    words = [token.text for token in reader.tokens[max(at - 1, 0) : at + 1]]
    return "working" in words
