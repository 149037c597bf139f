"""Work measures and counts out, in the order they need one another.

Three values are kept of every name, each in every size: the *target* a rule asks for, what is
*wanted* of a count before it is made a whole legal number, and what is *made*: a count itself, or
the length that the count fitted to a measure comes to at its gauge.

What is reported is true of the sizes worked now; in a size where something was reported, nothing
that stands on it is reported again.
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Final

from stitchproof.base.diagnostics import Diagnostic, Finding
from stitchproof.base.place import Span
from stitchproof.language.formula import Formula
from stitchproof.language.read.formula import UnknownName, names_in
from stitchproof.language.read.front import declared_names
from stitchproof.sizing.arithmetic import MixedUpError, Quantity, Worked, work_out
from stitchproof.sizing.definitions import Definition, Fit, whole
from stitchproof.sizing.fit import Multiple, nearest
from stitchproof.sizing.keys import Keys, near
from stitchproof.sizing.model import Count, Swatch
from stitchproof.sizing.number_findings import (
    CountNegative,
    CountNotWhole,
    DivisionByZero,
    FormulasInCircle,
    GaugeMissing,
    MeasureNotPositive,
    NoLegalCount,
    NumberTooLarge,
    PinNotReproduced,
    WrongDimension,
)
from stitchproof.sizing.order import ordered

Values = tuple[Fraction | None, ...]
_ODD_OR_EVEN: Final = ("even", "odd")


class Workings:
    """All names of one manuscript and what they come to."""

    def __init__(
        self,
        keys: Keys,
        sizes: tuple[str, ...],
        chosen: tuple[int, ...],
        swatches: Mapping[str, Swatch],
    ) -> None:
        self.keys = keys
        self.sizes = sizes
        self.chosen = chosen
        self.swatches = swatches
        self.target: dict[str, Quantity] = {}
        self.wanted: dict[str, Quantity] = {}
        self.made: dict[str, Quantity] = {}
        self.counts: dict[str, Count] = {}
        self._doubt: dict[str, frozenset[int]] = {}
        self._absent: dict[str, frozenset[int]] = {}
        self._declared = declared_names(keys.front)

    # ----------------------------------------------------------------- findings

    def report(self, finding: Finding, place: Span, wrong: Iterable[int]) -> None:
        """Report something about some sizes, unless none of them is worked now."""
        told = set(wrong)
        now = [i for i in self.chosen if i in told] if told else []
        if now:
            names = () if len(now) == len(self.chosen) else tuple(self.sizes[i] for i in now)
            self.keys.found.append(Diagnostic(finding=finding, place=place, sizes=names))

    def now(self, values: Values) -> Values:
        """Give the values of the sizes worked now, as findings show them."""
        return tuple(values[i] for i in self.chosen)

    def everywhere(self) -> frozenset[int]:
        """Give the index of every size."""
        return frozenset(range(len(self.sizes)))

    def doubt(self, formulas: Iterable[Formula | None]) -> frozenset[int]:
        """Give the sizes in which something these formulas stand on was reported."""
        names = {name for one in formulas if one is not None for name in names_in(one)}
        return frozenset().union(*(self._doubt.get(name, frozenset()) for name in names))

    def knows(
        self,
        formulas: tuple[Formula | None, ...],
        scope: Mapping[str, Quantity],
        place: Span,
        *,
        braced: bool = False,
    ) -> bool:
        """Tell whether all names of formulas have values; report those nobody declared."""
        names = {name: None for one in formulas if one is not None for name in names_in(one)}
        unknown = [name for name in names if name not in scope]
        for name in unknown:
            if name in self._declared or (name.startswith("body.") and not self._body_known()):
                continue
            # Between braces the reader has said so, unless only the body can tell.
            if braced and not (name.startswith("body.") and "body.*" in self._declared):
                continue
            close = near(name, scope)
            self.keys.found.append(
                Diagnostic(finding=UnknownName(name, close), place=self._exactly(name, place))
            )
        return not unknown

    def _body_known(self) -> bool:
        return any(name.startswith("body.") for name in self.target)

    def _exactly(self, name: str, place: Span) -> Span:
        """Find a name inside the words of a formula."""
        start = self.keys.text_at(place).find(name)
        if start < 0:
            return place
        return Span(place.source, place.start + start, place.start + start + len(name))

    # ----------------------------------------------------------------- formulas

    def work(
        self, formulas: tuple[Formula | None, ...], scope: Mapping[str, Quantity], place: Span
    ) -> Quantity | None:
        """Work out one formula for all sizes, or one a size; report what cannot be."""
        if not self.knows(formulas, scope, place):
            return None
        try:
            worked = self._worked(formulas, scope)
        except MixedUpError as mixed:
            words = WrongDimension(self.words(place), str(mixed))
            self.report(words, place, self.everywhere())
            return None
        known = self.doubt(formulas)
        self.report(DivisionByZero(self.words(place)), place, worked.zero - known)
        self.report(NumberTooLarge(self.words(place)), place, worked.large - known)
        return worked.quantity

    def words(self, place: Span) -> str:
        """Give a formula as written, without quotes or braces, shortened."""
        words = " ".join(self.keys.text_at(place).split()).strip("\"'{} ")
        longest = 60
        return words if len(words) <= longest else words[: longest - 1] + "…"

    def rule(self, one: Definition) -> str:
        """Say the formula of a definition, or that there is a value for each size."""
        if len(one.formulas) > 1:
            return "given for each size"
        return self.words(self.keys.at(*one.formula_path))

    def silently(
        self, formulas: tuple[Formula | None, ...], scope: Mapping[str, Quantity]
    ) -> Quantity:
        """Work out again, from other values, what was worked out before."""
        return self._worked(formulas, scope).quantity

    def absent(self, formula: Formula) -> frozenset[int]:
        """Give the sizes in which something a formula names is not made, by the author's word."""
        names = names_in(formula)
        return frozenset().union(*(self._absent.get(name, frozenset()) for name in names))

    def _worked(
        self, formulas: tuple[Formula | None, ...], scope: Mapping[str, Quantity]
    ) -> Worked:
        if len(formulas) == 1 and formulas[0] is not None:
            return work_out(formulas[0], scope, len(self.sizes))
        values: list[Fraction | None] = []
        powers: dict[int, None] = {}
        zero: set[int] = set()
        large: set[int] = set()
        for i, one in enumerate(formulas if len(formulas) > 1 else formulas * len(self.sizes)):
            if one is None:
                values.append(None)
                continue
            inner = {n: Quantity((scope[n].values[i],), scope[n].power) for n in names_in(one)}
            worked = work_out(one, inner, 1)
            values += worked.quantity.values
            if worked.quantity.power is not None:
                powers[worked.quantity.power] = None
            zero |= {i} if worked.zero else set()
            large |= {i} if worked.large else set()
        if len(powers) > 1:
            words = "holds lengths and plain numbers in one list"
            raise MixedUpError(words)
        power = next(iter(powers), None)
        return Worked(Quantity(tuple(values), power), frozenset(zero), frozenset(large))

    def power_is(self, quantity: Quantity, power: int, place: Span) -> bool:
        """Report a formula that comes to a length where a number is due, or the other way."""
        if quantity.power in {None, power}:
            return True
        due = "a length" if power else "a plain number"
        finding = WrongDimension(self.words(place), f"comes to {quantity.kind()}, not {due}")
        self.report(finding, place, self.everywhere())
        return False

    # ----------------------------------------------------------------- all of them

    def work_all(self, definitions: tuple[Definition, ...]) -> None:
        """Work out every measure and every count; what stands in a circle is reported."""
        order = ordered(definitions)
        for one in order.ready:
            self._absent[one.name] = self._left_out(one)
            if one.is_count:
                self._count(one)
            else:
                self._measure(one)
        fitted = {one.measure for one in self.counts.values()}
        for one in order.ready:
            # Only now is it known what the counts make of the measures this one stands on.
            if one.name in self.made and not one.is_count and one.name not in fitted:
                made = self._worked(one.formulas, self.made).quantity
                self.made[one.name] = Quantity(made.values, 1)
        for circle in order.circles:
            names = FormulasInCircle(tuple(one.name for one in circle))
            self.keys.report(names, *circle[0].formula_path)

    def _left_out(self, one: Definition) -> frozenset[int]:
        """Give the sizes in which a definition, or something it needs, is written `-`."""
        own = {i for i, f in enumerate(one.formulas) if f is None and len(one.formulas) > 1}
        return frozenset(own).union(*(self._absent.get(n, frozenset()) for n in one.needs()))

    def set(self, name: str, target: Quantity) -> None:
        """Give a name one value in every sense."""
        self.target[name] = self.wanted[name] = self.made[name] = target

    def _measure(self, one: Definition) -> None:
        place = self.keys.at(*one.formula_path)
        quantity = self.work(one.formulas, self.target, place)
        if quantity is None or not self.power_is(quantity, 1, place):
            return
        self.set(one.name, Quantity(quantity.values, 1))
        self._doubt[one.name] = self.doubt(one.formulas)

    def _count(self, one: Definition) -> None:
        place = self.keys.at(*one.formula_path)
        quantity = self.work(one.formulas, self.target, place)
        if quantity is None or not self.power_is(quantity, int(bool(one.swatch)), place):
            return
        per_mm = self.gauge(one)
        if per_mm is None:
            return
        self._doubt[one.name] = self.doubt(one.formulas)
        values = tuple(None if v is None else v * per_mm for v in quantity.values)
        rule = one.fit.words() if one.fit else "as the formula says"
        fitted = self._fitted(one, one.fit, values) if one.fit else self._derived(one, values)
        if fitted is None:
            return
        self._keep(one, values, self._pinned(one, fitted, rule), rule)

    def gauge(self, one: Definition) -> Fraction | None:
        """Give stitches or rows a mm; 1 where no gauge is needed, None where it is missing."""
        if not one.swatch:
            return Fraction(1)
        per_mm = self.swatches[one.swatch].per_mm(along=one.along)
        wanted = "rows" if one.along else "stitches"
        if per_mm is None and not self.keys.lost("swatch", one.swatch, wanted):
            key = "along" if one.along else "across"
            self.keys.report(GaugeMissing(one.name, one.swatch, wanted), *one.path, key)
        return per_mm

    def _derived(self, one: Definition, values: Values) -> tuple[int | None, ...]:
        """Take values that have to be whole already."""
        place = self.keys.at(*one.formula_path)
        known = self._doubt[one.name]
        broken = {i for i, v in enumerate(values) if v is not None and v.denominator != 1}
        below = {i for i, v in enumerate(values) if v is not None and v < 0} - broken
        words = self.words(place)
        self.report(CountNotWhole(words, self.now(values)), place, broken - known)
        self.report(CountNegative(words, self.now(values)), place, below - known)
        self._doubt[one.name] = known | broken | below
        return tuple(
            None if v is None or i in broken or i in below else int(v) for i, v in enumerate(values)
        )

    def _fitted(self, one: Definition, fit: Fit, values: Values) -> tuple[int | None, ...] | None:
        """Fit what is wanted to legal numbers."""
        place = self.keys.at(*one.formula_path)
        below = {i for i, v in enumerate(values) if v is not None and v <= 0}
        finding = MeasureNotPositive(one.name, self.now(values))
        self.report(finding, place, below - self._doubt[one.name])
        self._doubt[one.name] |= below
        parities = self._parities(fit)
        if parities is None:
            return None
        found: list[int | None] = []
        none: set[int] = set()
        for i, (value, odd) in enumerate(zip(values, parities, strict=True)):
            legal = _legal(fit, odd)
            if legal is None:
                none.add(i)
            fits = value is not None and legal is not None and i not in below
            found.append(nearest(value, legal, fit.rounding) if fits else None)  # type: ignore[arg-type]
        parity = fit.parity
        words = parity if parity in _ODD_OR_EVEN else f"odd or even as `{parity}` is"
        no_value = NoLegalCount(one.name, fit.multiple.words(), words)
        self.report(no_value, self.keys.at(*one.path, "parity"), none - self._doubt[one.name])
        self._doubt[one.name] |= none
        return tuple(found)

    def _parities(self, fit: Fit) -> tuple[int | None, ...] | None:
        """Give 1 for odd and 0 for even, by size; None where anything will do."""
        if not fit.parity:
            return (None,) * len(self.sizes)
        if fit.parity in _ODD_OR_EVEN:
            return (_ODD_OR_EVEN.index(fit.parity),) * len(self.sizes)
        other = self.counts.get(fit.parity)
        if other is None:
            return None
        return tuple(None if value is None else value % 2 for value in other.value)

    def _pinned(
        self, one: Definition, fitted: tuple[int | None, ...], rule: str
    ) -> tuple[int | None, ...]:
        """Put in what was really made; report where the rule gives something else."""
        pins = self._pins(one)
        found = list(fitted)
        for i, (path, pin) in pins.items():
            if pin != fitted[i] and i not in self._doubt[one.name]:
                finding = PinNotReproduced(one.name, rule, (fitted[i],), (pin,))
                self.report(finding, self.keys.at(*path), (i,))
                self._doubt[one.name] |= {i}
            found[i] = pin
        return tuple(found)

    def _pins(self, one: Definition) -> dict[int, tuple[tuple[str | int, ...], int]]:
        """Give what was really made, by the index of the size, each with where it stands."""
        pins: dict[int, tuple[tuple[str | int, ...], int]] = {}
        for size, number in one.fixed.items():
            pins[self.sizes.index(size)] = ((*one.path, "fixed", size), number)
        sample = self.keys.plain("sample", "size")
        pinned = whole(self.keys, "sample", "fixed", one.name)
        if sample in self.sizes and pinned is not None:
            pins[self.sizes.index(sample)] = (("sample", "fixed", one.name), pinned)
        return pins

    def _keep(
        self, one: Definition, values: Values, counted: tuple[int | None, ...], rule: str
    ) -> None:
        """Keep a count and, where it is fitted to a measure, what it makes of that measure."""
        value = Quantity(tuple(None if v is None else Fraction(v) for v in counted))
        self.set(one.name, value)
        wanted = values
        if not one.swatch:
            wanted = self._worked(one.formulas, self.wanted).quantity.values
        self.wanted[one.name] = Quantity(wanted)
        pins = self._pins(one)
        measure = one.measure()
        words = self.rule(one)
        self.counts[one.name] = Count(
            name=one.name,
            value=counted,
            wanted=wanted,
            rule=rule if one.swatch else words if one.fit is None else f"{words}: {rule}",
            measure=measure,
            swatch=one.swatch,
            along=one.along,
            pinned=tuple(pins[i][1] if i in pins else None for i in range(len(self.sizes))),
            place=self.keys.at(*one.path),
        )
        # A measure that several counts are fitted to is what the first of them makes.
        first = not any(c.measure == measure for n, c in self.counts.items() if n != one.name)
        if measure and first:
            per_mm = self.swatches[one.swatch].per_mm(along=one.along)
            lengths = tuple(None if v is None or not per_mm else v / per_mm for v in value.values)
            self.made[measure] = Quantity(lengths, 1)


def _legal(fit: Fit, odd: int | None) -> Multiple | None:
    return fit.multiple if odd is None else fit.multiple.with_parity(odd)
