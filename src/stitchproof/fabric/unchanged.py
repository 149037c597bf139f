"""Pieces that were worked before and have not changed since: only their lines may stand elsewhere.

A piece is kept when nothing in it fails and when it depends on no other piece: it begins on a
foundation of its own, works no rows of another piece, and sews nothing. It is known again by its
lines, by how far they stand apart, and by all else that decides what they come to.
"""

from collections.abc import Hashable, Iterator, Sequence

from stitchproof.base.records import dataclass, replace
from stitchproof.fabric.conclude import Piece
from stitchproof.fabric.conventions import Conventions
from stitchproof.fabric.founding import founds
from stitchproof.fabric.known_lines import Done
from stitchproof.fabric.memory import Memory
from stitchproof.fabric.meter import Metered
from stitchproof.fabric.named import Finished
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.fabric.state import Bench
from stitchproof.language.tree import (
    Course,
    Label,
    RepeatRows,
    Section,
)


@dataclass(frozen=True, slots=True)
class KeptPiece:
    """A piece, and what working it took."""

    piece: Piece
    metered: tuple[Metered, ...]
    most: int  # that it may be counted for


def identity_of(
    group: Sequence[Section], conventions: Conventions, bench: Bench, numbers: Hashable
) -> Hashable | None:
    """Say what decides what a piece comes to; None when another piece does.

    Parameters
    ----------
    group : sequence of Section
        The piece as it was read.
    conventions : Conventions
        What holds before it.
    bench : Bench
        What it is worked with.
    numbers : hashable
        Stands for what all numbers come to.
    """
    lines = [course for section in group for course in section.courses]
    if not lines or isinstance(lines[0].does, RepeatRows) or not founds(lines[0].does):
        return None
    if any(works_a_piece_again(one) or uses_named_edges(one, bench.memory) for one in lines):
        return None
    start = lines[0].place.start
    return (
        numbers,
        conventions.key,
        bench.memory.deepest,
        bench.rows_per_mm,
        tuple((s.name, s.level, s.title, s.copies, s.rules, len(s.courses)) for s in group),
        # what was read once is one object, and kept with the piece
        tuple(
            (
                *(id(c.does), id(c.stated), _named(c.label), c.only),
                *(c.place.start - start, c.place.end - start),
            )
            for c in lines
        ),
    )


def _named(label: Label) -> Hashable:
    """Tell a label from others; one that a line has by its first words is made at each reading."""
    return label if label.first is None else id(label)


def works_a_piece_again(course: Course) -> bool:
    """Whether a line works rows of another piece."""
    return isinstance(course.does, RepeatRows) and bool(course.does.piece)


def uses_named_edges(course: Course, memory: Memory) -> bool:
    """Whether a line marks or sews edges of finished pieces, or works along what was sewn."""
    if isinstance(course.does, RepeatRows):
        return False
    facts = memory.facts(course.does)
    return facts.sews or facts.at_seam


def again(
    identity: Hashable, group: Sequence[Section], bench: Bench, finished: list[list[Finished]]
) -> Piece | None:
    """Give a piece that was worked before, its lines where they stand now."""
    kept = bench.memory.kept_before.get(identity)
    if kept is None:
        return None
    assert isinstance(kept, KeptPiece)
    meter = bench.memory.meter
    if not meter.allows(kept.most):
        return None
    meter.repeat(kept.metered, kept.most)
    piece = kept.piece
    lines = list(_moved(piece.lines, group, bench.memory))
    here = Piece(
        list(group),
        piece.conventions,
        piece.progress,
        lines=lines,
        taken=piece.taken,
        finished=[list(of_size) for of_size in finished],
        moved=piece.moved + lines[0].course.place.start - piece.lines[0].course.place.start,
        told=[_told_at(told, line) for told, line in zip(piece.told, lines, strict=False)],
        used=piece.used,
    )
    bench.memory.kept[identity] = KeptPiece(here, kept.metered, kept.most)
    return here


def _moved(lines: Sequence[Done], group: Sequence[Section], memory: Memory) -> Iterator[Done]:
    places = ((section, course) for section in group for course in section.courses)
    for line, (section, course) in zip(lines, places, strict=True):
        if line.known is not None:
            memory.lines[line.known.key] = line.known
        yield replace(line, section=section, course=course)


def _told_at(told: WorkedCourse, line: Done) -> WorkedCourse:
    place = line.course.place
    if place == told.place:
        return told
    same = told.course.does is line.course.does  # its readings, if it has any, were not settled
    course = line.course if same else replace(told.course, place=place)
    return replace(told, course=course, place=place)


def keep(identity: Hashable, piece: Piece, bench: Bench, begun: tuple[int, int]) -> None:
    """Keep a piece in which nothing fails.

    Parameters
    ----------
    identity : hashable
        What it is known by.
    piece : Piece
        The piece.
    bench : Bench
        What it was worked with.
    begun : tuple of int
        How many rows were noted before it, and the most that they may be counted for.
    """
    judged = [line.judged for line in piece.lines if line.judged is not None]
    fails = any(
        attempt.troubles
        for one in judged
        for outcome in one.outcomes
        for attempt in outcome.attempts
    )
    if piece.wrong == 0 and not fails and bench.memory.meter.stopped is None:
        rows, most = begun
        metered = tuple(bench.memory.meter.log[rows:])
        bench.memory.kept[identity] = KeptPiece(piece, metered, bench.memory.meter.most - most)
