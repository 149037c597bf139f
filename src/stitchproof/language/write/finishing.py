"""Joins, yarn, markers, seams and schedules in words."""

from types import MappingProxyType
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import Number
from stitchproof.language.tree import (
    Join,
    JoinYarn,
    Mark,
    Marked,
    Next,
    Noun,
    RepeatRows,
    Same,
    SeamSides,
    SeamTops,
    Shape,
    Skipped,
    Stitch,
    Thing,
)
from stitchproof.language.write.making import times_words
from stitchproof.language.write.pen import Pen
from stitchproof.language.write.places import place_words
from stitchproof.language.write.stitch_words import noun_words, stitch_name

_TWO: Final = 2
_CORNER: Final = Noun(Thing.SPACE, "corner")


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
    if step.at == Next(noun=_CORNER) and not pen.begun:
        return f"{facing}join yarn in any {noun_words(_CORNER, pen.wording)}"
    if isinstance(step.at, Skipped) and step.at == Skipped(noun=step.at.noun):
        words = place_words(step.at, pen.way()) or ""
        return f"{facing}join yarn {words.replace('in ', 'in first ', 1)}"
    if step.at is not None:
        return f"{facing}join yarn {place_words(step.at, pen.way()) or ''}".rstrip()
    of = pen.wording.told(step.of)
    return f"{facing}join yarn at {of}" if of else f"{facing}join yarn"


_MARKER_VERBS: Final = MappingProxyType(
    {"move": "move marker up", "slip": "slip marker", "remove": "remove marker"}
)


def mark_words(step: Mark, pen: Pen) -> str:
    """Say what is done with a marker."""
    if step.rows is not None:
        edges = "both edges" if step.edges == _TWO else "one edge"
        return f"mark {edges} at the top of Row {pen.wording.number(step.rows)}"
    verb = _MARKER_VERBS.get(step.action, "place marker")
    match step.at:
        case None:
            return verb
        case Marked():
            return f"{verb} where told"
        case Same(noun):
            return f"{verb} in last {noun_words(noun, pen.wording)} made"
        case Next(number, Noun(kind="centre") as noun) if pen.wording.is_one(number):
            # the centre alone is that of what was just made
            return f"{verb} in next {noun_words(noun, pen.wording)}"
        case _:
            return f"{verb} {place_words(step.at, pen.way()) or ''}".rstrip()


def seam_tops_words(step: SeamTops, pen: Pen) -> str:
    """Say how the tops of two pieces are joined."""
    sts = pen.wording.word("sts")
    verb, together = _seam_verb(step.by, pen)
    if step.count is None:
        words = f"{verb} shoulders together through both layers"
    else:
        count = pen.wording.number(step.count)
        words = f"{verb} {count} {sts} from each outer edge of the last row{together}"
    if step.open is None:
        return words
    center = pen.wording.word("center")
    return f"{words}; the {center} {pen.wording.number(step.open)} {sts} stay open"


def seam_sides_words(step: SeamSides, pen: Pen) -> str:
    """Say how the sides of two pieces are joined."""
    verb, together = _seam_verb(step.by, pen)
    if step.whole:
        return f"{verb} side seams together through both layers"
    words = f"{verb} row ends{together} from hem to marker"
    if step.rows is not None:
        words += f", {pen.wording.number(step.rows)} rows"
    if step.length is not None:
        words += f"{', or ' if pen.wording.aloud else ' = '}{pen.wording.number(step.length)}"
    return words


def _seam_verb(by: str, pen: Pen) -> tuple[str, str]:
    """Say with what pieces are joined, and `together` where that is a stitch."""
    return (stitch_name(Stitch(by), pen.wording), " together") if by else ("whipstitch", "")


def shape_words(step: Shape, pen: Pen) -> str:
    """Say a schedule of shaping: `dec 1 st at each end of every 4th row 3 times`."""
    wording = pen.wording
    lead = ""
    if pen.shaped:
        together = "at the same time" if wording.aloud else "AT THE SAME TIME"
        lead = f"{together} " if step.beside else "then "
    pen.shaped = True
    phases = ", then ".join(
        _phase(every, times, pen, first=not i) for i, (every, times) in enumerate(step.phases)
    )
    words = f"{lead}{_shaped(step, pen)} {phases}".rstrip()
    if step.until is None:
        return words
    sts = wording.word("sts")
    if step.change == "increased":
        return f"{words} until there are {wording.number(step.until)} {sts}"
    return f"{words} until {wording.number(step.until)} {sts} remain"


def each_row_words(step: Shape, pen: Pen) -> str:
    """Say what rows worked again come to: `increasing 8 sts in each row`."""
    wording = pen.wording
    unit = wording.word("st" if wording.is_one(step.stitches) else "sts")
    verb = "increasing" if step.change == "increased" else "decreasing"
    row = wording.word("rnd" if pen.rounds else "row")
    return f"{verb} {wording.number(step.stitches)} {unit} in each {row}"


def on_every_words(rows: str, does: RepeatRows, pen: Pen) -> str:
    """Say on which rows earlier ones are worked again: `rep Row 7 every 6th row 4 times`."""
    if not does.leading:
        phases = (
            _phase(every, times, pen, first=not i) for i, (every, times) in enumerate(does.phases)
        )
        return f"{rows} {', then '.join(phases)}"
    every, times = does.phases[0]
    even = _one_less(every)
    row = pen.wording.word(
        ("rnd" if pen.rounds else "row") + ("" if pen.wording.is_one(even) else "s")
    )
    turn = f"[{rows}, work {pen.wording.number(even)} {row} even]"
    return turn if times is None else f"{turn} {times_words(times, pen)}"


def _one_less(number: Number) -> Number:
    """Give one less in every size."""
    assert isinstance(number.value, tuple)
    values = tuple(None if value is None else value - 1 for value in number.value)
    first, *others = map(str, values)
    spelling = f"{first} ({', '.join(others)})" if others else first
    return replace(number, value=values, spelling=spelling)


def _shaped(step: Shape, pen: Pen) -> str:
    """Say how many stitches one shaping row changes, how, and where."""
    wording = pen.wording
    unit = wording.word("st" if wording.is_one(step.stitches) else "sts")
    number = f"{wording.number(step.stitches)} {unit}"
    at = " ".join(map(wording.word, step.at.split()))
    where = f"at {'each ' if step.ends == _TWO else ''}{at or _SOME_END[step.ends]}"
    if step.phases:
        every, times = step.phases[0]
        # "at beg of next 2 rows", but "at neck edge every 4th row" and "at neck edge on next row"
        of_rows = not step.at or step.at in {"beg", "end"}
        ahead = wording.is_one(every) and times is not None
        where += " of" if of_rows else " on" if ahead else ""
    match step.way:
        case "slip":
            return f"{wording.word('sl st')} across {number} {where}"
        case "leave":
            return f"leave {number} unworked {where}"
        case _:
            verb = "inc" if step.change == "increased" else "dec"
            return f"{_VERBS[verb] if wording.full else verb} {number} {where}"


_SOME_END: Final = MappingProxyType({1: "one end", 2: "end"})
_VERBS: Final = MappingProxyType({"inc": "increase", "dec": "decrease"})


def _phase(every: Number, times: Number | None, pen: Pen, *, first: bool) -> str:
    """Say one phase of shaping: `every 4th row 3 times`, `next 5 rows`."""
    rows = "rnd" if pen.rounds else "row"
    row, many = pen.wording.word(rows), pen.wording.word(f"{rows}s")
    if pen.wording.is_one(every):
        if times is None:
            return f"every {row}"
        if pen.wording.is_one(times):
            return f"next {row}"
        if first:
            return f"next {pen.wording.number(times)} {many}"
        return f"every {row} {times_words(times, pen)}"
    ordinal = pen.wording.ordinal(every)
    apart = f"every {ordinal} {row}" if ordinal else f"every {pen.wording.number(every)} {many}"
    if times is None:
        return apart
    return f"{apart} {'once' if pen.wording.is_one(times) else times_words(times, pen)}"
