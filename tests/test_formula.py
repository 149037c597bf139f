"""Formulas: read, written back, and told apart from prose in braces."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.base.place import Span
from stitchproof.language.formula import Arithmetic, Call, Constant, Formula, Name, Negative
from stitchproof.language.read.formula import (
    DEEPEST,
    LONGEST,
    FormulaFault,
    FormulaSyntax,
    UnknownName,
    braces,
    is_name,
    names_in,
    parse_formula,
)
from stitchproof.language.write.formula import written

AT = Span("tee.md", 10, 10)


def read(text: str) -> Formula | FormulaFault:
    return parse_formula(text, Span("tee.md", 100, 100 + len(text)))


def test_arithmetic() -> None:
    assert read("(body.chest + ease) / 2") == Arithmetic(
        "/", Arithmetic("+", Name("body.chest"), Name("ease")), Constant(Fraction(2))
    )
    assert read("a - b - c") == Arithmetic("-", Arithmetic("-", Name("a"), Name("b")), Name("c"))
    assert read("a + b * c") == Arithmetic("+", Name("a"), Arithmetic("*", Name("b"), Name("c")))
    assert read("-a / 2") == Arithmetic("/", Negative(Name("a")), Constant(Fraction(2)))
    assert read("max(a, 3 cm)") == Call("max", (Name("a"), Constant(Fraction(30), "cm")))
    assert read("5½ in") == Constant(Fraction(1397, 10), "in")
    assert read('5.5"') == Constant(Fraction(1397, 10), "in")
    assert read(".72 × a") == Arithmetic("*", Constant(Fraction(18, 25)), Name("a"))


def test_a_text_processors_signs_mean_the_same() -> None:
    assert read("(rows – 6)\N{NO-BREAK SPACE}÷ 4") == read("(rows - 6) / 4")
    assert read("a − b") == read("a - b")


@pytest.mark.parametrize(
    ("text", "words", "wrong"),
    [
        ("", "it ends too early", ""),
        ("a +", "it ends too early", ""),
        ("a b", "`b` stands where an operator should", "b"),
        ("2 panel", "`panel` stands where an operator should", "panel"),
        ("(a", "a bracket is not closed", ""),
        ("a ** 2", "`*` stands where a name or number should", "*"),
        ("a ^ 2", "`^` has no meaning in a formula", "^"),
        ("cm + a", "`cm` is a unit and has no number before it", "cm"),
        ("round(a, 2)", "`round` takes one number, not 2", ")"),
        ("round", "`round` needs brackets after it", ""),
        ("__import__('os')", "`'` has no meaning in a formula", "'"),
        ("a.__class__", "", ""),
        ("lambda: 0", "`:` has no meaning in a formula", ":"),
    ],
)
def test_faults(text: str, words: str, wrong: str) -> None:
    formula = read(text)
    if not words:
        assert formula == Name(text)  # a name like any other: it is looked up, never run
        return
    assert isinstance(formula, FormulaFault)
    assert formula.words == words
    assert text[formula.place.start - 100 : formula.place.end - 100] == wrong


@pytest.mark.parametrize(
    "text",
    [
        "(" * 1000 + "a" + ")" * 999,
        "-" * 1000 + "a",
        "abs(" * 400 + "a",
        "+".join("a" * 900),
        "a" * (LONGEST + 1),
        "9" * LONGEST + "/",
        "a," * 900,
    ],
)
def test_hostile_formulas_are_refused(text: str) -> None:
    assert isinstance(read(text), FormulaFault)


def test_nesting_up_to_the_limit() -> None:
    assert read("(" * DEEPEST + "a" + ")" * DEEPEST) == Name("a")
    assert isinstance(read("(" * (DEEPEST + 1) + "a" + ")" * (DEEPEST + 1)), FormulaFault)


def test_names() -> None:
    formula = read("max(body.head / 2 + 3 cm, 0.72 * body.cross_back) - body.head + a")
    assert not isinstance(formula, FormulaFault)
    assert names_in(formula) == ("body.head", "body.cross_back", "a")
    assert is_name("panel_sts")
    assert not is_name("cm")
    assert not is_name("panel-sts")


NUMBERS = st.decimals(0, 999, places=2, allow_nan=False).map(lambda d: Constant(Fraction(d)))
LENGTHS = st.builds(
    lambda n, u: Constant(n.value * {"mm": 1, "cm": 10, "in": Fraction(127, 5)}[u], u),
    NUMBERS,
    st.sampled_from(("mm", "cm", "in")),
)
FORMULAS: st.SearchStrategy[Formula] = st.recursive(
    st.one_of(NUMBERS, LENGTHS, st.sampled_from(("a", "panel_sts", "body.chest")).map(Name)),
    lambda inner: st.one_of(
        st.builds(Negative, inner),
        st.builds(Arithmetic, st.sampled_from(("+", "-", "*", "/")), inner, inner),
        st.builds(Call, st.sampled_from(("min", "max")), st.tuples(inner, inner)),
        st.builds(Call, st.sampled_from(("abs", "round", "floor", "ceil")), st.tuples(inner)),
    ),
    max_leaves=12,
)


@given(FORMULAS)
def test_written_reads_as_the_same_formula(formula: Formula) -> None:
    assert read(written(formula)) == formula


def test_thirds_are_written_as_such() -> None:
    third = read("2⅓ cm")
    assert not isinstance(third, FormulaFault)
    assert written(third) == "2⅓ cm"


@given(st.text(max_size=60))
def test_reading_never_raises(text: str) -> None:
    read(text)
    braces(text, AT, frozenset(("a", "panel_sts", "body.*")))


DECLARED = frozenset(("panel_sts", "rows", "armhole", "body.chest"))


@pytest.mark.parametrize("text", ["panel_sts + 2", "rows", "(rows - 6) / 4", "body.chest / 2"])
def test_braces_that_are_formulas(text: str) -> None:
    found = braces(text, AT, DECLARED)
    assert found is not None
    assert found.finding is None
    assert found.formula == read(text)


@pytest.mark.parametrize(
    "text",
    [
        "24",
        "24 sts",
        "2 dc, ch 1, 2 dc",
        "40, 44",
        "sc",
        "shell",
        "dc in next st",
        "",
        "1 + 1",
        "6 in",
    ],
)
def test_braces_that_are_prose(text: str) -> None:
    assert braces(text, AT, DECLARED) is None


def test_without_front_matter_braces_are_prose() -> None:
    assert braces("panel_sts", AT, frozenset()) is None


@pytest.mark.parametrize(
    ("text", "name", "nearest"),
    [
        ("panel_stz", "panel_stz", "panel_sts"),
        ("Rows", "Rows", "rows"),
        ("cuff_sts + 2", "cuff_sts", ""),
        ("rows + wing", "wing", ""),
        ("body.waist", "body.waist", ""),
    ],
)
def test_braces_that_name_nothing(text: str, name: str, nearest: str) -> None:
    found = braces(text, Span("tee.md", 100, 100 + len(text)), DECLARED)
    assert found is not None
    assert found.finding is not None
    finding = found.finding.finding
    assert isinstance(finding, UnknownName)
    assert finding.name == name
    if nearest:
        assert finding.nearest == nearest
    place = found.finding.place
    assert text[place.start - 100 : place.end - 100] == name


def test_broken_formula_in_braces() -> None:
    found = braces("panel_sts +", AT, DECLARED)
    assert found is not None
    assert found.finding is not None
    assert isinstance(found.finding.finding, FormulaSyntax)
    assert "`panel_sts +` is no formula" in found.finding.finding.message()
