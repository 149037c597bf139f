"""The numbers of the Marram Tee, a garment worked out by hand in nine sizes.

An invented garment, computed outside this program from the swatch, the rules and the rounding that
stand in `examples/marram-tee.md`, and checked stitch by stitch; nobody has crocheted it. Counts are
compared exactly, printed lengths as printed, wanted counts to the digits given.
"""

from fractions import Fraction
from pathlib import Path

import pytest

from stitchproof.base.units import TENTH, centimetres, decimal_words, inches
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.sizing.model import Count, Measure, Sizing
from stitchproof.sizing.number_findings import WideNeck
from stitchproof.sizing.size import size_manuscript

pytestmark = pytest.mark.reference

TEE = Path(__file__).parents[2] / "examples/marram-tee.md"
SIZES = ("XS", "S", "M", "L", "1X", "2X", "3X", "4X", "5X")
M, X3 = SIZES.index("M"), SIZES.index("3X")
HUNDREDTH = Fraction(1, 100)


@pytest.fixture(scope="module")
def sizing() -> Sizing:
    manuscript, _ = read_manuscript(TEE.read_text("utf-8"), "marram-tee.md")
    sizing, _ = size_manuscript(manuscript, lambda _: "", None)
    return sizing


def count(sizing: Sizing, name: str) -> Count:
    return next(one for one in sizing.counts if one.name == name)


def measure(sizing: Sizing, name: str, *, finished: bool = False) -> Measure:
    among = sizing.finished if finished else sizing.measures
    return next(one for one in among if one.name == name)


def length(values: tuple[Fraction | None, ...] | None, size: int) -> Fraction:
    assert values is not None
    value = values[size]
    assert value is not None
    return value


@pytest.mark.parametrize(
    ("name", "values"),
    [
        ("panel_sts", (77, 85, 95, 103, 111, 119, 127, 135, 145)),
        ("rows", (62, 66, 66, 66, 70, 70, 70, 74, 74)),
        ("armhole_rows", (22, 22, 24, 24, 28, 30, 32, 34, 36)),
        ("neck_sts", (55, 55, 55, 55, 57, 57, 57, 59, 59)),
        ("shoulder_sts", (11, 15, 20, 24, 27, 31, 35, 38, 43)),
    ],
)
def test_counts_in_all_sizes(sizing: Sizing, name: str, values: tuple[int, ...]) -> None:
    assert sizing.sizes == SIZES
    assert count(sizing, name).value == values


@pytest.mark.parametrize(
    ("name", "wanted", "step"),
    [
        ("panel_sts", ("94.5", "126.44"), HUNDREDTH),
        ("rows", ("65.4", "70.2"), TENTH),
        ("armhole_rows", ("23.4", "32.4"), TENTH),
        ("neck_sts", ("54.25", "57.33"), HUNDREDTH),
    ],
)
def test_wanted_counts(sizing: Sizing, name: str, wanted: tuple[str, str], step: Fraction) -> None:
    found = count(sizing, name).wanted
    assert tuple(decimal_words(length(found, i), step) for i in (M, X3)) == wanted


def test_true_ties_go_up(sizing: Sizing) -> None:
    rows = count(sizing, "rows")
    assert rows.wanted[-2:] == (Fraction(72), Fraction(72))
    assert rows.value[-2:] == (74, 74)


@pytest.mark.parametrize(
    ("name", "values"),
    [
        ("side_rows", (42, 38)),
        ("neck_rnd", (112, 116)),
        ("armhole_edge", (36, 48)),
        ("armhole_rnd", (73, 97)),
    ],
)
def test_derived_counts(sizing: Sizing, name: str, values: tuple[int, int]) -> None:
    found = count(sizing, name).value
    assert (found[M], found[X3]) == values


@pytest.mark.parametrize(
    ("words", "values"),
    [
        ("{panel_sts + 2}", (97, 129)),
        ("{(rows - 6) / 4}", (15, 16)),
        ("{neck_rnd / 2}", (56, 58)),
        ("{(armhole_rnd + 1) / 2}", (37, 49)),
    ],
)
def test_numbers_of_the_text(sizing: Sizing, words: str, values: tuple[int, int]) -> None:
    manuscript, _ = read_manuscript(TEE.read_text("utf-8"), "marram-tee.md")
    number = next(one for one in manuscript.numbers if one.spelling == words)
    found = sizing.resolved.of(number)
    assert found is not None
    assert (found[M], found[X3]) == values


@pytest.mark.parametrize(
    ("name", "target", "made"),
    [
        ("panel", ("54", "72.25"), ("54.29", "72.57")),
        ("length", ("54.5", "58.5"), ("55", "58.33")),
        ("armhole", ("19.5", "27"), ("20", "26.67")),
        ("neck", ("31", "32.76"), ("31.43", "32.57")),
    ],
)
def test_measures(
    sizing: Sizing, name: str, target: tuple[str, str], made: tuple[str, str]
) -> None:
    one = measure(sizing, name)
    for i, t, m in zip((M, X3), target, made, strict=True):
        assert decimal_words(length(one.target_mm, i) / 10, HUNDREDTH) == t
        assert decimal_words(length(one.finished_mm, i) / 10, HUNDREDTH) == m


def test_finished_bust(sizing: Sizing) -> None:
    bust = measure(sizing, "bust", finished=True).finished_mm
    assert [centimetres(length(bust, i), TENTH) for i in (M, X3)] == ["108.6", "145.1"]
    assert [inches(length(bust, i)) for i in (M, X3)] == ["42¾", "57¼"]


def test_finished_neck(sizing: Sizing) -> None:
    neck = measure(sizing, "neck_round", finished=True).finished_mm
    assert [centimetres(length(neck, i), TENTH) for i in (M, X3)] == ["62.2", "64.4"]


def test_shoulder_and_side_lengths(sizing: Sizing) -> None:
    texture = sizing.swatches["texture"]
    assert texture.sts_per_mm is not None
    assert texture.rows_per_mm is not None
    shoulder = count(sizing, "shoulder_sts").value
    side = count(sizing, "side_rows").value
    cm = [decimal_words((shoulder[i] or 0) / texture.sts_per_mm / 10) for i in (M, X3)]
    assert cm == ["11.4", "20"]
    assert [decimal_words((side[i] or 0) / texture.rows_per_mm / 10) for i in (M, X3)] == [
        "35",
        "31.7",
    ]


def test_the_open_armhole_is_what_the_rows_make(sizing: Sizing) -> None:
    manuscript, _ = read_manuscript(TEE.read_text("utf-8"), "marram-tee.md")
    number = next(one for one in manuscript.numbers if one.spelling == "{armhole}")
    found = sizing.resolved.of(number)
    assert found is not None
    printed = [centimetres(Fraction(found[i] or 0)) for i in (M, X3)]
    assert printed == ["20", "26.5"]


def test_only_the_xs_neck_is_wide() -> None:
    manuscript, _ = read_manuscript(TEE.read_text("utf-8"), "marram-tee.md")
    _, found = size_manuscript(manuscript, lambda _: "", None)
    (wide,) = (one for one in found if isinstance(one.finding, WideNeck))
    assert wide.sizes == ("XS",)
    assert isinstance(wide.finding, WideNeck)
    assert [centimetres(mm, TENTH) for mm in wide.finding.left_mm] == ["2.4"]
