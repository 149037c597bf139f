"""The reader of a whole manuscript."""

from pathlib import Path

import pytest

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.language.manuscript import BlockKind, Manuscript
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.language.tree import Counts, Group, Make, Post, RepeatRows, Same, Stitch, Times

TEE = Path(__file__).parents[1] / "examples" / "marram-tee.md"


def read(text: str) -> Manuscript:
    return read_manuscript(text, "x")[0]


def found(text: str) -> list[Diagnostic]:
    return read_manuscript(text, "x")[1]


def labels(text: str) -> list[tuple[str, list[str]]]:
    return [(s.name, [c.label.words for c in s.courses]) for s in read(text).sections]


def flat(text: str) -> list[str]:
    return [label for _, some in labels(text) for label in some]


def slugs(text: str) -> list[str]:
    return [one.finding.code.slug for one in found(text)]


# --------------------------------------------------------------------------- the whole example


def test_the_tee() -> None:
    text = TEE.read_text("utf-8")
    tee, diagnostics = read_manuscript(text, "marram-tee.md")
    assert diagnostics == []
    assert tee.terms == "US"
    assert [(s.name, s.level, s.title, s.copies.value) for s in tee.sections] == [
        ("Panel (make 2)", 2, "Panel", (2,)),
        ("Finishing", 2, "Finishing", (1,)),
        ("Neck edging", 2, "Neck edging", (1,)),
        ("Armhole edging (make 2)", 2, "Armhole edging", (2,)),
    ]
    assert [c.label.words for c in tee.sections[0].courses] == [
        *("Ch", "Row 1 (RS)", "Row 2 (WS)", "Row 3", "Row 4", "Row 5", "Row 6", "Rows 7–{rows}"),
        "Fasten off",
    ]
    assert [c.label.words for c in tee.sections[1].courses] == ["Shoulders", "Sides"]
    counted = [(s.title, c.label.words) for s in tee.sections for c in s.courses if c.stated]
    assert counted == [
        *(
            ("Panel", row)
            for row in ("Row 1 (RS)", "Row 2 (WS)", "Row 3", "Row 5", "Rows 7–{rows}")
        ),
        *(("Neck edging", f"Rnd {n}") for n in (1, 2, 3)),
        *(("Armhole edging", f"Rnd {n}") for n in (1, 2, 3)),
    ]
    assert [(r.topic, r.chains, r.counts) for r in tee.rules] == [
        ("turning chain", 1, Counts("", throughout=True)),
        ("turning chain", 2, Counts("", throughout=True)),
    ]
    assert [(s.name, s.stitch) for s in tee.specials] == [("fptr", Stitch("tr", post=Post.FRONT))]
    assert len(tee.numbers) == 26
    assert all(text[n.place.start : n.place.end] == n.spelling for n in tee.numbers)


def test_a_range_that_repeats_rows() -> None:
    tee = read(TEE.read_text("utf-8"))
    does = tee.sections[0].courses[7].does
    assert isinstance(does, RepeatRows)
    assert (does.first, does.last) == (read_number(3), read_number(6))
    assert does.often is not None
    assert does.often.more
    assert does.ending == "WS"


def read_number(value: int) -> object:
    text = f"Ch 20.\n\nRow 9: Rep Row {value}.\n"
    does = read(text).sections[0].courses[1].does
    assert isinstance(does, RepeatRows)
    return does.first


# --------------------------------------------------------------------------- which lines


def test_raw_lines_in_a_piece() -> None:
    text = (
        "## Front\n\nCh 20.\n\n5. Ch 1, sc in each st\nacross, turn.\n- 24 sc\n6. Ch 1, turn.\n\n"
        "Row 7: Sc in next st\n---\n\n    Row 8: Sc across.\n\nRow 9: *sc in next st,\n"
        "* sk next st; rep from * across.\n\nRow 10: Sc in next st,\n# ch 1, sk next st #,\n"
        "rep from # to # across.\n"
    )
    assert flat(text) == ["Ch", "5", "6", "Row 7", "Row 8", "Row 9", "Row 10"]
    courses = read(text).sections[0].courses
    assert text[courses[1].place.start : courses[1].place.end].endswith("- 24 sc")
    assert text[courses[6].place.start : courses[6].place.end].endswith("across.")


def test_what_markdown_is_sure_of_is_no_instruction() -> None:
    text = (
        "Ch 20.\n\n> Row 1: quoted\nRow 2: Sc across.\n\n| a | b |\n|---|---|\n| Row 3: | x |\n"
        "Row 4: Sc across.\n\n```\nRow 5: fenced\n```\n\n<div>\nRow 6: hidden\n</div>\n\n"
        "![Row 7](<chart: Front>)\n"
    )
    assert flat(text) == ["Ch", "Row 2", "Row 4"]
    kinds = [b.kind for b in read(text).blocks]
    assert kinds == [
        *(BlockKind.INSTRUCTION, BlockKind.QUOTE, BlockKind.INSTRUCTION, BlockKind.TABLE),
        *(BlockKind.INSTRUCTION, BlockKind.CODE, BlockKind.HTML, BlockKind.PICTURE),
    ]


def test_a_line_goes_on_with_the_one_above_unless_a_blank_line_lies_between() -> None:
    assert flat("Ch 20.\n\nRow 1: Sc across.\nTurn.\n\nFasten off.\n") == [
        "Ch",
        "Row 1",
        "Fasten off",
    ]


def test_a_wrapped_row_reference_is_no_label() -> None:
    text = (
        "Ch 20.\n\nRow 1: Sc in each ch across, turn.\n\nRow 2: Work same as\n"
        "Row 1. Turn.\n\nRow 3: Rep\nRow 2.\n"
        ""
        ""
        ""
        ""
        ""
    )
    assert flat(text) == ["Ch", "Row 1", "Row 2", "Row 3"]


def test_rows_worked_again_stand_alone() -> None:
    text = (
        "Ch 20.\n\nRow 1: Sc across, turn.\n"
        "Row 2: Ch 1, sc across. Rep Rows 1 and 2 4 times.\nRep Row 2.\n"
        ""
        ""
        ""
        ""
        ""
    )
    assert flat(text) == ["Ch", "Row 1", "Row 2", "Rep Rows 1 and 2", "Rep Row 2"]
    does = read(text).sections[0].courses[3].does
    assert isinstance(does, RepeatRows)
    assert isinstance(does.often, Times)


@pytest.mark.parametrize(
    "heading", ["Notes", "Materials", "Gauge", "Abbreviations", "Pattern notes"]
)
def test_narrative_headings_hold_prose(heading: str) -> None:
    text = f"## {heading}\n\nSkip what you like. Ch 3 counts as a dc.\n\nRow 1 is the right side.\n"
    assert labels(f"{text}\nRow 4: work loosely.\n\n## Front\n\nCh 20.\n") == [("Front", ["Ch"])]


def test_an_introduction_is_prose() -> None:
    text = (
        "# Cap\n\nWork it in a day. Join the pieces.\n\nTurn it inside out.\n\n## Cap\n\n"
        "Ch 4, join.\n"
    )
    assert labels(text) == [("Cap", ["Ch"])]


def test_finishing_holds_both() -> None:
    text = (
        "## Finishing\n\nSew the buttons on. Weave in ends.\n\n"
        "Shoulders: RS together, whipstitch 12 sts"
        " from each outer edge of the last row.\n\nBlock it.\n"
    )
    assert labels(text) == [("Finishing", ["Shoulders"])]


def test_notes_without_heading_marks() -> None:
    text = "Notes\n\nSk no rows. Work loosely.\n\nSk nothing.\n\nCh 20.\n\nRow 1: Sc across.\n"
    assert flat(text) == ["Ch", "Row 1"]


def test_bullets_before_labels() -> None:
    text = "- Ch 20.\n- Row 1 (RS): Sc across, turn.\n- Fasten off.\n"
    assert flat(text) == ["Ch", "Row 1 (RS)", "Fasten off"]


def test_headings() -> None:
    text = (
        "# Tee\n\n## Front\n\nCh 8.\n\n### Left shoulder\n\nRow 1: Sc across.\n\nBack\n"
        "----\n\nCh 9.\n\n## Empty\n"
        ""
        ""
        ""
        ""
        ""
    )
    assert [(s.name, s.level) for s in read(text).sections] == [
        ("Front", 2),
        ("Left shoulder", 3),
        ("Back", 2),
    ]


def test_a_file_without_headings_is_one_piece() -> None:
    assert [(s.name, s.level) for s in read("Ch 8.\n\nRow 1: Sc across.\n").sections] == [("", 0)]


@pytest.mark.parametrize(
    ("heading", "title", "copies"),
    [
        ("Sleeve (make 2)", "Sleeve", (2,)),
        ("Sleeves – make two", "Sleeves", (2,)),
        ("Pocket (2 pieces)", "Pocket", (2,)),
        ("Front", "Front", (1,)),
    ],
)
def test_copies(heading: str, title: str, copies: tuple[int, ...]) -> None:
    section = read(f"## {heading}\n\nCh 8.\n").sections[0]
    assert (section.name, section.title, section.copies.value) == (heading, title, copies)


def test_copies_said_in_a_line() -> None:
    assert read("## Strap\n\nMake 2.\n\nCh 8.\n").sections[0].copies.value == (2,)


# --------------------------------------------------------------------------- sizes


@pytest.mark.parametrize(
    ("line", "names"),
    [
        ("Sizes: S (M, L)", ("S", "M", "L")),
        ("Sizes S (M, L) [1X, 2X]", ("S", "M", "L", "1X", "2X")),
        ("**Size:** Small (Medium, Large)", ("Small", "Medium", "Large")),
        ("Size: 40 x 60 cm", ()),
        ("Size: one size", ()),
        ("Finished size: 40 cm (16 in) wide", ()),
    ],
)
def test_the_line_of_sizes(line: str, names: tuple[str, ...]) -> None:
    assert read(f"{line}\n\nCh 20.\n").sizes_line == names


def test_rows_for_some_sizes() -> None:
    text = (
        "Sizes: S (M, L)\n\nCh 20.\n\nSizes M and L only:\nRow 1: Sc across.\nRow 2: Sc across.\n\n"
        "All sizes:\nRow 3: Sc across.\n\nSize S only: Row 4: Sc across.\nRow 5: Sc across.\n\n"
        "Size S ends here.\n\nRow 6: Sc across.\n"
    )
    only = {c.label.words: c.only for c in read(text).sections[0].courses}
    assert only == {
        "Ch": (),
        "Row 1": ("M", "L"),
        "Row 2": ("M", "L"),
        "Row 3": (),
        "Row 4": ("S",),
        "Row 5": (),
        "Size S ends here": ("S",),
        "Row 6": ("M", "L"),
    }


def test_sizes_of_the_front_matter_end_and_go_on() -> None:
    text = (
        '+++\n[sizes]\nmake = ["S", "M", "L"]\n+++\n\n## Front\n\nCh 20.\n\n'
        "Size S: fasten off here.\nRow 2: Sc across.\nSize M ends here.\nRow 3: Sc across.\n\n"
        "All sizes: Row 4: Sc across.\n\nSize L only: Fasten off.\nRow 5: Sc across.\n"
        "Row 6: Join yarn in first st, sc across.\n"
    )
    only = {c.label.words: c.only for c in read(text).sections[0].courses}
    assert only == {
        "Ch": (),
        "Size S": ("S",),
        "Row 2": ("M", "L"),
        "Size M ends here": ("M",),
        "Row 3": ("L",),
        "Row 4": (),
        "Size L only": ("L",),
        "Row 5": ("S", "M"),
        "Row 6": (),
    }


def test_sizes_of_a_published_table_end_and_go_on() -> None:
    text = (
        '+++\n[sizes]\nbody = "women"\nmake = "S-L"\n+++\n\n## Front\n\nCh 20.\n\n'
        "Size S ends here; all other sizes continue with Row 2.\nRow 2: Sc across.\n"
    )
    only = {c.label.words: c.only for c in read(text).sections[0].courses}
    assert only["Row 2"] == ("M", "L")


def test_numbers_in_order() -> None:
    text = (
        "## Notes\n\nThe neck is 55 (57) cm wide.\n\n## Front\n\nCh 20 (22).\n\n"
        "Rows 1-4 (6): Sc across. 20 (22) sc\n"
        ""
        ""
        ""
        ""
        ""
    )
    assert [n.spelling for n in read(text).numbers] == ["55 (57) cm", "20 (22)", "4 (6)", "20 (22)"]


def test_words() -> None:
    words = [
        w for w, _ in read("Ch 20.\n\nRow 1 (RS): Sc2tog, FPdc around next st, sk 1 st.\n").words
    ]
    assert {"ch", "rs", "sc2tog", "fpdc", "sk", "st"} <= set(words)
    assert "around" not in words


# --------------------------------------------------------------------------- conventions


@pytest.mark.parametrize(
    ("sentence", "rules"),
    [
        ("The ch-1 and ch-2 at the start of rows never count as a st.", [("", 1), ("", 2)]),
        ("Ch 3 at the start of a row counts as the first dc throughout.", [("dc", 3)]),
        ("Turning ch does not count.", [("", None)]),
        ("Turning chains count as a stitch.", [("st", None)]),
        ("Beg ch-3 counts as dc; ch-1 does not count as a st.", [("dc", 3), ("", 1)]),
        ("Do not count the ch-1 as a st.", [("", 1)]),
        (
            "3 ch at the beginning of a row stands for the first dc and is counted as such.",
            [("dc", 3)],
        ),
        ("The beginning ch 3 is included in the stitch count.", [("st", 3)]),
        ("The turning ch is no part of it.", []),
        ("The turning ch is not part of the stitch count.", [("", None)]),
        ("Ch = chain. Sl st = slip stitch. Tog = together.", []),
        ("The ch 2 at the start of each round counts as a dc.", [("dc", 2)]),
        ("The ch 1 at the start of each row does not count as a sc.", [("", 1)]),
        ("Count your stitches often.", []),
        ("Stitch counts stand at the end of a row.", []),
    ],
)
def test_turning_chains(sentence: str, rules: list[tuple[str, int | None]]) -> None:
    text = f"## Notes\n\n{sentence}\n\n## Front\n\nCh 20.\n"
    told = [(r.counts.stitch, r.chains) for r in read(text).rules if r.counts]
    assert told == rules


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("Ch 5 counts as 1 dc and ch 2.", {5: ("dc", 2)}),
        ("Ch 3 counts as 1 dc, ch 5 counts as 1 dc and ch 2.", {3: ("dc", 0), 5: ("dc", 2)}),
        ("Ch 3 counts as 1 dc and ch 5 as 1 dc and ch 2.", {3: ("dc", 0), 5: ("dc", 2)}),
        ("Ch 4 counts as dc and ch 1, and ch 3 counts as dc.", {4: ("dc", 1), 3: ("dc", 0)}),
    ],
)
def test_each_chain_counts_as_what_is_said_of_it(
    words: str, told: dict[int, tuple[str, int]]
) -> None:
    manuscript, _ = read_manuscript(f"{words}\n\nCh 9.\nRow 1: Sc in each ch.\n", "said.md")
    counted = [(r.chains, r.counts) for r in manuscript.rules if r.topic == "turning chain"]
    assert {n: (c.stitch, c.chains) for n, c in counted if c is not None} == told


def test_chains_that_count_as_more() -> None:
    (rule,) = read("## Notes\n\nCh 4 counts as dc and ch 1.\n\n## Front\n\nCh 20.\n").rules
    assert rule.counts == Counts("dc", 1, throughout=True)


@pytest.mark.parametrize(
    ("sentence", "topic", "holds"),
    [
        ("Each ch-1 space counts as a st.", "chain spaces", True),
        ("Ch-2 spaces do not count as sts.", "chain spaces", False),
        (
            "The ch-2 spaces mark the raglan and are not included in the stitch counts.",
            "chain spaces",
            False,
        ),
        ("Ch-2 corner spaces are left out of the count.", "chain spaces", False),
        ("Ch-1 spaces are included in the stitch count.", "chain spaces", True),
        ("Sl sts are not counted.", "slip stitches", False),
        ("`Rep 4 times` means 4 times in all.", "repeats", False),
    ],
)
def test_other_conventions(sentence: str, topic: str, holds: bool) -> None:  # noqa: FBT001
    (rule,) = read(f"## Notes\n\n{sentence}\n\n## Front\n\nCh 20.\n").rules
    assert (rule.topic, rule.holds) == (topic, holds)


def test_no_convention() -> None:
    for sentence in (
        "Sl st = slip stitch. Tog = together.",
        "The ch-2 spaces are shown apart in the stitch counts.",
    ):
        assert read(f"## Notes\n\n{sentence}\n\n## Front\n\nCh 20.\n").rules == ()


def test_conventions_of_one_piece() -> None:
    manuscript = read(
        "## Front\n\nThe ch-1 does not count as a st.\n\nCh 20.\n\n## Back\n\nCh 20.\n"
    )
    assert manuscript.rules == ()
    assert [len(s.rules) for s in manuscript.sections] == [1, 0]


# --------------------------------------------------------------------------- terms

ROW = "Ch 20.\n\nRow 1: {} in next st, {} in next st.\n"


@pytest.mark.parametrize(
    ("front", "first", "second", "terms", "found_slugs"),
    [
        ("", "Sc", "dc", "US", []),
        ("", "Htr", "dc", "UK", []),
        ("", "Dc", "dc", "US", ["terms-assumed"]),
        ("", "Miss 1 st, dc", "dc", "UK", []),
        ("", "Miss 1 st, sc", "dc", "US", []),
        ("", "Sc", "htr", "US", ["mixed-terms"]),
        ("UK terms used throughout.\n\n", "Dc", "tr", "UK", []),
        ("US terms. UK terms in brackets.\n\n", "Sc", "dc", "US", []),
        ('+++\nterms = "UK"\n+++\n', "Dc", "tr", "UK", []),
        ('+++\nterms = "UK"\n+++\n', "Sc", "tr", "UK", ["mixed-terms"]),
        ('+++\nterms = "US"\n+++\n', "Dc", "tr", "US", []),
    ],
)
def test_terms(front: str, first: str, second: str, terms: str, found_slugs: list[str]) -> None:
    text = front + ROW.format(first, second)
    manuscript, diagnostics = read_manuscript(text, "x")
    assert manuscript.terms == terms
    mine = [d.finding.code.slug for d in diagnostics]
    assert [s for s in mine if s in {"mixed-terms", "terms-assumed"}] == found_slugs


# --------------------------------------------------------------------------- special stitches


def test_a_group() -> None:
    text = (
        "## Special stitches\n\nShell (sh): (2 dc, ch 1, 2 dc) in indicated st.\n\n"
        "## Front\n\nCh 20.\n\nRow 1: Sc across.\n"
        ""
        ""
        ""
        ""
        ""
    )
    shell, short = read(text).specials
    assert (shell.name, shell.written, short.name) == ("shell", "Shell", "sh")
    assert shell.body == short.body
    assert shell.body is not None
    first = shell.body[0]
    assert isinstance(first, Make)
    assert (first.stitch, first.at) == (Stitch("dc"), Same())
    assert len(shell.body) == 3


def test_a_special_stitch_is_used_in_a_row() -> None:
    text = (
        "## Special stitches\n\nShell: (2 dc, ch 1, 2 dc) in indicated st.\n\n## Front\n\n"
        "Ch 20.\n\n"
        "Row 1: Shell in next st, sc in next st. (1 shell, 1 sc)\n"
    )
    assert slugs(text) == []
    course = read(text).sections[0].courses[1]
    assert isinstance(course.does, tuple)
    assert isinstance(course.does[0], Group)
    assert course.does[0].name == "shell"
    assert course.stated is not None
    assert [s.unit for s in course.stated.statements] == ["shell", "sc"]


@pytest.mark.parametrize(
    ("definition", "name", "stitch"),
    [
        ("FPtr: Yo twice, insert hook around the post, yo", "fptr", Stitch("tr", post=Post.FRONT)),
        ("Knot st: Yo, insert hook in next st, draw up a loop", "knot st", Stitch("knot st")),
        ("Twin: Yo, insert hook in each of next 2 sts, yo", "twin", Stitch("twin", together=2)),
        ("Hst: half double crochet", "hst", Stitch("hdc")),
    ],
)
def test_movements_and_names(definition: str, name: str, stitch: Stitch) -> None:
    (special,) = read(
        f"## Special stitches\n\n{definition}.\n\n## Front\n\nSc in next st.\n"
    ).specials
    assert (special.name, special.stitch, special.body) == (name, stitch, None)


def test_a_definition_below_its_own_heading() -> None:
    text = (
        "## Special stitches\n\n### Shell (sh)\n\n5 dc in indicated st.\n\n### Knot\n\n"
        "Yo, insert hook, draw up a loop.\n\n## Front\n\nCh 20.\n"
    )
    assert [(s.name, s.stitch) for s in read(text).specials] == [
        *(("shell", None), ("sh", None), ("knot", Stitch("knot"))),
    ]
    assert labels(text) == [("Front", ["Ch"])]


def test_a_range_that_ends_later_in_some_sizes() -> None:
    text = "Sizes: S (M, L)\n\nCh 20.\n\nRows 6-9 (6-11 for L): Rep Row 5.\n"
    label = read(text).sections[0].courses[1].label
    assert label.words == "Rows 6-9 (6-11 for L)"
    assert label.last is not None
    assert label.last.value == (9, 9, 11)


def test_a_bare_increase_is_of_the_stitch_above() -> None:
    course = read("R1: 6 hdc in MR\n\nR2: inc x 6 (12)\n").sections[0].courses[1]
    assert "kind='hdc'" in repr(course.does)
    assert "kind='sc'" not in repr(course.does)


def test_definitions_are_no_instructions() -> None:
    text = "Shell: 5 dc in same st.\n\nCh 20.\n\nRow 1: Sc across.\n"
    assert flat(text) == ["Ch", "Row 1"]
    assert [s.name for s in read(text).specials] == ["shell"]
