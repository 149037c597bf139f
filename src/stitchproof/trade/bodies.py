"""Published tables of body measurements.

A table is named by the people it is for ("women", "men", "children", "babies") or by its id.
Lengths are exact fractions of a millimetre: the published centimetres where there are any, else
the published inches turned into millimetres.
"""

import re
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from types import MappingProxyType
from typing import Final, Literal, TypeAlias, cast

from stitchproof.base.records import dataclass
from stitchproof.trade import tables
from stitchproof.trade.tables import Confidence, Row

Range: TypeAlias = tuple[Fraction, Fraction]
Point: TypeAlias = Literal["low", "middle", "high"]

_MM_PER_INCH: Final = Fraction(127, 5)
_MM_PER_CM: Final = 10
_LONGEST: Final = 80  # characters of "first size - last size"; more is no list of sizes


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyRow:
    """One measuring point in every size of a table.

    Attributes
    ----------
    point : str
        Its id: "chest", "upper_arm", "head" ...
    mm : tuple of (Fraction, Fraction)
        (S,) lowest and highest [mm]; both the same where one value is published.
    inches : tuple of (Fraction, Fraction), or empty
        (S,) as published [in]; empty where only centimetres are.
    centimetres : tuple of (Fraction, Fraction), or empty
        (S,) as published [cm]; empty where only inches are.
    confidence : tuple of Confidence
        (S,) whether the figure was read. The centimetres may be recalled even so where they agree
        with inches that were read.
    joined : bool
        The table lacks this point; it was taken from another one, `taken_from` says which.
    taken_from : tuple of str
        (S,) table and size of a joined row; empty else.
    source : str
        Where the figures come from.
    note : str
        What other tables say.
    """

    point: str
    mm: tuple[Range, ...]
    inches: tuple[Range, ...]
    centimetres: tuple[Range, ...]
    confidence: tuple[Confidence, ...]
    joined: bool
    taken_from: tuple[str, ...]
    source: str
    note: str

    def at(self, size: int, where: Point = "middle") -> Fraction:
        """Give the length [mm] in the size with this index, at one point of its range."""
        low, high = self.mm[size]
        return {"low": low, "middle": (low + high) / 2, "high": high}[where]


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyTable:
    """A published table of bodies.

    Attributes
    ----------
    id, title : str
        Its name here and as published.
    names : tuple of str
        Who it is for, as a manuscript may say it.
    sizes : tuple of str
        S size names, smallest first.
    aliases : mapping of str to str
        Other names of sizes.
    rows : mapping of str to BodyRow
        By measuring point.
    source, confidence : str
        Where the table comes from; the rows say it for each figure.
    """

    id: str
    title: str
    names: tuple[str, ...]
    sizes: tuple[str, ...]
    aliases: Mapping[str, str]
    rows: Mapping[str, BodyRow]
    source: str
    confidence: Confidence

    def size(self, name: str) -> str | None:
        """Give the table's own name of a size; None when it has no such size."""
        wanted = name.strip().casefold()
        for known in self.sizes:
            if known.casefold() == wanted:
                return known
        for alias, known in self.aliases.items():
            if alias.casefold() == wanted:
                return known
        return None

    def made(self, words: str) -> tuple[str, ...] | None:
        """Read which sizes are meant: `XS-5X`, `S, M, L`, `2-10`; None when one is unknown."""
        chosen: list[str] = []
        for part in re.split(r"[,;]", words):
            one = self._stretch(part)
            if one is None:
                return None
            chosen += (size for size in one if size not in chosen)
        return tuple(sorted(chosen, key=self.sizes.index))

    def _stretch(self, words: str) -> tuple[str, ...] | None:
        """Read one size, or a first and a last one."""
        if len(words) > _LONGEST:
            return None
        whole = self.size(words)
        if whole:
            return (whole,)
        for mark in re.finditer(r"\s*[-–—]\s*|\s+to\s+", words):
            first = self.size(words[: mark.start()])
            last = self.size(words[mark.end() :])
            if first and last:
                start, end = self.sizes.index(first), self.sizes.index(last)
                return self.sizes[start : end + 1] if start <= end else None
        return None


@dataclass(frozen=True, slots=True)
class MeasuringPoint:
    """How a body is measured at one point."""

    id: str
    how: str
    source: str
    confidence: Confidence


@cache
def measuring_points() -> Mapping[str, MeasuringPoint]:
    """Give every measuring point by its id."""
    found = (
        MeasuringPoint(
            tables.text(row, "id"),
            tables.text(row, "how"),
            tables.text(row, "source"),
            tables.confidence(row),
        )
        for row in tables.rows(tables.table("bodies"), "point")
    )
    return MappingProxyType({point.id: point for point in found})


@cache
def body_tables() -> Mapping[str, BodyTable]:
    """Give every table by its id."""
    found = (_table(row) for row in tables.rows(tables.table("bodies"), "table"))
    return MappingProxyType({one.id: one for one in found})


def body_table(name: str) -> BodyTable | None:
    """Give the table of that id, or for those people; None when there is none."""
    wanted = name.strip().casefold()
    for one in body_tables().values():
        if wanted == one.id or wanted in one.names:
            return one
    return None


def _table(row: Row) -> BodyTable:
    sizes = tables.words(row, "sizes")
    own = cast("Mapping[str, Row]", row["rows"])
    measured = {point: _row(point, one, len(sizes)) for point, one in own.items()}
    for join in tables.rows(row, "join"):
        point = tables.text(join, "point")
        measured[point] = _row(point, join, len(sizes))
    return BodyTable(
        id=tables.text(row, "id"),
        title=tables.text(row, "title"),
        names=tables.words(row, "names"),
        sizes=sizes,
        aliases=MappingProxyType(dict(cast("Mapping[str, str]", row.get("aliases", {})))),
        rows=MappingProxyType(measured),
        source=tables.text(row, "source"),
        confidence=tables.confidence(row),
    )


def _row(point: str, row: Row, size_count: int) -> BodyRow:
    inches = _ranges(row, "in")
    centimetres = _ranges(row, "cm")
    mm = (
        tuple((low * _MM_PER_CM, high * _MM_PER_CM) for low, high in centimetres)
        if centimetres
        else tuple((low * _MM_PER_INCH, high * _MM_PER_INCH) for low, high in inches)
    )
    stated = row["confidence"]
    each = stated if isinstance(stated, list) else [stated] * size_count
    read: list[Confidence] = ["read" if one == "read" else "recalled" for one in each]
    if row.get("cm_confidence") == "recalled":
        read = [
            _agreeing(one, in_range, mm_range)
            for one, in_range, mm_range in zip(read, inches, mm, strict=True)
        ]
    return BodyRow(
        point=point,
        mm=mm,
        inches=inches,
        centimetres=centimetres,
        confidence=tuple(read),
        joined="from" in row,
        taken_from=tables.words(row, "from"),
        source=tables.text(row, "source"),
        note=tables.text(row, "note"),
    )


def _agreeing(stated: Confidence, inches: Range, mm: Range) -> Confidence:
    """Count a recalled centimetre as read where it is within half of one of inches that were read.

    Publishers round to whole or half centimetres; what is further off is a figure of its own.
    """
    half_cm = Fraction(_MM_PER_CM, 2)
    near = all(abs(a * _MM_PER_INCH - b) <= half_cm for a, b in zip(inches, mm, strict=True))
    return stated if near else "recalled"


def _ranges(row: Row, unit: str) -> tuple[Range, ...]:
    return tuple(tables.span(value) for value in cast("list[object]", row.get(unit, [])))
