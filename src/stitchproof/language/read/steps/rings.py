"""Rings of yarn to begin in, by any of their names: "magic ring", "sliding loop", "slip ring"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import Reader

RINGS: Final = word_set("ring circle loop")
_LONGEST: Final = 4  # tokens: "slip-knot ring"
_SHORT: Final = word_set("mr mc")
_OF_YARN: Final = word_set("magic adjustable sliding slip slipped yarn thread")


def is_space(reader: Reader) -> bool:
    """Tell whether "loop" alone is one of chains: the line speaks of "first loop", "each loop"."""
    if reader.text() != "loop":
        return False
    tokens, at = reader.tokens, reader.at
    near = range(max(at - _NEAR, 1), min(at + _NEAR, len(tokens)))
    return any(tokens[i].text in _LOOPS and tokens[i - 1].text in _WHICH and i != at for i in near)


_NEAR: Final = 60  # tokens
_LOOPS: Final = word_set("loop loops lp lps")
_WHICH: Final = word_set("first next each every last following")


def ring_length(reader: Reader, ahead: int = 0) -> int:
    """Count the tokens of a ring made of yarn some way ahead; 0 where none is named there."""
    first = reader.text(ahead)
    if first in _SHORT:
        return 1
    if first not in _OF_YARN:
        return 0
    length = 1
    while reader.text(ahead + length) in {"-", "knot"} and length < _LONGEST:
        length += 1
    named = reader.text(ahead + length)
    if named not in RINGS or (first in {"slip", "slipped"} and named == "loop"):
        return 0  # a slip loop is the knot on the hook
    return length + 1
