"""What lies a row or more below an anchor: which stitch of which kind stands there."""

from stitchproof.base.place import Span
from stitchproof.fabric.edge import Edge, base_kind
from stitchproof.fabric.hand import Hand
from stitchproof.language.tree import (
    Below,
    Thing,
)


def stands_below(hand: Hand, anchor: int, target: Below, where: Span) -> bool:
    """Whether the stitch named stands under an anchor."""
    kind = kind_below(hand.edge, anchor, hand.number(target.rows, where) - 1)
    wanted = target.noun
    if kind is None:
        return False
    if wanted.thing is not Thing.KIND or kind in ("st", wanted.kind):
        return True
    return base_kind(kind) == wanted.kind and not kind.startswith(("fp", "bp"))


def kind_below(edge: Edge, anchor: int, rows: int) -> str | None:
    """Name the stitch `rows` rows under an anchor; "st" where nobody can know."""
    here: Edge | None = edge
    for _ in range(rows):
        if here is None:
            return None
        if not here.known:
            return "st"
        anchor = here.parents[anchor]
        here = here.below
        if anchor < 0:
            return None
    if here is not None and not here.known:
        return "st"
    if here is None or here.roles[anchor] not in "SK":
        return None
    return here.kinds[anchor]
