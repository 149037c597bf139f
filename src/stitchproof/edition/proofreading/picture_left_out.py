"""A picture that the edition cannot show."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.edition.pieces import picture_target, piece_names
from stitchproof.language.manuscript import BlockKind, Manuscript


@facts
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


def find(manuscript: Manuscript) -> Iterator[Diagnostic]:
    """Look at every picture: only schematics of pieces that are there can be shown."""
    pictures = [b for b in manuscript.blocks if b.kind is BlockKind.PICTURE]
    pieces = piece_names(manuscript) if pictures else {}
    for block in pictures:
        target, piece = picture_target(manuscript.text[block.place.start : block.place.end])
        if piece not in pieces:
            titles = tuple(dict.fromkeys(pieces.values()))
            yield Diagnostic(finding=PictureLeftOut(target, titles), place=block.place)
