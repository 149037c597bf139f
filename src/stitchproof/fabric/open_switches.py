"""With which settings of its open switches a piece may be worked, and what its remarks say."""

from collections.abc import Iterator
from itertools import product

from stitchproof.base.records import replace
from stitchproof.fabric.begin import first_kind
from stitchproof.fabric.conclude import Piece, asked_of
from stitchproof.fabric.conventions import Conventions
from stitchproof.language.tree import (
    Chain,
    RepeatRows,
    Section,
)


def remarks(group: list[Section]) -> dict[tuple[str, int], bool]:
    """Gather what remarks beside chains say of them, by stitch and length, where all agree."""
    said: dict[tuple[str, int], set[bool]] = {}
    rows = (course.does for section in group for course in section.courses)
    for does in (steps for steps in rows if not isinstance(steps, RepeatRows)):
        for step in does:
            if isinstance(step, Chain) and step.counts is not None and not step.counts.chains:
                value = step.count.value
                if isinstance(value, tuple) and len(value) == 1 and isinstance(value[0], int):
                    key = first_kind(does, {}), value[0]
                    said.setdefault(key, set()).add(bool(step.counts.stitch))
    return {key: counts.pop() for key, counts in said.items() if len(counts) == 1}


def settings(piece: Piece, conventions: Conventions) -> Iterator[Conventions]:
    """Give other settings of the switches a piece looked at, few changes before many."""
    asked = sorted({s for line in piece.lines for s in asked_of(line)})
    ways = [piece.conventions.ways(switch) for switch in asked]
    settings = [
        (sum(way) + 2 * chains + (under is not None), chains, under, way)
        for chains in (False, True)
        for under in (None, True, False)
        for way in product(*(range(len(w)) for w in ways))
        if any(way) or chains or under is not None
    ]
    settings.sort(key=lambda s: s[0])
    for _, chains, under, way in settings:
        taken = {s: w[i] for s, w, i in zip(asked, ways, way, strict=True) if i or len(w) > 1}
        yield replace(conventions, taken=taken, chains=chains, under=under)
