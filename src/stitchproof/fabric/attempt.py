"""One line tried in one size: its rows worked, its count held against what it says."""

from collections.abc import Sequence
from dataclasses import field
from functools import partial
from typing import Final, NamedTuple, Protocol

from stitchproof.base.records import dataclass, replace
from stitchproof.fabric.conventions import Switch
from stitchproof.fabric.edge import Edge, supposed
from stitchproof.fabric.hand import MOST_ANCHORS, Move
from stitchproof.fabric.in_turn import is_unnamed
from stitchproof.fabric.meter import MOST_WORK
from stitchproof.fabric.planned import PlannedRow
from stitchproof.fabric.quiet import as_meant, begins_short, of_a_guess, of_a_part
from stitchproof.fabric.row_counts import wrong_rows
from stitchproof.fabric.tally import (
    SCALLOPS,
    Beside,
    Ways,
    stands_alone,
    stated_total,
    stitches,
    ways_to_count,
)
from stitchproof.fabric.track import Setting, Track, Went, advance, placed
from stitchproof.fabric.trouble import Failing, Trouble, Unknown
from stitchproof.fabric.work import Made
from stitchproof.language.tree import (
    Course,
    Mark,
    Remark,
    Skip,
    Stated,
    Statement,
    Steps,
    Thing,
)

_NOTHING_ASKED: Final = frozenset[Switch]()


class DoneRow(NamedTuple):
    """A row that was worked: its number, its edge, and the edge it was worked into.

    Of rows shaped by a schedule, every one has the edge after the last of them, and in `moves` what
    it does to its ends itself; None for any other row, and where that is not told.
    """

    row: PlannedRow
    edge: Edge | None
    consumed: Edge | None
    side: str
    moves: tuple[Move, ...] | None = None


class Attempt(NamedTuple):
    """What a line comes to on one track.

    Attributes
    ----------
    track : Track
        Where the yarn is after it.
    rows : tuple of DoneRow
        The rows worked.
    troubles : tuple of Trouble
        What failed on the way; counts are not in them.
    ways : tuple of Ways, or None
        For each statement the fair ways to count it; None when the edge is not known.
    values : tuple of int or None
        For each statement its number.
    before : int
        Stitches before the last row.
    worked : int or None
        Stitches on the live edge.
    left : int
        Stitches below that the last row leaves unworked, as it says.
    asked : frozenset of Switch
        Turning chains whose counting nobody said beside them.
    between : tuple of Trouble
        Counts told for rows before the last that are wrong.
    """

    track: Track
    rows: tuple[DoneRow, ...]
    troubles: tuple[Trouble, ...]
    ways: tuple[Ways, ...] | None
    values: tuple[int | None, ...]
    before: int
    worked: int | None
    left: int = 0
    asked: frozenset[Switch] = frozenset()
    between: tuple[Trouble, ...] = ()


def attempt(course: Course, rows: Sequence[PlannedRow], track: Track, setting: Setting) -> Attempt:
    """Work the rows of a line, one after another, and count what is on the edge then."""
    done: list[DoneRow] = []
    asked: set[Switch] = set()
    troubles: list[Trouble] = []
    on, begun = track.edge, track.edge  # on which the first and the last row are worked
    parts = _all_parts(rows, course.stated, setting)
    told = course.stated is not None and setting.memory.units(course.stated).totals
    meter = setting.memory.meter
    work = _work(course, setting, told=told, single=len(parts) == 1)
    for i, (row, steps, whole) in enumerate(parts):
        if meter.over:
            meter.stopped = course
            troubles.append(limit_of(course))
            track = placed(track, None)
            break
        if i == 0 or parts[i - 1][2]:
            begun = track.edge
        side = "" if i else course.label.side
        went = _of_row(work(track, steps, side=side, first=row.number == 1), track, row)
        made, track, consumed = as_meant(went, track, row, steps) if went.made.troubles else went
        meter.row(made.edge, consumed)
        asked.update(made.asked)
        if made.troubles:
            there = (replace(t, place=t.place.shifted(row.line)) for t in made.troubles)
            troubles += [t for t in dict.fromkeys(there) if t not in troubles]
        if not made.moved or not done:
            number = row.number if whole or made.moved else None
            planned = row if number == row.number else PlannedRow(None, row.steps, row.line)
            one = DoneRow(planned, made.edge, consumed, track.side)
            single = made.moves is None and made.rows == planned.covers == 1
            done += (one,) if single else _in_rows(one, made)
    if troubles and is_unnamed(course):
        troubles, track = of_a_guess(troubles), placed(track, None)
    before, first = (stitches(e, setting.conventions) if e else 0 for e in (begun, on))
    ways = _ways(course.stated, track, (before, first), setting) if _counts(rows, parts) else None
    values = stated_values(course.stated, setting)
    kept = troubles
    if troubles:
        kept = of_a_part(troubles, rows, told=told, agrees=_agrees(ways, values))
    if not track.short and begins_short(rows, troubles, kept):
        track = replace(track, short=True)
    return Attempt(
        track=track,
        rows=tuple(done),
        troubles=tuple(kept),
        ways=ways,
        values=values,
        before=before,
        worked=stitches(track.edge, setting.conventions) if track.edge is not None else None,
        left=_left(track, done),
        asked=frozenset(asked) if asked else _NOTHING_ASKED,
        between=_between(course.stated, done, setting),
    )


def _between(
    stated: Stated | None, done: Sequence[DoneRow], setting: Setting
) -> tuple[Trouble, ...]:
    """Give the counts told for rows before the last that are wrong."""
    if stated is None or not stated.rowwise:
        return ()
    return wrong_rows(stated, [(row.edge, row.consumed) for row in done], setting)


def _ways(
    stated: Stated | None, track: Track, before: tuple[int, int], setting: Setting
) -> tuple[Ways, ...] | None:
    """Give the fair ways to count each statement; None when the edge is not known."""
    edge = track.edge
    if edge is None or stated is None:
        return None if edge is None else ()
    statements = stated.statements
    known = setting.memory.units(stated)
    beside = Beside(*before, _ahead(track, setting), alone=known.alone, held=known.held)
    ways = tuple(ways_to_count(edge, s, beside, setting.conventions) for s in statements)
    if all(s.each or (way.numbers and way.sure) for way, s in zip(ways, statements, strict=True)):
        return ways
    # what one unit holds is not known, so nothing that it may hold can be counted apart
    open_ = [s.noun.kind for way, s in zip(ways, statements, strict=True) if not way.sure]
    fans = all(kind in SCALLOPS for kind in open_)
    return tuple(
        Ways((), made=way.made)
        if s.noun.thing is Thing.KIND and not (fans and stands_alone(edge, s.noun.kind))
        else way
        for way, s in zip(ways, statements, strict=True)
    )


class _Work(Protocol):
    """Works one row from where the yarn is."""

    def __call__(self, track: Track, steps: Steps, *, side: str, first: bool) -> Went:
        """Give what it comes to."""


def _work(course: Course, setting: Setting, *, told: bool, single: bool) -> _Work:
    """Choose how to work the rows of a line: several of them may come again."""
    alone = told and single
    work = partial(advance, says_round=course.label.round, told=alone, setting=setting)
    return work if single else _Gone(work).on


def _of_row(went: Went, before: Track, row: PlannedRow) -> Went:
    """Note of which row that is which a row has left unworked."""
    rest = went.track.rest
    if rest is None or rest is before.rest or not row.number:
        return went
    return went._replace(track=replace(went.track, rest=rest._replace(row=row.number - 1)))


@dataclass(slots=True)
class _Gone:
    """Rows of a line that were worked: again they come to the same on equal edges."""

    work: _Work
    equal: dict[tuple[int, str, Track, bool], Went] = field(default_factory=dict)
    same: dict[tuple[int, str, int, bool], tuple[Track, Went]] = field(default_factory=dict)

    def on(self, track: Track, steps: Steps, *, side: str, first: bool) -> Went:
        """Work a row from where the yarn is, unless it was worked from there before."""
        here = (id(steps), side, id(track), first)
        known = self.same.get(here)
        if known is not None:
            return known[1]
        step = (id(steps), side, track, first)
        went = self.equal.get(step)
        if went is None:
            went = self.equal[step] = self.work(track, steps, side=side, first=first)
        self.same[here] = track, went
        return went


def _in_rows(one: DoneRow, made: Made) -> Sequence[DoneRow]:
    """Give the rows that a course comes to: several where it shapes by a schedule."""
    rows = max(made.rows, one.row.covers, 1)
    if made.moves is None:
        return [one] * rows
    by_row: dict[int, tuple[Move, ...]] = {}
    for move in made.moves:
        by_row[move.row] = (*by_row.get(move.row, ()), move)
    return [one._replace(moves=by_row.get(row, ())) for row in range(1, rows + 1)]


def _all_parts(
    rows: Sequence[PlannedRow], stated: Stated | None, setting: Setting
) -> list[tuple[PlannedRow, Steps, bool]]:
    """Part rows where the work turns: each part with its row, and whether it is the last of it."""
    parts: list[tuple[PlannedRow, Steps, bool]] = []
    known: dict[int, tuple[Steps, ...]] = {}  # by identity of steps: rows come again
    for row in rows:
        of_row = known.get(id(row.steps))
        if of_row is None:
            of_row = known[id(row.steps)] = _parts(row.steps, stated, setting)
        parts += [(row, part, part is of_row[-1]) for part in of_row]
    return parts


def _parts(steps: Steps, stated: Stated | None, setting: Setting) -> tuple[Steps, ...]:
    """Part a row where the work turns; stitches spread evenly are as many as the line states."""
    facts = setting.memory.facts(steps)
    if stated is None or not facts.spread:
        return facts.parts
    return setting.memory.facts(setting.memory.told(steps, stated)).parts


def _left(track: Track, done: Sequence[DoneRow]) -> int:
    """Count the stitches that the last row leaves of the edge it was worked into."""
    if track.rest is None or not done or track.rest[0] is not done[-1].consumed:
        return 0
    edge, start = track.rest.edge, track.rest.start
    return edge.stitches_between(start, len(edge)) if edge is not None else 0


def _agrees(ways: Sequence[Ways] | None, values: Sequence[int | None]) -> bool:
    """Whether every count that is stated is one that the edge has."""
    return ways is not None and all(
        value in way.numbers for way, value in zip(ways, values, strict=True)
    )


def limit_of(course: Course) -> Trouble:
    """Say that a manuscript cannot be worked beyond a line."""
    return Trouble(Failing.LIMIT, course.place, MOST_WORK, MOST_WORK, what="stitches in all")


def _ahead(track: Track, setting: Setting) -> int:
    if track.ahead is None:
        return 0
    try:
        return setting.value_of(track.ahead.count) or 0
    except Unknown:
        return 0


def stated_values(stated: Stated | None, setting: Setting) -> tuple[int | None, ...]:
    """Give the number of each statement in this size; None where it has none."""
    if stated is None:
        return ()
    return tuple(_value(s, setting) for s in stated.statements)


def _value(statement: Statement, setting: Setting) -> int | None:
    try:
        return setting.value_of(statement.number)
    except Unknown:
        return None


def as_stated(stated: Stated, found: Attempt, *, spaces: bool, ring: bool) -> Edge | None:
    """Give the edge the author believes in: the made one cut or padded to the stated count.

    None when the statement does not say enough to know it; `spaces` tells that the row makes some,
    `ring` that its words close a round.
    """
    values, made = found.values, found.track.edge
    total = stated_total(stated, values)
    if total is None or not 0 < total <= MOST_ANCHORS or None in values:
        return None
    if (made is None and spaces) or (
        made is not None and ("C" in made.roles or len(made.made) > 1)
    ):
        return None  # where the missing stitches would stand, nobody can tell
    ring = made.ring if made is not None else ring
    if made is None:
        if any(
            s.noun.thing is not Thing.STITCH and s.noun.thing is not Thing.KIND
            for s in stated.statements
        ):
            return None
        kinds = {s.noun.kind for s in stated.statements if s.noun.thing is Thing.KIND and s.total}
        return supposed(total, kinds.pop() if len(kinds) == 1 else "st", ring=ring)
    n = made.count
    if n == 0:
        return supposed(total, "st", ring=ring)
    if total == n:
        return made
    if total < n:
        return made.cut(n - total)
    return made.padded(total - n)


def _counts(rows: Sequence[PlannedRow], parts: Sequence[tuple[PlannedRow, Steps, bool]]) -> bool:
    """Whether a count is of what is made: "skip 7 sts, place marker in next st. 7 sts remain."."""
    kinds = {type(step) for _, steps, _ in parts for step in steps}
    return bool(rows) and not {Mark, Skip} <= kinds <= {Mark, Skip, Remark}
