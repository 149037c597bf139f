"""Pages of every wording, to be read as a maker reads them."""

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from stitchproof.fabric.told import settled_course
from stitchproof.language.number import Resolved
from stitchproof.language.tree import Course
from stitchproof.language.write.courses import write_aloud, write_course
from stitchproof.language.write.wording import Wording
from stitchproof.pipeline.press import press
from tests.conftest import Golden
from tests.mini_patterns import OneFile

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
    wording = Wording(
        resolved=pressed.sizing.resolved,
        specials={one.name: one for one in manuscript.specials},
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
