"""A row explained: what it does, why its count is what it is, where its numbers come from.

The numbers of the tee are those of the garment worked out by hand beside the examples.
"""

import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

from stitchproof.pipeline.desk import Unusable
from stitchproof.pipeline.explain import explain
from stitchproof.pipeline.press import Pressed, press
from tests.conftest import Golden
from tests.mini_patterns import OneFile, patterns

EXAMPLES = Path(__file__).parents[1] / "examples"


@cache
def pressed(text: str) -> tuple[Pressed, OneFile]:
    desk = OneFile(text)
    return press(desk, "pattern.md"), desk


def explained(text: str, at: str, size: str | None = None) -> str:
    found, desk = pressed(text)
    return explain(found, desk.memory, at, size)


def tee(at: str, size: str | None = None) -> str:
    return explained((EXAMPLES / "marram-tee.md").read_text("utf-8"), at, size)


SHORT = """US terms.

Ch 9.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. (8 sc)

Row 2: Ch 3 (counts as dc), dc in same st, dc2tog over next 2 sts, ch 2, sk next 2 sts, 3 dc in
next st, dc in each st across, turn. (8 dc)

Row 3: Ch 1, sc in each dc to next ch-2 sp, 3 sc in next ch-2 sp, sc in each dc across, turn.
"""

PAGES = (
    ("tee-row-3", "Panel, Row 3", None),
    ("tee-row-12-3X", "Panel (make 2), row 12", "3X"),
    ("tee-rnd-1", "Armhole edging, Rnd 1", None),
    ("tee-shoulders", "Finishing, Shoulders", "m"),
)


@pytest.mark.parametrize(("name", "at", "size"), PAGES)
def test_pages_of_the_tee(name: str, at: str, size: str | None, golden: Golden) -> None:
    golden(f"explain/{name}.txt", tee(at, size))


@pytest.mark.parametrize("row", [1, 2, 3])
def test_pages_of_short_rows(row: int, golden: Golden) -> None:
    golden(f"explain/short-row-{row}.txt", explained(SHORT, f"Row {row}"))


def test_numbers_are_those_of_the_size() -> None:
    medium, large = tee("Panel, Row 1", "M"), tee("Panel, Row 1", "3X")
    assert "There are 97 chains to work into." in medium
    assert "There are 129 chains to work into." in large
    assert "panel_sts = 95" in medium
    assert "would be 94.5;" in medium
    assert "panel_sts = 127" in large


def test_a_row_of_a_range_is_told_with_its_own_steps() -> None:
    assert "This row is: Chain 1, single crochet in each stitch" in tee("Panel, Row 12")
    assert "front post treble crochet" in " ".join(tee("Panel, Row 13").split())
    assert tee("Row 13") == tee("Panel, Row 13")


def test_a_reading_is_told_with_what_decided() -> None:
    text = """Ch 16.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. (15 sc)

Row 2: Ch 1, *sc in next 2 sts, 2 sc in next st; rep from * 5 times, turn. (20 sc)
"""
    told = explained(text, "Row 2")
    assert "taken as 5 in all: that is what comes out even" in " ".join(told.split())
    assert "+5: 5 places take more than one stitch" in told


def test_a_line_for_other_sizes_is_not_explained_as_wrong() -> None:
    text = """Sizes: S (M, L)

Ch 11 (13, 15).

Row 1: Sc in 2nd ch from hook and in each ch across, turn. 10 (12, 14) sc

Sizes M and L only:

Row 2: Ch 1, sc in each st across, turn. - (12, 14) sc
"""
    found, desk = pressed(text)
    told = explain(found, desk.memory, "Row 2", "S")
    assert "It is not worked in size S: it is for sizes M and L only." in told
    assert "wrong" not in told


def test_two_schedules_of_a_line_are_told_apart() -> None:
    text = """Ch 41.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. (40 sc)

Raglan: Dec 1 st at each end of every 4th row 3 times, AT THE SAME TIME dec 1 st at neck edge
every row 6 times. (28 sts)
"""
    told = " ".join(explained(text, "Raglan").split())
    assert "the shaping rows are: 4, 8 and 12." in told
    assert "the shaping rows are: 1, 2, 3, 4, 5 and 6." in told
    assert "40 − 6 − 6 = 28." in told
    assert "The line is 12 rows in all." in told


def test_a_chain_that_counts_is_called_a_chain() -> None:
    text = """Ch 8.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. (7 sc)

Row 2: Ch 3 (counts as dc), dc in next 6 sts, turn. (7 dc)

Row 3: Ch 1, sc in next 6 sts, 2 sc in last st. (8 sc)
"""
    assert "2 sc in the next ch that counts as dc" in explained(text, "Row 3")


def test_loops_rings_and_chains_at_the_hook_are_told() -> None:
    text = """Ch 8.

Row 1: Dc in 4th ch from hook and in each ch across, turn. (6 dc)

Row 2: Ch 1, sc BLO in first 2 sts, sc FLO in next 2 sts, sc in last 2 sts, turn.

Row 3: Ch 1, hdc in back loop of each st across, turn.
"""
    assert "The chains left at the hook count as a stitch" in explained(text, "Row 1")
    row = explained(text, "Row 2")
    assert "sc: this goes into the back loop only." in row
    assert "sc: this goes into the front loop only." in row
    assert "All stitches go into the back loop only." in explained(text, "Row 3")


def test_rows_worked_again_are_named_as_a_range() -> None:
    text = """Ch 8.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. (7 sc)

Row 2: Ch 1, sc in each sc across, turn.

Rows 3-12: Rep Row 2. (7 sc)
"""
    told = explained(text, "rows 3-12")
    assert "Worked just so again: Rows 4 to 12." in told
    assert "At the end you have 7 single crochet." in " ".join(told.split())


def test_what_follows_the_pattern_is_said_to() -> None:
    text = """Ch 8.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. (7 sc)

Row 2: Ch 1, sc2tog, work in patt to end, turn. (6 sts)
"""
    assert "Each stitch goes on as the pattern stands below it" in explained(text, "Row 2")


@pytest.mark.parametrize(
    ("at", "message"),
    [
        ("Panel, Row 99", "no row is called `Panel, Row 99`; nearest are `Panel (make 2), Row"),
        ("Sleeve, Row 3", "no row is called `Sleeve, Row 3`"),
        ("Rnd 1", "`Rnd 1` may be `Neck edging, Rnd 1` or `Armhole edging (make 2), Rnd 1`"),
        ("Rnd 2", "`Rnd 2` may be `Neck edging, Rnd 2` or `Armhole edging (make 2), Rnd 2`"),
        ("", "no row is named; name one, as in `Panel (make 2), Row 1`"),
        ("Panel", "`Panel` is a part with"),
    ],
)
def test_an_address_that_names_nothing_or_several(at: str, message: str) -> None:
    with pytest.raises(Unusable) as told:
        tee(at)
    assert str(told.value).startswith(message)
    assert "\n" not in str(told.value)


def test_a_size_that_is_not_there_is_told() -> None:
    with pytest.raises(Unusable, match=r"no size `XXL`; the sizes are XS, S"):
        tee("Panel, Row 1", "XXL")


def test_every_row_of_many_small_patterns_is_explained() -> None:
    told = 0
    for pattern in patterns()[::4]:
        found, desk = pressed(pattern.text)
        for line in dict.fromkeys(one.place.start for one in found.proof.courses):
            number = pattern.text[:line].replace("\r\n", "\n").replace("\r", "\n").count("\n") + 1
            words = explain(found, desk.memory, f"line {number}")
            assert "As written" in words
            told += 1
    assert told >= 250


def test_at_the_command_line(tmp_path: Path) -> None:
    (tmp_path / "short.md").write_text(SHORT, "utf-8")
    code = "import sys; from stitchproof.cli import main; sys.exit(main())"
    made = subprocess.run(
        [sys.executable, "-c", code, "explain", "short.md", "--at", "Row 2"],
        capture_output=True,
        text=True,
        cwd=tmp_path,
        check=False,
    )
    assert made.returncode == 0
    assert made.stdout == explained(SHORT, "Row 2")
