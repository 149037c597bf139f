"""What a maker is told of chains before the first row, and what it means for every row.

Sentences of our own, in the ways pattern notes put it (common practice, no source).
"""

import pytest

from stitchproof.language.read.openings import is_convention
from stitchproof.language.read.rules import find_rules
from stitchproof.trade.tables import Terms

_NONE = ""  # counts as no stitch


@pytest.mark.parametrize(
    ("sentence", "meant"),
    [
        ("3ch at the beginning of a round = 1 tr. 1ch is not counted.", {3: "dc", 1: _NONE}),
        ("3ch at the start is the first tr of that row. 2ch is nothing.", {3: "dc", 2: _NONE}),
        ("2ch before htr and 1ch before dc are not stitches.", {2: _NONE, 1: _NONE}),
        ("The 3ch you start with is your first tr.", {3: "dc"}),
        ("Turning ch: 3ch = 1tr, 1ch = 0.", {3: "dc", 1: _NONE}),
        ("The turning ch (3ch for tr, 1ch for dc) is extra.", {3: _NONE, 1: _NONE}),
        ("3ch = 1tr at the start of every row.", {3: "dc"}),
        ("3ch at the beginning counts for a tr, 1ch does not count.", {3: "dc"}),
        ("The turning ch stands for the first tr.", {None: "dc"}),
        ("Every row begins with 3ch, which is the first tr.", {3: "dc"}),
        ("Beg 3ch = tr", {3: "dc"}),
        ("The turning 3ch is always the first tr.", {3: "dc"}),
        ("Turning chains are never stitches.", {None: _NONE}),
        ("The starting 3ch is treated as a tr.", {3: "dc"}),
        ("3ch at the beginning of a row is equal to 1tr.", {3: "dc"}),
        ("The beginning 3ch is used in place of the first tr.", {3: "dc"}),
        ("Do not count the turning chain as a stitch.", {None: _NONE}),
        ("The turning ch is a stitch.", {None: "st"}),
        ("3ch at the start of a row replaces the first tr.", {3: "dc"}),
        ("Turning 3ch: counts as tr.", {3: "dc"}),
        ("The initial 3ch makes the first tr of the row.", {3: "dc"}),
        ("All turning chains count.", {None: "st"}),
        ("None of the turning chains count.", {None: _NONE}),
        ("The turning chain is included in the stitch count.", {None: "st"}),
        ("3ch counts 1 tr.", {3: "dc"}),
        ("The first 3ch of each row acts as a tr.", {3: "dc"}),
        ("3ch does NOT count as a stitch throughout.", {3: _NONE}),
    ],
)
def test_what_turning_chains_count_for(sentence: str, meant: dict[int | None, str]) -> None:
    rules = find_rules(sentence, 0, len(sentence), "notes", "UK")
    told = {rule.chains: rule.counts.stitch for rule in rules if rule.counts is not None}
    assert meant.items() <= told.items()


@pytest.mark.parametrize(
    ("sentence", "terms", "chains"),
    [
        ("4 ch counts as 1 tr and 1 ch.", "UK", 1),
        ("5 ch counts as 1 tr and 2 ch throughout.", "UK", 2),
        ("3 ch counts as 1 tr and 4 ch counts as 1 tr and 1 ch.", "UK", 1),
        ("Starting 4ch counts as 1tr, 1ch.", "UK", 1),
        ("4ch counts as first tr + 1ch sp.", "UK", 1),
        ("4 ch at start of row = 1 tr, 1 ch.", "UK", 1),
        ("3ch = 1tr, 5ch = 1tr + 2ch.", "UK", 2),
        ("The 4 chain at the beginning of a row counts as one treble and one chain.", "UK", 1),
        ("Ch 4 counts as dc, ch 1.", "US", 1),
        ("Ch 5 at the beginning of a row counts as dc and ch-2 sp.", "US", 2),
        ("Beginning ch 4 counts as a dc plus a ch 1 space.", "US", 1),
        ("Ch 3 counts as a dc.", "US", 0),
    ],
)
def test_what_lies_beside_the_stitch_that_a_chain_counts_for(
    sentence: str, terms: Terms, chains: int
) -> None:
    rules = find_rules(sentence, 0, len(sentence), "notes", terms)
    longest = max(rules, key=lambda rule: rule.chains or 0)
    assert longest.counts is not None
    assert (longest.counts.stitch, longest.counts.chains) == ("dc", chains)


@pytest.mark.parametrize(
    "line",
    [
        "Ch 72, being careful not to twist, join with a sl st to form a ring.",
        "Make 30ch and join with a ss, which makes a ring.",
        "Ch 3 (counts as dc), turn.",
        "3ch, 1tr in each tr to end.",
        "Sl st in first sc to form a tube.",
    ],
)
def test_what_is_done_is_no_convention(line: str) -> None:
    assert not is_convention(line, 0)
