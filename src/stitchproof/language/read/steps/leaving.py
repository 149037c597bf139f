"""Places left unworked: "leave last 5 sts unworked", "the rest stays unworked"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS
from stitchproof.language.read.steps.nouns import STITCHES, read_noun
from stitchproof.language.read.steps.ordinals import MIDDLE
from stitchproof.language.read.steps.parts import part_length
from stitchproof.language.read.steps.places import read_target
from stitchproof.language.read.steps.reader import STOPS, Frame, Reader
from stitchproof.language.read.steps.skip_lists import pass_where
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import (
    STITCH,
    Each,
    First,
    Group,
    JoinYarn,
    Leave,
    Make,
    Next,
    Remark,
    Repeat,
    Skip,
    Steps,
    Thing,
    ToLast,
)

_UNWORKED: Final = word_set("unworked free alone open waiting")
REMAINING: Final = word_set("remaining rem rest")


def _says_unworked(reader: Reader) -> bool:
    said = bool(reader.accept_any(_UNWORKED)) or reader.accept("un", "-", "worked")
    if said and reader.text() in _WHERE:  # "open at the top of the foot"
        while not reader.ended() and reader.text() not in STOPS and reader.number() is None:
            reader.take()
    return said


_WHERE: Final = word_set("at on along as to")


def _ends(reader: Reader) -> bool:
    """Tell whether "leave last 3 sts" says no more, or only what for."""
    return reader.ended() or reader.text() in STOPS | {"for"}


def read_rest(reader: Reader, frame: Frame) -> Steps | None:
    """Read "rem sts are left for the neck", "the rest stays unworked": they are left."""
    start = reader.at
    _ = frame
    reader.accept("the")
    if not reader.accept("rest"):
        if not reader.accept_any(word_set("remaining rem other")):
            return None
        number = reader.number()
        reader.take(number is not None)
        if not reader.accept_any(STITCHES):
            return None
    if reader.text() not in _STAYS:
        return None
    if not {reader.text(i) for i in range(_FAR)} & (_UNWORKED | {"hold", "left", "free", "later"}):
        return None
    reader.take_until({",", ";", "."})
    return (Leave(None, reader.span(start)),)


SEVERAL: Final = word_set("sts stitches")
_STAYS: Final = word_set("are is stay stays remain remains will")
_FAR: Final = 6  # words
_OTHERS: Final = word_set("other others half")


def _leave_others(reader: Reader, start: int) -> Steps | None:
    """Read "the other half of the stitches", "all the others": all that are left."""
    while not reader.ended() and reader.text() not in STOPS:
        if reader.number() is not None:
            return None
        reader.take()
    return (Leave(None, reader.span(start)),)


def _leaves_both(reader: Reader, start: int) -> bool:
    """Read "last V-st and tch unworked", "last shell and dc": all that is left behind."""
    at = reader.at
    which = reader.text() in {"last", "remaining", "rem"} and reader.text(1) not in STITCHES
    if which and read_target(reader) is not None and reader.accept("and"):
        reader.pass_over(word_set("the last"))
        if read_noun(reader) is not None and _says_unworked(reader):
            return reader.at > start
    reader.at = at
    return False


def _to_stop(reader: Reader, start: int) -> Steps:
    """Keep the words up to the next stop as a remark."""
    reader.take_until({",", ";", ".", "("})
    return (Remark(reader.words(start), reader.span(start)),)


def read_leave(reader: Reader, frame: Frame) -> Steps | None:
    """Read "leave last 5 sts unworked", "leaving remaining sts unworked"."""
    start = reader.at
    reader.take()
    if reader.text() in {"a", "long", "tail", "enough"} or reader.text(1) in {"tail", "long"}:
        return _to_stop(reader, start)
    if reader.text() == "for" and frame.steps and isinstance(frame.steps[-1], Skip):
        return _to_stop(reader, start)  # "miss first 9 dc and leave for thumb"
    if _other_side_alike(reader):
        reader.take_until({".", ";"})
        return (Remark(reader.words(start), reader.span(start)),)
    reader.accept("the")
    reader.take(reader.text() == "other" and reader.number(1) is not None)
    if _leaves_both(reader, start):
        return (Leave(None, reader.span(start)),)
    if _leaves_unknown(reader):
        return (Leave(None, reader.span(start)),)
    if _leaves_edge(reader) or _leaves_rows(reader):
        return (Remark(reader.words(start), reader.span(start)),)
    return _leaves_first(reader, frame, start) or _leave_some(reader, frame, start)


def _leaves_first(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read "first 4 sts unworked" where yarn is joined behind them: they are passed over."""
    begun = any(isinstance(step, Make | Group | Repeat) for step in frame.steps)
    number, here = reader.number(1), reader.at
    if begun or reader.text() not in {"first", "1st", "next"} or number is None:
        return None
    reader.take(2)
    passed = reader.accept_any(STITCHES) and reader.accept_any(_UNWORKED) and _joins_then(reader)
    if not passed:
        reader.at = here
        return None
    return (Skip(First(number), reader.span(start)),)


def _other_side_alike(reader: Reader) -> bool:
    """Tell whether "work the other side to match" follows in the sentence: no more is told."""
    said: list[str] = []
    while reader.text(len(said)) not in {"", ".", ";", ","} and len(said) < _LONG:
        said.append(reader.text(len(said)))
    return "match" in said and bool({"side", "shoulder"}.intersection(said))


_LONG: Final = 24  # words


def _leaves_edge(reader: Reader) -> bool:
    """Read "top edge unworked", "both side edges free": an edge that the work never came to."""
    length = part_length(reader)
    named = length and reader.text(length - 1) in _WHOLE_EDGES
    if not named or reader.text(length) not in _UNWORKED:
        return False
    reader.take(length + 1)
    return True


def _leaves_rows(reader: Reader) -> bool:
    """Read "middle 20 rows open for body": a slit in a seam."""
    ahead = int(reader.text() in MIDDLE | {"first", "last", "top", "bottom", "next"})
    opened = reader.text(ahead + 2) in _UNWORKED | {"unsewn"}
    if reader.number(ahead) is None or reader.text(ahead + 1) not in ROWS or not opened:
        return False
    reader.take(ahead + 3)
    return True


_WHOLE_EDGES: Final = word_set("edge edges edging side sides band bands placket border")


def _leaves_unknown(reader: Reader) -> bool:
    """Go past "last mesh unworked": the last of what has no name here."""
    known = reader.text(1) in STITCHES | CHAINS | REMAINING or starts_stitch(reader, 1)
    if reader.text() != "last" or known or reader.text(2) not in _UNWORKED:
        return False
    reader.take(3)
    return True


def _leave_some(reader: Reader, frame: Frame, start: int) -> Steps | None:
    last_one = reader.text() == "last"
    first = reader.text() in {"first", "1st"}
    reader.pass_over(word_set("the these those last next") | REMAINING)
    middle = reader.text() in MIDDLE and reader.number(1) is not None
    reader.take(middle)
    rest = reader.tokens[reader.at - 1].text in REMAINING
    if reader.text() in _UNWORKED or (rest and _ends(reader)):
        reader.accept_any(_UNWORKED)
        return (Leave(None, reader.span(start)),)
    if reader.tokens[reader.at - 1].text in {"these", "those"} and _ends(reader):
        return (Leave(None, reader.span(start)),)
    if reader.text() == "other" and reader.number(1) is not None:
        reader.take()
    if reader.text() in _OTHERS | {"rest"}:
        return _leave_others(reader, start)
    reader.accept("of")
    number: Number | None = reader.number()
    if number is not None:
        reader.take()
        reader.pass_over(REMAINING)
        reader.take(reader.text() in MIDDLE and reader.text(1) in STITCHES)
    bare = number is not None and (reader.text() in _UNWORKED | {"un"} or _ends(reader))
    target = Next() if bare else read_target(reader)
    pass_where(reader)
    if target is None or not (_says_unworked(reader) or (_ends(reader) and not first)):
        return None
    many = reader.tokens[start + 1 : reader.at]
    if last_one and number is None and target == Next():
        number = None if any(t.text in SEVERAL for t in many) else ONE  # "leave last sts unworked"
    if middle and any(isinstance(step, JoinYarn) for step in frame.steps):
        number = None  # the yarn is beyond them: how many lie behind it is not told
    last = frame.steps[-1] if frame.steps else None
    noun = target.noun if isinstance(target, Next | Each) else STITCH
    noun = noun if noun.thing is Thing.GROUP else STITCH
    if number is not None and isinstance(last, Make) and last.at == Each(STITCH):
        frame.steps[-1] = replace(last, at=Each(STITCH, ToLast(number, noun)))
    return (Leave(number, reader.span(start), noun=noun),)


def _joins_then(reader: Reader) -> bool:
    """Tell whether "rejoin yarn to next st" follows."""
    ahead = 0
    while reader.text(ahead) in STOPS | {"and", "then"}:
        ahead += 1
    return ahead > 0 and reader.text(ahead) in _JOINING


_JOINING: Final = word_set("join rejoin attach reattach joining rejoining")


def on_these(reader: Reader, start: int) -> Steps | None:
    """Read "work on these sts only": the others are left."""
    reader.take(2)
    if reader.number() is not None:
        reader.take()
    if not reader.accept_any(STITCHES):
        return None
    reader.take_until({",", ";", "."})
    return (Leave(None, reader.span(start)),)


def only_first(reader: Reader) -> bool:
    """Go past "over first 22 sts only": the others are left."""
    ahead = 2 if reader.text(1) == "the" else 1
    ahead += reader.text(ahead) in {"first", "1st", "next"}
    named = reader.number(ahead) is not None and reader.text(ahead + 1) in STITCHES
    if not named or reader.text(ahead + 2) != "only":
        return False
    reader.take(ahead + 3)
    return True
