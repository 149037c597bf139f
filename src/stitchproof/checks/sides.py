"""A row is marked with another side than the rows before it bring up."""

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import ClassVar, Final, TypeAlias

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.records import dataclass
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


@facts
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
    """Where the work is: the side of the next row, and the marked row it is counted from."""

    side: str = ""
    since: str = ""
    number: int = 0  # of the row numbered last
    turned: bool = False  # the row before says that the work is turned


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """What a line does to the side, alike in all sizes.

    Attributes
    ----------
    course : WorkedCourse
        The line.
    broken : bool
        Words stand before it that are no line.
    quiet : bool
        It makes nothing and moves nothing.
    lost : bool
        From here the side is not known: it makes nothing, or turns or joins where it likes.
    begun : bool
        It begins somewhere else.
    turns : bool
        It says a turn at its beginning, or works rows again.
    turned : bool
        It says a turn at its end, or works rows again.
    ended : bool
        Nothing is known behind it.
    """

    course: WorkedCourse
    broken: bool
    quiet: bool
    lost: bool
    begun: bool
    turns: bool
    turned: bool
    ended: bool


_InSize: TypeAlias = tuple[bool, int | None, int | None]  # worked and right, rows, number


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Count sides through every piece worked flat."""
    for courses in pieces(seen):
        if _is_plain(courses):
            yield from _follow(courses, seen)


def _is_plain(courses: list[WorkedCourse]) -> bool:
    """Whether sides can be counted: rows one after another, turned and never not."""
    if sum(bool(c.course.label.side) for c in courses) <= 1:
        return False
    turns = [s.do for c in courses for s in steps_of(c) if isinstance(s, Turn)]
    return bool(turns) and all(turns) and not any(c.course.label.listed for c in courses)


def _follow(courses: list[WorkedCourse], seen: Seen) -> Iterator[Diagnostic]:
    """Count in every size, once for those that have the same rows."""
    gaps = ("", *(between(a, b, seen) for a, b in pairwise(courses)))
    lines = [_line(course, gap) for course, gap in zip(courses, gaps, strict=True)]
    numbers = [number(course, seen) for course in courses]
    alike: dict[tuple[_InSize | None, ...], list[str]] = {}
    for size, name in enumerate(seen.proof.sizes):
        rows = tuple(
            None if name in course.absent else _in_size(course, named, size)
            for course, named in zip(courses, numbers, strict=True)
        )
        alike.setdefault(rows, []).append(name)
    wrong: dict[int, tuple[SideContradicted, list[str]]] = {}
    for rows, names in alike.items():
        for i, finding in _counted(lines, rows):
            wrong.setdefault(i, (finding, []))[1].extend(names)
    for i, (finding, names) in sorted(wrong.items()):
        yield Diagnostic(
            finding=finding,
            place=courses[i].at(courses[i].course.label.place),
            address=address(courses[i]),
            sizes=()
            if len(names) == len(seen.proof.sizes)
            else tuple(name for name in seen.proof.sizes if name in names),
        )


def _in_size(course: WorkedCourse, named: tuple[int, ...] | None, size: int) -> _InSize:
    right = size >= len(course.troubles) or course.troubles[size] is None
    rows = course.rows[size] if size < len(course.rows) else None
    return right, rows, None if named is None else named[size]


def _line(course: WorkedCourse, gap: str) -> _Line:
    """Say what a line does to the side."""
    steps = steps_of(course)
    does = course.course.does
    again = isinstance(does, RepeatRows)
    open_ = isinstance(does, RepeatRows) and bool(
        does.until_length is not None
        or does.until_count is not None
        or does.until_words
        or does.extra
    )
    short = sum(isinstance(s, Turn) for s in steps) > 1  # short rows within a row
    fastened = any(isinstance(s, FastenOff) for s in steps)
    quiet = not again and not makes_stitches(steps)
    begun = any(isinstance(s, Facing | JoinYarn | Join) for s in steps)
    return _Line(
        course=course,
        broken=bool(gap.strip()) and _LETTER.search(_HEADING.sub("", gap)) is not None,
        quiet=quiet,
        lost=quiet and not all(isinstance(s, Mark | Colour) for s in steps),
        begun=begun or course.course.label.round,
        turns=again or first_turn(course) is not None,
        turned=again or last_turn(course) is not None,
        ended=not course.read or fastened or closes(course) or open_ or short,
    )


def _counted(
    lines: list[_Line], rows: tuple[_InSize | None, ...]
) -> Iterator[tuple[int, SideContradicted]]:
    """Count through one size, and give the lines whose mark does not fit."""
    way = _Way()
    for i, (line, here) in enumerate(zip(lines, rows, strict=True)):
        if line.broken or line.lost:
            way.side = ""
        if here is None or line.quiet:
            continue
        right, count, named = here
        again = named is not None and named <= way.number
        if again or line.begun or not (way.turned or line.turns):
            way.side = ""
        way.number = way.number if named is None else named
        found = _compared(way, line.course)
        if found is not None:
            yield i, found
        if count is None or line.ended or not right:
            way.side = ""
        elif count % 2 and way.side:
            way.side = "WS" if way.side == "RS" else "RS"
        way.turned = line.turned


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
