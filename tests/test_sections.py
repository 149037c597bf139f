"""Lines about sizes: which there are, whom a line is for, and who goes on."""

import pytest

from stitchproof.language.read.for_sizes import ALL_SIZES, read_ends_here, read_only
from stitchproof.language.read.sections import read_sizes_line, stands_alone

SIZES_LINES = (
    ("Sizes: S (M, L)", "S M L"),
    ("Sizes: XS (S, M) (L, XL)", "XS S M L XL"),
    ("Sizes: XS/S (M/L, XL)", "XS/S M/L XL"),
    ("SIZE: Small, Medium, Large", "Small Medium Large"),
    ("To fit: XS (S, M, L)", "XS S M L"),
    ("Written for size XS with changes for S, M and L in parentheses.", "XS S M L"),
    (
        "Instructions are written for size Small. Changes for Medium and Large are in parentheses.",
        "Small Medium Large",
    ),
    ("Given for size 8-10 followed by 12-14 and 16-18 in brackets.", "8-10 12-14 16-18"),
    ("Directions are given for size S; sizes M and L are in parentheses.", "S M L"),
    ("Directions are for the smallest size, with larger sizes in parentheses.", ""),
    ("Sizes: S (M, L, XL) – foot 8½ (9, 9½, 10) in. around", "S M L XL"),
    ("Size: Newborn (0-3, 3-6, 6-12 months)", "Newborn 0-3 3-6 6-12"),
    ("Women's sizes XS (S-M-L) for shoe 5 (6-7.5-9)", "XS S M L"),
    ("Ages 0-3 (3-6, 6-12) months", "0-3 3-6 6-12"),
    ("Ages 1-2 (3-4: 5-6) years", "1-2 3-4 5-6"),
    ("To fit age 2y (4y, 6y)", "2y 4y 6y"),
    ("To fit UK sizes 8-10 (12-14: 16-18)", "8-10 12-14 16-18"),
    ("UK sizes 8 (10, 12)", "8 10 12"),
    ("To fit bust: 32 (34, 36) in", ""),
    ("Size 10 (12, 14) in", ""),
    ("Finished size 40 (44) cm, after blocking", ""),
    ("Size 5 mm (H) hook", ""),
    ("Finished size: 10 in wide, 12 in long", ""),
    ("Size of each square: 10, 12", ""),
)


@pytest.mark.parametrize(("line", "names"), SIZES_LINES)
def test_a_line_names_the_sizes(line: str, names: str) -> None:
    assert read_sizes_line(line) == tuple(names.split())


def test_a_title_that_the_sizes_stand_below() -> None:
    assert [stands_alone(line) for line in ("SIZES", "Sizes:", "**Size**")] == [True] * 3
    assert not stands_alone("Sizes: S (M, L)")


SIZES = ("S", "M", "L", "XL")
ONLY = (
    ("Sizes L and XL only: Row 3", "L XL", "Row 3"),
    ("For sizes L and XL only, work", "L XL", "work"),
    ("L only:", "L", ""),
    ("Large only:", "L", ""),
    ("Size L: Rep Row 4", "L", "Rep Row 4"),
    ("L and XL: Rep Row 4", "L XL", "Rep Row 4"),
    ("2nd and 3rd sizes only", "M L", ""),
    ("Fourth size only: Row 3", "XL", "Row 3"),
    ("3rd and 4th sizes: Fasten off.", "L XL", "Fasten off."),
    ("For the two largest sizes only: Row 3", "L XL", "Row 3"),
    ("First 2 sizes only:", "S M", ""),
    ("Sizes M to XL only: Row 3", "M L XL", "Row 3"),
    ("Sizes L and up only: Row 3", "L XL", "Row 3"),
    ("Sizes 2 and 3 only: Row 3", "M L", "Row 3"),
    ("1st row: Ch 1", None, ""),
    ("1: 6 sc in magic ring", None, ""),
    ("2nd (3rd) sizes: Row 3", "M L", "Row 3"),
    ("SECOND AND THIRD SIZES ONLY", "M L", ""),
    ("Continue for sizes L and XL only: Row 3", "L XL", "Row 3"),
    ("All sizes except the first: Row 3", "M L XL", "Row 3"),
    ("For all sizes but S and M: Row 3", "L XL", "Row 3"),
    ("All other sizes: Fasten off.", "S M L", "Fasten off."),
    ("Notes: S is small", None, ""),
    ("Row 5: Rep", None, ""),
)


@pytest.mark.parametrize(("line", "names", "rest"), ONLY)
def test_a_line_is_for_some_sizes(line: str, names: str | None, rest: str) -> None:
    found = read_only(line, 0, len(line), SIZES, ("XL",))
    if names is None:
        assert found is None
    else:
        assert found is not None
        assert (found[0], line[found[1] :]) == (tuple(names.split()), rest)


def test_numbers_are_sizes_only_where_a_word_says_so() -> None:
    assert read_only("2: Ch 1, turn", 0, 13, ("2", "4")) is None
    assert read_only("Size 2: Ch 1", 0, 12, ("2", "4")) == (("2",), 8)


@pytest.mark.parametrize(
    "line",
    [
        "Size S ends here; all other sizes continue with Row 3.",
        "End here for S; other sizes continue.",
        "S ends here.",
        "Size Small: end here.",
    ],
)
def test_some_sizes_end(line: str) -> None:
    assert read_ends_here(line, SIZES) == ("M", "L", "XL")


def test_a_line_ends_nothing() -> None:
    assert read_ends_here("The chart ends here.", SIZES) == ()


@pytest.mark.parametrize("line", ["All sizes:", "Both sizes: Row 3", "For all sizes, turn"])
def test_every_size(line: str) -> None:
    assert ALL_SIZES.match(line)
