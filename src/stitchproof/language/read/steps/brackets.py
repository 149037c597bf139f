"""Brackets: a group in one place, a repeat, or words beside the work.

What stands behind the closing bracket decides.
"""

from enum import Enum
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.bracket_words import (
    bracketed_colour,
    is_advice,
    names_a_place,
    one_in_each,
    placed_behind,
    tells_of_others,
)
from stitchproof.language.read.steps.chain_drawn_in import drawn_with_chain
from stitchproof.language.read.steps.doubt import open_reading
from stitchproof.language.read.steps.findings import BracketNotClosed, BracketsTooDeep
from stitchproof.language.read.steps.gaps import read_between
from stitchproof.language.read.steps.often import in_spaces_left, read_often, starts_often
from stitchproof.language.read.steps.pattern import pass_pattern
from stitchproof.language.read.steps.places import IN, read_in, read_target
from stitchproof.language.read.steps.posts import read_around, starts_post
from stitchproof.language.read.steps.reader import OPENING, Frame, Reader
from stitchproof.language.read.steps.remarks import (
    is_remark,
    read_counts,
    read_equals,
    read_first_made,
    starts_counts,
)
from stitchproof.language.read.steps.stitches import longest
from stitchproof.language.tree import (
    CHAIN,
    SPACE,
    STITCH,
    Chain,
    Counts,
    Each,
    Either,
    Evenly,
    First,
    Group,
    Make,
    Mark,
    Next,
    Nth,
    OppositeSide,
    Origin,
    Remark,
    Repeat,
    RowEnds,
    Same,
    Skip,
    Step,
    Steps,
    Target,
    Thing,
    Times,
    Turn,
    Unread,
)

DEEPEST: Final = 32
REPEAT: Final = word_set("rep repeat reps repeats repeated repeating rpt")
_PER_EDGE: Final = word_set("per each")


def read_bracket(reader: Reader, frame: Frame) -> Steps | None:
    """Read from an opening bracket to what stands behind its partner."""
    start = reader.at
    close = reader.partner[start]
    if close < 0:
        return lonely_bracket(reader)
    if reader.depth >= DEEPEST:
        reader.take(close + 1 - start)
        words = reader.words(start)
        reader.report(BracketsTooDeep(DEEPEST), reader.span(start))
        return (Unread(words, reader.span(start)),)
    beside = _beside(reader, frame, start, close)
    if beside is not None:
        return beside
    reader.take()
    reader.depth += 1
    body = tuple(reader.inner(reader, close).steps)
    reader.depth -= 1
    reader.at = close + 1
    return _behind(reader, frame, body, start)


def lonely_bracket(reader: Reader) -> Steps:
    """Keep what follows a bracket without a partner as it is: how it was meant is not known."""
    start = reader.at
    reader.report(BracketNotClosed(reader.text()), reader.span(start, start + 1))
    stops = {".", ";"} if reader.text() in OPENING else {".", ";", ","}
    reader.take()
    reader.take_until(stops)
    return (Unread(reader.words(start), reader.span(start)),)


# --------------------------------------------------------------------------- words beside the work


def _beside(reader: Reader, frame: Frame, start: int, close: int) -> Steps | None:
    """Read a bracket that holds no steps; None if it may hold some."""
    if close == start + 1:
        reader.take(2)
        return (Remark(reader.words(start), reader.span(start)),)
    colour = bracketed_colour(reader, frame, start, close)
    if colour is not None:
        return colour
    reader.take()
    if drawn_with_chain(reader, frame, close):
        reader.at = close + 1
        return ()
    reader.at = start + 1
    if starts_counts(reader):
        counts = read_counts(reader)
        inside = reader.at >= close
        reader.at = close + 1
        place = reader.span(start)
        if counts is not None and inside:
            return _attach(frame, counts, Remark(reader.words(start), place))
        return (Remark(reader.words(start), place),)
    if frame.steps and isinstance(frame.steps[-1], Chain):
        first = read_first_made(reader, close)
        reader.at = start + 1
        if first is not None:
            reader.at = close + 1
            return _attach(frame, first, Remark(reader.words(start), reader.span(start)))
    remark = is_remark(reader, start + 1, close)
    told = _tells_of_first(reader, frame, close) or _is_even_count(reader, frame, close)
    remark = remark or one_in_each(reader, frame, close) or tells_of_others(reader, close)
    if told or _is_per_edge(reader, frame, close):
        reader.at = close + 1
        return ()
    remark = remark or is_advice(reader, close) or names_a_place(reader, close)
    if remark and not placed_behind(reader, close):
        name_group(reader, frame, close)
        reader.at = close + 1
        return (Remark(reader.words(start), reader.span(start)),)
    reader.at = start
    return None


def name_group(reader: Reader, frame: Frame, close: int) -> None:
    """Give the group just made the name that "(fan made)" gives it."""
    last = frame.steps[-1] if frame.steps else None
    reader.pass_over(word_set("first 1st beg beginning a an the"))
    own = longest(reader.special, reader)
    special = own[0].special if own is not None else None
    if own is None or special is None or special.body is None or reader.at + own[1] != close - 1:
        return
    if isinstance(last, Group) and not last.name:
        frame.steps[-1] = replace(last, name=special.name)
    elif isinstance(last, Make) and last.each != ONE:
        body = (replace(last, at=Same()),)
        frame.steps[-1] = Group(body, last.at, special.name, last.place)


def _is_per_edge(reader: Reader, frame: Frame, close: int) -> bool:
    """Read "36 (48) sc per edge" as what one edge of row ends makes."""
    number = reader.number()
    i = len(frame.steps) - 1
    while i > 0 and isinstance(frame.steps[i], Remark):
        i -= 1
    last = frame.steps[i] if i >= 0 else None
    if number is None or not isinstance(last, Make) or not isinstance(last.at, RowEnds):
        return False
    if all(reader.tokens[j].text not in _PER_EDGE for j in range(reader.at, close)):
        return False
    frame.steps[i] = replace(last, at=replace(last.at, stated=number))
    return True


def _is_even_count(reader: Reader, frame: Frame, close: int) -> bool:
    """Read "(14 dc)" behind "dc evenly down first side": as many are worked there."""
    number = reader.number()
    last = frame.steps[-1] if frame.steps else None
    if number is None or not isinstance(last, Make) or not isinstance(last.at, Evenly):
        return False
    if last.at.count is not None or close - reader.at > 2:  # noqa: PLR2004 - a number and its unit
        return False
    frame.steps[-1] = replace(last, at=replace(last.at, count=number))
    return True


def _attach(frame: Frame, counts: Counts, remark: Remark) -> Steps:
    """Put what a chain counts as on the chain that stands before it."""
    attached = attach_counts(frame, counts)
    return () if attached else (remark,)


def _tells_of_first(reader: Reader, frame: Frame, close: int) -> bool:
    """Read "(ch 3 = 1 dc)" at the end of a row: it tells of the chain that the row begins with."""
    start = reader.at
    equals = read_equals(reader, close)
    skipped = {token.text for token in reader.tokens[start:close]} & _SKIPPED_CHAINS
    told = equals is not None and _counts_first(frame, equals)
    if equals is not None and not told and skipped:
        told = attach_counts(frame, equals)  # "(missed ch = 1 tr)"
    reader.at = close + 1 if told else start
    return told


_SKIPPED_CHAINS: Final = word_set("skipped missed sk unworked")


def _counts_first(frame: Frame, counts: Counts) -> bool:
    """Give the chain that a row begins with what a remark further on says of it."""
    for i, step in enumerate(frame.steps):
        if isinstance(step, Chain) and step.counts is None:
            frame.steps[i] = replace(step, counts=counts)
            return True
        if not isinstance(step, Turn | Remark):
            return False
    return False


def attach_counts(frame: Frame, counts: Counts) -> bool:
    """Give counts to the last chain, or to the chains that a stitch from the hook skipped."""
    for i in range(len(frame.steps) - 1, max(-1, len(frame.steps) - 3), -1):
        step = frame.steps[i]
        if isinstance(step, Chain):
            frame.steps[i] = replace(step, counts=counts)
            return True
        at = step.at if isinstance(step, Make | Group) else None
        if isinstance(at, Nth) and at.origin is Origin.HOOK:
            # Chains skipped at the hook are no chains made now: a chain of none, with its remark.
            frame.steps.insert(i, Chain(plain(0), counts, step.place))
            return True
        if i == 0 and isinstance(step, Skip) and _skips_chains(step):
            frame.steps.insert(i, Chain(plain(0), counts, step.place))
            return True
        if isinstance(step, Make | Repeat | Group):
            return False
    return False


def _skips_chains(step: Skip) -> bool:
    """Tell whether a row begins with so many chains that it skips."""
    return isinstance(step.at, First | Next) and step.at.noun == CHAIN


# --------------------------------------------------------------------------- what stands behind


def _behind(reader: Reader, frame: Frame, body: Steps, start: int) -> Steps | None:
    if reader.text() in {",", ";"} and reader.text(1) in REPEAT and reader.text(2) != "from":
        reader.take()
    if reader.text() in REPEAT and reader.text(1) not in {"from", "*", "row", "rows"}:
        reader.take()
        return _repeated(reader, body, start)
    pass_pattern(reader)
    often = starts_often(reader) and not in_spaces_left(reader)
    if often and not (reader.text() == "around" and starts_post(reader)):
        return _repeated(reader, body, start)
    reader.accept("all")
    target = _place(reader)
    if isinstance(target, _Nothing):
        return _alone(reader, frame, body, start)
    if target is None:
        return None
    body = tuple(_in_its_space(step, target) for step in in_one_place(body))
    return (Group(body, target, "", reader.span(start)),)


def _in_its_space(step: Step, target: Target) -> Step:
    """Take "2 sc in loop" within "(...) in each loop" for the same loop."""
    if not isinstance(step, Make) or not isinstance(target, Each | Next):
        return step
    spaced = target.noun.thing in {Thing.SPACE, Thing.CHAIN_SPACE}
    return replace(step, at=Same()) if spaced and step.at == Next(ONE, SPACE) else step


class _Nothing(Enum):
    """No words of place behind a bracket."""

    NONE = 0


_NONE: Final = _Nothing.NONE


def _place(reader: Reader) -> Target | _Nothing | None:
    if reader.text() in IN:
        reader.take()
        place = read_in(reader)
        return None if place is None else place.at
    if reader.text() == "between":
        reader.take()
        return read_between(reader, read_target)
    if reader.text() == "around" and starts_post(reader):
        reader.take()
        around = read_around(reader)
        return None if around is None else around.at
    return _NONE


def _repeated(reader: Reader, body: Steps, start: int) -> Steps | None:
    how = read_often(reader)
    if how is None:
        return None
    often = how.often
    mark = reader.tokens[start].text
    place = _place(reader) if isinstance(often, Times) else _NONE
    if place is None:
        return None
    span = reader.span(start)
    if not isinstance(place, _Nothing):
        repeat = Repeat(in_one_place(body), often, mark, None, span)
        return (Group((repeat,), place, "", span),)
    return (Repeat(body, often, mark, None, span),)


def _alone(reader: Reader, frame: Frame, body: Steps, start: int) -> Steps | None:
    """Take a bracket that nothing follows: words that spell out the step before, or plain steps."""
    before = reader.tokens[start - 1].text if start else ""
    spelled_out = bool(before) and before not in {",", ";", ".", ":", "*", "**", "-", "–", "—"}
    last = frame.steps[-1] if frame.steps else None
    if body and all(isinstance(step, Mark) for step in body):
        return body
    if spelled_out and isinstance(last, Make | Group) and before not in {"work", "make", "and"}:
        return (Remark(reader.words(start), reader.span(start)),)
    stitches = [step for step in body if isinstance(step, Make)]
    if len(stitches) > 1 and all(_is_bare(step) for step in stitches) and _no_other(body):
        span = reader.span(start)
        group = Group(in_one_place(body), Next(), "", span)
        why = f"`{reader.words(start)}` may go one after another or all into one place"
        return open_reading((body, (group,)), why, ("one after another", "in one place"), span)
    return body


def _is_bare(step: Make) -> bool:
    return isinstance(step.at, Next) and step.at.noun == STITCH


def _no_other(body: Steps) -> bool:
    return all(isinstance(step, Make | Chain) for step in body)


def in_one_place(body: Steps) -> Steps:
    """Give the steps of a group: every stitch goes into the place of the group."""
    if any(isinstance(step, Skip) for step in body):
        return body  # it skips and comes back: its places are its own
    steps: list[Step] = []
    for step in body:
        if isinstance(step, Group) and step.at == Same() and not step.name:
            steps += step.body
        else:
            steps.append(_same(step))
    return tuple(steps)


def _same(step: Step) -> Step:
    if isinstance(step, Make):
        if isinstance(step.at, OppositeSide) and isinstance(step.at.at, Next):
            step = replace(step, at=step.at.at)  # the place of the group is there
        if not _is_bare(step):
            return step
        assert isinstance(step.at, Next)
        if ONE not in {step.at.number, step.each}:
            return step
        each = step.at.number if step.each == ONE else step.each
        return replace(step, each=each, at=Same())
    if isinstance(step, Repeat):
        return replace(step, body=in_one_place(step.body))
    if isinstance(step, Group) and step.at == Next():
        return replace(step, at=Same())
    if isinstance(step, Either):
        return _one_reading(step)
    return step


def _one_reading(step: Either) -> Step:
    """Settle a doubt that being in one place settles: both readings then say the same."""
    readings = tuple(dict.fromkeys(in_one_place(reading) for reading in step.readings))
    if len(readings) == 1 and len(readings[0]) == 1:
        return readings[0][0]
    return replace(step, readings=readings)
