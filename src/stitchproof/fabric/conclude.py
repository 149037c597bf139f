"""From pieces as they were worked to the proof of the whole manuscript."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import field

from stitchproof.base.place import NOWHERE, Span
from stitchproof.base.records import dataclass
from stitchproof.fabric.attempt import DoneRow
from stitchproof.fabric.conventions import Conventions, Switch
from stitchproof.fabric.known_lines import Done, told_again
from stitchproof.fabric.named import Finished
from stitchproof.fabric.outline import makes_stitches, shape_of
from stitchproof.fabric.proof import Assumed, PieceShape, Proof, Shape, WorkedCourse
from stitchproof.fabric.report import worked_course
from stitchproof.fabric.spaces_counted import PLAIN, with_spaces
from stitchproof.fabric.state import Progress
from stitchproof.fabric.trouble import Failing
from stitchproof.language.number import Resolved
from stitchproof.language.tree import Counts, Section


@dataclass(slots=True)
class Piece:
    """A piece as it was worked: its lines, and where it stands in every size."""

    sections: list[Section]
    conventions: Conventions
    progress: list[Progress]
    lines: list[Done] = field(default_factory=list)
    own: bool = True  # begun on a foundation of its own, not on edges of others
    taken_up: bool = False  # begun on the piece before, because nothing of it then fails
    taken: Mapping[Switch, Counts] = field(default_factory=dict)
    finished: list[list[Finished]] = field(default_factory=list)  # (W,) marked and sewn by it
    moved: int = 0  # how far its lines stand from where they stood when they were worked
    told: list[WorkedCourse] = field(default_factory=list)  # once it was concluded
    used: frozenset[str] = frozenset()  # names of its stitches, once it was concluded

    @property
    def wrong(self) -> int:
        """In how many sizes of how many lines something is wrong."""
        return sum(t is not None for line in self.lines for t in line.troubles)

    def better_than(self, other: "Piece") -> bool:
        """Whether fewer fail than in another working, or the same lines fail by a count alone."""
        if self.wrong != other.wrong:
            return self.wrong < other.wrong
        remarked = _as_remarked(self)
        if remarked != _as_remarked(other):
            return remarked
        mine, theirs = _failings(self), _failings(other)
        return mine.keys() == theirs.keys() and sum(mine.values()) < sum(theirs.values())


def _as_remarked(piece: Piece) -> bool:
    """Whether every open chain counts as remarks beside like chains of the piece say."""
    conventions = piece.conventions
    return all(
        bool(conventions.turning(switch).stitch) is conventions.beside[switch[:2]]
        for switch in {s for line in piece.lines for s in asked_of(line)}
        if switch[:2] in conventions.beside
    )


def _failings(piece: Piece) -> dict[tuple[int, int], bool]:
    """Give line and size of all that is wrong, and whether it is more than a count."""
    return {
        (i, size): trouble.failing is not Failing.COUNT
        for i, line in enumerate(piece.lines)
        for size, trouble in enumerate(line.troubles)
        if trouble is not None
    }


def asked_of(line: Done) -> tuple[Switch, ...]:
    """Give the turning chains of a line whose counting nobody said beside them."""
    return line.judged.asked if line.judged is not None else ()


def conclude(pieces: Sequence[Piece], resolved: Resolved, *, shapes: bool) -> Proof:
    """Put together what all pieces tell; with their outlines when `shapes`."""
    courses: list[WorkedCourse] = []
    way = PLAIN
    used: set[str] = set()
    assumed: list[Assumed] = []
    outlines: list[PieceShape] = []
    for piece in pieces:
        piece.told = piece.told or [_told(line, piece, resolved) for line in piece.lines]
        told, way = with_spaces(piece.lines, piece.told, way)
        courses += told
        piece.used = piece.used or _used(row for here in piece.progress for row in here.rows)
        used |= piece.used
        assumed += _assumed(piece)
        if shapes and piece.own and any(here.rows for here in piece.progress):
            section = piece.sections[0]
            outlines.append(
                PieceShape(
                    section.name,
                    section.title,
                    tuple(_shape(here, section.title) for here in piece.progress),
                )
            )
    return Proof(
        sizes=resolved.names,
        courses=tuple(courses),
        pieces=tuple(outlines),
        used=frozenset(used),
        assumed=tuple(assumed),
    )


def _told(line: Done, piece: Piece, resolved: Resolved) -> WorkedCourse:
    known = line.known
    told = told_again(known, line.section, line.course) if known is not None else None
    if told is None:
        meant = tuple(here.meant.get(line.course.place) for here in piece.progress)
        told = worked_course(line, resolved.names, meant)
        if known is not None:
            known.told = told
    return told


def _shape(here: Progress, title: str) -> Shape | None:
    """Lay down the rows that made stitches; "Fasten off" on a line of its own is no row."""
    made: dict[int, bool] = {}  # by identity: rows worked again share their steps
    rows: list[DoneRow] = []
    for row in here.rows:
        steps = row.row.steps
        if id(steps) not in made:
            made[id(steps)] = makes_stitches(steps)
        if made[id(steps)] or row.edge is None:
            rows.append(row)
    return shape_of(rows, title)


def _used(rows: Iterable[DoneRow]) -> frozenset[str]:
    """Give the names of the stitches on the edges that were made."""
    edges = {row.edge for row in rows}  # each once: an edge is equal to itself alone
    return frozenset().union(*(edge.names for edge in edges if edge is not None and edge.known))


def _assumed(piece: Piece) -> Iterator[Assumed]:
    """Name each turning chain whose counting nobody said, once a piece."""
    seen: set[Switch] = set()
    for line in piece.lines:
        for switch in asked_of(line):
            if switch in seen:
                continue
            seen.add(switch)
            said, taken = piece.conventions.said(switch[1]), piece.conventions.turning(switch)
            as_said = said is not None and said.stitch == taken.stitch
            if as_said or len(piece.conventions.ways(switch)) <= 1:
                continue
            place: Span = line.course.place if line.course.place != NOWHERE else NOWHERE
            yield Assumed(
                line.section.name,
                place,
                switch,
                taken,
                by_count=bool(piece.taken),
            )
