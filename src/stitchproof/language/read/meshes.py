"""Filet meshes that the author names: "Block: dc in next 3 sts. Space: ch 2, sk 2, dc in next dc".

A mesh is worked over a mesh of either kind: a stitch below may be a chain. One definition stands
for all of them, whichever of them it tells.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, plain
from stitchproof.language.tree import Chain, Make, Next, Noun, Skip, Special, Steps, Thing

_OPEN: Final = ("open mesh", "om", "open square", "open space", "open block", "space", "sp")
_FILLED: Final = (
    *("block", "bl", "blk", "closed mesh", "cm", "solid mesh", "filled mesh", "filled square"),
    *("solid square", "solid block", "closed square", "closed block", "filled block"),
)
_SPACES: Final = frozenset((Thing.SPACE, Thing.CHAIN_SPACE))
_ANY: Final = Noun(Thing.STITCH_OR_CHAIN)
_SHORT: Final = MappingProxyType({"space": ("sp", "sps"), "block": ("bl", "bls", "blk")})


def with_meshes(known: Mapping[str, Special]) -> dict[str, Special]:
    """Let open and filled meshes be worked over each other, where both are defined."""
    opened = {name for name in _OPEN if _open_width(known.get(name)) is not None}
    filled = {name for name in _FILLED if _filled_width(known.get(name)) is not None}
    widths = {_open_width(known[name]) for name in opened}
    widths |= {_filled_width(known[name]) for name in filled}
    width = next(iter(widths), None)
    if not opened or not filled or len(widths) > 1 or width is None:
        return dict(known)
    found = dict(known)
    for name in (*opened, *filled):
        one = known[name]
        body = _open(one, width[0]) if name in opened else _filled(one, width[0])
        names = [name, f"{name}s", f"{name}es", *_SHORT.get(name, ())]
        found |= {each: replace(one, name=each, body=body, stitch=None) for each in names}
    return found


def _open_width(one: Special | None) -> tuple[int, str] | None:
    """Give how many chains a mesh "ch 2, sk 2, dc in next dc" has, and its stitch."""
    match one.body if one is not None else None:
        case (Chain(count), Skip(at=Next(number, noun)), Make(stitch=stitch, each=each, at=Next())):
            width = _one(count)
            passed = noun.thing in _SPACES or _one(number) == width
            return (width, stitch.kind) if width and passed and each == ONE else None
        case _:
            return None


def _filled_width(one: Special | None) -> tuple[int, str] | None:
    """Give how many stitches fill a mesh "dc in next 3 sts", "2 dc in sp, dc in next dc"."""
    body = one.body if one is not None and "next" in one.words.lower() else None
    made = [step for step in body or () if isinstance(step, Make)]
    kinds = {step.stitch for step in made}
    if body is None or len(made) != len(body) or len(kinds) != 1 or len(made) > _PARTS:
        return None
    total = sum(_made(step) for step in made)
    return (total - 1, made[0].stitch.kind) if total > 1 else None


_PARTS: Final = 2


def _made(step: Make) -> int:
    at = step.at
    places = _one(at.number) if isinstance(at, Next) else 1
    return _one(step.each) * places


def _one(number: object) -> int:
    """Give a whole number that is the same in all sizes; 0 for another."""
    value = getattr(number, "value", None)
    one = value[0] if isinstance(value, tuple) and len(value) == 1 else 0
    return one if isinstance(one, int) else 0


def _open(one: Special, width: int) -> Steps:
    assert one.body is not None
    chain, skip, last = one.body
    assert isinstance(skip, Skip)
    assert isinstance(last, Make)
    over = replace(skip, at=Next(plain(width), _ANY))
    return (chain, over, replace(last, at=Next()))


def _filled(one: Special, width: int) -> Steps:
    assert one.body is not None
    first = one.body[0]
    assert isinstance(first, Make)
    return (replace(first, each=ONE, at=Next(plain(width + 1), _ANY)),)
