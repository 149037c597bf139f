"""Row numbers that are missing or stand twice."""

from collections.abc import Hashable, Iterable, Iterator, Sequence
from itertools import zip_longest
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Address, Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.base.records import dataclass
from stitchproof.checks.courses import pieces, steps_of
from stitchproof.checks.seen import Seen
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.number import Number
from stitchproof.language.tree import (
    Chain,
    Course,
    FastenOff,
    JoinYarn,
    Label,
    RepeatRows,
    makes_stitches,
)

_CUTTING: Final = (FastenOff, JoinYarn)


@facts
class RowNumberMissing:
    """The number that comes in each wrong size, and the one before it."""

    code: ClassVar[Code] = Code("C413", "row-number-missing", Level.ERROR)
    row: str
    before: tuple[int, ...]
    number: tuple[int, ...]

    def message(self) -> str:
        """Name the rows between."""
        gaps = [(a + 1, b - 1) for a, b in zip(self.before, self.number, strict=True)]
        rows = size_list(tuple(f"{a}" if a == b else f"{a}-{b}" for a, b in gaps))
        gap = f"{self.row} {rows} is" if all(a == b for a, b in gaps) else f"{self.row}s {rows} are"
        return f"follows {self.row} {size_list(self.before)}: {gap} missing"

    def help(self) -> str:
        """Say where to look."""
        return "add the missing row, or renumber"


@facts
class RowNumberRepeated:
    """The number that comes again in each wrong size, and the one before it."""

    code: ClassVar[Code] = Code("C414", "row-number-repeated", Level.ERROR)
    row: str
    before: tuple[int, ...]
    number: tuple[int, ...]

    def message(self) -> str:
        """Say what stands twice."""
        again = f"{self.row} {size_list(self.number)} comes a second time"
        return f"follows {self.row} {size_list(self.before)}: {again}"

    def help(self) -> str:
        """Say where to look."""
        return "renumber the rows"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Follow the row numbers of every section."""
    for courses in map(_rows_among_steps, pieces(seen)):
        if all(_counts_on(c) for c in courses):
            yield from _follow(courses, seen)


def numbers_passed_over(course: WorkedCourse, seen: Seen) -> frozenset[int]:
    """Give the row numbers that are missing in the piece of a line, and are told as missing."""
    own = next((p for p in map(_rows_among_steps, pieces(seen)) if course in p), [])
    if not own or not all(_counts_on(c) for c in own):
        return frozenset()
    return frozenset(
        n
        for size in range(len(seen.proof.sizes))
        for _, before, number in breaks(own, size, seen)
        for n in range(before + 1, number)
    )


def _rows_among_steps(courses: list[WorkedCourse]) -> list[WorkedCourse]:
    """Leave out steps ("1. Ch 11.") before rows that have labels of their own ("Row 1")."""
    first = next((i for i, c in enumerate(courses) if not c.label.isdigit()), 0)
    labelled = any(c.course.label.first is not None for c in courses[first:])
    steps, rows = courses[:first], courses[first:]
    apart = labelled and not any(map(_works, steps)) and not any(c.label.isdigit() for c in rows)
    return rows if apart else courses


def _works(course: WorkedCourse) -> bool:
    """Whether a line makes more than chains."""
    return makes_stitches(tuple(s for s in steps_of(course) if not isinstance(s, Chain)))


def _counts_on(course: WorkedCourse) -> bool:
    """Whether a line's label takes part in counting on.

    Rows listed one by one are worked among others, and a bare number ("5.") may number steps of
    which some are no rows.
    """
    label = course.course.label
    if label.listed or "all" in course.label.lower().split():
        return False
    return label.first is None or not course.label.isdigit()


def _follow(courses: list[WorkedCourse], seen: Seen) -> Iterator[Diagnostic]:
    wrong: dict[int, list[tuple[int, int, str]]] = {}
    found: dict[Hashable, list[tuple[int, int, int]]] = {}
    for size, (name, alike) in enumerate(zip(seen.proof.sizes, _sizes(courses, seen), strict=True)):
        if alike not in found:
            found[alike] = list(breaks(courses, size, seen))
        for i, before, number in found[alike]:
            wrong.setdefault(i, []).append((before, number, name))
    for i, ones in sorted(wrong.items()):
        course = courses[i]
        row = "Rnd" if course.course.label.round else "Row"
        missing = ones[0][1] > ones[0][0]
        same = [one for one in ones if (one[1] > one[0]) is missing]
        told = tuple(one[0] for one in same), tuple(one[1] for one in same)
        names = [name for _, _, name in ones]
        facts = RowNumberMissing if missing else RowNumberRepeated
        yield Diagnostic(
            finding=facts(row, *told),
            place=course.at(course.course.label.place),
            address=Address(course.section or None, course.label or None),
            sizes=() if len(names) == len(seen.proof.sizes) else tuple(names),
        )


def _sizes(courses: list[WorkedCourse], seen: Seen) -> Iterable[Hashable]:
    """Give what tells sizes apart, for each of them: most number their rows alike."""
    numbered = [i for i, course in enumerate(courses) if course.course.label.first is not None]
    apart: list[Sequence[object]] = []
    for course in courses[: max(numbered, default=0) + 1]:
        label = course.course.label
        told: list[Sequence[object] | None] = [course.rows]
        if label.first is not None:
            told.append(seen.resolved.of(label.first))
        if label.last is not None and label.last is not label.first:
            told.append(seen.resolved.of(label.last))
        if course.absent:
            told.append([name in course.absent for name in seen.proof.sizes])
        if any(course.troubles):
            told.append([trouble is not None for trouble in course.troubles])
        apart += (one for one in told if one and one.count(one[0]) < len(one))
    return zip(*apart, strict=True) if apart else [()] * len(seen.proof.sizes)


@dataclass(frozen=True, slots=True)
class _Numbered:
    """A line with row numbers, in one size.

    Attributes
    ----------
    at : int
        Its index.
    first, end : int
        The rows it covers.
    extra : int
        Rows without a number before it.
    cut : bool
        The yarn was cut or joined before it, or a part has a name: it may begin again.
    unsure : bool
        Before it stands what may be any number of rows.
    """

    at: int
    first: int
    end: int
    extra: int
    cut: bool
    unsure: bool


def breaks(courses: list[WorkedCourse], size: int, seen: Seen) -> Iterator[tuple[int, int, int]]:
    """Give the lines of one size whose number does not follow: index, before, number."""
    lines = _numbered(courses, size, seen)
    last, wrong = 0, False
    for line, then in zip_longest(lines, lines[1:]):
        assert line is not None
        known = last + 1 + line.extra
        follows = line.first in (last + 1, 1) or last < line.first <= known
        if line.at and courses[line.at - 1].section != courses[line.at].section:
            follows = follows or line.first <= known  # the other side begins at the same row
        follows = follows or line.unsure or (line.cut and line.first <= known)
        rows = line.end - line.first + 1
        if not follows and wrong:
            follows = True  # the range before it is wrong in this size, and that is told
        wrong = line.end > line.first and courses[line.at].troubles[size] is not None
        if not follows:
            yield line.at, known - 1 if line.first > last else last, line.first
            if then is not None and not then.extra and then.first == known + rows:
                last = known + rows - 1  # this label alone is wrong: the next one goes on
                continue
        last = line.end


def _numbered(courses: list[WorkedCourse], size: int, seen: Seen) -> list[_Numbered]:
    """Give the numbered lines of one size, up to one whose number is not known."""
    lines: list[_Numbered] = []
    extra, cut, unsure = 0, True, True
    others = 0  # rows that only other sizes work
    for i, course in enumerate(courses):
        label = course.course.label
        if seen.proof.sizes[size] in course.absent:
            extra += _left_out(course.course, size, seen)
            others += _rows(label, size, seen) if course.course.only else 0
            continue
        if not set(course.course.only) <= set(seen.resolved.sizes):
            cut, unsure = True, True  # for sizes that the pattern does not have
            continue
        if label.first is None:
            extra += (course.rows[size] or 0) if size < len(course.rows) else 0
            cut, unsure = cut or _cuts(course), unsure or _unsure(course, size)
            continue
        first = _value(label.first, size, seen)
        single = label.last is None or label.last is label.first
        end = first if single else _value(label.last, size, seen)
        if first is None or end is None:
            break
        if others and _is_one_for_all(label.first, seen):
            extra += others  # the numbers go on as in the sizes that work them
        others = 0
        lines.append(_Numbered(i, first, end, extra, cut, unsure))
        extra, cut, unsure = 0, _cuts(course), _unsure(course, size)
    return lines


def _left_out(course: Course, size: int, seen: Seen) -> int:
    """Count the rows that a size leaves out by their label: "Rnd 5 (M and L only)"."""
    label = course.label
    if "only" not in label.words.lower() and "size" not in label.words.lower():
        return 0
    return _rows(label, size, seen)


def _is_one_for_all(number: Number, seen: Seen) -> bool:
    values = seen.resolved.of(number)
    return values is not None and len(set(values)) == 1


def _rows(label: Label, size: int, seen: Seen) -> int:
    first = _value(label.first, size, seen) if label.first is not None else None
    last = _value(label.last or label.first, size, seen) if label.first is not None else None
    return last - first + 1 if first is not None and last is not None else 0


def _value(number: Number | None, size: int, seen: Seen) -> int | None:
    try:
        value = seen.resolved.in_size(number, size) if number is not None else None
    except LookupError:
        return None
    return value if isinstance(value, int) else None


def _unsure(course: WorkedCourse, size: int) -> bool:
    """Whether a line without a number may come to any number of rows."""
    if course.course.label.first is not None:
        return False
    return None in course.rows or course.troubles[size] is not None


def _cuts(course: WorkedCourse) -> bool:
    """Whether the yarn is cut or joined in a line, or it is a part with a name of its own."""
    does = course.course.does
    if isinstance(does, RepeatRows):
        return False
    label = course.course.label
    if label.first is None and label.words != "Ch" and makes_stitches(does):
        return True
    return any(isinstance(s, _CUTTING) for s in does)
