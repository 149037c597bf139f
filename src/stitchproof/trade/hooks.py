"""Crochet hooks: millimetres and the labels sold in the US and the UK."""

from fractions import Fraction
from functools import cache

from stitchproof.base.records import dataclass
from stitchproof.trade import tables
from stitchproof.trade.tables import Confidence, Terms


@dataclass(frozen=True, slots=True, kw_only=True)
class Hook:
    """A hook size.

    Attributes
    ----------
    mm : Fraction
        Diameter [mm], the only size that means the same everywhere.
    us, uk : str
        The usual label; empty where none is in use.
    variants : tuple of str
        Other labels met for the same diameter.
    source, confidence : str
        Where the row comes from.
    """

    mm: Fraction
    us: str
    uk: str
    variants: tuple[str, ...]
    source: str
    confidence: Confidence

    def words(self, terms: Terms = "US") -> str:
        """Write it as a pattern does: `4.5 mm (US 7)`; the label is left out where none is used."""
        label = self.us if terms == "US" else self.uk
        return f"{millimetres(self.mm)} ({terms} {label})" if label else millimetres(self.mm)


@cache
def hooks() -> tuple[Hook, ...]:
    """Give every hook size, smallest first."""
    found = (
        Hook(
            mm=tables.exact(row["mm"]),
            us=tables.text(row, "us"),
            uk=tables.text(row, "uk"),
            variants=tables.words(row, "variants"),
            source=tables.text(row, "source"),
            confidence=tables.confidence(row),
        )
        for row in tables.rows(tables.table("hooks"), "hook")
    )
    return tuple(sorted(found, key=lambda one: one.mm))


def hook(mm: Fraction) -> Hook | None:
    """Give the hook of exactly this diameter [mm]; None when none is sold."""
    return next((one for one in hooks() if one.mm == mm), None)


def hooks_labelled(label: str, terms: Terms = "US") -> tuple[Hook, ...]:
    """Give the hooks that carry a label: `H-8`, `H/8`, `H`, `8` in the US, `6` in the UK."""
    wanted = _plain(label)
    return tuple(
        one
        for one in hooks()
        if (own := _plain(one.us if terms == "US" else one.uk))
        and (wanted == own or (terms == "US" and wanted in own.split("-")))
    )


def millimetres(mm: Fraction) -> str:
    """Write a diameter: `4.5 mm`, `3.75 mm`, `5 mm`."""
    return f"{float(mm):g} mm"


def _plain(label: str) -> str:
    """Write a label one way: `US H/8` and `h-8` are `H-8`."""
    return label.upper().removeprefix("US").strip().replace("/", "-")
