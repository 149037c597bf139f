"""Chains that become a ring: "to form a ring", "into a ring", "to work in the round"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.new_yarn import JOINERS
from stitchproof.language.read.steps.reader import STOPS, Frame, Reader
from stitchproof.language.tree import Chain, Colour, Remark

ROUNDS: Final = word_set("rnd round ring work rounds")


FORMING: Final = word_set("form make close")


def forms_ring(reader: Reader, frame: Frame) -> bool:
    """Read "to form a ring", "to work in the round"; tell whether chains become a ring by it."""
    if reader.text() == "to" and reader.text(1) in _BEGINNING and _in_rounds(reader):
        return only_chains(frame)
    if reader.text() in INTO or (reader.sees("to", "join") and reader.text(2) in INTO):
        return _into_ring(reader)
    if not (reader.sees("to") or reader.sees("and")) or reader.text(1) not in FORMING:
        return False
    ahead = 2
    while reader.text(ahead) in {"a", "the", "first", "center", "centre"}:
        ahead += 1
    looped = reader.text(ahead) == "loop" and reader.tokens[reader.at - 1].text in JOINERS
    if reader.text(ahead) not in ROUNDS | {"circle", "tube"} and not looped:
        return False
    reader.take(ahead + 1)
    return True


INTO: Final = word_set("in into")


def _into_ring(reader: Reader) -> bool:
    """Go past "into a ring", "to join in a circle" behind what closes a chain."""
    ahead = 3 if reader.text() == "to" else 1
    while reader.text(ahead) in {"a", "the"}:
        ahead += 1
    ends = nothing_behind(reader, ahead + 1) or reader.text(ahead + 1) == "with"
    if reader.text(ahead) not in {"ring", "circle", "round"} or not ends:
        return False
    reader.take(ahead + 1)
    return True


_BEGINNING: Final = word_set("work begin start continue")


_FROM_NOW: Final = word_set("from now here this point on onward onwards")


_HOW: Final = word_set("to work working begin start in the continue")


def _in_rounds(reader: Reader) -> bool:
    """Go past "to work in the round", "to begin working in rounds"."""
    ahead = 1
    while reader.text(ahead) in _HOW:
        ahead += 1
    if reader.text(ahead) not in {"round", "rounds", "rnds", "rnd"}:
        return False
    reader.take(ahead + 1)
    if reader.text() == "from":
        reader.pass_over(_FROM_NOW)
    return True


def nothing_behind(reader: Reader, ahead: int) -> bool:
    """Tell whether the step ends some way ahead."""
    ahead += reader.text(ahead) in {"rnd", "round"}
    return not reader.text(ahead) or reader.text(ahead) in STOPS


def is_long(frame: Frame) -> bool:
    """Tell whether the first chain is longer than one that a round begins with."""
    first = next((step for step in frame.steps if isinstance(step, Chain)), None)
    value = first.count.value if first is not None else ()
    return isinstance(value, tuple) and any(
        isinstance(n, int) and n > _LONGEST_BEGUN for n in value
    )


_LONGEST_BEGUN: Final = 6  # chains


def only_chains(frame: Frame) -> bool:
    """Tell whether the line so far is a foundation chain."""
    chained = any(isinstance(step, Chain) for step in frame.steps)
    return chained and all(isinstance(step, Chain | Remark | Colour) for step in frame.steps)


def forms_round(reader: Reader) -> bool:
    """Tell whether "to work in rounds" comes next, without reading it."""
    here = reader.at
    found = reader.text() == "to" and reader.text(1) in _BEGINNING and _in_rounds(reader)
    reader.at = here
    return found


def forms(reader: Reader) -> bool:
    """Tell whether "to form ring" comes next, without reading it."""
    return reader.text() == "to" and reader.text(1) in FORMING
