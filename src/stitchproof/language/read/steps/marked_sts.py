"""Stitches that markers go into, told one by one: "8th st (back), 15th st and 30th st"."""

from typing import TYPE_CHECKING, Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.places import EACH
from stitchproof.language.read.steps.reader import OPENING, STOPS, Reader
from stitchproof.language.read.steps.stitches import read_stitch, starts_stitch
from stitchproof.language.tree import STITCH, Nth, Origin

if TYPE_CHECKING:
    from stitchproof.language.number import Number

_JOINTS: Final = frozenset((",", "and", "&", ";"))


def read_marked_sts(reader: Reader) -> Nth | None:
    """Read "the following sts: 8th, 15th and 30th", "sts 8, 15 and 30"; None where none are told.

    One of them alone is a place like any other, and is left to those that read places.
    """
    start = reader.at
    numbered = _pass_lead(reader)
    found: list[Number] = []
    while True:
        number = reader.number() if numbered else reader.ordinal()
        if number is None:
            break
        found.append(number)
        reader.take()
        _pass_stitch(reader)
        behind = reader.at
        if not reader.accept_any(_JOINTS):
            break
        reader.pass_over(_JOINTS | {"the", "in"})
        if (reader.number() if numbered else reader.ordinal()) is None:
            reader.at = behind
            break
    if len(found) > 1 and _pass_row(reader):
        return Nth(tuple(found), STITCH, Origin.EDGE)
    reader.at = start
    return None


def _pass_lead(reader: Reader) -> bool:
    """Go past "each of the following sts:", "sts"; tell whether plain numbers follow it."""
    here = reader.at
    if reader.text() in EACH and reader.text(1) == "of":
        reader.take(2)
    reader.accept("the")
    if reader.accept("following"):
        reader.accept_any(STITCHES)
        reader.accept(":")
        reader.accept("the")
        return False
    if reader.text() in STITCHES and reader.number(1) is not None:
        reader.take()
        return True
    reader.at = here
    reader.accept("the")
    return False


def _pass_stitch(reader: Reader) -> None:
    """Go past "st (back/sleeve)" behind an ordinal."""
    if not reader.accept_any(STITCHES) and starts_stitch(reader):
        read_stitch(reader)
    partner = reader.partner[reader.at] if reader.text() in OPENING else -1
    reader.take(max(partner + 1 - reader.at, 0))


def _pass_row(reader: Reader) -> bool:
    """Go past "of Rnd 1", the row that was worked last; tell whether the clause ends then."""
    if reader.text() == "of" and reader.text(1) in ROWS | _LAST:
        reader.take(2)
        reader.accept_any(ROWS)
        reader.take(reader.number() is not None)
    return reader.ended() or reader.text() in STOPS


_LAST: Final = word_set("last previous this")
