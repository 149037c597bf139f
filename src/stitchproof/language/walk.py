"""Walks over the tree: the numbers in it, the doubts in it, how far down it looks."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from functools import cache, lru_cache
from typing import Final, TypeVar

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import Number
from stitchproof.language.tree import (
    Below,
    Either,
    Evenly,
    Group,
    Noun,
    On,
    OppositeSide,
    Repeat,
    RowEnds,
    Skipped,
    Steps,
    Thing,
    Unread,
)

Tree = TypeVar("Tree")
_TWO_DOWN: Final = 2  # edges that a stitch worked below the live row looks at, at least
_ANY: Final = 8  # and where how far below is not known


def nodes(tree: object) -> Iterator[object]:
    """Give every node of a tree, a node before what it holds."""
    stack = [tree]
    while stack:
        here = stack.pop()
        if isinstance(here, tuple):
            stack.extend(reversed(here))
        elif (names := _inner(type(here))) is not None:  # type: ignore[arg-type]
            yield here
            if not isinstance(here, Number):
                stack.extend([getattr(here, name) for name in names])


@cache
def _inner(kind: type) -> tuple[str, ...] | None:
    """Name what a kind of node holds, the last first; None for what is no node."""
    if not is_dataclass(kind):
        return None
    return tuple(f.name for f in reversed(fields(kind)) if f.name != "place")


def numbers_in(tree: object) -> Iterator[Number]:
    """Give the numbers of a tree in order, equal ones once."""
    seen: set[Number] = set()
    for node in nodes(tree):
        if isinstance(node, Number) and node not in seen:
            seen.add(node)
            yield node


@lru_cache(maxsize=4096)
def eithers_in(steps: Steps) -> tuple[Either, ...]:
    """Give the doubts in steps, equal ones once, the outer before the inner."""
    return tuple(dict.fromkeys(n for n in nodes(steps) if isinstance(n, Either)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What one walk over some steps tells of them.

    Attributes
    ----------
    numbers : tuple of Number
        In order, equal ones once.
    doubts : tuple of Either
        Equal ones once, the outer before the inner.
    reach : int
        How many edges below the live one they look at.
    along : bool
        They work along row ends or the other side of a foundation.
    elsewhere : bool
        They name an earlier row to work into.
    read : bool
        Every word of them was understood.
    """

    numbers: tuple[Number, ...]
    doubts: tuple[Either, ...]
    reach: int
    along: bool
    elsewhere: bool
    read: bool


def look_at(steps: Steps) -> Look:
    """Walk over steps once."""
    numbers: dict[Number, None] = {}
    doubts: dict[Either, None] = {}
    reach, along, elsewhere, read = 0, False, False, True
    for node in nodes(steps):
        match node:
            case Number():
                numbers.setdefault(node)
            case Below(rows=rows):
                reach = max(reach, _deep(rows))
            case Either():
                doubts.setdefault(node)
            case RowEnds() | OppositeSide() | Evenly() | Noun(Thing.ROW_END):
                along = True
            case On(row=row) | Skipped(row=row):
                elsewhere = elsewhere or row is not None
            case Unread():
                read = False
            case _:
                pass
    return Look(
        numbers=tuple(numbers),
        doubts=tuple(doubts),
        reach=reach,
        along=along,
        elsewhere=elsewhere,
        read=read,
    )


def _deep(rows: Number) -> int:
    known = [v for v in rows.value if isinstance(v, int)] if isinstance(rows.value, tuple) else []
    return max(*known, _TWO_DOWN) if known else _ANY


def is_read(tree: object) -> bool:
    """Whether every word of a tree was understood."""
    return not any(isinstance(n, Unread) for n in nodes(tree))


def moved(tree: Tree, by: int) -> Tree:
    """Give a tree whose places are told from `by` code points before."""
    return tree if by == 0 else _placed(tree, lambda place: place.shifted(by))


def put_at(tree: Tree, place: Span) -> Tree:
    """Give a tree that stands at one place as a whole: what a name says that is used there."""
    return _placed(tree, lambda _: place)


def _placed(tree: Tree, place_of: Callable[[Span], Span]) -> Tree:
    if isinstance(tree, tuple):
        return tuple(_placed(one, place_of) for one in tree)  # type: ignore[return-value]
    if not is_dataclass(tree):
        return tree
    changed: dict[str, object] = {}
    for one in fields(tree):
        before = getattr(tree, one.name)
        after = place_of(before) if isinstance(before, Span) else _placed(before, place_of)
        if after is not before:
            changed[one.name] = after
    return replace(tree, **changed)  # type: ignore[type-var]


def settled(steps: Steps, choices: Mapping[Either, int]) -> Steps:
    """Give steps with every doubt replaced by the reading that was taken."""
    if not eithers_in(steps):
        return steps
    out: list[object] = []
    for step in steps:
        match step:
            case Either(readings):
                out += settled(readings[choices.get(step, 0)], choices)
            case Group() | Repeat():
                out.append(replace(step, body=settled(step.body, choices)))
            case _:
                out.append(step)
    return tuple(out)  # type: ignore[arg-type]
