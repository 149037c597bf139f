"""Quantities as authors write them; rounding and printing.

The conversions printed by the trade (6½ in is 16.5 cm, 11¼ in is 28.5 cm) are common practice, no
source. The inch and the ounce are exact by definition (international yard and pound, 1959).
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.base.units import (
    HALF,
    QUARTER,
    SIXTEENTH,
    TENTH,
    both_units,
    centimetres,
    decimal_words,
    inches,
    parse_length,
    parse_mass,
    parse_minutes,
    parse_price,
    parse_quantity,
    round_half_away,
)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("14 cm", 140),
        ("4.5 mm", Fraction(9, 2)),
        ("5½ in", Fraction(1397, 10)),
        ("5.5in", Fraction(1397, 10)),
        ('5 1/2"', Fraction(1397, 10)),
        ("5-1/2 inches", Fraction(1397, 10)),
        ("½ in.", Fraction(127, 10)),
        ("1/2 in", Fraction(127, 10)),
        ("5 ½ in", Fraction(1397, 10)),
        ("5\N{NO-BREAK SPACE}½\N{NO-BREAK SPACE}in", Fraction(1397, 10)),
        ("135 m", 135000),
        ("148 yds", 148 * 36 * Fraction(127, 5)),
        ("-2 cm", -20),
        (".5 cm", 5),
    ],
)
def test_lengths(text: str, mm: Fraction) -> None:
    assert parse_length(text) == mm


@pytest.mark.parametrize(
    "text",
    [
        "",
        "cm",
        "14",
        "14 g",
        "5,5 cm",
        "1/0 in",
        "5.5½ in",
        "fourteen cm",
        "1e9 cm",
        "9" * 40 + " cm",
    ],
)
def test_not_a_length(text: str) -> None:
    assert parse_length(text) is None


def test_other_quantities() -> None:
    assert parse_mass("50 g") == 50
    assert parse_mass("1 oz") == Fraction(28349523125, 10**9)
    assert parse_minutes("1 h 20 min") == 80
    assert parse_minutes("45 min") == 45
    assert parse_minutes("soon") is None
    price = parse_price("5.40 EUR")
    assert price is not None
    assert (price.value, price.unit) == (Fraction(27, 5), "EUR")
    assert parse_price("EUR 5.40") == price
    assert parse_price("5.40") is None
    bare = parse_quantity("17.5")
    assert bare is not None
    assert (bare.value, bare.unit) == (Fraction(35, 2), "")


def test_halves_go_away_from_zero() -> None:
    assert [round_half_away(Fraction(n, 2)) for n in (1, 3, 5, -1, -3)] == [1, 2, 3, -1, -2]
    assert round_half_away(Fraction(33, 40), QUARTER) == Fraction(3, 4)


@given(st.fractions(), st.sampled_from((Fraction(1), HALF, QUARTER, TENTH)))
def test_rounding_is_to_the_nearest(value: Fraction, step: Fraction) -> None:
    rounded = round_half_away(value, step)
    assert rounded % step == 0
    assert abs(rounded - value) <= step / 2
    assert round_half_away(-value, step) == -rounded


def test_printed_lengths() -> None:
    assert centimetres(Fraction(13, 2) * Fraction(127, 5)) == "16.5"  # common practice, no source
    assert centimetres(Fraction(45, 4) * Fraction(127, 5)) == "28.5"  # common practice, no source
    assert centimetres(Fraction(540)) == "54"
    assert centimetres(Fraction(241, 10), TENTH) == "2.4"
    assert inches(Fraction(10857, 10)) == "42¾"
    assert inches(Fraction(0)) == "0"
    assert inches(Fraction(127, 20)) == "¼"
    assert inches(Fraction(-127, 10)) == "-½"


def test_small_inches_are_written_finer_where_asked() -> None:
    # in sixteenths of an inch: 127/80 mm each
    def told(sixteenths: str) -> str:
        return inches(Fraction(sixteenths) * Fraction(127, 80), SIXTEENTH)

    assert [told(n) for n in ("0", "0.4", "0.5", "0.9", "1", "1.9", "2", "6", "17")] == [
        *("0", "0", "1/16", "1/16", "⅛", "⅛", "¼", "½", "1"),
    ]
    assert [told(n) for n in ("-0.3", "-0.6", "-1", "-16")] == ["0", "-1/16", "-⅛", "-1"]
    assert inches(Fraction(127, 80)) == "0"
    assert both_units(Fraction(1451)) == "145 cm (57¼ in)"


def test_decimals_as_needed() -> None:
    assert decimal_words(Fraction(-1, 20)) == "-0.1"
    assert decimal_words(Fraction(1889, 20), Fraction(1, 100)) == "94.45"
    assert decimal_words(Fraction(0)) == "0"


@given(st.text(max_size=40))
def test_reading_never_raises(text: str) -> None:
    parse_quantity(text)
    parse_length(text)
    parse_minutes(text)
    parse_price(text)
