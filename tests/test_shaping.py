"""Lines that shape over several rows."""

import pytest

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.place import Span
from stitchproof.language.number import Number
from stitchproof.language.read.lex import Token, lex
from stitchproof.language.read.shaping import read_shaping
from stitchproof.language.tree import Either, FastenOff, Remark, Shape, Step, Steps, Unread


def steps(tokens: tuple[Token, ...]) -> tuple[Steps, list[Diagnostic]]:
    return (FastenOff() if tokens[0].text == "fasten" else Unread(tokens[0].text),), []


def read(text: str, *, several: bool = False) -> list[object] | None:
    tokens, _ = lex(text, Span("x", 0, len(text)), frozenset(), 3)
    found = read_shaping(tokens, steps, several=several)
    return None if found is None else [shown(step) for step in found[0]]


def values(number: Number | None) -> object:
    if number is None:
        return None
    assert isinstance(number.value, tuple)
    return number.value[0] if len(number.value) == 1 else number.value


def shown(step: Step) -> object:
    match step:
        case Shape():
            phases = [(values(a), values(b)) for a, b in step.phases]
            each = values(step.stitches)
            many = each if isinstance(each, tuple) else (each,)
            in_a_row = tuple(v * step.ends for v in many)
            per_row = in_a_row if len(in_a_row) > 1 else in_a_row[0]
            shape = (step.change, per_row, phases, values(step.until))
            return ("beside", *shape) if step.beside else shape
        case Either():
            return [[shown(one) for one in reading] for reading in step.readings]
        case Remark() | Unread():
            return f"{type(step).__name__}: {step.words}"
        case _:
            return type(step).__name__


DEC, INC = "decreased", "increased"
ONE_SHAPE: tuple[tuple[str, tuple[object, ...]], ...] = (
    (
        "Dec 1 st at each end of every 4th row 3 (3, 4) times, then every 2nd row twice.",
        (DEC, 2, [(4, (3, 3, 4)), (2, 2)], None),
    ),
    ("Dec 1 st at neck edge on next 4 rows", (DEC, 1, [(1, 4)], None)),
    ("Dec 1 st at neck edge 4 times.", (DEC, 1, [(1, 4)], None)),
    ("Inc 1 st each side every 6th row 5 times.", (INC, 2, [(6, 5)], None)),
    ("Inc 1 st at each side every 8 rows 3 times.", (INC, 2, [(8, 3)], None)),
    (
        "Dec 1 st each end of next and every foll 4th row until 40 (42, 46) sts rem.",
        (DEC, 2, [(1, 1), (4, None)], (40, 42, 46)),
    ),
    (
        "Dec 1 st at each end of next and every foll 4th row 3 (3, 4) times in all.",
        (DEC, 2, [(1, 1), (4, (2, 2, 3))], None),
    ),
    (
        "Dec 1 st at both ends of 5th and every foll 6th row 4 times altogether.",
        (DEC, 2, [(5, 1), (6, 3)], None),
    ),
    (
        "Inc 1 st at each end of next row and then every foll 6th row 4 times more.",
        (INC, 2, [(1, 1), (6, 4)], None),
    ),
    ("Dec 5 x 1 st at each side in every 8th row.", (DEC, 2, [(8, 5)], None)),
    ("Decrease 1 stitch at each end of every other row 6 times.", (DEC, 2, [(2, 6)], None)),
    ("Dec 1 st at beg of next 4 rows.", (DEC, 1, [(1, 4)], None)),
    ("Dec 1 st at beg and end of every RS row 5 times.", (DEC, 2, [(2, 5)], None)),
    ("Inc 1 st in first and last st of every 4th row 5 times.", (INC, 2, [(4, 5)], None)),
    ("Dec 1 st each side of center st every row 3 times.", (DEC, 2, [(1, 3)], None)),
    (
        "dec 1 sc at each end of every 4th (4th, 6th) row 3 times",
        (DEC, 2, [((4, 4, 6), 3)], None),
    ),
    (
        "Dec 1 st at each end of every row 4 times until 20 sts remain.",
        (DEC, 2, [(1, 4)], 20),
    ),
    ("Dec 2 sts at each armhole edge once.", (DEC, 4, [(1, 1)], None)),
    (
        "Dec 1 st at neck edge (beg of RS rows) on next row, then every row 4 times.",
        (DEC, 1, [(1, 1), (1, 4)], None),
    ),
    ("Inc 1 (2, 2) sts at each end of every row twice.", (INC, (2, 4, 4), [(1, 2)], None)),
)


@pytest.mark.parametrize(("text", "shape"), ONE_SHAPE)
def test_one_schedule(text: str, shape: object) -> None:
    assert read(text) == [shape]


def test_several_schedules_and_what_stands_around_them() -> None:
    assert read(
        "Keeping patt correct, dec 1 st at neck edge every row 4 times, and 1 st at armhole edge"
        " every other row 3 times. Fasten off."
    ) == [
        "Remark: Keeping patt correct",
        (DEC, 1, [(1, 4)], None),
        ("beside", DEC, 1, [(2, 3)], None),
        "FastenOff",
    ]
    assert read("Work in patt, AT THE SAME TIME, inc 1 st at side edge every 6th row 4 times.") == [
        "Remark: Work in patt, AT THE SAME TIME",
        (INC, 1, [(6, 4)], None),
    ]
    assert read(
        "Dec 1 st at neck edge on next 4 rows, then work even until piece measures same as Back."
    ) == [(DEC, 1, [(1, 4)], None), "Remark: work even until piece measures same as Back"]


TWICE_THEN = """Dec 2 sts at each armhole edge once, then 1 st at each armhole edge every other
row twice."""
SAME_TIME = """Dec 1 st at each end of every 4th row 3 times, then every 2nd row 2 times,
AT THE SAME TIME dec 1 st at neck edge every row 6 times."""
SENTENCES_APART = """Dec 1 st at armhole edge every row 3 times. At the same time, inc 1 st at neck
edge every 4th row twice."""
WHILE = """Dec 1 st at armhole edge every row 3 times while decreasing 1 st at neck edge every other
row 5 times."""
SAME_ENDS = "Inc 1 st at each end of next 3 rows and 2 sts at each end of every 2nd row 4 times."
UNSAID = """Dec 1 st at neck edge every row 4 times, dec 1 st at armhole edge every 2nd row
3 times."""


@pytest.mark.parametrize(
    ("text", "shapes"),
    [
        (TWICE_THEN, [(DEC, 4, [(1, 1)], None), (DEC, 2, [(2, 2)], None)]),
        (SAME_TIME, [(DEC, 2, [(4, 3), (2, 2)], None), ("beside", DEC, 1, [(1, 6)], None)]),
        (SENTENCES_APART, [(DEC, 1, [(1, 3)], None), ("beside", INC, 1, [(4, 2)], None)]),
        (WHILE, [(DEC, 1, [(1, 3)], None), ("beside", DEC, 1, [(2, 5)], None)]),
        (SAME_ENDS, [(INC, 2, [(1, 3)], None), (INC, 4, [(2, 4)], None)]),
        (
            UNSAID,
            [
                (DEC, 1, [(1, 4)], None),
                [[("beside", DEC, 1, [(2, 3)], None)], [(DEC, 1, [(2, 3)], None)]],
            ],
        ),
    ],
)
def test_schedules_run_side_by_side_or_one_after_the_other(text: str, shapes: object) -> None:
    assert read(text) == shapes


@pytest.mark.parametrize(
    ("text", "at", "ends"),
    [
        ("Dec 1 st at each armhole edge every 2nd row 3 times.", "armhole edge", 2),
        ("Dec 1 st each side of centre stitch every row 3 times.", "side of center st", 2),
        ("Dec 1 st at both ends of the row 3 times.", "", 2),
        ("Dec 1 st at beg of next 4 rows.", "beg", 1),
        ("Dec 1 st at neck edge on next 4 rows.", "neck edge", 1),
        ("Dec 1 st at one end of every row 3 times.", "", 1),
    ],
)
def test_the_ends_that_are_shaped(text: str, at: str, ends: int) -> None:
    tokens, _ = lex(text, Span("x", 0, len(text)), frozenset(), 3)
    found = read_shaping(tokens, steps)
    assert found is not None
    (shape,) = found[0]
    assert isinstance(shape, Shape)
    assert (shape.at, shape.ends) == (at, ends)


def test_whether_the_first_time_is_one_of_them_stays_open() -> None:
    assert read("Dec 1 st at each end of next and every 4th row 3 times.") == [
        [[(DEC, 2, [(1, 1), (4, 3)], None)], [(DEC, 2, [(1, 1), (4, 2)], None)]]
    ]


def test_a_schedule_without_an_end_is_understood_and_not_counted() -> None:
    found = read("Inc 1 st at each end of every 6th row until piece measures 40 cm.")
    assert found == [
        "Unread: Inc 1 st at each end of every 6th row",
        "Remark: until piece measures 40 cm",
    ]


def test_a_schedule_goes_over_a_range_of_rows_and_one_change_is_in_each() -> None:
    often = read("Dec 1 st at each end of every 4th row 3 times.", several=True)
    assert often == [(DEC, 2, [(4, 3)], None)]
    as_long_as_it_lasts = read("Dec 1 st at each end of every 4th row.", several=True)
    assert as_long_as_it_lasts == [(DEC, 2, [(4, None)], None)]
    assert read("Dec 1 st at each end.", several=True) == [(DEC, 2, [(1, 1)], None)]


@pytest.mark.parametrize(
    "text",
    [
        "Dec 1 st over next 2 sts, sc in each st.",
        "Dec 6 sts evenly across.",
        "Inc in next st, sc in next 3 sts.",
        "Sc in next 3 sts, inc 1 st, sc to end.",
        "Inc 1 st each side of each marker every row twice.",
        "Dec 1 st at each end of the sleeve seam somewhere.",
        "",
    ],
)
def test_what_is_no_schedule(text: str) -> None:
    assert read(text) is None
