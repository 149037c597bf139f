"""Lengths, masses, times and prices as authors write them, kept exact.

Lengths are fractions of a millimetre, and an inch is 127/5 of them; nothing is rounded before it
is printed, and what is printed is rounded from the unrounded value. There is one rounding rule for
halves, `round_half_away`.
"""

import re
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import dataclass

MM_PER_INCH: Final = Fraction(127, 5)  # exact since the international yard of 1959
G_PER_OUNCE: Final = Fraction(28349523125, 10**9)  # exact: 1 lb = 453.59237 g, 16 oz
HALF: Final = Fraction(1, 2)
QUARTER: Final = Fraction(1, 4)
TENTH: Final = Fraction(1, 10)
SIXTEENTH: Final = Fraction(1, 16)

_VULGAR: Final = MappingProxyType(
    {
        "½": Fraction(1, 2),
        "¼": Fraction(1, 4),
        "¾": Fraction(3, 4),
        "⅓": Fraction(1, 3),
        "⅔": Fraction(2, 3),
        "⅛": Fraction(1, 8),
        "⅜": Fraction(3, 8),
        "⅝": Fraction(5, 8),
        "⅞": Fraction(7, 8),
    }
)
_SIXTEENTHS: Final = MappingProxyType({0: "", 1: "1/16", 2: "⅛", 4: "¼", 8: "½", 12: "¾"})
_LENGTHS: Final = MappingProxyType(
    {
        "mm": Fraction(1),
        "cm": Fraction(10),
        "m": Fraction(1000),
        "in": MM_PER_INCH,
        "yd": 36 * MM_PER_INCH,
        "ft": 12 * MM_PER_INCH,
    }
)
_MASSES: Final = MappingProxyType({"g": Fraction(1), "kg": Fraction(1000), "oz": G_PER_OUNCE})
_TIMES: Final = MappingProxyType({"min": Fraction(1), "h": Fraction(60), "s": Fraction(1, 60)})
_SPELLINGS: Final = MappingProxyType(
    {
        '"': "in",
        "”": "in",
        "″": "in",
        "inch": "in",
        "inches": "in",
        "yds": "yd",
        "yard": "yd",
        "yards": "yd",
        "metre": "m",
        "metres": "m",
        "meter": "m",
        "meters": "m",
        "gram": "g",
        "grams": "g",
        "hour": "h",
        "hours": "h",
        "minute": "min",
        "minutes": "min",
    }
)
_SLASH: Final = "/⁄"
_LONGEST: Final = 100  # code points; no quantity is longer, and longer text is not looked into
_QUANTITY: Final = re.compile(
    rf"""\s*
    (?P<sign>[-−])?
    (?:(?P<whole>\d{{1,12}}(?:\.\d{{0,12}})?|\.\d{{1,12}}))?
    (?:(?:(?:(?<=\d)[\s-])?\s*(?P<vulgar>[{"".join(_VULGAR)}]))
      |(?:(?:(?<=\d)[\s-])\s*(?P<above>\d{{1,6}})[{_SLASH}](?P<below>\d{{1,6}}))
      |(?:[{_SLASH}](?P<under>\d{{1,6}})))?
    \s*(?P<unit>[^\s\d](?:.*\S)?)?\s*""",
    re.VERBOSE,
)


def round_half_away(value: Fraction, step: Fraction = Fraction(1)) -> Fraction:
    """Round to the nearest multiple of `step`, halves away from zero."""
    size = abs(value) / step
    whole = (2 * size.numerator + size.denominator) // (2 * size.denominator)
    return (whole if value >= 0 else -whole) * step


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its unit as written, one spelling a unit; the unit is empty for a bare one."""

    value: Fraction
    unit: str


def parse_quantity(text: str) -> Quantity | None:
    """Read `14 cm`, `5½ in`, `5.5in`, `5 1/2"`, `50 g`, `5.40 EUR`; None for anything else.

    A decimal point is a point: `5,5` could be five and a half or a list, and is not guessed at.
    """
    match = _QUANTITY.fullmatch(text) if len(text) <= _LONGEST else None
    if match is None:
        return None
    value = _value(match)
    if value is None:
        return None
    unit = (match["unit"] or "").removesuffix(".")
    return Quantity(-value if match["sign"] else value, _SPELLINGS.get(unit.lower(), unit))


def _value(match: re.Match[str]) -> Fraction | None:
    """Add up the parts of a matched number; None where there is none, or a part makes no sense."""
    whole, vulgar, above = match["whole"], match["vulgar"], match["above"]
    below = match["below"] or match["under"]
    if whole is None and vulgar is None:
        return None
    value = Fraction(whole or 0)
    if vulgar is not None:
        return value + _VULGAR[vulgar] if value.denominator == 1 else None
    if below is None:
        return value
    if int(below) == 0 or value.denominator != 1:
        return None
    return value + Fraction(int(above), int(below)) if above else value / int(below)


def _in_unit(text: str, factors: MappingProxyType[str, Fraction]) -> Fraction | None:
    quantity = parse_quantity(text)
    if quantity is None:
        return None
    factor = factors.get(quantity.unit) or factors.get(quantity.unit.lower())
    return None if factor is None else quantity.value * factor


def parse_length(text: str) -> Fraction | None:
    """Read a length with its unit [mm]; None for anything else, also for a bare number."""
    return _in_unit(text, _LENGTHS)


def parse_mass(text: str) -> Fraction | None:
    """Read a mass with its unit [g]; None for anything else."""
    return _in_unit(text, _MASSES)


def parse_minutes(text: str) -> Fraction | None:
    """Read a time [min], `45 min`, `1 h 20 min`; None for anything else."""
    if len(text) > _LONGEST:
        return None
    total = Fraction(0)
    parts = re.findall(r"[^\sa-zA-Z]+\s*[a-zA-Z]+\.?", text)
    if not parts or re.sub(r"\s", "", "".join(parts)) != re.sub(r"\s", "", text):
        return None
    for part in parts:
        minutes = _in_unit(part, _TIMES)
        if minutes is None:
            return None
        total += minutes
    return total


def parse_price(text: str) -> Quantity | None:
    """Read `5.40 EUR` or `EUR 5.40`: the amount, and the currency as written."""
    if len(text) > _LONGEST:
        return None
    before = re.fullmatch(r"\s*([^\d\s.]+)\s*(\d.*)", text)
    price = parse_quantity(f"{before[2]} {before[1]}" if before else text)
    return price if price is not None and price.unit and price.value >= 0 else None


def decimal_words(value: Fraction, step: Fraction = TENTH) -> str:
    """Write a number rounded to a step, with no more decimals than it needs: `54`, `31.5`."""
    rounded = round_half_away(value, step)
    places = 0
    while rounded * 10**places % 1 and places < 6:  # noqa: PLR2004  # millionths are enough
        places += 1
    digits = str(abs(int(round_half_away(rounded * 10**places)))).rjust(places + 1, "0")
    whole, decimals = digits[: len(digits) - places], digits[len(digits) - places :]
    return f"{'-' if rounded < 0 else ''}{whole}{'.' if places else ''}{decimals}"


def centimetres(mm: Fraction, step: Fraction = HALF) -> str:
    """Write a length as a number of centimetres, to the half centimetre unless told otherwise."""
    return decimal_words(mm / 10, step)


def inches(mm: Fraction, finest: Fraction = QUARTER) -> str:
    """Write a length as a number of inches to the quarter: `42¾`, `½`, `0`.

    Parameters
    ----------
    mm : Fraction
        The length. [mm]
    finest : Fraction
        A quarter, an eighth or a sixteenth: what is less than half a quarter is written to the
        coarsest of these that is not nothing, but no finer. [in]
    """
    step = QUARTER
    while step > finest and not round_half_away(mm / MM_PER_INCH, step):
        step /= 2
    sixteenths = int(round_half_away(mm / MM_PER_INCH, step) / SIXTEENTH)
    whole, part = divmod(abs(sixteenths), 16)
    shown = f"{whole if whole or not part else ''}{_SIXTEENTHS[part]}"
    return f"-{shown}" if sixteenths < 0 else shown


def both_units(mm: Fraction) -> str:
    """Write a length in both units: `54.5 cm (21½ in)`."""
    return f"{centimetres(mm)} cm ({inches(mm)} in)"
