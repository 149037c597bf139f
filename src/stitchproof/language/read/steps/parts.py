"""Parts of a piece that words of place name: "of body", "across back neck", "down left front"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader

_PARTS: Final = word_set(
    "body bodice yoke sleeve sleeves cuff cuffs rib ribbing ribbed hem waistband waist band"
    " strip bands collar neck neckline neckband front fronts back armhole armholes armscye"
    " underarm shoulder underarms shoulders side sides edge edges edging border panel panels"
    " piece hood strap straps skirt leg thumb opening top bottom buttonband placket blanket"
    " shawl scarf hat brim flap pocket tail spine cloth dishcloth washcloth square cushion bag"
    " instep foot sole heel toe palm crown"
)
_WHICH: Final = word_set(
    "the this that your a another third left right other first second 1st 2nd lower upper long"
    " short center centre main same entire whole one both next last v button outer inner inside"
    " outside straight curved raw finished remaining opposite each slanted diagonal cast-on new"
    " face"
)
_NO_PART: Final = word_set("loop loops lp lps post posts bump bumps of ridge - row rnd round")
_FURTHEST: Final = 6  # words of such a name


def part_length(reader: Reader, ahead: int = 0) -> int:
    """Count the tokens of the name of a part from some way ahead; 0 where none stands there."""
    length = 0
    which = int(reader.text(ahead) in _HALVES and reader.text(ahead + 1) == "half")
    if reader.text(ahead + which) == "half":  # "half of back", "other half of back", "half back"
        named = which + 1 + (reader.text(ahead + which + 1) == "of")
        behind = part_length(reader, ahead + named)
        return behind + named if behind else 0
    for i in range(_FURTHEST):
        text = reader.text(ahead + i)
        if text in _PARTS:
            length = i + 1
        elif text not in _WHICH or not text:
            break
    if length and reader.text(ahead + length) == "of":  # "back of neck"
        behind = _one_part(reader, ahead + length + 1)
        return length + 1 + behind if behind else 0
    return 0 if not length or reader.text(ahead + length) in _NO_PART else length


_HALVES: Final = word_set("other left right first second the one")


def names_part(reader: Reader, ahead: int) -> bool:
    """Tell whether one word some way ahead names a part: "Front" of "last Front row"."""
    return reader.text(ahead) in _PARTS


def accept_behind_part(reader: Reader) -> bool:
    """Go past "after First Shoulder", "beyond the left strap", behind which work goes on."""
    ahead = 2 if reader.sees("next", "to") else 1
    length = part_length(reader, ahead) if ahead > 1 or reader.text() in _BEYOND else 0
    reader.take(ahead + length if length else 0)
    return length > 0


_BEYOND: Final = word_set("after past beyond beside following from")


def _one_part(reader: Reader, ahead: int) -> int:
    """Count the tokens of "the neck" some way ahead; 0 where no part is named."""
    the = 1 if reader.text(ahead) in {"the", "your"} else 0
    named = reader.text(ahead + the) in _PARTS | {"head"}
    return the + 1 if named and reader.text(ahead + the + 1) not in _NO_PART else 0


def at_edge(reader: Reader) -> int:
    """Count the tokens of "at neck edge" behind a step: which end it is, its place in the row says.

    0 where more words follow, or none of these stand there.
    """
    length = at_edge_from(reader, 0)
    return length if reader.text(length) in STOPS | CLOSING | {""} else 0


def at_edge_from(reader: Reader, ahead: int) -> int:
    """Count the tokens of "at neck edge" some way ahead."""
    length = 1 + part_length(reader, ahead + 1) if reader.text(ahead) == "at" else 0
    edge = length > 1 and reader.text(ahead + length - 1) in {"edge", "end"}
    return length if edge else 0


def accept_part(reader: Reader) -> bool:
    """Go past the name of a part: "across back", "around armhole opening"."""
    length = part_length(reader)
    reader.take(length)
    return length > 0


def accept_of_part(reader: Reader) -> bool:
    """Go past "of body", "along sleeve edge" behind a place."""
    if reader.text() not in {"of", "from", "on", "along", "at", "over", "above"}:
        return False
    length = part_length(reader, 1)
    if reader.text(1 + length) == "lining":
        return False  # a piece of its own, not a part of this one
    length += length > 0 and reader.text(1 + length) == "seam"  # "from back seam"
    if length:
        reader.take(1 + length)
        reader.part_end = reader.at
    return length > 0
