"""Sizes, bodies, measures, counts and rules; and the grade made of them."""

import json
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.pipeline.grade import WIDTH, grade_json, grade_text
from stitchproof.sizing.fit import Multiple, Rounding, nearest, parse_multiple
from stitchproof.sizing.model import Count, Measure, Sizing
from stitchproof.sizing.size import size_manuscript

TEE = Path(__file__).parents[1] / "examples/marram-tee.md"
SWATCH = '[swatch.plain]\nstitches = 20\nrows = 10\nover = "10 cm"\nafter = "blocking"\n'


def size(
    front: str,
    body: str = "",
    *,
    chosen: tuple[str, ...] | None = None,
    beside: Mapping[str, str] | None = None,
) -> tuple[Sizing, list[Diagnostic]]:
    text = f"+++\n{front}\n+++\n{body}"
    manuscript, found = read_manuscript(text, "tee.md")
    files = beside or {}
    sizing, more = size_manuscript(manuscript, lambda name: files[name], chosen)
    return sizing, [*found, *more]


def slugs(found: list[Diagnostic]) -> list[str]:
    return [one.finding.code.slug for one in found]


def count(sizing: Sizing, name: str) -> Count:
    return next(one for one in sizing.counts if one.name == name)


def in_mm(values: tuple[Fraction | None, ...] | None) -> list[float]:
    return [float(one) for one in values or () if one is not None]


def measure(sizing: Sizing, name: str) -> Measure:
    return next(one for one in (*sizing.measures, *sizing.finished) if one.name == name)


# --------------------------------------------------------------------------- sizes


@pytest.mark.parametrize(
    ("sizes", "names"),
    [
        ('body = "women"\nmake = "S-L"', ("S", "M", "L")),
        ('body = "women"\nmake = ["M", "XL"]', ("M", "XL")),
        ('body = "women"\nmake = "XS – M"', ("XS", "S", "M")),
        ('make = ["small", "large"]', ("small", "large")),
        ('make = "S-XL"', ("S", "M", "L", "XL")),
        ('make = "XS-2X"', ("XS", "S", "M", "L", "1X", "2X")),
        ('make = "S, M"', ("S", "M")),
        ("make = [2, 4, 6]", ("2", "4", "6")),
        ('body = "children"', ("2", "4", "6", "8", "10", "12", "14", "16")),
    ],
)
def test_sizes_of_the_front_matter(sizes: str, names: tuple[str, ...]) -> None:
    sizing, found = size(f"[sizes]\n{sizes}")
    assert sizing.sizes == names
    assert found == []


def test_an_alias_has_the_same_body() -> None:
    alias, _ = size('[sizes]\nbody = "women"\nmake = ["XL"]')
    own, _ = size('[sizes]\nbody = "women"\nmake = ["1X"]')
    assert alias.points == own.points


def test_sizes_of_the_text() -> None:
    sizing, found = size("", "Sizes: S (M, L)\n\nCh 11 (13, 15).\n")
    assert sizing.sizes == ("S", "M", "L")
    assert found == []


def test_sizes_counted_in_lists() -> None:
    sizing, found = size("", "Ch 11 (13, 15).\n\nCh 11 (13, 15, 17).\n\nCh 7 (9, 9).\n")
    assert sizing.sizes == ("1", "2", "3")
    assert slugs(found) == ["sizes-assumed", "size-list-length"]
    assert "`11 (13, 15, 17)` has 4 values for 3 sizes" in found[1].finding.message()


def test_one_size() -> None:
    sizing, found = size("", "Ch 11.\n")
    assert len(sizing.sizes) == 1
    assert found == []


def test_chosen_sizes() -> None:
    front = '[sizes]\nmake = ["S", "M", "L"]\n[counts]\na = [1, 2, 3]\nb = "a / 2"'
    sizing, found = size(front, chosen=("l", "M"))
    assert sizing.names == ("M", "L")
    assert [one.sizes for one in found] == [("L",)]
    assert "2" not in found[0].finding.message().split("comes to")[0].replace("a / 2", "")
    sizing, found = size(front, chosen=("M", "XXL"))  # who asks is told before anything is made
    assert sizing.names == ("M",)
    assert found == []


# --------------------------------------------------------------------------- bodies


# The women's table has no head; adults have 56 cm in the table of heads by age.
@pytest.mark.parametrize(
    "use",
    [
        "[measures]\nbrim = 'body.head - 2 cm'",
        "[finished]\nbrim = 'body.head'",
        "[counts]\nn = { measure = 'body.head', across = 'plain' }\n" + SWATCH,
    ],
)
def test_a_measure_from_another_table_is_said_with_its_length(use: str) -> None:
    sizing, found = size(f"[sizes]\nbody = 'women'\nmake = 'S-L'\n{use}")
    assert slugs(found) == ["body-joined"]
    assert (
        found[0]
        .message()
        .startswith(
            "`body.head` is not in the body table: 56 cm / 22 in, taken from Rhyflower Knits"
        )
    )
    assert [one.name for one in sizing.points if one.used] == ["head"]


def test_a_measure_that_nothing_uses_is_not_told() -> None:
    assert size("[sizes]\nbody = 'women'\nmake = 'S-L'")[1] == []


def test_a_measure_of_ones_own_takes_the_place_of_another_table() -> None:
    front = "[sizes]\nbody = 'women'\nmake = 'S-L'\n[body]\nhead = '55 cm'\n"
    assert size(front + "[measures]\nbrim = 'body.head'")[1] == []


def test_points_in_a_range() -> None:
    for point, mm in (("low", 915), ("middle", 940), ("high", 965)):
        sizing, found = size(
            f'[sizes]\nbody = "women"\nmake = "M"\npoint = "{point}"\n[measures]\na = "body.chest"'
        )
        assert found == []
        assert in_mm(measure(sizing, "a").target_mm) == [mm]


def test_a_body_of_ones_own() -> None:
    sizing, found = size(
        '[sizes]\nmake = ["M", "S"]\n[body]\nsizes = ["S", "M"]\nchest = ["86 cm", "90-94 cm"]\n'
        'wrist = "16 cm"\n[measures]\na = "body.chest"\nb = "body.wrist"'
    )
    assert slugs(found) == ["point-assumed"]
    assert in_mm(measure(sizing, "a").target_mm) == [920, 860]
    assert in_mm(measure(sizing, "b").target_mm) == [160, 160]


def test_ones_own_points_stand_before_published_ones() -> None:
    sizing, found = size(
        '[sizes]\nbody = "women"\nmake = ["S", "M"]\npoint = "low"\n'
        '[body]\nhead = ["55 cm", "56 cm"]\n[measures]\na = "body.head"\nb = "body.chest"'
    )
    assert found == []
    assert in_mm(measure(sizing, "a").target_mm) == [550, 560]
    assert in_mm(measure(sizing, "b").target_mm) == [810, 915]


@pytest.mark.parametrize(
    ("csv", "mm"),
    [
        ("cm,S,M\nchest,86,94\n", (860, 940)),
        ('point,S,M\n"Chest","34 in",94-98 cm\n', (Fraction(4318, 5), 960)),
        ("\ufeffpoint (in),M,S\r\nchest,40,36½\r\n", (Fraction(9271, 10), 1016)),
    ],
)
def test_a_body_in_a_file(csv: str, mm: tuple[Fraction, ...]) -> None:
    front = '[sizes]\ntable = "own.csv"\nmake = ["S", "M"]\npoint = "middle"\n'
    sizing, found = size(front + '[measures]\na = "body.chest"', beside={"own.csv": csv})
    assert found == []
    assert measure(sizing, "a").target_mm == mm


@pytest.mark.parametrize(
    ("csv", "why"),
    [
        ("", "its first row names no sizes"),
        ("cm,S,S\nchest,86,94\n", "its first row names the size `S` twice"),
        ("cm,S,M\nchest,86\n", "row 2 has 1 lengths for 2 sizes"),
        ("cm,S,M\nchest,86,wide\n", "`wide` in row 2 is no length"),
        ("point,S,M\nchest,86,94\n", "`86` in row 2 is no length"),
    ],
)
def test_a_broken_body_file(csv: str, why: str) -> None:
    _, found = size('[sizes]\ntable = "own.csv"\nmake = ["S", "M"]', beside={"own.csv": csv})
    assert slugs(found) == ["body-table-unreadable"]
    assert found[0].finding.message().endswith(why)


# --------------------------------------------------------------------------- measures and counts


def test_any_order_and_mixed_units() -> None:
    sizing, found = size(
        SWATCH + '[measures]\na = "b / 2"\nb = "c + 1 in"\nc = "4 cm"\n[counts]\nn = '
        '{ formula = "b", across = "plain" }'
    )
    assert found == []
    assert measure(sizing, "a").target_mm == (Fraction(327, 10),)
    assert count(sizing, "n").value == (13,)
    assert count(sizing, "n").wanted == (Fraction(327, 25),)


def test_what_counts_make_of_measures() -> None:
    sizing, found = size(
        SWATCH + '[measures]\nwidth = "10.2 cm"\ninner = "width - 2 cm"\n'
        '[counts]\nn = { measure = "width", across = "plain", multiple = 4 }\n'
        '[finished]\ninner = "inner"\nround = { formula = "2 * n", across = "plain" }',
        "The inside is {inner} and the whole {finished.round} around.\n",
    )
    assert found == []
    assert in_mm(measure(sizing, "width").finished_mm) == [100]
    assert in_mm(measure(sizing, "round").finished_mm) == [200]
    assert in_mm(measure(sizing, "round").target_mm) == [204]
    assert in_mm(sizing.finished[0].target_mm) == [82]
    assert in_mm(sizing.finished[0].finished_mm) == [80]
    assert list(sizing.resolved.formulas.values()) == [(80,), (200,)]


@pytest.mark.parametrize(
    ("keys", "value", "words"),
    [
        ("", 51, "nearest whole number, ties up"),
        ('round = "up"', 51, "rounded up to a whole number"),
        ('round = "down"', 50, "rounded down to a whole number"),
        ('is = "opening"', 51, "rounded up to a whole number, as it is an opening"),
        ('is = "opening", round = "nearest", multiple = "2"', 50, "nearest multiple of 2, ties up"),
        ('parity = "even"', 50, "nearest even number, ties up"),
        ('multiple = "3 + 1", parity = "odd"', 49, "nearest odd multiple of 3 + 1, ties up"),
    ],
)
def test_rounding(keys: str, value: int, words: str) -> None:
    comma = ", " if keys else ""
    sizing, found = size(
        SWATCH + '[measures]\nw = "25.25 cm"\n'
        f'[counts]\nn = {{ measure = "w", across = "plain"{comma}{keys} }}'
    )
    assert found == []
    assert count(sizing, "n").wanted == (Fraction(101, 2),)
    assert count(sizing, "n").value == (value,)
    assert count(sizing, "n").rule == words


def test_a_circle_is_said_once_and_what_stands_on_it_is_quiet() -> None:
    _, found = size(
        SWATCH + '[measures]\na = "b"\nb = "c"\nc = "a"\nd = "a + 1 cm"\n'
        '[counts]\nn = { measure = "d", across = "plain" }\n[finished]\ne = "d"',
        "Ch {n}.\n",
    )
    assert slugs(found) == ["formulas-in-circle"]
    assert found[0].finding.message().startswith("`a` needs `b` needs `c` needs `a`")


def test_one_mistake_one_finding() -> None:
    front = '[sizes]\nmake = ["S", "M"]\n[counts]\na = [10, 11]\nb = { formula = "a / 2" }\n'
    _, found = size(
        front + 'c = { formula = "b / 2 + 0.5" }\n[rules]\nr = "2 * b = a"', "Ch {b}.\n"
    )
    assert [(one.finding.code.slug, one.sizes) for one in found] == [("count-not-whole", ("M",))]


def test_an_unknown_name_is_pointed_at() -> None:
    front = '[measures]\nwidth = "10 cm"\nhalf = "widht / 2"\nthird = "half / 3"'
    _, found = size(front)
    assert slugs(found) == ["unknown-name"]
    text = f"+++\n{front}\n+++\n"
    assert text[found[0].place.start : found[0].place.end] == "widht"
    assert "`width`" in found[0].finding.help()


def test_what_a_broken_line_held_is_not_missed() -> None:
    _, found = size(
        SWATCH + '[measures]\nwidth = 10 cm\n[counts]\nn = { measure = "width", across = "plain" }',
        "Ch {n}.\n",
    )
    assert slugs(found) == ["front-matter-syntax"]


def test_numbers_between_braces() -> None:
    sizing, found = size(
        '[sizes]\nmake = ["S", "M"]\n[counts]\na = [10, 11]\n',
        "Ch {a + 1}, ch {a / 2}, ch {10 - a}.\n",
    )
    assert [(one.finding.code.slug, one.sizes) for one in found] == [
        ("count-not-whole", ("M",)),
        ("count-negative", ("M",)),
    ]
    assert list(sizing.resolved.formulas.values()) == [(11, 12)]


def test_a_size_that_is_left_out() -> None:
    sizing, found = size(
        '[sizes]\nmake = ["S", "M"]\n[counts]\na = ["-", 4]\nb = { formula = "2 * a" }', "Ch {b}.\n"
    )
    assert found == []
    assert count(sizing, "b").value == (None, 8)
    assert list(sizing.resolved.formulas.values()) == [(None, 8)]


def test_relations() -> None:
    front = '[sizes]\nmake = ["S", "M"]\n[counts]\na = [4, 6]\nb = [4, 5]\n[rules]\n'
    assert size(front + 'r = "a >= b"\ns = "b <= a"')[1] == []
    _, found = size(front + 'r = "a = b"\ns = "a <= b"\nt = "a + 1 cm = b"')
    assert [(one.finding.code.slug, one.sizes) for one in found] == [
        ("relation-fails", ("M",)),
        ("relation-fails", ("M",)),
        ("wrong-dimension", ()),
    ]


def test_pins_that_are_reproduced_say_nothing() -> None:
    front = (
        SWATCH + '[sizes]\nmake = ["S", "M"]\n[sample]\nsize = "M"\nfixed = {{ n = {pin} }}\n'
        '[measures]\nw = ["20 cm", "25 cm"]\n[counts]\nn = {{ measure = "w", across = "plain" }}'
    )
    assert size(front.format(pin=50))[1] == []
    sizing, found = size(front.format(pin=52))
    assert [(one.finding.code.slug, one.sizes) for one in found] == [("pin-not-reproduced", ("M",))]
    assert count(sizing, "n").value == (40, 52)


@pytest.mark.parametrize(
    "front",
    [
        "sizes = 3",
        "[sizes]\nmake = 3",
        "[sizes]\nmake = [[1]]",
        '[sizes]\ngroups = "many"',
        "yarn = 3",
        '[yarn]\nmain = "x"',
        "[yarn.main]\nweight = 9",
        '[hooks]\nmain = "large"',
        '[swatch.a]\nover = "ten"',
        "[swatch.a]\nstitches = -1",
        "[swatch.a]\nstitches = 0",
        "[swatch.a]\nstitches = 1e20",
        "[swatch.a]\nworked = 'sideways'",
        "pieces = 1",
        "[measures]\na = 14",
        "[measures]\na = true",
        "[counts]\na = true",
        "[counts]\na = {}",
        "[counts]\na = { measure = 3 }",
        "[counts]\na = 2024-01-01",
        "[rules]\nr = 1",
        "[finished]\nf = 1",
        "[sample]\nsize = []",
        "[body]\nchest = 3",
        "title = []",
        "title = 3",
        "designer = 1",
        "terms = 'FR'",
        "terms = 4",
        "terms = ''",
        "level = 'fiendish'",
        "level = 2",
        "notions = 'x'",
        "notions = [3]",
        "[yarn.a]\nbrand = 3",
        "[yarn.a]\nfibre = 'wool'\nfiber = 3",
        "[swatch.a]\nnote = 3",
        "[swatch.a]\nminutes = 3\ntime = 3",
        "[sizes]\nmake = ['S', 'S']",
        "[sizes]\nmake = ['S', ' s']",
        "[sizes]\nmake = ['']",
        "[sizes]\nbody = 'women'\nmake = ['XL', '1X']",
        "[body]\nsizes = ['S', 'S']\nchest = ['1 cm']",
        "[body]\nsizes = [['S']]",
        "[sample]\nworn_by = 3",
        "[counts]\nw = 71\n[sizes]\nmake = ['S']\n[sample]\nsize = 'S'\nfixed = { w = '71' }",
        "[counts]\nw = 71\n[sizes]\nmake = ['S']\n[sample]\nsize = 'S'\nfixed = { w = 71.5 }",
        "[counts]\nw = 71\n[sample]\nfixed = { w = 71 }",
        "[counts]\nw = { formula = '71', fixed = { 'one size' = '71' } }",
        "[counts]\nw = { formula = '71', note = 3 }",
        f"{SWATCH}[counts]\nw = {{ formula = '7', measure = '1 cm', across = 'plain' }}",
        "[finished]\nf = { formula = '3 cm', note = 3 }",
        "accepted = 'x'",
        "accepted = ['x']",
        "[accepted]\nfinding = 'x'",
        "[[accepted]]\nfinding = 3",
        "[[accepted]]\nat = 3",
        "[[accepted]]\nsizes = 'M'",
        "[[accepted]]\nsizes = [true]",
        "[[accepted]]\nreason = 3",
    ],
)
def test_values_of_the_wrong_kind(front: str) -> None:
    sizing, found = size(front)
    assert "wrong-type" in slugs(found)
    assert len(found) == 1
    text = f"+++\n{front}\n+++\n"
    assert text[found[0].place.start : found[0].place.end]
    grade_text(sizing)


@pytest.mark.parametrize(
    "front",
    [
        "version = 1.0",
        "date = 2026-11-24",
        "age = 3",
        "terms = 'uk'",
        "level = 'Easy'",
        "level = 'experienced'",
        "notions = ['yarn needle', '2 buttons']",
        "[sizes]\nmake = [2, 4, '6']",
        "[[accepted]]\nfinding = 'turn-not-said'\nsizes = [2]",
    ],
)
def test_values_that_say_enough(front: str) -> None:
    assert size(front)[1] == []


def test_what_is_allowed_is_said_at_the_value() -> None:
    front = "terms = 'FR'\nlevel = 'fiendish'\nnotions = 'x'\ntitle = 3"
    told = {
        f"+++\n{front}"[one.place.start : one.place.end]: one.message() for one in size(front)[1]
    }
    assert told == {
        "'FR'": "`terms` needs one of `US`, `UK`, not `'FR'`",
        "'fiendish'": "`level` needs one of `basic`, `easy`, `intermediate`, `complex`, "
        "not `'fiendish'`",
        "'x'": '`notions` needs a list of words, like `["stitch markers", "yarn needle"]`, '
        "not `'x'`",
        "3": "`title` needs words in quotes, not `3`",
    }


def test_a_pin_may_be_written_with_a_point_and_a_size_as_a_number() -> None:
    front = SWATCH + (
        "[sizes]\nmake = [2, 4]\n[sample]\nsize = 4\nfixed = { w = 71.0 }\n"
        "[measures]\nm = '35 cm'\n[counts]\nw = { measure = 'm', across = 'plain' }"
    )
    sizing, found = size(front)
    assert slugs(found) == ["pin-not-reproduced"]
    assert count(sizing, "w").value == (70, 71)


def test_notions_are_printed_in_the_order_they_are_written() -> None:
    sizing, _ = size("notions = ['yarn needle', '2 buttons']")
    assert sizing.plain["notions"] == "yarn needle, 2 buttons"


VALUES = st.recursive(
    st.one_of(
        st.booleans(),
        st.integers(-5, 200),
        st.sampled_from(("a", "a / b", "10 cm", "plain", "body.chest", "odd", "2 + 1", "S-L", "")),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(
            st.sampled_from(("a", "b", "measure", "across", "multiple", "parity", "formula", "S")),
            inner,
            max_size=4,
        ),
    ),
    max_leaves=8,
)


TABLES = [
    "yarn",
    "hooks",
    "swatch",
    "pieces",
    "sizes",
    "body",
    "sample",
    "measures",
    "counts",
    "rules",
    "finished",
]


def toml(value: object) -> str:
    if isinstance(value, dict):
        inner = ", ".join(f"{key} = {toml(one)}" for key, one in value.items())
        return f"{{ {inner} }}"
    if isinstance(value, list):
        return f"[{', '.join(map(toml, value))}]"
    return json.dumps(value)


@given(
    st.dictionaries(
        st.sampled_from(TABLES),
        VALUES,
    )
)
def test_sizing_never_raises(front: dict[str, object]) -> None:
    lines = "\n".join(f"{key} = {toml(value)}" for key, value in front.items())
    sizing, _ = size(lines, "Ch {a + 1} (b).\n")
    grade_text(sizing)
    json.dumps(grade_json(sizing, []))


SQUARES = (f'c{i} = {{ formula = "c{i + 1} * c{i + 1}" }}' for i in range(300))
HOSTILE = (
    "[counts]\nc300 = 999999\n" + "\n".join(SQUARES),
    "[counts]\n" + "\n".join(f'c{i} = {{ formula = "c{i + 1}" }}' for i in range(3000)),
    "[counts]\na = { formula = '" + "(" * 900 + "' }",
    "[sizes]\nmake = [" + ",".join(f'"s{i}"' for i in range(5000)) + "]\n[counts]\na = 1",
    SWATCH + '[measures]\nw = "999999999999 m"\n[counts]\nn = { measure = "w", across = "plain" }',
)


@pytest.mark.parametrize("front", HOSTILE)
def test_hostile_front_matter_ends(front: str) -> None:
    size(front, "Ch {a}.\n")


# --------------------------------------------------------------------------- fitting


@given(
    st.fractions(0, 1000),
    st.integers(1, 30),
    st.integers(-40, 40),
    st.sampled_from(tuple(Rounding)),
)
def test_fitted_numbers_are_legal_and_near(
    wanted: Fraction, of: int, plus: int, rounding: Rounding
) -> None:
    legal = Multiple(of, plus)
    made = nearest(wanted, legal, rounding)
    assert made >= 1
    assert legal.holds(made)
    others = [n for n in (made - of, made + of) if n >= max(1, plus)]
    match rounding:
        case Rounding.NEAREST:
            assert all(abs(made - wanted) <= abs(n - wanted) for n in others)
            assert made + of - wanted > abs(made - wanted) or made < wanted
        case Rounding.UP:
            assert made >= wanted
            assert all(n < wanted for n in others if n < made)
        case Rounding.DOWN:
            assert made <= wanted or made - of < max(1, plus)
            assert all(n > wanted for n in others if n > made)


@given(st.integers(1, 40), st.integers(-40, 40), st.integers(0, 1))
def test_parity(of: int, plus: int, odd: int) -> None:
    legal = Multiple(of, plus).with_parity(odd)
    numbers = [n for n in range(1, 200) if Multiple(of, plus).holds(n) and n % 2 == odd]
    assert numbers == [n for n in range(1, 200) if legal is not None and legal.holds(n)]


def test_multiples_as_written() -> None:
    assert parse_multiple("2 + 1") == Multiple(2, 1)
    assert parse_multiple("multiple of 6 - 1") == Multiple(6, -1)
    assert parse_multiple("0") is None
    assert parse_multiple("2 + ") is None
    assert Multiple(6, -1).words() == "6 - 1"


# --------------------------------------------------------------------------- the grade


@pytest.fixture
def tee() -> Sizing:
    manuscript, _ = read_manuscript(TEE.read_text("utf-8"), "marram-tee.md")
    return size_manuscript(manuscript, lambda _: "", ("M", "3X"))[0]


def test_the_grade_as_data(tee: Sizing) -> None:
    data = grade_json(tee, [{"code": "S224"}])
    assert list(data) == ["sizes", "measures", "counts", "findings"]
    assert data["sizes"] == ["M", "3X"]
    assert data["findings"] == [{"code": "S224"}]
    measures = {one["name"]: one for one in data["measures"]}  # type: ignore[attr-defined]
    counts = {one["name"]: one for one in data["counts"]}  # type: ignore[attr-defined]
    assert measures["panel"] == {
        "name": "panel",
        "target_mm": [540.0, 722.5],
        "finished_mm": [pytest.approx(542.857, abs=1e-3), pytest.approx(725.714, abs=1e-3)],
    }
    assert measures["ease"]["finished_mm"] is None
    assert counts["panel_sts"] == {
        "name": "panel_sts",
        "value": [95, 127],
        "wanted": [94.5, 126.4375],
        "rule": "nearest multiple of 2 + 1, ties up",
    }
    assert "5X" not in json.dumps(data)


def test_the_grade_to_read() -> None:
    manuscript, _ = read_manuscript(TEE.read_text("utf-8"), "marram-tee.md")
    page = grade_text(size_manuscript(manuscript, lambda _: "", None)[0])
    lines = page.splitlines()
    assert max(map(len, lines)) <= WIDTH
    assert "Body: Woman's sizes, middle of each published range" in lines
    assert "  panel_sts = panel across texture: nearest multiple of 2 + 1, ties up" in lines
    at = lines.index("  panel_sts = panel across texture: nearest multiple of 2 + 1, ties up")
    assert lines[at + 1].split() == [
        "count",
        "77",
        "85",
        "95",
        "103",
        "111",
        "119",
        "127",
        "135",
        "145",
    ]
    bust = lines.index("  bust = 2 * panel")
    assert lines[bust + 3].split()[:5] == ["made", "cm", "88.0", "97.1", "108.6"]
    assert lines[bust + 4].split()[:4] == ["in", "34¾", "38¼", "42¾"]
    assert lines[bust + 5].split()[:5] == ["off", "cm", "+0.5", "-0.4", "+0.6"]
    assert lines[bust + 6].split()[:4] == ["in", "+¼", "-¼", "+¼"]
    panel = lines.index("  panel = (body.chest + ease) / 2")
    assert lines[panel + 5].split()[:5] == ["off", "cm", "+0.3", "-0.2", "+0.3"]
    assert lines[panel + 6].split()[:5] == ["in", "+⅛", "-⅛", "+⅛", "-1/16"]
    assert "42.0*" in page


def test_a_grade_of_many_sizes_keeps_its_width() -> None:
    names = ", ".join(f'"size {i}"' for i in range(40))
    sizing, _ = size(f"[sizes]\nmake = [{names}]\n[counts]\nn = 5")
    page = grade_text(sizing)
    assert all(f"size {i}" in page for i in range(40))
    assert max(map(len, page.split("Counts")[1].splitlines())) <= WIDTH
