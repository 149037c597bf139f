"""Each check of a technical editor: a manuscript breaks it and is told so in clear words."""

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from tests.mini_patterns import proof, same_label, shown

CHECKS = Path(__file__).parent / "editor" / "checks.toml"
DOCUMENT = Path(__file__).parents[1] / "docs" / "checks.md"


@dataclass(frozen=True, slots=True, kw_only=True)
class Broken:
    """A manuscript, and the finding it must have; no slug: nothing graver than a note."""

    no: str
    about: str
    text: str
    slug: str
    label: str = ""
    sizes: tuple[str, ...] = ()
    says: tuple[str, ...] = ()


@cache
def broken() -> tuple[Broken, ...]:
    table = tomllib.loads(CHECKS.read_text("utf-8"))
    return tuple(
        Broken(
            **{**one, "sizes": tuple(one.get("sizes", ())), "says": tuple(one.get("says", ()))},
        )
        for one in table["check"]
    )


@pytest.mark.parametrize("one", broken(), ids=lambda one: f"{one.no}-{one.about}")
def test_a_broken_check_is_told_once_and_clearly(one: Broken) -> None:
    made = proof(one.text, "checked.md")
    listing = "\n".join(map(shown, made["findings"]))
    grave = {f["slug"] for f in made["findings"] if f["level"] != "note"}
    assert grave <= {one.slug}, listing
    if not one.slug:
        return
    found = [f for f in made["findings"] if f["slug"] == one.slug]
    assert len(found) == 1, listing
    assert tuple(found[0]["sizes"]) == one.sizes, listing
    assert not one.label or same_label(one.label, found[0]["label"] or ""), listing
    for words in one.says:
        assert words in found[0]["message"], listing
    for name in (*one.sizes, *filter(None, [found[0]["label"]])):
        assert name in found[0]["message"], listing


def test_every_check_that_the_document_lists_is_tried() -> None:
    listed = set(re.findall(r"^\| (\d+) \|", DOCUMENT.read_text("utf-8"), re.MULTILINE))
    assert listed == {one.no for one in broken()}
