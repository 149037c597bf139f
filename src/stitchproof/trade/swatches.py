"""What a swatch plausibly measures, to tell a slip of the pen from a fabric."""

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from types import MappingProxyType

from stitchproof.base.records import dataclass
from stitchproof.trade import tables
from stitchproof.trade.tables import Confidence


@dataclass(frozen=True, slots=True, kw_only=True)
class SwatchShape:
    """Height of a row over width of a stitch, in a fabric of one stitch.

    Attributes
    ----------
    stitch : str
        Stitch id.
    usual : Fraction
        What was measured.
    low, high : Fraction
        Outside of them a gauge is doubtful.
    source, confidence : str
        Where it comes from.
    """

    stitch: str
    usual: Fraction
    low: Fraction
    high: Fraction
    source: str
    confidence: Confidence


@dataclass(frozen=True, slots=True)
class Speed:
    """Stitches a minute of an unhurried maker."""

    stitch: str
    per_minute: int
    source: str
    confidence: Confidence


@cache
def swatch_shapes() -> Mapping[str, SwatchShape]:
    """Give the plausible shape of a stitch by its id."""
    found = (
        SwatchShape(
            stitch=tables.text(row, "stitch"),
            usual=tables.exact(row["usual"]),
            low=tables.exact(row["low"]),
            high=tables.exact(row["high"]),
            source=tables.text(row, "source"),
            confidence=tables.confidence(row),
        )
        for row in tables.rows(tables.table("swatches"), "shape")
    )
    return MappingProxyType({one.stitch: one for one in found})


def plausible(stitch: str, stitches: Fraction, rows: Fraction) -> bool | None:
    """Say whether a gauge (stitches and rows over one length) can be of that stitch.

    None where nothing is known of the stitch or a number is not positive.
    """
    shape = swatch_shapes().get(stitch)
    if shape is None or stitches <= 0 or rows <= 0:
        return None
    return shape.low <= stitches / rows <= shape.high


@cache
def speeds() -> Mapping[str, Speed]:
    """Give how fast a stitch is made by its id."""
    found = (
        Speed(
            tables.text(row, "stitch"),
            tables.whole(row, "per_minute") or 0,
            tables.text(row, "source"),
            tables.confidence(row),
        )
        for row in tables.rows(tables.table("swatches"), "speed")
    )
    return MappingProxyType({one.stitch: one for one in found})
