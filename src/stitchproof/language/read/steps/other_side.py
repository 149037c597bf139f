"""Going to the other side of the foundation: "turn the work so you can go along the bottom"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import CLOSING, OPENING, Frame, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import Remark, Steps

_GOING: Final = word_set(
    "turn turning rotate rotating flip flipping pivot pivoting swivel spin go going come continue"
    " continuing keep keeping carry carrying work working crochet crocheting round around move"
)
_OTHER: Final = word_set("other opposite bottom underside unused free lower")
_PLAIN: Final = word_set(
    "the your my work piece hook so that you we can will to and on in into along down up around"
    " round across over of at back side edge loop loops lp lps foundation starting beginning beg"
    " initial base original upside end corner it now again then all way remaining unworked"
    " is are be lies top facing faces face upwards uppermost"
)
_PIECES: Final = word_set("sleeve sleeves panel hat cuff body blanket square cup bag base it")
_BEGUN: Final = word_set("foundation starting beginning original base initial")
_UP: Final = word_set("top up upwards uppermost")
_ENDS: Final = frozenset((",", ";", ".", ":", "–", "—", "!")) | CLOSING | OPENING.keys()
_LONGEST: Final = 20  # tokens


def read_other_side(reader: Reader, frame: Frame) -> Steps | None:
    """Read "go along the other side of the chain" as a clause: what follows is worked there."""
    _ = frame
    length = _clause(reader)
    if not length:
        return None
    start = reader.at
    reader.take(length)
    reader.opposite = True
    remark = Remark(reader.words(start), reader.span(start))
    reader.accept("with")  # "along the bottom of the ch with 1 sc in each of the next 5 ch"
    return (remark,)


def _clause(reader: Reader) -> int:
    """Count the tokens of a clause that only goes to the other side of the chain; 0: it does not.

    Where the chain is not named, the line has to work into it before.
    """
    if reader.text() not in _GOING:
        return 0
    length = 0
    while reader.text(length) and reader.text(length) not in _ENDS and length < _LONGEST:
        if reader.text(length) == "with":
            if reader.number(length + 1) is None and not starts_stitch(reader, length + 1):
                return 0
            break
        length += 1
    words = {reader.text(i) for i in range(length)}
    if not words <= _GOING | _OTHER | _PLAIN | CHAINS | _PIECES:
        return 0
    turned = bool(words & _BEGUN) and bool(words & _UP)  # "so that the foundation ch is at the top"
    if not turned and not words & (_OTHER | {"upside"}):
        return 0
    sided = ({"other", "opposite"} & words and "side" in words) or {"upside", "down"} <= words
    on_chain = any(token.text == "hook" for token in reader.tokens[: reader.at])
    return length if words & CHAINS or (sided and on_chain) else 0
