"""Places on an edge: single anchors, and spaces, which are runs of chains between stitches."""

import re
from functools import lru_cache
from itertools import pairwise
from typing import Final, TypeAlias

from stitchproof.trade.stitches import stitches

Interval: TypeAlias = tuple[int, int]
_RUN: Final = re.compile("C+")
_SHARED: Final = 65_536  # anchors of an edge whose places are shared with other edges


def each_anchor(count: int) -> list[Interval]:
    """Give the places of an edge of so many anchors, one by one; edges share what is equal."""
    if count > _SHARED:
        return list(pairwise(range(count + 1)))
    return _first_anchors(1 << count.bit_length())[:count]


@lru_cache
def _first_anchors(count: int) -> list[Interval]:
    return list(pairwise(range(count + 1)))


def runs_of(roles: str) -> list[Interval]:
    """Give the runs of chains among the roles of an edge."""
    return [run.span() for run in _RUN.finditer(roles)]


def at_seam(corners: list[Interval], runs: list[Interval], roles: str) -> list[Interval]:
    """Add the corner in which a round ends, before its turning chain, to those found within it.

    It is as long as they are, and no other space is.
    """
    if not corners or runs[-1] in corners or runs[-1][1] != len(roles) or roles[0] != "K":
        return corners
    last = runs[-1][1] - runs[-1][0]
    alike = [run for run in runs[:-1] if run[1] - run[0] == last]
    return [*corners, runs[-1]] if alike == corners else corners


def chains_in(kinds: tuple[str, ...], space: Interval) -> int:
    """Count the chains of a space; a stitch that closes it is as many as it is tall."""
    start, end = space
    last = kinds[end - 1]
    if last == "ch":
        return end - start
    row = stitches().get(last)
    tall = row.turning_chain if row is not None else None
    return end - start - 1 + (tall or 1)
