"""A picture that the edition cannot show."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.edition.body import picture_target
from stitchproof.edition.matter import Matter
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
    """Look at every picture: only schematics of pieces that are there can be shown."""
    sections = matter.manuscript.sections
    known = {name for section in sections for name in (section.name, section.title) if name}
    for block in matter.manuscript.blocks:
        if block.kind is not BlockKind.PICTURE:
            continue
        target, piece = picture_target(matter.manuscript.text[block.place.start : block.place.end])
        if piece not in known:
            pieces = tuple(section.title for section in sections if section.title)
            yield Diagnostic(finding=PictureLeftOut(target, pieces), place=block.place)
