"""A row is marked with another side than the rows before it bring up."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.checks.courses import (
    address,
    between,
    closes,
    first_turn,
    last_turn,
    number,
    pieces,
    steps_of,
)
from stitchproof.checks.seen import Seen
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import (
    Colour,
    Facing,
    FastenOff,
    Join,
    JoinYarn,
    Mark,
    RepeatRows,
    Turn,
    makes_stitches,
)

_HEADING: Final = re.compile(r"^\s{0,3}#.*", re.MULTILINE)
_LETTER: Final = re.compile(r"[^\W_]")


@dataclass(frozen=True, slots=True)
class SideContradicted:
    """The side marked, the side counted, and the row counted from."""

    code: ClassVar[Code] = Code("C425", "side-contradicted", Level.ERROR)
    said: str
    counted: str
    since: str

    def message(self) -> str:
        """Give both sides."""
        return f"is marked {self.said}, but counted from `{self.since}` it comes up {self.counted}"

    def help(self) -> str:
        """Say where to look."""
        return "check both marks, and how many rows are worked between them"


@dataclass(slots=True)
class _Way:
    """Where one size is: the side of the next row, and the marked row it is counted from."""

    side: str = ""
    since: str = ""
    number: int = 0  # of the row marked or numbered last
    turned: bool = False  # the row before says that the work is turned


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Count sides through every piece worked flat."""
    for courses in pieces(seen):
        if _is_plain(courses):
            yield from _follow(courses, seen)


def _is_plain(courses: list[WorkedCourse]) -> bool:
    """Whether sides can be counted: rows one after another, turned and never not."""
    marked = sum(bool(c.course.label.side) for c in courses)
    steps = [s for c in courses for s in steps_of(c)]
    turns = [s.do for s in steps if isinstance(s, Turn)]
    return (
        marked > 1
        and bool(turns)
        and all(turns)
        and not any(c.course.label.listed for c in courses)
    )


def _follow(courses: list[WorkedCourse], seen: Seen) -> Iterator[Diagnostic]:
    wrong: dict[int, tuple[SideContradicted, list[str]]] = {}
    gaps = ("", *(between(a, b, seen) for a, b in pairwise(courses)))
    broken = [_LETTER.search(_HEADING.sub("", gap)) is not None for gap in gaps]
    first = [number(course, seen) for course in courses]
    for size, name in enumerate(seen.proof.sizes):
        way = _Way()
        for i, course in enumerate(courses):
            if broken[i]:
                way.side = ""
            if name in course.absent:
                continue
            numbers = first[i]
            if numbers is not None:
                way.side = way.side if numbers[size] > way.number else ""
                way.number = numbers[size]
            found = _step(way, course, size)
            if found is not None:
                wrong.setdefault(i, (found, []))[1].append(name)
    for i, (finding, names) in sorted(wrong.items()):
        yield Diagnostic(
            finding=finding,
            place=courses[i].course.label.place,
            address=address(courses[i]),
            sizes=() if len(names) == len(seen.proof.sizes) else tuple(names),
        )


def _step(way: _Way, course: WorkedCourse, size: int) -> SideContradicted | None:
    """Go on by one line, and tell whether its mark fits."""
    steps = steps_of(course)
    again = isinstance(course.course.does, RepeatRows)
    if not again and not makes_stitches(steps):
        if not all(isinstance(s, Mark | Colour) for s in steps):
            way.side = ""
        return None
    begun = any(isinstance(s, Facing | JoinYarn | Join) for s in steps)
    if begun or course.course.label.round or not (way.turned or first_turn(course) or again):
        way.side = ""
    found = _compared(way, course)
    rows = course.rows[size] if size < len(course.rows) else None
    ends = any(isinstance(s, FastenOff) for s in steps) or closes(course)
    if rows is None or not course.read or ends or _is_doubtful(course, size):
        way.side = ""
    elif rows % 2 and way.side:
        way.side = "WS" if way.side == "RS" else "RS"
    way.turned = again or last_turn(course) is not None
    return found


def _compared(way: _Way, course: WorkedCourse) -> SideContradicted | None:
    label = course.course.label
    if not label.side:
        return None
    counted, since = way.side, way.since
    several = label.last is not label.first and label.last != label.first
    way.side, way.since = ("" if several else label.side), course.label
    if not counted or counted == label.side or several:
        return None
    if label.first is None and label.span is None:
        return None
    way.side = ""  # one of the two marks is wrong, and the next one tells which
    return SideContradicted(label.side, counted, since)


def _is_doubtful(course: WorkedCourse, size: int) -> bool:
    """Whether a line is wrong already, or works rows again until something not counted in rows."""
    if size < len(course.troubles) and course.troubles[size] is not None:
        return True
    if sum(isinstance(s, Turn) for s in steps_of(course)) > 1:  # short rows within a row
        return True
    does = course.course.does
    return isinstance(does, RepeatRows) and (
        does.until_length is not None or bool(does.until_words) or bool(does.extra)
    )
