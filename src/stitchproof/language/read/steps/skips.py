"""Places passed over or left: "sk 2", "skip st behind FPtr", "leave last 5 sts unworked"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import NONE, ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.leaving import REMAINING, SEVERAL
from stitchproof.language.read.steps.nouns import STITCHES, chain_space_ahead, read_noun
from stitchproof.language.read.steps.parts import (
    accept_behind_part,
    accept_part,
    names_part,
    part_length,
)
from stitchproof.language.read.steps.places import read_target
from stitchproof.language.read.steps.reader import (
    CLOSING,
    MARKS,
    OPENING,
    STOPS,
    Frame,
    Reader,
)
from stitchproof.language.read.steps.same import at_base
from stitchproof.language.read.steps.skip_lists import (
    and_more,
    pass_where,
    read_bracketed,
    sts_with_spaces,
)
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import as_int, read_stitch, starts_stitch
from stitchproof.language.tree import (
    STITCH,
    TURNING_CHAIN,
    AsLong,
    Behind,
    Chain,
    Each,
    End,
    Last,
    Leave,
    Next,
    Noun,
    Remark,
    Repeat,
    Skip,
    Steps,
    Target,
    Thing,
    To,
    ToLast,
    ToMarked,
)


def read_skip(reader: Reader, frame: Frame) -> Steps | None:
    """Read "sk 2", "skip next 3 sts", "sk st behind FPtr", "miss 1 ch"."""
    start = reader.at
    reader.take()
    reader.accept("over")
    rest = 1 if reader.text() == "the" else 0
    if reader.text(rest) in REMAINING and reader.text(rest + 1) in STITCHES:
        reader.take(rest + 2)
        return (Leave(None, reader.span(start)),)
    counted = None if chain_space_ahead(reader) else _bare(reader)
    told = _them(reader, frame) or _behind(reader) or counted
    if told is not None:
        at = Next(told) if isinstance(told, Number) else told
        return (Skip(at, reader.span(start)),)
    if starts_until(reader):
        until = read_until(reader)
        return None if until is None else (Skip(Each(STITCH, until), reader.span(start)),)
    middle = 1 if reader.text() == "the" else 0
    if reader.text(middle) in {"centre", "center", "middle"}:
        # "miss the centre st of Row 32" behind the first side
        one = reader.text(middle + 1) in STITCHES and reader.text(middle + 2) == "of"
        reader.take(middle + 1 if one or reader.number(middle + 1) is not None else 0)
    if reader.text() == "all" and _whole_part(reader):
        reader.take()
    steps = read_bracketed(reader) if reader.text() in OPENING else _places(reader, frame, start)
    if steps is None:
        return None
    if reader.text() == "for":
        note = reader.at
        reader.take_until({",", ";", ".", "and"} | MARKS)
        steps = (*steps, Remark(reader.words(note), reader.span(note)))
    return steps


def _whole_part(reader: Reader) -> bool:
    """Tell whether "all sts of the sleeve", "all sleeve sts" stands there, and nothing behind."""
    ahead = 1
    while ahead < _NAMED_WITHIN and reader.text(ahead) not in MARKS | {"", ",", ";", "."}:
        if names_part(reader, ahead):
            return True
        ahead += 1
    return False


_NAMED_WITHIN: Final = 6  # tokens


def _places(reader: Reader, frame: Frame, start: int) -> Steps | None:
    """Read one place that is passed over, and what more stands behind it."""
    if with_spaces := sts_with_spaces(reader):
        return with_spaces
    target = _part_up_to(reader) or read_target(reader)
    if target is None:
        return None
    at_base(reader)  # "the first st at base of ch-3"
    target = _counted_behind(reader, target, start)
    pass_where(reader)
    target = _before_a_point(reader, _up_to(reader, _in_the_middle(target), start))
    if not accept_behind_part(reader):
        _pass_since(reader)
    return and_more(
        reader, (Skip(_space_passed(reader, frame, target, start), reader.span(start)),)
    )


def _pass_since(reader: Reader) -> None:
    """Go past "after the join of last rnd", "from back seam", where the yarn was left or cut."""
    if reader.text() not in {"after", "from", "past", "beyond", "beside"}:
        return
    ahead = 1
    while reader.text(ahead) in _SINCE:
        ahead += 1
    ends = reader.text(ahead) in STOPS | {"", "and", "for"}
    if ends and reader.text(ahead - 1) in _SINCE_WHAT:
        reader.take(ahead)


_SINCE_WHAT: Final = word_set("join joining seam rnd round row flap earflap end beginning")
_SINCE: Final = _SINCE_WHAT | word_set(
    "the of last previous center centre back side first second other ear this"
)


def _counted_behind(reader: Reader, target: Target, start: int) -> Target:
    """Take "sleeve sts (18 sts)" for as many as the brackets tell."""
    several = target == Next() and any(t.text in SEVERAL for t in reader.tokens[start : reader.at])
    number = reader.number(1) if reader.text() in OPENING else None
    close = reader.partner[reader.at] - reader.at if number is not None else 0
    counted = close == 3 and reader.text(2) in STITCHES  # noqa: PLR2004 - "( 18 sts )"
    if not several or number is None or not (counted or close == 2):  # noqa: PLR2004 - "( 18 )"
        return target
    reader.take(close + 1)
    return Next(number)


def _in_the_middle(target: Target) -> Target:
    """Take several centre stitches for stitches: "skip 10 center sts" leaves a neck."""
    match target:
        case Next(number, Noun(Thing.STITCH, "centre")) if number != ONE:
            return replace(target, noun=STITCH)
        case _:
            return target


def _part_up_to(reader: Reader) -> Target | None:
    """Read "sleeve to next ch-1 sp"; None, and nothing taken, otherwise."""
    here = reader.at
    if accept_part(reader) and starts_until(reader):
        until = read_until(reader)
        if until is not None:
            return Each(STITCH, until)
    reader.at = here
    return None


def _up_to(reader: Reader, target: Target, start: int) -> Target:
    """Take "the sleeve sts to next ch-1 sp", "all sts for sleeve to next sp" for all up to it."""
    several = target == Next() and any(t.text in SEVERAL for t in reader.tokens[start : reader.at])
    whole = isinstance(target, Each) and target.until == End()
    noun = target.noun if isinstance(target, Each) else STITCH
    if not several and not whole:
        _pass_up_to(reader, target)
        return target
    here = reader.at
    length = part_length(reader, 1) if reader.text() in {"for", "of"} else 0
    reader.take(length and length + 1)
    until = read_until(reader) if starts_until(reader) else None
    if until is None:
        reader.at = here
        return target
    return Each(noun, until)


def _pass_up_to(reader: Reader, target: Target) -> None:
    """Go past "to next marked st" behind "18 sts": the next step names where that is."""
    if not isinstance(target, Next) or target.noun.thing not in {Thing.STITCH, Thing.KIND}:
        return
    here = reader.at
    until = read_until(reader) if starts_until(reader) else None
    plain = isinstance(until, To | ToMarked) and until.before == NONE
    if not plain or not (reader.ended() or reader.text() in STOPS):
        reader.at = here


def _before_a_point(reader: Reader, target: Target) -> Target:
    """Take "the last st before the point" for the next one: the space comes right behind it."""
    if not isinstance(target, Last) or reader.text() != "before":
        return target
    start = reader.at
    reader.take()
    reader.pass_over(word_set("the next"))
    if not reader.accept_any(_POINTS):
        noun = read_noun(reader)
        if noun is None or noun.thing not in {Thing.SPACE, Thing.CHAIN_SPACE}:
            reader.at = start
            return target
    return Next(target.number, target.noun)


_POINTS: Final = word_set("point tip peak corner spine")


def _space_passed(reader: Reader, frame: Frame, target: Target, start: int) -> Target:
    """Take "ch 1, skip ch-1" and such within a repeat for the space, not for the turning chain."""
    if target != Next(ONE, TURNING_CHAIN) or reader.text(start + 1 - reader.at) not in CHAINS:
        return target
    chained = bool(frame.steps) and isinstance(frame.steps[-1], Chain)
    if not (chained or frame.marks or reader.depth):
        return target
    return Next(ONE, Noun(Thing.CHAIN_SPACE, chains=as_int(_number_between(reader, start))))


def _number_between(reader: Reader, start: int) -> Number | None:
    """Give the number of "ch-1", which stands before the cursor."""
    return reader.number(start + 2 - reader.at) or reader.number(start + 3 - reader.at)


_THEM: Final = word_set("them these those both")


def _them(reader: Reader, frame: Frame) -> Next | None:
    """Read "them", the stitches that the repeat before has left."""
    alone = not reader.text(1) or reader.text(1) in STOPS | CLOSING | {"and"}
    over = _left_over(frame) if reader.text() in _THEM and alone else None
    reader.take(over is not None)
    return over


def _left_over(frame: Frame) -> Next | None:
    """Give what a repeat "until 2 sts are left" has left, where nothing of it is worked yet."""
    for step in reversed(frame.steps):
        match step:
            case Repeat(often=AsLong(ToLast(number, noun))):
                return Next(number, noun)
            case Chain() | Remark():
                pass
            case _:
                return None
    return None


def _bare(reader: Reader) -> Number | None:
    """Read the number of "sk 2", or none at all: "ch 1, sk, repeat across"; None for a place."""
    if not reader.text() or reader.text() in {",", ")", "]", "*"}:
        return ONE
    if reader.number() is None or reader.text(1) not in STOPS | MARKS | {"", "and", ")", "]"}:
        return None
    number = reader.number()
    reader.take()
    return number


_BEHIND_IT: Final = word_set("sc hdc dc htr tr unworked")


def _behind(reader: Reader) -> Behind | None:
    """Read "st behind FPtr", "next 2 sts behind post sts", "st behind it"."""
    ahead = 0
    while reader.text(ahead) in {"the", "next", "a"}:
        ahead += 1
    number = reader.number(ahead)
    if number is not None:
        ahead += 1
    while reader.text(ahead) in STITCHES | _BEHIND_IT:
        ahead += 1
    if reader.text(ahead) not in {"behind", "beneath"}:
        return None
    reader.take(ahead + 1)
    reader.pass_over(word_set("the each that it them post posts just made this"))
    if starts_stitch(reader):
        read_stitch(reader)
    reader.pass_over(STITCHES | word_set("just made worked"))
    return Behind(number or ONE)
