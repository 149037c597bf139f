"""Reading an edition over before it is published."""

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.edition.matter import Matter
from stitchproof.edition.proofreading import (
    character_not_printed,
    picture_left_out,
    piece_not_drawn,
    unsigned_edition,
)
from stitchproof.fabric.proof import Proof
from stitchproof.language.manuscript import Manuscript
from stitchproof.sizing.model import Sizing


def proofread(manuscript: Manuscript, sizing: Sizing, proof: Proof) -> tuple[Diagnostic, ...]:
    """Find what a published edition of this manuscript would lack or could not show."""
    matter = Matter(manuscript, sizing, proof)
    return (
        *unsigned_edition.find(matter),
        *piece_not_drawn.find(matter),
        *picture_left_out.find(matter),
        *character_not_printed.find(matter),
    )
