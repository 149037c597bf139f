"""All checks, in the order in which they look."""

from collections.abc import Iterator
from typing import Final

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.checks import (
    abbreviations,
    count_mismatch,
    definitions,
    evenly,
    falling,
    grouping,
    left_over,
    markers,
    materials,
    multiples,
    no_place,
    noun_doubt,
    range_cycle,
    readings,
    rejoining,
    repeat_end,
    repeat_uneven,
    row_numbers,
    row_range,
    row_reference,
    row_words,
    seams,
    sides,
    singular,
    size_without_count,
    special_open,
    special_use,
    spellings,
    too_few,
    too_large,
    turning_chains,
    turns,
    units,
    wrong_side,
)
from stitchproof.checks.seen import Check, Seen

CHECKS: Final[tuple[Check, ...]] = (
    count_mismatch.check,
    repeat_uneven.check,
    too_few.check,
    left_over.check,
    no_place.check,
    row_reference.check,
    row_range.check,
    range_cycle.check,
    seams.check,
    wrong_side.check,
    too_large.check,
    noun_doubt.check,
    row_numbers.check,
    readings.check,
    turning_chains.check,
    units.check,
    abbreviations.check,
    definitions.check,
    spellings.check,
    sides.check,
    row_words.check,
    turns.check,
    rejoining.check,
    markers.check,
    multiples.check,
    grouping.check,
    falling.check,
    special_use.check,
    evenly.check,
    repeat_end.check,
    special_open.check,
    singular.check,
    size_without_count.check,
    materials.check,
)


def look(seen: Seen) -> Iterator[Diagnostic]:
    """Give what every check finds."""
    for check in CHECKS:
        yield from check(seen)
