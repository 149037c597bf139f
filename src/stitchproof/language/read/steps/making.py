"""Stitches made in places: "2 sc in next st", "sc 12", "hdc in each st to last 3 sts"."""

from dataclasses import dataclass, replace
from typing import Final

from stitchproof.language.number import ONE, Number, Value, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.doubt import open_reading
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.places import (
    EACH,
    IN,
    Place,
    read_in,
    read_target,
)
from stitchproof.language.read.steps.posts import read_around, read_between, starts_post
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Frame, Reader
from stitchproof.language.read.steps.stitches import StitchName, as_int, read_stitch
from stitchproof.language.tree import (
    STITCH,
    Below,
    Chain,
    Each,
    Either,
    Evenly,
    First,
    Group,
    Join,
    Last,
    Loop,
    Make,
    Next,
    Nth,
    OppositeSide,
    Post,
    RowEnds,
    Same,
    Step,
    Steps,
    Stitch,
    Target,
)

_PLACED: Final = EACH | word_set("next first last same following foll all")
_MOST_IN_ONE: Final = 8  # more stitches than this do not go into one place unsaid
_MOST_COPIES: Final = 12
_COUNT_WORDS: Final = word_set("more sts st stitches stitch total")
_TIMES: Final = {"twice": 2, "thrice": 3}


@dataclass(slots=True)
class Wanted:
    """A stitch read, before its place is.

    Attributes
    ----------
    named : StitchName
        The stitch.
    number : Number or None
        The number before its name.
    start : int
        First token of it.
    """

    named: StitchName
    number: Number | None
    start: int


def read_make(reader: Reader, frame: Frame, number: Number | None, start: int) -> Steps | None:
    """Read a stitch and its place; the number before it is read already."""
    named = read_stitch(reader)
    if named is None:
        return None
    reader.accept_any(word_set("loosely"))
    wanted = Wanted(named, number, start)
    place = _place(reader, wanted, frame)
    if place is None:
        return None
    steps = _step(reader, wanted, place)
    return None if steps is None else _joined(steps, reader, frame, start)


@dataclass(frozen=True, slots=True)
class _Found:
    """A place with how many stitches go into each.

    Attributes
    ----------
    place : Place
        Where.
    each : Number
        How many in each.
    said : bool
        Words named the place.
    counted : bool
        The number of places is that of stitches made: "sc 12", "sc2tog twice".
    """

    place: Place
    each: Number = ONE
    said: bool = True
    counted: bool = False


def _place(reader: Reader, wanted: Wanted, frame: Frame) -> _Found | None:
    """Read the words of place behind a stitch; no words at all are the next place."""
    text = reader.text()
    made = bool(frame.steps) or reader.depth > 0
    doubled = _TIMES.get(text, 0) if reader.number() is not None else 0
    follows = reader.text(1)
    if doubled and follows in IN | {"around"}:
        reader.take()
        return _each(_prepositional(reader, made), plain(doubled))
    if reader.number() is not None and wanted.number is None:
        return _counted(reader, wanted)
    if text == "evenly":
        reader.take()
        return _evenly(reader, wanted.number)
    if wanted.number not in {None, ONE} and starts_until(reader) and not starts_post(reader):
        until = read_until(reader)  # "22 sc across" are 22 in all
        return None if until is None else _Found(Place(_bare(wanted)), counted=True)
    before = reader.at
    found = _prepositional(reader, made)
    if found is not None:
        return _each(found, wanted.number or ONE)
    if reader.at != before or not _closed(reader):
        return None
    return _Found(Place(_bare(wanted)), said=False)


def _each(place: Place | None, number: Number) -> _Found | None:
    return None if place is None else _Found(place, number)


def _closed(reader: Reader) -> bool:
    """Tell whether no words of place can follow: anything else is another step."""
    return reader.text() not in IN | {"between", "behind", "before", "under"}


def _prepositional(reader: Reader, made: bool) -> Place | None:  # noqa: FBT001 - by what is seen
    """Read a place by its preposition; None if none stands there or it is not understood."""
    text = reader.text()
    if text in IN:
        reader.take()
        return read_in(reader, made)
    if text == "between":
        reader.take()
        between = read_between(reader)
        return None if between is None else Place(between)
    if text == "around" and starts_post(reader):
        reader.take()
        return read_around(reader)
    if text in {"along", "across", "on"} and reader.text(1) in {"opposite", "other", "the"}:
        return _along(reader)
    if text == "over" or (text == "across" and _counts_places(reader)):
        reader.take()
        return _plain(reader)
    if starts_until(reader):
        until = read_until(reader)
        return None if until is None else Place(Each(STITCH, until))
    if text in _PLACED and not _is_command(reader):
        return _plain(reader)
    return None


def _counts_places(reader: Reader) -> bool:
    """Tell whether "across next 3 sts", "across first 4 sts" stands at the cursor."""
    ahead = 2 if reader.text(1) == "the" else 1
    return reader.text(ahead) in {"next", "first", "last"}


def _along(reader: Reader) -> Place | None:
    """Read "along opposite side of ch"."""
    reader.take()
    return _plain(reader)


def _is_command(reader: Reader) -> bool:
    return reader.text() == "next" and reader.text(1) in {"row", "rnd", "round"}


def _plain(reader: Reader) -> Place | None:
    target = read_target(reader)
    return None if target is None else Place(target)


def _bare(wanted: Wanted) -> Target:
    return Next(wanted.number or ONE)


def _counted(reader: Reader, wanted: Wanted) -> _Found | None:
    """Read "sc 12", "sc 42 evenly along lower edge", "sc 5 in next sp"."""
    number = reader.number()
    assert number is not None
    reader.take()
    if reader.text() == "x":  # "inc x 6" is read by the repeats
        return None
    reader.accept_any(_COUNT_WORDS)
    if reader.text() == "evenly":
        reader.take()
        return _evenly(reader, number)
    if reader.text() in IN | {"around"} and reader.text(1) in {
        "same",
        "ring",
        "next",
        "magic",
        "st",
    }:
        return _each(_prepositional(reader, made=True), number)
    if reader.text() in {"up", "down", "along"}:
        return _evenly(reader, number)
    if reader.text() in {"across", "around"}:
        if reader.text(1) not in STOPS | CLOSING | {"", "and", "turn"}:
            return _evenly(reader, number)
        reader.take()
    if reader.text() in {"time", "times"}:
        reader.take()
    _ = wanted
    return _Found(Place(Next(number)), counted=True)


def _evenly(reader: Reader, number: Number | None) -> _Found | None:
    """Read "evenly along lower edge": the words to the next stop say where."""
    start = reader.at
    while not reader.ended() and reader.text() not in {",", ";", ".", "(", "["}:
        reader.take()
    return _Found(Place(Evenly(number, reader.words(start))))


# --------------------------------------------------------------------------- the steps themselves


def _step(reader: Reader, wanted: Wanted, found: _Found) -> Steps | None:
    named, place = wanted.named, found.place
    span = reader.span(wanted.start)
    special = named.special
    if special is not None and special.body is not None:
        return _group(wanted, found, reader)
    stitch = _fitted(named.stitch, place, reader)
    reader.terse = reader.terse or bool(named.change)
    if stitch.together > 1:
        return _gathered(stitch, wanted, found, reader)
    if named.change == "inc":
        return _increase(stitch, wanted, found, reader)
    if not found.said and stitch.kind == "picot":
        return _picot(reader, wanted)
    if not found.said and wanted.number is not None:
        return _bare_count(stitch, wanted, reader)
    if isinstance(place.at, Evenly):
        return (Make(stitch, ONE, place.at, span),)
    if isinstance(place.at, RowEnds):
        rates = tuple((noun, found.each) for noun, _ in place.at.rates)
        return (Make(stitch, ONE, replace(place.at, rates=rates), span),)
    same_number = isinstance(place.at, Next) and found.each == place.at.number
    if same_number and found.each != ONE and wanted.number is not None:
        return _as_many(stitch, found, reader, wanted)
    return (Make(stitch, found.each, _side(place.at, reader), span),)


def _side(at: Target, reader: Reader) -> Target:
    """Take a place to the other side of the foundation where the line said that it works there."""
    if reader.opposite and isinstance(at, Next | Each):
        return OppositeSide(replace(at, noun=STITCH))
    return at


def _picot(reader: Reader, wanted: Wanted) -> Steps:
    """Make the common picot, which goes into no place: three chains closed to a ring."""
    span = reader.span(wanted.start)
    three = plain(3)
    return (Chain(three, None, span), Make(Stitch("sl_st"), ONE, Nth((three,)), span))


def _fitted(stitch: Stitch, place: Place, reader: Reader) -> Stitch:
    """Put on the stitch what the words of place said of loop and post."""
    loop = place.loop or (reader.loop if stitch.loop is Loop.BOTH else stitch.loop)
    if stitch.post is not Post.NONE or place.post is not Post.NONE:
        loop = place.loop or stitch.loop
    post = stitch.post if place.post is Post.NONE else place.post
    if stitch.kind == "sl_st" and place.loop is None:
        loop = stitch.loop
    return replace(stitch, loop=loop, post=post)


def _bare_count(stitch: Stitch, wanted: Wanted, reader: Reader) -> Steps:
    """Read "3 sc" with no place: one in each of the next three, or three in one."""
    number = wanted.number or ONE
    span = reader.span(wanted.start)
    count = as_int(number)
    if count is not None and not 1 < count <= _MOST_IN_ONE:
        reader.terse = True
    elif count is not None and not reader.depth:
        reader.open_bare = True
        if reader.one_place:
            return (Make(stitch, number, Next(), span),)
    return (Make(stitch, ONE, Next(number), span),)


def _as_many(stitch: Stitch, found: _Found, reader: Reader, wanted: Wanted) -> Steps:
    """Read "3 sc in next 3 sts": one in each, or three in each."""
    span = reader.span(wanted.start)
    assert isinstance(found.place.at, Next)
    apart = Make(stitch, ONE, found.place.at, span)
    together = Make(stitch, found.each, found.place.at, span)
    readings: tuple[Steps, ...] = ((apart,), (together,))
    words = found.each.spelling
    why = f"`{reader.words(wanted.start)}` may be {words} in all or {words} in each"
    return open_reading(readings, why, (f"{words} in all", f"{words} in each"), span)


def _increase(stitch: Stitch, wanted: Wanted, found: _Found, reader: Reader) -> Steps:
    at = found.place.at
    if not found.said:
        at = Next(wanted.number or ONE)
    elif wanted.number is not None and wanted.number != ONE and isinstance(at, Next):
        at = Next(wanted.number)
    return (Make(stitch, plain(2), at, reader.span(wanted.start)),)


def _gathered(stitch: Stitch, wanted: Wanted, found: _Found, reader: Reader) -> Steps | None:
    """Make stitches drawn together: a count of stitches below is that of stitches made."""
    span = reader.span(wanted.start)
    at = found.place.at
    if not found.said:
        return (Make(stitch, ONE, Next(wanted.number or ONE), span),)
    if isinstance(at, Next | First | Last) and at.number != ONE and not found.counted:
        made = _shared(at.number, stitch.together)
        counted_by_name = found.each != ONE or wanted.number is None
        if made is None:
            return (Make(stitch, ONE, at, span),) if counted_by_name else None
        at = replace(at, number=made)
    if found.each != ONE and isinstance(at, Next):
        at = replace(at, number=found.each)
    return (Make(stitch, ONE, at, span),)


def _shared(number: Number, by: int) -> Number | None:
    """Divide a count of stitches below by how many go into one; None if that is not whole."""
    if not isinstance(number.value, tuple):
        return None
    values: list[Value] = []
    for value in number.value:
        if value is None:
            values.append(None)
        elif value % by:
            return None
        else:
            values.append(int(value // by))
    return replace(number, value=tuple(values))


def _group(wanted: Wanted, found: _Found, reader: Reader) -> Steps | None:
    special = wanted.named.special
    assert special is not None
    assert special.body is not None
    span = reader.span(wanted.start)
    if not found.said and not any(isinstance(s, Make) and s.at == Same() for s in special.body):
        return special.body  # a picot: it goes into no place
    if not found.said:
        return (Group(special.body, Next(wanted.number or ONE), special.name, span),)
    copies = as_int(found.each)
    if copies is None or not 0 < copies <= _MOST_COPIES:
        return None
    return (Group(special.body * copies, found.place.at, special.name, span),)


# --------------------------------------------------------------------------- joins and once more


def _joined(steps: Steps, reader: Reader, frame: Frame, start: int) -> Steps:
    """Take a slip stitch into the first stitch, after stitches were made, for a join."""
    step = steps[-1]
    if not isinstance(step, Make) or step.stitch.kind != "sl_st" or reader.depth:
        return steps
    at = step.at
    if isinstance(at, First) and at.number == ONE and _has_made(frame):
        return (Join(at, place=reader.span(start)),)
    return steps


def _has_made(frame: Frame) -> bool:
    return any(isinstance(step, Make | Group | Either) or _repeats(step) for step in frame.steps)


def _repeats(step: Step) -> bool:
    return type(step).__name__ == "Repeat"


def once_more(reader: Reader, step: Make | Group, start: int) -> Steps | None:
    """Read "and in each ch across" behind a step: the same again in another place."""
    if reader.text() in IN:
        reader.take()
        place = read_in(reader)
    elif reader.text() == "around":
        reader.take()
        place = read_around(reader)
    else:
        target = read_target(reader)
        place = None if target is None else Place(target)
    if place is None:
        return None
    span = reader.span(start)
    if isinstance(step.at, Each) and isinstance(place.at, Each):
        return None
    if isinstance(step, Group):
        return (replace(step, at=place.at, place=span),)
    stitch = replace(step.stitch, loop=place.loop or step.stitch.loop)
    at = place.at
    if stitch.together > 1 and isinstance(at, Next) and at.number != ONE:
        return None
    return (Make(stitch, step.each, at, span),)


def ends_here(reader: Reader) -> bool:
    """Tell whether a step can end at the cursor."""
    return reader.ended() or reader.text() in STOPS or reader.text() in CLOSING


def is_same_place(target: Target) -> bool:
    """Tell whether a target is a bare next place, which in a group is the group's own."""
    return isinstance(target, Next | Same | Below)
