"""What "and" joins: another place of the last step, or a place before its own stitches."""

from stitchproof.language.read.steps.nouns import space_behind
from stitchproof.language.read.steps.reader import (
    Reader,
)
from stitchproof.language.read.steps.remarks import is_remark
from stitchproof.language.tree import (
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
    if not isinstance(at, Next | First) or at.noun.thing in spaces:
        return False
    return space_behind(reader, 0)


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
