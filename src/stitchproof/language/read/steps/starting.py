"""Where a run begins, said before it: "starting in 2nd ch from hook, sc in each ch across"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import NONE, ONE, Number, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.findings import UnreadWords
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.places import read_target
from stitchproof.language.read.steps.reader import MARKS, OPENING, STOPS, Frame, Reader
from stitchproof.language.read.steps.remarks import read_counts, starts_counts
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import (
    CHAIN,
    STITCH,
    Chain,
    Colour,
    Each,
    First,
    Group,
    JoinYarn,
    Last,
    Make,
    Marked,
    Next,
    Noun,
    Nth,
    Origin,
    Remark,
    Same,
    Skip,
    Step,
    Steps,
    Target,
    Thing,
    Turn,
    Unread,
)

_AT: Final = word_set("in with at from into")
_JUST_BEFORE: Final = 2


def read_starting(reader: Reader, frame: Frame) -> Steps | None:
    """Read "starting in 2nd ch from hook", "beginning with same st": the next step begins there."""
    start = reader.at
    reader.take()
    if not reader.accept_any(_AT) and reader.text() != "where":
        return None
    joined = _at_the_join(reader) if _made(frame) else 0
    corner = joined or _names_corner(reader)
    if corner:
        reader.take(corner)
        return (Remark(reader.words(start), reader.span(start)),)
    return _begins_there(reader, frame, start)


def _begins_there(reader: Reader, frame: Frame, start: int) -> Steps | None:
    target = read_target(reader, made=False)
    if target is not None and _begins_a_decrease(reader, frame, target, start):
        return ()
    skipped = _skipped(reader, target)
    group = reader.text() in OPENING and isinstance(target, Same | First | Next)
    if target is None or not (
        reader.text() in STOPS or reader.ended() or group or _goes_on(reader)
    ):
        return None
    words = Remark(reader.words(start), reader.span(start))
    if reader.text() in {",", ":"}:
        reader.take()
    if isinstance(target, Same) and not _made(frame) and _stands_on_nothing(frame):
        return ()
    return _from_there(reader, frame, target, words, skipped)


def _from_there(
    reader: Reader, frame: Frame, target: Target, words: Remark, skipped: Steps
) -> Steps | None:
    """Let the next step begin in a place; None where nothing can."""
    match target:
        case Next(_, noun) if _with_new_yarn(frame) and noun.thing is Thing.SPACE and noun.kind:
            return (JoinYarn(target, place=words.place),)
        case First(number) | Next(number) if number == ONE and _is_next(target, frame):
            return ()
        case Nth(ordinals=(ordinal,), origin=Origin.HOOK) if _loops(reader):
            if ordinal.value != (_JUST_BEFORE,):
                return None  # skipped chains may count, and a repeat cannot say so
            return (Skip(Next(ONE, CHAIN), words.place),)
        case Nth((ordinal,), noun) if ordinal.value == (_JUST_BEFORE,) and noun.thing in _STS:
            return (Skip(First(ONE, noun), words.place),) if not _made(frame) else None
        case Nth(origin=Origin.HOOK) | Same() | Marked():
            reader.pending = target, words
            return skipped
        case _:
            return None


_STS: Final = (Thing.STITCH, Thing.KIND)


def _skipped(reader: Reader, target: Target | None) -> Steps:
    """Read "(skipped 2 ch do not count)" behind a chain from the hook, as a chain of none."""
    from_hook = isinstance(target, Nth) and target.origin is Origin.HOOK
    start, close = reader.at, reader.partner[reader.at] if reader.text() in OPENING else -1
    if not from_hook or close < 0:
        return ()
    reader.take()
    counts = read_counts(reader) if starts_counts(reader) else None
    if counts is None or reader.at < close:
        reader.at = start
        return ()
    reader.at = close + 1
    return (Chain(NONE, counts, reader.span(start)),)


def _at_the_join(reader: Reader) -> int:
    """Count the tokens of "same st as join" behind what begins there; 0: it says more."""
    ahead = int(reader.text() in {"the", "that"})
    if reader.text(ahead) not in {"same", "st"} or reader.text(ahead + 1) not in STITCHES | {"as"}:
        return 0
    ahead += 2
    said = set[str]()
    while reader.text(ahead) in _JOINED:
        said.add(reader.text(ahead))
        ahead += 1
    return ahead if said & _JOINS and reader.text(ahead) in STOPS | {""} else 0


_JOINS: Final = word_set("join joining joined")
_JOINED: Final = word_set("as the join joining joined where yarn was")
_WHICH: Final = word_set(
    "the lower upper right left top bottom front back side hand neck hem inner outer underarm"
    " center centre tail toe cuff brim crown heel sleeve armhole body outside inside - first"
    " second 2nd other last"
)
_PANELS: Final = word_set("front back fronts panel")
_CORNERS: Final = word_set(
    "corner toe tail edge hem neck underarm neckline seam side armhole end cuff one leg"
)


def _names_corner(reader: Reader) -> int:
    """Count the tokens of "lower right corner", "the underarm": where the piece is, no stitch."""
    end = _corner_length(reader, 0)
    while end and reader.text(end) in {"of", "at"}:  # "neck edge of left front"
        more = _corner_length(reader, end + 1)
        end = more and end + 1 + more
    plain = reader.text(end) in {"", ",", ".", ";", "and", "with"}
    return end if plain else 0


def _corner_length(reader: Reader, ahead: int) -> int:
    """Count the tokens of one name of a place of the piece some way ahead; 0: it is none."""
    start = ahead
    while reader.text(ahead) in _WHICH and reader.text(ahead + 1) in _WHICH | _CORNERS | _PANELS:
        ahead += 1
    named = reader.text(ahead) in _CORNERS or (ahead > start and reader.text(ahead) in _PANELS)
    middle = reader.text(start) in {"center", "centre"} and reader.text(start + 1) == "of"
    if middle and not named:
        return 1
    alone = ahead == start and reader.text(ahead) == "corner"
    return ahead - start + 1 if named and not alone else 0


def _stands_on_nothing(frame: Frame) -> bool:
    """Tell whether no chain stands that may count: the row begins in its first stitch anyhow."""
    chains = [step for step in frame.steps if isinstance(step, Chain)]
    return all(step.count == ONE and step.counts is None for step in chains)


def _begins_a_decrease(reader: Reader, frame: Frame, target: Target, start: int) -> bool:
    """Take "beginning in same st", "in first st" behind a decrease for where its first leg goes."""
    last = frame.steps[-1] if frame.steps else None
    one = isinstance(last, Make) and isinstance(last.at, Next) and last.stitch.together > 1
    if not one or reader.tokens[start - 1].text in STOPS or not _closes(reader):
        return False
    assert isinstance(last, Make)
    match target:
        case Same():
            frame.steps[-1] = replace(last, at=replace(target, begins=True))
        case First(number) | Next(number) if number == ONE:
            frame.steps[-1] = replace(last, at=target)
        case _:
            return False
    return True


def _closes(reader: Reader) -> bool:
    return reader.ended() or reader.text() in STOPS


def _goes_on(reader: Reader) -> bool:
    plain = reader.text() in {"work", "make", "and"} or starts_stitch(reader)
    return plain or reader.number() is not None


def _loops(reader: Reader) -> bool:
    return reader.text() in MARKS or reader.text() in OPENING


def _is_next(target: Target, frame: Frame) -> bool:
    """Tell whether work goes on there anyhow."""
    return isinstance(target, Next) or not _made(frame)


def _made(frame: Frame) -> bool:
    return any(not isinstance(s, Chain | Turn | Remark | Colour) for s in frame.steps)


def begin_there(reader: Reader, steps: Steps) -> Steps:
    """Let the first of some steps begin in the place said before them."""
    if reader.pending is None or not steps or isinstance(steps[0], Remark | Colour):
        return steps
    if isinstance(steps[0], Chain) and steps[0].count == NONE:
        return steps
    target, words = reader.pending
    reader.pending = None
    begun = _begun(steps[0], target)
    if begun is not None:
        return (*begun, *steps[1:])
    if _is_second_chain(target):  # "starting in 2nd ch from hook, sc2tog": one chain is passed
        return (Skip(Next(ONE, CHAIN), words.place), *steps)
    reader.report(UnreadWords(words.words), words.place)
    return (Unread(words.words, words.place), *steps)


def _is_second_chain(target: Target) -> bool:
    if not isinstance(target, Nth) or target.origin is not Origin.HOOK:
        return False
    return [one.value for one in target.ordinals] == [(_JUST_BEFORE,)]


def _begun(step: Step, target: Target) -> Steps | None:
    match step:
        case Make(at=Each(noun, until)) if step.stitch.together == 1:
            return (replace(step, at=target), replace(step, at=Each(_like(noun, target), until)))
        case Make(at=Next(number, noun) | First(number, noun)) if step.stitch.together == 1:
            if number == ONE:
                return (replace(step, at=target),)
            rest = _one_less(number)
            if rest is None:
                return None
            return (
                replace(step, at=target),
                replace(step, at=Next(rest, _like(noun, target))),
            )
        case Group(at=Next(number=number)) if number == ONE:
            return (replace(step, at=target),)
        case Make(at=Last()) if isinstance(target, Same):
            return (step,)  # "starting in same st, dc in each of last 18 sts": all of them
        case _:
            return None


def _like(noun: Noun, target: Target) -> Noun:
    """Give the noun of what follows a first chain: chains as well, where no other is named."""
    into_chains = isinstance(target, Nth) and target.noun == CHAIN
    return CHAIN if noun == STITCH and into_chains else noun


def _one_less(number: Number) -> Number | None:
    """Give a count less one; None where a size does not have two of them."""
    if not isinstance(number.value, tuple):
        return None
    values = [value - 1 for value in number.value if isinstance(value, int) and value > 1]
    if len(values) != len(number.value):
        return None
    return plain(values[0]) if len(values) == 1 else replace(number, value=tuple(values))


def _with_new_yarn(frame: Frame) -> bool:
    """Tell whether the row has named the yarn that it begins with, and no more."""
    return any(isinstance(s, Colour) and not s.hook for s in frame.steps) and not _made(frame)
