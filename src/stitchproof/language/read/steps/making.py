"""Stitches made in places: "2 sc in next st", "sc 12", "hdc in each st to last 3 sts"."""

from collections.abc import Callable
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.amounts import (
    ALONG,
    along_named,
    along_opposite,
    names_another,
    number_behind,
)
from stitchproof.language.read.steps.beside import pass_beside
from stitchproof.language.read.steps.both_ends import (
    at_both_ends,
    at_one_end,
    worked_at_both,
    worked_at_one,
)
from stitchproof.language.read.steps.breakdown import told_by_parts
from stitchproof.language.read.steps.closing import joined
from stitchproof.language.read.steps.colours import yarn_before_place, yarn_behind
from stitchproof.language.read.steps.drawn_together import (
    TOGETHER,
    drawn_together,
    pass_article,
    with_turning_chain,
)
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.free_choice import read_choice
from stitchproof.language.read.steps.gaps import read_between
from stitchproof.language.read.steps.made import Found, Wanted, bare_place, made
from stitchproof.language.read.steps.manner import pass_made
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.one_place import (
    FOUNDATIONS,
    bound_with,
    forget_chain,
    into_ring,
    pass_end,
    reach_back,
)
from stitchproof.language.read.steps.parts import at_edge, part_length
from stitchproof.language.read.steps.pattern import pass_pattern
from stitchproof.language.read.steps.places import (
    EACH,
    IN,
    Place,
    read_in,
    read_target,
)
from stitchproof.language.read.steps.posts import read_around, starts_post
from stitchproof.language.read.steps.reader import CLOSING, MARKS, STOPS, Frame, Reader
from stitchproof.language.read.steps.short_rows import of_short_row
from stitchproof.language.read.steps.spread import (
    across_evenly,
    along_part,
    evenly,
    for_every,
    in_all,
    rate_ahead,
)
from stitchproof.language.read.steps.stitches import (
    StitchName,
    as_int,
    loop_length,
    read_stitch,
)
from stitchproof.language.tree import (
    STITCH,
    Below,
    Chain,
    Colour,
    Each,
    Facing,
    First,
    Last,
    Leave,
    Make,
    Next,
    OppositeSide,
    Remark,
    Ring,
    Same,
    Steps,
    Stitch,
    Target,
    Thing,
    Turn,
)

_BEFORE_WORK: Final = (Chain, Colour, Facing, Remark, Turn)
_PLACED: Final = EACH | word_set("next first last same following foll all")
_COUNT_WORDS: Final = word_set("more sts st stitches stitch total")
_ONE_PLACE: Final = word_set(
    "same ring next magic st mr mc adjustable the a an center centre skipped corner"
)
_ROWS: Final = word_set("row rows rnd rnds round rounds")
_TIMES: Final = {"twice": 2, "thrice": 3}


def read_make(reader: Reader, frame: Frame, number: Number | None, start: int) -> Steps | None:
    """Read a stitch and its place; the number before it is read already."""
    named = read_stitch(reader)
    if named is None:
        return None
    pass_beside(reader, named)
    pass_article(reader)
    choice = read_choice(reader, named)
    if choice != ():
        return _of_choice(reader, frame, Wanted(named, number, start), choice)
    number = None if named.legs else number
    if number is not None and reader.text() in {"tog", "together"}:
        return _counted_together(reader, named, number, start)
    if reader.text() == "worked" and reader.text(1) in IN | {"over", "around"}:
        reader.take()
    wanted = Wanted(named, number, start)
    work_at_ends = _ends_named(reader)
    if work_at_ends is not None:
        return work_at_ends(
            reader, frame, made(reader, wanted, Found(Place(Next()), number or ONE))
        )
    yarn = yarn_behind(reader)
    if yarn:
        return _in_colour(reader, wanted, yarn)
    yarn = yarn_before_place(reader)
    place = _place(reader, wanted, frame)
    if place is None:
        return None
    if reader.text() in TOGETHER:
        return drawn_together(reader, wanted, place)
    place = of_short_row(reader, frame, place, start)
    place = told_by_parts(reader, wanted, with_turning_chain(reader, wanted, place))
    pass_made(reader)
    steps = made(reader, wanted, place)
    if steps is None:
        return None
    yarn = yarn or yarn_behind(reader)
    return (*yarn, *_finished(reader, frame, steps, (wanted, place)))


def _of_choice(
    reader: Reader, frame: Frame, wanted: Wanted, choice: tuple[Stitch, ...] | None
) -> Steps | None:
    """Read the place of "sc or hdc": the maker takes one of them."""
    place = None if choice is None else _place(reader, wanted, frame)
    steps = None if place is None else made(reader, wanted, place)
    if choice is None or steps is None or not all(isinstance(step, Make) for step in steps):
        return None
    return tuple(replace(s, choice=choice) if isinstance(s, Make) else s for s in steps)


def _ends_named(reader: Reader) -> Callable[[Reader, Frame, Steps | None], Steps | None] | None:
    """Choose how to read "at each end", "at beg of row"; None where neither stands there."""
    if at_both_ends(reader) and reader.text(at_both_ends(reader)) in STOPS:
        return worked_at_both
    return worked_at_one if at_one_end(reader)[1] else None


def _only(reader: Reader) -> bool:
    """Tell whether "only" closes the step: "sc in first 12 sts only", and the others are left."""
    return reader.text() == "only" and (not reader.text(1) or reader.text(1) in STOPS | {"("})


def _in_colour(reader: Reader, wanted: Wanted, yarn: Steps) -> Steps | None:
    """Give "5 sc in A", "5 sc A": the yarn behind the stitches that it makes."""
    steps = made(reader, wanted, Found(Place(bare_place(wanted)), said=False))
    return None if steps is None else (*yarn, *steps)


def _finished(reader: Reader, frame: Frame, steps: Steps, read: tuple[Wanted, Found]) -> Steps:
    """Fit steps to what stands around them: a ring, "only", a chain before foundation stitches."""
    wanted, place = read
    bare = place.counted or not place.said
    if place.said and place.place.at == Ring():
        reach_back(frame, Ring())
    elif not bare and frame.plus >= 0:
        steps = bound_with(frame, steps)
    if bare:
        steps = into_ring(steps, frame, reader)
    elif _only(reader):
        steps = (*steps, Leave(place=reader.span(reader.at)))
        reader.take()
    reader.bare = bare
    if wanted.named.stitch.kind in FOUNDATIONS:
        forget_chain(frame)
        pass_end(reader)
    return joined(steps, reader, frame, wanted.start)


_SPACES: Final = frozenset((Thing.SPACE, Thing.CHAIN_SPACE))


def _counted_together(
    reader: Reader, named: StitchName, number: Number, start: int
) -> Steps | None:
    """Read "2 sc tog" for sc2tog."""
    count = as_int(number)
    if count is None or count < 2:  # noqa: PLR2004 - one alone is not drawn together
        return None
    reader.take()
    found = Found(Place(Next()), said=False)
    if reader.text() in IN | {"over", "across"}:
        place = _prepositional(reader, made=True)
        if place is None or not isinstance(place.at, Next | First | Last | Same | Each):
            return None
        found, at = Found(place), place.at
        if (
            isinstance(at, Next | First | Last)
            and at.noun.thing not in _SPACES
            and as_int(at.number) != count
        ):
            return None
    wanted = Wanted(replace(named, stitch=replace(named.stitch, together=count)), None, start)
    return made(reader, wanted, found) if _stops(reader) else None


def _stops(reader: Reader) -> bool:
    return reader.ended() or reader.text() in STOPS | MARKS | {"and", "then"}


def _place(reader: Reader, wanted: Wanted, frame: Frame) -> Found | None:
    """Read the words of place behind a stitch; no words at all are the next place."""
    text = reader.text()
    made = reader.depth > 0 or not all(isinstance(s, _BEFORE_WORK) for s in frame.steps)
    doubled = _TIMES.get(text, 0) if reader.number() is not None else 0
    follows = reader.text(1)
    if doubled and follows in IN | {"around"}:
        reader.take()
        return _each(_prepositional(reader, made), plain(doubled))
    if wanted.number is None and number_behind(reader, frame):
        return _counted(reader, wanted)
    if _is_spread(reader, wanted):
        return _spread(reader, wanted)
    if wanted.number not in {None, ONE} and starts_until(reader) and not starts_post(reader):
        return in_all(reader, wanted)
    before = reader.at
    found = _prepositional(reader, made)
    if found is not None:
        return along_opposite(found, wanted, text) or _each(found, wanted.number or ONE)
    if reader.at != before or not _closed(reader):
        return None
    if wanted.named.fan:
        return Found(Place(Next()), wanted.number or ONE)
    return Found(Place(bare_place(wanted)), said=False)


def _is_spread(reader: Reader, wanted: Wanted) -> bool:
    """Tell whether stitches are spread along an edge: "evenly", "along side of heel flap"."""
    text = reader.text()
    if text == "evenly" or along_part(reader, wanted) or rate_ahead(reader):
        return True
    return wanted.number is not None and text in ALONG and names_another(reader)


def _spread(reader: Reader, wanted: Wanted) -> Found | None:
    rate = rate_ahead(reader)
    if rate:
        return for_every(reader, wanted, rate)
    if reader.text() != "evenly":
        along = None if along_part(reader, wanted) else along_named(reader, wanted)
        return along or evenly(reader, wanted.number)
    reader.take()
    across = wanted.number is None and reader.text() == "across" and _closes(reader, 1)
    across = across and reader.text(2) not in {"work", "working"}
    return across_evenly(reader) if across else evenly(reader, wanted.number)


def _closes(reader: Reader, ahead: int) -> bool:
    text = reader.text(ahead)
    return not text or text in STOPS or text in CLOSING or text == "("


def _each(place: Place | None, number: Number) -> Found | None:
    return None if place is None else Found(place, number)


def _closed(reader: Reader) -> bool:
    """Tell whether no words of place can follow: anything else is another step."""
    if at_edge(reader):
        return True
    return reader.text() not in IN | {"at", "between", "behind", "before", "under", "through"}


def _prepositional(reader: Reader, made: bool) -> Place | None:  # noqa: FBT001 - by what is seen
    """Read a place by its preposition; None if none stands there or it is not understood."""
    pass_pattern(reader)
    text = reader.text()
    based = text == "at" and reader.text(2 if reader.text(1) == "the" else 1) == "base"
    if (
        text in IN
        or based
        or (text == "through" and loop_length(reader, 1))
        or (text == "of" and reader.text(1) in EACH | {"next"})
    ):
        reader.take()
        return read_in(reader, made)
    if text == "between":
        reader.take()
        between = read_between(reader, read_target)
        return None if between is None else Place(between)
    if text == "all" and reader.text(1) in IN:
        return None  # it reaches back over what stands before
    if text in {"around", "round"} and starts_post(reader):
        reader.take()
        return read_around(reader)
    if text == "across" and part_length(reader, 1) and _closes(reader, 1 + part_length(reader, 1)):
        bottom = reader.text(part_length(reader, 1)) == "bottom"
        reader.take(1 + part_length(reader, 1))
        return Place(OppositeSide(Each()) if bottom else Each())
    if text in {"along", "across", "on"} and reader.text(1) in _OTHER_SIDES:
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


_OTHER_SIDES: Final = word_set("opposite other the underside free unused bottom")


def _counts_places(reader: Reader) -> bool:
    """Tell whether "across next 3 sts", "across first 4 sts" stands at the cursor."""
    ahead = 2 if reader.text(1) == "the" else 1
    counted = reader.number(ahead) is not None and reader.text(ahead + 1) in STITCHES
    return counted or reader.text(ahead) in {"next", "first", "last"}


def _along(reader: Reader) -> Place | None:
    """Read "along opposite side of ch"."""
    reader.take()
    return _plain(reader)


def _is_command(reader: Reader) -> bool:
    return reader.text() == "next" and reader.text(1) in {"row", "rnd", "round"}


def _plain(reader: Reader) -> Place | None:
    target = read_target(reader)
    return None if target is None else Place(target)


def _counted(reader: Reader, wanted: Wanted) -> Found | None:
    """Read "sc 12", "sc 42 evenly along lower edge", "sc 5 in next sp"."""
    number = reader.number()
    assert number is not None
    reader.take()
    if reader.text() == "x":  # "inc x 6" is read by the repeats
        return None
    if reader.text() in _ROWS and reader.text(1) in {"below", "down"}:
        return _rows_below(reader, wanted, number)
    reader.accept_any(_COUNT_WORDS)
    if reader.text() == "evenly":
        reader.take()
        return evenly(reader, number)
    if reader.text() == "around" and part_length(reader, 1) and reader.text(1) not in EACH:
        return evenly(reader, number)  # "sc 64 around the edge of the brim"
    if reader.text() in IN | {"around"} and reader.text(1) in _ONE_PLACE | EACH:
        return _each(_prepositional(reader, made=True), number)
    if reader.text() in {"up", "down", "along"}:
        return evenly(reader, number)
    if reader.text() in {"across", "around"}:
        if reader.text(1) not in STOPS | CLOSING | {"", "and", "turn"}:
            return evenly(reader, number)
        reader.take()
    if reader.text() in {"time", "times"}:
        reader.take()
    _ = wanted
    return Found(Place(Next(number)), counted=True)


def _rows_below(reader: Reader, wanted: Wanted, rows: Number) -> Found | None:
    """Read "spike st 2 rows below", "dc 2 rows below in next st"."""
    reader.take(2)
    at: Target | None = Next()
    if reader.accept_any(IN):
        at = read_target(reader)
    if not isinstance(at, Next | Each | Same | First | Last):
        return None
    return Found(Place(Below(rows, at)), wanted.number or ONE)
