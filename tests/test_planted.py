"""Every planted mistake is found once, in the right row and the right sizes."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

import pytest

from tests.mini_patterns import shown
from tests.planted_mistakes import Mistake, hits, loud, mistakes, spoiled

# Slugs a family of mistakes may be reported by; empty where several are as good.
FAMILIES: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "count": ("row-count-mismatch",),  # the count stated is not the count made
        "uneven": ("repeat-uneven",),  # a repeat does not come out
        "word": ("unknown-abbreviation", "unread-words"),  # a word nobody knows
        "name": ("unknown-name",),  # a name of a formula that is not declared
        "list": ("size-list-length",),  # a list of the wrong length
        "relation": ("relation-fails", "seam-mismatch"),  # numbers that belong together do not fit
        "reference": ("row-reference-absent",),  # a row that is not there is named
        "numbering": ("row-number-missing",),  # a row number is passed over
        "noun": ("stitch-named-absent", "no-such-place"),  # a stitch that is not there is named
        "turn": ("turn-not-said",),  # a turn is not told where other rows tell it
        "rows": ("row-range-mismatch", "range-not-whole"),  # rows and times do not fit
        "": (),  # any
    }
)


@pytest.mark.parametrize("mistake", mistakes(), ids=lambda m: m.name)
def test_a_planted_mistake_is_found_once_where_it_is(mistake: Mistake) -> None:
    made = spoiled(mistake)
    found = loud(made, mistake.level, FAMILIES[mistake.kind])
    listing = "\n".join([f"{mistake.of}: {mistake.about}", *map(shown, found)])
    assert found, listing + "\nnothing found"
    assert len(found) == 1, listing
    where = f"\nwanted at {mistake.section}, {mistake.labels} in {mistake.sizes or 'all sizes'}"
    assert hits(mistake, made, found[0]), listing + where
    slugs = FAMILIES[mistake.kind]
    assert not slugs or found[0]["slug"] in slugs, listing + f"\nwanted one of {slugs}"


def test_the_figures_of_all_mistakes(capsys: pytest.CaptureFixture[str]) -> None:
    seen = right = once = 0
    for mistake in mistakes():
        made = spoiled(mistake)
        found = loud(made, mistake.level, FAMILIES[mistake.kind])
        seen += bool(found)
        hit = any(hits(mistake, made, finding) for finding in found)
        right += hit
        once += hit and len(found) == 1
    with capsys.disabled():
        print(  # noqa: T201 - the figures are what this test is for
            f"\n{len(mistakes())} planted mistakes: {seen} are told of; {right} in the right row"
            f" and sizes; {once} of them once and alone"
        )
    assert right >= 0.95 * len(mistakes())
    assert once >= 0.93 * len(mistakes())
