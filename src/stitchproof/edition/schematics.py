"""The schematics of an edition: each piece that has an outline and a whole gauge.

A piece may be made of several fabrics, one below each deeper heading: a hat and its brim. Its rows
are then as high as the swatch of their own heading says; a heading without a swatch is of the
fabric of the piece.
"""

from collections.abc import Mapping
from types import MappingProxyType

from stitchproof.drawing.outline import Gauge, Gauges
from stitchproof.drawing.schematic import Schematic, schematic
from stitchproof.edition.matter import Matter
from stitchproof.edition.model import SIZE, Figure, Table
from stitchproof.edition.pieces import PieceParts, parts_of_pieces, title_of
from stitchproof.fabric.proof import PieceShape
from stitchproof.language.write.numbers import length_words
from stitchproof.sizing.model import Swatch


def schematics(matter: Matter) -> Mapping[str, Figure]:
    """Draw every piece that can be drawn, by its heading, in the order of the text."""
    figures: dict[str, Figure] = {}
    parts = parts_of_pieces(matter.manuscript, matter.proof)
    for piece in matter.proof.pieces:
        of_piece = parts.get(piece.name, PieceParts(piece.name, {}))
        heading = of_piece.heading or piece.name
        title = piece.title if heading == piece.name else title_of(heading)
        named = PieceShape(heading, title, piece.shapes)
        drawn = schematic(
            named,
            _gauges(matter, piece, of_piece),
            matter.names,
            matter.groups,
            sewn=matter.sewn,
        )
        if drawn is not None:
            figures[heading] = _figure(drawn, title or heading, matter)
    return MappingProxyType(figures)


def named_schematics(matter: Matter) -> Mapping[str, Figure]:
    """Give the same drawings by the heading of the piece and by its title."""
    figures = schematics(matter)
    return MappingProxyType({**{title_of(name): f for name, f in figures.items()}, **figures})


# --------------------------------------------------------------------------- fabrics of a piece


def _gauges(matter: Matter, piece: PieceShape, parts: PieceParts) -> tuple[Gauges | None, ...]:
    """Give the gauge of every row of a piece in every size; None where it is not certain."""
    whole = _gauge(matter.sizing.swatch_of(piece.name, piece.title)) or _gauge(
        matter.sizing.swatch_of(parts.heading, title_of(parts.heading))
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


def _figure(drawn: Schematic, title: str, matter: Matter) -> Figure:
    caption = f"{title or 'The piece'}{', before seaming' if matter.sewn else ''}"
    head = (SIZE, *(_sentence(measure.name) for measure in drawn.measures))
    cells = zip(*(measure.lengths_mm for measure in drawn.measures), strict=True)
    rows = tuple(
        (name or "One size", *(length_words((length,)) for length in row))
        for name, row in zip(matter.names, cells, strict=True)
    )
    return Figure(
        caption=caption,
        svg=drawn.svg,
        alt=drawn.alt,
        table=Table(f"Measurements: {caption}", head, rows),
        letters=() if drawn.told else tuple(measure.letter for measure in drawn.measures),
        told=drawn.told,
    )


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"
