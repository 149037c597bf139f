"""Write formulas back to text."""

from fractions import Fraction
from types import MappingProxyType
from typing import Final

from stitchproof.base.units import MM_PER_INCH
from stitchproof.language.formula import Arithmetic, Call, Constant, Formula, Name, Negative

_BINDING: Final = MappingProxyType({"+": 1, "-": 1, "*": 2, "/": 2})
_UNITS: Final = MappingProxyType({"mm": Fraction(1), "cm": Fraction(10), "in": MM_PER_INCH})
_GLYPHS: Final = MappingProxyType({Fraction(1, 3): "⅓", Fraction(2, 3): "⅔"})


def written(formula: Formula) -> str:
    """Write a formula as text that reads as the same formula."""
    return _written(formula, 0)


def _written(formula: Formula, around: int) -> str:
    """Write with brackets where the operator around it binds more strongly than its own."""
    match formula:
        case Constant():
            return _number_words(formula)
        case Name(name):
            return name
        case Negative(of):
            words = f"-{_written(of, 3)}"
            return f"({words})" if around else words
        case Call(function, arguments):
            return f"{function}({', '.join(_written(one, 0) for one in arguments)})"
        case Arithmetic(operator, left, right):
            own = _BINDING[operator]
            words = f"{_written(left, own)} {operator} {_written(right, own + 1)}"
            return f"({words})" if own < around else words


def _number_words(constant: Constant) -> str:
    value = constant.value / _UNITS.get(constant.unit, Fraction(1))
    unit = f" {constant.unit}" if constant.unit else ""
    rest = value.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    if rest == 1:
        return f"{_decimal(value)}{unit}"
    whole, part = divmod(value, 1)
    if part in _GLYPHS:
        return f"{whole or ''}{_GLYPHS[part]}{unit}"
    return f"({value.numerator} / {value.denominator}){f' * 1{unit}' if unit else ''}"


def _decimal(value: Fraction) -> str:
    """Write a fraction that ends as a decimal, in full."""
    places = 0
    while value.denominator != 1:
        value *= 10
        places += 1
    digits = str(value.numerator).rjust(places + 1, "0")
    return digits if not places else f"{digits[:-places]}.{digits[-places:]}"
