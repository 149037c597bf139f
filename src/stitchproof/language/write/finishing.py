"""Joins, yarn, markers, seams and schedules in words."""

from dataclasses import replace
from typing import Final

from stitchproof.language.number import Number
from stitchproof.language.tree import Join, JoinYarn, Mark, Same, SeamSides, SeamTops, Shape, Stitch
from stitchproof.language.write.making import times_words
from stitchproof.language.write.pen import Pen
from stitchproof.language.write.places import place_words
from stitchproof.language.write.stitch_words import noun_words, stitch_name
from stitchproof.language.write.unsaid import NoWordsFor

_TWO: Final = 2


def join_words(step: Join, pen: Pen) -> str:
    """Say how a round is closed."""
    if not step.do:
        return "do not join"
    if step.at is None:
        return "join to form a ring" if step.ring else "join"
    slip = stitch_name(Stitch("sl_st"), pen.wording)
    where = place_words(step.at, pen.way()) or ""
    return f"join with {slip} {where}{' to form a ring' if step.ring else ''}"


def join_yarn_words(step: JoinYarn, pen: Pen) -> str:
    """Say where the yarn begins again."""
    facing = f"with {pen.wording.word(step.facing)} facing, " if step.facing else ""
    if step.at is not None:
        return f"{facing}join yarn {place_words(step.at, pen.way()) or ''}".rstrip()
    of = pen.wording.kept(step.of)
    return f"{facing}join yarn at {of}" if of else f"{facing}join yarn"


def mark_words(step: Mark, pen: Pen) -> str:
    """Say what is done with a marker."""
    if step.rows is not None:
        edges = "both edges" if step.edges == _TWO else "one edge"
        return f"mark {edges} at the top of Row {pen.wording.number(step.rows)}"
    verb = {"move": "move marker up", "remove": "remove marker"}.get(step.action, "place marker")
    match step.at:
        case None:
            return verb
        case Same(noun):
            return f"{verb} in last {noun_words(noun, pen.wording)} made"
        case _:
            return f"{verb} {place_words(step.at, pen.way()) or ''}".rstrip()


def seam_tops_words(step: SeamTops, pen: Pen) -> str:
    """Say how the tops of two pieces are sewn together."""
    sts = pen.wording.word("sts")
    words = (
        f"whipstitch {pen.wording.number(step.count)} {sts} from each outer edge of the last row"
    )
    if step.open is None:
        return words
    return f"{words}; the centre {pen.wording.number(step.open)} {sts} stay open"


def seam_sides_words(step: SeamSides, pen: Pen) -> str:
    """Say how the sides of two pieces are sewn together."""
    words = "whipstitch row ends from hem to marker"
    if step.rows is not None:
        words += f", {pen.wording.number(step.rows)} rows"
    if step.length is not None:
        words += f"{', or ' if pen.wording.aloud else ' = '}{pen.wording.number(step.length)}"
    return words


def shape_words(step: Shape, pen: Pen) -> str:
    """Say a schedule of shaping: `dec 1 st at each end of every 4th row 3 times`."""
    wording = pen.wording
    verb = {"increased": "inc", "decreased": "dec"}.get(step.change, step.change)
    if step.partly:
        pen.report(NoWordsFor(f"{verb} by a schedule", wording.terms), step.place)
    if wording.full:
        verb = {"inc": "increase", "dec": "decrease"}.get(verb, verb)
    phases = ", then ".join(
        _phase(every, times, pen, first=not i) for i, (every, times) in enumerate(step.phases)
    )
    words = f"{verb} {_shaped(step, pen)} {phases}".rstrip()
    if step.until is None:
        return words
    return f"{words} until {wording.number(step.until)} {wording.word('sts')} remain"


def _shaped(step: Shape, pen: Pen) -> str:
    """Say how many stitches one shaping row changes, and where."""
    word = pen.wording.word
    of = " of" if step.phases else ""
    values = pen.wording.values(step.stitches)
    even = values is not None and all(value and value % _TWO == 0 for value in values)
    if values is not None and even and not step.at:
        each = replace(step.stitches, value=tuple(v // _TWO for v in values if v), spelling="")
        one = pen.wording.is_one(each)
        return f"{pen.wording.number(each)} {word('st' if one else 'sts')} at each end{of}"
    one = pen.wording.is_one(step.stitches)
    end = step.at or "one end"
    if step.at and step.phases:
        of = " on" if pen.wording.is_one(step.phases[0][0]) else ""
    return f"{pen.wording.number(step.stitches)} {word('st' if one else 'sts')} at {end}{of}"


def _phase(every: Number, times: Number, pen: Pen, *, first: bool) -> str:
    """Say one phase of shaping: `every 4th row 3 times`, `next 5 rows`."""
    if pen.wording.is_one(every):
        if pen.wording.is_one(times):
            return "next row"
        if first:
            return f"next {pen.wording.number(times)} rows"
        return f"every row {times_words(times, pen)}"
    ordinal = pen.wording.ordinal(every) or pen.wording.number(every)
    return f"every {ordinal} row {times_words(times, pen)}"
