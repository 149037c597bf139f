"""Every small pattern and example, written anew and reworded, stays what it is."""

import re
from dataclasses import replace
from functools import cache
from pathlib import Path
from zlib import crc32

import pytest

from stitchproof.base.diagnostics import Level
from stitchproof.fabric.memory import Memory
from stitchproof.fabric.told import settled_course, tell
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.read.for_sizes import ALL_SIZES
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.language.tree import (
    Course,
    Group,
    JoinYarn,
    Make,
    Remark,
    Repeat,
    RepeatRows,
    Shape,
    Unread,
)
from stitchproof.language.walk import nodes
from stitchproof.language.write.aloud import write_aloud
from stitchproof.language.write.courses import is_labelled, write_course
from stitchproof.language.write.swap import other
from stitchproof.language.write.unsaid import NoWordsFor
from stitchproof.language.write.wording import Wording, wording_of
from stitchproof.pipeline.press import Pressed, press, row_gauges
from stitchproof.pipeline.reword import Reworded, reword
from stitchproof.trade.tables import Terms
from tests.mini_patterns import OneFile, patterns
from tests.round_trip.plain import meaning

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.md"))
TEXTS = {p.name: p.text for p in patterns()} | {p.name: p.read_text("utf-8") for p in EXAMPLES}
# "Tr = treble", "Treble in each ch": without `crochet` it has no US name that leads back to it.
# "Double crochet, which is called single crochet in America" names both systems.
ONE_WAY = frozenset(
    (
        *("shell-bookmark-uk", "chunky-snood", "ribbed-brim-hat-uk"),
        *("uk-party-bunting", "uk-lambing-mitts", "treble-beret-crown"),
        *("plain-treble-hat", "clustered-cot-blanket", "uk-mesh-back"),
        *("brambleside-cardigan-back", "seafret-lace-top", "allotment-bucket-hat"),
        *("marram-cowl", "pollard-market-bag", "sunwheel-coaster"),
        *("brackle-rib-beanie", "quorley-cluster-shawl"),
        *("heather-moor-poncho", "fern-lace-tee", "hollyhock-skirt", "kittiwake-shawl"),
        *("pettiwren-cardigan", "garthwaite-hat", "knapweed-shawl"),
    )
)
OF_OTHER_TERMS = frozenset(  # "tension" and "sc"
    ("mens-weekend-pullover-front", "farm-road-jacket-left-front")
)
FOUNDATIONS = ("fsc", "fhdc", "fdc")
SYSTEMS: dict[str, Terms] = {"US": "US", "UK": "UK"}


def texts() -> list[str]:
    assert len(TEXTS) >= 150
    return list(TEXTS)


def fabric(pressed: Pressed) -> object:
    """Give the stitches of every row in every size: kinds, roles, and where they are worked."""
    told = tell(
        pressed.manuscript,
        pressed.sizing.resolved,
        Memory(),
        row_gauges(pressed.manuscript, pressed.sizing),
    )
    rows = [[(r.kinds, r.roles, r.places, r.into, r.count) for r in one] for one in told]
    counts = [
        [(count.worked, count.stated) for count in course.counts]
        for course in pressed.proof.courses
    ]
    return counts, rows


def wrong(pressed: Pressed) -> list[tuple[str, tuple[str, ...]]]:
    """Give what is wrong, without places and words; a note on a doubt may be of one system only."""
    grave = [one for one in pressed.found if one.finding.code.level is not Level.NOTE]
    return sorted((one.finding.code.slug, one.sizes) for one in grave)


def unworded(tree: object) -> object:
    """Give the meaning of a tree without the author's words that are kept in it."""
    if isinstance(tree, tuple):
        return tuple(unworded(one) for one in tree)
    if isinstance(tree, Unread | Remark):
        return replace(tree, words="")
    if isinstance(tree, JoinYarn):
        return replace(tree, of="")
    if isinstance(tree, Group | Repeat):
        return meaning(replace(tree, body=unworded(tree.body)))  # type: ignore[arg-type]
    if isinstance(tree, RepeatRows):
        return meaning(replace(tree, extra=unworded(tree.extra)))  # type: ignore[arg-type]
    return meaning(tree)


@cache
def in_terms(text: str, terms: Terms) -> str:
    """Give a text in other terms, which it says; one that is in them already as it is."""
    if pressed_once(text).manuscript.terms == terms:
        return text
    made = reworded(text, terms).text
    manuscript = read_manuscript(made, "pattern.md")[0]
    front = manuscript.front
    if manuscript.terms == terms:
        return made
    said = f'terms = "{terms}"\n'
    if front is None:
        return f"+++\n{said}+++\n{made}"
    return f"{made[: front.place.start]}{said}{made[front.place.start :]}"


@cache
def reworded(text: str, terms: Terms) -> Reworded:
    return reword(text, "pattern.md", terms)


@cache
def pressed_once(text: str) -> Pressed:
    return press(OneFile(text), "pattern.md")


def anew(text: str, *, full: bool) -> tuple[str, list[Course]]:
    """Write every line of a manuscript anew in its own place; give the lines it had."""
    pressed = pressed_once(text)
    manuscript = pressed.manuscript
    wording = Wording(
        terms=SYSTEMS[manuscript.terms],
        full=full,
        specials={one.name: one for one in manuscript.specials},
    )
    courses = settled_lines(pressed)
    for course in sorted(courses, key=lambda one: -one.place.start):
        words, unsaid = write_course(course, wording)
        if any(isinstance(one.finding, NoWordsFor) for one in unsaid):
            continue  # the author's words stay where no others say the same
        if ALL_SIZES.match(text, course.place.start):
            words = f"All sizes: {words}"  # the sizes of the lines above stand there still
        text = f"{text[: course.place.start]}{words}{text[course.place.end :]}"
    return text, courses


def settled_lines(pressed: Pressed) -> list[Course]:
    """Give every line once, with the readings that were taken."""
    known = _SETTLED.get(id(pressed))
    if known is None:
        worked_lines = pressed.proof.courses
        lines = once([settled_course(pressed.manuscript, one) for one in worked_lines])
        known = _SETTLED[id(pressed)] = pressed, lines
    return known[1]


_SETTLED: dict[int, tuple[Pressed, list[Course]]] = {}  # what they are of is kept alive


def lines_of(text: str) -> list[Course]:
    """Give every line of a text as it is read."""
    return lines(read_manuscript(text, "pattern.md")[0])


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


@pytest.mark.parametrize("name", texts())
def test_a_pattern_written_anew_is_the_same(name: str) -> None:
    """Every other text goes short in US and in full in UK terms, the others the other way round.

    Generated lines go all four ways.
    """
    turned = crc32(name.encode()) % 2 == 1
    for terms, full in zip(SYSTEMS.values(), (turned, not turned), strict=True):
        stays_the_same(in_terms(TEXTS[name], terms), full=full)


def stays_the_same(text: str, *, full: bool) -> None:
    """Write a text anew, short or in full words, and read it again."""
    text, courses = anew(text, full=full)
    if any(is_dropped(course) for course in courses):
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
def test_both_terms_mean_the_same_and_make_the_same_fabric(name: str) -> None:
    text = TEXTS[name]
    here = pressed_once(text)
    there = pressed_once(in_terms(text, other(SYSTEMS[here.manuscript.terms])))
    assert there.manuscript.terms != here.manuscript.terms
    mine, theirs = settled_lines(here), settled_lines(there)
    assert len(mine) == len(theirs)
    for one, other_one in zip(mine, theirs, strict=True):
        assert unworded(other_one.does) == unworded(one.does)
        assert unworded(other_one.stated) == unworded(one.stated)
    assert fabric(there) == fabric(here)
    assert wrong(there) == wrong(here)


SHORTENED = re.compile(
    r"\b(?:sts?|sc|h?dc|h?tr|rnds?|RS|WS|sps?|chs?|beg|sk|rem|rep|tog|inc|dec|lps?|yo|yrh|BLO|FLO"
    r"|tch|patt?|[FB]P\w+|MC|CC)\b"
)
SIGNS = re.compile(r"[*\[\]()#={}]|  |,,|;;|,\.|;\.| ,")


@pytest.mark.parametrize("name", texts())
def test_a_line_to_be_heard_has_no_signs_and_nothing_short(name: str) -> None:
    pressed = pressed_once(TEXTS[name])
    manuscript = pressed.manuscript
    wording = replace(
        wording_of(manuscript),
        resolved=pressed.sizing.resolved,
        spelled={one.spelling: one for one in manuscript.numbers},
        lengths=frozenset(one.name for one in pressed.sizing.measures),
    )
    for course in settled_lines(pressed):
        if is_exact(course):
            words = write_aloud(course, wording)[0]
            assert not SIGNS.search(words), words
            assert not SHORTENED.search(words), words


@pytest.mark.parametrize("name", texts())
def test_rewording_there_and_back_gives_the_same_bytes(name: str) -> None:
    text = TEXTS[name]
    here = SYSTEMS[pressed_once(text).manuscript.terms]
    there = reworded(text, other(here))
    slugs = {one.finding.code.slug for one in there.found}
    back = reword(there.text, "pattern.md", here, written_in=other(here))
    assert (back.text == text) == (name not in ONE_WAY | OF_OTHER_TERMS)
    assert ("word-of-other-terms" in slugs) == (name in OF_OTHER_TERMS)
    assert ("no-way-back" in slugs) == (name in ONE_WAY)
