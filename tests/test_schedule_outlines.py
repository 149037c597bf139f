"""Outlines of pieces that are shaped by a schedule; the rows were counted by hand."""

import pytest

from stitchproof.fabric.proof import Shape
from stitchproof.pipeline.press import press
from tests.mini_patterns import OneFile

PIECE = """## {title}

Ch {chains}.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn.

{lines}
"""


def shape_of(lines: str, title: str = "Sleeve", chains: int = 11) -> Shape | None:
    text = PIECE.replace("{lines}", lines).replace("{title}", title)
    pressed = press(OneFile(text.replace("{chains}", str(chains))), "piece.md", shapes=True)
    (piece,) = pressed.proof.pieces
    return piece.shapes[0]


def rows_of(lines: str, title: str = "Sleeve", chains: int = 11) -> list[tuple[float, float]]:
    shape = shape_of(lines, title, chains)
    assert shape is not None
    return list(zip(shape.left, shape.right, strict=True))


def test_both_ends_move_on_every_so_many_rows() -> None:
    assert rows_of("Inc 1 st at each end of every 2nd row twice. (14)") == [
        *[(0, 10)] * 2,
        *[(-1, 11)] * 2,
        (-2, 12),
    ]


def test_rows_go_on_above_a_schedule() -> None:
    lines = (
        "Dec 2 sts at each end of next row. (6)\n\nNext 2 rows: Ch 1, sc in each st across, turn."
    )
    assert rows_of(f"{lines}\n\nFasten off.") == [(0, 10), *[(2, 8)] * 3]


def test_the_beginning_of_a_row_lies_left_and_right_in_turn() -> None:
    # row 1 runs from right to left, so row 2 begins at the left
    assert rows_of("Dec 1 st at beg of next 3 rows. (7)") == [(0, 10), (1, 10), (1, 9), (2, 9)]


@pytest.mark.parametrize(
    ("title", "edge", "row"),
    [
        ("Left Front", "neck edge", (1, 10)),
        ("Left Front", "armhole edge", (0, 9)),
        ("Right Front", "neck edge", (0, 9)),
        ("Right Front", "front edge", (0, 9)),
        ("Left Back", "neck edge", (0, 9)),
        ("Right Back", "armhole edge", (0, 9)),
    ],
)
def test_which_end_an_edge_is_tells_the_name_of_the_piece(
    title: str, edge: str, row: tuple[float, float]
) -> None:
    assert rows_of(f"Dec 1 st at {edge} on next row. (9)", title)[1:] == [row]


def test_a_piece_whose_edge_may_be_either_is_not_drawn() -> None:
    assert shape_of("Dec 1 st at neck edge on next row. (9)", "Front") is None


def test_schedules_side_by_side_move_an_end_each() -> None:
    neck = "Dec 1 st at neck edge every row 3 times"
    both = f"{neck} AT THE SAME TIME dec 1 st at armhole edge every 2nd row once. (6)"
    assert rows_of(both, "Left Front")[1:] == [(1, 10), (2, 9), (3, 9)]


def test_a_schedule_up_to_a_count_is_drawn() -> None:
    assert rows_of("Dec 1 st at each end of every row until 4 sts remain. (4)")[-1] == (3, 7)
