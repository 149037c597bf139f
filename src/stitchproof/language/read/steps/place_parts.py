"""Parts of a place that change nothing: "across" behind a count."""

from typing import Final

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.nouns import chain_space_ahead, read_nouns
from stitchproof.language.read.steps.parts import part_length
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader
from stitchproof.language.read.steps.rows_below import limb_ahead
from stitchproof.language.read.steps.same import stops_here
from stitchproof.language.read.steps.sides import along_foundation
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.tree import (
    STITCH,
    Each,
    Marked,
    Next,
    Noun,
    Ring,
    Target,
    Thing,
)

_ROWS: Final = word_set("row rows rnd rnds round rounds")


def spread(reader: Reader, target: Next) -> Target:
    """Go past "across" behind a count of places, which says nothing more; tell the other side."""
    below = along_foundation(reader, target)
    if below is not None:
        return below
    if reader.text() == "around" and limb_ahead(reader, 1):
        return target  # "12 sts around first leg" are on another edge
    if reader.text() in {"across", "around"}:
        follows = reader.text(1)
        if not follows or follows in STOPS or follows in CLOSING or follows in _ROWS:
            reader.take()
            reader.accept_any(_ROWS)
        else:
            reader.take(1 + length if (length := part_length(reader, 1)) else 0)
    elif reader.text() == "to" and target.number != ONE and _to_space(reader):
        read_until(reader)  # "dc in next 21 dc to first ch-1 sp": the number says how far
    return target


def _to_space(reader: Reader) -> bool:
    """Tell whether "to first ch-1 sp", "to next marker" stands there."""
    far = {reader.text(i) for i in range(2, 7)}
    return (
        reader.text(1) in {"first", "next", "last"} and bool(far & _PLACES) and starts_until(reader)
    )


_PLACES: Final = word_set("sp space marker")


def is_single(reader: Reader) -> bool:
    """Tell whether "corner", "gap", "ch-3 sp" stands behind "other": the one that comes next."""
    return reader.text(1) in {"corner", "gap", "sp", "space", "loop"} or reader.text(1) in CHAINS


def of_noun(reader: Reader, noun: Noun) -> Target:
    """Give the place that a noun alone names: the next one, or each where it is plural."""
    if noun.thing in _SPACE_THINGS and reader.tokens[reader.at - 1].text in _PLURALS:
        return Each(noun)  # "3 sc in corners"
    if noun.thing is Thing.MARKED:
        return Marked()
    if noun.thing is Thing.RING:
        return Ring()
    return Next(ONE, noun)


_SPACE_THINGS: Final = frozenset((Thing.SPACE, Thing.CHAIN_SPACE))
_PLURALS: Final = word_set("corners sps spaces lps loops")


def counted_noun(reader: Reader) -> tuple[Number, Noun] | None:
    """Read "3 sts", "st", "ch-2 sp", "3-ch sp", "7" behind "next", "first" or "last"."""
    number = ONE
    if reader.number() is not None and not chain_space_ahead(reader):
        number = reader.number() or ONE
        reader.take()
        if stops_here(reader) or reader.text() in {"tog", "together"}:
            return number, STITCH
    elif stops_here(reader):
        return ONE, STITCH
    noun = read_nouns(reader, each=False)
    return None if noun is None else (number, noun)


def joined_by_and(reader: Reader) -> bool:
    """Tell whether an "and" stands before the one word of a place."""
    return reader.at > 1 and reader.tokens[reader.at - 2].text in {"and", "&"}


def accept_across(reader: Reader) -> bool:
    """Go past "across", "around" where the step ends with it."""
    closes = not reader.text(1) or reader.text(1) in STOPS
    return closes and bool(reader.accept_any(_EXTENTS))


_EXTENTS: Final = word_set("across around")
