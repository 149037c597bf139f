"""A piece with an outline that no whole gauge belongs to."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Address, Code, Diagnostic, Level
from stitchproof.edition.matter import Matter
from stitchproof.language.manuscript import BlockKind
from stitchproof.language.tree import Chain, Join, JoinYarn, MagicRing, Section

_PIECE: Final = 2  # the level of headings that begin a piece; deeper ones go on with it


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
    """Look at every piece that begins on its own foundation, where swatches are given at all."""
    if not matter.sizing.swatches:
        return
    text = matter.manuscript.text
    headings = {
        text[block.place.start : block.place.end]: block.place
        for block in matter.manuscript.blocks
        if block.kind is BlockKind.HEADING
    }
    for section in matter.manuscript.sections:
        if section.level > _PIECE or not _has_foundation(section):
            continue
        swatch = matter.sizing.swatch_of(section.name, section.title)
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
                place=headings.get(section.name, matter.sizing.place),
                address=Address(section.name),
            )


def _has_foundation(section: Section) -> bool:
    """Say whether a section makes its own first edge rather than taking up another's."""
    first = section.courses[0].does if section.courses else ()
    if not isinstance(first, tuple):
        return False
    made = any(isinstance(step, Chain | MagicRing) for step in first)
    return made and not any(isinstance(step, Join | JoinYarn) for step in first)
