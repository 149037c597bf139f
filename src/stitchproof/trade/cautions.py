"""Cautions that an edition carries where a design is for a child or could hurt."""

from collections.abc import Collection
from functools import cache
from typing import Literal, TypeAlias

from stitchproof.base.records import dataclass
from stitchproof.trade import tables
from stitchproof.trade.tables import Confidence

Audience: TypeAlias = Literal["baby", "child", "adult"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A reminder for the maker; it defers to local rules.

    Attributes
    ----------
    id : str
        Its lasting name.
    audiences : tuple of str
        Whom the piece is for.
    hazard : str
        What in the design calls for it; "always" for every design of that audience.
    text : str
        The words for the maker.
    source, confidence : str
        Where it comes from.
    """

    id: str
    audiences: tuple[str, ...]
    hazard: str
    text: str
    source: str
    confidence: Confidence


@cache
def all_cautions() -> tuple[Caution, ...]:
    """Give every caution of the table."""
    return tuple(
        Caution(
            id=tables.text(row, "id"),
            audiences=tables.words(row, "audiences"),
            hazard=tables.text(row, "hazard"),
            text=tables.text(row, "text"),
            source=tables.text(row, "source"),
            confidence=tables.confidence(row),
        )
        for row in tables.rows(tables.table("cautions"), "caution")
    )


def hazards() -> frozenset[str]:
    """Give the hazards that a design can be said to have."""
    return frozenset(one.hazard for one in all_cautions()) - {"always"}


def cautions(audience: Audience, found: Collection[str] = ()) -> tuple[Caution, ...]:
    """Give the cautions for a piece: those of its audience, and those its hazards call for."""
    return tuple(
        one
        for one in all_cautions()
        if audience in one.audiences and (one.hazard == "always" or one.hazard in found)
    )


def deference() -> str:
    """Give the sentence that goes with any caution: local rules win."""
    return tables.text(tables.table("cautions"), "defer")
