"""The schematics of an edition: each piece that has an outline and a whole gauge.

A piece may be made of several fabrics, one below each deeper heading: a hat and its brim. Its rows
are then as high as the swatch of their own heading says; a heading without a swatch is of the
fabric of the piece.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from stitchproof.drawing.outline import Gauge, Gauges
from stitchproof.drawing.schematic import Schematic, schematic
from stitchproof.edition.matter import Matter
from stitchproof.edition.model import Figure, Table
from stitchproof.fabric.outline import makes_stitches
from stitchproof.fabric.proof import PieceShape, WorkedCourse
from stitchproof.language.manuscript import BlockKind
from stitchproof.language.write.numbers import length_words
from stitchproof.sizing.model import Swatch

_PIECE: Final = 2  # the level of headings that begin a piece
_REMARK: Final = re.compile(r"\s*\([^()]*\)\s*$")


@dataclass(frozen=True, slots=True)
class _Parts:
    """A piece: the heading it stands under, and how many rows each section has in each size."""

    heading: str
    rows: Mapping[int, tuple[int | None, ...]]


def schematics(matter: Matter) -> Mapping[str, Figure]:
    """Draw every piece that can be drawn, by its heading, in the order of the text."""
    figures: dict[str, Figure] = {}
    parts = _parts(matter)
    for piece in matter.proof.pieces:
        of_piece = parts.get(piece.name, _Parts(piece.name, {}))
        heading = of_piece.heading or piece.name
        title = piece.title if heading == piece.name else _REMARK.sub("", heading)
        named = PieceShape(heading, title, piece.shapes)
        drawn = schematic(named, _gauges(matter, piece, of_piece), matter.names, matter.groups)
        if drawn is not None:
            figures[heading] = _figure(drawn, title or heading, matter.names)
    return MappingProxyType(figures)


def named_schematics(matter: Matter) -> Mapping[str, Figure]:
    """Give the same drawings by the heading of the piece and by its title."""
    figures = schematics(matter)
    return MappingProxyType(
        {**{_REMARK.sub("", name): f for name, f in figures.items()}, **figures}
    )


# --------------------------------------------------------------------------- fabrics of a piece


def _parts(matter: Matter) -> Mapping[str, _Parts]:
    """Find what belongs to each piece, by the name of its first section."""
    worked = {course.place.start: course for course in matter.proof.courses}
    sections = matter.manuscript.sections
    found: dict[str, _Parts] = {}
    heading, rows = "", dict[int, tuple[int | None, ...]]()
    for block in matter.manuscript.blocks:
        if block.kind is BlockKind.HEADING and block.level <= _PIECE:
            heading = matter.manuscript.text[block.place.start : block.place.end]
            rows = {}
        elif block.course is not None:
            index, _ = block.course
            if not rows:
                found.setdefault(sections[index].name, _Parts(heading, rows))
            course = worked.get(block.place.start)
            more = _rows_of(course, matter.names)
            before = rows.get(index, (0,) * len(matter.names))
            rows[index] = tuple(
                None if a is None or b is None else a + b for a, b in zip(before, more, strict=True)
            )
    return found


def _rows_of(course: WorkedCourse | None, names: tuple[str, ...]) -> tuple[int | None, ...]:
    """Give how many rows a line makes in each size; None where that is not known."""
    if course is None:
        return (None,) * len(names)
    does = course.course.does
    if isinstance(does, tuple) and not makes_stitches(does):
        return (0,) * len(names)
    rows = course.rows or (None,) * len(names)
    return tuple(
        0 if name in course.absent else often for name, often in zip(names, rows, strict=True)
    )


def _gauges(matter: Matter, piece: PieceShape, parts: _Parts) -> tuple[Gauges | None, ...]:
    """Give the gauge of every row of a piece in every size; None where it is not certain."""
    whole = _gauge(matter.sizing.swatch_of(piece.name, piece.title)) or _gauge(
        matter.sizing.swatch_of(parts.heading, _REMARK.sub("", parts.heading))
    )
    own = {index: _own_gauge(matter, index) for index in parts.rows}
    if len({gauge or whole for gauge in own.values()} | {whole}) == 1:
        return (whole,) * len(piece.shapes)
    return tuple(
        _of_rows([(own[index] or whole, rows[size]) for index, rows in parts.rows.items()], shape)
        for size, shape in enumerate(len(s.left) if s else 0 for s in piece.shapes)
    )


def _of_rows(sections: list[tuple[Gauge | None, int | None]], rows: int) -> Gauges | None:
    made: list[Gauge] = []
    for gauge, often in sections:
        if often is None or (gauge is None and often):
            return None
        made += [gauge] * often if gauge else []
    return tuple(made) if len(made) == rows else None


def _own_gauge(matter: Matter, index: int) -> Gauge | None:
    """Give the gauge that `[pieces]` names for a section itself."""
    section = matter.manuscript.sections[index]
    named = matter.sizing.piece_swatch
    key = named.get(section.name) or named.get(section.title)
    return _gauge(matter.sizing.swatches.get(key)) if key else None


def _gauge(swatch: Swatch | None) -> Gauge | None:
    if swatch is None or not swatch.sts_per_mm or not swatch.rows_per_mm:
        return None
    return Gauge(float(1 / swatch.sts_per_mm), float(1 / swatch.rows_per_mm))


# --------------------------------------------------------------------------- figures


def _figure(drawn: Schematic, title: str, names: tuple[str, ...]) -> Figure:
    caption = f"{title or 'The piece'}, before seaming"
    head = ("Size", *(_sentence(measure.name) for measure in drawn.measures))
    cells = zip(*(measure.lengths_mm for measure in drawn.measures), strict=True)
    rows = tuple(
        (name or "One size", *(length_words((length,)) for length in row))
        for name, row in zip(names, cells, strict=True)
    )
    return Figure(caption, drawn.svg, drawn.alt, Table(f"Measurements: {caption}", head, rows))


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"
