"""What is left to the maker: "sc or hdc in each st", "in any colour you like"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Frame, Reader
from stitchproof.language.read.steps.stitches import (
    StitchName,
    longest,
    read_stitch,
    starts_stitch,
)
from stitchproof.language.tree import Remark, Steps, Stitch

_LEADS: Final = word_set("in with using")
_COLOURS: Final = word_set("color colors colour colours yarn yarns shade shades")
_LONGEST: Final = 12  # tokens


def read_choice(reader: Reader, named: StitchName) -> tuple[Stitch, ...] | None:
    """Read "or hdc" behind "sc": empty where no other is named; None for what is no choice."""
    others: list[Stitch] = []
    while (reader.text() == "or" and starts_stitch(reader, 1)) or _in_a_list(reader):
        reader.take()
        other = read_stitch(reader)
        if other is None or not _is_plain(other) or not _is_plain(named):
            return None
        others.append(other.stitch)
    return tuple(others)


def _in_a_list(reader: Reader) -> bool:
    """Tell whether ", dc or tr" stands there: one more of a choice, not the next step."""
    found = longest(reader.known, reader, 1) if reader.text() == "," else None
    behind = 0 if found is None else 1 + found[1]
    return behind > 0 and reader.text(behind) == "or" and starts_stitch(reader, behind + 1)


def _is_plain(named: StitchName) -> bool:
    return named.special is None and not named.change and named.stitch == Stitch(named.stitch.kind)


def read_any_colour(reader: Reader, frame: Frame) -> Steps | None:
    """Read "in any colour you like", which changes nothing counted; None where it is not there."""
    _ = frame
    if reader.text() not in _LEADS or reader.text(1) != "any" or reader.text(2) not in _COLOURS:
        return None
    start = reader.at
    while not reader.ended() and reader.text() not in STOPS | CLOSING | {"("}:
        if reader.at - start >= _LONGEST or reader.number() is not None or starts_stitch(reader):
            reader.at = start
            return None
        reader.take()
    return (Remark(reader.words(start), reader.span(start)),)
