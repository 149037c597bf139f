"""Walks over the tree: the numbers in it, the doubts in it, how far down it looks."""

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from functools import cache, lru_cache

from stitchproof.language.number import Number
from stitchproof.language.tree import Below, Either, Group, Make, Repeat, Skip, Steps, Unread


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


@lru_cache(maxsize=4096)
def reach_of(steps: Steps) -> int:
    """Give how many edges below the live one the steps look at."""
    deepest = 0
    for node in nodes(steps):
        if isinstance(node, Make | Skip) and isinstance(node.at, Below):
            rows = node.at.rows.value
            known = [v for v in rows if isinstance(v, int)] if isinstance(rows, tuple) else []
            deepest = max(deepest, *known, 2) if known else 8
    return deepest


def is_read(tree: object) -> bool:
    """Whether every word of a tree was understood."""
    return not any(isinstance(n, Unread) for n in nodes(tree))


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
