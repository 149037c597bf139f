"""What is kept from one version of a manuscript to the next changes nothing that is found."""

import re
from dataclasses import fields, is_dataclass
from enum import Enum
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.fabric.known_lines import KnownLine
from stitchproof.language.tree import RepeatRows
from stitchproof.pipeline.press import Pressed, press
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


# --------------------------------------------------------------------------- one row after another

VEST = """# Vest

Sizes: S (M, L)

Special stitches

V-st: (dc, ch 1, dc) in st or sp indicated.

## Back

Ch 22 (26, 30).

Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. 21 (25, 29) sts

Row 2: Ch 1, sc in first st, *dc in next st, sc in next st; rep from * across, turn. 21 (25, 29) sts

Row 3: Ch 3, dc in each st across, turn. 21 (25, 29) sts

Row 4: Ch 1, sc in each st across, turn.

Row 5: Ch 1, sc in first st, sc2tog, sc in each st to last 3 sts, sc2tog, sc in last st, turn.
19 (23, 27) sts

Row 6: Ch 1, sc in each st across, turn. 19 (23, 28) sts

Row 7: Ch 1, hdc in each of next 2 sts, fpdc around each of next 3 (4, 5) sts, sc in each st to end.

Sizes M and L only:

Row 8: Ch 1, sc in each st across, turn. (23, 27) sts

All sizes:

Next row: Ch 1, sc blo in each st across, turn.

Rep last 2 rows 3 (4, 5) more times.

Fasten off.

## Front

Ch 22 (26, 30).

Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. 21 (25, 29) sts

Row 2: Ch 1, sc in first st, *dc in next st, sc in next st; rep from * across, turn. 21 (25, 29) sts

Row 3: Ch 3, dc in each st across, turn. 21 (25, 29) sts

Row 4: Ch 1, sc in each st across, turn.

Row 5: Ch 4, sk first 2 sts, *V-st in next st, sk next st; rep from *,
dc in last st, turn.

Rows 6 and 8: Ch 1, sc in each st across, turn.

Row 7: Ch 3, dc in each st across, turn.

Row 9: Sl st in first 3 sts, ch 1, sc in each st to last 3 sts, leave rest unworked, turn.

Row 10: Ch 1, sc in each st two rows below, turn.

Fasten off.

## Edging

With RS facing, join yarn in first row-end of Front.

Rnd 1: Ch 1, sc evenly along row ends, join.

Rnd 2: Ch 1, sc in each st around, join.
"""
BEGUN = {
    "vest": VEST,
    "sisters": SISTERS,
    **{path.stem: path.read_text("utf-8") for path in EXAMPLES},
}
LONGEST = 20_000  # characters: larger ones take long, and have nothing that smaller ones have not
WORDS = (
    ("sc in", "hdc in"),
    ("dc in", "sc in"),
    ("each st", "next st"),
    ("turn.", "do not turn."),
    ("turn", "join"),
    ("Row", "Rnd"),
    ("Ch 1", "Ch 2"),
    ("Ch 3", "Ch 3 (counts as dc)"),
    (" in first st", " in first 2 sts"),
    ("2", "3"),
    ("4", "5"),
    (", sc", ", fpdc around next st, sc"),
    (" across", " across row 2 rows below"),
    ("(RS)", "(WS)"),
    (":", ": Qwx in next st,"),
)


def spelled_out(tree: object) -> object:
    """Give all that a tree holds, places too."""
    if isinstance(tree, Enum):
        return tree.name
    if is_dataclass(tree):
        return type(tree).__name__, [spelled_out(getattr(tree, f.name)) for f in fields(tree)]
    if isinstance(tree, list | tuple):
        return [spelled_out(one) for one in tree]
    if isinstance(tree, dict):
        return [(spelled_out(key), spelled_out(value)) for key, value in tree.items()]
    return tree


def all_of(pressed: Pressed) -> object:
    """Give all that is known of a manuscript, but for the front matter."""
    read = pressed.manuscript
    return [
        spelled_out(part)
        for part in (
            read.terms,
            read.blocks,
            read.sections,
            read.rules,
            read.specials,
            read.numbers,
            read.words,
            pressed.proof,
            pressed.found,
        )
    ]


def edited(text: str, data: st.DataObject) -> str:
    """Change one line of a text: its words, or that it is there, or how often."""
    lines = text.split("\n")
    at = data.draw(st.sampled_from([i for i, line in enumerate(lines) if line.strip()]))
    old = [(a, b) for a, b in WORDS if a in lines[at]]
    way = data.draw(st.sampled_from(("drop", "again", "shift", "above", *old)))
    match way:
        case (before, after):
            lines[at] = lines[at].replace(before, after, 1)
        case "drop":
            del lines[at]
        case "again":
            lines[at:at] = [lines[at], ""]
        case "above":
            lines[at:at] = ["Next row: Ch 1, sc in each st across, turn.", ""]
        case _:
            lines[at] = lines[at].replace(" ", "  ", 1)
    return "\n".join(lines)


@pytest.mark.parametrize("name", [n for n, text in BEGUN.items() if len(text) < LONGEST])
@settings(max_examples=8, deadline=None)
@given(data=st.data())
def test_row_after_row_is_changed_on_one_desk(name: str, data: st.DataObject) -> None:
    desk = Paper(BEGUN[name])
    press(desk, "x.md")
    text = BEGUN[name]
    for _ in range(data.draw(st.integers(1, 4))):
        changed = edited(text, data)
        warm = press(Paper(changed, memory=desk.memory, lines=desk.lines), "x.md")
        assert all_of(warm) == all_of(press(Paper(changed), "x.md"))
        text = changed if data.draw(st.booleans()) else text


def test_only_what_a_changed_row_changes_is_worked_again() -> None:
    rows = [f"Row {n}: Ch 1, sc in each st across, turn. (20 sts)" for n in range(2, 40)]
    rows[20] = "Row 22: Ch 1, hdc in each st across, turn. (20 sts)"
    head = "Ch 21.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sts)"
    text = "\n\n".join((head, *rows))
    desk = Paper(text)
    press(desk, "x.md")
    kept = dict(desk.memory.lines)
    changed = text.replace("Row 10: Ch 1, sc", "Row 10: Ch 1, dc")
    press(Paper(changed, memory=desk.memory, lines=desk.lines), "x.md")
    again = [key for key, line in desk.memory.lines.items() if kept.get(key) is not line]
    # itself, the row that stands on it, and the one that comes back to the edges as they were
    assert len(again) == 3


def test_rows_worked_again_are_kept_as_long_as_they_are_the_same() -> None:
    rows = [f"Row {n}: Ch 1, sc in each st across, turn. (20 sts)" for n in range(2, 12)]
    head = "Ch 21.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sts)"
    text = "\n\n".join((head, *rows, "Rep last 2 rows 3 more times."))
    desk = Paper(text)
    press(desk, "x.md")

    def repeated() -> object:
        lines = (one for one in desk.memory.lines.values() if isinstance(one, KnownLine))
        return next(one for one in lines if isinstance(one.course.does, RepeatRows))

    kept = repeated()
    for above in ("Row 4: Ch 1, dc", "Row 4: Ch 1, hdc"):  # as long, and longer
        changed = text.replace("Row 4: Ch 1, sc", above)
        warm = press(Paper(changed, memory=desk.memory, lines=desk.lines), "x.md")
        assert repeated() is kept
        assert all_of(warm) == all_of(press(Paper(changed), "x.md"))
    changed = text.replace("Row 10: Ch 1, sc", "Row 10: Ch 1, dc")  # one of those worked again
    warm = press(Paper(changed, memory=desk.memory, lines=desk.lines), "x.md")
    assert repeated() is not kept
    assert all_of(warm) == all_of(press(Paper(changed), "x.md"))


def test_a_changed_row_that_another_row_is_like_is_not_worked_at_all() -> None:
    rows = [f"Row {n}: Ch 1, sc in each st across, turn. (20 sts)" for n in range(2, 40)]
    rows[20] = "Row 22: Ch 1, hdc in each st across, turn. (20 sts)"
    head = "Ch 21.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sts)"
    text = "\n\n".join((head, *rows))
    desk = Paper(text)
    press(desk, "x.md")
    kept = dict(desk.memory.lines)
    assert len(kept) < len(rows)  # rows are known by the like rows below them
    changed = text.replace("Row 10: Ch 1, sc", "Row 10: Ch 1, hdc")
    again = Paper(changed, memory=desk.memory, lines=desk.lines)
    made = proof_object(press(again, "x.md"))
    assert all(kept.get(key) is line for key, line in desk.memory.lines.items())
    assert made == proof_object(press(Paper(changed), "x.md"))
