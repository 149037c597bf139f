"""One instruction line, from tokens to steps.

A line is a run of steps with stops between them. What a step is shows in its first words; the
table below says which reader takes it from there. A reader that meets words it does not know gives
up, and everything from the start of that step to the next stop stays in the tree as unread.
"""

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps import (
    chains,
    colours,
    fastening,
    joins,
    leaving,
    loop_first,
    movement,
    pattern,
    placed,
    repeats,
    sewing,
    skips,
    stitches,
    sundry,
)
from stitchproof.language.read.steps.advice import read_advice, read_shaping_title
from stitchproof.language.read.steps.alternate import read_alternate
from stitchproof.language.read.steps.and_so_on import SO_ON, goes_on, read_keep_going
from stitchproof.language.read.steps.behind_and import into_space, place_first, places_listed
from stitchproof.language.read.steps.brackets import (
    REPEAT,
    lonely_bracket,
    name_group,
    read_bracket,
)
from stitchproof.language.read.steps.changed_evenly import read_changed_evenly
from stitchproof.language.read.steps.cords import read_cord
from stitchproof.language.read.steps.doubt import open_bare_counts
from stitchproof.language.read.steps.dropped_loop import read_dropped_loop
from stitchproof.language.read.steps.ends import ACROSS
from stitchproof.language.read.steps.free_choice import read_any_colour
from stitchproof.language.read.steps.how_much import read_times
from stitchproof.language.read.steps.last_one import read_last, read_the
from stitchproof.language.read.steps.making import read_make
from stitchproof.language.read.steps.new_yarn import is_slip
from stitchproof.language.read.steps.once_more import ends_after, legs_of_one, once_more, past_same
from stitchproof.language.read.steps.one_place import read_all_in
from stitchproof.language.read.steps.other_side import read_other_side
from stitchproof.language.read.steps.places import EACH, IN
from stitchproof.language.read.steps.placing import read_close, read_placing
from stitchproof.language.read.steps.putting import add_steps
from stitchproof.language.read.steps.reader import (
    CLOSING,
    JOINING,
    MARKS,
    OPENING,
    STOPS,
    Context,
    Frame,
    Reader,
    open_reader,
)
from stitchproof.language.read.steps.settling import settle
from stitchproof.language.read.steps.sized import read_sized
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.starting import begin_there
from stitchproof.language.read.steps.stitches import longest, starts_stitch
from stitchproof.language.read.steps.striping import read_stripe
from stitchproof.language.read.steps.tails import keep_purpose, read_purpose, starts_purpose
from stitchproof.language.read.steps.times_alone import (
    names_what_it_holds,
    read_times_alone,
    spells_it_out,
    starred_times,
    times_alone,
)
from stitchproof.language.read.steps.told_twice import read_told_below
from stitchproof.language.read.steps.unread import keep_unread, trails
from stitchproof.language.read.steps.up_and_down import read_edges
from stitchproof.language.tree import (
    Chain,
    Each,
    Evenly,
    Group,
    Join,
    Make,
    Remark,
    Repeat,
    RowEnds,
    Skip,
    Step,
    Steps,
)

Read = Callable[[Reader, Frame], "Steps | None"]

_READERS: Final[Mapping[str, Read]] = MappingProxyType(
    dict.fromkeys(CHAINS, chains.read_chain)
    | dict.fromkeys(("magic", "adjustable", "sliding", "mr", "mc"), chains.read_ring)
    | dict.fromkeys(("turn", "turning"), chains.read_turn)
    | {"t": chains.read_short_turn}
    | dict.fromkeys(("counts", "count", "does"), chains.read_counts_beside)
    | dict.fromkeys(("join", "joining", "close", "closing"), joins.read_join)
    | dict.fromkeys(("invisible", "inv", "needle", "seamless"), joins.read_unseen)
    | dict.fromkeys(
        ("fasten", "finish", "finishing", "cut", "tie", "break", "bind", "fo", "f"),
        fastening.read_fasten_off,
    )
    | dict.fromkeys(("don't", "dont"), fastening.read_negative)
    | {"no": fastening.read_no, "without": fastening.read_without}
    | dict.fromkeys(("rem", "remaining", "rest"), leaving.read_rest)
    | dict.fromkeys(REPEAT, repeats.read_repeat)
    | dict.fromkeys(MARKS, repeats.read_mark)
    | dict.fromkeys(OPENING, read_bracket)
    | dict.fromkeys((*IN, "between"), placed.read_placed)
    | dict.fromkeys(
        (
            *("work", "working", "worked", "make", "making", "having", "putting"),
            *("going", "passing", "crossing", "continue", "continuing", "cast"),
        ),
        placed.read_work,
    )
    | dict.fromkeys(("sk", "skip", "miss", "skipping", "sks", "missing"), skips.read_skip)
    | dict.fromkeys(("leave", "leaving"), leaving.read_leave)
    | {"all": read_all_in, "the": read_the, "last": read_last}
    | dict.fromkeys(("up", "down", "along"), read_edges)
    | dict(sundry.READERS)
    | dict(sewing.READERS)
    | {"placing": read_placing, "putting": read_placing, "close": read_close, "closing": read_close}
)


def read_steps(
    tokens: Sequence[Token], context: Context | None = None
) -> tuple[Steps, list[Diagnostic]]:
    """Read the words of one instruction.

    Parameters
    ----------
    tokens : sequence of Token
        What stands behind the label, without the stated count.
    context : Context
        The dialect, the author's stitches, and what is known of the piece.

    Returns
    -------
    steps, found
        Every word is in the steps, read, as a remark or unread; `found` says what could not be
        read. Nothing an author writes raises.
    """
    context = context or Context()
    main = _main_stitch(tokens, context)
    steps, reader = _read(tokens, context, main, one_place=False)
    if reader.open_bare and not reader.terse:
        other, _ = _read(tokens, context, main, one_place=True)
        steps = open_bare_counts(steps, other)
    return steps, reader.found


def _read(
    tokens: Sequence[Token], context: Context, main: str, *, one_place: bool
) -> tuple[Steps, Reader]:
    reader = open_reader(tokens, context, read_sequence)
    reader.main = main
    reader.one_place = one_place
    reader.terse = context.terms == "UK"
    steps: list[Step] = []
    while reader.at < len(tokens):
        frame = read_sequence(reader, len(tokens))
        steps += frame.steps
    return tuple(steps), reader


def work_of(tokens: Sequence[Token], context: Context) -> int:
    """Count the tokens taken in reading a line, which stays in proportion to its length."""
    return _read(tokens, context, context.main, one_place=False)[1].work


_PLAIN_WORDS: Final = word_set("sl ss slip ch chs chain chains")


def _main_stitch(tokens: Sequence[Token], context: Context) -> str:
    """Find the stitch that a bare "inc" or "dec" means: the first that the line names."""
    scout = open_reader(tokens, context, read_sequence)
    for i, token in enumerate(tokens):
        if token.kind is not TokenKind.WORD or token.text in _PLAIN_WORDS:
            continue
        scout.at = i
        found = longest(scout.known, scout)
        if found is not None and found[0].name in {"sc", "hdc", "dc", "tr", "dtr"}:
            return found[0].name
    return context.main


# --------------------------------------------------------------------------- a run of steps


def read_sequence(reader: Reader, end: int) -> Frame:
    """Read steps up to a token index."""
    frame = Frame()
    while reader.at < end:
        text = reader.text()
        ends = text == "…" and reader.ended_after(end)
        if text in SO_ON and not ends and goes_on(reader, frame, end):
            continue
        if text == "…" and len(frame.steps) > 1 and not ends:
            keep_unread(reader, frame, reader.at, end, _READERS)  # "and so on"
            continue
        if text in STOPS or text in JOINING:
            _stop(reader, frame)
            continue
        start = reader.at
        if text in CLOSING:
            add_steps(frame, lonely_bracket(reader))
            continue
        steps = _dispatch(reader, frame)
        if steps is None or reader.at > end:
            keep_unread(reader, frame, start, end, _READERS)
            continue
        purpose = starts_purpose(reader, end, _READERS)
        hangs = steps and isinstance(steps[-1], Make | Group | Skip | Join)
        if hangs and not purpose and trails(reader, end, _READERS):
            keep_unread(reader, frame, start, end, _READERS)
            continue
        reader.take(reader.at == start)
        steps = begin_there(reader, steps)
        add_steps(frame, steps)
        _keep_run(reader, frame, steps)
        if purpose:
            keep_purpose(reader, frame, purpose)
    settle(reader, frame)
    return frame


def _keep_run(reader: Reader, frame: Frame, steps: Steps) -> None:
    """Let the run of steps without a place begin behind one that names its own."""
    if steps and not isinstance(steps[-1], Chain | Repeat | Remark) and not reader.bare:
        frame.run = len(frame.steps)
    reader.bare = False


def _stop(reader: Reader, frame: Frame) -> None:
    """Go past a stop or an "and"; "and in each ..." does the last step once more."""
    text = reader.text()
    start = reader.at
    reader.take()
    frame.joined = text in {"and", "&"}
    if text in _BEFORE_A_NAME:
        named = reader.at
        movement.pass_name(reader)  # "3 dc in first st - inc made"
        if reader.at > named:
            remark = Remark(f"({reader.words(named)})", reader.span(named))
            end, reader.at = reader.at, named
            name_group(reader, frame, end)
            reader.at = end
            frame.steps.append(remark)
            return
    if text != "+":
        frame.plus = -1
    elif frame.plus < 0:
        frame.plus = max(len(frame.steps) - 1, 0)
    if text == "." and len(frame.steps) > frame.sentence:
        frame.before, frame.sentence = frame.sentence, len(frame.steps)
    follows = past_same(reader)
    again = text in {"and", "&", "+"} or (text == "then" and follows in IN)
    again = again or (text == "," and frame.again is not None and places_listed(reader))
    if not again or frame.again is None:
        return
    other = follows in _PLACES or (follows in ACROSS and ends_after(reader))
    if not other and not into_space(reader, frame.again):
        return
    if follows in IN and place_first(reader):
        return
    steps = once_more(reader, frame.again, start)
    if steps is None:
        keep_unread(reader, frame, start, len(reader.tokens), _READERS)
    else:
        add_steps(frame, legs_of_one(frame, steps))


_BEFORE_A_NAME: Final = frozenset(("-", "–", "—", ";", ","))
_PLACES: Final = IN | EACH | {"next", "first", "last"}
_OVER: Final = STOPS | CLOSING
_LOOSE: Final = OPENING.keys() | MARKS | {":", ","}


_OPENING_WORDS: Final = (
    read_shaping_title,
    fastening.read_end_here,
    joins.read_form,
    read_other_side,
    read_keep_going,
    read_dropped_loop,
    read_cord,
    pattern.read_in_pattern,
    movement.read_movement,
    read_changed_evenly,
    sundry.read_continue,
    read_any_colour,
    colours.read_in_colour,
    colours.read_counted_colour,
    colours.read_bare_colour,
    colours.read_beside_hook,
)


def _by_opening(reader: Reader, frame: Frame) -> Steps | None:
    """Try the readers that know by more than one word; nothing is taken where none does."""
    for read_special in _OPENING_WORDS:
        special = read_special(reader, frame)
        if special is not None:
            return special
    return None


def _as_a_whole(reader: Reader, frame: Frame) -> Steps | None:
    """Read what is known by the whole of its words: "x 6", "sl st the ends together"."""
    if reader.text() == "x" and reader.number(1) is not None:
        return read_times(reader, frame)
    told = read_stripe(reader, frame) or read_told_below(reader) or read_alternate(reader, frame)
    if told is not None:
        return told
    if reader.number() is not None and reader.text(1) == "x" and frame.steps and _closed(reader, 2):
        return read_times(reader, frame)  # "sc2tog 2x"
    if spells_it_out(reader):
        reader.take()  # "shell (5 dc) in next dc"
        return read_bracket(reader, frame)
    if names_what_it_holds(reader):
        reader.take(2)  # "shell of 5 dc in next dc"
        return placed.read_numbered(reader, frame)
    if reader.text() == "*" and frame.steps and starred_times(reader, frame):
        return read_times(reader, frame)
    if frame.steps and times_alone(reader):
        return read_times_alone(reader, frame)
    if reader.text() in ACROSS and ends_after(reader) and frame.steps:
        last = frame.steps[-1]
        if isinstance(last, Make) and isinstance(last.at, RowEnds | Evenly | Each):
            return read_advice(reader, frame)  # "4 sc over every 3 rows, around"
    return _of_pieces(reader, frame)


def _of_pieces(reader: Reader, frame: Frame) -> Steps | None:
    """Read what joins pieces, or is for some sizes only; a seam in other words is advice."""
    if longest(reader.special, reader) is None:
        seam = sewing.read_crocheted_seam(reader)
        if seam is not None:
            return seam
        if sewing.sews_together(reader):
            return read_advice(reader, frame)
    go_on = fastening.read_others_go_on(reader, frame)
    return read_sized(reader, frame) if go_on is None else go_on


def _closed(reader: Reader, ahead: int) -> bool:
    """Tell whether the step ends some way ahead."""
    return not reader.text(ahead) or reader.text(ahead) in _OVER


def _dispatch(reader: Reader, frame: Frame) -> Steps | None:
    """Choose the reader by what is seen."""
    start = reader.at
    text = reader.text()
    whole = _as_a_whole(reader, frame)
    if whole is not None:
        return whole
    if text == "for":
        return read_purpose(reader, _READERS)
    if longest(reader.special, reader) is not None:
        return read_make(reader, frame, None, start)
    if reader.number() is not None:
        return colours.read_counted_colour(reader, frame) or placed.read_numbered(reader, frame)
    if is_slip(reader):
        return joins.read_slip(reader, frame)
    opened = _by_opening(reader, frame)
    if opened is not None:
        return opened
    if text in stitches.SHORT_LOOPS and (reader.number(1) is not None or reader.text(1) in _LOOSE):
        return loop_first.read_short_loop_first(reader, frame)
    read = _READERS.get(text)
    if read is not None and not (text in sundry.LOOP_SIDES and starts_stitch(reader)):
        return read(reader, frame)
    if starts_stitch(reader):
        return read_make(reader, frame, None, start)
    return None
