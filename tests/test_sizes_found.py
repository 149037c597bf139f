"""Names of sizes that no line of sizes gives: in a sentence, a table, beside a measure."""

import pytest

from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.pipeline.press import press
from tests.mini_patterns import OneFile

ROWS = "\n\nCh 12 (14, 16).\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn.\n"
FOUND = (
    ("The pattern reads S (M, L).", "S M L"),
    ("S(M, L)", "S M L"),
    ("**Small (Medium, Large)**", "Small Medium Large"),
    ("Stitch counts are given as XS (S, M).", "XS S M"),
    ("The others follow in brackets: 0-3m (3-6m, 1-2y).", "0-3m 3-6m 1-2y"),
    ("This hat fits a Baby (Toddler, Child).", "Baby Toddler Child"),
    ("It comes in S, M and L.", "S M L"),
    ('Fits head S: 20.5", M: 22", L: 23.5"', "S M L"),
    ("| | S | M | L |\n|---|---|---|---|\n| Bust | 81 | 91 | 101 |", "S M L"),
    ("| UK size | 8-10 | 12 | 14 |\n|---|---|---|---|\n| Bust | 81 | 91 | 101 |", "8-10 12 14"),
    ("| Size | Bust |\n|---|---|\n| S | 81 |\n| M | 91 |\n| L | 101 |", "S M L"),
    ("| Size | S | M | L | |\n|---|---|---|---|---|\n| Bust | 81 | 91 | 101 | cm |", "S M L"),
    ("| Hook size | 5 | 6 | 7 |\n|---|---|---|---|\n| Bust | 81 | 91 | 101 |", ""),
    ("For sizes M and L, use a larger hook.", ""),
    ("The pattern reads S (M).", ""),  # the lists of the text have three numbers
    ("Use a G (H, I) hook.", ""),
    ("L (M, S)", ""),
    ("**Sizes** – S (M, L)", "S M L"),
    ("Sizes: A (B, C) cup. The ties are adjustable.", "A B C"),
    ("MEASUREMENTS\n\nTo fit bust: 81 (86, 91) cm\n\nActual size: 88 (94, 101) cm", "81 86 91"),
    ("Finished bust: 88 (94, 101) cm\n\nTo fit bust: 81 (86, 91) cm", "81 86 91"),
    ("Bust sizes: 34 (38: 42) in\n\nFinished bust: 37 (41: 45) in", "34 38 42"),
    ('Waist: 24 (28, 32)" – pick the size nearest your waist measurement.', "24 28 32"),
    ("Finished chest: 88 (94, 101) cm", ""),
)


@pytest.mark.parametrize(("words", "names"), FOUND)
def test_sizes_are_found(words: str, names: str) -> None:
    manuscript, _ = read_manuscript(f"# Hat\n\n{words}{ROWS}", "hat.md")
    assert manuscript.sizes_line == tuple(names.split())


def test_lines_for_other_sizes_are_left_out_where_one_size_is_worked() -> None:
    text = (
        "Sizes: S (M, L). US terms.\n\nRnd 1: 8 sc in magic ring. (8)\n\nSizes M and L only:\n\n"
        "Rnd 2: 2 sc in each st around. (16)\n\nAll sizes:\n\nNext rnd: Sc in each st around.\n"
    )
    pressed = press(OneFile(text), "cap.md", ("S",))
    assert [course.worked for course in pressed.proof.courses] == [(8,), (None,), (8,)]
