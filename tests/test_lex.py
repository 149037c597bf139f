"""Tokens: how numbers, brackets and pasted typography are cut.

The notations are common practice in printed patterns, no source; the sentences are our own.
"""

from fractions import Fraction

import pytest

from stitchproof.base.place import Span
from stitchproof.language.formula import Arithmetic, Constant, Name
from stitchproof.language.number import Number, NumberKind
from stitchproof.language.read.lex import Token, TokenKind, lex
from stitchproof.language.read.size_names import SizeNames

NOTHING: frozenset[str] = frozenset()


def tokens_of(
    text: str,
    sizes: int | None = None,
    declared: frozenset[str] = NOTHING,
    names: tuple[str, ...] = (),
) -> tuple[Token, ...]:
    place = Span("t", 100, 100 + len(text))
    found, told = lex(text, place, declared, sizes, SizeNames.of(names))
    assert told == []
    for token in found:
        assert text[token.place.start - 100 : token.place.end - 100] == token.written
    return found


def numbers_of(text: str, sizes: int | None = None, names: tuple[str, ...] = ()) -> list[Number]:
    tokens = tokens_of(text, sizes, names=names)
    return [token.number for token in tokens if token.number is not None]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("Ch 70 (76, 84).", (70, 76, 84)),
        ("23(25, 29) sts", (23, 25, 29)),
        ("18 [20, 22] sts", (18, 20, 22)),
        ("Ch 9 (9-11-11).", (9, 9, 11, 11)),
        ("28 (30: 32) rows", (28, 30, 32)),
        ("Dc in next (40, 44, 48) sts", (40, 44, 48)),
        ("Ch 97 (129).", (97, 129)),
        (
            "Ch 77 (85, 95, 103) [111, 119, 127] {135, 145}",
            (77, 85, 95, 103, 111, 119, 127, 135, 145),
        ),
        ("- (-, 2, 4) rows", (None, None, 2, 4)),
        ("10 (-, -, -) sc", (10, None, None, None)),
        ("10 (–, –, –) sc", (10, None, None, None)),
        ("10 (—, —) sts", (10, None, None)),
        ("10 (-, -) [-, -] sts", (10, None, None, None, None)),
        ("- (12, -, -) sc", (None, 12, None, None)),
        ("- (-, -, 16) sc", (None, None, None, 16)),
        ("(10, -, -, -) sc", (10, None, None, None)),
        ("(-, -, 14, -) sc", (None, None, 14, None)),
        ("10, (-, -, -) sc", (10, None, None, None)),
        ("zero (one, two) time(s)", (0, 1, 2)),
        ("0 (1, 1) times", (0, 1, 1)),
        ("ch 3, (3, 4)", (3, 3, 4)),
        ("twice [3 times]{4 times}/5 times/", (2, 3, 4, 5)),
        ("twenty-four sts", (24,)),
        ("once", (1,)),
        ("70\u00a0(76,\u200984)", (70, 76, 84)),
    ],
)
def test_a_list_of_sizes_is_one_number(text: str, values: tuple[int | None, ...]) -> None:
    assert [number.value for number in numbers_of(text)] == [values]


@pytest.mark.parametrize(
    ("text", "sizes", "values"),
    [
        ("Ch 60 (60) 66 (66) 72", 5, [(60, 60, 66, 66, 72)]),
        ("Ch 60 (60) 66 (66) 72", None, [(60, 60), (66, 66), (72,)]),
        ("20, 22, 24 sts", 3, [(20, 22, 24)]),
        ("20, 22, 24 sts", 2, [(20,), (22,), (24,)]),
        ("Rows 3, 5, 7 rows", 3, [(3,), (5,), (7,)]),
        ("Ch 24 (28)", 1, [(24,), (28,)]),
        ("sc, inc x 6 (24)", None, [(6,), (24,)]),
        ("Sc 24 (24)", None, [(24,), (24,)]),
        ("(sc, dec) x 6 (12) Stuff firmly.", None, [(6,), (12,)]),
        ("Sc in next 12 (14) sts", None, [(12, 14)]),
        ("mark the top of Row 42 (38).", None, [(42, 38)]),
    ],
)
def test_a_bracket_is_a_list_or_a_count(
    text: str, sizes: int | None, values: list[tuple[int, ...]]
) -> None:
    assert [number.value for number in numbers_of(text, sizes)] == values


@pytest.mark.parametrize(
    ("text", "names", "values"),
    [
        ("(S: 40 sts, M: 44 sts, L: 48 sts)", "S M L", [(40, 44, 48)]),
        ("Size S – 40 ch-2 sps; size M – 44 ch-2 sps", "S M", [(40, 44), (2,)]),
        ("Size S: 40 sts. Size M: 44 sts. Size L: 48 sts.", "S M L", [(40, 44, 48)]),
        ("40 (S), 44 (M) and 48 (L) sts", "S M L", [(40, 44, 48)]),
        ("40 sts for S, 44 sts for M, 48 sts for L", "S M L", [(40, 44, 48)]),
        ("(38 sc S, 42 sc M)", "Small Medium", [(38, 42)]),
        ("40 (44, 48) sts for S (M, L)", "S M L", [(40, 44, 48)]),
        ("1X: 40, 2X: 44, 3X: 48 sts", "XL XXL 3XL", [(40, 44, 48)]),
        ("32: 40, 34: 44 sts", "32 34", [(40, 44)]),
        ("3-6: 40, 6-12: 44 sts", "3-6 6-12", [(40, 44)]),
        ("Size M: 44 sts", "S M L", [(None, 44, None)]),
        ("Large = 48 sts, Small = 40 sts", "Small Large", [(48,), (40,)]),
        ("(S: 40 sts, M: 44 sts)", "S M L", [(40,), (44,)]),
        ("(S: 40 sts, M: 44 dc)", "S M", [(40,), (44,)]),
        ("XS: 40 sts, S: 44 sts", "S M", [(40,), (44,)]),
    ],
)
def test_a_list_names_the_sizes(
    text: str, names: str, values: list[tuple[int | None, ...]]
) -> None:
    sizes = tuple(names.split())
    assert [number.value for number in numbers_of(text, len(sizes), sizes)] == values


@pytest.mark.parametrize(
    "text",
    [
        "{24}",
        "{24 sts}",
        "{2 dc, ch 1} 4 times",
        "{40, 44}",
        "ch 1 (counts as dc)",
        "2 (dc, ch 1) in next sp",
        "10 (- - -)",
        "(-, -, -)",
    ],
)
def test_other_brackets_stay_marks(text: str) -> None:
    assert {"(", ")", "{", "}"} & {token.text for token in tokens_of(text)}


def test_lengths_take_their_unit() -> None:
    inches, cm = numbers_of("until piece measures 11½ (12, 12 1/2) in. (29 (30.5, 32) cm) from")
    assert inches.kind is cm.kind is NumberKind.LENGTH
    assert inches.value == (Fraction(2921, 10), Fraction(1524, 5), Fraction(635, 2))
    assert cm.value == (290, 305, 320)
    assert [n.kind for n in numbers_of("sc 12 in next st")] == [NumberKind.COUNT]


def test_a_formula_needs_declared_names() -> None:
    declared = frozenset({"panel_sts"})
    (number,) = [t.number for t in tokens_of("Ch {panel_sts + 2}.", None, declared) if t.number]
    assert number.value == Arithmetic("+", Name("panel_sts"), Constant(Fraction(2)))
    assert number.spelling == "{panel_sts + 2}"
    assert [t.text for t in tokens_of("Ch {panel_sts + 2}.")][1] == "{"
    assert tokens_of("{{panel_sts}}", None, declared)[0].text == "{"


def test_an_unknown_name_is_told_with_its_place() -> None:
    text = "Ch {panel_st + 2}, turn."
    _, (told,) = lex(text, Span("t", 0, len(text)), frozenset({"panel_sts"}))
    assert told.finding.code.slug == "unknown-name"
    assert text[told.place.start : told.place.end] == "panel_st"


@pytest.mark.parametrize(
    ("text", "texts"),
    [
        ("CH3, 2SC inlast st", ["ch", "3", ",", "2", "sc", "in", "last", "st"]),
        ("dc2tog", ["dc", "2", "tog"]),
        ("ch\u20111 sp", ["ch", "-", "1", "sp"]),
        ("\uff23\uff28\u3000\uff13", ["ch", "3"]),
        ("\u201cSc\u201d don\u2019t", ['"', "sc", '"', "don't"]),
        ("sc \u00d7 6", ["sc", "x", "6"]),
        ("Row 4 \u2013 ch 2", ["row", "4", "\u2013", "ch", "2"]),
        ("ch. 3, 2 sts. in next st", ["ch", ".", "3", ",", "2", "sts", "in", "next", "st"]),
        ("dc \ufb01nish", ["dc", "finish"]),
        ("sk 1 st(s)", ["sk", "1", "sts"]),
        ("* ** *** ...", ["*", "**", "***", "…"]),
    ],
)  # fmt: skip
def test_typography_is_folded(text: str, texts: list[str]) -> None:
    assert [token.text for token in tokens_of(text)] == texts


def test_ordinals_carry_their_number() -> None:
    found = [t for t in tokens_of("in 3rd ch and second st, 1st") if t.kind is TokenKind.ORDINAL]
    assert [t.number.value for t in found if t.number] == [(3,), (2,), (1,)]


def test_a_number_of_a_thousand_digits_is_no_number() -> None:
    assert [t.kind for t in tokens_of("ch " + "9" * 5000)] == [TokenKind.WORD, TokenKind.WORD]
