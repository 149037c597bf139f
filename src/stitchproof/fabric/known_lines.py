"""Lines that were worked before, from where the work stands now.

A line comes to the same wherever the work stands at the same place: on the same edges, with the
same side facing, under the same conventions. So when one row of a piece is changed, the rows above
it are not worked again; nor are those below it from the row on at which the work stands where it
stood before. And in a stitch pattern of a few rows, a row comes to what it came to one repeat
below, whatever its number. A line is kept when nothing in it fails and when it looks at nothing but
the edges below it, or at the last rows, which it works again: it works no other rows again and
nothing along the sides of the piece.
"""

from collections.abc import Hashable, Sequence
from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.fabric.attempt import DoneRow
from stitchproof.fabric.conventions import Conventions
from stitchproof.fabric.last_rows import LastRows, last_rows, stand_alike, works_last_rows
from stitchproof.fabric.memory import Memory
from stitchproof.fabric.meter import Metered
from stitchproof.fabric.planned import PlannedRow
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.fabric.state import Bench, Judged, Outcome, Progress
from stitchproof.fabric.track import Track
from stitchproof.fabric.trouble import Trouble
from stitchproof.language.tree import Course, Label, RepeatRows, Section

_MOST: Final = 10**6  # rows have smaller numbers


@dataclass(slots=True, kw_only=True)
class KnownLine:
    """A line, where the work stood before it and after it, and what working it took.

    Attributes
    ----------
    key : hashable
        Under which it is kept.
    course : Course
        The line as it was read when it was worked.
    before, after : tuple of tuple of Track
        (W,) where the work stood.
    again : tuple of tuple of PlannedRow
        (W,) the last rows before it, as many as it works again.
    rows : tuple of tuple of DoneRow
        (W,) the rows it came to.
    judged : Judged
        What it came to.
    metered, most : tuple of Metered, int
        What working it took, and the most that it may be counted for.
    told : WorkedCourse or None
        What is told of it, once that was put together.
    """

    key: Hashable
    course: Course
    before: tuple[tuple[Track, ...], ...]
    after: tuple[tuple[Track, ...], ...]
    again: LastRows
    rows: tuple[tuple[DoneRow, ...], ...]
    judged: Judged
    metered: tuple[Metered, ...]
    most: int
    told: WorkedCourse | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """One line of a piece, judged.

    Attributes
    ----------
    section, course
        Where it stands, and what it says.
    judged : Judged or None
        How it was worked; None for a line that makes no stitches.
    troubles : tuple of Trouble or None
        (W,) what is wrong with it.
    sides : tuple of str
        (W,) side that faced the maker.
    read : bool
        Every word of it was understood.
    known : KnownLine or None
        The line as it is kept.
    """

    section: Section
    course: Course
    judged: Judged | None
    troubles: tuple[Trouble | None, ...]
    sides: tuple[str, ...]
    read: bool
    known: KnownLine | None = None


def known_line(
    course: Course, progress: Sequence[Progress], conventions: Conventions, bench: Bench
) -> KnownLine | None:
    """Find a line that was worked before from where the work stands now."""
    memory = bench.memory
    repeats = isinstance(course.does, RepeatRows)
    if memory.meter.stopped is not None or (repeats and not works_last_rows(course)):
        return None
    where = _where(progress)
    key = _key(course, where, conventions)
    for lines in (memory.lines, memory.lines_before):
        known = lines.get(key)
        if known is None:
            continue
        assert isinstance(known, KnownLine)
        if (
            known.before == where
            and _works_same_again(known, course, progress, bench)
            and memory.meter.allows(known.most)
            and not _failed_before(known, course, progress)
        ):
            return known
    return None


def _key(
    course: Course, before: tuple[tuple[Track, ...], ...], conventions: Conventions
) -> Hashable:
    label = course.label
    named = label if row_number(label) is None else (label.round, label.side)
    # what was read or made once is one object, and kept alive by the line that is kept
    does, stated = id(course.does), id(course.stated)
    first = before[0][0] if before else Track()
    return does, stated, named, course.only, conventions.key, first.side, id(first.edge)


def row_number(label: Label) -> int | None:
    """Give the number of the one row that a label names, where its words decide nothing else.

    What stands above Row 1 may be another piece, so Row 1 is not like others.
    """
    if label.first is None or label.listed or label.span is not None:
        return None
    value = label.first.value
    if not isinstance(value, tuple) or len(value) > 1 or label.last not in (None, label.first):
        return None
    number = value[0]
    return number if isinstance(number, int) and 1 < number < _MOST else None


def _where(progress: Sequence[Progress]) -> tuple[tuple[Track, ...], ...]:
    return tuple(here.tracks for here in progress)


def _works_same_again(
    known: KnownLine, course: Course, progress: Sequence[Progress], bench: Bench
) -> bool:
    """Whether a line that works the last rows again would work those that it worked before."""
    moved = course.place.start - known.course.place.start
    return stand_alike(known.again, last_rows(course, progress, bench), moved)


def _failed_before(known: KnownLine, course: Course, progress: Sequence[Progress]) -> bool:
    """Whether some of its words have failed: another line may stand for the same words."""
    if isinstance(course.does, RepeatRows):
        return any(here.wrong for here in progress)
    last = course.place.start + (course.does[-1].place.start if course.does else 0)
    return any(last in here.wrong for here, rows in zip(progress, known.rows, strict=True) if rows)


def go_on_as_before(
    known: KnownLine, course: Course, progress: Sequence[Progress], bench: Bench
) -> None:
    """Take over what a known line came to, in every size, its words where they stand now."""
    bench.memory.meter.repeat(known.metered, known.most)
    bench.memory.lines[known.key] = known
    moved = course.place.start - known.course.place.start
    number = row_number(course.label)
    same = not moved and number == row_number(known.course.label)
    standing: dict[int, PlannedRow] = {}  # by identity of how they stood: sizes share most rows
    for here, rows, after in zip(progress, known.rows, known.after, strict=True):
        here.tracks = after
        if same:
            here.take(rows)
            continue
        for row in (done.row for done in rows):
            if id(row) not in standing:
                standing[id(row)] = _standing_here(row, moved, number)
        here.take(
            [
                DoneRow(standing[id(row)], edge, consumed, side, moves)
                for row, edge, consumed, side, moves in rows
            ]
        )


def _standing_here(row: PlannedRow, moved: int, number: int | None) -> PlannedRow:
    """Give a row that was worked before with its place and number as they are here."""
    own = row.number if number is None or row.number is None else number
    return PlannedRow(own, row.steps, row.line + moved, row.covers, row.behind)


@dataclass(frozen=True, slots=True)
class Watch:
    """Where the work stands before a line is worked, so that the line may be kept then."""

    before: tuple[tuple[Track, ...], ...]
    again: LastRows
    noted: int  # rows that were noted before it
    most: int  # that they may be counted for

    @classmethod
    def begin(cls, course: Course, progress: Sequence[Progress], bench: Bench) -> "Watch":
        """Look where the work stands now."""
        meter = bench.memory.meter
        again = last_rows(course, progress, bench)
        return cls(_where(progress), again, len(meter.log), meter.most)

    def keep(
        self,
        course: Course,
        judged: Judged,
        progress: Sequence[Progress],
        conventions: Conventions,
        bench: Bench,
    ) -> KnownLine | None:
        """Keep a line that was worked and gone on from; None where it must not be kept."""
        memory = bench.memory
        if memory.meter.stopped is not None or not _looks_only_below(course, judged, memory):
            return None
        if not all(map(_went_well, judged.outcomes, judged.troubles, self.before)):
            return None
        known = KnownLine(
            key=_key(course, self.before, conventions),
            course=course,
            before=self.before,
            after=_where(progress),
            again=self.again,
            rows=tuple(map(_last_rows, progress, judged.outcomes)),
            judged=judged,
            metered=tuple(memory.meter.log[self.noted :]),
            most=memory.meter.most - self.most,
        )
        memory.lines[known.key] = known
        return known


def _looks_only_below(course: Course, judged: Judged, memory: Memory) -> bool:
    """Whether the edges below, the rows worked again and the words decide what a line comes to."""
    if isinstance(course.does, RepeatRows):
        return works_last_rows(course)
    facts = memory.facts(course.does)
    with_the_next = bool(judged.choices) and course.stated is None
    return not (facts.along or facts.elsewhere or with_the_next)


def _went_well(outcome: Outcome, trouble: Trouble | None, before: tuple[Track, ...]) -> bool:
    """Whether nothing fails in one size, now or before, and no row is unknown."""
    if outcome.absent:
        return True
    first = outcome.first
    if first is None or trouble is not None or outcome.echo or len(before) > 1:
        return False
    return bool(first.rows) and not (first.troubles or outcome.troubles or outcome.open)


def _last_rows(here: Progress, outcome: Outcome) -> tuple[DoneRow, ...]:
    """Give the rows of a line as they were taken over: with its readings settled."""
    made = 0 if outcome.first is None else len(outcome.first.rows)
    return tuple(here.rows[len(here.rows) - made :])


def told_again(known: KnownLine, section: Section, course: Course) -> WorkedCourse | None:
    """Give what was told of a known line, as of the line that stands here; None: nothing yet."""
    told = known.told
    if told is None:
        return None
    here = course
    if known.judged.choices:
        here = replace(course, does=told.course.does)
    label = course.label.words
    return replace(told, course=here, section=section.name, label=label, place=course.place)
