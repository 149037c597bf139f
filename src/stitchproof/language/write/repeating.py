"""Groups and repeats in words: brackets and stars on paper, sentences for the ear."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import Number
from stitchproof.language.tree import AsLong, Group, Repeat, Same, Steps, Times
from stitchproof.language.write.making import times_words
from stitchproof.language.write.pen import Pen
from stitchproof.language.write.places import Way, place_words, until_words
from stitchproof.language.write.stitch_words import group_name, said_name
from stitchproof.language.write.unsaid import NoWordsFor

_BRACKETS: Final = (("(", ")"), ("[", "]"))
_MARKS: Final = ("*", "#", "†")


def group_words(step: Group, pen: Pen) -> str:
    """Write what goes into one place: `(2 dc, ch 2, 2 dc) in next sp`, `shell in next st`."""
    way = pen.way(many=True)
    if step.name:
        return _named_group(step, way, pen)
    if pen.wording.aloud:
        return _group_aloud(step, way, pen)
    pen.groups += 1
    match step.body:
        case (Repeat(often=Times()) as repeat,):
            inside = _bracketed(repeat, pen)
        case _:
            inside = _in_brackets(step.body, pen)
    pen.groups -= 1
    where = place_words(step.at, way)
    if where is None:
        pen.report(NoWordsFor(inside, pen.wording.terms), step.place)
    return f"{inside} {where or ''}".rstrip()


def _named_group(step: Group, way: Way, pen: Pen) -> str:
    special = pen.wording.specials.get(step.name)
    name = group_name(step.name) if special is None else said_name(special)
    copies = _copies(step, special.body if special is not None else None)
    if special is None or special.body is None or not copies:
        pen.report(NoWordsFor(step.name, pen.wording.terms), step.place)
    pen.last = name
    many = f"{copies} " if copies > 1 else ""
    if pen.groups and step.at == Same():
        return f"{many}{name}"
    return f"{many}{name} {place_words(step.at, replace(way, many=copies > 1)) or ''}".rstrip()


def _copies(step: Group, body: Steps | None) -> int:
    if not body or len(step.body) % len(body):
        return 0
    copies = len(step.body) // len(body)
    return copies if step.body == body * copies else 0


def _in_brackets(body: Steps, pen: Pen) -> str:
    opening, closing = _BRACKETS[pen.brackets % len(_BRACKETS)]
    pen.brackets += 1
    words = pen.inner(body, pen)
    pen.brackets -= 1
    return f"{opening}{words}{closing}"


def _bracketed(step: Repeat, pen: Pen) -> str:
    inside = _in_brackets(step.body, pen)
    match step.often:
        case Times(number, more):
            return f"{inside} {times_words(number, pen, ' more' if more else '')}"
        case AsLong(until):
            return f"{inside} {until_words(until, pen.way())}"


def _group_aloud(step: Group, way: Way, pen: Pen) -> str:
    """Say a group for the ear: the place first, then what all goes into it."""
    pen.brackets += 1
    pen.groups += 1
    inside = pen.inner(step.body, pen).rstrip(";")
    pen.brackets -= 1
    pen.groups -= 1
    return f"work this {place_words(step.at, way) or ''}: {inside};"


def repeat_words(step: Repeat, pen: Pen) -> str:
    """Write a repeat: in brackets where it is inside another or has a total, else from a star."""
    if _is_once(step, pen):
        return pen.inner(step.body, pen)
    if pen.wording.aloud:
        return _repeat_aloud(step, pen)
    if step.cut is None and (pen.brackets or pen.marks or _is_total(step)):
        return _bracketed(step, pen)
    mark = _MARKS[min(pen.marks, len(_MARKS) - 1)]
    pen.marks += 1
    if step.cut is None:
        words = pen.inner(step.body, pen)
    else:
        first = pen.inner(step.body[: step.cut], pen)
        words = f"{first},{mark}{mark} {pen.inner(step.body[step.cut :], pen)}"
    pen.marks -= 1
    rep = pen.wording.word("rep")
    match step.often:
        case Times(number, more):
            often = times_words(number, pen, " more" if more else "")
            if not more:
                often = f"a total of {'1 time' if often == 'once' else often}"
        case AsLong(until):
            often = until_words(until, pen.way())
    ending = "" if step.cut is None else f", ending last {rep} at {mark}{mark}"
    return f"{mark}{words}; {rep} from {mark} {often}{ending}"


def _repeat_aloud(step: Repeat, pen: Pen) -> str:
    """Say a repeat for the ear, with words where it begins and where it ends."""
    pen.marks += 1
    inside = pen.inner(step.body, pen).rstrip(";")
    stop = "" if step.cut is None else pen.inner(step.body[: step.cut], pen).rstrip(";")
    pen.marks -= 1
    match step.often:
        case Times(number, more):
            total = _in_all(number, more=more)
            often = times_words(total or number, pen, "" if total else " more" if more else "")
            head = f"do this {often}"
        case AsLong(until):
            head = f"repeat this {until_words(until, pen.way())}"
    last = f"; the last time stop after: {stop.split(', ')[-1]}" if stop else ""
    inner = "inner " if pen.marks else ""
    return f"{head}: {inside}; end of the {inner}repeat{last};"


def _in_all(number: Number, *, more: bool) -> Number | None:
    """Count the first time in with "more times"; None where the number is a formula."""
    if not more:
        return number
    if not isinstance(number.value, tuple):
        return None
    values = tuple(None if value is None else value + 1 for value in number.value)
    return replace(number, value=values, spelling="")


def _is_once(step: Repeat, pen: Pen) -> bool:
    """Tell whether what is done in some sizes only, or oftener, is done once in those printed."""
    wording = pen.wording
    often = step.often.number if isinstance(step.often, Times) and not step.often.more else None
    if wording.resolved is None or often is None or step.cut is not None:
        return False
    return often.value != (1,) and wording.is_one(often)


def _is_total(step: Repeat) -> bool:
    return isinstance(step.often, Times) and not step.often.more
