"""Turns a judged line into what a proof says of it."""

from collections.abc import Sequence
from dataclasses import replace

from stitchproof.fabric.attempt import Attempt
from stitchproof.fabric.judging import counted, mild
from stitchproof.fabric.pairs import Pair, pair_of, shaped_twice
from stitchproof.fabric.piece import read_whole
from stitchproof.fabric.proof import CountLine, PerSize, WorkedCourse
from stitchproof.fabric.state import Judged, Outcome
from stitchproof.fabric.tally import in_stitches, stated_total
from stitchproof.fabric.trouble import Trouble
from stitchproof.language.tree import Course, Either, RepeatRows, Section, Shape, Statement, Thing
from stitchproof.language.walk import eithers_in, settled


def worked_course(
    section: Section,
    course: Course,
    judged: Judged | None,
    troubles: Sequence[Trouble | None],
    sides: Sequence[str],
    sizes: tuple[str, ...],
) -> WorkedCourse:
    """Say what a line came to in every size.

    Parameters
    ----------
    section, course
        Where it stands, and what it says.
    judged : Judged or None
        How it was worked; None for a line that makes no stitches.
    troubles : sequence of Trouble or None
        (W,) what is wrong with it.
    sides : sequence of str
        (W,) side that faced the maker.
    sizes : tuple of str
        (W,) names.
    """
    outcomes = judged.outcomes if judged is not None else ()
    absent = tuple(n for n, o in zip(sizes, outcomes, strict=False) if o.absent)
    known = {side for side, n in zip(sides, sizes, strict=True) if n not in absent}
    return WorkedCourse(
        course=course if judged is None else _settled(course, judged),
        section=section.name,
        label=course.label.words,
        place=course.place,
        read=read_whole(course),
        reading="; ".join(name for _, name in _taken(course, judged)) or None,
        side=known.pop() or None if len(known) == 1 else None,
        worked=_worked(course, judged) if judged is not None else (None,) * len(sizes),
        stated=_stated(course, outcomes),
        absent=absent,
        counts=_counts(course, judged),
        troubles=tuple(troubles),
        doubts=_doubts(judged),
        open=judged.open if judged is not None else (),
        taken=_taken(course, judged),
        units=_units(course, judged),
        rows=tuple(_rows(course, o) for o in outcomes),
        pairs=_pairs(course, outcomes),
        left=tuple(None if o.absent or o.first is None else o.first.left for o in outcomes),
    )


def _pairs(course: Course, outcomes: Sequence[Outcome]) -> tuple[Pair | None, ...]:
    """Say how far from either end a row is shaped that is shaped twice."""
    steps = course.does
    if isinstance(steps, RepeatRows) or not shaped_twice(steps) or len(outcomes) == 1:
        return ()
    return tuple(
        None if o.absent or o.first is None else pair_of(steps, o.first.track.edge)
        for o in outcomes
    )


def _rows(course: Course, outcome: Outcome) -> int | None:
    """Count the rows of a line in one size; None where it goes on to a length or a count."""
    if outcome.absent or outcome.first is None or outcome.open:
        return None
    does = course.does
    if not isinstance(does, RepeatRows):
        endless = any(isinstance(s, Shape) and not s.phases for s in does)
        if endless:
            return None
    return len(outcome.first.rows)


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
    one = in_stitches(course.stated) if course.stated is not None else None
    worked: list[int | None] = []
    for outcome, trouble in zip(judged.outcomes, judged.troubles, strict=True):
        first = outcome.first
        if (
            outcome.absent
            or first is None
            or (outcome.open and not _steady(first, ends_whole=_ends_whole(course)))
        ):
            worked.append(None)
            continue
        count = first.worked
        if count is None or (trouble is not None and first.track.edge is None):
            worked.append(None)
            continue
        if one is not None and course.stated is not None and one.noun.thing is Thing.STITCH:
            count = counted(
                first,
                course.stated.statements.index(one),
                judged.ways[course.stated.statements.index(one)],
            )
        worked.append(count)
    return tuple(worked)


def _steady(found: Attempt, *, ends_whole: bool) -> bool:
    """Whether rows worked to a length keep the count, however many there are."""
    counts = [row.edge.count if row.edge is not None else -1 for row in found.rows]
    if not counts:
        return False
    into = found.rows[0].consumed
    begun = into.count if into is not None else -1
    return set(counts) == {begun} or (ends_whole and counts[-1] == begun)


def _ends_whole(course: Course) -> bool:
    """Whether repeated rows end with the last of them, as the author says."""
    does = course.does
    return (
        isinstance(does, RepeatRows)
        and does.ending_row is not None
        and does.ending_row in (does.last, *does.listed[-1:])
    )


def _stated(course: Course, outcomes: Sequence[Outcome]) -> PerSize | None:
    if course.stated is None:
        return None
    totals = tuple(
        None if o.absent or o.first is None else stated_total(course.stated, o.first.values)
        for o in outcomes
    )
    return None if all(t is None for t in totals) else totals


def _counts(course: Course, judged: Judged | None) -> tuple[CountLine, ...]:
    if course.stated is None or judged is None:
        return ()
    return tuple(
        CountLine(
            statement.unit or "st",
            tuple(
                None if o.absent or o.first is None else counted(o.first, i, judged.ways[i])
                for o in judged.outcomes
            ),
            tuple(
                None if o.absent or o.first is None else o.first.values[i] for o in judged.outcomes
            ),
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
