"""Whatever is written reads back as the same: generated lines, in both terms, short and in full."""

import pytest
from hypothesis import HealthCheck, given, settings

from stitchproof.language.tree import Steps
from stitchproof.language.write.wording import Wording
from tests.round_trip.plain import meaning, read, written
from tests.round_trip.strategies import STEPS

WORDINGS = (
    Wording(),
    Wording(terms="UK"),
    Wording(full=True),
    Wording(terms="UK", full=True),
)


@pytest.mark.parametrize("wording", WORDINGS, ids=lambda w: f"{w.terms} {'full' if w.full else ''}")
@settings(
    max_examples=250,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(steps=STEPS)
def test_a_line_reads_back_as_it_was(wording: Wording, steps: Steps) -> None:
    text = written(steps, wording)
    assert meaning(read(text, wording.terms)) == meaning(steps), text
