"""Project levels, and the parts that a published pattern is expected to have."""

from functools import cache

from stitchproof.base.records import dataclass
from stitchproof.trade import tables
from stitchproof.trade.tables import Confidence


@dataclass(frozen=True, slots=True)
class ProjectLevel:
    """One of the four levels; it rates the project, not the maker."""

    number: int
    id: str
    means: str
    source: str
    confidence: Confidence


@dataclass(frozen=True, slots=True)
class PatternPart:
    """A part of a published pattern, in the usual order."""

    id: str
    required: bool
    holds: str
    source: str
    confidence: Confidence


@cache
def levels() -> tuple[ProjectLevel, ...]:
    """Give the four levels, simplest first."""
    return tuple(
        ProjectLevel(
            tables.whole(row, "number") or 0,
            tables.text(row, "id"),
            tables.text(row, "means"),
            tables.text(row, "source"),
            tables.confidence(row),
        )
        for row in tables.rows(tables.table("levels"), "level")
    )


def level(name: str) -> ProjectLevel | None:
    """Give a level by its name, older names included; None when it is none."""
    wanted = name.strip().casefold()
    older = {
        tables.text(row, "name"): tables.whole(row, "level")
        for row in tables.rows(tables.table("levels"), "older_name")
    }
    return next(
        (one for one in levels() if wanted == one.id or older.get(wanted) == one.number), None
    )


@cache
def pattern_parts() -> tuple[PatternPart, ...]:
    """Give the parts of a published pattern in the usual order."""
    return tuple(
        PatternPart(
            tables.text(row, "id"),
            row.get("required") is True,
            tables.text(row, "holds"),
            tables.text(row, "source"),
            tables.confidence(row),
        )
        for row in tables.rows(tables.table("levels"), "part")
    )
