"""A picture that the edition cannot show."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.edition.body import picture_target
from stitchproof.edition.matter import Matter
from stitchproof.edition.schematics import named_schematics
from stitchproof.language.manuscript import BlockKind


@dataclass(frozen=True, slots=True)
class PictureLeftOut:
    """What the author points at, and the pieces that could be drawn."""

    code: ClassVar[Code] = Code("E502", "picture-left-out", Level.WARNING)

    target: str
    pieces: tuple[str, ...]

    def message(self) -> str:
        """Say what a maker sees in its place."""
        return f"the picture `{self.target}` is not in the edition; its words stand in its place"

    def help(self) -> str:
        """Name the drawings there are."""
        if not self.pieces:
            return ""
        return f"ask for a drawing of a piece: `schematic: {self.pieces[0]}`"


def find(matter: Matter) -> Iterator[Diagnostic]:
    """Look at every picture."""
    drawn = named_schematics(matter)
    pieces = tuple(dict.fromkeys(piece.title or piece.name for piece in matter.proof.pieces))
    known = tuple(piece for piece in pieces if piece in drawn)
    for block in matter.manuscript.blocks:
        if block.kind is not BlockKind.PICTURE:
            continue
        target, piece = picture_target(matter.manuscript.text[block.place.start : block.place.end])
        if piece not in drawn:
            yield Diagnostic(finding=PictureLeftOut(target, known), place=block.place)
