"""What stands on the counts: rules, finished measures, numbers of the text, the width of a neck."""

import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from operator import eq, ge, le
from types import MappingProxyType
from typing import Final

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.language.formula import Arithmetic, Formula
from stitchproof.language.number import Number, Value
from stitchproof.language.read.formula import FormulaFault, FormulaSyntax, parse_formula
from stitchproof.sizing.arithmetic import Quantity
from stitchproof.sizing.definitions import Definition, inside
from stitchproof.sizing.findings import SizeListLength
from stitchproof.sizing.keys import Keys
from stitchproof.sizing.model import Measure
from stitchproof.sizing.number_findings import (
    CountNegative,
    CountNotWhole,
    NoRelation,
    RelationFails,
    WideNeck,
)
from stitchproof.sizing.workings import Values, Workings

_RELATION: Final = re.compile(r"(<=|>=|==?|≤|≥)")
_HOLDS: Final[Mapping[str, Callable[[Fraction, Fraction], bool]]] = MappingProxyType(
    {"=": eq, "==": eq, "<=": le, "≤": le, ">=": ge, "≥": ge}
)
_BESIDE_NECK: Final = Fraction(25)  # mm of cross-back on each side; common practice, no source
_TWO_SIDES: Final = 3  # left, relation, right


# --------------------------------------------------------------------------- rules


def check_rules(keys: Keys, workings: Workings) -> None:
    """Check `[rules]` in every size, exactly."""
    for name in keys.table("rules"):
        words = keys.text("rules", name)
        if not isinstance(keys.value("rules", name), str):
            continue
        parts = _RELATION.split(words)
        if len(parts) != _TWO_SIDES:
            keys.report(NoRelation(name, keys.words("rules", name).strip("\"'")), "rules", name)
            continue
        _check_rule(keys, workings, name, words)


def _check_rule(keys: Keys, workings: Workings, name: str, words: str) -> None:
    left_words, relation, right_words = _RELATION.split(words)
    left, right = _side(keys, name, left_words), _side(keys, name, right_words)
    if left is None or right is None:
        return
    place = keys.at("rules", name)
    # Working out the difference says whether the two sides can be compared at all.
    if workings.work((Arithmetic("-", left, right),), workings.made, place) is None:
        return
    sides = [workings.work((one,), workings.made, place) for one in (left, right)]
    values = [one.values for one in sides if one is not None]
    wrong = {
        i
        for i, (a, b) in enumerate(zip(*values, strict=True))
        if a is not None and b is not None and not _HOLDS[relation](a, b)
    }
    finding = RelationFails(name, words.strip(), workings.now(values[0]), workings.now(values[1]))
    workings.report(finding, place, wrong - workings.doubt((left, right)))


def _side(keys: Keys, name: str, words: str) -> Formula | None:
    read = parse_formula(words, inside(keys, words, "rules", name))
    if not isinstance(read, FormulaFault):
        return read
    finding = FormulaSyntax(words.strip(), read.words)
    keys.found.append(Diagnostic(finding=finding, place=read.place))
    return None


# --------------------------------------------------------------------------- finished measures


def finished_measures(workings: Workings, definitions: tuple[Definition, ...]) -> list[Measure]:
    """Work out the measures of the made garment, and what they should be."""
    found = []
    for one in definitions:
        place = workings.keys.at(*one.formula_path)
        made = workings.work(one.formulas, workings.made, place)
        if made is None or not workings.power_is(made, int(not one.swatch), place):
            continue
        target = workings.silently(one.formulas, workings.wanted)
        per_mm = workings.gauge(one)
        if per_mm is None:
            continue
        made_mm = _over(made.values, per_mm)
        gauge = f" {'along' if one.along else 'across'} {one.swatch}" if one.swatch else ""
        measure = Measure(
            name=one.name,
            target_mm=_over(target.values, per_mm),
            finished_mm=made_mm,
            rule=f"{workings.words(place)}{gauge}",
            place=workings.keys.at(*one.path),
        )
        workings.made[f"finished.{one.name}"] = Quantity(made_mm, 1)
        found.append(measure)
    return found


def _over(values: Values, per_mm: Fraction) -> Values:
    return tuple(None if v is None else v / per_mm for v in values)


# --------------------------------------------------------------------------- the text's numbers


def resolve(workings: Workings, numbers: tuple[Number, ...]) -> dict[Formula, tuple[Value, ...]]:
    """Work out every formula between braces, and report lists that do not fit the sizes."""
    found: dict[Formula, tuple[Value, ...]] = {}
    tried: set[Formula] = set()
    for number in numbers:
        if isinstance(number.value, tuple):
            has = len(number.value)
            if has not in {1, len(workings.sizes)}:
                words = " ".join(number.spelling.split())
                finding = SizeListLength(words, has, len(workings.sizes))
                workings.keys.found.append(Diagnostic(finding=finding, place=number.place))
        elif number.value not in tried:
            tried.add(number.value)
            values = _number(workings, number, number.value)
            if values is not None:
                found[number.value] = values
    return found


def _number(workings: Workings, number: Number, formula: Formula) -> tuple[Value, ...] | None:
    """Give the values of one formula; None where a size worked now has none."""
    place = number.place
    if not workings.knows((formula,), workings.made, place, braced=True):
        return None
    quantity = workings.work((formula,), workings.made, place)
    if quantity is None:
        return None
    if quantity.power:
        if not workings.power_is(quantity, 1, place):
            return None
        return quantity.values if _all_known(workings, quantity.values) else None
    known = workings.doubt((formula,))
    values = quantity.values
    broken = {i for i, v in enumerate(values) if v is not None and v.denominator != 1}
    below = {i for i, v in enumerate(values) if v is not None and v < 0} - broken
    words = workings.words(place)
    workings.report(CountNotWhole(words, workings.now(values)), place, broken - known)
    workings.report(CountNegative(words, workings.now(values)), place, below - known)
    whole = tuple(
        None if v is None or i in broken or i in below else int(v) for i, v in enumerate(values)
    )
    absent = workings.absent(formula)
    return whole if _all_known(workings, whole, absent) else None


def _all_known(
    workings: Workings, values: tuple[Value, ...], absent: frozenset[int] = frozenset()
) -> bool:
    return all(values[i] is not None or i in absent for i in workings.chosen)


# --------------------------------------------------------------------------- the neck


def check_necks(workings: Workings, definitions: tuple[Definition, ...]) -> None:
    """Warn where a neck leaves little of the back beside it."""
    back = workings.target.get("body.cross_back")
    if back is None:
        return
    for one in definitions:
        count = workings.counts.get(one.name)
        if count is None or one.use != "neck width" or not one.swatch:
            continue
        per_mm = workings.swatches[one.swatch].per_mm(along=one.along)
        if not per_mm:
            continue
        left = {
            i: (across - value / per_mm) / 2
            for i, (across, value) in enumerate(zip(back.values, count.value, strict=True))
            if across is not None and value is not None
        }
        narrow = tuple(i for i in workings.chosen if i in left and left[i] < _BESIDE_NECK)
        finding = WideNeck(one.name, tuple(left[i] for i in narrow))
        workings.report(finding, count.place, narrow)
