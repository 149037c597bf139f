"""A table of sentences: as authors write them, and in the house style of both terms.

Common practice, no source; every sentence is our own. What is said and what is written mean the
same, in either system, and a sentence in the house style is written again as it stands.
"""

import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any, TypeAlias

import pytest

from stitchproof.language.manuscript import Manuscript
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.language.tree import Course, RepeatRows
from stitchproof.language.walk import settled
from stitchproof.language.write.courses import write_course
from stitchproof.language.write.wording import Wording
from stitchproof.trade.tables import Terms
from tests.round_trip.plain import meaning

Sentence: TypeAlias = dict[str, Any]
TABLE = tomllib.loads(Path(__file__).with_name("sentences.toml").read_text("utf-8"))["sentence"]
SYSTEMS: dict[str, Terms] = {"US": "US", "UK": "UK"}
GROUPS = {
    "US": "Shell: 5 dc in indicated st.\n\nV-st: (Dc, ch 1, dc) in indicated st.",
    "UK": "Shell: 5 tr in indicated st.\n\nV-st: (Tr, ch 1, tr) in indicated st.",
}
IDS = [one["form"] for one in TABLE]


def manuscript_of(one: Sentence) -> Manuscript:
    return manuscript_with(one, one["said"], one.get("terms", "US"))


def manuscript_with(one: Sentence, line: str, terms: str) -> Manuscript:
    """Read a line in a manuscript, with the groups and the sizes that its form speaks of."""
    sizes = f"[sizes]\nmake = {one['sizes']}\n" if "sizes" in one else ""
    defined = f"## Special Stitches\n\n{GROUPS[terms]}\n\n" if "defines" in one else ""
    front = f'+++\nterms = "{terms}"\n{sizes}+++\n\n'
    said = f"{one['says']}\n\n" if "says" in one else ""
    text = f"{front}{said}{defined}## Back\n\nCh 9.\n\n## Front\n\n{line}\n"
    return read_manuscript(text, "sentence.md")[0]


def course(one: Sentence, line: str, terms: str) -> Course:
    """Read the one line of a manuscript; of a doubt, the likeliest reading."""
    (found,) = manuscript_with(one, line, terms).sections[-1].courses
    if isinstance(found.does, RepeatRows):
        return found
    return replace(found, does=settled(found.does, {}))


def sense(found: Course) -> object:
    label = found.label
    rows = label.first, label.last, label.listed, label.span, label.round, label.side
    return meaning((found.does, found.stated)), rows, found.only


@pytest.mark.parametrize("one", TABLE, ids=IDS)
def test_all_three_sentences_mean_the_same(one: Sentence) -> None:
    said = course(one, one["said"], one.get("terms", "US"))
    assert sense(course(one, one["us"], "US")) == sense(said)
    assert sense(course(one, one["uk"], "UK")) == sense(said)


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("one", TABLE, ids=IDS)
def test_the_house_style_is_written_as_it_stands(one: Sentence, system: str) -> None:
    for terms in ("US", "UK"):
        specials = manuscript_with(one, "Ch 9.", system).specials
        wording = Wording(
            terms=SYSTEMS[system],
            written_in=SYSTEMS[terms],
            specials={special.name: special for special in specials},
        )
        words, found = write_course(course(one, one[terms.lower()], terms), wording)
        assert (words, found) == (one[system.lower()], [])


def test_no_form_stands_twice() -> None:
    assert len(set(IDS)) == len(IDS) >= 330
