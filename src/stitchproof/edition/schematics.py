"""The schematics of an edition: each piece that has an outline and a whole gauge."""

from collections.abc import Mapping
from types import MappingProxyType

from stitchproof.drawing.outline import Gauge
from stitchproof.drawing.schematic import Schematic, schematic
from stitchproof.edition.matter import Matter
from stitchproof.edition.model import Figure, Table
from stitchproof.language.write.numbers import length_words


def schematics(matter: Matter) -> Mapping[str, Figure]:
    """Draw every piece that can be drawn, by its heading, in the order of the text."""
    figures: dict[str, Figure] = {}
    for piece in matter.proof.pieces:
        swatch = matter.sizing.swatch_of(piece.name, piece.title)
        if swatch is None or not swatch.sts_per_mm or not swatch.rows_per_mm:
            continue
        gauge = Gauge(float(1 / swatch.sts_per_mm), float(1 / swatch.rows_per_mm))
        drawn = schematic(piece, gauge, matter.names, matter.groups)
        if drawn is not None:
            figures[piece.name] = _figure(drawn, piece.title or piece.name, matter.names)
    return MappingProxyType(figures)


def named_schematics(matter: Matter) -> Mapping[str, Figure]:
    """Give the same drawings by the heading of the piece and by its title."""
    figures = schematics(matter)
    drawn = [piece for piece in matter.proof.pieces if piece.name in figures]
    return MappingProxyType(
        {
            **{piece.title: figures[piece.name] for piece in reversed(drawn)},
            **figures,
        }
    )


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
