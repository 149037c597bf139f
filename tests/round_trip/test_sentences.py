"""A table of sentences: as authors write them, and in the house style of both terms.

Common practice, no source; every sentence is our own. What is said and what is written mean the
same, in either system, and a sentence in the house style is written again as it stands.
"""

import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from stitchproof.language.manuscript import Manuscript
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.language.tree import Course, RepeatRows
from stitchproof.language.walk import settled
from stitchproof.language.write.courses import write_course
from stitchproof.language.write.wording import Wording
from stitchproof.trade.tables import Terms
from tests.round_trip.plain import meaning

TABLE = tomllib.loads(Path(__file__).with_name("sentences.toml").read_text("utf-8"))["sentence"]
SYSTEMS: dict[str, Terms] = {"US": "US", "UK": "UK"}
IDS = [one["form"] for one in TABLE]


def manuscript_of(one: dict[str, str]) -> Manuscript:
    return manuscript_with(one["said"], one.get("terms", "US"))


def manuscript_with(line: str, terms: str) -> Manuscript:
    text = f'+++\nterms = "{terms}"\n+++\n\n## Back\n\nCh 9.\n\n## Front\n\n{line}\n'
    return read_manuscript(text, "sentence.md")[0]


def course(line: str, terms: str) -> Course:
    """Read the one line of a manuscript; of a doubt, the likeliest reading."""
    manuscript = manuscript_with(line, terms)
    _, found = (one for section in manuscript.sections for one in section.courses)
    if isinstance(found.does, RepeatRows):
        return found
    return replace(found, does=settled(found.does, {}))


def sense(found: Course) -> object:
    label = found.label
    rows = label.first, label.last, label.listed, label.span, label.round, label.side
    return meaning((found.does, found.stated)), rows


@pytest.mark.parametrize("one", TABLE, ids=IDS)
def test_all_three_sentences_mean_the_same(one: dict[str, str]) -> None:
    said = course(one["said"], one.get("terms", "US"))
    assert sense(course(one["us"], "US")) == sense(said)
    assert sense(course(one["uk"], "UK")) == sense(said)


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("one", TABLE, ids=IDS)
def test_the_house_style_is_written_as_it_stands(one: dict[str, str], system: str) -> None:
    wording = Wording(terms=SYSTEMS[system])
    for terms in ("US", "UK"):
        words, found = write_course(course(one[terms.lower()], terms), wording)
        assert (words, found) == (one[system.lower()], [])


def test_no_form_stands_twice() -> None:
    assert len(set(IDS)) == len(IDS) >= 150
