"""Where the two workers once disagreed: the smallest example of each, worked by hand.

How a joined round is turned, and that a repeat has to come out even, is common practice, no
source.
"""

from stitchproof.fabric.laid import LaidPiece, LaidRow, lay_down
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.sizing.size import size_manuscript
from tests.second_opinion.plain_worker import PieceMaker
from tests.second_opinion.test_second_opinion import agree, wrong_line


def laid(text: str) -> LaidPiece:
    """Work a pattern of one piece and one size; both workers have to agree on it."""
    manuscript, _ = read_manuscript(text, "small.md")
    sizing, _ = size_manuscript(manuscript, str, None)
    (piece,) = lay_down(manuscript, sizing.resolved)
    maker = PieceMaker(sizing.resolved, 0, manuscript.rules)
    for section in manuscript.sections:
        maker.work(section)
    assert wrong_line(maker) == piece.wrong[0]
    agree(piece, 0, maker)
    return piece


def last(piece: LaidPiece) -> LaidRow:
    """The row worked last."""
    return piece.rows[0][-1]


def test_a_turned_round_begins_in_the_stitch_it_was_joined_to() -> None:
    piece = laid(
        "Ch 4, join with sl st in first ch to form a ring.\n\n"
        "Rnd 1: Ch 1, 4 sc in ring; join with sl st in first sc.\n\n"
        "Rnd 2: Ch 1, sc in next st, hdc in next st, dc in next 2 sts; join, turn.\n\n"
        "Rnd 3: Ch 1, sc in each st around; join.\n"
    )
    # joined to the sc, then back over the last dc, the dc before it and the hdc
    assert last(piece).into == ("sc", "dc", "dc", "hdc")
    assert last(piece).places == (0, 1, 2, 3)


def test_the_chain_after_stitches_left_unworked_turns_the_row() -> None:
    piece = laid(
        "Ch 6.\n\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, ch 1, turn. (5 sc)\n\n"
        "Row 2: Sc in next 3 sts, leave last 2 sts unworked, ch 1, turn. (3 sc)\n\n"
        "Row 3: Sc in each st across. (3 sc)\n"
    )
    assert piece.wrong == (None,)
    assert [row.kinds for row in piece.rows[0][-2:]] == [("sc",) * 3] * 2


def test_stitches_drawn_together_need_all_of_theirs() -> None:
    piece = laid(
        "Ch 6.\n\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn.\n\n"
        "Row 2: Ch 1, sc2tog across.\n"
    )
    assert piece.wrong == (2,)


def test_a_repeat_that_names_stitches_passes_over_none() -> None:
    piece = laid(
        "Ch 9.\n\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (8 sc)\n\n"
        "Row 2: Ch 1, sc in next 2 sts, ch 2, sk next 2 sts, sc in next 4 sts, turn.\n\n"
        "Row 3: Ch 1, sc in next st, *sk next 3 sts, 2 sc in next ch-2 sp; rep from * to last st, "
        "sc in last st.\n"
    )
    # after the space one sc is left before the last st
    assert piece.wrong == (3,)


def test_a_post_reaches_three_rows_down_through_rows_worked_alike() -> None:
    piece = laid(
        "Ch 8.\n\n"
        "Row 1: Hdc in 3rd ch from hook (skipped chs do not count) and in each ch across, turn. "
        "(6 hdc)\n\n"
        "Rows 2-4: Ch 1, sc in each st across, turn. (6 sc)\n\n"
        "Row 5: Ch 1, sc in next 2 sts, FPtr around sc 3 rows below next st, sk st behind FPtr, "
        "sc in next 3 sts. (6 sts)\n"
    )
    assert piece.wrong == (None,)
    assert last(piece).kinds[2] == "fptr"
