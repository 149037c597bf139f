"""A piece with an outline that no whole gauge belongs to."""

from collections.abc import Iterator
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Address, Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.language.manuscript import BlockKind, FrontMatter, Manuscript
from stitchproof.language.tree import Chain, Join, JoinYarn, MagicRing, Section
from stitchproof.sizing.model import Sizing, Swatch

_PIECE: Final = 2  # the level of headings that begin a piece; deeper ones go on with it


@facts
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


def find(manuscript: Manuscript, sizing: Sizing) -> Iterator[Diagnostic]:
    """Look at every piece that begins on its own foundation, where swatches are given at all."""
    if not sizing.swatches:
        return
    text = manuscript.text
    headings = {
        text[block.place.start : block.place.end]: block.place
        for block in manuscript.blocks
        if block.kind is BlockKind.HEADING
    }
    for section in manuscript.sections:
        if section.level > _PIECE or not _has_foundation(section):
            continue
        swatch = sizing.swatch_of(section.name, section.title)
        missing = [noun for noun in ("stitches", "rows") if _is_untold(manuscript, swatch, noun)]
        if missing:
            yield Diagnostic(
                finding=PieceNotDrawn(swatch.name if swatch else "", " and no ".join(missing)),
                place=headings.get(section.name, sizing.place),
                address=Address(section.name),
            )


def _is_untold(manuscript: Manuscript, swatch: Swatch | None, noun: str) -> bool:
    """Say whether a swatch lacks a count, and sizing has not told so already."""
    if swatch is None:
        return True
    if swatch.stitches if noun == "stitches" else swatch.rows:
        return False
    front = manuscript.front
    if front is None:
        return True
    written = ("swatch", swatch.name, noun) in front.places
    return not written and swatch.name not in _needed(front, noun)


def _needed(front: FrontMatter, noun: str) -> frozenset[object]:
    """Give the swatches whose stitches or rows a count is fitted to."""
    counts = front.table.get("counts")
    key = "across" if noun == "stitches" else "along"
    rules = counts.values() if isinstance(counts, dict) else ()
    named = (rule.get(key) for rule in rules if isinstance(rule, dict))
    return frozenset(name for name in named if isinstance(name, str))


def _has_foundation(section: Section) -> bool:
    """Say whether a section makes its own first edge rather than taking up another's."""
    first = section.courses[0].does if section.courses else ()
    if not isinstance(first, tuple):
        return False
    made = any(isinstance(step, Chain | MagicRing) for step in first)
    return made and not any(isinstance(step, Join | JoinYarn) for step in first)
