"""How garments sit on bodies: bands of ease, garment lengths, proportions."""

from fractions import Fraction
from functools import cache
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.trade import tables
from stitchproof.trade.tables import Confidence

_MM_PER_CM: Final = 10


@dataclass(frozen=True, slots=True)
class Fit:
    """A band of ease at the chest.

    Attributes
    ----------
    id : str
        "very close", "close", "classic", "loose", "oversized".
    low_mm, high_mm : Fraction or None
        Least and most ease [mm]; None: no bound.
    source, confidence : str
        Where it comes from.
    """

    id: str
    low_mm: Fraction | None
    high_mm: Fraction | None
    source: str
    confidence: Confidence


@dataclass(frozen=True, slots=True)
class GarmentLength:
    """How far below the waist a garment ends: `group` is the id of a body table."""

    group: str
    name: str
    below_waist_mm: Fraction
    source: str
    confidence: Confidence


@dataclass(frozen=True, slots=True, kw_only=True)
class Proportion:
    """A share of another measure: `low` to `high` times `of`."""

    id: str
    of: str
    low: Fraction
    high: Fraction
    note: str
    source: str
    confidence: Confidence


@cache
def fits() -> tuple[Fit, ...]:
    """Give the bands of ease, closest first."""
    found = []
    for row in tables.rows(tables.table("ease"), "fit"):
        low, high = tables.span(row["cm"])
        end = tables.text(row, "open")
        found.append(
            Fit(
                tables.text(row, "id"),
                None if end == "low" else low * _MM_PER_CM,
                None if end == "high" else high * _MM_PER_CM,
                tables.text(row, "source"),
                tables.confidence(row),
            )
        )
    return tuple(found)


def fit_of(ease_mm: Fraction) -> Fit:
    """Name the fit of an ease at the chest [mm]; on a bound the looser band is taken."""
    *most, last = fits()
    for band in most:
        if band.high_mm is not None and ease_mm < band.high_mm:
            return band
    return last


@cache
def garment_lengths() -> tuple[GarmentLength, ...]:
    """Give the lengths of the trade, by the body table they are for."""
    return tuple(
        GarmentLength(
            tables.text(row, "group"),
            tables.text(row, "name"),
            tables.exact(row["cm"]) * _MM_PER_CM,
            tables.text(row, "source"),
            tables.confidence(row),
        )
        for row in tables.rows(tables.table("ease"), "length")
    )


@cache
def proportions() -> tuple[Proportion, ...]:
    """Give the proportions that handbooks use where body tables say nothing."""
    return tuple(
        Proportion(
            id=tables.text(row, "id"),
            of=tables.text(row, "of"),
            low=tables.exact(row["low"]),
            high=tables.exact(row["high"]),
            note=tables.text(row, "note"),
            source=tables.text(row, "source"),
            confidence=tables.confidence(row),
        )
        for row in tables.rows(tables.table("ease"), "proportion")
    )
