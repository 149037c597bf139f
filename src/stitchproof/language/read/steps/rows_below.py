"""Another edge that is named behind a place: "of Rnd 2", "of first leg", "between petals"."""

from typing import Final, TypeAlias

from stitchproof.language.number import ONE, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.parts import part_length
from stitchproof.language.read.steps.previous import left_over
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader
from stitchproof.language.read.steps.stitches import read_stitch, starts_stitch
from stitchproof.language.tree import (
    Between,
    Each,
    First,
    Last,
    Make,
    Next,
    Noun,
    On,
    Remark,
    Same,
    Steps,
    Stitch,
    Target,
    Thing,
)

PlainPlace: TypeAlias = Next | Each | Same | First | Last

_ROWS: Final = word_set("row rows rnd rnds round rounds")


OTHERS: Final = word_set(
    "first second third 1st 2nd 3rd other left right next last each one little ring middle index"
)
LIMBS: Final = word_set(
    "leg legs arm arms ear ears earflap earflaps flap flaps foot feet finger toe piece motif square"
    " limb half cup panel lining strap straps"
)
_STRAPS: Final = frozenset(("strap", "straps"))
_OF: Final = word_set("of on from around across along")


def _at_base(reader: Reader, target: PlainPlace) -> Target:
    """Read "at base of little finger": the chains that lie across there."""
    start = reader.at
    reader.take(3 if reader.text(1) == "base" else 4)
    reader.accept("the")
    limb = reader.at
    reader.pass_over(OTHERS)
    if reader.accept_any(LIMBS):
        return On(target, piece=reader.words(limb))
    reader.at = start
    return target


def read_on(reader: Reader, target: PlainPlace) -> Target:
    """Read "of Rnd 2", "of first leg" behind a place: another edge than the live one."""
    if _pass_petals(reader):
        return Between(Next(plain(2), Noun(Thing.GROUP)))
    if reader.sees("at", "base", "of") or reader.sees("at", "the", "base", "of"):
        return _at_base(reader, target)
    if reader.text() not in _OF:
        return target
    at_side = side_of_part(reader, 1)
    if at_side:
        return On(target, piece=at_side)
    ahead = 2 if reader.text(1) == "the" else 1
    row = reader.number(ahead + 1)
    named = reader.text() in {"of", "from", "on"} and reader.text(ahead) in _ROWS
    if named and row is not None and not left_over(reader):
        reader.take(ahead + 2)
        _pass_petals(reader)
        return On(target, row)
    start = reader.at + ahead
    if reader.text(ahead) in OTHERS or reader.ordinal(ahead) is not None:
        ahead += 1
    ahead += reader.text(ahead) == "pocket" and reader.text(ahead + 1) in LIMBS
    measured = reader.text() == "from" and reader.text(ahead) in _STRAPS  # "skip 17 sts from"
    if reader.text(ahead) not in LIMBS or measured:
        return target
    reader.take(ahead + 1)
    reader.accept_any(_FLAPS)
    return On(target, piece=reader.words(start))


def side_of_part(reader: Reader, ahead: int = 0) -> str:
    """Read "side of opening", "corner of thumb hole": one place there, in the author's words."""
    if reader.text(ahead) not in {"side", "corner", "edge"} or reader.text(ahead + 1) != "of":
        return ""
    length = part_length(reader, ahead + 2)
    if not length or reader.text(ahead + length + 1) in _WHOLE:
        return ""
    start = reader.at + ahead
    reader.take(ahead + 2 + length)
    return reader.words(start)


_WHOLE: Final = word_set("piece panel panels blanket shawl scarf body sleeve")


def limb_ahead(reader: Reader, ahead: int) -> bool:
    """Tell whether "the first leg" stands some way ahead, and no more is said of it."""
    ahead += reader.text(ahead) == "the"
    other = reader.text(ahead) in OTHERS or reader.ordinal(ahead) is not None
    ends = reader.text(ahead + 2) in STOPS | CLOSING | {"", "and"}
    return other and ends and reader.text(ahead + 1) in LIMBS


def read_limb(reader: Reader) -> str:
    """Read "the first leg" behind "to" or "around": another piece, in the author's words."""
    ahead = 1 if reader.text() == "the" else 0
    start = reader.at + ahead
    if reader.text(ahead) in OTHERS or reader.ordinal(ahead) is not None:
        ahead += 1
    if reader.text(ahead) not in LIMBS:
        return ""
    reader.take(ahead + 1)
    reader.accept_any(_FLAPS)
    return reader.words(start)


_FLAPS: Final = word_set("flap flaps")  # "ear flap"


def _pass_petals(reader: Reader) -> bool:
    """Go past "between petals", "behind the petals": where the loops behind them are fastened."""
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text() not in {"between", "behind"} or reader.text(ahead) not in {"petals", "petal"}:
        return False
    reader.take(ahead + 1)
    return True


def join_to_limb(reader: Reader, start: int) -> Steps | None:
    """Read "join to the first leg with a sc": a stitch on another piece; a slip stitch is none."""
    before = reader.at
    reader.take()
    limb = read_limb(reader)
    if not limb:
        reader.at = before
        return None
    kind = "sl_st"
    if reader.accept("with"):
        reader.accept_any(word_set("a an one 1"))
        named = read_stitch(reader) if starts_stitch(reader) else None
        if named is None:
            return None
        kind = named.stitch.kind
    reader.pass_over(word_set("in any st stitch"))
    if kind == "sl_st":
        return (Remark(reader.words(start), reader.span(start)),)
    return (Make(Stitch(kind), ONE, On(Next(), piece=limb), reader.span(start)),)
