"""Works a whole manuscript in every size: the one entry to the fabric.

Sections are gathered into pieces: a level-2 heading begins a piece on a new edge, deeper headings
go on with it, and a heading whose first line founds nothing goes on with a piece that was not
fastened off. A piece is worked with its conventions as stated; if lines fail, the switches that
nobody stated are tried once for the whole piece, and a setting is taken only if fewer sizes of
fewer lines fail with it.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import islice, product
from typing import Final

from stitchproof.base.place import NOWHERE, Span
from stitchproof.fabric.attempt import DoneRow
from stitchproof.fabric.conventions import Conventions, Switch, gathered
from stitchproof.fabric.named import Finished, finish, opened, row_end
from stitchproof.fabric.outline import shape_of
from stitchproof.fabric.piece import Bench, Judged, Progress, go_on, judge
from stitchproof.fabric.proof import Assumed, PieceShape, Proof, WorkedCourse
from stitchproof.fabric.report import worked_course
from stitchproof.fabric.rows import PlannedRow
from stitchproof.fabric.track import Memory, Setting, Track, founds
from stitchproof.fabric.trouble import Trouble
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.number import Resolved
from stitchproof.language.tree import (
    Chain,
    Counts,
    Course,
    FastenOff,
    JoinYarn,
    Mark,
    RepeatRows,
    Rule,
    SeamPlace,
    SeamSides,
    SeamTops,
    Section,
)

MOST_TRIES: Final = 24
PIECE_LEVEL: Final = 2  # a heading of this level begins a piece


@dataclass(frozen=True, slots=True)
class Done:
    """One line of a piece, judged."""

    section: Section
    course: Course
    judged: Judged | None
    troubles: tuple[Trouble | None, ...]
    sides: tuple[str, ...]


@dataclass(slots=True)
class Piece:
    """A piece as it was worked: its lines, and where it stands in every size."""

    sections: list[Section]
    conventions: Conventions
    progress: list[Progress]
    lines: list[Done] = field(default_factory=list)
    own: bool = True  # begun on a foundation of its own, not on edges of others
    taken: Mapping[Switch, Counts] = field(default_factory=dict)

    @property
    def wrong(self) -> int:
        """In how many sizes of how many lines something is wrong."""
        return sum(t is not None for line in self.lines for t in line.troubles)


def prove(
    manuscript: Manuscript,
    resolved: Resolved,
    memory: Memory,
    rows_per_mm: Mapping[str, float] | None = None,
    *,
    shapes: bool = False,
) -> Proof:
    """Work every instruction in every chosen size.

    Parameters
    ----------
    manuscript : Manuscript
        What the author wrote, read.
    resolved : Resolved
        What its numbers come to.
    memory : Memory
        Courses worked before; may be kept for the next proof.
    rows_per_mm : mapping of str to float, optional
        Row gauge by section name, for lines worked to a length. [1/mm]
    shapes : bool
        Lay down the outline of each piece too.

    Returns
    -------
    Proof
        Every course with its counts and what is wrong with it.
    """
    sizes = len(resolved.names)
    finished: list[list[Finished]] = [[] for _ in range(sizes)]
    rows: list[dict[str, list[PlannedRow]]] = [{} for _ in range(sizes)]
    pieces: list[Piece] = []
    previous: Piece | None = None
    for group in _groups(manuscript.sections):
        bench = Bench(
            resolved=resolved,
            memory=memory,
            pieces=tuple(rows),
            rows_per_mm=(rows_per_mm or {}).get(group[0].name),
        )
        piece = _best(group, manuscript, bench, finished, previous)
        pieces.append(piece)
        _keep(piece, finished, rows)
        previous = piece
    return _proof(pieces, resolved, shapes=shapes)


def _groups(sections: Iterable[Section]) -> Iterator[list[Section]]:
    group: list[Section] = []
    for section in sections:
        if group and section.level <= PIECE_LEVEL:
            yield group
            group = []
        group.append(section)
    if group:
        yield group


# --------------------------------------------------------------------------- one piece


def _best(
    group: list[Section],
    manuscript: Manuscript,
    bench: Bench,
    finished: list[list[Finished]],
    previous: Piece | None,
) -> Piece:
    """Work a piece with its open switches set as few lines as possible fail."""
    conventions = gathered(manuscript.rules)
    best = _work(group, conventions, bench, finished, previous)
    if best.wrong == 0:
        return best
    for tried in islice(_settings(best, conventions), MOST_TRIES):
        other = _work(group, tried, bench, finished, previous)
        if other.wrong < best.wrong:
            best = other
            if best.wrong == 0:
                break
    return best


def _settings(piece: Piece, conventions: Conventions) -> Iterator[Conventions]:
    """Give other settings of the switches a piece looked at, few changes before many."""
    asked = sorted({s for line in piece.lines for s in _asked(line)})
    ways = [piece.conventions.ways(switch) for switch in asked]
    settings = [
        (sum(way) + 2 * chains, chains, way)
        for chains in (False, True)
        for way in product(*(range(len(w)) for w in ways))
        if any(way) or chains
    ]
    settings.sort(key=lambda s: s[0])
    for _, chains, way in settings:
        taken = {s: w[i] for s, w, i in zip(asked, ways, way, strict=True) if i or len(w) > 1}
        yield replace(conventions, taken=taken, chains=chains)


def _asked(line: Done) -> Iterator[Switch]:
    if line.judged is not None:
        for outcome in line.judged.outcomes:
            for found in outcome.attempts:
                yield from found.asked


def _work(
    group: list[Section],
    conventions: Conventions,
    bench: Bench,
    finished: list[list[Finished]],
    previous: Piece | None,
) -> Piece:
    progress = [Progress() for _ in bench.resolved.names]
    piece = Piece(list(group), conventions, progress, taken=conventions.taken)
    if previous is not None and not _begins(group, previous):
        for here, before in zip(progress, previous.progress, strict=True):
            here.tracks = before.tracks
        piece.own = False
    kept = [[replace(f) for f in of_size] for of_size in finished]
    courses = [(section, course) for section in group for course in section.courses]
    seen: Section | None = None
    for i, (section, course) in enumerate(courses):
        if section is not seen:
            seen = section
            for rule in section.rules:
                piece.conventions = piece.conventions.with_rule(rule)
        following = courses[i + 1][1] if i + 1 < len(courses) else None
        piece.lines.append(_line(section, course, piece, bench, kept, following))
    for of_size, new in zip(finished, kept, strict=True):
        of_size[:] = new
    return piece


def _begins(group: list[Section], previous: Piece) -> bool:
    """Whether a group of sections stands on its own rather than going on with the piece before."""
    track = previous.progress[0].tracks[0] if previous.progress else Track()
    if track.fastened or track.edge is None:
        return True
    first = next((c for s in group for c in s.courses), None)
    if first is None or isinstance(first.does, RepeatRows):
        return True
    return _founds_or_joins(first)


def _founds_or_joins(course: Course) -> bool:
    assert not isinstance(course.does, RepeatRows)
    return founds(course.does) or any(isinstance(s, JoinYarn) for s in course.does)


def _line(
    section: Section,
    course: Course,
    piece: Piece,
    bench: Bench,
    finished: list[list[Finished]],
    following: Course | None,
) -> Done:
    """Work one line of a piece: sew and mark, join at a seam, or work stitches."""
    if not isinstance(course.does, RepeatRows):
        _note_marks(course, piece)
        if any(isinstance(s, SeamTops | SeamSides) or _marks_edges(s) for s in course.does):
            return _finishing(section, course, piece, bench, finished)
        course = _at_seam(course, piece, finished)
    judged = judge(course, piece.progress, piece.conventions, bench, following)
    go_on(course, judged, piece.progress)
    piece.conventions = _throughout(course, piece.conventions)
    sides = tuple(here.tracks[0].side for here in piece.progress)
    return Done(section, course, judged, judged.troubles, sides)


def _marks_edges(step: object) -> bool:
    return isinstance(step, Mark) and step.rows is not None


def _note_marks(course: Course, piece: Piece) -> None:
    """Cutting the yarn in a line that also marks is still cutting it."""
    assert not isinstance(course.does, RepeatRows)
    if any(isinstance(s, FastenOff) and s.do for s in course.does):
        for here in piece.progress:
            here.tracks = tuple(replace(t, fastened=True) for t in here.tracks)


def _finishing(
    section: Section,
    course: Course,
    piece: Piece,
    bench: Bench,
    finished: list[list[Finished]],
) -> Done:
    assert not isinstance(course.does, RepeatRows)
    troubles: list[Trouble | None] = []
    for size, here in enumerate(piece.progress):
        setting = Setting(
            resolved=bench.resolved,
            size=size,
            conventions=piece.conventions,
            choices={},
            memory=bench.memory,
        )
        target = _current(piece, here) if here.rows else _latest(finished[size])
        found = finish(course.does, target, setting.value_of)
        if here.rows and target is not None:
            here.marked = target.marked
        troubles.append(found[0] if found else None)
    return Done(section, course, None, tuple(troubles), ("",) * len(troubles))


def _current(piece: Piece, here: Progress) -> Finished:
    ends = tuple(row_end(r.edge) for r in here.rows if r.edge is not None and r.edge.count)
    return Finished(piece.sections[0].title, here.tracks[0].edge, ends, here.marked)


def _latest(finished: Sequence[Finished]) -> Finished | None:
    return finished[-1] if finished else None


def _at_seam(course: Course, piece: Piece, finished: list[list[Finished]]) -> Course:
    """Put the yarn where a line joins at a seam, on an edge put together from open edges."""
    assert not isinstance(course.does, RepeatRows)
    join = next(
        (s for s in course.does if isinstance(s, JoinYarn) and isinstance(s.at, SeamPlace)), None
    )
    if join is None:
        return course
    assert isinstance(join.at, SeamPlace)
    for here, of_size in zip(piece.progress, finished, strict=True):
        here.tracks = (Track(edge=opened(join.at, of_size), founded=True),)
    piece.own = False
    return replace(course, does=tuple(s for s in course.does if s is not join))


def _throughout(course: Course, conventions: Conventions) -> Conventions:
    """Take over what a remark in a row says "here and throughout"."""
    if isinstance(course.does, RepeatRows):
        return conventions
    for step in course.does:
        if isinstance(step, Chain) and step.counts is not None and step.counts.throughout:
            value = step.count.value
            chains = value[0] if isinstance(value, tuple) and isinstance(value[0], int) else None
            rule = Rule("turning chain", counts=step.counts, chains=chains, place=step.place)
            conventions = conventions.with_rule(rule)
    return conventions


def _keep(
    piece: Piece, finished: list[list[Finished]], rows: list[dict[str, list[PlannedRow]]]
) -> None:
    """Keep what later pieces may refer to: named edges, and rows by number."""
    title = piece.sections[0].title.lower()
    for size, here in enumerate(piece.progress):
        planned = [
            PlannedRow(done.row.number, steps)
            for done, steps in zip(here.rows, here.steps, strict=True)
        ]
        if planned and title:
            rows[size][title] = planned
        if piece.own and any(r.edge is not None and r.edge.count for r in here.rows):
            finished[size].append(_current(piece, here))


# --------------------------------------------------------------------------- the proof


def _proof(pieces: Sequence[Piece], resolved: Resolved, *, shapes: bool) -> Proof:
    courses: list[WorkedCourse] = []
    used: set[str] = set()
    assumed: list[Assumed] = []
    outlines: list[PieceShape] = []
    for piece in pieces:
        courses += [
            worked_course(
                line.section, line.course, line.judged, line.troubles, line.sides, resolved.names
            )
            for line in piece.lines
        ]
        used.update(_used(row for here in piece.progress for row in here.rows))
        assumed += _assumed(piece)
        if shapes and piece.own and any(here.rows for here in piece.progress):
            section = piece.sections[0]
            outlines.append(
                PieceShape(
                    section.name,
                    section.title,
                    tuple(
                        shape_of(
                            [r.edge for r in here.rows],
                            [r.consumed for r in here.rows],
                            [r.side for r in here.rows],
                        )
                        for here in piece.progress
                    ),
                )
            )
    return Proof(
        sizes=resolved.names,
        courses=tuple(courses),
        pieces=tuple(outlines),
        used=frozenset(used),
        assumed=tuple(assumed),
    )


def _used(rows: Iterable[DoneRow]) -> Iterator[str]:
    seen: set[int] = set()
    for row in rows:
        if row.edge is not None and id(row.edge) not in seen and row.edge.known:
            seen.add(id(row.edge))
            yield from set(row.edge.kinds)


def _assumed(piece: Piece) -> Iterator[Assumed]:
    """Name each turning chain whose counting nobody said, once a piece."""
    seen: set[Switch] = set()
    for line in piece.lines:
        for switch in _asked(line):
            ways = piece.conventions.ways(switch)
            if switch in seen or len(ways) <= 1:
                continue
            seen.add(switch)
            place: Span = line.course.place if line.course.place != NOWHERE else NOWHERE
            yield Assumed(
                line.section.name,
                place,
                switch,
                piece.conventions.turning(switch),
                by_count=bool(piece.taken),
            )
