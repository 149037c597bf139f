"""Closing a round, beginning again with the yarn, fastening off."""

from dataclasses import replace
from typing import Final

from stitchproof.language.number import ONE
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.gaps import read_between
from stitchproof.language.read.steps.left_open import unworked_before
from stitchproof.language.read.steps.making import read_make
from stitchproof.language.read.steps.nouns import BODY_STITCH, CHAINS, SPACES
from stitchproof.language.read.steps.one_place import into_loop
from stitchproof.language.read.steps.ordinals import MIDDLE
from stitchproof.language.read.steps.places import IN, read_in, read_target
from stitchproof.language.read.steps.reader import OPENING, STOPS, Frame, Reader
from stitchproof.language.read.steps.rows_below import join_to_limb
from stitchproof.language.read.steps.stitches import longest, read_loop, read_stitch, starts_stitch
from stitchproof.language.tree import (
    Between,
    Chain,
    Colour,
    Facing,
    First,
    Join,
    JoinYarn,
    MagicRing,
    Make,
    Next,
    Noun,
    Remark,
    Ring,
    Same,
    Skipped,
    Step,
    Steps,
    Stitch,
    Target,
    Thing,
    Turn,
)

_TO: Final = IN | {"to", "at", "on"}
YARN: Final = word_set("yarn wool thread ball skein")
ROUNDS: Final = word_set("rnd round ring work rounds")
_FORMING: Final = word_set("form make close")
JOINERS: Final = word_set("join joining joined")
_NAMES_OF_SLIP: Final = "sl_st"
_LONGEST_NAME: Final = 3  # words of a colour


def is_slip(reader: Reader) -> bool:
    """Tell whether a slip stitch is named at the cursor."""
    known = longest(reader.known, reader)
    return known is not None and known[0].name == _NAMES_OF_SLIP


def forms_ring(reader: Reader) -> bool:
    """Read "to form a ring", "to work in the round"; tell whether it stood there."""
    if reader.accept("to", "work", "in", "the", "round") or reader.accept(
        "to", "work", "in", "rnds"
    ):
        return True
    if not (reader.sees("to") or reader.sees("and")) or reader.text(1) not in _FORMING:
        return False
    ahead = 2
    while reader.text(ahead) in {"a", "the", "first", "center", "centre"}:
        ahead += 1
    looped = reader.text(ahead) == "loop" and reader.tokens[reader.at - 1].text in JOINERS
    if reader.text(ahead) not in ROUNDS | {"circle", "tube"} and not looped:
        return False
    reader.take(ahead + 1)
    return True


def read_slip(reader: Reader, frame: Frame) -> Steps | None:
    """Read "sl st to join", "sl st in first ch to form ring", "sl st in next 5 sts"."""
    start = reader.at
    known = longest(reader.known, reader)
    length = known[1] if known else 1
    after, next_after = reader.text(length), reader.text(length + 1)
    if after == "to" and next_after in {"close", "finish"} and _nothing(reader, length + 2):
        reader.take(length + 2)
        reader.accept_any(ROUNDS)
        return (Join(place=reader.span(start)),)
    if after in JOINERS or (after == "to" and next_after in JOINERS):
        reader.take(length + (2 if after == "to" else 1))
        reader.accept_any(ROUNDS)
        return _closed(reader, frame, start)
    if after in {"to", "and"} and next_after in _FORMING:
        reader.take(length)
        return _closed(reader, frame, start)
    goes_on = after == "to" and next_after == "next" and bool(frame.marks or reader.depth)
    if after in {"to", "top", "tog"} and (_has_worked(frame) or after != "to") and not goes_on:
        reader.take(length)
        reader.accept("to")
        return _closed(reader, frame, start)
    if after == "to" or (after in _ALONG and next_after == "to"):
        steps = _slip_to(reader, length, start)
        return steps and _ring_or_join(reader, frame, steps, start)
    steps = read_make(reader, frame, None, start)
    if steps is not None and reader.tokens[reader.at - 1].text in {"loop", "lp"}:
        steps = tuple(into_loop(step) for step in steps)
    if steps is not None and reader.part_end == reader.at:
        return tuple(_to_body(step) for step in steps)
    return steps if steps is None else _ring_or_join(reader, frame, steps, start)


def _nothing(reader: Reader, ahead: int) -> bool:
    """Tell whether the step ends some way ahead."""
    ahead += reader.text(ahead) in {"rnd", "round"}
    return not reader.text(ahead) or reader.text(ahead) in STOPS


def _to_body(step: Step) -> Step:
    """Let a slip stitch "in next 2 sts of body" go to the edge that the rib is joined to."""
    if not isinstance(step, Make) or not isinstance(step.at, Next | First):
        return step
    plain = step.at.noun.thing in {Thing.STITCH, Thing.KIND}
    return replace(step, at=Next(step.at.number, BODY_STITCH)) if plain else step


def _slip_to(reader: Reader, length: int, start: int) -> Steps | None:
    """Read "sl st to next ch-2 sp" at the start of a round."""
    named = read_stitch(reader)
    if named is None:
        return None
    _ = length
    reader.accept_any(_ALONG)
    reader.take()
    target = read_target(reader)
    if target is None:
        return None
    return (Make(named.stitch, ONE, target, reader.span(start)),)


def _ring_or_join(reader: Reader, frame: Frame, steps: Steps, start: int) -> Steps:
    """Take a slip stitch for a join where the words behind it, or a ring of chains, say so."""
    step = steps[-1]
    at = step.at if isinstance(step, Make | Join) else None
    if forms_ring(reader):
        return (Join(at, ring=True, place=reader.span(start)),)
    if reader.text() == "to" and reader.text(1) in JOINERS | {"close"}:
        reader.take(2)
        reader.accept_any(ROUNDS)
        return (Join(at, ring=_only_chains(frame), place=reader.span(start)),)
    into_chain = isinstance(at, First) and at == First(ONE, Noun(Thing.CHAIN))
    if into_chain and _only_chains(frame):
        return (Join(at, ring=True, place=reader.span(start)),)
    return steps


def _only_chains(frame: Frame) -> bool:
    """Tell whether the line so far is a foundation chain."""
    chained = any(isinstance(step, Chain) for step in frame.steps)
    return chained and all(isinstance(step, Chain | Remark | Colour) for step in frame.steps)


def _has_worked(frame: Frame) -> bool:
    return any(not isinstance(s, Chain | Remark | Colour | Turn | MagicRing) for s in frame.steps)


def _closed(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read where a join goes, behind the word that says it joins."""
    ring = forms_ring(reader)
    target: Target | None = None
    reader.accept_any(_TO)
    if not stops(reader) and not reader.sees("with") and reader.text() not in _CARE:
        if read_loop(reader) is not None:
            reader.accept("of")
        target = _joined_to(reader)
        if target is None:
            return None
    if reader.accept("with"):
        reader.accept("a")
        if not _slip_name(reader):
            return None
    if reader.text() == "to" and reader.text(1) in JOINERS | {"close"}:
        reader.take(2)
        reader.accept_any(ROUNDS)
    ring = forms_ring(reader) or ring or (_only_chains(frame) and target is not None)
    if ring and target == Ring():
        target = None  # "join into a ring"
    join = Join(target, ring=ring, place=reader.span(start))
    return (join, *_care(reader)) if reader.text() in _CARE else (join,)


def _joined_to(reader: Reader) -> Target | None:
    """Read "first sc made", "beg": where a round closes is where it began."""
    if reader.text() in {"beg", "beginning", "start"} and _nothing(reader, 1):
        reader.take()
        return First()
    target = read_target(reader)
    if isinstance(target, First):
        reader.accept_any(word_set("made worked"))
    return target


def _slip_name(reader: Reader) -> bool:
    if reader.text() in _UNSEEN and reader.text(1) in JOINERS:
        reader.take(2)
        return True
    if not is_slip(reader):
        return False
    read_stitch(reader)
    return True


_ALONG: Final = word_set("over across along up")
_UNSEEN: Final = word_set("invisible inv needle seamless")


def read_unseen(reader: Reader, frame: Frame) -> Steps | None:
    """Read "invisible join in first st", "inv join": it closes the round as a slip stitch does."""
    if reader.text(1) not in JOINERS:
        return read_make(reader, frame, None, reader.at) if starts_stitch(reader) else None
    start = reader.at
    reader.take(2)
    return _closed(reader, frame, start)


def stops(reader: Reader) -> bool:
    """Tell whether no place follows a join or new yarn."""
    text = reader.text()
    return reader.ended() or text in STOPS or text in OPENING or text in {"and", "then", "turn"}


# --------------------------------------------------------------------------- join


def read_join(reader: Reader, frame: Frame) -> Steps | None:
    """Read from "join" on: a round, a ring, or new yarn."""
    start = reader.at
    reader.take()
    reader.accept("the")
    if reader.text() in YARN | {"new", "another"} or reader.sees("main", "color"):
        return read_join_yarn(reader, frame, start)
    counted = 1 if reader.text() in {"a", "second"} else 0
    if reader.text(counted) in YARN or (
        reader.ordinal(counted) is not None and reader.text(counted + 1) in YARN
    ):
        reader.take(counted)
        return read_join_yarn(reader, frame, start)
    reader.accept_any(ROUNDS)
    if reader.text() in _TO and (joined := join_to_limb(reader, start)):
        return joined
    if reader.accept("at"):
        return _yarn_at(reader, start)
    if reader.accept("with"):
        return _join_with(reader, frame, start)
    if reader.text() in _CARE:
        return (Join(ring=_only_chains(frame), place=reader.span(start)), *_care(reader))
    if reader.text() in {"in", "into", "to", "on"} or stops(reader) or forms(reader):
        steps = _closed(reader, frame, start)
        return steps if steps is None else _as_yarn(steps, frame)
    return _join_colour(reader, frame, start)


_CARE: Final = word_set("without being taking making careful carefully")


def _care(reader: Reader) -> Steps:
    """Keep "without twisting", "being careful not to twist" as a remark."""
    start = reader.at
    while not reader.ended() and reader.text() not in {",", ";", ".", "(", "["}:
        reader.take()
    return (Remark(reader.words(start), reader.span(start)),)


def forms(reader: Reader) -> bool:
    """Tell whether "to form ring" comes next, without reading it."""
    return reader.text() == "to" and reader.text(1) in _FORMING


def _join_with(reader: Reader, frame: Frame, start: int) -> Steps | None:
    reader.accept("a")
    if _slip_name(reader):
        steps = _closed(reader, frame, start)
        return steps if steps is None else _as_yarn(steps, frame)
    if not starts_stitch(reader):
        return None
    return _standing(reader, start)


def _standing(reader: Reader, start: int) -> Steps | None:
    """Join with a stitch: the yarn begins there and the stitch goes into that place."""
    named = read_stitch(reader)
    if named is None:
        return None
    looped = reader.tokens[reader.at - 1].text == "of"  # "sc in BLO of any st"
    if not looped and not reader.accept_any(_TO):
        return None
    place = read_in(reader)
    if place is None:
        return None
    loop = place.loop or named.stitch.loop
    span = reader.span(start)
    stitch = Stitch(named.stitch.kind, loop=loop)
    return (JoinYarn(place.at, place=span), Make(stitch, ONE, Same(), span))


def _as_yarn(steps: Steps, frame: Frame) -> Steps:
    """Take "join with sl st in any sp" before anything is made for new yarn joined there."""
    step = steps[0]
    fresh = all(isinstance(s, Colour | Remark | Facing) for s in frame.steps)
    coloured = any(isinstance(s, Colour | Facing) for s in frame.steps) or _in_space(step)
    if not isinstance(step, Join) or step.at is None or step.ring or not (fresh and coloured):
        return steps
    return (JoinYarn(step.at, place=step.place),)


def _in_space(step: Step) -> bool:
    """Tell whether a join goes into a space: no round is closed there before it is worked."""
    at = step.at if isinstance(step, Join) else None
    if isinstance(at, Between):
        return True
    return isinstance(at, Next) and at.noun.thing in {Thing.SPACE, Thing.CHAIN_SPACE}


def _join_colour(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read "join B in first st", "join White"."""
    token = reader.token()
    if token is None or token.kind is not TokenKind.WORD:
        return None
    at = reader.at
    while reader.text() not in _TO | {"with", "behind"} and not stops(reader):
        if reader.at - at >= _LONGEST_NAME or reader.number() is not None:
            return None
        reader.take()
    colour = Colour(reader.words(at), place=reader.span(at))
    joined = read_join_yarn(reader, frame, start)
    return None if joined is None else (colour, *joined)


def read_join_yarn(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read behind "join yarn", "rejoin", "attach"."""
    unworked_before(frame)
    if reader.text() in YARN and _names_yarn(reader):
        reader.take()
        return _join_colour(reader, frame, start)
    reader.pass_over(YARN | word_set("new the main color colour again a another second of"))
    if reader.ordinal() is not None and reader.text(1) in YARN:
        reader.take(2)
        reader.accept("of")
        reader.accept_any(YARN)
    if reader.accept("with"):
        reader.accept("a")
        if not starts_stitch(reader):
            return None
        if not is_slip(reader):
            return _standing(reader, start)
        read_stitch(reader)
    _pass_behind(reader)
    if stops(reader):
        return (JoinYarn(place=reader.span(start)),)
    if reader.accept("between"):
        gap = read_between(reader, read_target)
        return None if gap is None else (JoinYarn(gap, place=reader.span(start)),)
    if not reader.accept_any(_TO):
        return None
    return _yarn_at(reader, start)


def _names_yarn(reader: Reader) -> bool:
    """Tell whether "B", "MC" stands behind "yarn"."""
    name = reader.token(1)
    if name is None or name.kind is not TokenKind.WORD or not name.written[:1].isupper():
        return False
    return reader.text(2) in _TO | {"with"} or reader.ended_after(reader.at + 2)


def _pass_behind(reader: Reader) -> None:
    """Go past "behind any petal": on which side of the work the yarn begins."""
    reader.pass_over(word_set("behind any petal a the") if reader.text() == "behind" else YARN)


def read_rejoin(reader: Reader, frame: Frame) -> Steps | None:
    """Read "rejoin yarn in next st", "rejoin B at underarm", "attach B with sl st in first st"."""
    start = reader.at
    reader.take()
    plain = reader.text() in YARN | _TO | word_set("new the main color colour with")
    if plain or stops(reader):
        return read_join_yarn(reader, frame, start)
    return _join_colour(reader, frame, start)


def _yarn_at(reader: Reader, start: int) -> Steps | None:
    """Read where the yarn begins; words for an edge that is no stitch are kept as they are."""
    where = reader.at
    if _is_named_place(reader):
        target = read_target(reader)
        if target is not None and reader.accept("with"):
            reader.accept("a")
            _slip_name(reader)
        earlier = reader.tokens[reader.at - 1].number is not None  # "skipped st of Rnd 8"
        if target is not None and stops(reader) and not (isinstance(target, Skipped) and earlier):
            return (JoinYarn(target, place=reader.span(start)),)
    while not reader.ended() and reader.text() not in {",", ";", ".", "(", "["}:
        reader.take()
    of = reader.words(where)
    return (JoinYarn(None, of=of, place=reader.span(start)),) if of else None


def _is_named_place(reader: Reader) -> bool:
    """Tell whether a stitch, a space, a seam or a marker is named before the next stop."""
    ahead = 0
    while reader.text(ahead) in {"the", "a", "any", "one"}:
        ahead += 1
    if reader.text(ahead) in MIDDLE or reader.text(ahead + 1) == "seam":
        return True
    if reader.text(ahead) in _NAMED | CHAINS | SPACES or reader.ordinal(ahead) is not None:
        return True
    counted = reader.number(ahead) is not None
    return counted or (ahead > 0 and starts_stitch(reader, ahead))


_NAMED: Final = word_set(
    "next first last same each marked seam shoulder ring skipped missed st top corner stitch"
)
