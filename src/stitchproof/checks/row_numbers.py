"""Row numbers that are missing or stand twice."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from stitchproof.base.diagnostics import Address, Code, Diagnostic, Level
from stitchproof.checks.seen import Seen
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.fabric.prove import PIECE_LEVEL
from stitchproof.language.number import Number
from stitchproof.language.tree import FastenOff, JoinYarn, RepeatRows, makes_stitches


@dataclass(frozen=True)
class RowNumberMissing:
    """The number that comes, and the one before it."""

    code: ClassVar[Code] = Code("C413", "row-number-missing", Level.ERROR)
    row: str
    before: int
    number: int

    def message(self) -> str:
        """Name the rows between."""
        first, last = self.before + 1, self.number - 1
        gap = f"{self.row} {first} is" if first == last else f"{self.row}s {first}-{last} are"
        return f"follows {self.row} {self.before}: {gap} missing"

    def help(self) -> str:
        """Say where to look."""
        return "add the missing row, or renumber"


@dataclass(frozen=True)
class RowNumberRepeated:
    """The number that comes again, and the one before it."""

    code: ClassVar[Code] = Code("C414", "row-number-repeated", Level.ERROR)
    row: str
    before: int
    number: int

    def message(self) -> str:
        """Say what stands twice."""
        return f"follows {self.row} {self.before}: {self.row} {self.number} comes a second time"

    def help(self) -> str:
        """Say where to look."""
        return "renumber the rows"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Follow the row numbers of every section."""
    for courses in _pieces(seen):
        if all(_counts_on(c) for c in courses):
            yield from _follow(courses, seen)


def _counts_on(course: WorkedCourse) -> bool:
    """Whether a line's label takes part in counting on.

    Rows listed one by one are worked among others, and a bare number ("5.") may number steps of
    which some are no rows.
    """
    label = course.course.label
    if label.listed or "all" in course.label.lower().split():
        return False
    return label.first is None or not course.label[:1].isdigit() or not course.label.isdigit()


def _pieces(seen: Seen) -> Iterator[list[WorkedCourse]]:
    """Give the lines of each piece: those of a level-2 heading and of the deeper ones below it."""
    courses: list[WorkedCourse] = []
    start = 0
    for section in seen.manuscript.sections:
        own = seen.proof.courses[start : start + len(section.courses)]
        start += len(own)
        if section.level <= PIECE_LEVEL and courses:
            yield courses
            courses = []
        courses += own
    if courses:
        yield courses


def _follow(courses: list[WorkedCourse], seen: Seen) -> Iterator[Diagnostic]:
    wrong: dict[int, tuple[int, int, list[str]]] = {}
    for size, name in enumerate(seen.proof.sizes):
        for i, before, number in _breaks(courses, size, seen):
            known = wrong.setdefault(i, (before, number, []))
            known[2].append(name)
    for i, (before, number, names) in sorted(wrong.items()):
        course = courses[i]
        row = "Rnd" if course.course.label.round else "Row"
        facts = RowNumberMissing if number > before else RowNumberRepeated
        yield Diagnostic(
            finding=facts(row, before, number),
            place=course.at(course.course.label.place),
            address=Address(course.section or None, course.label or None),
            sizes=() if len(names) == len(seen.proof.sizes) else tuple(names),
        )


def _breaks(courses: list[WorkedCourse], size: int, seen: Seen) -> Iterator[tuple[int, int, int]]:
    """Give the lines of one size whose number does not follow: index, before, number."""
    last, extra, fresh = 0, 0, True
    for i, course in enumerate(courses):
        label = course.course.label
        if seen.proof.sizes[size] in course.absent:
            continue
        if label.first is None:
            extra += (course.rows[size] or 0) if size < len(course.rows) else 0
            fresh = fresh or _breaks_off(course)
            continue
        first = _value(label.first, size, seen)
        end = _value(label.last or label.first, size, seen)
        if first is None or end is None:
            return
        follows = first in (last + 1, last + 1 + extra, 1)
        if i and courses[i - 1].section != course.section:
            follows = follows or first <= last + 1 + extra  # the other side begins at the same row
        if not follows and not fresh and not (last < first <= last + 1 + extra):
            yield i, last + extra if first > last else last, first
        last, extra, fresh = end, 0, _breaks_off(course)


def _value(number: Number, size: int, seen: Seen) -> int | None:
    values = seen.resolved.of(number)
    value = values[size] if values is not None else None
    return value if isinstance(value, int) else None


def _breaks_off(course: WorkedCourse) -> bool:
    does = course.course.does
    if course.course.label.first is None and None in course.rows:
        return True  # how many rows it comes to is not known
    if isinstance(does, RepeatRows):
        return False
    if (
        course.course.label.first is None
        and course.course.label.words != "Ch"
        and makes_stitches(does)
    ):
        return True  # a part with a name of its own may count anew
    return any(isinstance(s, FastenOff | JoinYarn) for s in does)
