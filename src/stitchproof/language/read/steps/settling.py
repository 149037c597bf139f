"""What only the whole of a run of steps shows, put right at its end."""

from stitchproof.language.read.steps.both_ends import settle_ends
from stitchproof.language.read.steps.changed_evenly import settle_changed
from stitchproof.language.read.steps.last_repeat import settle_tails
from stitchproof.language.read.steps.left_between import (
    settle_last_before,
    settle_left,
    settle_rejoined,
)
from stitchproof.language.read.steps.limbs import settle_limbs
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.read.steps.shells import settle_shells
from stitchproof.language.read.steps.slipped import settle_slipped
from stitchproof.language.read.steps.told_twice import settle_told_twice


def settle(reader: Reader, frame: Frame) -> None:
    """Put right what the steps of a run mean beside each other."""
    settle_shells(reader, frame)
    settle_told_twice(reader, frame)
    settle_changed(frame)
    settle_left(frame)
    settle_limbs(frame)
    settle_rejoined(frame)
    settle_last_before(frame)
    settle_slipped(reader, frame)
    settle_tails(frame)
    settle_ends(frame)
