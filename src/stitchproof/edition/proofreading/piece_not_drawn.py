"""A piece with an outline that no whole gauge belongs to."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from stitchproof.base.diagnostics import Address, Code, Diagnostic, Level
from stitchproof.edition.matter import Matter
from stitchproof.language.manuscript import BlockKind


@dataclass(frozen=True, slots=True)
class PieceNotDrawn:
    """A piece, its swatch, and what the swatch does not say."""

    code: ClassVar[Code] = Code("E503", "piece-not-drawn", Level.NOTE)

    swatch: str
    missing: str

    def message(self) -> str:
        """Say what is missing."""
        if not self.swatch:
            return "there is no schematic: no swatch is given for this piece"
        return f"there is no schematic: swatch `{self.swatch}` says no {self.missing}"

    def help(self) -> str:
        """Say where it is written."""
        if self.swatch:
            return f"add `{self.missing}` to `[swatch.{self.swatch}]`"
        return "name its swatch under `[pieces]`"


def find(matter: Matter) -> Iterator[Diagnostic]:
    """Look at every piece that has an outline, where swatches are given at all."""
    if not matter.sizing.swatches:
        return
    text = matter.manuscript.text
    headings = {
        text[block.place.start : block.place.end]: block.place
        for block in matter.manuscript.blocks
        if block.kind is BlockKind.HEADING
    }
    for piece in matter.proof.pieces:
        if not any(piece.shapes):
            continue
        swatch = matter.sizing.swatch_of(piece.name, piece.title)
        missing = [
            noun
            for noun, number in (
                ("stitches", swatch and swatch.stitches),
                ("rows", swatch and swatch.rows),
            )
            if not number
        ]
        if missing:
            yield Diagnostic(
                finding=PieceNotDrawn(swatch.name if swatch else "", " and no ".join(missing)),
                place=headings.get(piece.name, matter.sizing.place),
                address=Address(piece.name),
            )
