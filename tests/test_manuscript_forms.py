"""Lines that stand for others, call rows by name, stand apart, or are for some sizes."""

from stitchproof.language.manuscript import BlockKind
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.language.tree import Course, Make, RepeatRows, Shape

START = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20)\n"


def courses(text: str) -> list[Course]:
    manuscript, _ = read_manuscript(text, "x")
    return [course for section in manuscript.sections for course in section.courses]


def labels(text: str) -> list[str]:
    return [course.label.words for course in courses(text)]


def slugs(text: str) -> list[str]:
    return [one.finding.code.slug for one in read_manuscript(text, "x")[1]]


def test_a_row_that_stands_for_all_even_ones_is_put_in_where_it_is_worked() -> None:
    text = (
        f"{START}Row 2 and all even rows: Ch 1, sc in each st across, turn.\n"
        "Row 3: Ch 1, hdc in each st across, turn.\nRow 5: Ch 1, dc in each st across, turn.\n"
        "Row 6: Ch 1, sc in each st, turn.\nRow 9: Ch 1, dc in each st.\n"
    )
    assert labels(text) == [
        *("Ch", "Row 1", "Row 2 and all even rows", "Row 3", "(Row 4)", "Row 5", "Row 6"),
        *("(Row 8)", "Row 9"),
    ]
    made = courses(text)
    assert made[4].does == made[2].does
    manuscript, _ = read_manuscript(text, "x")
    for block in manuscript.blocks:
        if block.course is not None:
            section, index = block.course
            course = manuscript.sections[section].courses[index]
            assert course.place == block.place


def test_listed_rows_are_worked_between_the_others() -> None:
    text = (
        f"{START}Rows 2, 4 and 6: Ch 1, sc in each st across, turn.\n"
        "Row 3: Ch 1, hdc in each st across, turn.\nRow 5: Ch 1, dc in each st across, turn.\n"
    )
    assert labels(text) == [
        *("Ch", "Row 1", "Rows 2, 4 and 6", "Row 3", "(Row 4)", "Row 5", "(Row 6)"),
    ]


def test_rows_and_so_on() -> None:
    text = (
        f"{START}Rows 2, 4, 6 …: Ch 1, sc in each st across, turn.\n"
        "Row 3: Ch 1, hdc in each st, turn.\nRow 9: Ch 1, dc in each st across, turn.\n"
    )
    assert labels(text)[3:] == ["Row 3", "(Row 4)", "(Row 6)", "(Row 8)", "Row 9"]


def test_listed_rows_that_nothing_stands_between_stay_one_line() -> None:
    text = f"{START}Rows 3, 5 and 7: Ch 1, sc in each st across, turn.\nRow 8: Ch 1, turn.\n"
    assert labels(text)[2:] == ["Rows 3, 5 and 7", "Row 8"]


def test_rows_called_by_name() -> None:
    text = (
        f"{START}Dec Row: Ch 1, sc2tog, sc in each st across, turn. (19)\n"
        "Even Row: Ch 1, sc in each st across, turn.\nRep Dec Row. (18)\nRep Even Row twice.\n"
        "Work Dec Row every 4th row 3 times. (15)\nRep last row 4 times.\n"
    )
    made = courses(text)
    assert [c.label.words for c in made[2:]] == [
        *("Dec Row", "Even Row", "Rep Dec Row", "Rep Even Row twice"),
        *("Work Dec Row every 4th row", "Rep last row"),
    ]
    assert made[4].does == made[2].does
    assert made[5].does == made[3].does
    assert made[5].label.span is not None
    assert made[5].label.span.value == (2,)
    assert isinstance(made[6].does, tuple)
    assert [type(step) for step in made[6].does] == [Shape]
    assert isinstance(made[7].does, RepeatRows)
    assert slugs(text) == []


def test_rows_that_form_the_pattern() -> None:
    text = (
        f"{START}Row 2: Ch 1, hdc in each st across, turn.\nRow 3: Ch 1, sc in each st, turn.\n"
        "Rows 2 and 3 form the pattern. Repeat them 6 times more.\n"
    )
    made = courses(text)[-1]
    assert isinstance(made.does, RepeatRows)
    assert made.does.first is not None
    assert made.does.last is not None
    assert (made.does.first.value, made.does.last.value) == ((2,), (3,))
    assert made.does.often is not None
    assert made.does.often.more
    told = text.replace(" Repeat them 6 times more.", "")
    assert labels(told)[-1] == "Row 3"
    assert slugs(told) == []


def test_lines_that_never_go_on_with_the_row_above() -> None:
    text = (
        f"{START}Stuff firmly.\nRow 2: Ch 1, sc in each st across, turn. (20)\nSIDES\n"
        "Row 3: Ch 1, sc in each st across.\nTurn the work inside out and stuff firmly.\n"
        "Sew the short ends together.\n"
    )
    manuscript, found = read_manuscript(text, "x")
    assert found == []
    prose = [b.place for b in manuscript.blocks if b.kind is BlockKind.PROSE]
    assert [text[p.start : p.end] for p in prose] == [
        "Stuff firmly.",
        "SIDES",
        "Turn the work inside out and stuff firmly.\nSew the short ends together.",
    ]


def test_a_bare_number_goes_on_counting() -> None:
    text = f"{START}2. Ch 1, sc in every st across. (20)\n3. Ch 1, sc in every st across. (20)\n"
    assert labels(text)[2:] == ["2", "3"]


def test_a_label_within_a_label() -> None:
    made = courses(f"{START}Shape neck: Next row: Ch 1, sc in first 8 sts, turn.\n")[-1]
    assert made.label.words == "Shape neck"
    assert made.label.span is not None


def test_a_schedule_begins_a_line() -> None:
    text = (
        f"{START}Work in patt as established, dec 1 st at each end of next 4 rows. (12)\n"
        "Continue in sc, inc 1 st at each end of every 4th row 3 more times. (18)\n"
    )
    made = [c.does for c in courses(text)[2:]]
    told = [does for does in made if isinstance(does, tuple)]
    assert [sum(isinstance(s, Shape) for s in does) for does in told] == [1, 1]


def test_sizes_of_lines_below_one_another() -> None:
    text = (
        "SIZES\nXS (S, M)\n\nCh 10 (12, 14).\nRow 1: Sc in 2nd ch from hook and in each ch.\n"
        "M only:\nRow 2: Ch 1, sc in each st.\nAll other sizes: Fasten off.\nBoth sizes:\n"
        "Row 3: Ch 1, sc in each st.\n"
    )
    manuscript, _ = read_manuscript(text, "x")
    assert manuscript.sizes_line == ("XS", "S", "M")
    assert [c.only for c in courses(text)] == [(), (), ("M",), ("XS", "S"), ()]


def test_lists_of_sizes() -> None:
    def first(text: str) -> object:
        steps = courses(text)[0].does
        assert isinstance(steps, tuple)
        step = steps[0]
        assert not isinstance(step, Make)
        return getattr(step, "count").value  # noqa: B009 - a foundation chain

    assert first("Sizes: XS (S, M) (L, XL)\n\nCh 11 (12, 13) (14, 15).\n") == (11, 12, 13, 14, 15)
    assert first("Sizes: S [M] {L} /XL/\n\nCh 21 [23] {25} /27/.\n") == (21, 23, 25, 27)
    assert first("Sizes: S (M, L)\n\nCh 10 (12).\n") == (10, 12)
    assert courses("R1. MR, sc 8 (8)\nFold flat.\n")[0].stated is not None


def test_a_foundation_behind_a_sentence() -> None:
    text = "Make a slip knot. Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch, turn.\n"
    assert labels(text) == ["Ch", "Row 1"]
    assert labels(f"{START}Divide for neck: Ch 1, sc in next 4 sts, turn.\n")[-1] == (
        "Divide for neck"
    )


def test_small_labels_without_a_mark() -> None:
    text = (
        "ch 21\nrow 1 sc in 2nd ch from hook and each ch across 20 sc\n"
        "row 2 ch 2 (counts as hdc), turn, sk 1, hdc in each st across 20 hdc\n"
    )
    made = courses(text)
    assert [c.label.words for c in made] == ["Ch", "row 1", "row 2"]
    assert [len(c.stated.statements) if c.stated else 0 for c in made] == [0, 1, 1]


def test_definitions_that_stand_without_a_heading() -> None:
    text = (
        "Beg-cl: ch 2, (yo, insert hook in ring, yo and draw up a loop, yo, draw through 2 loops)"
        " twice, yo, draw through all 3 loops.\nC4F: sk next 2 sts, FPtr around next 2 sts, then"
        " FPtr around 2 skipped sts.\nUK is not used.\nShell = 5 dc in same st.\n\n" + START
    )
    manuscript, _ = read_manuscript(text, "x")
    assert {"beg-cl", "shell"} <= {special.name for special in manuscript.specials}
    assert labels(text) == ["Ch", "Row 1"]


def test_a_bare_number_at_the_end_of_a_row_is_its_count() -> None:
    for tail in ("turn. 20", "turn 20", "turn. <20>", "across 20 sc"):
        made = courses(f"{START}Row 2: Ch 1, sc in each st {tail}\n")[-1]
        assert made.stated is not None, tail
        assert made.stated.statements[0].number.value == (20,)
    works = courses(f"{START}Row 2: Ch 1, sc in each st, turn. 12 sc in ring, turn.\n")[-1]
    assert works.stated is None


def test_ages_and_dashes_in_sizes() -> None:
    assert read_manuscript("Sizes: 4 [6: 8: 10] years\n", "x")[0].sizes_line == (
        *("4", "6", "8", "10"),
    )
    assert read_manuscript("Sizes: 34 (36-38-40)\n", "x")[0].sizes_line == (
        *("34", "36", "38", "40"),
    )
    assert read_manuscript("Sizes: 2-4 (6-8, 10-12)\n", "x")[0].sizes_line == (
        *("2-4", "6-8", "10-12"),
    )
