"""Fit a count to what is wanted: the nearest number that is legal, alone and by arithmetic.

Each count is fitted by itself. Relations between counts are checked afterwards and reported; they
are not solved for.
"""

import re
from enum import Enum
from fractions import Fraction
from math import ceil, floor
from typing import Final

from stitchproof.base.records import dataclass

_MULTIPLE: Final = re.compile(
    r"\s*(?:multiple\s+of\s+)?(?P<of>\d{1,6})\s*(?:(?P<sign>[-+−–])\s*(?P<plus>\d{1,6})\s*)?"
)


class Rounding(Enum):
    """Which legal number is taken; a tie goes up."""

    NEAREST = "nearest"
    UP = "up"
    DOWN = "down"


@dataclass(frozen=True, slots=True)
class Multiple:
    """Legal numbers: `of` times a whole number, and `plus` more."""

    of: int = 1
    plus: int = 0

    def words(self) -> str:
        """Write it as the trade does: `2 + 1`, `4`."""
        if not self.plus:
            return str(self.of)
        return f"{self.of} {'+' if self.plus > 0 else '-'} {abs(self.plus)}"

    def with_parity(self, odd: int) -> "Multiple | None":
        """Give those of them that are odd (1) or even (0); None when there are none."""
        if self.of % 2 == 0:
            return self if self.plus % 2 == odd else None
        plus = self.plus if self.plus % 2 == odd else self.plus + self.of
        return Multiple(2 * self.of, plus)

    def holds(self, number: int) -> bool:
        """Tell whether a number is one of them."""
        return (number - self.plus) % self.of == 0


ANY: Final = Multiple()


def parse_multiple(text: str) -> Multiple | None:
    """Read `2 + 1`, `4`, `6 - 1`, `multiple of 6 + 2`."""
    match = _MULTIPLE.fullmatch(text)
    if match is None or int(match["of"]) == 0:
        return None
    plus = int(match["plus"] or 0)
    return Multiple(int(match["of"]), plus if match["sign"] in {None, "+"} else -plus)


def nearest(wanted: Fraction, legal: Multiple, rounding: Rounding = Rounding.NEAREST) -> int:
    """Give the legal number for what is wanted, at least 1; the larger one of a tie."""
    repeats = (wanted - legal.plus) / legal.of
    match rounding:
        case Rounding.NEAREST:
            times = floor(repeats + Fraction(1, 2))
        case Rounding.UP:
            times = ceil(repeats)
        case Rounding.DOWN:
            times = floor(repeats)
    fewest = max(ceil(Fraction(1 - legal.plus, legal.of)), 0)
    return max(times, fewest) * legal.of + legal.plus
