"""What is kept from one version of a manuscript to the next changes nothing that is found."""

import re
from pathlib import Path

import pytest

from stitchproof.pipeline.press import press
from stitchproof.pipeline.report import proof_object
from tests.desks import Paper

EXAMPLES = sorted((Path(__file__).parents[1] / "examples").glob("*.md"))
SISTERS = """## Back

Ch 21.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. 20 sc

Rows 2-9: Ch 1, sc in each sc across, turn. 20 sc

Row 10: Ch 1, sc in first 3 sts, sc2tog, sc in each st across, turn. 19 sts

## Front

Ch 21.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. 20 sc

Rows 2-9: Ch 1, sc in each sc across, turn. 20 sc

Row 10: Ch 1, sc in first 3 sts, sc2tog, sc in each st across, turn. 19 sts

## Side

Ch 16.

Rows 1-10: Same as Back.

Row 11: Ch 1, sc in each of next 99 sts, turn.
"""


def versions(text: str) -> list[str]:
    """Give versions of a text in which one thing has changed, at its beginning or further down."""
    headings = [m.start() for m in re.finditer(r"^## ", text, re.MULTILINE)]
    rows = [m.end() for m in re.finditer(r"^(?:Row|Rnd)s? \d+[^:\n]*: ", text, re.MULTILINE)]
    made = [f"{text[:at]}A word about this piece.\n\n{text[at:]}" for at in headings[:3]]
    made += [f"{text[:at]}Ch 1, {text[at:]}" for at in rows[:2] + rows[-2:]]
    made += [text.replace("sc2tog", "sc", 1), text.replace("20 sc", "20 hdc"), text]
    return made


@pytest.mark.parametrize("text", [SISTERS, *(p.read_text("utf-8") for p in EXAMPLES)])
def test_a_desk_that_remembers_finds_what_a_clean_one_finds(text: str) -> None:
    desk = Paper(text)
    press(desk, "x.md")
    for version in versions(text):
        warm = press(Paper(version, memory=desk.memory, lines=desk.lines), "x.md")
        assert proof_object(warm) == proof_object(press(Paper(version), "x.md"))


def test_a_piece_that_has_not_changed_is_not_worked_again() -> None:
    desk = Paper(SISTERS)
    press(desk, "x.md")
    kept = dict(desk.memory.kept)
    assert len(kept) == 2
    changed = SISTERS.replace("## Front", "A word between.\n\n## Front").replace("Ch 16", "Ch 17")
    press(Paper(changed, memory=desk.memory, lines=desk.lines), "x.md")
    assert desk.memory.kept.keys() == kept.keys()
    made = len(desk.memory.made)
    press(Paper(changed, memory=desk.memory, lines=desk.lines), "x.md")
    assert len(desk.memory.made) == made
