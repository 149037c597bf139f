"""Every stitch of the dictionary can be told as movements, in the words of both systems."""

import pytest

from stitchproof.trade.stitches import definition, stitches
from stitchproof.trade.tables import Terms

# Movements of the hook and the yarn, and the verbs of stitches made of stitches.
MOVEMENTS = (
    "insert hook",
    "draw",
    "work the stitches told",
    "skip",
    "miss",
    "yarn",
    "in one place",
    "ch 3",
)


@pytest.mark.parametrize("terms", ["US", "UK"])
@pytest.mark.parametrize("kind", stitches())
def test_a_stitch_is_told_as_movements(kind: str, terms: Terms) -> None:
    told = definition(kind, terms=terms)
    assert told.endswith(".")
    assert told[0].isupper() or told.startswith("(")
    assert "{" not in told
    assert any(word in told.lower() for word in MOVEMENTS)
    assert "yarn round hook" not in told if terms == "US" else "yarn over" not in told.lower()


@pytest.mark.parametrize("terms", ["US", "UK"])
@pytest.mark.parametrize("kind", ["sc", "hdc", "dc", "tr", "dtr"])
def test_posts_and_stitches_together_are_told(kind: str, terms: Terms) -> None:
    assert "around the post" in definition(kind, "front", terms=terms)
    assert "from back to front to back" in definition(kind, "back", terms=terms)
    assert "2 times" in definition(kind, "none", 2, terms)
