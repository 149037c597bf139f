"""Work that goes on as it stands: "work in patt to last 3 sts", "patt 12", "in pattern across"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.places import read_target
from stitchproof.language.read.steps.reader import STOPS, Frame, Reader
from stitchproof.language.tree import STITCH, Each, First, InPattern, Next, Steps

_PATTERNS: Final = word_set("patt pattern pat")
_BEFORE: Final = word_set("in est established the even on keeping to as")
_VERBS: Final = word_set("work cont continue continuing working keep keeping")


def pattern_ahead(reader: Reader, ahead: int = 0) -> int:
    """Count the tokens of "in patt", "even in established pattern" from some way ahead."""
    i = ahead
    while reader.text(i) in _BEFORE:
        i += 1
    return i + 1 - ahead if reader.text(i) in _PATTERNS else 0


def pass_pattern(reader: Reader) -> None:
    """Go past "in patt" behind a stitch that is named: "hdc in patt to last 2 sts"."""
    if reader.text() == "in" and reader.text(1) in _PATTERNS:
        reader.take(2)


def read_in_pattern(reader: Reader, frame: Frame) -> Steps | None:
    """Read "work in patt to last 3 sts", "patt 12", "cont in patt across"; None otherwise."""
    _ = frame
    start = reader.at
    verb = 1 if reader.text() in _VERBS else 0
    length = pattern_ahead(reader, verb)
    if not length:
        return _counted(reader, start, verb)
    reader.take(verb + length)
    while reader.text() in {"as", "established", "set", "before", "est"}:
        reader.take()
    at = _extent(reader)
    if at is None:
        reader.at = start
        return None
    return (InPattern(at, reader.span(start)),)


def _counted(reader: Reader, start: int, verb: int) -> Steps | None:
    """Read "work 10 sts in pattern"."""
    if verb and reader.text() == "work":
        as_it_stands = _to_work(reader, start)
        if as_it_stands is not None:
            return as_it_stands
    number = reader.number(verb)
    if not verb or number is None or reader.text(verb + 1) not in STITCHES:
        return None
    length = pattern_ahead(reader, verb + 2)
    if not length:
        return None
    reader.take(verb + 2 + length)
    reader.pass_over(_BEFORE)
    return (InPattern(Next(number), reader.span(start)),)


def _to_work(reader: Reader, start: int) -> Steps | None:
    """Read "work to end", "work to last 3 sts", "work across 14 sts": each as it stands."""
    reader.take()
    at = _extent(reader)
    if at is not None and (reader.ended() or reader.text() in STOPS | {"and"}):
        return (InPattern(at, reader.span(start)),)
    reader.at = start
    if reader.text(1) == "across" and reader.number(2) is not None and reader.text(3) in STITCHES:
        number = reader.number(2)
        assert number is not None
        reader.take(4)
        return (InPattern(Next(number), reader.span(start)),)
    return None


def _extent(reader: Reader) -> Next | Each | None:
    if reader.text() in _OVER and reader.text(1) in {"next", "the", "first"}:
        reader.take()
        target = read_target(reader)
        match target:
            case Next(number, noun) | First(number, noun) if noun == STITCH:
                return Next(number)
            case _:
                return None
    if starts_until(reader):
        until = read_until(reader)
        return None if until is None else Each(STITCH, until)
    count = reader.number()
    if count is not None:
        reader.take()
        reader.accept_any(word_set("st sts stitches"))
        return Next(count)
    return None


_OVER: Final = word_set("for over across in")
