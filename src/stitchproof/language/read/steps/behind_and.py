"""What "and" joins: another place of the last step, or a place before its own stitches."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.places import EACH, IN
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader
from stitchproof.language.read.steps.remarks import is_remark
from stitchproof.language.read.steps.spaces_ahead import EXTENTS, SPACES, space_behind
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import (
    Each,
    First,
    Group,
    Make,
    Next,
    Thing,
)


def into_space(reader: Reader, again: Make | Group) -> bool:
    """Tell whether "ch-1 sp" behind "next dc and" is where the same is worked once more."""
    at = again.at
    spaces = {Thing.SPACE, Thing.CHAIN_SPACE}
    if isinstance(at, Each) and at.noun.thing not in spaces and reader.text() in SPACES:
        return not reader.text(1) or reader.text(1) in EXTENTS | STOPS | CLOSING
    if not isinstance(at, Next | First) or at.noun.thing in spaces:
        return False
    return space_behind(reader, 0)


def places_listed(reader: Reader) -> bool:
    """Tell whether places of the last step go on: "in first dc, each of next 5 tr and next dc"."""
    if reader.text() not in _LISTED | IN:
        return False
    joined = False
    i = 0
    while (
        i < _FAR
        and reader.token(i) is not None
        and (reader.text(i) in {",", "-", "&"} or not _ends(reader, i))
    ):
        joined = joined or reader.text(i) in {"and", "&"}
        opens = reader.text(i) in {"and", "&", ","} and reader.text(i - 1) != ","
        follows = reader.text(i + 1 + (reader.text(i + 1) in {"and", "&"}))
        if opens and follows not in _LISTED | IN | {"last"}:
            return joined and reader.text(i) == ","
        named = reader.text(i) in _OF_PLACES | STITCHES or starts_stitch(reader, i)
        counted = reader.number(i) is not None and reader.text(i - 1) in _BEFORE_A_NUMBER
        if not (named or counted):
            return False
        i += 1
    return joined


_FAR: Final = 40  # words of a list of places
_LISTED: Final = EACH | word_set("next foll following")
_OF_PLACES: Final = (
    IN
    | _LISTED
    | word_set("and & , the of first last same ch - sp space loop lp tch turning corner")
)
_BEFORE_A_NUMBER: Final = _LISTED | word_set("first last the of - ch")


def _ends(reader: Reader, ahead: int) -> bool:
    return reader.text(ahead) in STOPS | CLOSING


def place_first(reader: Reader) -> bool:
    """Tell whether "in next sp work (...)" follows rather than another place of the last step."""
    for i in range(1, 8):
        if reader.text(i) in {"work", "make"}:
            return True
        if reader.text(i) == "(":
            return _holds_steps(reader, reader.at + i)
        if reader.text(i) in {",", ";", "."}:
            return False
    return False


def _holds_steps(reader: Reader, i: int) -> bool:
    """Tell whether a bracket holds steps, not a remark and not what a chain counts as."""
    close = reader.partner[i]
    if close <= i + 1:
        return False
    words = {reader.tokens[j].text for j in range(i, min(close, i + 8))}
    return not words & {"count", "counts", "counted", "="} and not is_remark(reader, i + 1, close)
