"""Which side faces: "with RS facing", "with RS of both cups facing and the points up"."""

from types import MappingProxyType
from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.colours import is_yarn
from stitchproof.language.read.steps.reader import STOPS, Frame, Reader
from stitchproof.language.tree import Colour, Facing, Remark, Steps

SIDES: Final = MappingProxyType({"right": "RS", "wrong": "WS", "rs": "RS", "ws": "WS"})


def faces(reader: Reader) -> bool:
    """Tell whether "RS facing", "RS of both cups facing", "right side" stands at the cursor."""
    for i in range(1, _FAR_FACING):
        if reader.text(i) in STOPS:
            break
        if reader.text(i) == "facing":
            return True
    return reader.text(1) == "side"


_FAR_FACING: Final = 6  # tokens: "RS of both cups facing"


def read_facing(reader: Reader, frame: Frame) -> Steps | None:
    """Read "RS facing", "right side facing you"."""
    _ = frame
    return facing(reader, reader.at)


def facing(reader: Reader, start: int) -> Steps | None:
    """Read which side faces, and how the piece is held."""
    side = SIDES[reader.text()]
    reader.take()
    reader.accept_any(word_set("side sides"))
    if reader.accept_any(word_set("together tog")):
        return (Remark(reader.words(start), reader.span(start)),)
    if reader.accept("of"):
        _pass_faced(reader)
    reader.pass_over(word_set("the work piece is"))
    if not reader.accept("facing"):
        return None
    if reader.accept("each", "other"):
        return (Remark(reader.words(start), reader.span(start)),)  # two layers, not the maker
    reader.pass_over(word_set("you up out outward outwards toward towards"))
    _pass_how_it_lies(reader)
    seen = Facing(side, reader.span(start))
    hook = _and_hook(reader) or _and_yarn(reader)
    return (seen,) if hook is None else (seen, hook)


def _and_yarn(reader: Reader) -> Colour | None:
    """Read "and A", "and using MC" behind the side that faces."""
    ahead = 2 if reader.text() == "and" and reader.text(1) in {"with", "using", "yarn"} else 1
    token = reader.token(ahead)
    if reader.text() != "and" or token is None or not token.written.isupper():
        return None
    if not is_yarn(token) or reader.text(ahead + 1) not in STOPS:
        return None
    start = reader.at + ahead
    reader.take(ahead + 1)
    return Colour(token.written, place=reader.span(start))


_FAR_HOOK: Final = 6  # tokens


def _and_hook(reader: Reader) -> Colour | None:
    """Read "and 3.5 mm hook" behind the side that faces."""
    if reader.text() != "and":
        return None
    first = 2 if reader.text(1) in {"with", "using"} else 1
    ahead = first
    while ahead < _FAR_HOOK and reader.text(ahead) not in STOPS | {"", "hook"}:
        ahead += 1
    if reader.text(ahead) != "hook" or ahead == first:
        return None
    start = reader.at + first
    reader.take(ahead + 1)
    return Colour(reader.words(start, reader.at - 1), hook=True, place=reader.span(start))


_LYING: Final = word_set("up down upwards downwards uppermost top left right")


def _pass_how_it_lies(reader: Reader) -> None:
    """Go past "and the points up" behind "RS facing": it tells how the piece is held."""
    ahead = 1
    if reader.text() != "and" or reader.text(1) not in {"the", "with"}:
        return
    while ahead < _FAR_FACING and reader.text(ahead) not in STOPS | {""}:
        ahead += 1
    if reader.text(ahead) in STOPS and reader.text(ahead - 1) in _LYING:
        reader.take(ahead)


def _pass_faced(reader: Reader) -> None:
    """Go past "both cups", "the work" before "facing"."""
    ahead = 0
    while ahead < _FAR_FACING and reader.text(ahead) not in STOPS | {"facing", "is", ""}:
        ahead += 1
    if reader.text(ahead) in {"facing", "is"}:
        reader.take(ahead)
