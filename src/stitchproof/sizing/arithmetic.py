"""Work formulas out, exactly, in all sizes at once.

Lengths and plain numbers are kept apart: a quantity knows how many lengths were multiplied into it
(0 a plain number, 1 a length, 2 an area). A bare zero is both, so that `max(0, a - b)` reads as it
is meant.
"""

import math
from collections.abc import Callable, Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Final, TypeAlias

from stitchproof.base.records import dataclass
from stitchproof.base.units import round_half_away
from stitchproof.language.formula import Arithmetic, Call, Constant, Formula, Name, Negative

_LARGEST: Final = 1000  # bits of a numerator or denominator: what is larger is no float
_STEEPEST: Final = 9  # lengths multiplied into one another
_KINDS: Final = MappingProxyType({0: "a plain number", 1: "a length", 2: "an area"})


@dataclass(frozen=True, slots=True)
class Quantity:
    """What a formula comes to.

    Attributes
    ----------
    values : tuple of Fraction or None
        (S,) in mm to the power; None where it could not be worked out.
    power : int or None
        Lengths multiplied into it; None for a bare zero.
    """

    values: tuple[Fraction | None, ...]
    power: int | None = 0

    def kind(self) -> str:
        """Say what it is."""
        return _KINDS.get(self.power or 0, "no length and no plain number")


Scope: TypeAlias = Mapping[str, Quantity]


@dataclass(frozen=True, slots=True)
class Worked:
    """A quantity, and the sizes in which it could not be worked out.

    Attributes
    ----------
    quantity : Quantity
        What it comes to.
    zero, large : frozenset of int
        Indices of the sizes in which something was divided by zero, or grew too large.
    """

    quantity: Quantity
    zero: frozenset[int] = frozenset()
    large: frozenset[int] = frozenset()


class MixedUpError(Exception):
    """Lengths and plain numbers are mixed up; caught by whoever works a formula out."""


class _Work:
    """One formula being worked out."""

    def __init__(self, scope: Scope, size_count: int) -> None:
        self._scope = scope
        self._size_count = size_count
        self.zero: set[int] = set()
        self.large: set[int] = set()

    def of(self, formula: Formula) -> Quantity:
        match formula:
            case Constant(value, unit):
                bare_zero = value == 0 and not unit
                values = (value,) * self._size_count
                return Quantity(values, None if bare_zero else int(bool(unit)))
            case Name(name):
                return self._scope[name]
            case Negative(of):
                inner = self.of(of)
                return Quantity(tuple(None if v is None else -v for v in inner.values), inner.power)
            case Arithmetic(operator, left, right):
                return self._joined(operator, self.of(left), self.of(right))
            case Call(function, arguments):
                return self._called(function, [self.of(one) for one in arguments])

    def _joined(self, operator: str, left: Quantity, right: Quantity) -> Quantity:
        if operator in {"+", "-"}:
            power = _same(left, right)
        else:
            sign = 1 if operator == "*" else -1
            power = (left.power or 0) + sign * (right.power or 0)
            if abs(power) > _STEEPEST:
                words = "multiplies more lengths than make sense"
                raise MixedUpError(words)
        pairs = zip(left.values, right.values, strict=True)
        return Quantity(tuple(self._one(operator, i, *pair) for i, pair in enumerate(pairs)), power)

    def _one(
        self, operator: str, size: int, left: Fraction | None, right: Fraction | None
    ) -> Fraction | None:
        if left is None or right is None:
            return None
        if operator == "/" and right == 0:
            self.zero.add(size)
            return None
        value = _OPERATIONS[operator](left, right)
        if max(abs(value.numerator).bit_length(), value.denominator.bit_length()) > _LARGEST:
            self.large.add(size)
            return None
        return value

    def _called(self, function: str, arguments: list[Quantity]) -> Quantity:
        power = arguments[0].power
        for one in arguments[1:]:
            power = _same(Quantity((), power), one)
        if function in {"round", "floor", "ceil"} and power:
            words = f"cannot {function} {arguments[0].kind()}: divide it by a length first"
            raise MixedUpError(words)
        values = []
        for per_size in zip(*(one.values for one in arguments), strict=True):
            known = [value for value in per_size if value is not None]
            values.append(_FUNCTIONS[function](known) if len(known) == len(per_size) else None)
        return Quantity(tuple(values), power)


def _same(left: Quantity, right: Quantity) -> int | None:
    """Give the power of two quantities that are added or compared."""
    if left.power is None or right.power is None:
        return right.power if left.power is None else left.power
    if left.power != right.power:
        words = f"puts {left.kind()} and {right.kind()} together"
        raise MixedUpError(words)
    return left.power


_OPERATIONS: Final[Mapping[str, Callable[[Fraction, Fraction], Fraction]]] = MappingProxyType(
    {
        "+": lambda a, b: a + b,
        "-": lambda a, b: a - b,
        "*": lambda a, b: a * b,
        "/": lambda a, b: a / b,
    }
)
_FUNCTIONS: Final[Mapping[str, Callable[[list[Fraction]], Fraction]]] = MappingProxyType(
    {
        "min": min,
        "max": max,
        "abs": lambda values: abs(values[0]),
        "round": lambda values: round_half_away(values[0]),
        "floor": lambda values: Fraction(math.floor(values[0])),
        "ceil": lambda values: Fraction(math.ceil(values[0])),
    }
)


def work_out(formula: Formula, scope: Scope, size_count: int) -> Worked:
    """Work a formula out in every size.

    Parameters
    ----------
    formula : Formula
        All its names are in `scope`.
    scope : mapping of str to Quantity
        What each name comes to.
    size_count : int
        S.

    Raises
    ------
    MixedUpError
        Where lengths and plain numbers are mixed up, in the words of a finding.
    """
    work = _Work(scope, size_count)
    quantity = work.of(formula)
    return Worked(quantity, frozenset(work.zero), frozenset(work.large))
