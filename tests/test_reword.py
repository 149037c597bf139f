"""Rewording: only the words of stitches change, and the way back gives the same bytes.

Names in US and UK terms: stitches.toml, with its sources; the rest is common practice, no source.
"""

import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.pipeline.reword import reword
from stitchproof.trade.tables import Terms
from tests.conftest import Golden

EXAMPLES = sorted((Path(__file__).parents[1] / "examples").glob("*.md"))
US = """+++
terms = "US"
+++

# Heron Scarf

Worked in US terms throughout: {words}

## Gauge

16 sts and 20 rows = 10 cm in {stitch}.

## Scarf

Ch 21.

Row 1: {row}
"""


def line(row: str, words: str = "sc is short.", stitch: str = "sc") -> str:
    return US.replace("{row}", row).replace("{words}", words).replace("{stitch}", stitch)


def changed(text: str, terms: Terms) -> str:
    """Give the row of a manuscript in other terms, and see that nothing else is touched."""
    made = reword(text, "scarf.md", terms)
    assert reword(made.text, "scarf.md", "US").text == text
    return made.text


def slugs(found: tuple[Diagnostic, ...]) -> list[str]:
    return [one.finding.code.slug for one in found]


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("Sc in 2nd ch from hook, SC in next ch.", "Dc in 2nd ch from hook, DC in next ch."),
        ("2sc, 3dc in next st, sc3, 5-dc cluster.", "2dc, 3tr in next st, dc3, 5-tr cluster."),
        ("sc2tog, dc3tog, FPtr, bpdc, FP-dc, FPDC.", "dc2tog, tr3tog, FPdtr, bptr, FP-tr, FPTR."),
        ("hdc, tr, dtr, trtr, Hdc, HDC.", "htr, dtr, trtr, qtr, Htr, HTR."),
        ("esc, ehdc, edc, fsc, ldc, rsc.", "exdc, exhtr, extr, fdc, ltr, rdc."),
        ("Single Crochet in next st.", "Double Crochet in next st."),
        ("single\ncrochet in next st.", "double\ncrochet in next st."),
        ("half-double crochet, half double.", "half-treble crochet, half treble."),
        (
            "treble crochet, Treble, double treble.",
            "double treble crochet, Double treble, triple treble.",
        ),
        ("sl st in next st, ch 3, shell in next st.", "sl st in next st, ch 3, shell in next st."),
        ("sk 2 sts, Sk next st, skip 3 sts.", "miss 2 sts, Miss next st, skip 3 sts."),
        ("sc in next sc (UK dc).", "dc in next dc (UK dc)."),
        ("inc, dec, sc dec, inv dec.", "inc, dec, dc dec, inv dec."),
    ],
)
def test_names_move_by_one_step_and_back(us: str, uk: str) -> None:
    assert changed(line(us), "UK") == (
        line(uk, "dc is short.", "dc")
        .replace('"US"', '"UK"')
        .replace("US terms", "UK terms")
        .replace("## Gauge", "## Tension")
    )


def test_a_text_in_the_terms_asked_for_stays() -> None:
    made = reword(line("Sc in each ch."), "scarf.md", "US")
    assert (made.text, made.edits, made.found) == (line("Sc in each ch."), (), ())


def test_names_between_braces_and_in_the_front_matter_stay() -> None:
    text = line("Sc in next {sc} sts.").replace(
        'terms = "US"', 'terms = "US"\ntitle = "A dc tee"\n[counts]\nsc = { formula = "6" }'
    )
    made = changed(text, "UK")
    assert "Dc in next {sc} sts." in made
    assert 'title = "A dc tee"' in made
    assert 'sc = { formula = "6" }' in made


def test_both_words_for_skipping_are_kept_where_a_text_uses_both() -> None:
    made = changed(line("Sk 2 sts, sc in next st, miss 1 st, sc in each st."), "UK")
    assert "Sk 2 sts, dc in next st, miss 1 st, dc in each st." in made


def test_a_word_for_skipping_that_is_the_other_systems_comes_back() -> None:
    there = changed(line("Miss 2 sts, sc in next st, miss 1 st, sc in each st."), "UK")
    assert "Sk 2 sts, dc in next st, sk 1 st, dc in each st." in there


def test_stops_behind_some_abbreviations_come_back() -> None:
    stops = "1 s.c. in next ch., 1 dc. in next s.c., (1 s.c., 1 h.d.c.) in next."
    there = changed(line(stops), "UK")
    assert "1 d.c. in next ch., 1 tr. in next d.c., (1 d.c., 1 h.tr.) in next." in there


def test_terms_that_are_said_in_a_line_of_the_work_are_heard() -> None:
    text = "Ch 20.\n\nRow 1: Dc in each ch across. Fasten off. UK terms throughout!\n"
    made = reword(text, "scarf.md", "US")
    assert made.text == text.replace("Dc", "Sc").replace("UK", "US")
    assert reword(made.text, "scarf.md", "UK").text == text


def test_a_rarer_name_is_told() -> None:
    made = reword(line("Trc in each ch."), "scarf.md", "UK")
    assert "Dtr in each ch." in made.text
    assert slugs(made.found) == ["no-way-back"]


def test_a_text_that_does_not_say_its_terms_is_told() -> None:
    made = reword("Ch 20.\n\nRow 1: Sc in each ch across.\n", "scarf.md", "UK")
    assert made.text == "Ch 20.\n\nRow 1: Dc in each ch across.\n"
    assert slugs(made.found) == ["terms-unsaid"]


def test_what_it_is_in_can_be_told_instead() -> None:
    text = "Ch 20.\r\n\r\nRow 1: Dc in each ch across.\r\n"
    made = reword(text, "scarf.md", "US", written_in="UK")
    assert made.text == text.replace("Dc", "Sc")
    with_front = f'+++\ntitle = "Plain"\n+++\n\n{text}'
    assert reword(with_front, "scarf.md", "US", "UK").text == with_front.replace("Dc in", "Sc in")


WORDS = st.sampled_from(
    (
        *("sc", "dc", "tr", "hdc", "dtr", "Sc", "DC", "FPtr", "sc2tog", "2sc", "treble", "double"),
        *("half", "crochet", "single", "skip", "sk", "miss", "gauge", "tension", "yo", "yarn"),
        *("over", "round", "hook", "terms", "US", "UK", "\n", "\r\n", "-", ",", ".", "(", ")"),
        *("*", "ch", "st", "{", "}", "é", "½", "`", "+++", "## ", "|"),
    )
)


@settings(max_examples=200, deadline=None, derandomize=True)
@given(st.lists(WORDS, max_size=30).map(" ".join))
def test_any_words_come_back_or_are_told(words: str) -> None:
    text = line(words)
    made = reword(text, "scarf.md", "UK")
    if not set(slugs(made.found)) & {"no-way-back", "word-of-other-terms", "terms-unsaid"}:
        assert reword(made.text, "scarf.md", "US").text == text


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_an_example_in_the_other_terms(path: Path, golden: Golden) -> None:
    text = path.read_text("utf-8")
    made = reword(text, path.name, "UK")
    assert slugs(made.found) == []
    assert reword(made.text, path.name, "US").text == text
    golden(f"wordings/{path.stem}-uk.md", made.text)


# --------------------------------------------------------------------------- at the command line


def run(*words: str, cwd: Path) -> subprocess.CompletedProcess[bytes]:
    code = "import sys; from stitchproof.cli import main; sys.exit(main())"
    return subprocess.run(
        [sys.executable, "-c", code, *words], capture_output=True, cwd=cwd, check=False
    )


def test_it_is_printed_byte_by_byte_and_the_file_is_left_alone(tmp_path: Path) -> None:
    raw = line("Sc in each ch across.").replace("\n", "\r\n").encode()
    (tmp_path / "scarf.md").write_bytes(raw)
    made = run("reword", "scarf.md", "--terms", "UK", cwd=tmp_path)
    assert made.returncode == 0
    assert b"Row 1: Dc in each ch across.\r\n" in made.stdout
    assert (tmp_path / "scarf.md").read_bytes() == raw


def test_it_is_written_where_the_author_says(tmp_path: Path) -> None:
    (tmp_path / "scarf.md").write_text(line("Sc in each ch across."), "utf-8")
    made = run("reword", "scarf.md", "--terms", "UK", "--to", "uk.md", cwd=tmp_path)
    assert (made.returncode, made.stdout) == (0, b"wrote uk.md\n")
    assert "Row 1: Dc in each ch across." in (tmp_path / "uk.md").read_text("utf-8")


def test_a_file_that_is_no_text_is_told_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "scarf.md").write_bytes(b"Row 1: \xff")
    made = run("reword", "scarf.md", "--terms", "UK", cwd=tmp_path)
    assert (made.returncode, made.stderr.count(b"\n")) == (2, 1)
