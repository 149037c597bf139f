"""Sums of numbers: "ch 30 (32, 34) + 1 for turning", 56 of "next 57 sc" without the last."""

import re
from typing import Final

from stitchproof.language.number import Number, Value
from stitchproof.language.read.steps.reader import Reader


def added(reader: Reader, number: Number, start: int) -> Number:
    """Read "+ 1", "plus 3" behind a number and give the sum; the number itself otherwise."""
    more = reader.number(1)
    if reader.text() not in {"+", "plus"} or more is None:
        return number
    if reader.text(2) not in {"", ".", ",", ";", "for", ")", "]", "to", "("}:
        return number
    values = _sum(number.value, more.value, 1)
    if values is None:
        return number
    reader.take(2)
    return Number(value=values, spelling=reader.words(start), place=reader.span(start))


def less(number: Number, fewer: Number) -> Number | None:
    """Give what is left of a number without another; None where that is not a count everywhere."""
    values = _sum(number.value, fewer.value, -1)
    if values is None or any(value is not None and value < 0 for value in values):
        return None
    spelling = _spelled(number.spelling, values)
    return None if spelling is None else Number(value=values, spelling=spelling, place=number.place)


def _spelled(spelling: str, values: tuple[Value, ...]) -> str | None:
    """Write values as the author wrote a list of as many; None where it is not one."""
    if len(values) == 1:
        return str(values[0])
    written = [str(value) for value in values if value is not None]
    if len(_FIGURES.findall(spelling)) != len(written):
        return None
    return _FIGURES.sub(lambda _: written.pop(0), spelling)


_FIGURES: Final = re.compile(r"\d+")


def _sum(one: object, other: object, sign: int) -> tuple[Value, ...] | None:
    """Add values size by size; None where one of them is a formula or the sizes do not match."""
    if not isinstance(one, tuple) or not isinstance(other, tuple):
        return None
    if len(one) != len(other) and 1 not in {len(one), len(other)}:
        return None
    sizes = max(len(one), len(other))
    pairs = zip(one * (sizes // len(one)), other * (sizes // len(other)), strict=True)
    return tuple(None if a is None or b is None else a + sign * b for a, b in pairs)
