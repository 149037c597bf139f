"""Which sizes a design has, and the bodies they are for.

The sizes come from `[sizes]`, else from the text's own size line, else from the length of its
lists, named 1, 2, 3 …; with none of these there is one size. A body table is a published one, the
author's own under `[body]`, or a CSV file: size names in the first row, then one measuring point a
row, each length with its unit, or with the unit in the first cell of the first row
(`cm, S, M, L`). A length may be a range, `86-91`.
"""

import re
from collections import Counter
from collections.abc import Callable
from types import MappingProxyType
from typing import Final

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.records import dataclass, replace
from stitchproof.base.units import parse_length
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.number import Number
from stitchproof.sizing.findings import (
    BodyTableUnreadable,
    GroupsDoNotAddUp,
    SizeListLength,
    SizesAssumed,
    UnknownBodyTable,
    UnknownEntry,
)
from stitchproof.sizing.keys import A_LENGTH, Keys
from stitchproof.sizing.model import BodyPoint
from stitchproof.trade.bodies import BodyRow, BodyTable, Point, Range, body_table, body_tables

_SIZES: Final = ("body", "table", "make", "point", "groups")
_LETTERS: Final = ("XXS", "XS", "S", "M", "L", "XL", "2XL", "3XL", "4XL", "5XL", "6XL")
_LETTERS_X: Final = ("XXS", "XS", "S", "M", "L", "1X", "2X", "3X", "4X", "5X", "6X")
_NUMBER: Final = r"(?:\d+(?:\.\d+)?|\d*\s?[½¼¾⅓⅔⅛⅜⅝⅞])"
_RANGE: Final = re.compile(rf"\s*({_NUMBER})\s*(?:[-–—]|to)\s*({_NUMBER})\s*(\D*)")
_ONE_SIZE: Final = ("one size",)
_LONGEST: Final = 100  # characters of a length or a list of sizes
_NO_TABLE: Final = BodyTable(
    id="",
    title="",
    names=(),
    sizes=(),
    aliases=MappingProxyType({}),
    rows=MappingProxyType({}),
    source="",
    confidence="read",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class People:
    """The sizes and their bodies.

    Attributes
    ----------
    sizes : tuple of str
        (S,) names.
    groups : tuple of int
        How they are bracketed when printed.
    body, source, point : str
        The table, where it is published, and where in its ranges the body is taken.
    said : bool
        The author chose the point.
    points : tuple of BodyPoint
        Every measuring point, in every size.
    """

    sizes: tuple[str, ...]
    groups: tuple[int, ...]
    body: str
    source: str
    point: Point
    said: bool
    points: tuple[BodyPoint, ...]


def read_people(keys: Keys, manuscript: Manuscript, fetch: Callable[[str], str]) -> People:
    """Read `[sizes]` and `[body]`, or find the sizes in the text."""
    keys.unknown(_SIZES, "sizes")
    table = _table(keys, fetch)
    own_sizes = _names(keys, _NO_TABLE, "body", "sizes")
    sizes = (
        _made(keys, table, own_sizes)
        or manuscript.sizes_line
        or table.sizes
        or own_sizes
        or _counted(keys, manuscript)
    )
    said = keys.choice(("low", "middle", "high"), "sizes", "point")
    point: Point = "low" if said == "low" else "high" if said == "high" else "middle"
    points = _points(keys, table, sizes, point)
    own = _own_points(keys, sizes, own_sizes, point)
    replaced = {one.name for one in own}
    return People(
        sizes=sizes,
        groups=_groups(keys, sizes),
        body=table.title or ("the author's own" if own else ""),
        source=table.source,
        point=point,
        said=bool(said),
        points=(*(one for one in points if one.name not in replaced), *own),
    )


# --------------------------------------------------------------------------- sizes


def _made(keys: Keys, table: BodyTable, own_sizes: tuple[str, ...]) -> tuple[str, ...]:
    """Read `make`: a list of sizes, or words like `XS-5X`; empty when nothing can be made of it."""
    value = keys.value("sizes", "make")
    known = table.sizes or own_sizes
    if isinstance(value, str):
        made = _stretch(value, table, known)
        if made is None:
            keys.report(UnknownEntry("size", value, known or _LETTERS_X), "sizes", "make")
        return made or ()
    if value is not None and not isinstance(value, list):
        keys.wrong('sizes like `"XS-5X"` or `["S", "M"]`', "sizes", "make")
        return ()
    return _names(keys, table, "sizes", "make")


def _names(keys: Keys, table: BodyTable, *path: str) -> tuple[str, ...]:
    """Read a list of sizes, each once, and each of the table where there is one."""
    found: dict[str, str] = {}
    for at, one in enumerate(keys.entries('a list of sizes like `["S", "M"]`', *path)):
        name = table.size(str(one)) if table.sizes else str(one).strip().casefold()
        if isinstance(one, bool) or not isinstance(one, (str, int)) or not str(one).strip():
            keys.wrong("the name of a size", *path, at)
        elif name is None:
            keys.report(UnknownEntry("size", str(one), table.sizes), *path, at)
        elif name in found:
            keys.wrong("every size once", *path, at)
        else:
            found[name] = str(one)
    return tuple(found.values())


def _stretch(words: str, table: BodyTable, known: tuple[str, ...]) -> tuple[str, ...] | None:
    """Read `XS-5X` or `S, M, L`; without a table of bodies, by the letters of the trade."""
    if len(words) > _LONGEST or not words.strip():
        return None
    if table.sizes:
        return table.made(words)
    parts = tuple(dict.fromkeys(part.strip() for part in words.split(",") if part.strip()))
    ends = re.fullmatch(r"\s*(\S+?)\s*(?:[-–—]|\sto\s)\s*(\S+)\s*", words)
    for row in (known, _LETTERS_X, _LETTERS):
        if ends and ends[1] in row and ends[2] in row:
            first, last = row.index(ends[1]), row.index(ends[2])
            return row[first : last + 1] if first <= last else None
    return None if ends else parts


def _counted(keys: Keys, manuscript: Manuscript) -> tuple[str, ...]:
    """Name sizes by the length that most lists have; one size where there are no lists."""
    lengths = Counter(length for n in manuscript.numbers if (length := _length(n)) > 1)
    measures = keys.value("measures")
    for value in measures.values() if isinstance(measures, dict) else ():
        if isinstance(value, list) and len(value) > 1:
            lengths[len(value)] += 1
    if not lengths:
        return _ONE_SIZE
    size_count, _ = max(lengths.items(), key=lambda item: item[1])
    names = tuple(str(n) for n in range(1, size_count + 1))
    lists = [n.place for n in manuscript.numbers if _length(n) == size_count]
    place = lists[0] if lists else keys.at("measures")
    keys.found.append(Diagnostic(finding=SizesAssumed(names), place=place))
    return names


def _length(number: Number) -> int:
    """How many sizes a number of the text is written for; 0 for a formula."""
    return len(number.value) if isinstance(number.value, tuple) else 0


def _groups(keys: Keys, sizes: tuple[str, ...]) -> tuple[int, ...]:
    groups: list[int] = []
    for at, one in enumerate(keys.entries("a list of numbers of sizes", "sizes", "groups")):
        if isinstance(one, bool) or not isinstance(one, int) or one < 1:
            keys.wrong("a number of sizes, 1 or more", "sizes", "groups", at)
            return ()
        groups.append(one)
    if groups and sum(groups) != len(sizes):
        keys.report(GroupsDoNotAddUp(sum(groups), len(sizes)), "sizes", "groups")
        return ()
    return tuple(groups)


# --------------------------------------------------------------------------- bodies


def _table(keys: Keys, fetch: Callable[[str], str]) -> BodyTable:
    """Find the body table that `[sizes]` names."""
    if keys.value("sizes", "table") is not None:
        return _fetched(keys, keys.text("sizes", "table"), fetch)
    name = keys.text("sizes", "body")
    if not name:
        return _NO_TABLE
    found = body_table(name)
    if found is None:
        known = tuple(table.names[0] for table in body_tables().values() if table.names)
        keys.report(UnknownBodyTable(name, known), "sizes", "body")
    return found or _NO_TABLE


def _fetched(keys: Keys, name: str, fetch: Callable[[str], str]) -> BodyTable:
    """Read a body table of the author's own from a CSV file."""
    if not name:
        return _NO_TABLE
    try:
        text = fetch(name)
    except (OSError, LookupError, ValueError):
        keys.report(
            BodyTableUnreadable(name, "there is no such file, or it is no UTF-8 text"),
            "sizes",
            "table",
        )
        return _NO_TABLE
    table = _csv_table(name, text)
    if isinstance(table, str):
        keys.report(BodyTableUnreadable(name, table), "sizes", "table")
        return _NO_TABLE
    return table


def _csv_table(name: str, text: str) -> BodyTable | str:
    """Read a CSV table of bodies, or say what is wrong with it."""
    import csv  # only with a table of one's own

    if "\0" in text or max(map(len, text.splitlines()), default=0) > csv.field_size_limit():
        return "it is no text table"
    rows = [row for row in csv.reader(text.removeprefix("\ufeff").splitlines()) if any(row)]
    if not rows or len(rows[0]) < 2:  # noqa: PLR2004  # a point and a size
        return "its first row names no sizes"
    corner, *sizes = (cell.strip() for cell in rows[0])
    double = next((one for one, often in Counter(sizes).items() if often > 1), None)
    if double is not None:
        return f"its first row names the size `{double}` twice"
    unit = next((one for one in ("mm", "cm", "in") if re.search(rf"\b{one}\b", corner)), "")
    found: dict[str, BodyRow] = {}
    for at, (point, *cells) in enumerate(rows[1:], 2):
        if len(cells) != len(sizes):
            return f"row {at} has {len(cells)} lengths for {len(sizes)} sizes"
        ranges = tuple(_range(cell, unit) for cell in cells)
        known = tuple(one for one in ranges if one is not None)
        if len(known) != len(ranges):
            return f"`{cells[ranges.index(None)].strip()}` in row {at} is no length"
        key = re.sub(r"\W+", "_", point.strip()).strip("_").casefold()
        found[key] = _own_row(key, known, name)
    return replace(
        _NO_TABLE,
        id=name,
        title=name,
        sizes=tuple(sizes),
        rows=MappingProxyType(found),
        source=name,
    )


def _own_row(point: str, mm: tuple[Range, ...], source: str) -> BodyRow:
    return BodyRow(
        point=point,
        mm=mm,
        inches=(),
        centimetres=(),
        confidence=tuple("read" for _ in mm),
        joined=False,
        taken_from=(),
        source=source,
        note="",
    )


def _range(cell: str, unit: str = "") -> Range | None:
    """Read `86 cm`, `86-91 cm`, or without a unit where the table has one."""
    if len(cell) > _LONGEST:
        return None
    match = _RANGE.fullmatch(cell)
    ends = (match[1], match[2]) if match else (cell, cell)
    own = match[3].strip() if match else ""
    lengths = [parse_length(f"{end} {own or unit}".strip()) for end in ends]
    if not own and unit:
        lengths = [parse_length(end) or length for end, length in zip(ends, lengths, strict=True)]
    low, high = lengths
    return (low, high) if low is not None and high is not None and 0 < low <= high else None


def _points(
    keys: Keys, table: BodyTable, sizes: tuple[str, ...], point: Point
) -> tuple[BodyPoint, ...]:
    """Pick the made sizes out of every row of a table."""
    if not table.sizes:
        return ()
    names = tuple(table.size(one) for one in sizes)
    for one, name in zip(sizes, names, strict=True):
        if name is None:
            keys.report(UnknownEntry("size", one, table.sizes), "sizes", "body")
            return ()
    at = [table.sizes.index(name) for name in names if name is not None]
    return tuple(_point(row, at, point) for row in table.rows.values())


def _point(row: BodyRow, at: list[int], point: Point) -> BodyPoint:
    return BodyPoint(
        name=row.point,
        values_mm=tuple(row.at(i, point) for i in at),
        low_mm=tuple(row.mm[i][0] for i in at),
        high_mm=tuple(row.mm[i][1] for i in at),
        recalled=tuple(row.confidence[i] != "read" for i in at),
        source=row.source,
        joined=row.source if row.joined else "",
    )


def _own_points(
    keys: Keys, sizes: tuple[str, ...], own_sizes: tuple[str, ...], point: Point
) -> tuple[BodyPoint, ...]:
    """Read `[body]`: a list of lengths a point, or one length for all sizes."""
    columns = own_sizes or sizes
    places = [columns.index(one) for one in sizes if one in columns]
    if len(places) != len(sizes):
        missing = next(one for one in sizes if one not in columns)
        keys.report(UnknownEntry("size", missing, columns), "body", "sizes")
        return ()
    found = []
    for name in keys.table("body"):
        if name == "sizes":
            continue
        ranges = _own_ranges(keys, name, len(columns))
        if ranges is not None:
            row = _own_row(name, ranges, "the front matter")
            found.append(_point(row, places, point))
    return tuple(found)


def _own_ranges(keys: Keys, name: str, size_count: int) -> tuple[Range, ...] | None:
    value = keys.value("body", name)
    if not isinstance(value, list):
        one = keys.quantity(_range, A_LENGTH, "body", name)
        return None if one is None else (one,) * size_count
    if len(value) != size_count:
        finding = SizeListLength(keys.words("body", name), len(value), size_count)
        keys.report(finding, "body", name)
        return None
    ranges = [keys.quantity(_range, A_LENGTH, "body", name, at) for at in range(len(value))]
    known = tuple(one for one in ranges if one is not None)
    return known if len(known) == len(ranges) else None
