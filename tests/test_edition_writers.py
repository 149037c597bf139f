"""One edition in three forms: what is seen, what stays the same, what no author can break."""

import re
import time
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchproof.edition.characters import name_of, printable, shown, unshown
from stitchproof.edition.compose import compose
from stitchproof.edition.html import html
from stitchproof.edition.model import (
    Caution,
    Edition,
    Facts,
    Figure,
    Heading,
    Ink,
    Items,
    Paragraph,
    Part,
    Quote,
    Row,
    Run,
    Table,
    Verbatim,
    plain,
)
from stitchproof.edition.pdf import pdf
from stitchproof.edition.text import WIDTH, text
from stitchproof.edition.write_all import files_of
from tests.conftest import Golden
from tests.edition_inputs import EXAMPLE, manuscript, proof, sizing

TEE = EXAMPLE.read_text("utf-8")
NASTY = '<script>alert(1)</script> &amp; #set page(fill: red) *b* _i_ $x$ \\ "q" {{ }} @ref `r`'


def tee(*chosen: int, draft: bool = False) -> Edition:
    made, of_sizes = manuscript(TEE), sizing(chosen or tuple(range(9)))
    return compose(made, of_sizes, proof(made, of_sizes), draft=draft)


def every_block(words: str) -> Edition:
    """An edition with each kind of block, all of the same words."""
    runs = (Run(words, Ink.LABEL), Run(words, Ink.NUMBER), Run(words))
    table = Table(words, (words, words), ((words, words),))
    svg = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><title>x</title></svg>\n'
    return Edition(
        title=words,
        language="en",
        designer=words,
        version=words,
        date="2026-02-31",
        size=words,
        draft=True,
        notice=words,
        facts=((words, runs),),
        parts=(
            Part((), (Paragraph(runs),)),
            Part(
                runs,
                (
                    Heading(3, runs),
                    Quote(runs),
                    Items((runs, runs)),
                    Items((runs, runs), numbered=True),
                    Facts(((words, runs),)),
                    Row(runs, words),
                    Row(runs, worked=False),
                    table,
                    Figure(words, svg, words, table),
                    Caution(runs),
                    Verbatim(words),
                ),
            ),
        ),
    )


# --------------------------------------------------------------------------- as seen


@pytest.mark.parametrize(
    ("name", "edition"),
    [("tee", tee()), ("tee-M", tee(2)), ("tee-draft", tee(2, 6, draft=True))],
)
def test_plain_text_and_pages_stay_as_they_were_seen(
    golden: Golden, name: str, edition: Edition
) -> None:
    golden(f"editions/{name}.txt", text(edition).decode("utf-8"))
    golden(f"editions/{name}.html", html(edition).decode("utf-8"))


def test_no_line_of_plain_text_is_too_wide() -> None:
    for edition in (tee(), tee(4)):
        assert max(map(len, text(edition).decode("utf-8").splitlines())) <= WIDTH


def test_plain_text_names_what_is_measured() -> None:
    def told(head: tuple[str, ...], *rows: tuple[str, ...]) -> list[str]:
        made = replace(tee(), parts=(Part((), (Table("Measurements by size", head, rows),)),))
        lines = text(made).decode().splitlines()
        return lines[lines.index("Measurements by size:") + 1 : lines.index("End of the pattern.")]

    size = ("3mo", "61.5 cm / 24¼ in")
    assert told(("Size", "Finished chest"), size)[0] == "  3mo: Finished chest 61.5 cm / 24¼ in"
    assert told(("Size", "To fit chest", "Finished chest"), ("3mo", "40 cm", "45 cm"))[0] == (
        "  3mo: To fit chest 40 cm; Finished chest 45 cm"
    )
    words = ("V-st", "2 dc in one place")
    assert told(("Stitch", "How"), words)[:2] == ["  Stitch: How", "  V-st: 2 dc in one place"]
    assert told(("", ""), words)[0] == "  V-st: 2 dc in one place"


def test_a_draft_says_so_everywhere() -> None:
    made = tee(2, draft=True)
    told = text(made).decode("utf-8")
    assert told.startswith("*** Draft: not proved ***")
    assert told.count("*** Draft: not proved ***") == sum(bool(p.title) for p in made.parts) + 2
    page = html(made).decode("utf-8")
    assert "<title>Draft: not proved – Marram Tee, size M</title>" in page
    assert '<p class="draft" role="note">Draft: not proved</p>' in page
    for proved in (text(tee(2)), html(tee(2))):
        assert b"not proved" not in proved


def pages(made: Edition) -> list[list[str]]:
    """Give the lines of every page as they are printed, without head and foot."""
    from io import BytesIO

    from pypdf import PdfReader

    told = [page.extract_text().splitlines() for page in PdfReader(BytesIO(pdf(made))).pages]
    running = {"Marram Tee", "Version 1.0", "Saltgrass Studio"}
    return [
        [line for line in page if line not in running and not line.startswith("Page ")]
        for page in told
    ]


def above(often: int, *parts: Part) -> Edition:
    """Put something below so many lines."""
    lines = Items(tuple(plain(f"line {n}") for n in range(often)))
    return replace(tee(), facts=(), parts=(Part((), (lines,)), *parts))


@pytest.mark.parametrize("often", range(30, 42))
def test_a_heading_stands_on_the_page_of_the_lines_below_it(often: int) -> None:
    rows = tuple(Row(plain(f"Rnd {n}: Sc in each st around.")) for n in range(1, 5))
    only = Paragraph(plain("Size L only:"))
    made = above(often, Part(plain("Hat"), (Heading(3, plain("Brim")), *rows[:2], only, *rows[2:])))
    (page,) = (page for page in pages(made) if "Brim" in page)
    assert page[page.index("Brim") - 1] == "Hat"
    assert page[page.index("Brim") + 2].startswith("Rnd 2")
    for page in pages(made):
        assert page[-1] not in {"Hat", "Brim", "Size L only:"}


@pytest.mark.parametrize("often", [1, 8, 16, 24, 30, 36, 40])
def test_a_drawing_its_name_and_its_table_stand_on_one_page(often: int) -> None:
    figure = next(b for part in tee().parts for b in part.blocks if isinstance(b, Figure))
    made = pages(above(often, Part(plain("Schematics"), (figure,))))
    (page,) = (page for page in made if "Schematics" in page)
    assert page.index("Panel, before seaming") < page.index("Measurements: Panel, before seaming")
    assert sum("cm /" in line for line in page) == 9


def test_a_table_longer_than_a_page_goes_on() -> None:
    names = tuple(f"size {n}" for n in range(80))
    rows = tuple((name, "10 cm / 4 in") for name in names)
    made = pages(above(1, Part(plain("Sizes"), (Table("Measurements", ("Size", "Width"), rows),))))
    assert len(made) > 1
    assert [n for n in names if not any(n in line for page in made for line in page)] == []


def test_brackets_of_the_note_on_sizes_stay_whole() -> None:
    made = tee()
    assert "in (\u00a0), 1X" in html(made).decode()
    for width in range(40, 90):
        words = f"{'x' * width} in {{\u00a0}}. y"
        told = text(replace(made, parts=(Part((), (Paragraph(plain(words)),)),))).decode()
        assert "{ }." in told


def test_every_edition_has_three_files() -> None:
    files = files_of(tee(2), "marram-tee")
    assert list(files) == ["marram-tee-M.pdf", "marram-tee-M.html", "marram-tee-M.txt"]
    assert files["marram-tee-M.pdf"].startswith(b"%PDF-1.7")
    assert next(iter(files_of(tee(), "marram-tee"))) == "marram-tee.pdf"


def test_the_same_edition_gives_the_same_bytes() -> None:
    assert dict(files_of(tee(), "t")) == dict(files_of(tee(), "t"))


# --------------------------------------------------------------------------- what authors type


@pytest.mark.parametrize("words", [NASTY, "", " ", "\n", "a\nb", "é ½ – ’", "🧶 字 \u202e x"])
def test_any_words_fit_in_any_block(words: str) -> None:
    files = files_of(every_block(words), "x")
    assert all(files.values())


def test_markup_in_a_manuscript_is_shown() -> None:
    page = html(every_block(NASTY)).decode("utf-8")
    assert "<script" not in page
    assert page.count("&lt;script&gt;alert(1)&lt;/script&gt; &amp;amp;") > 20
    assert NASTY in text(every_block(NASTY)).decode("utf-8").replace("\n", " ")


def test_forbidden_characters_leave_a_trace() -> None:
    assert printable("a\x00b\x1b\x7f\ud800\ufffe\U0001ffff") == "a\ufffdb" + "\ufffd" * 5
    assert printable("a\tb\nc\r\u2028") == "a\tb\nc\n\u2028"
    for made in (html, text, pdf):
        assert made(every_block("a\x00\ud800\ufffeb"))


def test_characters_without_a_shape_are_named_in_print() -> None:
    assert shown("Wind 🧶 \ufe0f½–é") == "Wind [ball of yarn] ½–é"
    assert unshown("Wind 🧶\u200d\ufe0f½–é\n字") == {"🧶", "字"}
    assert unshown("plain") == frozenset()
    assert name_of("\ue000") == "character e000"


@settings(max_examples=25, deadline=None)
@given(st.text(max_size=60))
def test_no_words_break_a_writer(words: str) -> None:
    files_of(every_block(words), words)


def test_a_word_longer_than_a_page_and_a_row_longer_than_one_are_set() -> None:
    edition = every_block("x")
    long = (Run("y" * 20_000), Run(" dc" * 4000))
    made = replace(edition, parts=(Part((), (Row(long), Paragraph(long))),))
    assert len(pdf(made)) > 10_000
    assert text(made).decode("utf-8").count("y") >= 40_000


def test_time_grows_in_a_line_with_the_rows() -> None:
    row = Row((Run("Row 1:", Ink.LABEL), Run(" sc in each st across, turn. "), Run("12")))

    def seconds(rows: int) -> float:
        made = replace(every_block("x"), parts=(Part((), (row,) * rows),))
        start = time.process_time()
        html(made)
        text(made)
        return time.process_time() - start

    seconds(100)
    assert seconds(20_000) < 40 * max(seconds(2000), 0.005)


def test_headings_of_one_name_are_told_apart() -> None:
    part = Part(plain("Neck"), (Paragraph(plain("x")),))
    page = html(replace(every_block("x"), parts=(part, part))).decode("utf-8")
    assert re.findall(r'<h2 id="([^"]*)"', page) == ["s-neck", "s-neck-2"]
    assert re.findall(r'<a href="#([^"]*)"', page) == ["s-neck", "s-neck-2"]
