"""Gaps between stitches: "between next 2 dc", "sp before first group", "each sp between groups"."""

from collections.abc import Callable
from typing import Final, TypeAlias

from stitchproof.language.number import ONE, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.nouns import TURNING_CHAIN, read_noun
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader
from stitchproof.language.read.steps.unnamed_groups import UNNAMED, group_ahead
from stitchproof.language.tree import STITCH, Between, Each, End, First, Last, Next, Target, Thing

ReadTarget: TypeAlias = Callable[[Reader], Target | None]
_NAMED: Final = word_set("each every ea next first last foll following")


def read_between(reader: Reader, read_target: ReadTarget) -> Between | None:
    """Read what follows "between": "next 2 sts", "first and 2nd dc" is not read."""
    reader.pass_over(word_set("the any"))
    one = _beside_an_end(reader)
    if one is not None:
        return one
    if reader.text() in {"first", "1st"} and reader.text(1) in {"and", "&"}:
        second = reader.ordinal(2)
        reader.take(3)
        noun = read_noun(reader)
        right = second is not None and second.value == (2,) and noun is not None
        return Between(First(plain(2), noun or STITCH)) if right else None
    if reader.ended() or reader.text() in STOPS | CLOSING:
        return Between(Next(plain(2)))
    counted = reader.number() is not None and not group_ahead(reader)
    if not counted and reader.text() not in _NAMED:
        noun = read_noun(reader)
        if noun is None:
            return None
        if noun.thing is Thing.TURNING_CHAIN and reader.accept_any(frozenset(("and", "&"))):
            reader.accept_any(_NAMED)  # "between ch-3 and next dc": where the round begins
            return None if read_noun(reader) is None else Between(First(plain(2)))
        until = read_until(reader) if starts_until(reader) else None
        return Between(Next(plain(2), noun) if until is None else Each(noun, until))
    if reader.text() in {"next", "last"} and reader.text(2) in _BLOCKS:
        number = reader.number(1)
        reader.take(3)
        return None if number is None else Between(Next(number, UNNAMED))
    if reader.text() == "next" and reader.number(1) is not None and reader.text(2) == "posts":
        number = reader.number(1) or plain(2)
        reader.take(3)
        return Between(Next(number))
    target = read_target(reader)
    if isinstance(target, Last) and target.number.value == (2,) and target.noun == UNNAMED:
        target = Next(target.number, target.noun)  # the last two groups are the next two then
    return Between(target) if isinstance(target, Next | First | Last | Each) else None


_BLOCKS: Final = word_set("blocks sets bunches trios")


def _beside_an_end(reader: Reader) -> Between | None:
    """Read the gap beside the first stitch or the last: "last group and turning ch"."""
    beside = _before_first_group(reader)
    if beside is not None:
        return beside
    named = reader.text() in {"first", "1st", "last"} and reader.text(1) not in {"and", "&"}
    return _to_turning_chain(reader) if named else None


def _to_turning_chain(reader: Reader) -> Between | None:
    """Read "last group and turning ch", "first dc and turning ch": the gap beside an end."""
    start = reader.at
    last = reader.text() == "last"
    reader.take()
    noun = read_noun(reader)
    if noun is not None and reader.text() in {"and", "&"}:
        reader.take()
        reader.accept("the")
        ended = bool(reader.accept_any(word_set("last end"))) and last
        other = read_noun(reader)
        grouped = noun == UNNAMED or noun.thing is Thing.GROUP
        # "last group and last dc"
        at_an_end = ended and grouped and other is not None and other.thing in _SINGLE
        if other == TURNING_CHAIN or at_an_end:
            return Between(Last(ONE, noun) if last else First(ONE, noun))
    reader.at = start
    return None


_SINGLE: Final = (Thing.KIND, Thing.STITCH)


def _before_first_group(reader: Reader) -> Between | None:
    """Read "ch 3 and first group", "first dc and first shell": the gap behind the first stitch."""
    start = reader.at
    reader.pass_over(word_set("first 1st"))
    edge = read_noun(reader)
    single = edge is not None and (edge == TURNING_CHAIN or edge.thing in _SINGLE)
    if single and reader.accept_any(word_set("and &")):
        reader.accept("the")
        first = reader.accept_any(word_set("first 1st next"))
        group = read_noun(reader) if first else None
        if group is not None and group.thing is Thing.GROUP:
            return Between(First(ONE, group))
    reader.at = start
    return None


def _before_the_nth(reader: Reader) -> Between | None:
    """Read "2nd cluster" behind "sp before": the gap between it and the first."""
    start = reader.at
    reader.accept("the")
    nth = reader.ordinal()
    reader.take(nth is not None)
    noun = read_noun(reader) if nth is not None and nth.value == (2,) else None
    if noun is not None and noun.thing in {Thing.GROUP, Thing.KIND}:
        return Between(First(plain(2), UNNAMED if noun.thing is Thing.GROUP else noun))
    reader.at = start
    return None


def read_gap(reader: Reader, read_target: ReadTarget, *, each: bool = False) -> Between | None:
    """Read "sp between next 2 dc", "sp before first group", "sp after last group"."""
    where = reader.text(1)
    reader.take(2)
    second = _before_the_nth(reader) if where == "before" and not each else None
    if second is not None:
        return second
    if where == "between":
        between = read_between(reader, read_target)
        if between is None or not each:
            return between
        noun = between.at.noun
        if isinstance(between.at, Each):
            return between
        until = read_until(reader) if starts_until(reader) else End()
        return None if until is None else Between(Each(noun, until))
    at = read_target(reader)
    if where == "before" and at == Next(ONE, UNNAMED) and not each:
        return Between(Next(plain(2), UNNAMED))
    single = isinstance(at, Next) and at.noun.thing in {Thing.STITCH, Thing.KIND}
    if where == "before" and single and isinstance(at, Next) and at.number == ONE and not each:
        return Between(at)  # between the stitch the hook is at and the next
    wanted = First if where == "before" else Last
    return Between(at) if isinstance(at, wanted) and at.number == ONE and not each else None
