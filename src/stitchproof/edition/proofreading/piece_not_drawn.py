"""A piece that no schematic shows: no whole gauge belongs to it, or its outline is not known."""

from collections.abc import Iterator, Sequence
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Address, Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.fabric.proof import PieceShape
from stitchproof.language.manuscript import BlockKind, FrontMatter, Manuscript
from stitchproof.language.tree import (
    Chain,
    Group,
    Join,
    JoinYarn,
    MagicRing,
    Make,
    RepeatRows,
    Ring,
    Section,
    Step,
)
from stitchproof.sizing.model import Sizing, Swatch
from stitchproof.trade.stitches import stitches

_PIECE: Final = 2  # the level of headings that begin a piece; deeper ones go on with it


@facts
class PieceNotDrawn:
    """A piece, its swatch, and what the swatch does not say; nothing: its outline is not known."""

    code: ClassVar[Code] = Code("E503", "piece-not-drawn", Level.NOTE)

    swatch: str
    missing: str

    def message(self) -> str:
        """Say what is missing."""
        if not self.missing:
            return "there is no schematic: where some of the rows of this piece lie is not known"
        if not self.swatch:
            return "there is no schematic: no swatch is given for this piece"
        return f"there is no schematic: swatch `{self.swatch}` says no {self.missing}"

    def help(self) -> str:
        """Say where it is written."""
        if not self.missing:
            return "say at which edge it is shaped, and what each row comes to"
        if self.swatch:
            return f"add `{self.missing}` to `[swatch.{self.swatch}]`"
        return "name its swatch under `[pieces]`"


def find(
    manuscript: Manuscript, sizing: Sizing, pieces: Sequence[PieceShape] = ()
) -> Iterator[Diagnostic]:
    """Look at every piece that begins on its own foundation, where swatches are given at all."""
    unknown = {piece.name for piece in pieces if not any(piece.shapes)}
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
        whole = swatch is not None and bool(swatch.stitches and swatch.rows)
        if missing or (whole and section.name in unknown):
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
    for course in section.courses:
        if isinstance(course.does, RepeatRows):
            return False
        for step in course.does:
            if isinstance(step, Chain | MagicRing) or _founds(step):
                return True
            if isinstance(step, Join | JoinYarn | Make | Group):
                return False
    return False


def _founds(step: Step) -> bool:
    """Say whether stitches stand on nothing below: "fsc 60", "6 sc in magic ring"."""
    if not isinstance(step, Make):
        return False
    row = stitches().get(step.stitch.kind)
    return isinstance(step.at, Ring) or (row is not None and row.consumes == 0 and not row.group)
