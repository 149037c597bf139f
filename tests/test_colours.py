"""The colour of every stitch is known: stripes, and changes within a row."""

from stitchproof.fabric.laid import LaidRow, lay_down
from stitchproof.language.number import Resolved
from stitchproof.language.read.manuscript import read_manuscript


def rows(text: str) -> tuple[LaidRow, ...]:
    manuscript, found = read_manuscript(text, "colours.md")
    assert [one.message() for one in found] == []
    (piece,) = lay_down(manuscript, Resolved(("one",), (0,)))
    return piece.rows[0]


def test_stripes_keep_their_colour_until_it_changes() -> None:
    made = rows(
        "With A, ch 7.\n\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (6 sc)\n\n"
        "Row 2: Ch 1, sc in each st across, turn. (6 sc)\n\n"
        "Row 3: With B, ch 1, sc in each st across, turn. (6 sc)\n\n"
        "Row 4: Ch 1, sc in each st across. (6 sc)\n"
    )
    assert [set(row.colours) for row in made[-4:]] == [{"A"}, {"A"}, {"B"}, {"B"}]


def test_a_change_within_a_row_holds_from_the_next_stitch() -> None:
    made = rows(
        "With MC, ch 9.\n\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (8 sc)\n\n"
        "Row 2: Ch 1, sc in next 3 sts, change to CC, sc in next 2 sts, change to MC, sc in next 3"
        " sts. (8 sc)\n"
    )
    colours = list(made[-1].colours)
    assert colours == ["MC"] * 3 + ["CC"] * 2 + ["MC"] * 3
