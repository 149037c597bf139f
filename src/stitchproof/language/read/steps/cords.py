"""Chains made apart to a length: "make two 25 cm lengths of ch for the ties"."""

from typing import Final

from stitchproof.language.number import NumberKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import Remark, Steps

_MAKING: Final = word_set("make making work crochet")
_CHAINS: Final = CHAINS | word_set("chs chains cord cords")
_STOPS: Final = frozenset((".", ";", "!"))
_AND: Final = frozenset((",", "and", "("))


def read_cord(reader: Reader, frame: Frame) -> Steps | None:
    """Keep a chain of some centimetres as a remark; None where it, or more, is worked."""
    if reader.text() not in _MAKING or frame.marks or reader.depth:
        return None
    chained, measured, end = False, False, 0
    ahead = 1
    while reader.text(ahead) and reader.text(ahead) not in _STOPS:
        text, token = reader.text(ahead), reader.token(ahead)
        if text in _AND and chained and measured and not end:
            end = ahead
        chained = chained or text in _CHAINS
        number = None if token is None else token.number
        measured = measured or (number is not None and number.kind is NumberKind.LENGTH)
        ahead += 1
    if not (chained and measured):
        return None
    end = end or ahead
    while reader.text(ahead):
        ahead += 1
    # what is worked along it would be worked on the piece
    if any(starts_stitch(reader, i) and reader.text(i) not in _CHAINS for i in range(1, ahead)):
        return None
    start = reader.at
    reader.take(end)
    return (Remark(reader.words(start), reader.span(start)),)
