from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.base.place import Span
from stitchproof.language.formula import Arithmetic, Call, Constant, Formula, Name, Negative
from stitchproof.language.manuscript import FrontMatter, Manuscript
from stitchproof.language.number import Number, NumberKind, Resolved, Value
from stitchproof.language.write.numbers import (
    is_length,
    length_words,
    number_words,
    size_words,
    token_words,
    written_text,
)

PANEL = (77, 85, 95, 103, 111, 119, 127, 135, 145)
SIZES = ("S", "M", "L")


# The bracketed form is that of the worked example of the design; common practice, no source.
@pytest.mark.parametrize(
    ("values", "groups", "words"),
    [
        (PANEL, (1, 3, 3, 2), "77 (85, 95, 103) [111, 119, 127] {135, 145}"),
        (PANEL, (), "77 (85, 95, 103, 111, 119, 127, 135, 145)"),
        (PANEL[:2], (1, 3, 3, 2), "77 (85)"),
        ((77,), (1, 3, 3, 2), "77"),
        ((60, 60, 60), (1, 2), "60"),
        ((None, None, 4), (), "- (-, 4)"),
        ((None, None), (), "-"),
        ((0, 2), (), "0 (2)"),
        ((Fraction(35, 2), 18), (), "17.5 (18)"),
        ((Fraction(1, 3),), (), "1/3"),
        ((Fraction(-4, 3),), (), "-1 1/3"),
        ((Fraction(16, 4),), (), "4"),
        (PANEL[:5], (1, 1, 1, 1, 1), "77 (85) [95] {103} (111)"),
        (PANEL[:3], (0, 3), "77 (85, 95)"),
    ],
)
def test_numbers_are_printed_as_patterns_do(
    values: tuple[Value, ...], groups: tuple[int, ...], words: str
) -> None:
    assert number_words(values, groups) == words


@given(st.lists(st.integers(0, 10**6), min_size=1, max_size=15), st.data())
def test_every_number_is_printed_in_order_or_once(values: list[int], data: st.DataObject) -> None:
    groups: list[int] = []
    while sum(groups) < len(values):
        groups.append(data.draw(st.integers(1, len(values) - sum(groups))))
    printed = size_words([str(value) for value in values], tuple(groups))
    found = [int(word.strip("()[]{},")) for word in printed.split()]
    assert found == (values[:1] if len(set(values)) == 1 else values)


# The armhole depths of the worked garment: 24 and 32 rows at 12 rows in 10 cm.
def test_lengths_are_rounded_from_the_unrounded_length() -> None:
    assert length_words((Fraction(200),)) == "20 cm / 7¾ in"
    assert length_words((Fraction(3200, 12),)) == "26.5 cm / 10½ in"
    assert length_words((Fraction(200), Fraction(3200, 12))) == "20 (26.5) cm / 7¾ (10½) in"
    assert length_words((None, Fraction(200))) == "- (20) cm / - (7¾) in"
    assert length_words((None,)) == "-"
    assert length_words((Fraction(0),)) == "0 cm / 0 in"


BODY = Name("body.chest")
NECK = Name("neck")


@pytest.mark.parametrize(
    ("formula", "length"),
    [
        (NECK, True),
        (BODY, True),
        (Name("rows"), False),
        (Constant(Fraction(10), "cm"), True),
        (Constant(Fraction(10)), False),
        (Negative(NECK), True),
        (Arithmetic("/", NECK, Constant(Fraction(2))), True),
        (Arithmetic("/", NECK, BODY), False),
        (Arithmetic("-", Name("rows"), Constant(Fraction(6))), False),
        (Call("max", (NECK, Constant(Fraction(1), "in"))), True),
        (Call("round", (Name("rows"),)), False),
    ],
)
def test_a_formula_is_a_length_where_its_names_are(formula: Formula, length: bool) -> None:  # noqa: FBT001
    assert is_length(formula, frozenset(("neck",))) is length


def listed(spelling: str, values: tuple[Value, ...], kind: NumberKind = NumberKind.COUNT) -> Number:
    return Number(value=values, spelling=spelling, kind=kind)


@pytest.mark.parametrize(
    ("spelling", "values", "one", "two"),
    [
        ("70 (76, 84)", (70, 76, 84), "76", "76 (84)"),
        ("70 [76] {84}", (70, 76, 84), "76", "76 (84)"),
        ("(40, 44, 48)", (40, 44, 48), "44", "44 (48)"),
        ("9 (9-11)", (9, 9, 11), "9", "9 (11)"),
        ("- (2, 4)", (None, 2, 4), "2", "2 (4)"),
        ("20, 22, 24", (20, 22, 24), "22", "22 (24)"),
        ("12 (12, 12)", (12, 12, 12), "12", "12"),
        ("2 times [3 times] {4 times}", (2, 3, 4), "3 times", "3 (4) times"),
    ],
)
def test_a_hand_written_list_is_cut_to_the_sizes_worked(
    spelling: str, values: tuple[Value, ...], one: str, two: str
) -> None:
    number = listed(spelling, values)
    assert token_words(number, spelling, Resolved(SIZES, (0, 1, 2))) == spelling
    assert token_words(number, spelling, Resolved(SIZES, (1,))) == one
    assert token_words(number, spelling, Resolved(SIZES, (1, 2))) == two


def test_a_hand_written_length_keeps_the_authors_fractions_and_unit() -> None:
    values = (Fraction(381, 2), Fraction(1016, 5), Fraction(4191, 20))
    number = listed("7½ (8, 8¼) in", values, NumberKind.LENGTH)
    assert token_words(number, number.spelling, Resolved(SIZES, (2,))) == "8¼ in"


def test_a_number_without_a_value_keeps_its_spelling() -> None:
    unknown = Number(value=Name("stitchs"), spelling="{stitchs}")
    assert token_words(unknown, "{stitchs}", Resolved(SIZES, (1,))) == "{stitchs}"
    short = listed("70 (76)", (70, 76))
    assert token_words(short, "70 (76)", Resolved(SIZES, (1,))) == "70 (76)"


def manuscript(text: str, *numbers: Number, sizes_line: tuple[str, ...] = ()) -> Manuscript:
    return Manuscript(
        source="m",
        text=text,
        front=FrontMatter({}, {}),
        terms="US",
        blocks=(),
        sections=(),
        numbers=numbers,
        sizes_line=sizes_line,
    )


def at(text: str, spelling: str, value: tuple[Value, ...] | Formula) -> Number:
    start = text.index(spelling)
    place = Span("m", start, start + len(spelling))
    return Number(value=value, spelling=spelling, place=place)


def test_only_numbers_change_in_the_authors_text() -> None:
    text = "Row 3:\tDc in “next”  {n} sts,\r\n 70 (76, 84) in all…"
    made = manuscript(text, at(text, "{n}", Name("n")), at(text, "70 (76, 84)", (70, 76, 84)))
    values: dict[Formula, tuple[Value, ...]] = {Name("n"): (4, 5, 6)}
    everything = Span("m", 0, len(text))
    runs = written_text(made, everything, Resolved(SIZES, (0, 1, 2), values), (1, 2))
    assert "".join(run.words for run in runs) == text.replace("{n}", "4 (5, 6)")
    runs = written_text(made, everything, Resolved(SIZES, (2,), values))
    assert [(run.words, run.number is not None) for run in runs] == [
        ("Row 3:\tDc in “next”  ", False),
        ("6", True),
        (" sts,\r\n ", False),
        ("84", True),
        (" in all…", False),
    ]


def test_a_span_holds_only_its_own_numbers() -> None:
    text = "{n} and {n}"
    numbers = tuple(
        Number(value=Name("n"), spelling="{n}", place=Span("m", start, start + 3))
        for start in (0, 8)
    )
    resolved = Resolved(("",), (0,), {Name("n"): (9,)})
    runs = written_text(manuscript(text, *numbers), Span("m", 3, 11), resolved)
    assert "".join(run.words for run in runs) == " and 9"
    runs = written_text(manuscript(text, *numbers), Span("m", 1, 5), resolved)
    assert "".join(run.words for run in runs) == "n} a"


def test_the_size_line_names_the_sizes_worked() -> None:
    text = "Sizes: S (M, L), to fit a small, medium or large child. Size XS (M, L) is none of them."
    made = manuscript(text, sizes_line=SIZES)
    runs = written_text(made, Span("m", 0, len(text)), Resolved(SIZES, (1,)))
    assert "".join(run.words for run in runs) == text.replace("S (M, L),", "M,", 1)
