"""Rows worked again until a measure or a wish is met: nobody says how often.

Where they leave the count as it is, nothing depends on it. Where they shape, the stated count tells
how often they are worked, if they can come to it at all; without one the edge is not known.
"""

from stitchproof.base.records import replace
from stitchproof.fabric.attempt import Attempt, attempt
from stitchproof.fabric.over_rows import MOST_ROWS
from stitchproof.fabric.planned import Plan, PlannedRow
from stitchproof.fabric.tally import in_stitches, stitches
from stitchproof.fabric.track import Setting, Track
from stitchproof.fabric.trouble import Unknown
from stitchproof.language.tree import Course, FastenOff, RepeatRows


def until_stated(course: Course, laid: Plan, track: Track, setting: Setting) -> Plan:
    """Repeat rows that shape until they come to the stated count, whole turns of them first."""
    told = in_stitches(course.stated) if course.stated is not None else None
    if not laid.open or laid.numbers or told is None or track.edge is None or not laid.rows:
        return laid
    try:
        wanted = setting.value_of(told.number)
    except Unknown:
        return laid
    begun = stitches(track.edge, setting.conventions)
    once = attempt(course, laid.rows, track, setting)
    counts = [
        stitches(done.edge, setting.conventions) for done in once.rows if done.edge is not None
    ]
    by = counts[-1] - begun if counts else 0
    if wanted is None or len(counts) != len(laid.rows) or not by:
        return laid
    for end in range(len(counts), 0, -1):
        times, rest = divmod(wanted - counts[end - 1], by)
        if rest == 0 and 0 <= times * len(counts) < MOST_ROWS:
            rows = (*_going_on(laid.rows) * times, *laid.rows[:end])
            return laid._replace(rows=rows, open=False)
    return laid


def _going_on(rows: tuple[PlannedRow, ...]) -> tuple[PlannedRow, ...]:
    """Give rows as they are before the last turn, behind which the yarn is fastened off."""
    last = rows[-1]
    steps = tuple(step for step in last.steps if not isinstance(step, FastenOff))
    return (*rows[:-1], replace(last, steps=steps))


def steady(course: Course, found: Attempt) -> bool:
    """Whether rows worked to a length keep the count, however many there are."""
    begun, counts = _counts(found)
    return set(counts) == {begun} or (_ends_whole(course) and counts[-1:] == [begun])


def shapes(found: Attempt) -> bool:
    """Whether a whole turn of rows that are worked again leaves more stitches, or fewer."""
    begun, counts = _counts(found)
    return counts[-1:] != [begun]


def _counts(found: Attempt) -> tuple[int, list[int]]:
    """Give the count of the edge worked into, and that of every row; -1: it is not known."""
    into = found.rows[0].consumed if found.rows else None
    counts = [row.edge.count if row.edge is not None else -1 for row in found.rows]
    return into.count if into is not None else -1, counts


def _ends_whole(course: Course) -> bool:
    """Whether repeated rows end with the last of them, as the author says."""
    does = course.does
    return (
        isinstance(does, RepeatRows)
        and does.ending_row is not None
        and does.ending_row in (does.last, *does.listed[-1:])
    )
