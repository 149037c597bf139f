"""Stitches told by what the hook does: "yo, insert hook in next st, yo and pull up a loop, ...".

A leg draws up a loop in a place and works off pairs of loops; a last "draw through all loops"
gathers the legs. Legs in several places are stitches drawn together, legs in one are a cluster.
Anything beside this order is no movement that is known here, and stays unread.
"""

from types import MappingProxyType
from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import ONE, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.places import IN, read_target
from stitchproof.language.read.steps.reader import MARKS, OPENING, STOPS, Frame, Reader
from stitchproof.language.read.steps.stitches import as_int, read_stitch, starts_stitch
from stitchproof.language.tree import First, Last, Make, Next, Remark, Same, Steps, Stitch, Target

OPENERS: Final = word_set("yo yoh yrh yarn insert draw pull")
_PULLS: Final = word_set("draw pull drawing pulling")
_LOOPS: Final = word_set("loop loops lp lps")
_PAUSES: Final = frozenset((",", ";", ".", "and", "then"))
_ENDS: Final = word_set("made completed complete formed")
# (yarn overs, pairs worked off in each leg): the stitch that the legs are of
_KINDS: Final = MappingProxyType(
    {(0, 0): "sc", (1, 0): "hdc", (1, 1): "dc", (2, 2): "tr", (3, 3): "dtr"}
)
_MOST_LEGS: Final = 24
_NAMES_BEFORE: Final = frozenset((":", "-", "–", "—"))
_BEFORE: Final = STOPS | MARKS | OPENING.keys() | word_set("and then work") | {""}


@dataclass(frozen=True, slots=True)
class _Leg:
    overs: int
    at: Target | None
    pairs: int

    @property
    def places(self) -> int:
        """Places that it draws up loops in; 0 where their number is not told."""
        match self.at:
            case Next(number) | First(number) | Last(number):
                return as_int(number) or 0
            case _:
                return 1


def read_movement(reader: Reader, frame: Frame) -> Steps | None:
    """Read a stitch by its movement, from the first word or the bracket around its legs."""
    bracketed = reader.text() in OPENING
    opens = reader.text(1 if bracketed else 0) in OPENERS
    stands = reader.tokens[reader.at - 1].text if reader.at else ""
    if not opens or (bracketed and stands not in _BEFORE):
        return None  # a bracket beside a name spells out what is named
    last = frame.steps[-1] if frame.steps else None
    spelled_out = stands in _NAMES_BEFORE and isinstance(last, Make)
    start = reader.at
    legs: list[_Leg] = []
    while len(legs) < _MOST_LEGS:
        before = reader.at
        read = _legs(reader)
        if read is None:
            reader.at = before
            break
        legs += read
        reader.pass_over(_PAUSES)
    told = legs and all(leg.at is not None for leg in legs)
    made = _gathered(legs) if told and _through_all(reader) else None
    if made is None:
        reader.at = start
        return None
    pass_name(reader)
    if spelled_out:
        return (Remark(reader.words(start), reader.span(start)),)
    return (Make(made[0], ONE, made[1], reader.span(start)),)


def _legs(reader: Reader) -> list[_Leg] | None:
    """Read one leg, or a bracket of one with how often it is worked."""
    closing = OPENING.get(reader.text())
    if closing is None:
        leg = _leg(reader)
        return None if leg is None else [leg]
    reader.take()
    leg = _leg(reader, inside=True)
    if leg is None or not reader.accept(closing):
        return None
    reader.accept("x")
    times = as_int(reader.number())
    if times is None or not 0 < times <= _MOST_LEGS:
        return None
    reader.take()
    reader.accept_any(word_set("times time x"))
    return _placed(reader, leg, times)


def _placed(reader: Reader, leg: _Leg, times: int) -> list[_Leg] | None:
    """Give so many legs, in the place said behind them: "(...) 4 times in next st"."""
    reader.accept("all")
    if reader.accept_any(IN):
        target = read_target(reader)
        if target is None:
            return None
        first = leg.at if leg.at is not None and not isinstance(leg.at, Same) else target
        return [replace(leg, at=first), *[replace(leg, at=Same())] * (times - 1)]
    return None if leg.at is None else [leg] * times


def _leg(reader: Reader, *, inside: bool = False) -> _Leg | None:
    """Read one leg; `inside` a bracket its place may be said behind it."""
    overs = 0
    while _over(reader):
        overs += 1
        reader.pass_over(_PAUSES)
    target: Target | None = None
    if reader.accept("insert"):
        reader.pass_over(word_set("the your hook"))
        target = read_target(reader) if reader.accept_any(IN) else None
        if target is None:
            return None
        reader.pass_over(_PAUSES)
        _over(reader)
        reader.pass_over(_PAUSES)
    if not _pulls_up(reader):
        return None
    if target is None and reader.accept_any(IN):
        target = read_target(reader)
    if target is None and not inside:
        return None
    return _Leg(overs, target, _pairs(reader))


def _over(reader: Reader) -> bool:
    """Read "yo", "yarn over", "yrh"."""
    if reader.accept_any(word_set("yo yoh yrh")):
        return True
    return reader.accept("yarn", "over") or reader.accept("yarn", "round", "hook")


def _pulls_up(reader: Reader) -> bool:
    """Read "draw up a loop", "pull through a loop", "draw lp through"."""
    if reader.text() not in _PULLS:
        return False
    named = 2 if reader.text(1) in {"a", "the"} else 1
    tall = 1 if reader.text(3) in {"tall", "long"} else 0
    if tall and reader.text(1) == "up" and reader.text(4) in _LOOPS:
        reader.take(5)
        return True
    if reader.text(named) in _LOOPS and reader.text(named + 1) in {"up", "through"}:
        reader.take(named + 2)
        return True
    if reader.text(1) not in {"up", "through"}:
        return False
    ahead = 3 if reader.text(2) in {"a", "the"} or as_int(reader.number(2)) == 1 else 2
    if reader.text(ahead) not in _LOOPS:
        return False
    reader.take(ahead + 1)
    return True


def _pairs(reader: Reader) -> int:
    """Count how often "yo, draw through 2 loops" follows."""
    pairs = 0
    while True:
        before = reader.at
        reader.pass_over(_PAUSES)
        over = _over(reader)
        reader.pass_over(_PAUSES)
        two = reader.text() in _PULLS and reader.text(1) == "through"
        if not (over and two and as_int(reader.number(2)) == 2 and reader.text(3) in _LOOPS):  # noqa: PLR2004
            reader.at = before
            return pairs
        reader.take(4)
        reader.accept("on", "hook")
        pairs += 1


def _through_all(reader: Reader) -> bool:
    """Read "yo and draw through all 3 loops on hook"."""
    over = _over(reader)
    reader.pass_over(_PAUSES)
    if not over or reader.text() not in _PULLS or reader.text(1) != "through":
        return False
    reader.take(2)
    told = bool(reader.accept_any(word_set("all remaining rem")))
    reader.pass_over(word_set("the remaining rem"))
    if reader.number() is not None:
        told = True
        reader.take()
    if not told or not reader.accept_any(_LOOPS):
        return False
    if reader.accept("on"):
        reader.accept("the")
        reader.accept("hook")
    return True


def _gathered(legs: list[_Leg]) -> tuple[Stitch, Target] | None:
    """Say which stitch the legs make, and where the first of them goes."""
    alike = {(leg.overs, leg.pairs) for leg in legs}
    kind = _KINDS.get(alike.pop()) if len(alike) == 1 else None
    if kind is None:
        return None
    first = legs[0].at
    assert first is not None
    later = [leg.at for leg in legs[1:]]
    if later and all(isinstance(at, Same) for at in later):
        return Stitch("puff" if kind == "hdc" else "cluster"), first
    places = sum(leg.places for leg in legs)
    if places < 2 or any(not leg.places for leg in legs):  # noqa: PLR2004 - one alone is plain
        return None
    stitch = Stitch(kind, together=places)
    match first:
        case Next() if all(isinstance(at, Next) for at in later):
            return stitch, Next(ONE, first.noun)
        case First(number) | Last(number) if not later and number != ONE:
            return stitch, type(first)(plain(1), first.noun)
        case _:
            return None


def pass_name(reader: Reader) -> None:
    """Go past "- sc2tog made", which only names what was done."""
    start = reader.at
    reader.accept_any(frozenset(("-", "–", "—", ":", ",")))
    reader.accept_any(word_set("a one"))
    if starts_stitch(reader) and read_stitch(reader) is not None and reader.accept_any(_ENDS):
        return
    reader.at = start
