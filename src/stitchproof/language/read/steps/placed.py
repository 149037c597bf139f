"""Steps that begin with a place, a number or a verb: "in next sp work (...)", "3 ch", "skip 2"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS
from stitchproof.language.read.steps import joins, repeats
from stitchproof.language.read.steps.advice import works_another
from stitchproof.language.read.steps.brackets import in_one_place, read_bracket
from stitchproof.language.read.steps.breakdown import read_part
from stitchproof.language.read.steps.chains import chained, read_chain, read_ring, read_to_stop
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.gaps import read_between
from stitchproof.language.read.steps.last_one import last_into_chain, last_together, names_last
from stitchproof.language.read.steps.leaving import on_these, only_first
from stitchproof.language.read.steps.listed import read_listed
from stitchproof.language.read.steps.loop_for_line import loop_for_line
from stitchproof.language.read.steps.making import read_make
from stitchproof.language.read.steps.manner import as_before, names_bumps, names_manner
from stitchproof.language.read.steps.more import MORE, read_more
from stitchproof.language.read.steps.new_yarn import is_slip
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.once_more import more_in_last, once_more
from stitchproof.language.read.steps.parts import part_length
from stitchproof.language.read.steps.places import IN, Place, read_in, read_target
from stitchproof.language.read.steps.reader import MARKS, OPENING, STOPS, Frame, Reader
from stitchproof.language.read.steps.rings import ring_length
from stitchproof.language.read.steps.so_often import so_often
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import (
    as_int,
    longest,
    read_stitch,
    starts_stitch,
)
from stitchproof.language.read.steps.striping import rows_of_each
from stitchproof.language.read.steps.told_twice import told_in_full
from stitchproof.language.read.steps.whole_rows import (
    across_in,
    one_row,
    read_across,
    whole_row,
)
from stitchproof.language.tree import (
    STITCH,
    Each,
    Evenly,
    First,
    Group,
    Leave,
    Loop,
    MagicRing,
    Make,
    Next,
    Remark,
    Ring,
    RowEnds,
    Step,
    Steps,
    Stitch,
    Target,
)

_VERBS: Final = word_set("work make do place working")


def read_placed(reader: Reader, frame: Frame) -> Steps | None:
    """Read a place that stands before its stitches: "in next ch-1 sp work (dc, ch 1, dc)"."""
    start = reader.at
    loop = loop_for_line(reader, 1)
    if loop is not None:
        reader.loop = loop
        return ()
    place: Place | None = None
    made_now = any(ring_length(reader, i) for i in range(1, 4))
    target: Target | None
    if reader.accept("between"):
        target = read_between(reader, read_target)
    else:
        reader.take()
        place = read_in(reader)
        target = None if place is None else place.at
    if target is None:
        return None
    stopped = reader.accept_any(frozenset((",", ":")))
    reader.accept_any(_VERBS)
    reader.accept(":")
    if target == Ring() and (stopped or _chain_first(reader)):
        reader.ring = True
        return (MagicRing(reader.span(start)),) if made_now else ()
    if reader.text() in OPENING:
        return _bracket_in(reader, frame, target, start)
    steps = read_listed(reader, target, start)
    loop = place.loop if place is not None else None
    return steps if steps is None or loop is None else tuple(_through(s, loop) for s in steps)


def _through(step: Step, loop: Loop) -> Step:
    """Work a step in the loop that its place names."""
    match step:
        case Make(stitch):
            return replace(step, stitch=replace(stitch, loop=loop))
        case Group(body):
            return replace(step, body=tuple(_through(inner, loop) for inner in body))
        case _:
            return step


def _chain_first(reader: Reader) -> bool:
    """Tell whether what goes into the ring begins with a chain, which stands on it."""
    return reader.text() in CHAINS or (reader.number() is not None and reader.text(1) in CHAINS)


def _bracket_in(reader: Reader, frame: Frame, target: Target, start: int) -> Steps | None:
    close = reader.partner[reader.at]
    if close < 0:
        return None
    if reader.depth >= 32:  # noqa: PLR2004 - the bracket reader reports it
        return read_bracket(reader, frame)
    reader.take()
    reader.depth += 1
    body = tuple(reader.inner(reader, close).steps)
    reader.depth -= 1
    reader.at = close + 1
    return (Group(in_one_place(body), target, "", reader.span(start)),)


def read_numbered(reader: Reader, frame: Frame) -> Steps | None:
    """Read a step that begins with a number: "2 dc in next st", "3 ch", "6 sc in ring"."""
    start = reader.at
    number = reader.number()
    assert number is not None
    reader.take()
    if reader.text() == "-" and (reader.text(1) in CHAINS or starts_stitch(reader, 1)):
        reader.take()
    if reader.text() == "turning" and reader.text(1) in CHAINS:
        reader.take()
    if reader.text() in CHAINS and longest(reader.special, reader) is None:
        reader.take()
        return chained(reader, frame, number, start)
    named = reader.text() in STITCHES or starts_stitch(reader)
    if reader.text() == "per" or (named and reader.text(1) == "per"):
        return _per(reader, frame, number, start)
    if reader.text() in {"x", "times"} and reader.text(1) in OPENING:
        return so_often(reader, frame, number, start)
    more = reader.accept_any(MORE)
    if reader.text() in IN and isinstance(frame.again, Make):
        steps = once_more(reader, frame.again, start)
        return None if steps is None else tuple(replace_each(step, number) for step in steps)
    if number == ONE and is_slip(reader):
        return joins.read_slip(reader, frame)
    if starts_stitch(reader):
        return (read_more if more else read_make)(reader, frame, number, start)
    reader.at = start
    return read_part(reader, frame)


def _per(reader: Reader, frame: Frame, number: Number, start: int) -> Steps:
    """Read "1 sc per row" behind what is spread evenly; alone it is advice."""
    last = frame.steps[-1] if frame.steps else None
    ahead = 1 if reader.text() == "per" else 2
    if (
        isinstance(last, Make)
        and last.at == Evenly(None, _along(last))
        and (reader.text(ahead) == "row")
    ):
        reader.take(ahead + 1)
        reader.accept("-")
        reader.accept_any(word_set("end ends"))
        at = RowEnds(((STITCH, number),))
        return (replace(last, at=at, place=reader.span(start)),)
    reader.take_until({",", ";", "."})
    return (Remark(reader.words(start), reader.span(start)),)  # "one per row"


def _along(step: Make) -> str:
    return step.at.along if isinstance(step.at, Evenly) else ""


def replace_each(step: Step, each: Number) -> Step:
    """Give a step with another number of stitches in each place."""
    return replace(step, each=each) if isinstance(step, Make) else step


def _made_ring(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read "make a magic ring", "make a loop, 3 ch"."""
    if ring_length(reader):
        return read_ring(reader, frame)
    if reader.text(1) not in STOPS or frame.steps:
        return None
    reader.take()
    return (MagicRing(reader.span(start)),)


def read_work(reader: Reader, frame: Frame) -> Steps | None:
    """Read behind "work" and "make": a stitch, a loop for what follows, an edge."""
    start = reader.at
    reader.take()
    told = told_in_full(reader, frame, start, _worked)
    if told is not None:
        return told
    again = rows_of_each(reader) or as_before(reader) or works_another(reader)
    if again or reader.text() == "sure":
        return read_to_stop(reader, start)
    if reader.text() == "last" or reader.sees("the", "last") or _first_together(reader):
        return _work_last(reader, frame, start)
    if reader.text() in MARKS:
        return ()  # "then work *dc in next st, ...; rep from *"
    if across_in(reader):
        return read_across(reader, start)
    if reader.text() == "from" and reader.text(1) in MARKS:
        reader.at = start
        return repeats.read_repeat(reader, frame)
    more = more_in_last(reader, start)
    if more is not None:
        return more
    _pass_small_words(reader)
    if reader.text() in {"loop", "ring"} or ring_length(reader):
        return _made_ring(reader, frame, start)
    if reader.text() in CHAINS and reader.text(1) == "of":
        return read_chain(reader, frame)
    return _worked(reader, frame, start)


def _pass_small_words(reader: Reader) -> None:
    """Go past "a", "back" of "work back along the other side", "on" of "cast on 42 ch"."""
    if reader.sees("a", "total", "of") and reader.number(3) is not None:
        reader.take(3)
    reader.accept_any(word_set("a an the"))
    if reader.text() in _SHAPES and reader.text(1) == "of" and reader.text(2) in OPENING:
        reader.take(2)  # "corner of (dc, ch 2, dc)"
    if reader.text() in _OF_BASE and reader.text(1) in CHAINS and reader.text(2) == "of":
        reader.take()  # "foundation chain of 40 chs"
    reader.accept("back")
    if reader.text() == "on" and reader.text(2) in CHAINS:
        reader.take()


_OF_BASE: Final = word_set("foundation base loose starting beginning")
_SHAPES: Final = word_set("corner increase inc point shell group")


def _work_last(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read "the last sc in top of ch-3", "last 2 sts together" behind "working"."""
    together = _first_together(reader)
    if together:
        at = First() if reader.text() == "first" else Next()
        reader.take(4)
        return (Make(Stitch(reader.main, together=together), at=at, place=reader.span(start)),)
    reader.accept("the")
    if names_last(reader):
        return last_into_chain(reader, frame, start)
    return last_together(reader, frame) if reader.number(1) is not None else None


def _first_together(reader: Reader) -> int:
    """Tell how many of "first 2 sts tog" are drawn into one stitch; 0 where no such words stand."""
    known = reader.text() in {"first", "next"} and reader.text(2) in STITCHES
    together = known and reader.text(3) in {"tog", "together"}
    return (as_int(reader.number(1)) or 0) if together else 0


def _in_manner(reader: Reader, start: int) -> Steps | None:
    """Read "in crab st to end", which is work, and words of manner, which are none."""
    worked = _in_stitch(reader, start)
    if worked is None and names_manner(reader):
        return (Remark(reader.words(start), reader.span(start)),)
    return worked


def _in_stitch(reader: Reader, start: int) -> Steps | None:
    """Read "in crab st (reverse sc) to end", "in hdc around" behind "work"."""
    here = reader.at
    named = read_stitch(reader) if reader.accept("in") and starts_stitch(reader) else None
    if named is not None and named.special is None:
        partner = reader.partner[reader.at] if reader.text() in OPENING else -1
        reader.take(max(partner + 1 - reader.at, 0))
        until = read_until(reader) if starts_until(reader) else None
        if until is not None:
            return (Make(named.stitch, ONE, Each(STITCH, until), place=reader.span(start)),)
    reader.at = here
    return None


def _worked(reader: Reader, frame: Frame, start: int) -> Steps | None:
    if reader.text() in {"on", "over"} and reader.text(1) in {"these", "those"}:
        return on_these(reader, start)
    if reader.text() in {"on", "over"} and only_first(reader):
        return (Leave(None, reader.span(start)),)
    reader.accept("only")
    this_row = reader.text() == "this" and reader.text(1) in ROWS and reader.text(2) in _IN_LOOPS
    reader.take(2 if this_row else 0)  # "working this row in back loops only"
    if reader.text() in _IN_LOOPS and (loop := loop_for_line(reader, 1)) is not None:
        reader.loop = loop
        return ()
    if (manner := _in_manner(reader, start)) is not None:
        return manner
    if reader.text() in _ALONG:
        return _working_along(reader, frame, start)
    if reader.text() in OPENING:
        return read_bracket(reader, frame)
    row = one_row(reader)
    if row:
        return whole_row(reader, frame, row)
    if reader.number() is not None:
        return read_numbered(reader, frame)
    if starts_stitch(reader):
        return read_make(reader, frame, None, start)
    return None


_IN_LOOPS: Final = IN | {"through"}
_ALONG: Final = word_set("along across around on into in over through up down")


def _working_along(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read "working along opposite side of foundation ch": stitches that follow go there."""
    along = reader.text()
    if along in IN and names_bumps(reader):
        return (Remark(reader.words(start), reader.span(start)),)
    if along in IN and _place_named(reader):
        return read_placed(reader, frame)
    named = part_length(reader, 1) > 0
    while not reader.ended() and reader.text() not in {",", ";", ".", ":", "(", "["}:
        if _stitches_follow(reader, start):
            break
        chain, side = reader.text() in CHAINS, reader.text() in {"side", "sides"}
        reader.take()
        if (side and starts_stitch(reader)) or (chain and "side" in reader.words(start).lower()):
            break  # what follows is worked there
    words = reader.words(start)
    if "repeat" in words.lower():
        return None  # "over 1 repeat fewer at armhole edge" is work, not where it is done
    if any(w in words.lower() for w in OTHER_SIDES):
        reader.opposite = True
        return (Remark(words, reader.span(start)),)
    if named or any(
        w in words.lower()
        for w in (
            *("row end", "row-end", "edge", "side", "rows", "spiral", "rounds", "tail", "strand"),
            *("thickness", "layers", "instead of"),
        )
    ):
        return (Remark(words, reader.span(start)),)
    return None


def _stitches_follow(reader: Reader, start: int) -> bool:
    """Tell whether what is worked begins without a comma: "through both layers 1dc in each dc"."""
    if reader.number() is not None:
        return starts_stitch(reader, 1)
    layers = reader.tokens[reader.at - 1].text in _LAYERS and reader.at > start
    return layers and starts_stitch(reader)


_LAYERS: Final = word_set("layers thicknesses pieces edges")
OTHER_SIDES: Final = (
    "opposite side",
    "other side",
    "free loops",
    "foundation ch",
    "beginning ch",
    "starting ch",
    "underside",
)


def _place_named(reader: Reader) -> bool:
    named = 1
    while reader.text(named) in {"the", "center", "centre"}:
        named += 1
    if named > 1:
        return reader.text(named) == "ring"
    return reader.text(named) in word_set("next same first last each every ring st ch")
