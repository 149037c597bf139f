import math
import re
import xml.etree.ElementTree as ET
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.drawing.outline import Gauge, Lie, around_mm, outline
from stitchproof.drawing.schematic import Schematic, Where, schematic
from stitchproof.drawing.strokes import place
from stitchproof.fabric.proof import PieceShape, Shape
from stitchproof.pipeline.press import press
from tests.conftest import Golden
from tests.mini_patterns import OneFile

GAUGE = Gauge(100 / 17.5, 100 / 12)
PANEL = (77, 85, 95, 103, 111, 119, 127, 135, 145)
ROWS = (62, 66, 66, 66, 70, 70, 70, 74, 74)
FLAT, IN_ROUNDS = False, True
SIZES = ("XS", "S", "M", "L", "1X", "2X", "3X", "4X", "5X")


def rectangle(stitches: int, rows: int) -> Shape:
    return Shape(FLAT, (0.0,) * rows, (float(stitches),) * rows)


def sleeve(cuff: int, increases: int, every: int, skipped: int, cap: int) -> Shape:
    """Increase at both ends, leave stitches at the underarm, decrease at both ends every row."""
    left = [-float(row // every) for row in range((increases + 1) * every)]
    left += [left[-1] + skipped + row for row in range(cap)]
    right = [cuff - end for end in left]
    return Shape(FLAT, tuple(left), tuple(right))


def tube(*stitches: int, flat: bool = False) -> Shape:
    return Shape(IN_ROUNDS, (0.0,) * len(stitches), tuple(map(float, stitches)), flat)


def piece(*shapes: Shape | None, name: str = "Panel (make 2)") -> PieceShape:
    return PieceShape(name, name.partition(" (")[0], shapes)


def drawn(*shapes: Shape | None, gauge: Gauge = GAUGE, sizes: tuple[str, ...] = ()) -> Schematic:
    made = schematic(piece(*shapes), gauge, sizes or SIZES[: len(shapes)], (1, 3, 3, 2))
    assert made is not None
    return made


# --------------------------------------------------------------------------- outlines


# The panel of the worked garment, M: 95 sts = 54.29 cm, 66 rows = 55.0 cm.
def test_a_panel_is_a_rectangle_of_its_stitches_and_rows() -> None:
    made = outline(rectangle(95, 66), GAUGE)
    assert made is not None
    half = 95 / 17.5 * 100 / 2
    corners = [(-half, 0), (half, 0), (half, 550), (-half, 550)]
    assert [(round(x, 6), round(y, 6)) for x, y in made.points] == [
        (round(x, 6), round(y, 6)) for x, y in corners
    ]
    assert math.isclose(made.first_mm, 542.857, abs_tol=0.001)
    assert made.lie is Lie.FLAT


def test_even_shaping_is_one_straight_line() -> None:
    made = outline(sleeve(40, 12, 3, 0, 0), GAUGE)
    assert made is not None
    slopes = [
        (b[0] - a[0]) / (b[1] - a[1])
        for a, b in pairwise(made.points)
        if b[0] != a[0] and b[1] != a[1]
    ]
    assert len(slopes) == 2
    for slope in slopes:
        assert math.isclose(abs(slope), (100 / 17.5) / (3 * 100 / 12), rel_tol=1e-6)


def test_stitches_left_at_once_are_a_step() -> None:
    made = outline(sleeve(40, 4, 4, 6, 8), GAUGE)
    assert made is not None
    steps = [
        abs(b[0] - a[0])
        for a, b in pairwise(made.points)
        if a[1] == b[1] and 0 < a[1] < made.height_mm
    ]
    assert len(steps) == 2
    for step in steps:
        assert math.isclose(step, 6 * GAUGE.stitch_mm)


def test_chains_added_for_a_sleeve_lie_ahead_of_the_row() -> None:
    text = (
        "Ch 13.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (12 sc)\n\n"
        "Row 2: Ch 1, sc in each st across, ch 9, turn. (12 sc, 9 chs)\n\n"
        "Row 3: Sc in 2nd ch from hook and in next 7 chs, sc in each st across, ch 9, turn.\n\n"
        "Row 4: Sc in 2nd ch from hook and in next 7 chs, sc in each st across, turn. (28 sc)\n"
    )
    (piece,) = press(OneFile(text), "sleeves.md", shapes=True).proof.pieces
    (shape,) = piece.shapes
    assert shape is not None
    ends = list(zip(shape.left, shape.right, strict=True))
    assert ends == [(0, 12), (0, 12), (0, 20), (-8, 20)]


def test_rows_of_two_fabrics_have_their_own_height_and_width() -> None:
    rib, body = Gauge(5, 4), Gauge(6, 9)
    made = outline(rectangle(50, 30), (rib,) * 10 + (body,) * 20)
    assert made is not None
    assert (made.first_mm, made.last_mm, made.height_mm) == (250, 300, 10 * 4 + 20 * 9)
    assert {y for x, y in made.points if x == 150} == {40, 220}  # 50 sts at once are a step
    assert outline(rectangle(50, 30), (rib,) * 29) is None
    assert outline(rectangle(50, 30), (rib,) * 29 + (Gauge(0, 9),)) is None


# A lace of six rows: full rows of 37 stitches, rows of 7 with arches between them, and arches to
# end with; common practice, no source.
def test_openwork_is_as_wide_as_its_full_rows() -> None:
    counts = (37, *(7, 37, 7, 37, 8, 37) * 5, 13)
    made = outline(Shape(FLAT, (0.0,) * len(counts), tuple(map(float, counts))), Gauge(5, 10))
    assert made is not None
    assert made.first_mm == made.last_mm == made.widest_mm == 37 * 5
    assert len(made.points) == 4


def test_shaping_is_not_taken_for_openwork() -> None:
    vee = [*range(40, 10, -2), *range(10, 42, 2)]
    made = outline(Shape(FLAT, (0.0,) * len(vee), tuple(map(float, vee))), Gauge(5, 10))
    assert made is not None
    right = {y: x for x, y in made.points[1 : len(made.points) // 2 + 1]}
    assert min(right.values()) < -100 + 16 * 5
    shoulder = outline(Shape(FLAT, (0.0,) * 30, (*(40.0,) * 20, *(12.0,) * 10)), Gauge(5, 10))
    assert shoulder is not None
    assert (shoulder.first_mm, shoulder.last_mm) == (200, 60)


# Flat shapes in rounds: the way around a circle is pi times the way across it.
def test_rounds_lie_as_half_a_tube_or_as_a_disc() -> None:
    hat = outline(tube(*range(6, 79, 6), *(78,) * 14), GAUGE)
    assert hat is not None
    assert hat.lie is Lie.TUBE
    assert math.isclose(hat.widest_mm, 39 * GAUGE.stitch_mm)
    assert math.isclose(around_mm(hat.widest_mm, hat.lie), 78 * GAUGE.stitch_mm)
    # Begun in a ring like a mat, but with far too few stitches at its edge to lie flat.
    hat = outline(tube(*range(6, 79, 6), *(78,) * 14, flat=True), GAUGE)
    assert hat is not None
    assert hat.lie is Lie.TUBE
    mat = outline(tube(6, 12, 18, 24, flat=True), Gauge(5, 5))
    assert mat is not None
    assert (mat.lie, mat.widest_mm) == (Lie.DISC, 40)
    assert math.isclose(around_mm(40, Lie.DISC), 40 * math.pi)


@pytest.mark.parametrize(
    ("shape", "gauge"),
    [
        (Shape(FLAT, (), ()), GAUGE),
        (rectangle(0, 5), GAUGE),
        (rectangle(5, 5), Gauge(0, 8)),
        (rectangle(5, 5), Gauge(5, 0)),
        (rectangle(5, 5), Gauge(math.nan, 5)),
        (Shape(FLAT, (0.0,), (math.inf,)), GAUGE),
    ],
)
def test_what_has_no_size_is_not_drawn(shape: Shape, gauge: Gauge) -> None:
    assert outline(shape, gauge) is None
    assert schematic(piece(shape), gauge, ("M",)) is None


ends = st.lists(st.tuples(st.integers(-40, 40), st.integers(1, 60)), min_size=1, max_size=30).map(
    lambda rows: [(left, left + width) for left, width in rows]
)


@given(ends)
def test_an_outline_keeps_width_and_height(rows: list[tuple[int, int]]) -> None:
    shape = Shape(FLAT, tuple(float(a) for a, _ in rows), tuple(float(b) for _, b in rows))
    made = outline(shape, Gauge(5, 7))
    assert made is not None
    heights = [y for _, y in made.points]
    assert (min(heights), max(heights)) == (0, 7 * len(rows))
    assert made.widest_mm == max(b - a for a, b in rows) * 5
    drawn_wide = max(x for x, _ in made.points) - min(x for x, _ in made.points)
    assert drawn_wide <= (max(b for _, b in rows) - min(a for a, _ in rows)) * 5 + 1e-6


# --------------------------------------------------------------------------- drawings


def test_a_schematic_is_to_scale() -> None:
    made = drawn(rectangle(95, 66))
    points = re.findall(r'<polygon points="([^"]*)" fill="none"', made.svg)[0].split()
    xs, ys = zip(*(map(float, point.split(",")) for point in points), strict=True)
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    assert math.isclose(wide / high, 542.857 / 550, rel_tol=1e-3)
    bar = re.search(r'<line x1="([\d.]+)" y1="[\d.]+" x2="([\d.]+)"[^>]*stroke-width="2"', made.svg)
    assert bar is not None
    assert ">20 cm<" in made.svg
    assert math.isclose((float(bar[2]) - float(bar[1])) / wide, 200 / 542.857, rel_tol=1e-3)


def test_the_labels_are_the_lengths_of_the_counts() -> None:
    made = drawn(*(rectangle(n, r) for n, r in zip(PANEL, ROWS, strict=True)))
    assert [(m.letter, m.name, m.where) for m in made.measures] == [
        ("A", "width", Where.FIRST),
        ("B", "height", Where.HEIGHT),
    ]
    width, height = made.measures
    assert width.lengths_mm == tuple(Fraction(n * 200, 35) for n in PANEL)
    assert height.lengths_mm == tuple(Fraction(r * 100, 12) for r in ROWS)
    assert [made.svg.count(f">{letter}<") for letter in "AB"] == [1, 1]
    assert not made.told
    desc = "Width 44 (48.5, 54.5, 59) [63.5, 68, 72.5] {77, 83} cm"
    assert made.svg.count("48.5") == 1  # said in words, and drawn nowhere
    assert desc in made.svg
    assert made.alt == (
        "Outline of Panel (make 2) in sizes XS (S, M, L) [1X, 2X, 3X] {4X, 5X}, before seaming, "
        "seen from the right side, worked from the bottom of the drawing to the top."
    )


def test_no_two_of_nine_sizes_have_the_same_line() -> None:
    made = drawn(*(rectangle(n, r) for n, r in zip(PANEL, ROWS, strict=True)))
    outlines = re.findall(r"<polygon [^>]*fill=\"none\"[^>]*>", made.svg)
    dashes = [re.search(r'stroke-dasharray="([^"]*)"', mark) for mark in outlines]
    assert len({mark and mark[1] for mark in dashes}) == len(outlines) == 9
    for name in SIZES:
        assert f">{name}</text>" in made.svg
    assert set(re.findall(r'(?:fill|stroke)="([^"]*)"', made.svg)) == {"none", "#000", "#fff"}


def test_a_size_without_the_piece_is_left_out() -> None:
    made = drawn(rectangle(20, 10), None, rectangle(24, 12), sizes=("S", "M", "L"))
    assert made.measures[0].lengths_mm[1] is None
    assert len(re.findall(r"<polygon [^>]*fill=\"none\"", made.svg)) == 2
    assert "Width 11.5 (-, 13.5) cm" in made.svg
    alone = drawn(None, rectangle(24, 12), sizes=("S", "M"))
    assert ">A<" in alone.svg
    assert not alone.told


def test_every_letter_told_stands_in_the_drawing() -> None:
    hat = tube(*range(6, 79, 6), *(78,) * 14)
    made = drawn(hat, tube(*range(6, 85, 6), *(84,) * 14), sizes=("S", "M"))
    told = [(m.letter, m.name) for m in made.measures]
    assert told == [
        ("A", "width at the last round, laid flat"),
        ("B", "height"),
        ("", "around the widest round"),
    ]
    assert set(re.findall(r">([A-Z])</text>", made.svg)) == {"A", "B", "S", "M"}


# 78 stitches at 17.5 to 10 cm are 44.57 cm.
def test_a_single_size_says_every_figure_in_the_drawing() -> None:
    made = drawn(tube(*range(6, 79, 6), *(78,) * 14), sizes=("M",))
    assert made.told
    assert ">Around the widest round: 44.5 cm / 17½ in<" in made.svg
    assert not re.findall(r">[A-Z]</text>", made.svg)


def test_what_an_author_wrote_is_no_markup_in_a_drawing() -> None:
    bad = '</svg><script>alert("1")</script>&'
    made = schematic(PieceShape(bad, bad, (rectangle(9, 9),)), GAUGE, ("<b>",))
    assert made is not None
    root = ET.fromstring(made.svg)  # noqa: S314 - our own drawing
    assert {element.tag.rpartition("}")[2] for element in root.iter()} <= {
        *("svg", "title", "desc", "polygon", "line", "rect", "text", "circle"),
    }
    assert root[0].text == f"Schematic: {bad}"


def test_coordinates_have_two_decimals_at_most() -> None:
    assert [place(value) for value in (0, -0.001, 1.005, 2.5, 1 / 3, 100)] == [
        *("0", "0", "1", "2.5", "0.33", "100"),
    ]


@pytest.mark.parametrize(
    ("name", "shapes", "sizes"),
    [
        ("panel-M", (rectangle(95, 66),), ("M",)),
        (
            "panel",
            tuple(rectangle(n, r) for n, r in zip(PANEL, ROWS, strict=True)),
            SIZES,
        ),
        ("sleeve", (sleeve(34, 10, 4, 5, 12), sleeve(38, 12, 3, 6, 13)), ("S", "L")),
        ("hat", (tube(*range(6, 79, 6), *(78,) * 14),), ("M",)),
        (
            "disc",
            (tube(*range(6, 60, 6), flat=True), tube(*range(6, 72, 6), flat=True)),
            ("S", "L"),
        ),
    ],
)
def test_drawings_stay_as_they_were_seen(
    golden: Golden, name: str, shapes: tuple[Shape, ...], sizes: tuple[str, ...]
) -> None:
    gauge = Gauge(6.2, 6) if name == "disc" else GAUGE
    golden(f"schematics/{name}.svg", drawn(*shapes, gauge=gauge, sizes=sizes).svg)
