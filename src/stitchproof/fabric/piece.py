"""A piece in all sizes: line after line, readings settled, mistakes survived.

After a wrong line the work goes on twice, on the edge as worked and on the edge as stated. A later
line is wrong only if it fails on both; the first that fits only one of them decides which the
author meant. A line that could not be read leaves a known edge only if it states a count.
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from itertools import islice, product
from typing import Final, NamedTuple

from stitchproof.base.records import replace
from stitchproof.fabric.attempt import Attempt, as_stated, attempt, limit_of, stated_values
from stitchproof.fabric.conventions import Conventions
from stitchproof.fabric.edge import Edge
from stitchproof.fabric.equal_sizes import EqualSizes
from stitchproof.fabric.judging import trouble_of, ways_of, wrong_of
from stitchproof.fabric.measured import shapes, until_stated
from stitchproof.fabric.one_row import one_row
from stitchproof.fabric.over_rows import MOST_ROWS
from stitchproof.fabric.past import base_of, numbered, past_of, row_ends
from stitchproof.fabric.planned import Plan, PlannedRow
from stitchproof.fabric.rest import LOST
from stitchproof.fabric.rows import plan
from stitchproof.fabric.state import Bench, Judged, Outcome, Progress
from stitchproof.fabric.tally import stitches
from stitchproof.fabric.track import Setting, Track, placed
from stitchproof.fabric.trouble import Unknown
from stitchproof.language.tree import (
    Chain,
    Course,
    Either,
    Group,
    Join,
    Make,
    Repeat,
    RepeatRows,
    Step,
    Unread,
)
from stitchproof.language.walk import nodes, settled

MOST_COMBINATIONS: Final = 32


def judge(
    course: Course,
    progress: Sequence[Progress],
    conventions: Conventions,
    bench: Bench,
    following: Course | None = None,
) -> Judged:
    """Work a line in every size with each of its readings, and take the one that fits best.

    A reading fits best that leaves the fewest sizes wrong; among equals, the one with which the
    following line goes on; then the likeliest, which stands first.
    """
    best: Judged | None = None
    lowest = (0, 0)
    ties = 0
    doubts = _doubts(course, bench)
    combinations = list(_combinations(doubts))
    meter = bench.memory.meter
    for choices in combinations:
        with meter.trial(best is not None):
            judged = _judge(course, progress, conventions, bench, choices)
        if best is not None and meter.out_of_trials:
            break
        wrong = sum(t is not None for t in judged.troubles)
        ahead = 0
        if len(combinations) > 1 and following is not None and not wrong and course.stated is None:
            with meter.trial():
                ahead = _wrong_after(following, judged, conventions, bench, progress)
        if best is None or (wrong, ahead) < lowest:
            best, lowest, ties = judged, (wrong, ahead), 0
            if (wrong, ahead) == (0, 0) and (course.stated is not None or len(combinations) == 1):
                break
        elif (wrong, ahead) == lowest:
            ties += 1
    assert best is not None
    return replace(best, open=doubts) if ties and lowest == (0, 0) else best


def _doubts(course: Course, bench: Bench) -> tuple[Either, ...]:
    return () if isinstance(course.does, RepeatRows) else bench.memory.facts(course.does).doubts


def _combinations(doubts: tuple[Either, ...]) -> Iterator[dict[Either, int]]:
    ways = product(*(range(len(d.readings)) for d in doubts))
    for way in islice(ways, MOST_COMBINATIONS):
        yield dict(zip(doubts, way, strict=True))


def _wrong_after(
    following: Course,
    judged: Judged,
    conventions: Conventions,
    bench: Bench,
    progress: Sequence[Progress],
) -> int:
    """Count the sizes in which the next line fails after this one."""
    after = []
    for here, outcome in zip(progress, judged.outcomes, strict=True):
        first = outcome.first
        track = first.track if first is not None else here.tracks[0]
        then = Progress((track,), here.rows, dict(here.by_number), list(here.planned), here.marked)
        after.append(then)
    choices = next(_combinations(_doubts(following, bench)))
    return sum(
        t is not None for t in _judge(following, after, conventions, bench, choices).troubles
    )


class _Line(NamedTuple):
    """A line with one choice of its readings, to be worked in every size."""

    course: Course
    conventions: Conventions
    bench: Bench
    choices: Mapping[Either, int]
    laid: Plan | None  # its rows, where they are the same in every size


def _judge(
    course: Course,
    progress: Sequence[Progress],
    conventions: Conventions,
    bench: Bench,
    choices: Mapping[Either, int],
) -> Judged:
    equal = EqualSizes(course, bench)
    line = _Line(course, conventions, bench, choices, one_row(course))
    outcomes = tuple(
        equal.outcome(here, size, partial(_in_size, line, here, size))
        for size, here in enumerate(progress)
    )
    ways = ways_of(course, outcomes)
    troubles = tuple(trouble_of(course, outcome, ways) for outcome in outcomes)
    asked = {found.asked for outcome in outcomes for found in outcome.attempts}
    return Judged(
        outcomes=outcomes,
        choices=choices,
        ways=ways,
        troubles=troubles,
        asked=tuple(sorted(frozenset().union(*asked))),
    )


def _in_size(line: _Line, here: Progress, size: int) -> Outcome:
    course, conventions, bench, choices, laid = line
    names = bench.resolved.names
    elsewhere = bool(course.only) and names[size] not in course.only
    if elsewhere and set(course.only) <= set(bench.resolved.sizes):
        return Outcome(absent=True)
    if bench.memory.meter.stopped is not None:
        return _stopped(course, conventions, bench, choices, size)
    facts = None if isinstance(course.does, RepeatRows) else bench.memory.facts(course.does)
    along = facts is not None and facts.along
    setting = Setting(
        resolved=bench.resolved,
        size=size,
        conventions=conventions,
        choices=choices,
        memory=bench.memory,
        ends=row_ends(here) if along else (),
        base=base_of(here) if along else 0,
        earlier=numbered(here) if facts is not None and facts.elsewhere else (),
        again=facts is None,
    )
    if elsewhere:  # for sizes that the pattern does not have: nobody knows whom it is for
        (lost,) = _unplanned(course, setting).attempts
        track = replace(here.tracks[0], edge=None, founded=True)
        return Outcome(attempts=(lost._replace(track=track, values=(None,) * len(lost.values)),))
    past = None if facts is not None else past_of(here, bench, size)
    try:
        laid = laid or plan(course, past, setting.value_of)
    except Unknown:
        return _unplanned(course, setting)
    if laid.absent:
        return Outcome(absent=True)
    laid = _until_count(course, laid, here.tracks[0], setting)
    laid = until_stated(course, laid, here.tracks[0], setting)
    if not laid.rows:
        return _unplanned(course, setting, laid)
    return Outcome(
        attempts=tuple(attempt(course, laid.rows, t, setting) for t in here.tracks),
        troubles=laid.troubles,
        open=laid.open,
        echo=any(row.words in here.wrong for row in laid.rows),
        numbers=laid.numbers,
    )


def _stopped(
    course: Course,
    conventions: Conventions,
    bench: Bench,
    choices: Mapping[Either, int],
    size: int,
) -> Outcome:
    """Give the outcome of a line at or after which nothing is worked any more."""
    setting = Setting(
        resolved=bench.resolved,
        size=size,
        conventions=conventions,
        choices=choices,
        memory=bench.memory,
    )
    lost = _unplanned(course, setting)
    at_limit = bench.memory.meter.stopped is course
    return lost._replace(troubles=(limit_of(course),)) if at_limit else lost


def _until_count(course: Course, laid: Plan, track: Track, setting: Setting) -> Plan:
    """Repeat rows until the count is reached that the author names: "until 12 sts rem"."""
    does = course.does
    if not isinstance(does, RepeatRows) or does.until_count is None or laid.numbers:
        return laid
    if track.edge is None or not laid.rows:
        return laid._replace(open=True)
    try:
        wanted = setting.value_of(does.until_count)
    except Unknown:
        return laid._replace(open=True)
    begun: int | None = stitches(track.edge, setting.conventions)
    if laid.first:
        begun = attempt(course, laid.first, track, setting).worked
    once = attempt(course, (*laid.first, *laid.rows), track, setting).worked
    if wanted is None or once is None or begun is None:
        return laid._replace(open=True)
    by = once - begun
    times = (wanted - begun) // by if by else 0
    if times < 1 or times * len(laid.rows) > MOST_ROWS:
        return laid._replace(open=True)
    return laid._replace(rows=(*laid.first, *laid.rows * times), open=False)


def _unplanned(course: Course, setting: Setting, laid: Plan | None = None) -> Outcome:
    """Give the outcome of a line whose rows nobody can tell."""
    lost = Attempt(
        track=Track(founded=True),
        rows=(),
        troubles=(),
        ways=None,
        values=stated_values(course.stated, setting),
        before=0,
        worked=None,
    )
    if laid is None:
        return Outcome(attempts=(lost,))
    return Outcome(attempts=(lost,), troubles=laid.troubles, numbers=laid.numbers)


# --------------------------------------------------------------------------- going on


def go_on(course: Course, judged: Judged, progress: Sequence[Progress]) -> None:
    """Take over what a line came to, in every size."""
    for here, outcome, trouble in zip(progress, judged.outcomes, judged.troubles, strict=True):
        if outcome.absent or not outcome.attempts:
            continue
        if trouble is None and not outcome.echo and len(outcome.attempts) == 1:
            right = list(outcome.attempts)
        else:
            right = [a for a in outcome.attempts if wrong_of(course, a, judged.ways) is None]
        _decide(here, outcome, right)
        if course.stated is not None and any(a.ways for a in right):
            right = [a for a in right if a.ways]
        kept = right or list(outcome.attempts[:1])
        found = kept[0]
        _record(here, found, judged.choices)
        _note_failing(course, here, outcome, failed=not right)
        tracks = [a.track for a in kept]
        if outcome.open and course.stated is None and shapes(found):
            tracks = [placed(found.track, None)]
        elif not right or outcome.troubles or found.track.edge is None:
            tracks = _both_ways(course, found)
            if found.left and len(tracks) > 1:
                tracks[1] = replace(tracks[1], rest=LOST)
        here.tracks = _distinct(tracks)
        if not right and len(here.tracks) > 1:
            here.doubted = course.place


def _decide(here: Progress, outcome: Outcome, right: Sequence[Attempt]) -> None:
    """Take the first line that fits the work or the stated count alone for what was meant."""
    if here.doubted is None or len(outcome.attempts) < 2:  # noqa: PLR2004 - as worked, as stated
        return
    worked, stated = outcome.attempts
    if stated.ways is None and worked in right and worked.ways:
        here.meant[here.doubted] = False
    elif len(right) == 1:
        here.meant[here.doubted] = worked not in right
    if here.doubted in here.meant or not right:
        here.doubted = None


def _record(here: Progress, found: Attempt, choices: Mapping[Either, int]) -> None:
    rows = found.rows
    if choices:
        rows = tuple(
            done._replace(row=replace(done.row, steps=settled(done.row.steps, choices)))
            for done in rows
        )
    here.take(rows)


def _note_failing(course: Course, here: Progress, outcome: Outcome, *, failed: bool) -> None:
    """Keep what later lines must not say again."""
    found = outcome.first
    assert found is not None
    if failed and not isinstance(course.does, RepeatRows):
        ago = len(here.planned) - len(found.rows)
        here.wrong.update(row.words for row in here.planned[ago:])
    if not found.rows:
        lost = PlannedRow(None, (Unread("", course.label.place),), course.place.start)
        here.by_number.update((n, lost) for n in outcome.numbers if n > 0)
        here.planned.append(lost)
    if outcome.open or not found.rows or outcome.troubles:
        here.rows_unsure = here.rows_unsure or bool(here.rows)


def _both_ways(course: Course, found: Attempt) -> list[Track]:
    """Go on with the edge as worked and the edge as stated."""
    track = found.track
    if course.stated is None:
        return [track] if track.edge is None else [track, placed(track, None)]
    ring = _closes(course) or course.label.round
    said = as_stated(course.stated, found, spaces=_makes_spaces(course), ring=ring)
    if said is None or said is track.edge:
        # what is stated cannot be laid down: stay quiet until the next count that can
        return [track] if track.edge is None else [track, placed(track, None)]
    if track.edge is None:
        return [placed(track, said)]
    return [track, placed(track, said)]


def _closes(course: Course) -> bool:
    """Whether a row joins its end to its beginning, though not all of it is read."""
    steps = course.does
    return not isinstance(steps, RepeatRows) and any(isinstance(s, Join) and s.do for s in steps)


def _makes_spaces(course: Course) -> bool:
    """Whether a row makes chains between its stitches."""
    if isinstance(course.does, RepeatRows):
        return False
    made = False
    for step in course.does:
        if isinstance(step, Group | Repeat) and any(isinstance(n, Chain) for n in nodes(step)):
            return True
        if made and isinstance(step, Chain):
            return True
        made = made or isinstance(step, Group | Repeat) or _stands(step)
    return False


def _stands(step: Step) -> bool:
    return isinstance(step, Make) and step.stitch.kind != "sl_st"


def _distinct(tracks: Sequence[Track]) -> tuple[Track, ...]:
    first, *rest = tracks
    for other in rest:
        if not (_alike(first.edge, other.edge) and _alike(_left(first), _left(other))):
            return (first, other)
    return (first,)


def _alike(one: Edge | None, other: Edge | None) -> bool:
    if one is None or other is None:
        return one is other
    return one is other or one.digest == other.digest


def _left(track: Track) -> Edge | None:
    return track.rest[0] if track.rest is not None else None
