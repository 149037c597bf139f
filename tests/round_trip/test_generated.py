"""Whatever is written reads back as the same: generated lines, in both terms, short and in full."""

import pytest
from hypothesis import HealthCheck, Phase, given, seed, settings

from stitchproof.language.tree import Course
from stitchproof.language.write.courses import write_course
from stitchproof.language.write.wording import Wording
from tests.round_trip.forms import Form, forms_of, needed_forms
from tests.round_trip.lines import LINES
from tests.round_trip.plain import meaning, read_line, specials
from tests.round_trip.test_patterns import TEXTS, lines_of
from tests.round_trip.test_sentences import TABLE, manuscript_of

pytestmark = pytest.mark.filterwarnings("ignore:Generating overly large repr")
WORDINGS = (
    Wording(),
    Wording(terms="UK"),
    Wording(full=True),
    Wording(terms="UK", full=True),
)
TURNS = range(20)  # seeds: one long run would vary few lines
RUN = settings(
    max_examples=25,
    deadline=None,
    database=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
# What the types allow and no words say.
UNSAID: dict[Form, str] = {
    ("Noun", "thing", "RING"): "is read as `Ring`",
    ("Marked", "name", "words"): "markers have no names yet",
    ("ToMarked", "name", "words"): "markers have no names yet",
    ("Mark", "name", "words"): "markers have no names yet",
    ("Mark", "action", "between"): "hangs where the author slips markers: of no line alone",
    ("JoinYarn", "facing", "words"): "is read as `Facing`",
    ("Shape", "partly", "yes"): "on which rows it shapes is not kept",
    ("Repeat", "mark", "words"): "decides nothing and is not compared",
}
# Doubts are settled before anything is written; what was not read is kept.
NOT_WRITTEN = frozenset(("Either", "Unread"))


@pytest.mark.parametrize("turn", TURNS)
@pytest.mark.parametrize("wording", WORDINGS, ids=lambda w: f"{w.terms} {'full' if w.full else ''}")
def test_a_line_reads_back_as_it_was(wording: Wording, turn: int) -> None:
    words = Wording(terms=wording.terms, full=wording.full, specials=specials(wording.terms))

    @seed(turn)
    @RUN
    @given(course=LINES)
    def holds(course: Course) -> None:
        text, found = write_course(course, words)
        assert not found, text
        again = read_line(text, wording.terms)
        assert meaning(again.does) == meaning(course.does), text
        assert meaning(again.stated) == meaning(course.stated), text
        assert numbered(again) == numbered(course), text

    holds()


def numbered(course: Course) -> object:
    label = course.label
    rows = label.first, label.last, label.listed, label.span, label.round, label.side
    return rows, course.only


def test_every_form_is_generated() -> None:
    wanted = (set(needed_forms()) | forms_read()) - set(UNSAID)
    made: set[Form] = set()
    for turn in range(60 * len(TURNS)):

        @seed(turn)
        @settings(RUN, phases=[Phase.generate])
        @given(course=LINES)
        def keep(course: Course) -> None:
            made.update(forms_of(course))

        keep()
        if wanted <= made:
            break
    assert not wanted - made, wanted - made
    assert made & set(UNSAID) == set()


def forms_read() -> set[Form]:
    """Give the forms that the texts of the tests are read to."""
    manuscripts = [*map(manuscript_of, TABLE)]
    read = [course for one in manuscripts for s in one.sections for course in s.courses]
    read += [course for text in TEXTS.values() for course in lines_of(text)]
    found = {form for course in read for form in forms_of(course)}
    return {form for form in found if not NOT_WRITTEN & {form[0], form[2]}}
