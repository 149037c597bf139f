"""Formulas: plain arithmetic on lengths, counts and body measures, parsed and never run as code."""

from fractions import Fraction
from typing import Literal, TypeAlias

from stitchproof.base.records import dataclass

Unit: TypeAlias = Literal["", "mm", "cm", "in"]


@dataclass(frozen=True, slots=True)
class Constant:
    """A written number, with its unit of length if it has one; in mm then."""

    value: Fraction
    unit: Unit = ""


@dataclass(frozen=True, slots=True)
class Name:
    """A declared name, dotted for body measures (`body.chest`)."""

    name: str


@dataclass(frozen=True, slots=True)
class Negative:
    """Minus a formula."""

    of: "Formula"


@dataclass(frozen=True, slots=True)
class Arithmetic:
    """Two formulas joined by `+ - * /`."""

    operator: Literal["+", "-", "*", "/"]
    left: "Formula"
    right: "Formula"


@dataclass(frozen=True, slots=True)
class Call:
    """One of `min max abs round floor ceil` of formulas."""

    function: Literal["min", "max", "abs", "round", "floor", "ceil"]
    arguments: tuple["Formula", ...]


Formula: TypeAlias = Constant | Name | Negative | Arithmetic | Call
