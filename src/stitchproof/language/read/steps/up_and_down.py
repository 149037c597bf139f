"""Edges that what follows goes along: "up one edge and down the other", "along the other side"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.parts import part_length
from stitchproof.language.read.steps.placed import OTHER_SIDES
from stitchproof.language.read.steps.reader import STOPS, Frame, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.tree import (
    Remark,
    Steps,
)


def read_edges(reader: Reader, frame: Frame) -> Steps | None:
    """Read "up one edge and down the other", before what is worked along them.

    "Along the other side of the ch:" takes what follows there.
    """
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
    length = 1 + part_length(reader, 1)
    named = {reader.text(i) for i in range(length)}
    if length > 1 and reader.text(length) in STOPS | {""} and not named & _OTHER:
        reader.take(length)  # "up right front": which edge the places before it lie along
        return (Remark(reader.words(start), reader.span(start)),)
    reader.take()
    reader.pass_over(_SIDE_WORDS)
    said = reader.words(start)
    if not any(side in said.lower() for side in OTHER_SIDES):
        return None
    reader.opposite = True
    return (Remark(said, reader.span(start)),)


_OTHER: Final = word_set("other opposite one")
_SIDE_WORDS: Final = CHAINS | word_set(
    "the other opposite side edge of underside bottom foundation beginning starting base original"
    " same free remaining unused loops lps"
)
