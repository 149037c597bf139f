"""Closing a round, beginning again with the yarn, fastening off."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.advice import read_advice
from stitchproof.language.read.steps.colours import is_yarn
from stitchproof.language.read.steps.making import read_make
from stitchproof.language.read.steps.new_yarn import (
    JOINERS,
    TO,
    YARN,
    as_yarn,
    is_slip,
    join_colour,
    pass_in,
    read_join_yarn,
    slip_name,
    standing,
    stops,
    yarn_at,
)
from stitchproof.language.read.steps.nouns import BODY_STITCH
from stitchproof.language.read.steps.one_place import into_loop
from stitchproof.language.read.steps.parts import part_length
from stitchproof.language.read.steps.places import read_target
from stitchproof.language.read.steps.reader import STOPS, Frame, Reader
from stitchproof.language.read.steps.ring_forming import (
    FORMING,
    INTO,
    ROUNDS,
    forms,
    forms_ring,
    forms_round,
    is_long,
    nothing_behind,
    only_chains,
)
from stitchproof.language.read.steps.rows_below import join_to_limb
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import longest, read_loop, read_stitch, starts_stitch
from stitchproof.language.read.steps.yarn_names import yarn_name
from stitchproof.language.tree import (
    Chain,
    Colour,
    First,
    Join,
    MagicRing,
    Make,
    Next,
    Noun,
    Remark,
    Ring,
    Step,
    Steps,
    Target,
    Thing,
    Turn,
)


def read_slip(reader: Reader, frame: Frame) -> Steps | None:
    """Read "sl st to join", "sl st in first ch to form ring", "sl st in next 5 sts"."""
    start = reader.at
    known = longest(reader.known, reader)
    length = known[1] if known else 1
    after, next_after = reader.text(length), reader.text(length + 1)
    if after == "to" and next_after in {"close", "finish"} and nothing_behind(reader, length + 2):
        reader.take(length + 2)
        reader.accept_any(ROUNDS)
        return (Join(place=reader.span(start)),)
    if after in JOINERS or (after == "to" and next_after in JOINERS):
        reader.take(length + (2 if after == "to" else 1))
        reader.accept_any(ROUNDS)
        return _closed(reader, frame, start)
    if after in {"to", "and"} and next_after in FORMING:
        reader.take(length)
        return _closed(reader, frame, start)
    if after == "to" and _has_worked(frame) and (slip := _into_space(reader, length)):
        return slip
    goes_on = after == "to" and next_after == "next" and bool(frame.marks or reader.depth)
    if after in {"to", "top", "tog"} and (_has_worked(frame) or after != "to") and not goes_on:
        reader.take(length)
        reader.accept_any(frozenset(("to", "tog")))
        return _closed(reader, frame, start)
    through = next_after == "and" and reader.text(length + 2) in INTO  # "across and into 6th st"
    if after == "to" or (after in _ALONG and (next_after == "to" or through)):
        steps = _slip_to(reader, length, start)
        return steps and _ring_or_join(reader, frame, steps, start)
    steps = read_make(reader, frame, None, start)
    if steps is not None and reader.tokens[reader.at - 1].text in {"loop", "lp"}:
        steps = tuple(into_loop(step) for step in steps)
    of_body = any(token.text == "body" for token in reader.tokens[start : reader.at])
    if steps is not None and (of_body or reader.part_end == reader.at):
        return tuple(_to_body(step) for step in steps)
    return steps if steps is None else _ring_or_join(reader, frame, steps, start)


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
    if reader.text() == "and" and reader.text(1) in INTO:
        reader.take()  # "to and into 6th st"
    reader.accept_any(INTO)
    target = read_target(reader)
    if target is None:
        return None
    return (Make(named.stitch, ONE, target, reader.span(start)),)


def _into_space(reader: Reader, length: int) -> Steps | None:
    """Read "sl st to ch-3 sp of next block" where ", ch 3, 3 dc in same sp" goes on from there."""
    start = reader.at
    steps = _slip_to(reader, length, start)
    at = steps[0].at if steps and isinstance(steps[0], Make) else None
    one = isinstance(at, Next) and at.number == ONE and at.noun.thing in _SPACES
    chained = reader.text() in STOPS and reader.text(1) in CHAINS and reader.number(2) is not None
    if one and chained and any(reader.text(ahead) == "same" for ahead in range(3, _SOON)):
        return steps
    reader.at = start
    return None


_SPACES: Final = (Thing.SPACE, Thing.CHAIN_SPACE)
_SOON: Final = 12


def _ring_or_join(reader: Reader, frame: Frame, steps: Steps, start: int) -> Steps:
    """Take a slip stitch for a join where the words behind it, or a ring of chains, say so."""
    step = steps[-1]
    at = step.at if isinstance(step, Make | Join) else None
    if forms_ring(reader, frame):
        return (Join(at, ring=True, place=reader.span(start)),)
    if reader.text() == "to" and reader.text(1) in JOINERS | {"close"}:
        reader.take(2)
        _what_is_closed(reader)
        return (Join(at, ring=only_chains(frame), place=reader.span(start)),)
    into_chain = isinstance(at, First) and at == First(ONE, Noun(Thing.CHAIN))
    into_chain = into_chain or (at == Ring() and is_long(frame))  # "ss into a ring"
    if into_chain and only_chains(frame):
        at = None if at == Ring() else at
        return (Join(at, ring=True, place=reader.span(start)),)
    return steps


def _has_worked(frame: Frame) -> bool:
    return any(not isinstance(s, Chain | Remark | Colour | Turn | MagicRing) for s in frame.steps)


def _closed(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read where a join goes, behind the word that says it joins."""
    ring = forms_ring(reader, frame)
    target: Target | None = None
    reader.accept_any(TO)
    if not stops(reader) and not reader.sees("with") and reader.text() not in _CARE:
        if read_loop(reader) is not None:
            reader.accept("of")
        target = _joined_to(reader)
        if target is None:
            return None
    if reader.accept("with"):
        reader.take(reader.text() == "a" or reader.number() == ONE)
        if not slip_name(reader):
            return None
        if target in {None, Ring()} and reader.text() in {"in", "into"}:
            reader.take()
            target = _joined_to(reader)
            if target is None:
                return None
    if reader.text() == "to" and reader.text(1) in JOINERS | {"close"}:
        reader.take(2)
        _what_is_closed(reader)
    ring = forms_ring(reader, frame) or ring or (only_chains(frame) and target is not None)
    if isinstance(target, Ring):
        target, ring = None, True  # "join into a ring"
    join = Join(target, ring=ring, place=reader.span(start))
    return (join, *_care(reader)) if reader.text() in _CARE else (join,)


def read_form(reader: Reader, frame: Frame) -> Steps | None:
    """Read "form a ring with a sl st in first ch" behind a chain; else nothing is taken."""
    start, ahead = reader.at, 1
    while reader.text(ahead) in {"a", "the", "into"}:
        ahead += 1
    named = reader.text() in {"form", "forming"} and reader.text(ahead) in ROUNDS | {"circle"}
    if not named or not only_chains(frame):
        return None
    reader.take(ahead + 1)
    if reader.text() == "by" and reader.text(1) in _WORKING:
        reader.take(2)
        reader.take(reader.text() == "a" or reader.number() == ONE)
        slip = read_slip(reader, frame)
        at = slip[-1].at if slip and isinstance(slip[-1], Make | Join) else None
        return None if slip is None else (Join(at, ring=True, place=reader.span(start)),)
    closed = _closed(reader, frame, start)
    match closed:
        case (Join() as join, *others):
            return (replace(join, ring=True), *others)
        case _:
            return closed


_WORKING: Final = frozenset(("working", "making", "slipping"))


def _what_is_closed(reader: Reader) -> None:
    """Go past "the round", "the back of the yoke" behind "to close"."""
    if reader.text() in {"the", "your"} and reader.text(1) in ROUNDS | {"gap", "circle", "tube"}:
        reader.take(2)
    elif not reader.accept_any(ROUNDS):
        reader.take(part_length(reader))


def _joined_to(reader: Reader) -> Target | None:
    """Read "first sc made", "beg": where a round closes is where it began."""
    if reader.text() in {"beg", "beginning", "start"} and nothing_behind(reader, 1):
        reader.take()
        return First()
    target = read_target(reader)
    if isinstance(target, First):
        reader.accept_any(word_set("made worked"))
    return target


_ALONG: Final = word_set("over across along up")


def read_unseen(reader: Reader, frame: Frame) -> Steps | None:
    """Read "invisible join in first st", "inv join": it closes the round as a slip stitch does."""
    if reader.text(1) not in JOINERS:
        return read_make(reader, frame, None, reader.at) if starts_stitch(reader) else None
    start = reader.at
    reader.take(2)
    return _closed(reader, frame, start)


# --------------------------------------------------------------------------- join


def read_join(reader: Reader, frame: Frame) -> Steps | None:
    """Read from "join" on: a round, a ring, or new yarn."""
    start = reader.at
    reader.take()
    if _joins_edges(reader):
        reader.at = start
        return read_advice(reader, frame)  # a seam, which makes no row
    reader.accept("the")
    pass_in(reader)
    if reader.text() in YARN | {"new", "another"} or reader.sees("main", "color"):
        return read_join_yarn(reader, frame, start)
    counted = 1 if reader.text() in {"a", "second"} else 0
    if reader.text(counted) in YARN or (
        reader.ordinal(counted) is not None and reader.text(counted + 1) in YARN
    ):
        reader.take(counted)
        return read_join_yarn(reader, frame, start)
    reader.accept_any(ROUNDS)
    if forms_round(reader):
        forms_ring(reader, frame)
        return (Join(ring=only_chains(frame), place=reader.span(start)),)
    if reader.text() in TO and (joined := join_to_limb(reader, start)):
        return joined
    if reader.accept("at") or (not frame.steps and _into_loops(reader)):
        return yarn_at(reader, start)
    if reader.accept("with"):
        return _join_with(reader, frame, start)
    if reader.text() in _CARE or (reader.text() == "as" and reader.text(1) in _ALIKE):
        return (Join(ring=only_chains(frame), place=reader.span(start)), *_care(reader))
    if reader.text() in {"in", "into", "to", "on"} or stops(reader) or forms(reader):
        steps = _closed(reader, frame, start)
        left = any(token.text in _LEFT for token in reader.tokens[start : reader.at])
        return steps if steps is None else as_yarn(steps, frame, left=left)
    return join_colour(reader, frame, start)


def _into_loops(reader: Reader) -> bool:
    """Go past "in" before "the free back loops of Rnd 19": the yarn begins there, new."""
    if reader.text() not in INTO:
        return False
    ahead = 1
    while reader.text(ahead) in _WHICH_LOOPS:
        ahead += 1
    loops = reader.text(ahead) in {"loop", "loops", "lp", "lps"} and ahead > 1
    named = reader.text(ahead + 1) in {"of", "on", "from"}
    if loops and named:
        reader.take()
    return loops and named


_WHICH_LOOPS: Final = word_set("the any a free unused unworked remaining front back first left")
_LEFT: Final = word_set("free unworked waiting unused held skipped missed")
_ALIKE: Final = word_set("before usual in for always previously rnd round row set established")
_CARE: Final = word_set("without being taking making careful carefully keeping")


def _care(reader: Reader) -> Steps:
    """Keep "without twisting", "being careful not to twist" as a remark."""
    start = reader.at
    reader.take_until({",", ";", ".", "(", "["})
    return (Remark(reader.words(start), reader.span(start)),)


def _joins_edges(reader: Reader) -> bool:
    """Tell whether "last row to foundation ch", "short ends", "the squares along" is joined."""
    if reader.text(1) in _PARTS_JOINED and reader.text() == "the" and reader.text(2) == "along":
        return True
    ahead = 0
    while reader.text(ahead) in _WHICH_EDGES:
        ahead += 1
    return ahead > 0 and reader.text(ahead) in _EDGES


_PARTS_JOINED: Final = word_set("squares motifs pieces panels strips blocks hexagons")
_WHICH_EDGES: Final = word_set(
    "the first last short long side two both three four all and row-end opposite 2 3 4"
)
_EDGES: Final = word_set("row rows ends edge edges side sides seam seams")


def _join_with(reader: Reader, frame: Frame, start: int) -> Steps | None:
    reader.accept("a")
    known = longest(reader.known, reader)
    if known and _has_worked(frame) and reader.text(known[1]) == "to" and is_slip(reader):
        slip = _into_space(reader, known[1])
        if slip:
            return slip
    if slip_name(reader):
        steps = _closed(reader, frame, start)
        return steps if steps is None else as_yarn(steps, frame)
    if not starts_stitch(reader):
        return _with_next_yarn(reader, start)
    return standing(reader, start)


def _with_next_yarn(reader: Reader, start: int) -> Steps | None:
    """Read "CC1" of "join with CC1", and nothing behind it: the yarn that goes on."""
    at, token = reader.at, reader.token()
    if token is None or not is_yarn(token):
        return None
    reader.take()
    if reader.number() is not None and not reader.apart(at):
        reader.take()
    if not stops(reader):
        reader.at = at
        return None
    colour = Colour(yarn_name(reader.words(at)), place=reader.span(at))
    return (Join(place=reader.span(start, at)), colour)
