"""Every small pattern and example, written anew and reworded, stays what it is."""

from pathlib import Path

import pytest

from stitchproof.fabric.told import settled_course
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.language.tree import Course, Make, RepeatRows, Shape, Unread
from stitchproof.language.walk import nodes
from stitchproof.language.write.courses import is_labelled, write_course
from stitchproof.language.write.swap import other
from stitchproof.language.write.wording import Wording
from stitchproof.pipeline.press import press
from stitchproof.pipeline.report import proof_object
from stitchproof.pipeline.reword import reword
from stitchproof.trade.tables import Terms
from tests.mini_patterns import OneFile, patterns
from tests.round_trip.plain import meaning

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.md"))
TEXTS = {p.name: p.text for p in patterns()} | {p.name: p.read_text("utf-8") for p in EXAMPLES}
# Patterns with words that are kept beside the work and say nothing alone.
KEPT_WORDS = frozenset(("afghan-square-bobbles",))
# "inc 8 htr evenly" is not yet read as "inc 8 hdc evenly" is.
READ_UNLIKE = frozenset(("rug-of-thick-yarn",))
FOUNDATIONS = ("fsc", "fhdc", "fdc")
SYSTEMS: dict[str, Terms] = {"US": "US", "UK": "UK"}


def texts() -> list[str]:
    assert len(TEXTS) >= 150
    return list(TEXTS)


def worked(text: str) -> object:
    """Give the counts of every line, without the words for it."""
    made = proof_object(press(OneFile(text), "pattern.md"))
    sections: list[dict[str, list[dict[str, object]]]] = made["sections"]  # type: ignore[assignment]
    return [[course["worked"] for course in section["courses"]] for section in sections]


def anew(text: str, *, full: bool) -> tuple[str, list[Course]]:
    """Write every line of a manuscript anew in its own place; give the lines it had."""
    pressed = press(OneFile(text), "pattern.md")
    manuscript = pressed.manuscript
    wording = Wording(
        terms=SYSTEMS[manuscript.terms],
        full=full,
        specials={one.name: one for one in manuscript.specials},
    )
    worked_lines = pressed.proof.courses
    courses = once([settled_course(manuscript, one) for one in worked_lines])
    for course in sorted(courses, key=lambda one: -one.place.start):
        words, _ = write_course(course, wording)
        text = f"{text[: course.place.start]}{words}{text[course.place.end :]}"
    return text, courses


def once(courses: list[Course]) -> list[Course]:
    """Give every line once; one may stand for later rows too."""
    by_place = {one.place.start: one for one in reversed(courses)}
    return [by_place[start] for start in sorted(by_place)]


def is_dropped(course: Course) -> bool:
    """Tell whether a line was understood but cannot be counted: no words of it are kept."""
    return any(isinstance(node, Unread) and not node.words for node in nodes(course))


def is_exact(course: Course) -> bool:
    """Tell whether a line holds nothing that is kept in the author's own words."""
    return not any(isinstance(node, Unread) for node in nodes(course))


def opens_in_short_only(course: Course) -> bool:
    """Tell whether a line without a label would not be found to be an instruction in full words.

    "Decrease 1 stitch at each end" and "Foundation single crochet 24" open many a sentence of
    prose; short, they open instructions only.
    """
    if is_labelled(course) or isinstance(course.does, RepeatRows):
        return False
    return any(
        isinstance(step, Shape) or (isinstance(step, Make) and step.stitch.kind in FOUNDATIONS)
        for step in course.does
    )


def test_few_patterns_hold_lines_that_are_not_written() -> None:
    dropped = [
        name
        for name, text in TEXTS.items()
        for course in lines(read_manuscript(text, name)[0])
        if is_dropped(course)
    ]
    assert len(set(dropped)) <= len(TEXTS) // 25


def test_few_patterns_open_a_line_in_short_words_only() -> None:
    short = [
        name
        for name, text in TEXTS.items()
        for course in lines(read_manuscript(text, name)[0])
        if opens_in_short_only(course)
    ]
    assert len(set(short)) <= len(TEXTS) // 12


def lines(manuscript: Manuscript) -> list[Course]:
    return once([course for section in manuscript.sections for course in section.courses])


@pytest.mark.parametrize("length", ["short", "full"])
@pytest.mark.parametrize("name", texts())
def test_a_pattern_written_anew_is_the_same(name: str, length: str) -> None:
    full = length == "full"
    text, courses = anew(TEXTS[name], full=full)
    if name in KEPT_WORDS or any(is_dropped(course) for course in courses):
        return
    if full and any(opens_in_short_only(course) for course in courses):
        return
    again = lines(read_manuscript(text, "pattern.md")[0])
    assert len(again) == len(courses), text
    for one, other_one in zip(courses, again, strict=True):
        if is_exact(one):
            assert meaning(other_one.does) == meaning(one.does), text
            assert meaning(other_one.stated) == meaning(one.stated), text
            assert other_one.label.first == one.label.first
            assert other_one.label.last == one.label.last


@pytest.mark.parametrize("name", texts())
def test_rewording_there_and_back_gives_the_same_bytes(name: str) -> None:
    text = TEXTS[name]
    here = SYSTEMS[read_manuscript(text, name)[0].terms]
    there = reword(text, name, other(here))
    slugs = {one.finding.code.slug for one in there.found}
    back = reword(there.text, name, here, written_in=other(here))
    if slugs <= {"terms-unsaid"}:
        assert back.text == text
    if "terms-unsaid" not in slugs and name not in READ_UNLIKE:
        assert worked(there.text) == worked(text)
