"""Turns a judged line into what a proof says of it."""

from collections.abc import Sequence

from stitchproof.base.records import replace
from stitchproof.fabric.attempt import Attempt
from stitchproof.fabric.judging import counted, mild
from stitchproof.fabric.known_lines import Done
from stitchproof.fabric.measured import steady
from stitchproof.fabric.pairs import Pair, pair_of, shaped_twice
from stitchproof.fabric.proof import CountLine, PerSize, WorkedCourse
from stitchproof.fabric.state import Judged, Outcome
from stitchproof.fabric.tally import in_stitches, stated_total
from stitchproof.fabric.trouble import Trouble
from stitchproof.language.tree import Course, Either, RepeatRows, Shape, Statement, Thing
from stitchproof.language.walk import eithers_in, settled


def worked_course(
    line: Done, sizes: tuple[str, ...], meant: tuple[bool | None, ...]
) -> WorkedCourse:
    """Say what a line came to in every size.

    Parameters
    ----------
    line : Done
        The line, judged.
    sizes : tuple of str
        (W,) names.
    meant : tuple of bool or None
        (W,) whether its stated count was meant, where that was wrong and a later line decided it.
    """
    course, judged = line.course, line.judged
    outcomes = judged.outcomes if judged is not None else ()
    absent = tuple(n for n, o in zip(sizes, outcomes, strict=False) if o.absent)
    known = {side for side, n in zip(line.sides, sizes, strict=True) if n not in absent}
    firsts = [None if o.absent else o.first for o in outcomes]
    taken = _taken(course, judged)
    return WorkedCourse(
        course=course if judged is None else _settled(course, judged),
        section=line.section.name,
        label=course.label.words,
        place=course.place,
        read=line.read,
        reading="; ".join(name for _, name in taken) or None,
        side=known.pop() or None if len(known) == 1 else None,
        worked=_worked(course, judged) if judged is not None else (None,) * len(sizes),
        stated=_stated(course, firsts),
        absent=absent,
        counts=_counts(course, judged, firsts),
        troubles=line.troubles,
        doubts=_doubts(judged),
        open=judged.open if judged is not None else (),
        taken=taken,
        units=_units(course, judged),
        rows=_rows(course, outcomes),
        pairs=_pairs(course, firsts),
        left=tuple(None if first is None else first.left for first in firsts),
        meant=meant,
    )


def _pairs(course: Course, firsts: Sequence[Attempt | None]) -> tuple[Pair | None, ...]:
    """Say how far from either end a row is shaped that is shaped twice."""
    steps = course.does
    if isinstance(steps, RepeatRows) or not shaped_twice(steps) or len(firsts) == 1:
        return ()
    return tuple(None if first is None else pair_of(steps, first.track.edge) for first in firsts)


def _rows(course: Course, outcomes: Sequence[Outcome]) -> tuple[int | None, ...]:
    """Count the rows of a line in each size; None where it goes on to a length or a count."""
    does = course.does
    endless = not isinstance(does, RepeatRows) and any(
        isinstance(s, Shape) and not s.phases for s in does
    )
    return tuple(
        None if endless or o.absent or o.open or o.first is None else len(o.first.rows)
        for o in outcomes
    )


def _settled(course: Course, judged: Judged) -> Course:
    if isinstance(course.does, RepeatRows) or not judged.choices:
        return course
    return replace(course, does=settled(course.does, judged.choices))


def _taken(course: Course, judged: Judged | None) -> tuple[tuple[Either, str], ...]:
    """Name the reading taken of each doubt in the words."""
    if judged is None or isinstance(course.does, RepeatRows) or not judged.choices:
        return ()
    return tuple(
        (doubt, doubt.names[taken])
        for doubt in eithers_in(course.does)
        if (taken := judged.choices.get(doubt, 0)) < len(doubt.names)
    )


def _worked(course: Course, judged: Judged) -> PerSize:
    """Give the stitches of each size; the way the author counts them, where all sizes fit it."""
    stated = course.stated
    one = in_stitches(stated) if stated is not None else None
    told = None  # which statement tells the stitches, in whichever way the author counts them
    if stated is not None and one is not None and one.noun.thing is Thing.STITCH:
        told = stated.statements.index(one)
    worked: list[int | None] = []
    for outcome, trouble in zip(judged.outcomes, judged.troubles, strict=True):
        first = outcome.first
        if outcome.absent or first is None or (outcome.open and not steady(course, first)):
            worked.append(None)
            continue
        count = first.worked
        if count is None or (trouble is not None and first.track.edge is None):
            worked.append(None)
            continue
        worked.append(count if told is None else counted(first, told, judged.ways[told]))
    return tuple(worked)


def _stated(course: Course, firsts: Sequence[Attempt | None]) -> PerSize | None:
    stated = course.stated
    if stated is None:
        return None
    totals = tuple(
        None if first is None else stated_total(stated, first.values) for first in firsts
    )
    return None if all(t is None for t in totals) else totals


def _counts(
    course: Course, judged: Judged | None, firsts: Sequence[Attempt | None]
) -> tuple[CountLine, ...]:
    if course.stated is None or judged is None:
        return ()
    return tuple(
        CountLine(
            statement.unit or "st",
            tuple(None if f is None else counted(f, i, judged.ways[i]) for f in firsts),
            tuple(None if f is None else f.values[i] for f in firsts),
        )
        for i, statement in enumerate(course.stated.statements)
    )


def _doubts(judged: Judged | None) -> tuple[Trouble, ...]:
    if judged is None:
        return ()
    return tuple(
        dict.fromkeys(
            t for o in judged.outcomes for a in o.attempts[:1] for t in a.troubles if mild(t)
        )
    )


def _units(course: Course, judged: Judged | None) -> tuple[Statement, ...]:
    """Give the statements whose unit nothing made, in sizes where the number fits."""
    if judged is None or course.stated is None:
        return ()
    out = []
    for i, statement in enumerate(course.stated.statements):
        firsts = [o.first for o in judged.outcomes if o.first is not None]
        known = [f for f in firsts if f.ways is not None]
        if known and all(f.ways is not None and not f.ways[i].made for f in known):
            out.append(statement)
    return tuple(out)
