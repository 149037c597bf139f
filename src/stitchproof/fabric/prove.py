"""Works a whole manuscript in every size: the one entry to the fabric.

Sections are gathered into pieces: a level-2 heading begins a piece on a new edge, deeper headings
go on with it, and a heading whose first line founds nothing goes on with a piece that was not
fastened off. A piece is worked with its conventions as stated; if lines fail, the switches that
nobody stated are tried once for the whole piece, and a setting is taken only if fewer sizes of
fewer lines fail with it, or the same ones and by their count alone.
"""

from collections.abc import Mapping, Sequence
from itertools import islice
from typing import Final, NamedTuple

from stitchproof.base.records import replace
from stitchproof.fabric.conclude import Piece, conclude
from stitchproof.fabric.conventions import Conventions, gathered
from stitchproof.fabric.for_later import RowsByTitle, current, keep_edges, keep_rows
from stitchproof.fabric.going_on import begins, counts_on, groups, takes_up
from stitchproof.fabric.known_lines import Done, Watch, go_on_as_before, known_line
from stitchproof.fabric.memory import Memory
from stitchproof.fabric.named import Finished, finish, opened
from stitchproof.fabric.open_switches import remarks, settings
from stitchproof.fabric.past import base_of, own_ends, row_ends
from stitchproof.fabric.piece import go_on, judge
from stitchproof.fabric.proof import Proof
from stitchproof.fabric.resumed import (
    along_sides,
    joined_again,
    joined_there,
    resumed,
)
from stitchproof.fabric.skipped_ahead import skipped_ahead
from stitchproof.fabric.state import Bench, Progress
from stitchproof.fabric.track import Setting, Track
from stitchproof.fabric.trouble import Trouble
from stitchproof.fabric.unchanged import (
    again,
    identity_of,
    keep,
    uses_named_edges,
    works_a_piece_again,
)
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.number import Resolved
from stitchproof.language.tree import (
    Course,
    JoinYarn,
    RepeatRows,
    Rule,
    SeamPlace,
    Section,
)

MOST_TRIES: Final = 24


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
    pieces = pieces_of(manuscript, resolved, memory, rows_per_mm)
    return conclude(pieces, resolved, shapes=shapes)


def pieces_of(
    manuscript: Manuscript,
    resolved: Resolved,
    memory: Memory,
    rows_per_mm: Mapping[str, float] | None = None,
) -> list[Piece]:
    """Work every piece of a manuscript in every chosen size, line by line."""
    courses = [course for section in manuscript.sections for course in section.courses]
    steps = [course.does for course in courses if not isinstance(course.does, RepeatRows)]
    deepest = max((memory.facts(one).reach for one in steps), default=0)
    sizes = len(resolved.names)
    numbers = (resolved.sizes, resolved.chosen, frozenset(resolved.formulas.items()))
    memory.begin(numbers, deepest)
    finished: list[list[Finished]] = [[] for _ in range(sizes)]
    rows: list[RowsByTitle] = [{} for _ in range(sizes)]
    wrong: list[set[int]] = [set() for _ in range(sizes)]
    pieces: list[Piece] = []
    previous: Piece | None = None
    again_elsewhere = any(map(works_a_piece_again, courses))
    edges_named = any(uses_named_edges(course, memory) for course in courses)
    for group in groups(manuscript.sections):
        bench = Bench(
            resolved=resolved,
            memory=memory,
            pieces=tuple(rows),
            rows_per_mm=(rows_per_mm or {}).get(group[0].name),
            wrong=tuple(frozenset(w) for w in wrong),
        )
        conventions = replace(gathered(manuscript.rules), beside=remarks(group))
        identity = None if counts_on(group) else identity_of(group, conventions, bench, numbers)
        piece = again(identity, group, bench, finished) if identity is not None else None
        if piece is None:
            begun = len(memory.meter.log), memory.meter.most
            piece = _best(group, conventions, bench, finished, previous)
            if identity is not None:
                keep(identity, piece, bench, begun)
        finished = piece.finished
        pieces.append(piece)
        for known, here in zip(wrong, piece.progress, strict=True):
            known.update(here.wrong)
        if again_elsewhere:
            keep_rows(piece, rows)
        if edges_named:
            keep_edges(piece, finished)
        previous = piece
    return pieces


# --------------------------------------------------------------------------- one piece


def _best(
    group: list[Section],
    conventions: Conventions,
    bench: Bench,
    finished: list[list[Finished]],
    previous: Piece | None,
) -> Piece:
    """Work a piece with its open switches set as few lines as possible fail."""
    taken_up = _on_edge_before(group, conventions, bench, finished, previous)
    if taken_up is not None:
        return taken_up
    best = _work(group, conventions, bench, finished, previous)
    if best.wrong == 0:
        return best
    meter = bench.memory.meter
    for tried in islice(settings(best, conventions), MOST_TRIES):
        with meter.trial():
            other = _work(group, tried, bench, finished, previous)
        if meter.out_of_trials:
            break
        if other.better_than(best):
            best = other
            if best.wrong == 0:
                break
    return best


def _on_edge_before(
    group: list[Section],
    conventions: Conventions,
    bench: Bench,
    finished: list[list[Finished]],
    previous: Piece | None,
) -> Piece | None:
    """Work a piece on the edge of the one before, if that is plausible and nothing then fails."""
    courses = [course for section in group for course in section.courses]
    if previous is None or not begins(group, previous):
        return None
    found = (take_up(courses, previous.progress) for take_up in _WAYS_TO_TAKE_UP)
    tracks = next(filter(None, found), ())
    several = any(here.sides for here in previous.progress)
    for sides in ((False, True) if several else (False,)) if tracks else ():
        with bench.memory.meter.trial():
            taken = TakenUp(tracks, sides)
            piece = _work(group, conventions, bench, finished, previous, taken)
        if piece.wrong == 0:
            return piece
    return None


_WAYS_TO_TAKE_UP: Final = (resumed, along_sides, joined_again)


class TakenUp(NamedTuple):
    """What a piece goes on with.

    Attributes
    ----------
    tracks : tuple of Track
        Where the work stands, one a size; empty for a piece that begins anew.
    sides : bool
        The row ends of all parts below are its edge, not only those of the last.
    """

    tracks: tuple[Track, ...] = ()
    sides: bool = False


def _work(
    group: list[Section],
    conventions: Conventions,
    bench: Bench,
    finished: list[list[Finished]],
    previous: Piece | None,
    taken: TakenUp | None = None,
) -> Piece:
    """Work a piece: on an edge of its own, or on what it takes up."""
    tracks, sides = taken or TakenUp()
    progress = [Progress(wrong=set(wrong)) for wrong in bench.wrong]
    piece = Piece(list(group), conventions, progress, taken=conventions.taken)
    goes_on_with = previous if tracks or (previous and not begins(group, previous)) else None
    if goes_on_with is not None:
        _go_on_with(goes_on_with, group, progress, sides=sides)
        piece.own = False
    if previous is not None and counts_on(group):
        for here, before in zip(progress, previous.progress, strict=True):
            here.by_number = dict(before.by_number)
    if tracks:
        piece.taken_up = True
        for here, track in zip(progress, tracks, strict=True):
            here.tracks = (track,)
    kept = [[replace(f) for f in of_size] for of_size in finished]
    courses = skipped_ahead([(section, c) for section in group for c in section.courses])
    seen: Section | None = None
    for i, (section, course) in enumerate(courses):
        if section is not seen:
            seen = section
            for here in progress:
                here.parts = (*here.parts, section.title.lower())
            for rule in section.rules:
                piece.conventions = piece.conventions.with_rule(rule)
        following = courses[i + 1][1] if i + 1 < len(courses) else None
        piece.lines.append(_line(section, course, piece, bench, kept, following))
    piece.finished = kept
    return piece


def _go_on_with(
    previous: Piece, group: list[Section], progress: list[Progress], *, sides: bool
) -> None:
    """Begin where the piece before ended; with new yarn at what it left, its own is done with."""
    joined = takes_up(group, previous)
    for here, before in zip(progress, previous.progress, strict=True):
        here.tracks = before.tracks
        if joined:
            here.tracks = tuple(replace(track, fastened=True) for track in before.tracks)
        here.behind, here.base = row_ends(before), base_of(before)
        here.sides = (*before.sides, *own_ends(before))
        if sides:
            here.behind = here.sides


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
        facts = bench.memory.facts(course.does)
        if facts.cuts:
            _note_cut(piece)
        if facts.sews:
            return _finishing(section, course, piece, bench, finished)
        if facts.at_seam:
            course = _at_seam(course, piece, finished)
        if piece.taken_up and not piece.lines:
            course = joined_there(course)
    known = known_line(course, piece.progress, piece.conventions, bench)
    if known is not None:
        go_on_as_before(known, course, piece.progress, bench)
        judged = known.judged
    else:
        watch = Watch.begin(course, piece.progress, bench)
        judged = judge(course, piece.progress, piece.conventions, bench, following)
        go_on(course, judged, piece.progress)
        known = watch.keep(course, judged, piece.progress, piece.conventions, bench)
    piece.conventions = _throughout(course, piece.conventions, bench)
    sides = tuple(here.tracks[0].side for here in piece.progress)
    return Done(
        section=section,
        course=course,
        judged=judged,
        troubles=judged.troubles,
        sides=sides,
        read=bench.memory.reads(course),
        known=known,
    )


def _note_cut(piece: Piece) -> None:
    """Cutting the yarn in a line that also marks is still cutting it."""
    for here in piece.progress:
        here.tracks = tuple(replace(t, fastened=True) for t in here.tracks)


def _finishing(
    section: Section,
    course: Course,
    piece: Piece,
    bench: Bench,
    finished: list[list[Finished]],
) -> Done:
    troubles = tuple(
        _finish_in_size(course, piece, bench, of_size, size)
        for size, of_size in enumerate(finished)
    )
    return Done(
        section=section,
        course=course,
        judged=None,
        troubles=troubles,
        sides=("",) * len(troubles),
        read=bench.memory.reads(course),
    )


def _finish_in_size(
    course: Course, piece: Piece, bench: Bench, finished: Sequence[Finished], size: int
) -> Trouble | None:
    assert not isinstance(course.does, RepeatRows)
    setting = Setting(
        resolved=bench.resolved,
        size=size,
        conventions=piece.conventions,
        choices={},
        memory=bench.memory,
    )
    here = piece.progress[size]
    target = current(piece, here) if here.rows else _latest(finished)
    found = finish(course.does, target, setting.value_of)
    if here.rows and target is not None:
        here.marked = target.marked
    return replace(found[0], place=course.at(found[0].place)) if found else None


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
    edges = [opened(join.at, of_size) for of_size in finished]
    if any(edges) or not piece.taken_up:
        for here, edge in zip(piece.progress, edges, strict=True):
            here.tracks = (Track(edge=edge, founded=True),)
    piece.own = False
    if not any(edges):  # sewn in words alone: what is worked there is known by its numbers
        named = replace(join, at=None, of="the seam")
        return replace(course, does=tuple(named if s is join else s for s in course.does))
    return replace(course, does=tuple(s for s in course.does if s is not join))


def _throughout(course: Course, conventions: Conventions, bench: Bench) -> Conventions:
    """Take over what a remark in a row says "here and throughout"."""
    if isinstance(course.does, RepeatRows):
        return conventions
    for step in bench.memory.facts(course.does).throughout:
        value = step.count.value
        chains = value[0] if isinstance(value, tuple) and isinstance(value[0], int) else None
        rule = Rule("turning chain", counts=step.counts, chains=chains, place=step.place)
        conventions = conventions.with_rule(rule)
    return conventions
