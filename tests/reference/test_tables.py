"""Published figures held against the packaged tables; each check names its source.

The figures are typed here from the source, not taken from the tables. Units are turned by `pint`,
which shares no code with the tables.
"""

from fractions import Fraction

import pint
import pytest

from stitchproof.trade import ease, hooks, swatches, yarns
from stitchproof.trade.bodies import body_table, body_tables

pytestmark = pytest.mark.reference

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()

# Centimetres that are no half-centimetre rounding of the inches beside them, and why.
DEVIATIONS = {
    ("women", "chest", "5X"): "printed 158 for 62 in; a spec sheet prints 157, pattern PDFs 157.5",
    ("men", "hips", "2XL"): "recalled; the centimetres run in steps of 5 for 2 in",
    ("children_chest_by_age_uk", "chest", None): "the trade there takes 2 in for 5 cm",
}


def published(*numbers: str) -> tuple[Fraction, ...]:
    """A printed figure or range; one number stands for both ends."""
    low, *high = (Fraction(one) for one in numbers)
    return low, *(high or [low])


def cm(inches: float) -> float:
    return float(UNITS.Quantity(inches, "inch").to("cm").magnitude)


def test_inches_and_centimetres_of_every_row_are_the_same_length() -> None:
    off: dict[tuple[str, str, str | None], float] = {}
    checked = 0
    for table in body_tables().values():
        for row in table.rows.values():
            pairs = zip(table.sizes, row.inches, row.centimetres, strict=False)
            for size, inch_range, cm_range in pairs:
                for inches, centimetres in zip(inch_range, cm_range, strict=True):
                    checked += 1
                    apart = abs(float(centimetres) - cm(float(inches)))
                    if apart > 0.5:  # the tables round to half centimetres, often downwards
                        off[table.id, row.point, size] = apart
    assert checked > 400
    known = {
        key: apart
        for key, apart in off.items()
        if key in DEVIATIONS or (key[0], key[1], None) in DEVIATIONS
    }
    assert off == known
    assert max(off.values()) < 1.3
    for table_id, point, named in DEVIATIONS:
        assert any(key[:2] == (table_id, point) and named in (None, key[2]) for key in off), (
            "a deviation that is none any more"
        )


def test_millimetres_are_the_published_centimetres_else_the_inches() -> None:
    for table in body_tables().values():
        for row in table.rows.values():
            assert len(row.mm) == len(row.confidence) == len(table.sizes)
            for i, (low, high) in enumerate(row.mm):
                assert Fraction(0) < low <= high
                if row.centimetres:
                    assert (low, high) == tuple(10 * one for one in row.centimetres[i])
                else:
                    assert float(low) == pytest.approx(10 * cm(float(row.inches[i][0])))


def test_bodies_grow_with_the_sizes() -> None:
    # Common practice, no source: a larger size is nowhere smaller.
    for table in body_tables().values():
        for row in table.rows.values():
            for where in (0, 1):
                lengths = [one[where] for one in row.mm]
                assert lengths == sorted(lengths), (table.id, row.point)


def test_bust_of_nine_sizes() -> None:
    # Rowan, Garment Specification sheet, Bloom Book Four: to-fit bust in inches, nine sizes.
    table = body_table("women")
    assert table is not None
    low = (28, 32, 36, 40, 44, 48, 52, 56, 60)
    assert table.rows["chest"].inches == tuple((Fraction(n), Fraction(n + 2)) for n in low)
    # Yarnspirations CAC0129-028772M (2020): M 91.5-96.5 cm, L 101.5-106.5 cm.
    assert table.rows["chest"].centimetres[2:4] == (
        (Fraction("91.5"), Fraction("96.5")),
        (Fraction("101.5"), Fraction("106.5")),
    )
    assert table.rows["chest"].confidence[:8] == ("read",) * 8
    assert table.rows["chest"].confidence[8] == "recalled"  # the centimetres of 5X disagree


def test_measures_of_the_worked_garment() -> None:
    # The worked garment of nine sizes, by hand: bust 94 cm (M) and 134.5 cm (3X), adult head 56 cm.
    table = body_table("women")
    assert table is not None
    chest, head = table.rows["chest"], table.rows["head"]
    assert chest.at(table.sizes.index("M")) == 940
    assert chest.at(table.sizes.index("3X")) == 1345
    assert {head.at(i) for i in range(9)} == {560}
    assert head.joined
    assert not chest.joined


def test_head_of_an_adult() -> None:
    # Rhyflower Knits, Standard Head Measurements: adult 22 in / 56 cm, 12 months 18 in / 45.5 cm.
    table = body_table("head_by_age")
    assert table is not None
    row = table.rows["head"]
    assert row.inches[table.sizes.index("Adult")] == published("22")
    assert row.centimetres[table.sizes.index("Adult")] == published("56")
    assert row.centimetres[table.sizes.index("12mo")] == published("45.5")


def test_chest_of_children() -> None:
    # Yarnspirations CAK0329-008157M: chest 21, 23, 25, 26½, 28 in for sizes 2, 4, 6, 8, 10.
    table = body_table("children")
    assert table is not None
    chest = table.rows["chest"]
    assert [one[0] for one in chest.inches[:5]] == [21, 23, 25, Fraction("26.5"), 28]
    assert chest.confidence == ("read",) * 5 + ("recalled",) * 3
    # Crochet Kitten, Measurements for Designers: Children: upper arm 7 in (size 2), 9½ in (16).
    assert table.rows["upper_arm"].inches[0] == published("7")
    assert table.rows["upper_arm"].inches[7] == published("9.5")


def test_chest_of_babies() -> None:
    # Yarnspirations BRK0229-010115M: 6 months 17 in / 43 cm, 24 months 20 in.
    # Feather and Fan, 2008-02-12, on 3 months: chest 16, back waist 6, armhole 3¼ in.
    table = body_table("babies")
    assert table is not None
    chest = table.rows["chest"]
    assert chest.inches[1] == published("17")
    assert chest.centimetres[1] == published("43")
    assert chest.inches[4] == published("20")
    three = {p: table.rows[p].inches[0][0] for p in ("chest", "back_waist_length", "armhole_depth")}
    assert three == {
        "chest": 16,
        "back_waist_length": 6,
        "armhole_depth": Fraction("3.25"),
    }
    assert chest.confidence == ("read", "read", "recalled", "recalled", "read")


@pytest.mark.parametrize(
    ("mm", "us"),
    [
        # Lindley General Store (Canada), Knitting Needle Size Conversion Chart, crochet column;
        # crochetlooppool.com, hook chart (B-1 to I-9).
        ("2.25", "B-1"),
        ("2.75", "C-2"),
        ("3.25", "D-3"),
        ("3.5", "E-4"),
        ("3.75", "F-5"),
        ("4", "G-6"),
        ("4.5", "7"),
        ("5", "H-8"),
        ("5.5", "I-9"),
        # matifs.com, crochet hook chart.
        ("6", "J-10"),
        ("6.5", "K-10 1/2"),
        ("8", "L-11"),
        ("10", "N/P-15"),
    ],
)
def test_us_label_of_a_hook(mm: str, us: str) -> None:
    one = hooks.hook(Fraction(mm))
    assert one is not None
    assert one.us == us
    assert one in hooks.hooks_labelled(us)


@pytest.mark.parametrize(
    ("mm", "uk"),
    # Tangled Yarn (UK), Needle Conversion Chart, crochet hook columns.
    [
        ("2.25", "13"),
        ("3", "11"),
        ("3.25", "10"),
        ("3.5", "9"),
        ("4", "8"),
        ("5", "6"),
        ("5.5", "5"),
    ],
)
def test_uk_number_of_a_hook(mm: str, uk: str) -> None:
    one = hooks.hook(Fraction(mm))
    assert one is not None
    assert one.uk == uk
    assert one in hooks.hooks_labelled(uk, "UK")


@pytest.mark.parametrize(
    ("number", "stitches", "hook_mm"),
    [
        # Craft Yarn Council Standard Yarn Weight System, crochet columns, as reprinted at
        # crochetonatrain.com (1 to 5) and in Mary Maxim's Yarn Guide (6).
        (1, ("21", "32"), ("2.25", "3.5")),
        (2, ("16", "20"), ("3.5", "4.5")),
        (3, ("12", "17"), ("4.5", "5.5")),
        (4, ("11", "14"), ("5.5", "6.5")),
        (5, ("8", "11"), ("6.5", "9")),
        (6, ("7", "9"), ("9", "15")),
    ],
)
def test_yarn_weights(number: int, stitches: tuple[str, str], hook_mm: tuple[str, str]) -> None:
    one = yarns.yarn_weight(number)
    assert one is not None
    assert one.gauge_stitch == "sc"
    assert one.gauge == tuple(map(Fraction, stitches))
    assert one.hook_mm == tuple(map(Fraction, hook_mm))


def test_wraps_an_inch() -> None:
    # Craft Yarn Council WPI table as reprinted by The Unusual Pear, KnitFreedom and Ice Yarns.
    wraps = {one.number: one.wpi for one in yarns.yarn_weights()}
    assert wraps[1] == published("14", "30")
    assert wraps[3] == published("11", "15")
    assert wraps[6] == published("5", "6")
    assert wraps[0] == (Fraction(30), None)


def test_bands_of_ease_are_the_same_in_both_units_and_leave_no_gap() -> None:
    # A US yarn company's notebook, part 2: 0-2, 2-4, 4-6, 6 in and more.
    bands = ease.fits()
    assert [one.high_mm for one in bands][:-1] == [one.low_mm for one in bands][1:]
    bounds = [float(one.low_mm) for one in bands[1:] if one.low_mm is not None]
    for mm, inches in zip(bounds, (0, 2, 4, 6), strict=True):
        assert mm == pytest.approx(10 * cm(inches), abs=2.5)  # charts print 5 cm for 2 in


def test_swatches_that_were_measured_are_plausible() -> None:
    # A yarn magazine's experiment on yarn usage: 20 x 20 sts and rows; sc 6.25 wide x 5.75 in
    # high, hdc 6.75 x 9.25 in.
    for stitch, width, height in (("sc", "6.25", "5.75"), ("hdc", "6.75", "9.25")):
        across, up = 20 / Fraction(width), 20 / Fraction(height)
        assert swatches.plausible(stitch, across, up)
        assert float(across / up) == pytest.approx(
            float(swatches.swatch_shapes()[stitch].usual), abs=0.01
        )
    # Printed gauges of sc: 14 x 16 and 13 x 16 over 4 in.
    assert swatches.plausible("sc", Fraction(14), Fraction(16))
    assert swatches.plausible("sc", Fraction(13), Fraction(16))
    # Not a dc: three times as many rows as stitches.
    assert swatches.plausible("dc", Fraction(10), Fraction(30)) is False
