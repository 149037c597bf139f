"""Stitches in words: made, chained, skipped, left."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number
from stitchproof.language.stitch import CHAIN, STITCH
from stitchproof.language.tree import (
    Behind,
    Between,
    Chain,
    Counts,
    Each,
    Evenly,
    First,
    Last,
    Leave,
    Loop,
    Make,
    Next,
    Nth,
    OppositeSide,
    Origin,
    Post,
    RowEnds,
    Same,
    Skip,
    Target,
    Thing,
)
from stitchproof.language.write.pen import Pen
from stitchproof.language.write.places import (
    Way,
    evenly_words,
    nth_words,
    place_words,
    plain_place,
    row_ends_words,
    until_words,
)
from stitchproof.language.write.stitch_words import kind_name, loop_behind, noun_words, stitch_name
from stitchproof.language.write.unsaid import NoWordsFor
from stitchproof.trade.stitches import stitches

_TWO: Final = 2
_NO_LOOP_THERE: Final = (Between, OppositeSide, RowEnds, Evenly)  # no "in" that a loop can follow


def make_words(step: Make, pen: Pen) -> str:
    """Say which stitches go where: `2 dc in next st`, `sc2tog over next 2 sts`."""
    name = stitch_name(step.stitch, pen.wording)
    pen.last = name
    called = _called(step, name, pen)
    many = not pen.wording.is_one(step.each)
    way = pen.way(step.stitch, many=many)
    match step.at:
        case RowEnds():
            return row_ends_words(step.at, called, way)
        case Evenly():
            return evenly_words(step.at, called, way)
        case Same() if step.at == Same() and pen.groups and step.stitch.post is Post.NONE:
            return f"{count_words(step.each, pen)}{called}"
        case _ if step.stitch.together > 1:
            return _gathered(step, called, way, pen)
        case Next(number, noun) if not many and _is_foundation(step) and noun == STITCH:
            return f"{called} {pen.wording.number(number)}"
        case _:
            where = _where(step, way, pen)
    if where is None:
        pen.report(NoWordsFor(name, pen.wording.terms), step.place)
        where = ""
    return f"{count_words(step.each, pen)}{called} {where}".rstrip()


def _called(step: Make, name: str, pen: Pen) -> str:
    """Name a stitch with its loop, or those that the maker may choose from: `sc or hdc`."""
    loop = step.stitch.loop
    if step.choice:
        *most, last = (stitch_name(one, pen.wording) for one in (step.stitch, *step.choice))
        return f"{', '.join(most)} or {last}"
    if loop is Loop.BOTH or not isinstance(step.at, _NO_LOOP_THERE):
        return f"{name}{loop_behind(step.stitch, pen.wording)}"
    if loop is Loop.THIRD:
        pen.report(NoWordsFor(name, pen.wording.terms), step.place)
    return f"{name} {loop.value} loop only"


def _where(step: Make, way: Way, pen: Pen) -> str | None:
    where = place_words(step.at, way)
    if where is not None and _is_counted_off(step.at):
        return f"{where} of {pen.wording.word('rnd' if pen.rounds else 'row')} below"
    if where is not None and _takes_several(step):
        return f"over {where.removeprefix('in ')}"  # "crossed stitch over next 2 sts"
    return where


def _is_counted_off(at: Target) -> bool:
    """Tell whether a stitch is found by counting along the edge: "in 6th and 12th sts"."""
    return isinstance(at, Nth) and at.origin is Origin.EDGE and at.noun.thing is not Thing.CHAIN


def _is_foundation(step: Make) -> bool:
    """Tell whether a stitch stands on a chain of its own, so that it goes into no place."""
    row = stitches().get(step.stitch.kind)
    return row is not None and row.consumes == 0 and not row.group


def _takes_several(step: Make) -> bool:
    """Tell whether one stitch goes over more places than one, and more than one are told."""
    row = stitches().get(step.stitch.kind)
    many = isinstance(step.at, Next | First | Last) and step.at.number != ONE
    return many and row is not None and (row.consumes or 1) > 1


def count_words(number: Number, pen: Pen) -> str:
    """Give the number before a stitch; nothing for one."""
    return "" if pen.wording.is_one(number) else f"{pen.wording.number(number)} "


def _gathered(step: Make, called: str, way: Way, pen: Pen) -> str:
    """Write stitches drawn together: a number of places is that of the stitches below."""
    by = step.stitch.together
    match step.at:
        case Next(number, noun) if (
            not pen.wording.is_one(number) and noun == STITCH and not way.loop
        ):
            return f"{called} {times_words(number, pen)}"
        case Next(number) | First(number) | Last(number):
            below = _times(number, by)
            if below is None:
                pen.report(NoWordsFor(called, pen.wording.terms), step.place)
                below = number
            words = plain_place(replace(step.at, number=below), replace(way, loop=""))
            over = way.lead if way.around or way.loop else "over "
            return f"{called} {over}{words}"
        case Each(noun, until) if noun == STITCH and not way.loop:
            return f"{called} {until_words(until, way)}"
        case Same(begins=True):
            return f"{called} beginning in {plain_place(step.at, way)}"
        case _:
            return f"{called} {place_words(step.at, way) or ''}".rstrip()


def _times(number: Number, by: int) -> Number | None:
    if not isinstance(number.value, tuple):
        return None
    values = tuple(None if value is None else value * by for value in number.value)
    return replace(number, value=values, spelling="")


def times_words(number: Number, pen: Pen, more: str = "") -> str:
    """Say how often: `twice`, `6 times`, `3 more times`."""
    values = pen.wording.values(number)
    if pen.wording.is_one(number) and (more or pen.wording.aloud or number.value == (1,)):
        return f"once{more}"
    if not more and values is not None and set(values) == {_TWO}:
        return (
            "twice"
            if len(number.value if isinstance(number.value, tuple) else ()) == 1
            else (f"{pen.wording.number(number)} times")
        )
    if pen.wording.is_one(number):
        return f"{pen.wording.number(number)}{more} time"
    return f"{pen.wording.number(number)}{more} times"


def chain_words(step: Chain, pen: Pen) -> str:
    """Say a chain, with what it counts as."""
    words = f"{pen.wording.word('ch')} {pen.wording.number(step.count)}"
    if step.counts is None:
        return words
    if not step.counts.stitch and not step.counts.chains:
        verb = f"does not count as a {pen.wording.word('st')}"
    else:
        verb = f"counts as {_counts_as(step.counts, pen)}"
    if pen.wording.aloud:
        return f"{words}, which {verb}{_throughout(step.counts)}"
    return f"{words} ({verb}{_throughout(step.counts)})"


def _counts_as(counts: Counts, pen: Pen) -> str:
    parts = []
    if counts.stitch == "st":
        parts.append(f"a {pen.wording.word('st')}")
    elif counts.stitch:
        name = kind_name(counts.stitch, pen.wording)
        article = "" if not pen.wording.aloud else "an " if name[:1] in "aeiou" else "a "
        parts.append(f"{article}{name}")
    if counts.chains:
        parts.append(f"{pen.wording.word('ch')} {counts.chains}")
    return " and ".join(parts)


def _throughout(counts: Counts) -> str:
    return " here and throughout" if counts.throughout else ""


def skipped_words(counts: Counts, pen: Pen) -> str:
    """Say what the chains left at the hook count as."""
    chains = pen.wording.word("chs")
    if pen.wording.aloud:
        as_what = _counts_as(counts, pen)
        verb = f"count as {as_what}" if as_what else "do not count"
        return f", where the skipped chains {verb}{_throughout(counts)},"
    if not counts.stitch and not counts.chains:
        return f"(skipped {chains} do not count{_throughout(counts)})"
    return f"(skipped {chains} count as {_counts_as(counts, pen)}{_throughout(counts)})"


def skip_words(step: Skip, pen: Pen) -> str:
    """Say what is passed over."""
    verb = pen.wording.word("sk")
    match step.at:
        case Behind(number):
            one = pen.wording.is_one(number)
            many = pen.wording.word("st") if one else pen.wording.word("sts")
            count = "" if one else f"{pen.wording.number(number)} "
            return f"{verb} {count}{many} behind {pen.last or 'it'}"
        case Same(noun) if noun == CHAIN:
            return f"{verb} {noun_words(noun, pen.wording)} just made"
        case Each(noun, until, apart) if pen.wording.is_one(apart) and noun.kind != "centre":
            nouns = noun_words(noun, pen.wording, many=True)
            return f"{verb} all {nouns} {until_words(until, pen.way())}"
        case Next() | Each() | Same() | First() | Last():
            return f"{verb} {plain_place(step.at, pen.way())}"
        case Nth():
            return f"{verb} {nth_words(step.at, pen.way()) or ''}".rstrip()
        case _:
            where = place_words(step.at, pen.way())
            if where is None:
                pen.report(NoWordsFor(verb, pen.wording.terms), step.place)
            return f"{verb} {(where or '').removeprefix('in ')}".rstrip()


def pattern_words(at: Next | Each, pen: Pen) -> str:
    """Say how far the work goes on as it stands: `work in patt to last 3 sts`."""
    verb = f"work in {pen.wording.word('patt')}"
    if isinstance(at, Each):
        return f"{verb} {until_words(at.until, pen.way())}"
    return f"{verb} over {plain_place(at, pen.way())}"


def leave_words(step: Leave, pen: Pen) -> str:
    """Say what is left unworked."""
    number = step.number
    many = noun_words(step.noun, pen.wording, many=True)
    if number is None:
        return f"leave remaining {many} unworked"
    if pen.wording.is_one(number):
        return f"leave last 1 {noun_words(step.noun, pen.wording)} unworked"
    return f"leave last {pen.wording.number(number)} {many} unworked"
