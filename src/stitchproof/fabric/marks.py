"""Markers: where they are put on an edge, and how they go up with the rows."""

from collections import defaultdict
from collections.abc import Callable, Sequence
from typing import Final, TypeAlias

Marks: TypeAlias = tuple[tuple[str, int], ...]

HUNG: Final = "|"  # the name of a marker that hangs before a stitch, and not in one
UNSURE: Final = ("?", -1)  # markers were put in, and the words do not tell where


def moved_marks(marks: Marks, to: Callable[[int], int]) -> Marks:
    """Give markers on an edge whose anchors are counted otherwise; what falls off it is lost."""
    placed = tuple((name, to(at)) for name, at in marks if at >= 0)
    unsure = (UNSURE,) if UNSURE in marks else ()
    return (*(mark for mark in placed if mark[1] >= 0), *unsure)


def turned_marks(marks: Marks, n: int) -> Marks:
    """Give the markers on an edge of so many anchors, seen from its other end."""
    hung = tuple(mark for mark in marks if mark[0] == HUNG)
    others = tuple(mark for mark in marks if mark[0] != HUNG)
    within = tuple(mark for mark in moved_marks(hung, lambda at: n - at) if mark[1] < n)
    return (*within, *moved_marks(others, lambda at: n - 1 - at))


def carried(marks: Marks, parents: Sequence[int], roles: str) -> Marks:
    """Move markers up into the stitches worked where they were.

    A marker goes into the one stitch worked there, or into the middle one of an odd number. Where
    it is not clear which stitch takes one of them, none of them is known any more.

    Parameters
    ----------
    marks : Marks
        On the edge that was worked into.
    parents : sequence of int
        (A,) for each anchor made, the one it was worked in.
    roles : str
        (A,) what each anchor made is.
    """
    if not marks or UNSURE in marks:
        return ()
    held: defaultdict[int, list[int]] = defaultdict(list)
    wanted = {at for _, at in marks}
    for i, (parent, role) in enumerate(zip(parents, roles, strict=True)):
        if parent in wanted and role in "SK":
            held[parent].append(i)
    up = {
        (name, at): _first(held[at]) if name == HUNG else _middle(held[at], roles)
        for name, at in marks
    }
    if None in up.values():
        return ()
    return tuple((name, to) for name, at in marks if (to := up[name, at]) is not None)


def _first(held: Sequence[int]) -> int | None:
    """Give the first of some stitches, before which a marker hangs again."""
    return held[0] if held else None


def _middle(held: Sequence[int], roles: str) -> int | None:
    """Give the middle one of some stitches, or the chains between the two in the middle."""
    half = len(held) // 2
    if len(held) % 2:
        return held[half]
    between = roles[held[half - 1] + 1 : held[half]] if held else ""
    return held[half - 1] + 1 if between and not between.strip("C") else None
