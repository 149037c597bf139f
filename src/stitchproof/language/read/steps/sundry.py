"""Yarn, hooks, sides, markers and advice."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.advice import (
    read_advice,
    read_as,
    read_before,
    read_every_row,
    read_keeping,
    read_pull,
    read_purpose,
    read_so,
    read_to_match,
    read_use,
)
from stitchproof.language.read.steps.beginnings import (
    read_beg,
    read_end,
    read_from,
    read_go_back,
    read_start,
)
from stitchproof.language.read.steps.breakdown import pick_up_and
from stitchproof.language.read.steps.changed_evenly import (
    DECREASES,
    INCREASES,
    read_change_of_count,
    read_while,
)
from stitchproof.language.read.steps.colours import read_change, read_colour, read_hook
from stitchproof.language.read.steps.facing import SIDES, read_facing
from stitchproof.language.read.steps.making import read_make
from stitchproof.language.read.steps.making_and_doing import read_do, read_making
from stitchproof.language.read.steps.markers import read_mark_verb, read_marker, read_slip_marker
from stitchproof.language.read.steps.new_yarn import read_rejoin
from stitchproof.language.read.steps.nouns import BEGINNING, read_nouns
from stitchproof.language.read.steps.parts import accept_of_part, at_edge, part_length
from stitchproof.language.read.steps.places import read_target
from stitchproof.language.read.steps.placing import read_attach, read_put
from stitchproof.language.read.steps.reader import OPENING, STOPS, Frame, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import read_loop, starts_stitch
from stitchproof.language.read.steps.with_words import read_with
from stitchproof.language.tree import (
    STITCH,
    Each,
    Make,
    Next,
    Noun,
    Nth,
    Origin,
    Remark,
    Steps,
    Thing,
)

LOOP_SIDES: Final = word_set("front back")


def read_rotate(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "rotate" as a remark; "to work along opposite side" holds for what follows."""
    steps = read_advice(reader, frame)
    words = " ".join(step.words for step in steps or () if isinstance(step, Remark)).lower()
    if "opposite side" in words or "other side" in words or _at_end_of_chain(reader, frame):
        reader.opposite = True
    return steps


def _at_end_of_chain(reader: Reader, frame: Frame) -> bool:
    """Whether a foundation was worked from the hook, and more chains come: its other side."""
    from_hook = any(
        isinstance(step, Make) and isinstance(step.at, Nth) and step.at.origin is Origin.HOOK
        for step in frame.steps
    )
    return from_hook and any(reader.text(i) in CHAINS for i in range(_FAR))


def read_loosely(reader: Reader, frame: Frame) -> Steps | None:
    """Go past "loosely" before "ch 20"; alone it is advice."""
    if reader.text(1) not in CHAINS and reader.number(1) is None and not starts_stitch(reader, 1):
        return read_advice(reader, frame)
    reader.take()
    return ()


def read_same_time(reader: Reader, frame: Frame) -> Steps | None:
    """Go past "at the same time" before what is done besides, "at the end of Row 12"."""
    _ = frame
    start = reader.at
    if reader.accept("at", "the", "end", "of") or reader.accept("at", "end", "of"):
        reader.pass_over(word_set("the last this row rnd round"))
        reader.take(reader.number() is not None)
        closing = STOPS | OPENING.keys() | {"do", "don't", "omit"}
        ended = reader.text() in closing or reader.text() in _CHANGES
        return (Remark(reader.words(start), reader.span(start)),) if ended else None
    if reader.accept("at", "the", "same", "time"):
        return ()
    length = part_length(reader, 2 if reader.text(1) == "the" else 1)
    ahead = length + (2 if reader.text(1) == "the" else 1)
    behind = bool(frame.steps) and not at_edge(reader)
    if not length or reader.text(ahead) not in {",", ":", "", "."} or behind:
        return None
    reader.take(ahead)
    return (Remark(reader.words(start), reader.span(start)),)  # "at the neck edge, sc2tog"


_CHANGES: Final = word_set("change switch join fasten cut break turn drop")


def read_including(reader: Reader, frame: Frame) -> Steps | None:
    """Read "including top of tch" behind "in each st across": the same stitch there too."""
    start = reader.at
    reader.take()
    if not isinstance(frame.again, Make):
        return None
    if isinstance(frame.again.at, Each) and _slipped_over(reader):
        reader.at = start
        return read_advice(reader, frame)  # a round that begins later goes to where it began
    reader.accept("in")
    if isinstance(frame.again.at, Each) and _all_of_them(reader, frame):
        return ()
    target = read_target(reader)
    if not isinstance(target, Next) or target.noun.thing is not Thing.TURNING_CHAIN:
        return None
    return (replace(frame.again, at=target, place=reader.span(start)),)


def _all_of_them(reader: Reader, frame: Frame) -> bool:
    """Read "the popcorns", "the 6 chs of the opening": each stitch is worked, and these chains."""
    start, last = reader.at, frame.steps[-1] if frame.steps else None
    if not isinstance(last, Make) or last.at != Each(STITCH):
        return False
    for word in ("all", "each", "of", "the", "all"):
        reader.accept(word)
    reader.take(reader.number() is not None)
    noun = read_nouns(reader)
    accept_of_part(reader)
    thing = noun.thing if noun is not None and (reader.ended() or reader.text() in STOPS) else None
    if thing is Thing.CHAIN:
        frame.steps[-1] = frame.again = replace(last, at=Each(Noun(Thing.STITCH_OR_CHAIN)))
    elif thing not in {Thing.KIND, Thing.GROUP}:
        reader.at = start
        return False
    return True


def _slipped_over(reader: Reader) -> bool:
    """Tell whether "the 2 dc you slip stitched over", "the slip stitched sts" stands there."""
    words: list[str] = []
    while reader.text(len(words)) not in STOPS | {""} and len(words) < _FAR:
        words.append(reader.text(len(words)))
    slipped = {"slip", "sl", "ss", "slipped"}.intersection(words)
    return bool(slipped) and bool(_DONE.intersection(words)) and "in" not in words


_DONE: Final = word_set("over across slipped stitched")  # "the slip st" is another place
_FAR: Final = 12  # words


def read_other_width(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "or any multiple of 6 plus 2" behind a chain as a remark: that is another width."""
    near = {reader.text(i) for i in range(1, 4)}
    return read_advice(reader, frame) if near & {"multiple", "multiples"} else None


_OF_FOUNDATION: Final = word_set("of the foundation beg beginning starting original base")


def read_counted_from(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "counting from the beginning of the rnd" as a remark: so everything is counted."""
    _ = frame
    start = reader.at
    reader.take()
    if reader.accept("from"):
        reader.accept("the")
        reader.accept_any(BEGINNING)
        if reader.tokens[reader.at - 1].text in BEGINNING and reader.accept("of"):
            reader.pass_over(word_set("the this"))
            if reader.accept_any(word_set("row rnd round")):
                return (Remark(reader.words(start), reader.span(start)),)
    reader.at = start
    return None


def read_on_working_row(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "on working row": every stitch is, unless it says otherwise."""
    _ = frame
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text(ahead) in {"other", "opposite"} and reader.text(ahead + 1) == "side":
        start = reader.at
        reader.take(ahead + 2)
        reader.pass_over(CHAINS | _OF_FOUNDATION)
        reader.opposite = True
        return (Remark(reader.words(start), reader.span(start)),)
    start = reader.at
    if reader.accept("on", "working", "row") or reader.accept("on", "the", "working", "row"):
        return (Remark(reader.words(start), reader.span(start)),)
    return None


def read_loop_for_all(reader: Reader, frame: Frame) -> Steps | None:
    """Read "back loops only:" before the stitches of a line."""
    _ = frame
    loop = read_loop(reader)
    if loop is None:
        return None
    reader.loop = loop
    return ()


def read_pick_up(reader: Reader, frame: Frame) -> Steps | None:
    """Read "pick up B"; "pick up and" before what is worked says nothing more."""
    start = reader.at
    if pick_up_and(reader):
        return ()
    if reader.text(1) != "up":
        return None
    ahead = 3 if reader.text(2) == "the" else 2
    if reader.text(ahead) in LOOP_SIDES and reader.sees_at(ahead + 2, "of"):
        return read_advice(reader, frame)  # "pick up the front loop of each st and pull closed"
    reader.take(2)
    return read_colour(reader, frame, start)


def read_title(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "cross over:" as a remark: what it is called stands before what it is."""
    if starts_stitch(reader):
        return read_make(reader, frame, None, reader.at)
    steps = read_advice(reader, frame)
    return steps if reader.text() == ":" else None


_STRIPES: Final = word_set("sequence stripe stripes striping colors colours")


def read_continue(reader: Reader, frame: Frame) -> Steps | None:
    """Read "continue to sc in each st"; None, and nothing taken, where it says something else."""
    if reader.text() not in {"cont", "continue", "continuing"}:
        return None
    if {reader.text(i) for i in range(1, 6)} & _STRIPES:
        return read_advice(reader, frame)  # "continuing the color sequence"
    yarn = reader.token(2)
    named = yarn is not None and yarn.written.isupper() and not starts_stitch(reader, 2)
    if named and reader.text(1) in {"in", "with"} and reader.text(3) in {"", ".", ",", ";"}:
        start = reader.at
        reader.take(2)
        return read_colour(reader, frame, start)  # "Continue in A."
    if reader.text(1) in {"to", "with", "on"} and part_length(reader, 2):
        return read_advice(reader, frame)  # "continue to edging"
    ahead = 1
    while reader.text(ahead) in {"to", "work", "working"}:
        ahead += 1
    if ahead == 1 or not starts_stitch(reader, ahead):
        return None
    start = reader.at
    reader.take(ahead)
    return read_make(reader, frame, None, start)


_ADVICE: Final = word_set(
    "stuff stuffing gather block pin fold folding matching match darn trim snip tuck flip plump"
    " pinch aligning lining lay laying try flatten pushing popping ready bring bringing"
)


READERS: Final[Mapping[str, Callable[[Reader, Frame], Steps | None]]] = MappingProxyType(
    dict.fromkeys(("with", "using"), read_with)
    | {"before": read_before}
    | dict.fromkeys(SIDES, read_facing)
    | dict.fromkeys(("change", "changing", "switch", "switching", "swap", "swapping"), read_change)
    | dict.fromkeys(
        (
            *("pm", "move", "moving", "remove"),
            *("removing", "replace", "replacing"),
        ),
        read_marker,
    )
    | dict.fromkeys(("place", "placing", "put", "putting"), read_put)
    | dict.fromkeys(("rejoin", "reattach"), read_rejoin)
    | {"attach": read_attach}
    | dict.fromkeys(("end", "ending"), read_end)
    | dict.fromkeys((*LOOP_SIDES, "both"), read_loop_for_all)
    | dict.fromkeys(
        (
            *("being", "be", "taking", "take", "careful", "carefully", "carry"),
            *("carrying", "reversing", "note", "you", "weave", "draw", "drop", "none"),
            *("check", *_ADVICE),
        ),
        read_advice,
    )
    | {"making": read_making, "do": read_do}
    | dict.fromkeys(("keeping", "holding", "hold"), read_keeping)
    | dict.fromkeys(("pull", "pulling", "tighten"), read_pull)
    | dict.fromkeys(("rotate", "rotating", "pivot", "pivoting", "swivel"), read_rotate)
    | dict.fromkeys(
        (INCREASES | DECREASES) - {"inc", "dec", "increase", "decrease"}, read_change_of_count
    )
    | dict.fromkeys(
        ("start", "begin", "starting", "beginning", "commence", "commencing", "form"), read_start
    )
    | dict.fromkeys(("go", "return"), read_go_back)
    | {"beg": read_beg, "while": read_while, "whilst": read_while}
    | {"pick": read_pick_up, "from": read_from, "cross": read_title}
    | dict.fromkeys(("smaller", "larger"), read_hook)
    | dict.fromkeys(
        (
            *("insert", "inserting", "add", "adding", "sew", "glue"),
            *("pop", "fix", "secure", "position", "install", "snap", "set", "hang", "clip"),
        ),
        read_put,
    )
    | {
        "mark": read_mark_verb,
        "marking": read_mark_verb,
        "to": read_purpose,
        "on": read_on_working_row,
    }
    | dict.fromkeys(("including", "incl"), read_including)
    | {"counting": read_counted_from}
    | dict.fromkeys(("complete", "completing"), read_to_match)
    | {"use": read_use, "each": read_every_row, "every": read_every_row}
    | {"or": read_other_width, "so": read_so, "as": read_as}
    | {"loosely": read_loosely, "at": read_same_time}
    | dict.fromkeys(("sl", "slip", "slipping", "sm"), read_slip_marker)
)
