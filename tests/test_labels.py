"""Row labels in every form that designers write."""

import re

import pytest

from stitchproof.base.place import Span
from stitchproof.language.number import Number
from stitchproof.language.read.label_numbers import Source
from stitchproof.language.read.labels import read_label
from stitchproof.language.read.openings import first_words
from stitchproof.language.tree import Label


def number_at(text: str) -> "Source":
    def read(words: str, start: int) -> Number | None:
        digits = tuple(int(d) for d in re.findall(r"\d+", words))
        named = {"four": (4,), "{rows}": (99,)}.get(words, digits)
        place = Span("x", start, start + len(words))
        return Number(value=named, spelling=words, place=place) if named else None

    return Source("x", text, read)


def read(text: str, *, bare: bool = True) -> tuple[Label, str] | None:
    found = read_label(number_at(text), 0, len(text), bare=bare)
    return (found[0], text[found[1] :]) if found else None


def values(number: Number | None) -> object:
    return number.value if number is not None else None


NUMBERED = (
    # line, words, first, last, side, words after it
    ("Row 7: Ch 1, turn", "Row 7", (7,), (7,), "", "Ch 1, turn"),
    ("RND 4: Ch 1", "RND 4", (4,), (4,), "", "Ch 1"),
    ("Round 6. Ch 2", "Round 6", (6,), (6,), "", "Ch 2"),
    ("Rnd2; 2 sc in each sc.", "Rnd2", (2,), (2,), "", "2 sc in each sc."),
    ("R5: (2 sc, inc) x 6. (24)", "R5", (5,), (5,), "", "(2 sc, inc) x 6. (24)"),
    ("R 5: sc around", "R 5", (5,), (5,), "", "sc around"),
    ("5. Ch 1, sc in every st", "5", (5,), (5,), "", "Ch 1, sc in every st"),
    ("5: Ch 1, sc in every st", "5", (5,), (5,), "", "Ch 1, sc in every st"),
    (
        "36 to 45. A double in each stitch.",
        "36 to 45",
        (36,),
        (45,),
        "",
        "A double in each stitch.",
    ),
    ("3. Second row: Ch 2.", "Second row", (2,), (2,), "", "Ch 2."),
    ("Rows 2-9 (9-11-11): Sc", "Rows 2-9 (9-11-11)", (2,), (9, 9, 11, 11), "", "Sc"),
    ("Rows 2 and every WS row: Sc", "Rows 2 and every WS row", (2,), (2,), "", "Sc"),
    ("Rows 2, 4, 6 …: Sc", "Rows 2, 4, 6 …", (2,), (6,), "", "Sc"),
    ("3rd row: Ch 2. Turn.", "3rd row", (3,), (3,), "", "Ch 2. Turn."),
    ("First round: 6 sc in ring", "First round", (1,), (1,), "", "6 sc in ring"),
    ("2nd, 3rd and 4th rows: Sc", "2nd, 3rd and 4th rows", (2,), (4,), "", "Sc"),
    ("Step 3: 22 sc, turn.", "Step 3", (3,), (3,), "", "22 sc, turn."),
    ("Rows 3-8: Rep Row 2.", "Rows 3-8", (3,), (8,), "", "Rep Row 2."),
    (
        "Rows 3-8 (8, 9) [10, 10]: Rep Row 2.",
        "Rows 3-8 (8, 9) [10, 10]",
        (3,),
        (8, 8, 9, 10, 10),
        "",
        "Rep Row 2.",
    ),
    ("Rows 4- 9: Rep Row 3.", "Rows 4- 9", (4,), (9,), "", "Rep Row 3."),
    ("Rows 3 to 8: Rep Row 2.", "Rows 3 to 8", (3,), (8,), "", "Rep Row 2."),
    ("Rows 4 and 5: Ch 1", "Rows 4 and 5", (4,), (5,), "", "Ch 1"),
    ("Rows 20 + 21: Ch 1", "Rows 20 + 21", (20,), (21,), "", "Ch 1"),
    ("Rows 3-10 (12, 12, 14): Sc", "Rows 3-10 (12, 12, 14)", (3,), (10, 12, 12, 14), "", "Sc"),
    ("Rows 7–66 (70): Rep", "Rows 7–66 (70)", (7,), (66, 70), "", "Rep"),
    ("Rows 7–{rows}: Rep", "Rows 7–{rows}", (7,), (99,), "", "Rep"),
    ("Row (18, 20, 22): Ch 1", "Row (18, 20, 22)", (18, 20, 22), (18, 20, 22), "", "Ch 1"),
    ("Rounds 9-10 (11-12): sc", "Rounds 9-10 (11-12)", (9, 11), (10, 12), "", "sc"),
    ("Rows 7-8 (7-8, 7-9): sc", "Rows 7-8 (7-8, 7-9)", (7, 7, 7), (8, 8, 9), "", "sc"),
    ("Row 1 (RS): Ch 1", "Row 1 (RS)", (1,), (1,), "RS", "Ch 1"),
    ("Row 1 (Right Side): Ch 1", "Row 1 (Right Side)", (1,), (1,), "RS", "Ch 1"),
    ("Row 2 [WS]: Ch 1", "Row 2 [WS]", (2,), (2,), "WS", "Ch 1"),
    ("Row 1: (RS) Sc", "Row 1", (1,), (1,), "RS", "Sc"),
    ("1st row: (WS). 1 sc", "1st row", (1,), (1,), "WS", "1 sc"),
    ("Row 4 (CC): Ch 1.", "Row 4 (CC)", (4,), (4,), "", "Ch 1."),
    ("Row 9 (Decrease Row): Ch 1", "Row 9 (Decrease Row)", (9,), (9,), "", "Ch 1"),
    ("Row 2 and all even rows: Sc", "Row 2 and all even rows", (2,), (2,), "", "Sc"),
    ("Row 3 ch 2, dc in each st", "Row 3", (3,), (3,), "", "ch 2, dc in each st"),
    ("Row 3, ch 2, dc in each st", "Row 3", (3,), (3,), "", "ch 2, dc in each st"),
    ("Row 4 – ch 2", "Row 4", (4,), (4,), "", "ch 2"),
    ("Row 4 - ch 2", "Row 4", (4,), (4,), "", "ch 2"),
    ("Row 3 (sc, inc) 6 times", "Row 3", (3,), (3,), "", "(sc, inc) 6 times"),
    ("**Row 1:** Ch 2", "Row 1", (1,), (1,), "", "Ch 2"),
    ("**Row 1**: Ch 2", "Row 1", (1,), (1,), "", "Ch 2"),
    ("- Row 1 (RS): Dc", "Row 1 (RS)", (1,), (1,), "RS", "Dc"),
    ("• Row 2: Dc", "Row 2", (2,), (2,), "", "Dc"),
    ("9th round = 4th round", "9th round", (9,), (9,), "", "= 4th round"),
)


@pytest.mark.parametrize("form", NUMBERED, ids=lambda f: f[0])
def test_numbered(form: tuple[str, str, object, object, str, str]) -> None:
    line, words, first, last, side, rest = form
    found = read(line)
    assert found is not None
    label, after = found
    assert (label.words, values(label.first), values(label.last)) == (words, first, last)
    assert (label.side, after) == (side, rest)
    assert label.span is None


@pytest.mark.parametrize(
    ("line", "listed"),
    [
        ("Rows 3, 5, 7: Ch 2", [3, 5, 7]),
        ("Rows 3, 5 and 8: Ch 2", [3, 5, 8]),
        ("Rows 3-5 and 7: Ch 2", [3, 4, 5, 7]),
    ],
)
def test_rows_named_one_by_one(line: str, listed: list[int]) -> None:
    found = read(line)
    assert found is not None
    assert [values(n) for n in found[0].listed] == [(n,) for n in listed]


@pytest.mark.parametrize(
    ("line", "words", "span"),
    [
        ("Next Row (WS): Ch 1", "Next Row (WS)", (1,)),
        ("Next 8 (8, 10) Rows: Ch 1", "Next 8 (8, 10) Rows", (8, 8, 10)),
        ("NEXT 4 ROWS: Sc", "NEXT 4 ROWS", (4,)),
        ("Next four rows: Sc", "Next four rows", (4,)),
        ("Foundation Row (RS): Dc", "Foundation Row (RS)", (1,)),
        ("Set-up row: Sc", "Set-up row", (1,)),
        ("Dec Row 2: Ch 1, sc2tog", "Dec Row 2", (1,)),
        ("Buttonhole Row: Sc in next 3 sts", "Buttonhole Row", (1,)),
        ("Last row: Sc", "Last row", (1,)),
    ],
)
def test_rows_without_a_number_of_their_own(line: str, words: str, span: object) -> None:
    found = read(line)
    assert found is not None
    label, _ = found
    assert (label.words, values(label.span), label.first, label.last) == (words, span, None, None)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("Shoulders: RS together, whipstitch 20 sts from each outer edge", "Shoulders"),
        ("_Shoulders:_ RS together, whipstitch 20 sts from each outer edge", "Shoulders"),
        ("Sides: Whipstitch row ends from hem to marker", "Sides"),
        ("Back neck: Ch 5, sc in next st", "Back neck"),
        ("LEFT FRONT: Ch 34 (38, 42).", "LEFT FRONT"),
    ],
)
def test_words_as_labels(line: str, words: str) -> None:
    found = read(line)
    assert found is not None
    assert (found[0].words, found[0].first, found[0].span) == (words, None, None)


@pytest.mark.parametrize(
    "line",
    [
        "Row 1 is the right side.",
        "Rows 2 and 3 form the pattern.",
        "Rows 1-4 set the pattern.",
        "Note: Ch 3 counts as a dc.",
        "Gauge: 14 sc and 16 rows = 10 cm.",
        "Sizes: S (M, L)",
        "Materials: 2 balls",
        "At the end of the row there are 20 sts.",
        "Fasten off.",
        "5 dc in same st",
        "2.5 mm hook",
        "",
    ],
)
def test_sentences_are_no_labels(line: str) -> None:
    assert read(line) is None


def test_a_mere_number_is_a_label_only_where_it_may_be() -> None:
    assert read("5. Ch 1, turn", bare=False) is None


def test_rounds_and_rows() -> None:
    for line, is_round in (("Rnd 3: sc", True), ("3rd round: sc", True), ("Row 3: sc", False)):
        found = read(line)
        assert found is not None
        assert found[0].round is is_round


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Fasten off. Mark both edges.", "Fasten off"),
        ("With smaller hook and RS facing, join", "With smaller hook and RS facing"),
        ("Work one two three four five six", "Work one two three four five"),
    ],
)
def test_first_words(text: str, words: str) -> None:
    assert first_words(text) == words
