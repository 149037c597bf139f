"""Spaces: runs of chains between stitches, and how long they are."""

import re
from typing import Final, TypeAlias

from stitchproof.trade.stitches import stitches

Interval: TypeAlias = tuple[int, int]
_RUN: Final = re.compile("C+")


def runs_of(roles: str) -> list[Interval]:
    """Give the runs of chains among the roles of an edge."""
    return [run.span() for run in _RUN.finditer(roles)]


def chains_in(kinds: tuple[str, ...], space: Interval) -> int:
    """Count the chains of a space; a stitch that closes it is as many as it is tall."""
    start, end = space
    last = kinds[end - 1]
    if last == "ch":
        return end - start
    row = stitches().get(last)
    tall = row.turning_chain if row is not None else None
    return end - start - 1 + (tall or 1)
