"""Which rows an instruction line comes to, in one size.

A line may be one row, a range of them, or earlier rows again. `plan` turns it into the steps of
each row in order; a row that is named and does not exist is a trouble.
"""

import itertools
from collections.abc import Sequence

from stitchproof.base.records import replace
from stitchproof.fabric.added import (
    as_labelled,
    ended,
    ends_by_measure,
    parted_extra,
    shape_already,
    shapes_each_row,
    told_whole,
    without_shapes,
)
from stitchproof.fabric.chainless import chainless
from stitchproof.fabric.even_between import EVEN_ROW, between_even
from stitchproof.fabric.growing import grown_rows
from stitchproof.fabric.in_turn import rows_in_turn
from stitchproof.fabric.over_rows import (
    MOST_ROWS,
    ValueOf,
    is_scheduled,
    label_numbers,
    over_rows,
    turn_begun,
)
from stitchproof.fabric.planned import HIGHEST, Past, Plan, PlannedRow
from stitchproof.fabric.trouble import Failing, Trouble, Unknown
from stitchproof.language.tree import (
    Course,
    FastenOff,
    RepeatRows,
    Steps,
    Unread,
)
from stitchproof.language.walk import moved


def plan(course: Course, past: Past | None, value_of: ValueOf) -> Plan:
    """Lay out the rows of a line; what was worked before is needed where it works rows again.

    Raises
    ------
    Unknown
        From `value_of`, when a number has no value.
    """
    numbers = label_numbers(course.label, value_of)
    if numbers is None:
        return Plan(absent=True)
    if numbers and (len(numbers) > MOST_ROWS or numbers[-1] > HIGHEST):
        trouble = Trouble(Failing.LIMIT, course.at(course.label.place), len(numbers), MOST_ROWS)
        return Plan(troubles=(trouble,))
    if isinstance(course.does, RepeatRows):
        assert past is not None
        same = _same_numbers(course.does, numbers, past, value_of)
        return same or _again(course, course.does, numbers, past, value_of)
    if not numbers:
        return Plan(rows=(PlannedRow(None, course.does, course.place.start),))
    if len(numbers) > 1 and is_scheduled(course.does):
        return _scheduled(course, course.does, numbers, value_of)
    rows = tuple(PlannedRow(n or None, course.does, course.place.start) for n in numbers)
    return Plan(rows=rows, numbers=numbers)


def _scheduled(course: Course, does: Steps, numbers: Sequence[int], value_of: ValueOf) -> Plan:
    """Lay out rows over which a schedule goes, as one."""
    steps, told, least = over_rows(does, len(numbers), value_of)
    if least > len(numbers):
        place = course.at(course.label.place)
        trouble = Trouble(Failing.RANGE, place, told, len(numbers), what="rows")
        return Plan(troubles=(trouble,), numbers=numbers)
    row = PlannedRow(numbers[-1] or None, steps, course.place.start, len(numbers))
    return Plan(rows=(row,), numbers=numbers)


def _again(
    course: Course, does: RepeatRows, numbers: Sequence[int], past: Past, value_of: ValueOf
) -> Plan:
    """Lay out earlier rows again."""
    cycle = _cycle(does, numbers, past, value_of)
    if isinstance(cycle, Trouble):
        cycle = replace(cycle, place=course.at(cycle.place))
        return Plan(troubles=(cycle,), numbers=numbers)
    if does.phases:
        return _on_every(course, does, cycle, numbers, between_even(does, cycle, past, value_of))
    if does.between:
        return _growing(does, cycle, numbers, _told(does, len(cycle), past, value_of))
    if _plain_and_shaped(does, cycle):
        return _shaped_besides(course, does, numbers, value_of)
    changed = _changed(does, cycle, course.place.start)
    return _repeated(course, does, changed, numbers, _told(does, len(changed[0]), past, value_of))


def _on_every(
    course: Course,
    does: RepeatRows,
    cycle: list[PlannedRow],
    numbers: Sequence[int],
    phases: tuple[list[PlannedRow], list[PlannedRow]],
) -> Plan:
    """Lay out rows worked again on every so many rows, over those of a label where it has some.

    Raises
    ------
    Unknown
        Where a count tells how often, and the label how many rows.
    """
    laid, turn = phases
    if not numbers:
        if turn:
            return Plan(rows=tuple(turn), first=tuple(laid), open=True)
        return Plan(rows=_ended(laid, does.extra, course.place.start), absent=not laid)
    if turn:
        laid += turn * (max(len(numbers) - len(laid), 0) // len(turn))
    least = next((i for i, row in enumerate(laid) if row.steps is cycle[0].steps), 0)
    if not len(laid) - least <= len(numbers):
        place = course.at(course.label.place)
        trouble = Trouble(Failing.RANGE, place, len(laid), len(numbers), what="rows")
        return Plan(troubles=(trouble,), numbers=numbers)
    laid = laid[max(len(laid) - len(numbers), 0) :]
    over = len(numbers) - len(laid)
    laid += [next((row for row in laid if row.steps is not cycle[0].steps), EVEN_ROW)] * over
    named = zip(numbers, laid, strict=True)
    laid = [PlannedRow(n or None, row.steps, row.line) for n, row in named]
    return Plan(rows=_ended(laid, does.extra, course.place.start), numbers=numbers)


def _repeated(
    course: Course,
    does: RepeatRows,
    turn: tuple[list[PlannedRow], Steps],
    numbers: Sequence[int],
    told: int | None,
) -> Plan:
    """Lay out a turn of rows, and what is done behind it, as often as the label or words tell."""
    cycle, behind = turn
    unnamed = [PlannedRow(None, row.steps, row.line) for row in cycle]
    if as_labelled(does, len(cycle), len(numbers)):
        told = None
    if does.often is not None and told == 0 and not numbers:
        return Plan(absent=True)
    if numbers:
        count = len(numbers)
        troubles = _range_troubles(does, course, len(cycle), told, numbers)
    elif told is not None:
        count, troubles = told, ()
    else:
        unknown = ends_by_measure(does)
        count, troubles = len(cycle), ()
        if unknown or does.piece == "":
            return Plan(rows=_ended(unnamed, does.extra, course.place.start), open=unknown)
    if count > MOST_ROWS:
        return Plan(troubles=(Trouble(Failing.LIMIT, course.at(does.place), count, MOST_ROWS),))
    laid = list(itertools.islice(itertools.cycle(unnamed), count))
    if numbers:
        named = zip(numbers, laid, strict=True)
        laid = [PlannedRow(n or None, row.steps, row.line) for n, row in named]
    rows = _ended(laid, does.extra, course.place.start, behind)
    return Plan(rows=rows, troubles=troubles, numbers=numbers)


def _plain_and_shaped(does: RepeatRows, cycle: Sequence[PlannedRow]) -> bool:
    return shapes_each_row(does.extra) and not shape_already([row.steps for row in cycle])


def _shaped_besides(
    course: Course, does: RepeatRows, numbers: Sequence[int], value_of: ValueOf
) -> Plan:
    """Lay out plain rows that a line shapes besides: `Rep Row 2, dec 1 st at each end each row`.

    Raises
    ------
    Unknown
        Where the label does not tell the rows.
    """
    if not numbers:
        raise Unknown
    return _scheduled(course, does.extra, numbers, value_of)


def _ended(
    rows: list[PlannedRow], extra: Steps, line: int, behind: Steps = ()
) -> tuple[PlannedRow, ...]:
    """End the last of some rows as a line says: not turned, fastened off, a chain behind it."""
    if rows and (extra or behind):
        last = rows[-1]
        steps = (*ended(last.steps, extra, line - last.line), *moved(behind, line - last.line))
        rows[-1] = replace(last, steps=steps, behind=len(behind))
    return tuple(rows)


def _growing(
    does: RepeatRows, cycle: list[PlannedRow], numbers: Sequence[int], told: int | None
) -> Plan:
    """Lay out rows that have more, or fewer, stitches between their shaping with every turn."""
    rows = len(numbers) or told or len(cycle)
    if rows > MOST_ROWS or (told is not None and told != rows):
        raise Unknown
    made = grown_rows([row.steps for row in cycle], rows, does.between, groups=does.groups)
    laid = tuple(
        PlannedRow(number or None, steps, row.line)
        for number, steps, row in zip(numbers or [0] * rows, made, itertools.cycle(cycle))
    )
    return Plan(rows=laid, numbers=numbers)


def _changed(
    does: RepeatRows, cycle: list[PlannedRow], line: int
) -> tuple[list[PlannedRow], Steps]:
    """Work rows again as a line changes them; give too what it does behind the last of them."""
    if does.chainless:
        cycle = [replace(row, steps=chainless(row.steps)) for row in cycle]
    extra, behind = parted_extra(without_shapes(does.extra))
    return (_with_extra(extra, cycle, line) if extra else cycle), behind


def _with_extra(extra: Steps, cycle: list[PlannedRow], line: int) -> list[PlannedRow]:
    """Add to rows worked again what a line says beside them."""
    if told_whole(extra):
        return [PlannedRow(None, extra, line)]
    beside = tuple(step for step in extra if not isinstance(step, FastenOff))
    return [
        PlannedRow(None, (*moved(beside, line - row.line), *row.steps), row.line) for row in cycle
    ]


def _range_troubles(
    does: RepeatRows, course: Course, cycle: int, told: int | None, numbers: Sequence[int]
) -> tuple[Trouble, ...]:
    count, place = len(numbers), course.at(course.label.place)
    if any(isinstance(step, Unread) for step in does.extra):
        return ()  # how many rows the other words come to nobody knows
    if told is not None and told != count:
        return (Trouble(Failing.RANGE, place, told, count, what="rows"),)
    if told is None and does.ending_row is None and count % cycle and count > cycle:
        return (Trouble(Failing.RANGE, place, cycle, count, what="cycle"),)
    return ()


def _cycle(
    does: RepeatRows, numbers: Sequence[int], past: Past, value_of: ValueOf
) -> list[PlannedRow] | Trouble:
    """Give the rows that are worked again, one turn of them; a trouble is placed in the line."""
    if does.piece:
        return _of_piece(does, past, value_of)
    if does.back is not None:
        return _rows_back(does, value_of(does.back) or 1, past)
    wanted = [value_of(n) for n in does.listed]
    if not wanted and does.first is not None:
        first = value_of(does.first)
        last = value_of(does.last) if does.last is not None else first
        if first is None or last is None or last < first or last - first > MOST_ROWS:
            return Trouble(Failing.NO_ROW, does.place, 0, 0, what=f"Rows {first}-{last}")
        wanted = list(range(first, last + 1))
    if not wanted and (not past.steady if past.rows else past.begun):
        # worked even after shaping, or as the part before: the count stays
        return [EVEN_ROW]
    if not wanted:
        missing = Trouble(Failing.NO_ROW, does.place, 1, 0, what="rows back")
        return rows_in_turn(past.rows, past.done) or missing
    own = numbers[0] if numbers else None
    found: list[PlannedRow] = []
    for number in wanted:
        if number is None or number not in past.by_number or number == own:
            return Trouble(Failing.NO_ROW, does.place, number or 0, 0, what=f"{number}")
        if past.by_number[number].covers > 1:
            raise Unknown  # one of the rows of a schedule: nobody says which it is like
        found.append(past.by_number[number])
    return found


def _rows_back(does: RepeatRows, back: int, past: Past) -> list[PlannedRow] | Trouble:
    """Give the last rows; of the rows of a schedule, nobody says which is meant."""
    if back > len(past.rows):
        return Trouble(Failing.NO_ROW, does.place, back, len(past.rows), what="rows back")
    if any(is_scheduled(row.steps) for row in past.rows[-back:]):
        raise Unknown
    return list(past.rows[-back:])


def _same_numbers(
    does: RepeatRows, numbers: Sequence[int], past: Past, value_of: ValueOf
) -> Plan | None:
    """Lay out `Rows 1-16: same as Left Front`: its rows of these numbers; None if it lacks one."""
    if not does.piece or not numbers or numbers[0] < 1:
        return None
    if does.first is not None and value_of(does.first) != numbers[0]:
        return None
    if does.first is not None and value_of(does.last or does.first) != numbers[-1]:
        return None
    cycle = _of_piece(does, past, value_of)
    if isinstance(cycle, Trouble):
        return None
    known = {row.number for row in cycle}
    if not known >= set(numbers):
        return None
    begun = numbers[0] == 1 and not past.rows  # what stands before Row 1 is its foundation
    rows: list[PlannedRow] = []
    for row in cycle:
        if row.number in numbers or (begun and row.number is None):
            rows.append(row)
        if row.number == numbers[-1]:
            break
    return Plan(rows=tuple(rows), numbers=numbers)


def _of_piece(does: RepeatRows, past: Past, value_of: ValueOf) -> list[PlannedRow] | Trouble:
    wanted = does.piece.lower()
    rows = next((r for title, r in past.pieces.items() if title.startswith(wanted)), None)
    if rows is None:
        rows = next((r for title, r in past.pieces.items() if wanted in title), None)
    if not rows and any(wanted in title for title in past.parts):
        rows = list(past.by_number.values()) if does.first is not None else None
    if not rows:
        return Trouble(Failing.NO_ROW, does.place, 0, 0, what=does.piece)
    first = value_of(does.first) if does.first is not None else None
    last = value_of(does.last) if does.last is not None else None
    found: list[PlannedRow] = []
    # what stands before Row 1 is its foundation; a piece that has begun has its own
    begun = first is None or (first == 1 and not past.rows)
    for row in rows:
        begun = begun or (row.number is not None and first is not None and row.number >= first)
        if begun:
            found.append(row)
        if last is not None and row.number == last:
            return found
    if last is not None:
        return Trouble(Failing.NO_ROW, does.place, last, 0, what=f"{last}")
    return found


def _told(does: RepeatRows, cycle: int, past: Past, value_of: ValueOf) -> int | None:
    """Give how many rows the words tell, without the label; None when they do not."""
    if does.often is not None:
        return (value_of(does.often.number) or 0) * cycle + turn_begun(does, value_of)
    if does.until_rows is not None:
        until = value_of(does.until_rows)
        return None if until is None else max(until - past.worked, 0)
    if does.until_length is not None and not does.until_words and past.rows_per_mm is not None:
        length = value_of(does.until_length)
        if length is not None:
            return max(round(float(length) * past.rows_per_mm) - past.worked, 0)
    if does.piece:
        return cycle
    return None
