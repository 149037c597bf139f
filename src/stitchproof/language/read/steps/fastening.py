"""Ending and what is not to be done: "fasten off", "do not turn", "do not work in last 3 sts"."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.advice import read_advice
from stitchproof.language.read.steps.places import IN, read_target
from stitchproof.language.read.steps.reader import OPENING, STOPS, Frame, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.tree import FastenOff, Join, Last, Leave, Remark, Steps, Turn

_YARN: Final = word_set("yarn wool thread")
_ROUNDS: Final = word_set("rnd round ring work rounds")
_JOINERS: Final = word_set("join joining joined")


def _stops(reader: Reader) -> bool:
    text = reader.text()
    return reader.ended() or text in STOPS or text in OPENING or text in {"and", "then", "turn"}


def read_fasten_off(reader: Reader, frame: Frame) -> Steps | None:
    """Read "fasten off", "end off", "F/O", "cut yarn", with what is fastened or left behind it."""
    start = reader.at
    _ = frame
    first = reader.text()
    reader.take()
    if first in {"finish", "finishing"} and reader.accept_any(word_set("with by")):
        return ()  # "finish with dc in last st"
    if first in {"cut", "break"}:
        reader.accept_any(word_set("off"))
        reader.pass_over(word_set("the your"))
        reader.accept_any(_YARN | {"thread"})
    elif first == "f":
        if not reader.accept("/", "o"):
            return None
    elif first != "fo" and not reader.accept("off"):
        return None
    of = ""
    if reader.text() == "here":
        reader.take()
    if not _stops(reader):
        behind = reader.at
        reader.take()
        reader.take_until({",", ";", ".", "and"})
        of = reader.words(behind)
    return (FastenOff(of=of, place=reader.span(start)),)


_ENDS: Final = word_set("ends stops end stop is are finish")
_GO_ON: Final = word_set("continue continues go goes proceed proceeds")


def read_end_here(reader: Reader, frame: Frame) -> Steps | None:
    """Read "ends here; all other sizes continue with Row 3", the names of the sizes before it.

    Where it is said behind it that the yarn is fastened off, that is all.
    """
    start, here = reader.at, 2 if reader.text(1) == "complete" else 1
    if frame.steps or reader.text() not in _ENDS:
        return None
    if reader.text(here) != "here" and here == 1:
        return None
    reader.take(here + (reader.text(here) == "here"))
    reader.accept("for")
    reader.take_until({".", ";"})
    ended = Remark("end here", reader.span(start))
    ahead = 1 if reader.text() in {".", ";"} else 0
    if reader.text(ahead) in _FASTENING and reader.text(ahead + 1) in {"off", "yarn", "the"}:
        return ()
    return (ended,)


_END_HERE: Final = Remark("end here")


def read_others_go_on(reader: Reader, frame: Frame) -> Steps | None:
    """Read "sizes M and L go on" behind the end of a size; None where it is not there."""
    last = frame.steps[-1] if frame.steps else None
    if not isinstance(last, FastenOff) and last != _END_HERE:
        return None
    start = reader.at
    reader.take_until({".", ";"})
    words = {token.text for token in reader.tokens[start : reader.at]}
    if words & _GO_ON and words & word_set("size sizes others all"):
        return (Remark(reader.words(start), reader.span(start)),)
    reader.at = start
    return None


def read_negative(reader: Reader, frame: Frame) -> Steps | None:
    """Read "do not turn", "don't join", "do not fasten off"."""
    start = reader.at
    if reader.accept("do"):
        reader.accept("not")
    else:
        reader.take()
    if reader.text() in _BESIDE_THE_WORK:
        reader.at = start
        return read_advice(reader, frame)  # "do not stuff the ears"
    steps = _negative(reader)
    if steps is None:
        return None
    span = reader.span(start)
    return tuple(replace(step, place=span) for step in steps)


def read_without(reader: Reader, frame: Frame) -> Steps | None:
    """Read "without turning", "without joining", "without twisting the chain"."""
    undone = _UNDONE.get(reader.text(1))
    if undone is None:
        return read_advice(reader, frame)
    start = reader.at
    reader.take(2)
    reader.pass_over(_ROUNDS | _YARN | {"off", "the", "your"})
    return (replace(undone, place=reader.span(start)),)


_UNDONE: Final[Mapping[str, Turn | Join | FastenOff]] = MappingProxyType(
    {
        "turning": Turn(do=False),
        "joining": Join(do=False),
        **dict.fromkeys(("fastening", "cutting", "breaking"), FastenOff(do=False)),
    }
)
_NEED: Final = word_set("need to for joining join joins turn turning turns")


def read_no(reader: Reader, frame: Frame) -> Steps | None:
    """Read "no joining", "no need to turn", "no turning chain"."""
    start = reader.at
    _ = frame
    reader.take()
    words: set[str] = set()
    while reader.text() in _NEED | CHAINS:
        words.add(reader.text())
        reader.take()
    if not _stops(reader):
        return None
    place = reader.span(start)
    if words & CHAINS:
        return (Remark(reader.words(start), place),)
    if words & _JOINERS or "joins" in words:
        return (Join(do=False, place=place),)
    return (Turn(do=False, place=place),) if words - {"need", "to", "for"} else None


def _unworked(reader: Reader) -> tuple[Leave, ...] | None:
    """Read "do not work in last 3 sts"."""
    reader.accept_any(IN)
    if reader.accept_any(word_set("these those them")):
        reader.accept_any(word_set("sts stitches"))
        return (Leave(),)
    if reader.text(reader.text() == "the") in _REMAINING:
        reader.pass_over(_REMAINING | word_set("the of"))
        number = reader.number()
        reader.take(number is not None)
        reader.accept_any(word_set("sts stitches"))
        return (Leave(number),)
    target = read_target(reader)
    return (Leave(target.number),) if isinstance(target, Last) else None


_REMAINING: Final = word_set("remaining rem rest other")


def _negative(reader: Reader) -> tuple[Turn | Join | FastenOff | Leave | Remark, ...] | None:
    if reader.accept("turn"):
        if reader.text() in {"or", ",", "and", "/"} and reader.text(1) in _JOINERS:
            reader.take(2)
            return (Join(do=False), Turn(do=False))
        reader.pass_over(_FROM_NOW)
        if reader.text() in _WHEN:
            reader.pass_over(_LAST_ROW)
            reader.take(reader.number() is not None)
        return (Turn(do=False),)
    if reader.accept("work"):
        return _unworked(reader)
    if reader.accept("twist"):
        reader.pass_over(word_set("the it ch chain sts work"))
        return (Remark("do not twist"),)
    if reader.accept_any(CHAINS):
        reader.accept("-")
        if reader.number() is not None:
            reader.take()
        return (Remark("no chain"),)
    if reader.accept_any(_JOINERS):
        reader.accept_any(_ROUNDS)
        if reader.text() in {"or", ",", "and", "/"} and reader.text(1) == "turn":
            reader.take(2)
            return (Join(do=False), Turn(do=False))
        return (Join(do=False),)
    return _not_fastened(reader) if reader.text() in _FASTENING else None


_BESIDE_THE_WORK: Final = word_set("stuff overstuff fill sew weave block press iron pull stretch")


_FROM_NOW: Final = word_set("the work your piece from here now on this point yet")
_WHEN: Final = word_set("after at on")
_LAST_ROW: Final = word_set("after at on the end of last final this row rows rnd rnds round rounds")
_FASTENING: Final = word_set("fasten finish end tie break cut")


def _not_fastened(reader: Reader) -> tuple[FastenOff]:
    """Read "fasten off the second leg" behind "do not"."""
    reader.take()
    reader.accept_any(word_set("off"))
    if reader.text() in _YARN or reader.text(1) in _YARN:
        reader.pass_over(_YARN | {"the", "your"})
    behind = reader.at
    reader.take_until(STOPS)
    return (FastenOff(do=False, of=reader.words(behind)),)
