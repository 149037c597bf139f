"""A count told by parts of the edge: "66 sc around neck (24 up right front, 18 across back, …)"."""

from typing import Final

from stitchproof.language.number import Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.made import Found, Wanted
from stitchproof.language.read.steps.parts import part_length
from stitchproof.language.read.steps.places import Place
from stitchproof.language.read.steps.reader import OPENING, Frame, Reader
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import STITCH, Evenly, Make, Next, Steps

Parts = tuple[tuple[Number, str], ...]

_ALONG: Final = word_set("up down across along around over from")
_STITCHES: Final = word_set("st sts stitch stitches")
_TELLS: Final = frozenset((":", "–", "—", "=", ",", *OPENING))
_FEWEST: Final = 2


def starts_part(reader: Reader, ahead: int = 0) -> int:
    """Count the tokens of "24 up right front" from some way ahead; 0 where it is not there."""
    if reader.number(ahead) is None:
        return 0
    where = ahead + (2 if reader.text(ahead + 1) in _STITCHES else 1)
    if reader.text(where) not in _ALONG:
        return 0
    length = part_length(reader, where + 1)
    return where + 1 + length - ahead if length else 0


def told_by_parts(reader: Reader, wanted: Wanted, found: Found) -> Found:
    """Take the parts of a count behind it into its place, where there are any."""
    if reader.text() not in _TELLS or not starts_part(reader, 1):
        return found
    at = found.place.at
    count = wanted.number
    if isinstance(at, Evenly) and not at.change and at.count is not None:
        count = at.count
    elif not isinstance(at, Next) or at.noun != STITCH or (found.said and not found.counted):
        return found
    elif found.counted:
        count = at.number
    start, opened = reader.at, OPENING.get(reader.text(), "")
    comma = reader.text() == ","
    reader.take()
    parts = _parts(reader)
    whole = len(parts) >= _FEWEST and count is not None and (not comma or _add_up(count, parts))
    if not whole or (opened and not reader.accept(opened)):
        reader.at = start
        return found
    along = at.along if isinstance(at, Evenly) else ""
    return Found(Place(Evenly(count, along, parts=parts)))


def _parts(reader: Reader) -> Parts:
    """Read "24 up right front, 18 across back neck and 24 down left front"."""
    parts: list[tuple[Number, str]] = []
    ahead = 0
    while starts_part(reader, ahead):
        reader.take(ahead)
        parts.append(_one_part(reader))
        ahead = 0
        while ahead < _FEWEST and reader.text(ahead) in {",", ";", "and", "&", "+"}:
            ahead += 1
    return tuple(parts)


def _one_part(reader: Reader) -> tuple[Number, str]:
    number = reader.number()
    assert number is not None
    length = starts_part(reader)
    start = reader.at + (2 if reader.text(1) in _STITCHES else 1)
    reader.take(length)
    return number, reader.words(start)


def _add_up(count: Number, parts: Parts) -> bool:
    """Tell whether parts come to a count in every size, as far as both are written out."""
    rows = [number.value for number, _ in parts]
    if not isinstance(count.value, tuple) or not all(isinstance(row, tuple) for row in rows):
        return False
    sizes = max(len(count.value), *(len(row) for row in rows if isinstance(row, tuple)))
    sums = [0] * sizes
    for row in rows:
        values = row if isinstance(row, tuple) else ()
        wide = values * sizes if len(values) == 1 else values
        sums = [one + int(value or 0) for one, value in zip(sums, wide, strict=False)]
    wanted = count.value * sizes if len(count.value) == 1 else count.value
    return sums == [int(value or 0) for value in wanted]


def read_part(reader: Reader, frame: Frame) -> Steps | None:
    """Read "18 across back neck" behind "24 sc up right front": as many of the same stitch."""
    again = frame.again
    if not starts_part(reader) or not isinstance(again, Make) or not isinstance(again.at, Evenly):
        return None
    start = reader.at
    number, along = _one_part(reader)
    return (Make(again.stitch, at=Evenly(number, along), place=reader.span(start)),)


def pick_up_and(reader: Reader) -> bool:
    """Go past "pick up and" before what is worked: "pick up and sc 24 up right front"."""
    if not reader.sees("pick", "up", "and"):
        return False
    if not starts_stitch(reader, 3) and reader.text(3) not in {"work", "make"}:
        return False
    reader.take(3)
    return True
