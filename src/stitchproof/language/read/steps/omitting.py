"""What the last time of a repeat leaves out: "rep from * around, omitting the last sc"."""

from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.reader import STOPS, Reader
from stitchproof.language.read.steps.stitches import StitchName, read_stitch, starts_stitch
from stitchproof.language.read.steps.sums import less
from stitchproof.language.tree import Chain, Group, Make, Next, Step, Steps

_OMITTING: Final = word_set("omitting omit leaving leave minus less")
_GROUPS: Final = word_set("corner group shell fan")
_ON_LAST: Final = word_set("- on at in from end of the very last final rep repeat repetition")


_ENDING: Final = word_set("ending end finishing")
_LAST_TIME: Final = word_set("the last final rep repeat repetition round time")


def _last_time(reader: Reader) -> bool:
    """Go past "the last rep" behind "ending"."""
    before = reader.at
    reader.pass_over(_LAST_TIME)
    return reader.at > before


@dataclass(frozen=True, slots=True)
class Omitted:
    """How many steps the last time leaves out, and what it works of them after all."""

    steps: int
    instead: Steps = ()


def read_omitted(reader: Reader, body: Steps) -> Omitted | None:
    """Read ", omitting last sc" behind a repeat; None, and nothing taken, where it is not there."""
    start = reader.at
    reader.pass_over(frozenset((",", ";")))
    reader.pass_over(word_set("but and"))
    reader.accept("on", "last", "rep") or reader.accept("on", "the", "last", "repeat")
    without = reader.accept_any(_ENDING) and _last_time(reader) and reader.accept("without")
    if body and (without or reader.accept_any(_OMITTING)):
        omitted = _what(reader, body[-1])
        if omitted is not None and reader.text() != "unworked":
            return omitted
    reader.at = start
    return None


def fewer_at_last(reader: Reader, body: Steps) -> bool:
    """Go past ", but work only" before "2 dc in last st": the last time ends with these instead."""
    ahead = int(reader.text() in {",", ";", "("})
    ahead += reader.text(ahead) == "but"
    ahead += reader.text(ahead) in _WORKING
    last = body[-1] if body else None
    only = reader.text(ahead) in {"only", "just"}
    fewer = reader.number(ahead + only) is not None
    if not fewer or not isinstance(last, Make) or last.each == ONE:
        return False
    here = reader.at
    reader.take(ahead + only)
    start = reader.at
    reader.take()
    if not only and not _replaced(reader):
        reader.at = here
        return False
    named = read_stitch(reader) if starts_stitch(reader) else None
    reader.at = start if named is not None and _is_made(named, last) else here
    return reader.at == start


_WORKING: Final = word_set("with work working make making worked")


def _replaced(reader: Reader) -> bool:
    """Tell whether "instead of 3 tr" stands behind the stitch from here."""
    ahead = 1
    while ahead < _REACH and reader.text(ahead) not in {*STOPS, "instead", ""}:
        ahead += 1
    return reader.text(ahead) == "instead" and reader.text(ahead + 1) == "of"


_REACH: Final = 4  # tokens of the stitch that is worked


def _what(reader: Reader, last: Step) -> Omitted | None:
    """Read what is left out, and find it at the end of the repeat."""
    reader.pass_over(word_set("out off the very last final"))
    number = reader.number()
    if number is not None:
        reader.take()
    chained = bool(reader.accept_any(word_set("ch chain")))
    named = read_stitch(reader) if not chained and starts_stitch(reader) else None
    reader.take(chained and reader.text() == "-")
    reader.take(chained and reader.number() is not None)  # "omitting last ch 1"
    bare = named is None and not chained
    grouped = bare and isinstance(last, Group) and bool(reader.accept_any(_GROUPS))
    plain = bare and not grouped and bool(reader.accept_any(STITCHES))
    reader.pass_over(_ON_LAST)
    if chained and reader.number() is not None:
        reader.take()
    reader.pass_over(_ON_LAST)
    match last:
        case Chain():
            return Omitted(1) if chained else None
        case Group(name=name):
            special = named.special if named is not None else None
            same = special is not None and name == special.name
            return Omitted(1) if grouped or same else None
        case Make() if plain or (named is not None and _is_made(named, last)):
            return _of_run(last, number or ONE)
        case _:
            return None


def _is_made(named: StitchName, last: Make) -> bool:
    return named.stitch.kind == last.stitch.kind


def _of_run(last: Make, number: Number) -> Omitted | None:
    """Leave out the last stitches of "sc in next 57 sc", or all of "2 dc in next st"."""
    if not isinstance(last.at, Next) or last.stitch.together > 1:
        return Omitted(1) if number in {ONE, last.each} else None
    if last.each != ONE:
        return Omitted(1) if number == last.each and last.at.number == ONE else None
    rest = less(last.at.number, number)
    if rest is None:
        return None
    if not any(rest.value if isinstance(rest.value, tuple) else ()):
        return Omitted(1)
    return Omitted(1, (replace(last, at=replace(last.at, number=rest)),))
