"""Counts that are several numbers: one for each row of a line, or one for each size."""

from itertools import pairwise
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import Number
from stitchproof.language.tree import Label, Stated

_FEWEST: Final = 3  # sizes, of which a list may have one too few or too many


def row_by_row(stated: Stated, label: Label) -> Stated:
    """Take `(22, 20)` behind two rows that grow smaller for a count of each, not for two sizes."""
    first = label.first.value if label.first is not None else None
    last = label.last.value if label.last is not None else None
    one = stated.statements[0] if len(stated.statements) == 1 and not stated.rowwise else None
    values = one.number.value if one is not None else None
    ends = (first, last, values)
    if one is None or not all(isinstance(value, tuple) for value in ends):
        return stated
    low, high = (value[0] if isinstance(value, tuple) else None for value in ends[:2])
    counts = values if isinstance(values, tuple) else ()
    known = [value for value in counts if isinstance(value, int)]
    falls = all(a > b for a, b in pairwise(known))
    rows = high - low + 1 if isinstance(low, int) and isinstance(high, int) else 0
    if not falls or not len(known) == len(counts) == rows > 1:
        return stated
    rowwise = tuple(
        (replace(one, number=replace(one.number, value=(value,), spelling=str(value))),)
        for value in known
    )
    return replace(stated, statements=rowwise[-1], rowwise=rowwise)


def of_sizes(stated: Stated, sizes: int, words: str) -> Stated:
    """Take `40, 44, 52 sts` behind one row for a list of sizes that has one too few, or too many.

    Parameters
    ----------
    stated : Stated
        Of a line that is one row: it has one count, though it was read as one for each row.
    sizes : int
        How many sizes the pattern has.
    words : str
        The author's words for it.
    """
    if any(closing in words[:-1] for closing in ")]}"):
        return stated  # `(40 sts) (44 sts)`: apart, and so one for each row
    ones = [group[0] for group in stated.rowwise if len(group) == 1]
    values = [one.number.value for one in ones]
    each = [value[0] for value in values if isinstance(value, tuple) and len(value) == 1]
    listed = len(each) == len(stated.rowwise) and abs(len(each) - sizes) == 1
    if not listed or sizes < _FEWEST or not ones[-1].unit or any(one.unit for one in ones[:-1]):
        return stated
    place = ones[0].number.place.to(ones[-1].number.place)
    spelling = ", ".join(one.number.spelling for one in ones)
    number = Number(value=tuple(each), spelling=spelling, place=place)
    return replace(stated, statements=(replace(ones[-1], number=number),), rowwise=())
