"""Pages of every wording, to be read as a maker reads them."""

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from stitchproof.fabric.told import settled_course
from stitchproof.language.number import Resolved
from stitchproof.language.tree import Course
from stitchproof.language.write.aloud import write_aloud
from stitchproof.language.write.courses import write_course
from stitchproof.language.write.wording import Wording, wording_of
from stitchproof.pipeline.press import press
from stitchproof.trade.tables import Terms
from tests.conftest import Golden
from tests.mini_patterns import OneFile

SYSTEMS: dict[str, Terms] = {"US": "US", "UK": "UK"}
TEE = Path(__file__).parents[2] / "examples" / "marram-tee.md"
WRITERS: dict[str, Callable[[Course, Wording], str]] = {
    "short": lambda course, wording: write_course(course, replace(wording, resolved=None))[0],
    "full": lambda course, wording: write_course(
        course, replace(wording, resolved=None, full=True)
    )[0],
    "all-sizes": lambda course, wording: write_course(
        course, replace(wording, groups=(1, 3, 3, 2))
    )[0],
    "size-M": lambda course, wording: write_course(course, one_size(wording, "M"))[0],
    "aloud-M": lambda course, wording: write_aloud(course, one_size(wording, "M"))[0],
    "aloud": lambda course, wording: write_aloud(course, wording)[0],
}


def resolved(wording: Wording) -> Resolved:
    assert wording.resolved is not None
    return wording.resolved


def one_size(wording: Wording, size: str) -> Wording:
    sizes = resolved(wording)
    return replace(wording, resolved=replace(sizes, chosen=(sizes.sizes.index(size),)))


@pytest.mark.parametrize("name", WRITERS)
def test_a_page_of_the_tee(name: str, golden: Golden) -> None:
    pressed = press(OneFile(TEE.read_text("utf-8")), "tee.md")
    manuscript = pressed.manuscript
    wording = replace(
        wording_of(manuscript),
        resolved=pressed.sizing.resolved,
        spelled={one.spelling: one for one in manuscript.numbers},
        lengths=frozenset(one.name for one in pressed.sizing.measures),
    )
    section = ""
    page: list[str] = []
    written: list[str] = []
    for worked in pressed.proof.courses:
        if worked.section != section:
            section = worked.section
            page += ["", section, ""]
        written.append(WRITERS[name](settled_course(manuscript, worked), wording))
        page.append(written[-1])
    words = " ".join(written)
    if name not in {"short", "full"}:
        assert not re.search(r"\{[a-z(]", words)
    if name.startswith("aloud"):
        assert not set("*[]()#={}") & set(words)
    golden(f"wordings/tee-{name}.txt", "\n".join(page).strip() + "\n")


UK = """+++
terms = "UK"
[sizes]
make = ["S", "M", "L"]
+++

## Special Stitches

Dc2tog: Insert hook in next st, yrh and draw up a loop, 2 times, yrh and draw through all loops.

## Back

Ch 21.

Row 1: Tr in 4th ch from hook and in each ch across, turn.

Row 2: Ch 3, tr2tog over next 2 sts, dc2tog over next 2 sts, tr in each st across, turn.
(1 tr2tog, 1 dc2tog)

Sizes M and L only: Row 3: Ch 1, dc in each st across.

Rows 4-8 (10, 12): Rep Row 2.
"""


def written_lines(writer: Callable[[Course, Wording], str]) -> list[str]:
    pressed = press(OneFile(UK), "uk.md")
    wording = replace(
        wording_of(pressed.manuscript),
        resolved=pressed.sizing.resolved,
        spelled={one.spelling: one for one in pressed.manuscript.numbers},
    )
    return [
        writer(settled_course(pressed.manuscript, one), wording) for one in pressed.proof.courses
    ]


def test_a_stitch_that_the_author_defines_has_its_name_in_the_other_terms() -> None:
    text = UK.replace("Dc2tog: Insert hook in next st, yrh and draw up a loop, 2 times,", "FPtr: ")
    text = text.replace("dc2tog over next 2 sts, ", "FPtr around next st, ")
    pressed = press(OneFile(text), "uk.md")
    wording = replace(wording_of(pressed.manuscript), terms="US", written_in="UK")
    row = write_course(settled_course(pressed.manuscript, pressed.proof.courses[2]), wording)[0]
    assert "FPdc around next st" in row
    assert "FPtr" not in row


def test_an_authors_name_is_not_taken_for_another_stitch() -> None:
    row = written_lines(lambda course, wording: write_course(course, wording)[0])[2]
    assert "tr2tog over next 2 sts, dc2tog over next 2 sts" in row
    assert row.endswith("(1 tr2tog, 1 dc2tog)")


def test_a_line_names_its_sizes_and_is_silent_in_the_others() -> None:
    whole = written_lines(lambda course, wording: write_course(course, wording)[0])
    assert whole[3] == "Sizes M and L only: Row 3: Ch 1, dc in each st across."
    assert (
        written_lines(lambda course, wording: write_aloud(course, one_size(wording, "S"))[0])[3]
        == ""
    )
    assert written_lines(WRITERS["size-M"])[3] == "Row 3: Ch 1, dc in each st across."


def test_labels_that_differ_are_heard_with_their_sizes() -> None:
    heard = written_lines(lambda course, wording: write_aloud(course, wording)[0])
    assert heard[3] == (
        "Row 3: Sizes M and L: Chain 1, double crochet in each stitch to the end of the row."
    )
    assert heard[4] == (
        "Rows 4 to 8 in size S, Rows 4 to 10 in size M and Rows 4 to 12 in size L: Repeat Row 2."
    )


def test_yarns_that_have_a_short_name_have_a_long_one() -> None:
    text = UK.replace("Row 2: Ch 3", "Row 2: With MC, ch 3, change to CC2").replace('"UK"', '"US"')
    pressed = press(OneFile(text), "us.md")
    line = settled_course(pressed.manuscript, pressed.proof.courses[2])
    for terms, colour in (("US", "color"), ("UK", "colour")):
        wording = Wording(terms=SYSTEMS[terms], written_in="US", full=True)
        words = write_course(line, wording)[0]
        assert f"With main {colour}, chain 3, change to contrasting {colour} 2," in words
    assert "With MC, ch 3, change to CC2," in write_course(line)[0]


def test_what_one_size_does_once_is_no_repeat() -> None:
    row = "Row 3: Ch 1, (dc in next st, ch 1) 1 (2, 0) times, dc in each st across."
    text = UK.replace("Sizes M and L only: Row 3: Ch 1, dc in each st across.", row)
    pressed = press(OneFile(text), "uk.md")
    line = settled_course(pressed.manuscript, pressed.proof.courses[3])
    wording = replace(wording_of(pressed.manuscript), resolved=pressed.sizing.resolved)
    assert [write_course(line, one_size(wording, size))[0] for size in "SML"] == [
        "Row 3: Ch 1, dc in next st, ch 1, dc in each remaining st across.",
        "Row 3: Ch 1, (dc in next st, ch 1) 2 times, dc in each remaining st across.",
        "Row 3: Ch 1, dc in each st across.",
    ]
