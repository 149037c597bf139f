"""A line that is one row, and the same one in every size: most are."""

from stitchproof.fabric.planned import HIGHEST, Plan, PlannedRow
from stitchproof.language.tree import Course, RepeatRows


def one_row(course: Course) -> Plan | None:
    """Lay out a line that is one and the same row in every size; None for any other."""
    label, does = course.label, course.does
    if isinstance(does, RepeatRows) or label.listed or label.span is not None:
        return None
    if label.first is None:
        return Plan(rows=(PlannedRow(None, does, course.place.start),))
    value = label.first.value
    number = value[0] if isinstance(value, tuple) and len(value) == 1 else None
    if label.last not in (None, label.first) or not isinstance(number, int) or number > HIGHEST:
        return None
    row = PlannedRow(number or None, does, course.place.start)
    return Plan(rows=(row,), numbers=range(number, number + 1))
