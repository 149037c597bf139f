"""Where a number of a row comes from: the formula, and the rules behind every name in it."""

import re
from collections.abc import Iterator
from typing import Final

from stitchproof.base.units import TENTH, decimal_words
from stitchproof.language.formula import Formula
from stitchproof.language.number import Number, NumberKind
from stitchproof.language.write.formula import written
from stitchproof.language.write.numbers import ABSENT, is_length, length_words, number_words
from stitchproof.sizing.model import Count, Measure, Sizing, Worked

_NAME: Final = re.compile(r"\b(?:body\.)?[a-z_][a-z0-9_]*\b", re.IGNORECASE)


def origin_lines(numbers: Iterator[Number], sizing: Sizing, size: int) -> Iterator[str]:
    """Say what each number comes to in a size, and what gave it.

    Parameters
    ----------
    numbers : iterator of Number
        Of one line; those written out once for all sizes say enough of themselves.
    sizing : Sizing
        What the numbers stand on.
    size : int
        Which of all sizes.
    """
    names: dict[str, None] = {}
    lengths = {one.name for one in sizing.measures}
    for number in numbers:
        if isinstance(number.value, tuple):
            if len(number.value) > 1 and len(number.value) == len(sizing.sizes):
                yield f"{number.spelling}: {_one(number, size)}, as written out for this size"
            continue
        value = sizing.resolved.formulas.get(number.value, (None,) * len(sizing.sizes))[size]
        length = number.kind is NumberKind.LENGTH or is_length(number.value, lengths)
        shown = length_words((value,)) if length else number_words((value,))
        yield f"{{{written(number.value)}}} = {shown}"
        names |= dict.fromkeys(_names_in(number.value))
    yield from _rules(names, sizing, size)


def _one(number: Number, size: int) -> str:
    assert isinstance(number.value, tuple)
    value = number.value[size]
    if number.kind is NumberKind.LENGTH:
        return length_words((value,))
    return ABSENT if value is None else number_words((value,))


def _names_in(formula: Formula) -> Iterator[str]:
    yield from _NAME.findall(written(formula))


def _rules(names: dict[str, None], sizing: Sizing, size: int) -> Iterator[str]:
    """Tell the rule of each name, then those of the names in it, each once."""
    counts = {one.name: one for one in sizing.counts}
    measures = {one.name: one for one in sizing.measures}
    points = {f"body.{one.name}": one for one in sizing.points}
    waiting = list(names)
    told: set[str] = set()
    while waiting:
        name = waiting.pop(0)
        if name in told:
            continue
        told.add(name)
        if name in counts:
            yield _count(counts[name], sizing, size)
            waiting += (counts[name].measure, *_NAME.findall(counts[name].rule))
        elif name in measures:
            yield _measure(measures[name], size)
            waiting += _NAME.findall(measures[name].rule)
        elif name in points:
            value = points[name].values_mm[size]
            recalled = points[name].recalled
            mark = ", recalled and not read" if recalled and recalled[size] else ""
            at = f", {sizing.point} of the published range" if sizing.point else ""
            yield f"{name} = {_cm(value)}: {sizing.body}{at}{mark}"


def _count(count: Count, sizing: Sizing, size: int) -> str:
    value, wanted = count.value[size], count.wanted[size]
    shown = "not known" if value is None else str(value)
    if not count.measure:
        given = "given" if count.rule == shown else count.rule
        return f"{count.name} = {shown}: {given}"
    swatch = sizing.swatches.get(count.swatch)
    gauge = None if swatch is None else swatch.rows if count.along else swatch.stitches
    courses = "rnds" if swatch is not None and swatch.worked is Worked.ROUND else "rows"
    unit = courses if count.along else "sts"
    at = (
        ""
        if swatch is None or gauge is None
        else (f" at {decimal_words(gauge, TENTH)} {unit} in {swatch.over}")
    )
    wish = "" if wanted is None else f" would be {decimal_words(wanted, TENTH / 10)}"
    pinned = count.pinned[size] if count.pinned else None
    fixed = "; fixed by the author as the sample was made" if pinned is not None else ""
    return f"{count.name} = {shown}: {count.measure}{at}{wish}; {count.rule}{fixed}"


def _measure(measure: Measure, size: int) -> str:
    return f"{measure.name} = {_cm(measure.target_mm[size])}: {measure.rule}"


def _cm(value: object) -> str:
    from fractions import Fraction

    if not isinstance(value, Fraction | int):
        return "not known"
    return f"{decimal_words(Fraction(value) / 10, TENTH)} cm"
