"""Whatever is in the file: no exception, places inside the text, bounded work, nothing lost."""

import time
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from stitchproof.base.place import Span
from stitchproof.language.manuscript import BlockKind, Manuscript
from stitchproof.language.read.manuscript import read_manuscript

PATTERN = (
    "# Cap\n\n## Notes\n\nThe ch-1 does not count as a st.\n\n## Cap (make 2)\n\n"
    "Sizes: S (M, L)\n\n"
    "Ch 20 (22, 24).\n\nRow 1 (RS): Sc in 2nd ch from hook and in each ch\n"
    "across, turn. 19 (21, 23) sc\n\n"
    'Rows 2-9: Rep Row 1.\n\n5. Don\'t turn - "fasten off".\n'
)
WORDS = st.sampled_from(
    [
        *("Row 1:", "Rows 3-8:", "5.", "3rd row:", "Next row:", "Shell:", "Sizes: S (M, L)"),
        *("Size S only:", "Ch 20", "sc in next st", "*", "(", ")", "{", "}", "{a}", "[", "turn."),
        *("(24 sts)", "– 24 sc", "Rep Row 2", "rep from *", "## Front", "# T", "---", "> q", "```"),
        *("- ", "| a |", "|---|", "+++", 'terms = "UK"', "counts as dc", "not", "Notes", "  ", "#"),
        *("\u00a0", "“", "½", "12", "(2, 3)", "times", "<div>", "until", "28 cm", "\u2028", "\x00"),
    ]
)
ENDS = st.sampled_from(["\n", "\r\n", "\r", "\n\n", " ", ""])


def spans(manuscript: Manuscript) -> list[Span]:
    found = [b.place for b in manuscript.blocks]
    found += [n.place for n in manuscript.numbers]
    found += [place for _, place in manuscript.words]
    for section in manuscript.sections:
        found.append(section.place)
        for course in section.courses:
            found += [course.place, course.label.place]
            found += [course.stated.place] if course.stated else []
    found += [r.place for r in manuscript.rules] + [s.place for s in manuscript.specials]
    return found


def check(text: str) -> None:
    manuscript, diagnostics = read_manuscript(text, "x")
    for place in (*spans(manuscript), *(d.place for d in diagnostics)):
        assert 0 <= place.start <= place.end <= len(text)
    assert all(d.message() for d in diagnostics)
    ordered = [b.place for b in manuscript.blocks]
    assert all(a.end <= b.start for a, b in pairwise(ordered))
    for block in manuscript.blocks:
        if block.kind is BlockKind.INSTRUCTION:
            assert block.course is not None
            section, course = block.course
            assert manuscript.sections[section].courses[course].place == block.place
    again = read_manuscript(text, "x")
    assert again == (manuscript, diagnostics)


@settings(max_examples=300, deadline=None)
@example([("– 24 sc", "\n"), ("[", "\n")])
@given(st.lists(st.tuples(WORDS, ENDS), max_size=25))
def test_any_words(parts: list[tuple[str, str]]) -> None:
    check("".join(word + end for word, end in parts))


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=200))
def test_any_text(text: str) -> None:
    check(text)


@settings(max_examples=100, deadline=None)
@given(st.integers(0, len(PATTERN)), st.integers(0, len(PATTERN)))
def test_any_part_of_a_pattern(start: int, end: int) -> None:
    check(PATTERN[start:end])


def test_no_word_is_lost() -> None:
    """Every character that is no space stands in a block, but for marks of headings and bullets."""
    text = PATTERN + "\n- one\n- two\n\n> quoted\n\n| a |\n|---|\n\nLast words"
    kept = [False] * len(text)
    for block in read_manuscript(text, "x")[0].blocks:
        for i in range(block.place.start, block.place.end):
            kept[i] = True
    lost = {c for c, k in zip(text, kept, strict=True) if not k and not c.isspace()}
    assert lost <= {"#", "-"}


def facts(text: str) -> object:
    manuscript, diagnostics = read_manuscript(text, "x")
    shape = [(b.kind, b.level, b.course) for b in manuscript.blocks]
    courses = [
        (
            s.title,
            s.copies,
            [(c.label.first, c.label.last, c.does, c.stated, c.only) for c in s.courses],
        )
        for s in manuscript.sections
    ]
    return (
        shape,
        courses,
        manuscript.rules,
        manuscript.sizes_line,
        [type(d.finding) for d in diagnostics],
    )


@pytest.mark.parametrize("end", ["\r\n", "\r"])
def test_lines_end_in_three_ways(end: str) -> None:
    text = PATTERN.replace("\n", end)
    assert facts(text) == facts(PATTERN)
    check(text)


def test_other_characters_end_no_line() -> None:
    for char in "\x0b\x0c\x1c\x85\u2028\u2029":
        text = f"Ch 20.\n\nRow 1: Sc in each ch{char}across,{char}Row 2: no row\n"
        (section,) = read_manuscript(text, "x")[0].sections
        assert len(section.courses) == 2


def test_pasted_text_reads_the_same() -> None:
    pasted = (
        PATTERN.replace("Row 1 (", "Row\u00a01\u00a0(")
        .replace("2-9", "2–9")
        .replace("'", "’")
        .replace(' "', " “")
        .replace('"', "”")
    )
    assert pasted != PATTERN
    assert facts(pasted) == facts(PATTERN)


HOSTILE = (
    ("rows", "## P\n\nCh 20.\n\n" + "".join(f"Row {i}: Ch 1, sc across.\n" for i in range(30_000))),
    ("one line", "Row 1: " + "sc in next st, " * 70_000),
    ("lines", "a\n" * 300_000),
    ("prose", "## Notes\n\n" + "The ch 3 counts " * 30_000),
    ("brackets", "Row 1: " + "(" * 50_000),
    ("quotes", ">" * 50_000),
    ("digits", "Row " + "1" * 100_000 + ": sc"),
    ("commas", "Rows " + "3, " * 50_000 + ": sc"),
    ("sizes", "Sizes: " + "S, " * 50_000 + "only"),
    ("slashes", "Sizes " + "S/" * 50_000 + " only:"),
    ("cells", "|a" * 20_000 + "\n" + "|-" * 20_000),
    ("spaces", "Row 1" + " " * 100_000 + "x"),
    ("spaced heading", "## Front" + " " * 100_000 + "(make 2)"),
    ("ands", "Row 1 and" + " and" * 50_000),
    ("a word", "A" * 100_000 + ": ch 2"),
    ("definitions", "## Special stitches\n\n" + "Shell: (2 dc) in st\n" * 5_000),
    ("wrapped", "Row 1: sc\n" + "and so on\n" * 15_000),
    ("ends", "\r" * 100_000),
)


@pytest.mark.parametrize("case", HOSTILE, ids=lambda c: c[0])
def test_bounded_work(case: tuple[str, str]) -> None:
    start = time.process_time()
    read_manuscript(case[1], "x")
    assert time.process_time() - start < 20  # seconds of this process


def test_too_much_is_said_once_and_stays_in_the_document() -> None:
    text = dict(HOSTILE)["rows"]
    manuscript, diagnostics = read_manuscript(text, "x")
    (one,) = diagnostics
    assert one.finding.code.slug == "text-too-long"
    assert text[one.place.start :].startswith("Row 4999: ")
    assert sum(len(s.courses) for s in manuscript.sections) == 5_000
    assert manuscript.blocks[-1].place.end == len(text)
