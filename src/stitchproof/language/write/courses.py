"""Whole lines in words: the label, what is done, what it comes to."""

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.language.number import Number, Value, plain
from stitchproof.language.tree import (
    CHAIN,
    Colour,
    Course,
    Join,
    Label,
    Make,
    Noun,
    RepeatRows,
    Shape,
    Stated,
    Statement,
    Thing,
    Times,
)
from stitchproof.language.write.finishing import each_row_words, on_every_words
from stitchproof.language.write.making import times_words
from stitchproof.language.write.pen import Pen
from stitchproof.language.write.steps import begun, run_words
from stitchproof.language.write.stitch_words import (
    group_name,
    held_words,
    is_held,
    kind_name,
    noun_words,
    plural,
)
from stitchproof.language.write.wording import Wording

_LABEL_WORDS: Final = MappingProxyType(
    {
        "Rnd": "Round",
        "Rnds": "Rounds",
        "rnd": "round",
        "rnds": "rounds",
        "RND": "ROUND",
        "RS": "right side",
        "WS": "wrong side",
        "Dec": "Decrease",
        "dec": "decrease",
        "Inc": "Increase",
        "inc": "increase",
    }
)
_SHORTENED: Final = re.compile(r"\b(?:Rnds?|rnds?|RND|RS|WS|[Dd]ec|[Ii]nc)\b")
_YARNS: Final = re.compile(r"\b(?:MC|CC)\d?\b")
_SIDED: Final = re.compile(r"\b(?:RS|WS)\b|\bside\b", re.IGNORECASE)
_ROWED: Final = re.compile(r"\b(?:rows?|rnds?|rounds?)\b", re.IGNORECASE)
_SMALL: Final[Mapping[Value, str]] = MappingProxyType(
    dict(enumerate(("three", "four", "five", "six", "seven", "eight", "nine", "ten"), 3))
)


def write_course(course: Course, wording: Wording | None = None) -> tuple[str, list[Diagnostic]]:
    """Write a line: `Row 2: Ch 1, sc in each st across, turn. (70 sts)`.

    Parameters
    ----------
    course : Course
        Settled; of a doubt left open, the likeliest reading is written.
    wording : Wording
        Whose terms, how short, which sizes.

    Returns
    -------
    words, found
        One line without a line end; `found` says what could not be said in these terms.
    """
    pen = Pen(wording=wording or Wording(), inner=run_words, rounds=is_round(course))
    pen.begun = _only_changes(course)
    if _is_for_others(course, pen.wording):
        return "", []
    label = label_words(course, pen)
    if isinstance(course.does, RepeatRows):
        words = begun(_repeat_rows(course.does, pen))
    else:
        words = begun(run_words(course.does, pen))
    stated = "" if course.stated is None else stated_words(course.stated, pen)
    only = _only(course, pen)
    found = [one.shifted(course.place.start) for one in pen.found]
    return " ".join(part for part in (only, label, words, stated) if part), found


def is_round(course: Course) -> bool:
    """Tell whether a line is a round: by its label, or because it is joined at its end."""
    does = course.does
    if isinstance(does, RepeatRows):
        return course.label.round
    joined = any(isinstance(step, Join) and (step.at is None or not step.ring) for step in does)
    return course.label.round or joined


def _only_changes(course: Course) -> bool:
    """Tell whether a line changes the yarn or the hook and does nothing else."""
    does = course.does
    return not isinstance(does, RepeatRows) and all(isinstance(step, Colour) for step in does)


def _is_for_others(course: Course, wording: Wording) -> bool:
    """Tell whether a line is for none of the sizes that are printed."""
    if not course.only or wording.resolved is None:
        return False
    return not set(course.only) & set(wording.resolved.names)


def _only(course: Course, pen: Pen) -> str:
    """Say for which sizes a line is, unless it is for all that are printed."""
    resolved = pen.wording.resolved
    names = list(course.only)
    if resolved is not None:
        printed = [name for name in resolved.names if name in names]
        names = [] if len(printed) == len(resolved.chosen) else printed
    return f"Size{'s' if len(names) > 1 else ''} {and_words(names)} only:" if names else ""


def and_words(names: list[str]) -> str:
    """Name one thing after another: `S, M and L`."""
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last


def label_words(course: Course, pen: Pen) -> str:
    """Say what a line is called, with a colon; nothing for one without a label of its own."""
    label = course.label
    if not is_labelled(course):
        return ""
    words = pen.wording.kept(_with_both_ends(label, pen.wording))
    words = words.strip("()") if words[:1] == "(" else words  # a row that another line tells of
    if pen.wording.full:
        words = _SHORTENED.sub(lambda m: _LABEL_WORDS.get(m[0], m[0]), words)
        words = _YARNS.sub(lambda m: pen.wording.yarn(m[0]), words)
    if label.side and not _SIDED.search(words):
        words = f"{words} ({pen.wording.word(label.side)})"
    if label.span is not None and not _ROWED.search(words):
        words = f"{words}: Next {_row(pen)}"  # "Shape neck: Next row:"
    return f"{words}:"


def _with_both_ends(label: Label, wording: Wording) -> str:
    """Print both ends of rows that an author spells together: `Rnds 3-6 (3-8)`."""
    first, last = label.first, label.last
    if wording.resolved is None or first is None or last is None or first == last:
        return label.words
    if not first.spelling or first.spelling != last.spelling:
        return label.words
    return label.words.replace(first.spelling, f"{wording.number(first)}-{wording.number(last)}")


def is_labelled(course: Course) -> bool:
    """Tell whether a line has a label of its own, and is not named by its first words."""
    label = course.label
    numbered = label.first is not None or label.span is not None or bool(label.listed)
    return numbered or (
        bool(label.words) and label.place.end < course.place.end - course.place.start
    )


# --------------------------------------------------------------------------- rows worked again


def _repeat_rows(does: RepeatRows, pen: Pen) -> str:
    yarn = does.extra[:1] if does.extra and isinstance(does.extra[0], Colour) else ()
    which = _which_rows(does, pen)
    parts = [on_every_words(which, does, pen) if does.phases else which]
    if does.often is not None:
        parts.append(_how_often(does, does.often, pen))
    until = _until(does, pen)
    if until:
        parts.append(until)
    apart = _is_number(parts[0][-1:]) and _is_number(parts[-1][:1])  # "Rep Rows 2-7 23 (25) times"
    apart = apart or (
        pen.wording.aloud and parts[1:] != [] and parts[1][:4] not in {"for ", "unti"}
    )
    words = ", ".join(parts) if apart else " ".join(parts)
    if does.chainless:
        words += f", omitting turning {pen.wording.word('ch')}"
    if does.between:
        words += _groups(does.between, pen) if does.groups else _between(does.between, pen)
    if does.then_to is not None:
        words += f", then {_begun(does, does.then_to, pen)} once more"
    if does.ending:
        words += f", ending with a {pen.wording.word(does.ending)} {_row(pen)}"
    if does.ending_row is not None:
        words += f", ending with {_row(pen).capitalize()} {pen.wording.number(does.ending_row)}"
    if yarn:
        words = f"{run_words(yarn, pen)}, {words}"
    pen.begun = True
    shapes = [step for step in does.extra if isinstance(step, Shape)]
    for shape in shapes:
        words += f", {each_row_words(shape, pen)}"
    rest = run_words(tuple(s for s in does.extra[len(yarn) :] if s not in shapes), pen)
    stop = " " if rest.startswith(("(", "[")) else ", "
    return f"{words}{stop}{rest}" if rest else words


def _groups(by: int, pen: Pen) -> str:
    """Say how the sides of a round grow: `, working 1 more group along each side each rnd`."""
    group = "group" if by == 1 else "groups"
    number = pen.wording.number(plain(by))
    return f", working {number} more {group} along each side each {_row(pen)}"


def _between(by: int, pen: Pen) -> str:
    """Say how a row grows: `, working 1 more st between increases each rnd`."""
    number = pen.wording.number(plain(abs(by)))
    word = pen.wording.word
    sts = word("st" if abs(by) == 1 else "sts")
    shaped = "more {} between increases" if by > 0 else "fewer {} between decreases"
    return f", working {number} {shaped.format(sts)} each {_row(pen)}"


def _is_number(end: str) -> bool:
    """Tell whether a number stands at one end of a phrase, or a formula that will be one."""
    return end.isdigit() or end in {"{", "}", ")"}


def _row(pen: Pen, *, many: bool = False) -> str:
    return pen.wording.word(("rnd" if pen.rounds else "row") + ("s" if many else ""))


def _which_rows(does: RepeatRows, pen: Pen) -> str:
    rep = pen.wording.word("rep")
    if does.back is not None:
        if pen.wording.is_one(does.back):
            return f"{rep} last {_row(pen)}"
        return f"{rep} last {pen.wording.number(does.back)} {_row(pen, many=True)}"
    rows = _named_rows(does, pen)
    if not rows and not does.piece:
        changed = any(isinstance(step, Make) for step in does.extra)
        return f"continue in {pen.wording.word('patt')}" if changed else "work even"
    if does.piece:
        piece = " ".join(word.capitalize() for word in does.piece.split(" "))
        return f"work as for {piece} {rows}".rstrip()
    return f"{rep} {rows}"


def _begun(does: RepeatRows, last: Number, pen: Pen) -> str:
    """Name the rows of a turn that ends before it is whole."""
    first = does.listed[0] if does.listed else does.first
    return _named_rows(RepeatRows(first=first, last=last), pen)


def _named_rows(does: RepeatRows, pen: Pen) -> str:
    number = pen.wording.number
    one, many = _row(pen).capitalize(), _row(pen, many=True).capitalize()
    if does.piece and pen.rounds:
        one, many = "Rnd", "Rnds"
    if does.listed:
        *most, last = [number(row) for row in does.listed]
        return f"{many} {', '.join(most)} and {last}" if most else f"{one} {last}"
    if does.first is None or does.last is None:
        return ""
    if does.first == does.last:
        return f"{one} {number(does.first)}"
    ends = pen.wording.values(does.first), pen.wording.values(does.last)
    if all(one is not None and len(set(one)) == 1 for one in ends) and _follows(*ends):
        return f"{many} {number(does.first)} and {number(does.last)}"
    to = " to " if pen.wording.aloud else "-"
    return f"{many} {number(does.first)}{to}{number(does.last)}"


def _follows(first: tuple[Value, ...] | None, last: tuple[Value, ...] | None) -> bool:
    return bool(first and last and last[0] == (first[0] or 0) + 1)


def _how_often(does: RepeatRows, often: Times, pen: Pen) -> str:
    if does.back is None and does.first is None and not does.listed and not does.piece:
        one = pen.wording.is_one(often.number)
        return f"for {pen.wording.number(often.number)} {_row(pen, many=not one)}"
    more = " more" if often.more else ""
    values = pen.wording.values(often.number)
    if often.more and values == (2,):
        return "two more times"
    if values is not None and len(values) == 1 and values[0] in _SMALL:
        # "Rep Rows 2-5 6 times" has two numbers side by side.
        return f"{_SMALL[values[0]]}{more} times"
    return times_words(often.number, pen, more)


def _until(does: RepeatRows, pen: Pen) -> str:
    if does.until_words:
        return f"until {pen.wording.told(does.until_words)}"
    if does.until_length is not None:
        return f"until piece measures {pen.wording.number(does.until_length)}"
    if does.until_rows is not None:
        rows = _row(pen, many=True)
        return f"until you have {pen.wording.number(does.until_rows)} {rows} in all"
    if does.until_count is not None:
        return f"until {pen.wording.number(does.until_count)} {pen.wording.word('sts')} remain"
    return ""


# --------------------------------------------------------------------------- what it comes to


def stated_words(stated: Stated, pen: Pen) -> str:
    """Say what a line comes to, in brackets, or as a sentence for the ear."""
    if stated.rowwise and pen.wording.aloud:
        rows = ", then ".join(_statements(group, pen) for group in stated.rowwise)
        return f"You have {rows}."
    if stated.rowwise:
        return "".join(_held(_statements(group, pen)) for group in stated.rowwise)
    words = _statements(stated.statements, pen)
    if stated.excluding:
        words += f", not counting {_kinds(stated.excluding, pen, many=True)}"
    if stated.including:
        words += f", counting each {_kinds(stated.including, pen)} as a {pen.wording.word('st')}"
    return f"You have {words}." if pen.wording.aloud else _held(words)


def _held(words: str) -> str:
    """Put a count in brackets, square ones where a list of sizes has round ones in it."""
    return f"[{words}]" if "(" in words else f"({words})"


def _kinds(kinds: tuple[str, ...], pen: Pen, *, many: bool = False) -> str:
    names = (_many_of(kind, pen, spaces=many) for kind in kinds)
    chain = pen.wording.word("ch")
    told = {"tch": f"turning {chain}", "underarm": f"underarm {chain}"}
    return " and ".join(told.get(name, name) for name in names)


def _many_of(kind: str, pen: Pen, *, spaces: bool) -> str:
    """Name a kind that is left out of a count or taken in: `sl sts`, `slip stitches`, `dc`."""
    space = _SPACE.fullmatch(kind)
    if space is not None:
        chains = int(space["chains"]) if space["chains"] else None
        return noun_words(Noun(Thing.CHAIN_SPACE, chains=chains), pen.wording, many=spaces)
    name = kind_name(kind, pen.wording)
    return plural(name) if name.endswith(("st", "stitch")) else name


_SPACE: Final = re.compile(r"ch(?:-(?P<chains>\d))?[ -]sp")


def _statements(statements: tuple[Statement, ...], pen: Pen) -> str:
    parts = [_statement(one, pen) for one in statements]
    *most, last = parts or [""]
    return f"{', '.join(most)} and {last}" if most and pen.wording.aloud else ", ".join(parts)


def _statement(one: Statement, pen: Pen) -> str:
    words = f"{pen.wording.number(one.number)} {_unit(one, pen)}".rstrip()
    words = f"{words} {one.change}".rstrip()
    return f"{words} per {one.each}" if one.each else words


def _unit(one: Statement, pen: Pen) -> str:
    """Name what is counted: stitches by these terms' name, other things in the author's word."""
    if not one.unit:
        return ""
    many = not pen.wording.is_one(one.number)
    match one.noun:
        case Noun(Thing.CHAIN, "handle"):
            return plural(one.unit) if many else one.unit
        case Noun(Thing.CHAIN, "underarm"):
            return f"underarm {noun_words(CHAIN, pen.wording, many=many)}"
        case Noun(Thing.STITCH | Thing.KIND | Thing.CHAIN | Thing.CHAIN_SPACE):
            return noun_words(one.noun, pen.wording, many=many)
        case _ if is_held(one.noun):
            return held_words(one.noun, pen.wording, many=many)
        case _:
            unit = " ".join(map(pen.wording.word, group_name(one.unit).split(" ")))
            return plural(unit) if many else unit
