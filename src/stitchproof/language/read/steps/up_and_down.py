"""Row ends along several edges: "up one edge and down the other"."""

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.tree import (
    Steps,
)


def read_edges(reader: Reader, frame: Frame) -> Steps | None:
    """Read "up one edge and down the other", before what is worked along them."""
    start = reader.at
    for words, edges in (
        (("up", "one", "edge", "and", "down", "the", "other"), 2),
        (("up", "one", "side", "and", "down", "the", "other"), 2),
        (("down", "one", "edge", "and", "up", "the", "other"), 2),
        (("down", "one", "side", "and", "up", "the", "other"), 2),
        (("up", "one", "edge"), 1),
        (("down", "the", "other", "edge"), 1),
    ):
        if reader.accept(*words):
            frame.edges = edges
            reader.accept_any(word_set("edge side"))
            return ()
    _ = start
    return None
