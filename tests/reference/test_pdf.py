"""Printed sheets against the standards of PDF, by two readers that are not ours."""

import io
import re
from collections.abc import Iterator
from typing import Any

import pypdf
import pypdfium2  # type: ignore[import-untyped]
import pytest
from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject

from stitchproof.edition.characters import shown
from stitchproof.edition.model import Edition, Part, Row, Run, plain
from stitchproof.edition.pdf import pdf
from tests.edition_inputs import SIZES
from tests.test_edition_writers import NASTY, every_block, tee

pytestmark = pytest.mark.reference

# ISO 216 A4 and ANSI Letter in points: what is printed on one must fit on the other.
A4 = (595.28, 841.89)
LETTER = (612.0, 792.0)
MARGIN = 28.0  # 1 cm, less than which common printers cannot print; common practice, no source


def opened(edition: Edition) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(pdf(edition)), strict=True)


def held(node: Any, *keys: str) -> Any:  # noqa: ANN401 - a PDF holds anything
    """Follow keys down a document."""
    for key in keys:
        node = node[key].get_object()
    return node


def flowing(reader: pypdf.PdfReader) -> str:
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


def tags(node: object) -> Iterator[str]:
    """Walk the structure tree."""
    if isinstance(node, IndirectObject):
        node = node.get_object()
    if isinstance(node, ArrayObject):
        for child in node:
            yield from tags(child)
    elif isinstance(node, DictionaryObject):
        if "/S" in node:
            yield str(node["/S"])
        if "/K" in node:
            yield from tags(node["/K"])


# ISO 14289-1:2014 (PDF/UA-1), from memory: 5 (identification in XMP), 7.1 (tagged, title shown in
# the window), 7.2 (language), 7.3 (words for pictures), 7.4 (headings).
@pytest.mark.parametrize("edition", [tee(), tee(2), tee(2, draft=True), every_block(NASTY)])
def test_a_sheet_says_that_it_is_accessible(edition: Edition) -> None:
    reader = opened(edition)
    root = reader.root_object
    assert held(root, "/MarkInfo", "/Marked")
    assert held(root, "/Lang") == "en"
    assert held(root, "/ViewerPreferences", "/DisplayDocTitle")
    metadata = held(root, "/Metadata").get_data().decode("utf-8")
    assert re.search(r"pdfuaid:part(?:>|=\")1", metadata)
    found = list(tags(root["/StructTreeRoot"]))
    assert {"/H1", "/H2", "/P", "/Table", "/TH", "/TD", "/Figure"} <= set(found)
    assert reader.outline


def test_a_sheet_names_its_pattern_and_its_designer() -> None:
    information = opened(tee(2)).metadata
    assert information is not None
    assert information.title == "Marram Tee, size M"
    assert information.author == "Saltgrass Studio"
    assert information.creation_date is not None
    assert information.creation_date.date().isoformat() == "2026-11-24"


def figures(node: object) -> Iterator[DictionaryObject]:
    if isinstance(node, IndirectObject):
        node = node.get_object()
    if isinstance(node, ArrayObject):
        for child in node:
            yield from figures(child)
    elif isinstance(node, DictionaryObject):
        if node.get("/S") == "/Figure":
            yield node
        if "/K" in node:
            yield from figures(node["/K"])


def test_every_drawing_has_words_in_its_place() -> None:
    drawn = list(figures(opened(tee(2)).root_object["/StructTreeRoot"]))
    assert [str(node["/Alt"]) for node in drawn] == [
        (
            "Outline of Panel (make 2) in size M, before seaming, seen from the right side, worked "
            "from the bottom of the drawing to the top. Width 54.5 cm / 21¼ in; Height 55 cm / "
            "21¾ in."
        )
    ]
    of_sizes = list(figures(opened(tee()).root_object["/StructTreeRoot"]))
    assert [str(node["/Alt"]).endswith("to the top.") for node in of_sizes] == [True]


def test_what_is_printed_can_be_read_out() -> None:
    told = flowing(opened(tee()))
    for words in (
        "Rows 7–62 (66, 66, 66) [70, 70, 70] {74, 74}: Rep Rows 3–6, 14 (15, 15, 15)",
        "108.5 cm / 42¾ in",
        "17.5 sts and 12 rows = 10 cm / 4 in",
        "FPtr (front post treble crochet)",
        "Page 1 of",
    ):
        assert words in told
    for size in SIZES:
        assert size in told


def test_every_page_of_a_draft_says_so() -> None:
    pages = opened(tee(draft=True)).pages
    assert len(pages) > 2
    for page in pages:
        assert page.extract_text().count("Draft: not proved") >= 2
    assert not any("not proved" in page.extract_text() for page in opened(tee()).pages)


def test_markup_in_a_manuscript_is_printed_as_typed() -> None:
    assert NASTY.replace(" ", "") in flowing(opened(every_block(NASTY))).replace(" ", "")


# ISO 32000-1, 9.7.4.3: glyph 0 is .notdef. A character without a shape would show as that.
@pytest.mark.parametrize(
    "words", ["½ ¼ ¾ – — × − → ⅛ ″ “” ’ é Ж α …", "🧶 字 \u05d0 \u0e01", NASTY]
)
def test_no_character_is_printed_without_a_shape(words: str) -> None:
    made = every_block(words)
    reader = opened(made)
    told = flowing(reader).replace(" ", "")
    assert "".join(shown(words).split()) in told
    assert "\ufffd" not in told
    for page in reader.pages:
        for entry in held(page, "/Resources", "/Font").values():
            font = entry.get_object()
            assert "/ToUnicode" in font
            descendant = held(font, "/DescendantFonts")[0].get_object()
            assert held(descendant, "/FontDescriptor").keys() & {"/FontFile2", "/FontFile3"}


def test_every_covered_character_can_be_set() -> None:
    """The table of covered characters promises no more than the fonts hold."""
    covered = [chr(code) for code in range(0x20, 0x3000) if shown(chr(code)) == chr(code)]
    assert len(covered) > 3000
    rows = tuple(
        Row((Run(" ".join(covered[at : at + 100])),)) for at in range(0, len(covered), 100)
    )
    made = every_block("x")
    edition = Edition(
        title="x",
        language="en",
        designer="",
        version="",
        date="",
        size="",
        draft=False,
        notice="",
        facts=made.facts,
        parts=(Part(plain("all"), rows),),
    )
    assert pdf(edition).startswith(b"%PDF")


# --------------------------------------------------------------------------- as pages


@pytest.mark.parametrize("edition", [tee(), tee(2), tee(draft=True), every_block("word " * 400)])
def test_pages_fit_on_a4_and_on_letter(edition: Edition) -> None:
    document = pypdfium2.PdfDocument(pdf(edition))
    assert len(document) >= 1
    for page in document:
        width, height = page.get_size()
        assert (round(width, 1), round(height, 1)) == (round(A4[0], 1), round(A4[1], 1))
        bitmap = page.render(scale=1).to_pil().convert("L").point(lambda grey: 255 * (grey < 128))
        box = bitmap.getbbox()
        assert box is not None, "a page without a word"
        left, top, right, bottom = box
        assert left >= MARGIN
        assert right <= min(A4[0], LETTER[0]) - MARGIN
        # Printed from its top left corner on Letter, the sheet loses what stands lowest.
        assert top >= MARGIN
        assert bottom <= LETTER[1] - MARGIN / 2


def test_no_row_is_split_and_no_heading_stands_alone() -> None:
    rows = tuple(
        Row((Run(f"begin{number} " + "sc in next st, " * 30 + f"end{number}"),))
        for number in range(60)
    )
    parts = tuple(Part(plain(f"Heading{n}"), rows[4 * n : 4 * n + 4]) for n in range(15))
    made = tee(2)
    edition = Edition(
        title=made.title,
        language=made.language,
        designer=made.designer,
        version=made.version,
        date=made.date,
        size=made.size,
        draft=False,
        notice="",
        facts=made.facts,
        parts=parts,
    )
    pages = [page.extract_text() for page in opened(edition).pages]
    assert len(pages) > 3

    def page_of(word: str) -> int:
        return next(i for i, page in enumerate(pages) if re.search(rf"\b{word}\b", page))

    for number in range(60):
        assert page_of(f"begin{number}") == page_of(f"end{number}")
    for number in range(15):
        assert page_of(f"Heading{number}") == page_of(f"begin{4 * number}")
