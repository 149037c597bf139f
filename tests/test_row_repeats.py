"""Lines that repeat rows."""

from dataclasses import fields

import pytest

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.place import Span
from stitchproof.language.number import Number
from stitchproof.language.read.lex import Token, lex
from stitchproof.language.read.row_repeats import read_row_repeat
from stitchproof.language.tree import Colour, Remark, RepeatRows, Steps, Times, Unread


def steps(tokens: tuple[Token, ...]) -> tuple[Steps, list[Diagnostic]]:
    return (Unread(" ".join(t.text for t in tokens)),), []


def read(text: str) -> RepeatRows | None:
    tokens, _ = lex(text, Span("x", 0, len(text)), frozenset())
    found = read_row_repeat(tokens, steps)
    return found[0] if found else None


def shown(value: object) -> object:
    match value:
        case Number(value=tuple() as of):
            return of[0] if len(of) == 1 else of
        case Times(number=number, more=more):
            return ("more" if more else "in all", shown(number))
        case tuple():
            return [shown(v) for v in value]
        case _:
            return value


def facts(made: RepeatRows) -> dict[str, object]:
    every = {f.name: shown(getattr(made, f.name)) for f in fields(made) if f.name != "place"}
    return {name: value for name, value in every.items() if value not in (None, "", [], 0)}


FORMS: tuple[tuple[str, dict[str, object]], ...] = (
    ("Rep Row 2.", {"first": 2, "last": 2}),
    ("As Row 2", {"first": 2, "last": 2}),
    ("= 2nd row", {"first": 2, "last": 2}),
    ("Same as 4th row.", {"first": 4, "last": 4}),
    ("Work as for Row 3.", {"first": 3, "last": 3}),
    (
        "Rep Rows 3–6 15 (16) more times, ending with a WS row.",
        {"first": 3, "last": 6, "often": ("more", (15, 16)), "ending": "WS"},
    ),
    ("Rep Rows 2 and 3 five more times", {"first": 2, "last": 3, "often": ("more", 5)}),
    ("Rep Rows 2 and 3 5 more times.", {"first": 2, "last": 3, "often": ("more", 5)}),
    ("Rep Rows 2 and 3, 4 times more.", {"first": 2, "last": 3, "often": ("more", 4)}),
    ("Rep Row 2 twice more.", {"first": 2, "last": 2, "often": ("more", 2)}),
    ("Rep Row 2 another 4 times.", {"first": 2, "last": 2, "often": ("more", 4)}),
    (
        "Rep Row 4 6 (7, 7, 8) times.",
        {"first": 4, "last": 4, "often": ("in all", (6, 7, 7, 8))},
    ),
    (
        "Rep Row 7 every 6th row 4 times, then every 4th row twice.",
        {"first": 7, "last": 7, "phases": [[6, 4], [4, 2]]},
    ),
    (
        "Rep Row 7 every 6th (4th) row 4 (5) times.",
        {"first": 7, "last": 7, "phases": [[(6, 4), (4, 5)]]},
    ),
    (
        "[Rep Row 7, work 3 rows even] 4 times.",
        {"first": 7, "last": 7, "phases": [[4, 4]], "leading": True},
    ),
    (
        "*Work 5 rows even, then rep Row 7; rep from * 3 more times.",
        {"first": 7, "last": 7, "phases": [[6, 4]]},
    ),
    ("Work 12 more rows as Row 2.", {"first": 2, "last": 2, "often": ("more", 12)}),
    ("Work 3 rnds even as for Rnd 5.", {"first": 5, "last": 5, "often": ("more", 3)}),
    ("Rep Rows 2, 3 and 5.", {"first": 2, "last": 5, "listed": [2, 3, 5]}),
    ("Beginning with a Row 3, rep Rows 3 and 2.", {"first": 3, "last": 2, "listed": [3, 2]}),
    ("Starting with Row 3, alternate Rows 2-4.", {"first": 3, "last": 2, "listed": [3, 4, 2]}),
    ("Rep Rows 2 and 3, beginning with Row 3", {"first": 3, "last": 2, "listed": [3, 2]}),
    ("Beginning with Row 2, rep Rows 2 and 3.", {"first": 2, "last": 3}),
    ("Repeat 2nd and 3rd rows 14 times.", {"first": 2, "last": 3, "often": ("in all", 14)}),
    ("Rep last 2 rows 4 (5) times", {"back": 2, "often": ("in all", (4, 5))}),
    ("Rep last row 4 more times.", {"back": 1, "often": ("more", 4)}),
    ("Rep these 2 rows 3 times more.", {"back": 2, "often": ("more", 3)}),
    (
        "Rep Row 2 until you have 18 (20) rows in all.",
        {"first": 2, "last": 2, "until_rows": (18, 20)},
    ),
    (
        "Rep Rnds 3-4 until there are 10 rnds total.",
        {"first": 3, "last": 4, "until_rows": 10},
    ),
    ("Repeat Rows 2-3 alternately to Row 20", {"first": 2, "last": 3, "until_rows": 20}),
    ("Rep Row 2 until piece measures 28 cm.", {"first": 2, "last": 2, "until_length": 280}),
    (
        "Rep Rows 2-7 9 times, then Rows 2 and 3 once more.",
        {"first": 2, "last": 7, "often": ("in all", 9), "then_to": 3},
    ),
    (
        "Rep Rows 2 and 3 twice, then rep Row 2 once.",
        {"first": 2, "last": 3, "often": ("in all", 2), "then_to": 2},
    ),
    (
        "Rep Rows 3-6 until desired length, ending with Row 4.",
        {"first": 3, "last": 6, "until_words": "desired length", "ending_row": 4},
    ),
    ("Same as Back to end of Row 30.", {"first": 1, "last": 30, "piece": "back"}),
    ("Rep Rows 1-4 of Back.", {"first": 1, "last": 4, "piece": "back"}),
    ("Work even in patt for 6 rows.", {"often": ("more", 6)}),
    ("Work even in hdc for 6 rows.", {"often": ("more", 6)}),
    ("Work 5 more rows in patt.", {"often": ("more", 5)}),
    ("Continue in patt until piece measures 40 cm.", {"until_length": 400}),
    ("Work 3 rows even.", {"often": ("more", 3)}),
    ("Work another 6 rows in patt.", {"often": ("more", 6)}),
    ("Work even until piece measures 28 cm.", {"until_length": 280}),
    ("Work even until piece measures 28 cm (11 in) from cast-on edge.", {"until_length": 280}),
    (
        "Work even until armhole measures 18 cm.",
        {"until_length": 180, "until_words": "armhole measures 18 cm"},
    ),
    (
        "Rep Row 2 until it is 3 cm less than Front.",
        {"first": 2, "last": 2, "until_length": 30, "until_words": "it is 3 cm less than front"},
    ),
    (
        "Rep last 2 rows until 12 (14) sts rem.",
        {"back": 2, "until_count": (12, 14)},
    ),
    (
        "Rep Row 4 until there are 30 sts.",
        {"first": 4, "last": 4, "until_count": 30},
    ),
    (
        "Rep Rows 2 and 3 to desired length.",
        {"first": 2, "last": 3, "until_words": "desired length"},
    ),
)


@pytest.mark.parametrize("form", FORMS, ids=lambda f: f[0])
def test_forms(form: tuple[str, dict[str, object]]) -> None:
    made = read(form[0])
    assert made is not None
    assert facts(made) == form[1]


@pytest.mark.parametrize(
    "text",
    [
        "Rep from * to end",
        "Repeat for other side.",
        "Sc in each st",
        "Work in each st",
        "Work 3 rows of sc.",
    ],
)
def test_what_names_no_rows(text: str) -> None:
    assert read(text) is None


def test_what_is_changed_goes_to_the_steps() -> None:
    made = read("Rep Row 4 with B.")
    assert made is not None
    assert made.extra == (Colour("B"),)
    made = read("Rep Row 2, omitting turning ch.")
    assert made is not None
    assert made.chainless
    assert made.extra == ()
    made = read("Work as for Left Front, reversing all shaping.")
    assert made is not None
    assert made.piece == "left front"
    assert made.extra == (Remark("reversing all shaping"),)
