"""What a stitch and a place come to: plain stitches, increases, stitches drawn together, groups."""

from typing import Final

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import NONE, ONE, Number, Value, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.doubt import open_reading
from stitchproof.language.read.steps.findings import GroupNotDefined
from stitchproof.language.read.steps.places import (
    Place,
)
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.steps.so_often import times_behind
from stitchproof.language.read.steps.stitches import StitchName, as_int
from stitchproof.language.tree import (
    STITCH,
    AsLong,
    Chain,
    Each,
    Evenly,
    First,
    Group,
    Last,
    Loop,
    Make,
    Marked,
    Next,
    Noun,
    Nth,
    OppositeSide,
    Origin,
    Post,
    Repeat,
    RowEnds,
    Same,
    Skip,
    Skipped,
    Steps,
    Stitch,
    Target,
    Thing,
    Times,
    To,
    ToLast,
    ToMarked,
)
from stitchproof.language.walk import put_at
from stitchproof.trade.stitches import SEVERAL

_MOST_IN_ONE: Final = 8  # more stitches than this do not go into one place unsaid
_MOST_COPIES: Final = 12


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


@dataclass(frozen=True, slots=True)
class Found:
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


def bare_place(wanted: Wanted) -> Target:
    """Give the place of a stitch that names none: the next, or as many as it counts."""
    return Next(wanted.number or ONE)


def made(reader: Reader, wanted: Wanted, found: Found) -> Steps | None:
    """Give the steps for a stitch and its place; None where the two do not go together."""
    named, place = wanted.named, found.place
    span = reader.span(wanted.start)
    special = named.special
    if special is not None and special.body is not None:
        return _group(wanted, found, reader)
    if special is None and named.stitch.kind in SEVERAL:
        return _undefined(wanted, found, reader)
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
    along = _along_row_ends(reader, wanted, found)
    if along or isinstance(place.at, Evenly):
        return (Make(stitch, ONE, Evenly(found.each, along) if along else place.at, span),)
    if isinstance(place.at, RowEnds):
        rates = tuple((noun, found.each) for noun, _ in place.at.rates)
        return (Make(stitch, ONE, replace(place.at, rates=rates), span),)
    same_number = isinstance(place.at, Next) and found.each == place.at.number
    if same_number and found.each != ONE and wanted.number is not None:
        return _as_many(stitch, found, reader, wanted)
    last = including(reader, wanted.start, place.at)
    work = Make(stitch, found.each, _side(place.at, reader), span)
    return (work,) if last is None else (work, replace(work, at=last))


def including(reader: Reader, start: int, at: Target) -> Target | None:
    """Give the end of "in each st up to and including the marked st", which is worked too."""
    words = [token.text for token in reader.tokens[start : reader.at]]
    match at:
        case Each(until=ToMarked(name, before)) if "including" in words and before == NONE:
            return Marked(name)
        case Each(until=ToLast(number, noun)) if "including" in words:
            return Last(number, noun)
        case Each(until=To(noun, before)) if "including" in words and before == NONE:
            return Next(ONE, noun)
        case _:
            return None


def _along_row_ends(reader: Reader, wanted: Wanted, found: Found) -> str:
    """Give "along the row ends" behind "22 sc": as many as that along all of them."""
    if found.place.at != Next(ONE, Noun(Thing.ROW_END)) or found.each == ONE:
        return ""
    if reader.tokens[reader.at - 1].text not in {"ends", "rows"}:
        return ""
    words = [token.text for token in reader.tokens[wanted.start : reader.at]]
    where = next((i for i, word in enumerate(words) if word in _ALONG), len(words))
    return reader.words(wanted.start + where)


_ALONG: Final = word_set("along in into across down up on over")
_SPACES: Final = frozenset((Thing.SPACE, Thing.CHAIN_SPACE))
_ROW_ENDS: Final = frozenset((Thing.ROW_END, Thing.SEAM))


def _side(at: Target, reader: Reader) -> Target:
    """Take a place to the other side of the foundation where the line said that it works there."""
    if reader.opposite and isinstance(at, Next | Each) and at.noun.thing in _ROW_ENDS:
        reader.opposite = False
    if reader.opposite and isinstance(at, First) and at.noun.thing is Thing.CHAIN:
        return OppositeSide(Next(at.number))
    if reader.opposite and isinstance(at, Next | Each):
        return OppositeSide(replace(at, noun=STITCH))
    return at


def _undefined(wanted: Wanted, found: Found, reader: Reader) -> Steps:
    """Make a group that nobody defined, of which nothing is counted; a line tells it once."""
    span = reader.span(wanted.start)
    name = wanted.named.written
    if name.lower() not in reader.undefined:
        reader.undefined.add(name.lower())
        reader.report(GroupNotDefined(name), span)
    at = found.place.at if found.said else bare_place(wanted)
    return (Make(wanted.named.stitch, found.each if found.said else ONE, at, span),)


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
    return (Make(stitch, ONE, _side(Next(number), reader), span),)


def _as_many(stitch: Stitch, found: Found, reader: Reader, wanted: Wanted) -> Steps:
    """Read "3 sc in next 3 sts": one in each, or three in each."""
    span = reader.span(wanted.start)
    assert isinstance(found.place.at, Next)
    count = as_int(found.each)
    apart = Make(stitch, ONE, found.place.at, span)
    together = Make(stitch, found.each, found.place.at, span)
    if {"each", "every", "ea"} & set(reader.words(wanted.start).lower().split()):
        return (together,)
    if count is None or count > _MOST_IN_ONE:
        return (apart,)
    readings: tuple[Steps, ...] = ((apart,), (together,))
    words = found.each.spelling
    why = f"`{reader.words(wanted.start)}` may be {words} in all or {words} in each"
    return open_reading(readings, why, (f"{words} in all", f"{words} in each"), span)


def _increase(stitch: Stitch, wanted: Wanted, found: Found, reader: Reader) -> Steps:
    at = found.place.at
    if not found.said:
        at = Next(wanted.number or ONE)
    elif wanted.number is not None and wanted.number != ONE and isinstance(at, Next):
        at = Next(wanted.number)
    return (Make(stitch, plain(wanted.named.into), at, reader.span(wanted.start)),)


def _gathered(stitch: Stitch, wanted: Wanted, found: Found, reader: Reader) -> Steps | None:
    """Make stitches drawn together: a count of stitches below is that of stitches made."""
    span = reader.span(wanted.start)
    at = found.place.at
    if not found.said:
        return (Make(stitch, ONE, Next(wanted.number or ONE), span),)
    if _is_one_space(at) or _is_cluster(stitch, wanted, at, reader):
        return (Group((Make(stitch, ONE, Same(), span),), at, "", span),)
    if isinstance(at, Next | First | Last) and at.number != ONE and not found.counted:
        made = _shared(at.number, stitch.together)
        counted_by_name = found.each != ONE or wanted.number is None
        if made is None:
            return (Make(stitch, ONE, at, span),) if counted_by_name else None
        at = replace(at, number=made)
    if found.each != ONE and isinstance(at, Next):
        at = replace(at, number=found.each)
    often = times_behind(reader) if isinstance(at, Next) and at.number == ONE else None
    if often is not None and isinstance(at, Next):
        at, span = replace(at, number=often), reader.span(wanted.start)
    return (Make(stitch, ONE, at, span),)


def _is_cluster(stitch: Stitch, wanted: Wanted, at: Target, reader: Reader) -> bool:
    """Tell whether legs go into one stitch: "dc3tog in next st", not "over next 3 sts"."""
    if stitch.together < _LEGS or not isinstance(at, Next | First | Last) or at.number != ONE:
        return False
    words = {token.text for token in reader.tokens[wanted.start : reader.at]}
    return bool(words & {"in", "into"}) and not words & {"over", "across"}


_LEGS: Final = 3  # of a cluster


def _is_one_space(at: Target) -> bool:
    """Tell whether legs go into one space: "dc3tog in next ch-3 sp", "in each ch-3 sp"."""
    if isinstance(at, Next | First | Last):
        return at.number == ONE and at.noun.thing in _SPACES
    return isinstance(at, Each) and at.noun.thing in _SPACES


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


def _own_places(body: Steps) -> bool:
    """Tell whether steps skip and come back, and so say themselves where they go."""
    return any(
        isinstance(step, Skip) or (isinstance(step, Make) and isinstance(step.at, Skipped))
        for step in body
    )


def _leads_itself(body: Steps) -> bool:
    """Tell whether steps begin by going to their place: a block of corner-to-corner work.

    "Ch 6, dc in 4th ch from hook, …" on chains of its own, "sl st in next ch-3 sp, ch 3, …".
    """
    match body[:2]:
        case (Chain(), Make(at=Nth(origin=Origin.HOOK))):
            return True
        case (Make(stitch=stitch, at=Next(noun=noun)), _) if stitch.kind == "sl_st":
            return noun.thing in _SPACES
        case (Make(at=Next(noun=noun)),) | (Chain(), Skip(at=Next(noun=noun))):
            return noun.thing is Thing.STITCH_OR_CHAIN  # a filet mesh, over either kind
        case _:
            return False


def _led(body: Steps, at: Target, span: Span) -> Steps | None:
    """Work steps that go to their place themselves: "Block in each of next 3 ch-3 sps"."""
    match at:
        case Each(until=until):
            return (Repeat(body, AsLong(until), "", None, span),)
        case Next(number) | First(number) | Last(number):
            return body if number == ONE else (Repeat(body, Times(number), "", None, span),)
        case _:
            return None


def _repeated_places(body: Steps, found: Found, span: Span) -> Steps | None:
    """Work steps with places of their own so many times: "crossed dc 12 times", "over 4 sts"."""
    at = found.place.at
    if isinstance(at, Each):
        return (Repeat(body, AsLong(at.until), "", None, span),)
    if not isinstance(at, Next):
        return None
    if found.counted and at.number != ONE:
        return (Repeat(body, Times(at.number), "", None, span),)
    taken = places_taken(body)
    said = as_int(at.number)
    if said is not None and taken and said > taken and not said % taken:
        return (Repeat(body, Times(plain(said // taken)), "", None, span),)
    return body


def places_taken(body: Steps) -> int:
    """Count the places of the edge that steps pass which skip and come back; 0: not known."""
    total = 0
    for step in body:
        match step:
            case Make(at=Next(number)) | Skip(at=Next(number)):
                count = as_int(number)
                by = step.stitch.together if isinstance(step, Make) else 1
            case Make(at=Skipped()) | Chain():
                count, by = 0, 1
            case _:
                count, by = None, 1
        if count is None:
            return 0
        total += count * by
    return total


def _slips_there(body: Steps) -> bool:
    """Tell whether a group begins with slip stitches over places that it names."""
    match body:
        case (Make(stitch, at=First() | Next()), Make(other, at=First() | Next()), *_):
            return stitch.kind == other.kind == "sl_st"
        case _:
            return False


def _group(wanted: Wanted, found: Found, reader: Reader) -> Steps | None:
    special = wanted.named.special
    assert special is not None
    assert special.body is not None
    span = reader.span(wanted.start)
    body = put_at(special.body, span)
    if found.said and _slips_there(body):
        return body  # "beg shell in first shell": it says itself how to come there
    if _leads_itself(body):
        return _led(body, found.place.at if found.said else bare_place(wanted), span)
    if not found.said and not any(isinstance(s, Make) and s.at == Same() for s in body):
        return body  # a picot: it goes into no place
    if not found.said:
        return (Group(body, Next(wanted.number or ONE), special.name, span),)
    if _own_places(body):
        return _repeated_places(body, found, span)
    copies = as_int(found.each)
    if copies is None or not 0 < copies <= _MOST_COPIES:
        return None
    return (Group(body * copies, found.place.at, special.name, span),)
