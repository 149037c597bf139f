"""Every planted mistake is found once, in the right row and the right sizes."""

from types import MappingProxyType
from typing import Final

import pytest

from tests.mini_patterns import shown
from tests.planted_mistakes import Mistake, hits, loud, mistakes, spoiled

# Slugs a family may have; empty as long as several are as good.
FAMILIES: Final = MappingProxyType(
    {
        "count": (),  # the count stated is not the count made
        "uneven": (),  # a repeat does not come out
        "word": (),  # a word nobody knows
        "name": ("unknown-name",),  # a name of a formula that is not declared
        "list": (),  # a list of the wrong length
        "relation": (),  # two numbers that belong together do not fit
        "reference": (),  # a row that is not there is named
        "numbering": (),  # a row number is passed over
        "rows": (),  # a range of rows and the times of its repeat do not fit
        "": (),  # any
    }
)


@pytest.mark.parametrize("mistake", mistakes(), ids=lambda m: m.name)
def test_a_planted_mistake_is_found_once_where_it_is(mistake: Mistake) -> None:
    made = spoiled(mistake)
    found = loud(made, mistake.level)
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
        found = loud(made, mistake.level)
        seen += bool(found)
        hit = any(hits(mistake, made, finding) for finding in found)
        right += hit
        once += hit and len(found) == 1
    with capsys.disabled():
        print(  # noqa: T201 - the figures are what this test is for
            f"\n{len(mistakes())} planted mistakes: {seen} raise an error; {right} in the right row"
            f" and sizes; {once} of them once and alone"
        )
    assert mistakes()
