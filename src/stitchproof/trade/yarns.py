"""Yarn weight categories: what is usual for each, as a guide and never instead of a swatch."""

from fractions import Fraction
from functools import cache
from typing import TypeAlias

from stitchproof.base.records import dataclass
from stitchproof.trade import tables
from stitchproof.trade.tables import Confidence, Row

OpenRange: TypeAlias = tuple[Fraction | None, Fraction | None]  # None: open at that end


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnWeight:
    """A category of the standard yarn weight system.

    Attributes
    ----------
    number, name : int, str
        0 to 7, "Lace" to "Jumbo".
    types : tuple of str
        Yarns that belong to it.
    uk, au : str
        What it is called there.
    gauge : OpenRange
        Usual stitches over 10 cm (4 in) of `gauge_stitch`.
    gauge_stitch : str
        Stitch id.
    hook_mm : OpenRange
        Usual hooks [mm]; `hook_us` their US labels.
    wpi : OpenRange
        Wraps an inch.
    m_per_100g : OpenRange
        Metres in 100 g.
    variants : tuple of (str, str, str)
        Field, value and source of copies that print something else.
    source, confidence : str
        Where the row comes from.
    """

    number: int
    name: str
    types: tuple[str, ...]
    uk: str
    au: str
    gauge: OpenRange
    gauge_stitch: str
    hook_mm: OpenRange
    hook_us: tuple[str, ...]
    wpi: OpenRange
    m_per_100g: OpenRange
    variants: tuple[tuple[str, str, str], ...]
    source: str
    confidence: Confidence


@cache
def yarn_weights() -> tuple[YarnWeight, ...]:
    """Give the categories, finest first; the index is the number."""
    return tuple(_weight(row) for row in tables.rows(tables.table("yarns"), "weight"))


def yarn_weight(number: int) -> YarnWeight | None:
    """Give a category by its number; None when there is none."""
    return next((one for one in yarn_weights() if one.number == number), None)


def within(value: Fraction, usual: OpenRange) -> bool:
    """Say whether a value lies in a range that may be open."""
    low, high = usual
    return (low is None or value >= low) and (high is None or value <= high)


def _weight(row: Row) -> YarnWeight:
    return YarnWeight(
        number=tables.whole(row, "number") or 0,
        name=tables.text(row, "name"),
        types=tables.words(row, "types"),
        uk=tables.text(row, "uk"),
        au=tables.text(row, "au"),
        gauge=_range(row, "gauge"),
        gauge_stitch=tables.text(row, "gauge_stitch"),
        hook_mm=_range(row, "hook_mm"),
        hook_us=tables.words(row, "hook_us"),
        wpi=_range(row, "wpi"),
        m_per_100g=_range(row, "m_per_100g"),
        variants=tuple(
            (tables.text(one, "field"), tables.text(one, "value"), tables.text(one, "source"))
            for one in tables.rows(row, "variant")
        ),
        source=tables.text(row, "source"),
        confidence=tables.confidence(row),
    )


def _range(row: Row, key: str) -> OpenRange:
    low, high = tables.span(row[key])
    end = tables.text(row, f"{key}_open")
    return (None if end == "low" else low), (None if end == "high" else high)
