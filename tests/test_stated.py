"""Stated counts: where they stand, in what words, and what is none."""

import pytest

from stitchproof.base.place import Span
from stitchproof.language.read.count_words import Counting, Tokens
from stitchproof.language.read.lex import lex
from stitchproof.language.read.stated import take_stated
from stitchproof.language.tree import Special, Stated, Statement, Thing


def take(text: str, counting: Counting | None = None) -> tuple[Tokens, Stated | None]:
    tokens, _ = lex(text, Span("x", 0, len(text)), frozenset())
    return take_stated(tokens, counting or Counting())


def brief(statements: tuple[Statement, ...]) -> list[tuple[object, str]]:
    return [
        (s.number.value if len(s.number.value) > 1 else s.number.value[0], s.unit)
        for s in statements
        if isinstance(s.number.value, tuple)
    ]


FORMS = (
    ("Sc in each st across, turn. (44 sts)", [(44, "st")], "(44 sts)"),
    ("Sc in each st, turn. [52 (56, 60) sts]", [((52, 56, 60), "st")], "[52 (56, 60) sts]"),
    ("Sc in each st around {30 sts}", [(30, "st")], "{30 sts}"),
    ("Sc in each ch across – 61 (67, 73) sc.", [((61, 67, 73), "sc")], "– 61 (67, 73) sc"),
    ("Sc in each st across = 24 sts", [(24, "st")], "= 24 sts"),
    ("Sc in each st across - 24 sts", [(24, "st")], "- 24 sts"),
    ("Sc in each st across -- 24 sts", [(24, "st")], "-- 24 sts"),
    ("Hdc in last st, turn 33 (37, 41) sts.", [((33, 37, 41), "st")], "33 (37, 41) sts"),
    ("Sc in last st, turn. 33 sc.", [(33, "sc")], "33 sc"),
    ("Sc in last 5 sts. 33 sc", [(33, "sc")], "33 sc"),
    ("Hdc in each st across. Turn – 58", [(58, "")], "– 58"),
    ("Sc around. You should now have 40 sts.", [(40, "st")], "You should now have 40 sts"),
    ("Sc in each ch across: 38 sc.", [(38, "sc")], ": 38 sc"),
    ("Dc across, turn. Total 8 hdc, (40, 44) dc.", [(8, "hdc"), ((40, 44), "dc")], None),
    ("Dc across – 40 dc and 4 ch-2 spaces", [(40, "dc"), (4, "ch-2 sp")], None),
    ("Shell in each – 9 V-sts", [(9, "v-st")], "– 9 V-sts"),
    ("1 dc in each st, turn. 9 dc, 10 1-ch sps", [(9, "dc"), (10, "ch-1 sp")], None),
    ("(2 sc, inc) x 6. (24)", [(24, "")], "(24)"),
    ("2 sc - 1 inc x 6 (24)", [(24, "")], "(24)"),
    ("Dc across (33 dc), turn.", [(33, "dc")], "(33 dc)"),
    ("Dc across (33 dc). Turn. Fasten off.", [(33, "dc")], "(33 dc)"),
    ("Sc in each st around, join (36 sc)", [(36, "sc")], "(36 sc)"),
    ("Sc in each st across. (40, 44, 48) sts", [((40, 44, 48), "st")], "(40, 44, 48) sts"),
    ("Sc across, turn. (20 sts remain)", [(20, "st")], "(20 sts remain)"),
    ("Sc in each st across. 20 sts. Fasten off.", [(20, "st")], "20 sts"),
    ("Rep Row 2. 20 sts", [(20, "st")], "20 sts"),
    ("Shell in each st; join. (12 shells, 12 ch-3 sps)", [(12, "shell"), (12, "ch-3 sp")], None),
    ("5 dc in each sp around. (9 petals)", [(9, "petal")], "(9 petals)"),
    ("Sc in each st across. (43 sts, phew!)", [(43, "st")], "(43 sts, phew!)"),
    ("Sc across, turn. [40 (44) sts - count again]", [((40, 44), "st")], None),
)


@pytest.mark.parametrize("form", FORMS, ids=lambda f: f[0])
def test_forms(form: tuple[str, list[tuple[object, str]], str | None]) -> None:
    text, expected, words = form
    left, stated = take(text)
    assert stated is not None
    assert brief(stated.statements) == expected
    if words is not None:
        assert text[stated.place.start : stated.place.end] == words
    within = [t for t in left if stated.place.start <= t.place.start < stated.place.end]
    assert within == []


@pytest.mark.parametrize(
    "text",
    [
        "Ch 2, turn. 12 sc in ring",
        "Ch 2. Turn. 12 hdc. Turn.",
        "12 sc in ring",
        "12 dc",
        "(2 dc) in next st, ch 1",
        "(3 sc) twice, sc in next st",
        "Sc in next 3 sts, (dc, ch 1, dc) in next st, sc 3",
        "5 dc in next st (shell made), sc in next st",
        "Ch 3 (counts as dc), dc in each st",
        "Sc in each of next 4 sts, 2 sc in next st",
        "Skip 2 sts, 3 dc in next st",
        "Work 36 sc evenly (36 sc per edge); sc in next st",
        "Sc in each st until piece measures 24 cm",
    ],
)
def test_what_is_worked_is_not_stated(text: str) -> None:
    left, stated = take(text)
    assert stated is None
    assert left == lex(text, Span("x", 0, len(text)), frozenset())[0]


def test_a_count_for_each_row() -> None:
    _, stated = take("Rep Row 2. (30 sts)(28 sts)(26 sts)")
    assert stated is not None
    assert [brief(row) for row in stated.rowwise] == [[(30, "st")], [(28, "st")], [(26, "st")]]
    assert brief(stated.statements) == [(26, "st")]


def test_what_is_left_out_and_what_is_taken_in() -> None:
    _, stated = take("Sc around, join – 30 sc (not counting the sl sts).")
    assert stated is not None
    assert stated.excluding == ("sl_st",)
    _, stated = take("Dc across, turn. (21 dc, including turning ch)")
    assert stated is not None
    assert stated.including == ("tch",)


@pytest.mark.parametrize(
    ("text", "change"),
    [
        ("Sc to end, turn. (2 sts increased)", "increased"),
        ("Sc to end, turn. (44 sts; 4 sts more)", "increased"),
        ("Sc to end, turn. (44 sts, 4 more than last row)", "increased"),
        ("Sc to end, turn. (44 sts; 4 extra sts)", "increased"),
        ("Sc to end, turn. 44 sts, 2 fewer", "decreased"),
        ("Sc to end, turn – 2 sts decreased", "decreased"),
        ("Sc to end, turn. (24 sts)", ""),
    ],
)
def test_changes_are_no_totals(text: str, change: str) -> None:
    _, stated = take(text)
    assert stated is not None
    assert stated.statements[-1].change == change


def test_units_are_read_in_the_terms_of_the_text() -> None:
    _, stated = take("1 dc in each st to end. (20 dc)", Counting(terms="UK"))
    assert stated is not None
    assert (stated.statements[0].unit, stated.statements[0].noun.kind) == ("dc", "sc")


def test_units_of_the_author() -> None:
    text = "Knot in each st across. 20 knots"
    assert take(text)[1] is None
    _, stated = take(text, Counting(specials={"knot": Special("knot", "Knot")}))
    assert stated is not None
    assert (stated.statements[0].noun.thing, stated.statements[0].unit) == (Thing.GROUP, "knot")
