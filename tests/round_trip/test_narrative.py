"""What a pattern says outside its rows, in both terms: a table, one line a form."""

import tomllib
from pathlib import Path
from typing import Any, TypeAlias

import pytest

from stitchproof.language.manuscript import Manuscript
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.language.tree import Counts
from stitchproof.pipeline.reword import reword
from stitchproof.trade.tables import Terms
from tests.round_trip.plain import meaning

Sentence: TypeAlias = dict[str, Any]
TABLE = tomllib.loads(Path(__file__).with_name("narrative.toml").read_text("utf-8"))["sentence"]
IDS = [one["form"] for one in TABLE]


def text_of(sentence: str, terms: Terms) -> str:
    work = {"US": "Sc in each ch across.", "UK": "Dc in each ch across."}[terms]
    notes = f'+++\nterms = "{terms}"\n+++\n\n## Notes\n\n{sentence}\n\n'
    return f"{notes}## Front\n\nCh 9.\n\nRow 1: {work}\n"


def read(text: str) -> Manuscript:
    return read_manuscript(text, "narrative.md")[0]


@pytest.mark.parametrize("one", TABLE, ids=IDS)
def test_a_sentence_is_reworded_there_and_back(one: Sentence) -> None:
    us, uk = text_of(one["us"], "US"), text_of(one["uk"], "UK")
    assert reword(us, "narrative.md", "UK").text == uk
    assert reword(uk, "narrative.md", "US").text == us


@pytest.mark.parametrize("one", TABLE, ids=IDS)
def test_both_state_the_same_rules_and_stitches(one: Sentence) -> None:
    here, there = read(text_of(one["us"], "US")), read(text_of(one["uk"], "UK"))
    assert [meaning(rule) for rule in here.rules] == [meaning(rule) for rule in there.rules]
    bodies = [[meaning(s.body), meaning(s.stitch)] for s in here.specials]
    assert bodies == [[meaning(s.body), meaning(s.stitch)] for s in there.specials]


def test_rules_of_chains_are_heard() -> None:
    counts, none = (read(text_of(one["us"], "US")).rules for one in TABLE[:2])
    assert [rule.counts for rule in counts] == [Counts("dc", throughout=True)]
    assert [rule.counts for rule in none] == [Counts("", throughout=True)]
