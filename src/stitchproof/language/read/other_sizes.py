"""Rows for the sizes that the rows of the same number before were not for."""

import re
from collections.abc import Sequence
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.manuscript import BlockKind
from stitchproof.language.read.items import Item

_OTHERS: Final = re.compile(
    r"(?:[(\[,–—-]\s*|\bfor\s+)(?:for\s+)?(?:all\s+)?(?:the\s+)?(?:other|remaining)\s+sizes"
    r"(?:\s+only)?\s*[)\]]?$",
    re.IGNORECASE,
)


def with_other_sizes(items: Sequence[Item], sizes: tuple[str, ...]) -> tuple[Item, ...]:
    """Say which sizes `Rnd 4 (all other sizes)` is for, behind `Rnd 4 (Newborn only)`."""
    told: list[Item] = []
    taken: set[str] = set()
    number: object = None
    for item in items:
        one = item
        label = item.label if item.kind is BlockKind.INSTRUCTION else None
        if item.kind is BlockKind.HEADING:
            number, taken = None, set()
        if label is not None:
            row = label.first.value if label.first is not None else None
            if row != number:
                number, taken = row, set()
            if taken and row is not None and _OTHERS.search(label.words):
                one = replace(item, only=tuple(size for size in sizes if size not in taken))
            taken |= set(one.only)
        told.append(one)
    return tuple(told)
