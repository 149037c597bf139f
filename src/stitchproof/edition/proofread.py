"""Reading an edition over before it is published."""

from collections.abc import Sequence

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.edition.proofreading import (
    character_not_printed,
    picture_left_out,
    piece_not_drawn,
    unsigned_edition,
)
from stitchproof.fabric.proof import PieceShape
from stitchproof.language.manuscript import Manuscript
from stitchproof.sizing.model import Sizing


def proofread(
    manuscript: Manuscript, sizing: Sizing, pieces: Sequence[PieceShape] = ()
) -> tuple[Diagnostic, ...]:
    """Find what a published edition of this manuscript would lack or could not show."""
    return (
        *unsigned_edition.find(manuscript, sizing),
        *piece_not_drawn.find(manuscript, sizing, pieces),
        *picture_left_out.find(manuscript),
        *character_not_printed.find(manuscript),
    )
