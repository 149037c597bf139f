import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from types import MappingProxyType
from typing import ClassVar

import pytest

from stitchproof.base.diagnostics import Address, Code, Diagnostic, Level
from stitchproof.base.place import NOWHERE
from stitchproof.edition.compose import DRAFT_NOTICE, compose
from stitchproof.edition.matter import Matter
from stitchproof.edition.model import (
    Caution,
    Edition,
    Facts,
    Figure,
    Heading,
    Items,
    Paragraph,
    Part,
    Quote,
    Row,
    Table,
    Verbatim,
    read_out,
    said,
)
from stitchproof.edition.opening import hook_size, size_line
from stitchproof.edition.proofread import proofread
from stitchproof.edition.proofreading.unsigned_edition import UnsignedEdition
from stitchproof.edition.write_all import file_stem
from stitchproof.fabric.proof import Proof
from stitchproof.language.number import ONE
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.language.tree import Stated, Statement
from stitchproof.pipeline.press import press
from stitchproof.sizing.model import Sizing, Yarn
from stitchproof.trade.bodies import body_table
from tests import edition_inputs as inputs
from tests.desks import Paper
from tests.edition_inputs import EXAMPLE, proof, sizing

TEE = EXAMPLE.read_text("utf-8")
FRONT = "+++\nx = 1\n+++\n"


def edition(
    text: str = TEE,
    chosen: tuple[int, ...] = tuple(range(9)),
    *,
    change: Callable[[Proof], Proof] = lambda made: made,
    sizes: Callable[[Sizing], Sizing] = lambda made: made,
    draft: bool = False,
) -> Edition:
    made, of_sizes = inputs.manuscript(text), sizes(sizing(chosen))
    return compose(made, of_sizes, change(proof(made, of_sizes)), draft=draft)


def part(made: Edition, title: str) -> Part:
    return next(one for one in made.parts if read_out(one.title) == title)


def titles(made: Edition) -> list[str]:
    return [read_out(one.title) for one in made.parts]


def everything(made: Edition) -> str:
    return "\n".join(said(block) for one in made.parts for block in one.blocks)


# --------------------------------------------------------------------------- the whole


def test_parts_stand_in_the_order_of_published_patterns() -> None:
    assert titles(edition()) == [
        "",
        "Sizes and finished measurements",
        "Materials",
        "Gauge",
        "Abbreviations",
        "Notes",
        "Special stitch",
        "Panel (make 2)",
        "Finishing",
        "Neck edging",
        "Armhole edging (make 2)",
        "Schematics",
    ]


def test_every_word_of_the_author_is_in_the_edition() -> None:
    made = everything(edition())
    titled = made + "\n".join(titles(edition()))
    body = TEE.partition("+++\n\n")[2].rstrip()
    for paragraph in re.split(r"\n\n+", re.sub(r"\{[^}]*\}", "\0", body)):
        for stretch in paragraph.lstrip("# ").split("\0"):
            words = re.sub(r"\s*\n\s*", " ", stretch)
            assert words in titled or words.strip() in {"Marram Tee", ""}, words


def test_no_formula_and_no_list_is_left_in_a_one_size_copy() -> None:
    made = edition(chosen=(2,))
    assert made.size == "M"
    told = everything(made)
    assert "{" not in told
    # What is in round brackets is words, a hook's labels or a multiple, never sizes.
    assert not re.search(r"\d+ \(\d+(?:, \d+)*\)", told)
    assert "Rows 7–66: Rep Rows 3–6, 15 more times, ending with a WS row. 95 sc" in told
    assert "the open armhole is 20 cm / 7¾ in deep" in told
    assert "This copy is for size M only" in told


# The same figures as the hand-worked garment of the reference.
def test_all_sizes_stand_in_the_groups_of_the_front_matter() -> None:
    told = everything(edition())
    assert "Rows 7–62 (66, 66, 66) [70, 70, 70] {74, 74}: Rep Rows 3–6, 14 (15, 15, 15)" in told
    assert "77 (85, 95, 103) [111, 119, 127] {135, 145} dc" in told


def test_the_sizes_chosen_are_the_sizes_printed() -> None:
    made = edition(chosen=(2, 6))
    assert made.size == ""
    assert "With larger hook, ch 97 (129)." in everything(made)
    table = next(b for b in made.parts[1].blocks if isinstance(b, Table))
    assert [row[0] for row in table.rows] == ["M", "3X"]


@dataclass(frozen=True, slots=True)
class Wrong:
    """A mistake for the tests."""

    code: ClassVar[Code] = Code("C999", "wrong", Level.ERROR)

    def message(self) -> str:
        return "makes 9, says 8"

    def help(self) -> str:
        return ""


def test_a_draft_says_so_and_lists_what_is_wrong() -> None:
    made, of_sizes = inputs.manuscript(TEE), sizing()
    found = (
        Diagnostic(finding=Wrong(), place=NOWHERE, address=Address("Panel", "Row 3")),
        Diagnostic(finding=Wrong(), place=NOWHERE, address=Address("Neck"), accepted="so"),
        Diagnostic(finding=UnsignedEdition(("date",)), place=NOWHERE),
    )
    clean = compose(made, of_sizes, proof(made, of_sizes), found, draft=False)
    draft = compose(made, of_sizes, proof(made, of_sizes), found, draft=True)
    assert (clean.draft, clean.notice) == (False, "")
    assert (draft.draft, draft.notice) == (True, DRAFT_NOTICE)
    told = everything(draft)
    assert "Panel, Row 3: makes 9, says 8." in told
    # What is accepted, and what is no error, is not for the maker.
    assert "Neck: makes 9" not in told
    assert "names no date" not in told
    assert "makes 9" not in everything(clean)


# --------------------------------------------------------------------------- the opening


def test_the_size_line_says_how_to_read_the_numbers() -> None:
    def line(chosen: tuple[int, ...]) -> str:
        of_sizes = sizing(chosen)
        made = inputs.manuscript(TEE)
        return size_line(Matter(made, of_sizes, proof(made, of_sizes)))

    assert line(tuple(range(9))).startswith(
        "Numbers are for size XS, with S, M, L in (\u00a0), 1X, 2X, 3X in [\u00a0] and 4X, 5X in "
        "{\u00a0}."
    )
    assert line((1, 2)).startswith("Numbers are for size S, with M in (\u00a0).")


@pytest.mark.parametrize(
    ("row", "sign"),
    [
        ("Row 2: Ch 1, sc in each st across. 10 (12, 14) sc", ""),
        ("Row 2 (RS) - Ch 1, sc in each st across - 10 (12, 14) sc", ""),
        ("Rows 2 - 3: Ch 1, sc in each st across. 10 (12, 14) sc", ""),
        ("A note - for all (- as it were -) sizes.", ""),
        ("Row 2: Ch 1, sc in each st across. 10 (-, -) sc", "-"),
        ("Row 2: Ch 1, sc in each st across. – (–, 14) sc", "–"),
        ("Row 2 (2, -): Ch 1, sc in each st across.", "-"),
        ("Rep Row 1 - (2, 2) times.", "-"),
    ],
)
def test_a_sign_for_none_is_explained_where_it_stands(row: str, sign: str) -> None:
    text = (
        "# Cup\n\nSizes: S (M, L)\n\n## A\n\nCh 11 (13, 15).\n\nRow 1: Sc in 2nd ch from hook "
        f"and in each ch across, turn. 10 (12, 14) sc\n\n{row}\n"
    )
    pressed = press(Paper(text), "cup.md")
    made = compose(pressed.manuscript, pressed.sizing, pressed.proof)
    told = re.findall(r"every size; (.) means that this size has none\.", everything(made))
    assert told == ([sign] if sign else [])


def test_a_size_without_a_finished_length_explains_the_sign() -> None:
    front = "[sizes]\nmake = ['S', 'M']\n[measures]\nw = ['10 cm', '-']\n[finished]\nwidth = 'w'"
    pressed = press(Paper(f"+++\n{front}\n+++\n# Cup\n\nCh 11."), "cup.md")
    made = compose(pressed.manuscript, pressed.sizing, pressed.proof)
    assert "; - means that this size has none." in everything(made)


def test_measurements_are_in_both_units_by_size() -> None:
    table = next(b for b in part(edition(), titles(edition())[1]).blocks if isinstance(b, Table))
    assert table.head == (
        *("Size", "To fit chest", "Finished bust", "Finished length", "Finished armhole"),
    )
    # Reference garment, M and 3X: finished bust 108.6 cm, 42¾ in and 145.1 cm, 57¼ in.
    by_size = {row[0]: row for row in table.rows}
    assert by_size["M"][2:] == ("108.5 cm / 42¾ in", "55 cm / 21¾ in", "20 cm / 7¾ in")
    assert by_size["3X"][2] == "145 cm / 57¼ in"
    assert by_size["M"][1] == "91.5–96.5 cm / 36–38 in"


# The women's table prints its bust in both units: M is 91.5-96.5 cm and 36-38 in, 4X 56-58 in.
def test_bodies_published_in_both_units_are_not_converted() -> None:
    women = body_table("women")
    assert women is not None
    chest = women.rows["chest"]
    where = [women.sizes.index(name) for name in inputs.SIZES]

    def changed(made: Sizing) -> Sizing:
        point = replace(
            made.points[0],
            low_mm=tuple(chest.mm[i][0] for i in where),
            high_mm=tuple(chest.mm[i][1] for i in where),
        )
        return replace(made, body=women.title, points=(point,))

    table = next(b for b in edition(sizes=changed).parts[1].blocks if isinstance(b, Table))
    fits = {row[0]: row[1] for row in table.rows}
    assert fits["M"] == "91.5–96.5 cm / 36–38 in"
    assert fits["4X"] == "142–147 cm / 56–58 in"


def test_gauge_lines_carry_the_trades_label() -> None:
    (lines,) = part(edition(), "Gauge").blocks
    assert isinstance(lines, Facts)
    assert [read_out(words) for _, words in lines.facts] == [
        (
            "17.5 sts and 12 rows = 10 cm / 4 in in texture pattern with 4.5 mm (US 7, UK 7) hook, "
            "worked flat, after blocking."
        ),
        (
            "18 sts = 10 cm / 4 in in sc with 3.75 mm (US F-5) hook, worked in the round, after "
            "blocking."
        ),
    ]


@pytest.mark.parametrize(
    ("over_mm", "label"),
    [
        (Fraction(508, 5), "10 cm / 4 in"),
        (Fraction(50), "5 cm / 2 in"),
        (Fraction(254, 10), "2.5 cm / 1 in"),
        (Fraction(80), "8 cm / 3¼ in"),
    ],
)
def test_gauge_over_other_lengths(over_mm: Fraction, label: str) -> None:
    def changed(made: Sizing) -> Sizing:
        swatch = replace(made.swatches["texture"], over_mm=over_mm)
        return replace(made, swatches={"texture": swatch})

    assert f"= {label} in texture" in said(part(edition(sizes=changed), "Gauge").blocks[0])


def test_hooks_without_a_label_are_millimetres() -> None:
    assert hook_size(Fraction(9, 2)) == "4.5 mm (US 7, UK 7)"
    assert hook_size(Fraction(41, 10)) == "4.1 mm"
    assert hook_size(None) == ""


def test_a_yarn_without_particulars_is_still_told() -> None:
    def changed(made: Sizing) -> Sizing:
        return replace(made, yarns=(Yarn(key="main"), Yarn(key="b", weight=9, colour="sand")))

    told = said(part(edition(sizes=changed), "Materials").blocks[0])
    assert "Yarn as you like" in told
    assert "Yarn b colour sand; weight 9" in told


def test_abbreviations_are_those_used_with_their_making() -> None:
    told = said(part(edition(), "Abbreviations").blocks[1]).splitlines()
    assert [line.partition(" ")[0] for line in told] == [
        *("ch", "dc", "FPtr", "hdc", "rep", "rnd", "RS", "sc", "sk", "sl", "st", "WS"),
        "yo",
    ]
    assert "FPtr front post treble crochet: see the special stitches" in told


def test_abbreviations_of_a_pattern_in_uk_terms_are_uk() -> None:
    made = replace(inputs.manuscript(TEE), terms="UK", specials=())
    of_sizes = sizing()
    told = everything(compose(made, of_sizes, proof(made, of_sizes)))
    assert "This pattern uses UK crochet terms." in told
    # US sc is UK dc, US dc is UK tr, whoever names them.
    assert "tr treble crochet: yarn round hook, insert hook" in told
    assert "sc single crochet" not in told


# --------------------------------------------------------------------------- the author's parts


def rows_of(made: Edition, title: str) -> list[Row]:
    return [block for block in part(made, title).blocks if isinstance(block, Row)]


def test_a_row_without_a_count_gets_the_one_worked() -> None:
    rows = {read_out(row.words)[:6]: row.count for row in rows_of(edition(), "Panel (make 2)")}
    assert rows["Row 4:"] == "77 (85, 95, 103) [111, 119, 127] {135, 145} sts"
    assert rows["Row 5:"] == ""  # the author says it
    assert rows["Fasten"] == ""


@pytest.mark.parametrize("spoiled", ["unread", "unknown"])
def test_no_count_is_printed_that_is_not_certain(spoiled: str) -> None:
    def changed(made: Proof) -> Proof:
        courses = tuple(
            replace(course, read=spoiled != "unread", worked=(None, *course.worked[1:]))
            if spoiled == "unknown"
            else replace(course, read=False)
            for course in made.courses
        )
        return replace(made, courses=courses)

    assert {row.count for row in rows_of(edition(change=changed), "Panel (make 2)")} == {""}


def test_a_stated_change_is_not_a_count() -> None:
    def changed(made: Proof) -> Proof:
        stated = Stated((Statement(ONE, change="increased"),))
        first, second, *rest = made.courses
        second = replace(second, course=replace(second.course, stated=stated))
        return replace(made, courses=(first, second, *rest))

    assert rows_of(edition(change=changed), "Panel (make 2)")[1].count.startswith("77 (85")


def test_a_row_that_a_size_does_not_work_is_named() -> None:
    def changed(made: Proof) -> Proof:
        return replace(
            made,
            courses=tuple(
                replace(course, absent=("M",)) if course.label == "Row 5" else course
                for course in made.courses
            ),
        )

    row = rows_of(edition(chosen=(2,), change=changed), "Panel (make 2)")[5]
    assert read_out(row.words) == "Row 5: Not worked in size M."
    assert not row.worked
    several = rows_of(edition(change=changed), "Panel (make 2)")[5]
    assert several.worked
    assert "FPtr around dc" in read_out(several.words)


def test_narrative_keeps_its_form() -> None:
    text = (
        "# Hat\n\nFor [a] friend.\n\n### Deep\n\n- one\n  more\n- two\n\n> said\n> so\n\n"
        "| a | b |\n|---|---|\n| 1 | x \\| y |\n\n```\n  kept  {rows}\n```\n\n---\n\n"
        "<b>bold</b>\n\n#### Deeper\n\n###### Deepest\n\n"
    )
    made = edition(text, sizes=lambda made: replace(made, title=""))
    assert made.title == "Hat"
    own = part(made, "Deep").blocks
    assert isinstance(own[0], Items)
    assert not own[0].numbered
    assert said(own[0]) == "one more\ntwo"
    assert isinstance(own[1], Quote)
    assert said(own[1]) == "said so"
    assert own[2] == Table("Table", ("a", "b"), (("1", "x | y"),))
    assert isinstance(own[3], Verbatim)
    assert said(own[4]) == "<b>bold</b>"
    levels = [block.level for block in own if isinstance(block, Heading)]
    assert levels == [3, 4]


def test_braces_that_are_doubled_are_braces() -> None:
    assert "so {24} is" in everything(edition(f"{FRONT}so {{{{24}}}} is"))
    assert "so {{24}} is" in everything(edition("so {{24}} is"))


def test_lines_are_joined_by_one_blank() -> None:
    told = everything(edition(f"{FRONT}To fit a head of \n  {{armhole}} around,\n {{neck_sts}}\n"))
    assert "To fit a head of 18.5 (" in told
    assert "} in around, 55 (55" in told


def test_a_part_of_the_same_name_is_taken_in() -> None:
    made = edition(f"{FRONT}## Body\n\nText.\n\n## Materials\n\nThree buttons.\n")
    assert titles(made).count("Materials") == 1
    assert titles(made).index("Materials") < titles(made).index("Body")
    blocks = part(made, "Materials").blocks
    assert isinstance(blocks[0], Facts)
    assert said(blocks[1]) == "Three buttons."


def test_abbreviations_the_author_explains_are_not_explained_again() -> None:
    text = f"{FRONT}## Abbreviations\n\nsc = single crochet\n\nRow 1: x. {{panel_sts}} sc\n"
    told = [said(block) for block in part(edition(text), "Abbreviations").blocks]
    assert "sc = single crochet" in told
    assert not any("sc single crochet" in words for words in told)
    assert any("hdc half double crochet" in words for words in told)


# --------------------------------------------------------------------------- drawings and cautions


def test_each_piece_is_drawn_with_its_figures() -> None:
    figures = [b for b in part(edition(), "Schematics").blocks if isinstance(b, Figure)]
    assert [figure.caption for figure in figures] == ["Panel, before seaming"]
    table = figures[0].table
    assert table is not None
    assert table.head == ("Size", "Width", "Height")
    assert table.rows[2] == ("M", "54.5 cm / 21¼ in", "55 cm / 21¾ in")
    below = figures[0].lettered()
    assert below is not None
    assert below.head == ("Size", "A: Width", "B: Height")
    assert below.rows == table.rows


def test_the_drawing_of_a_single_size_needs_no_table() -> None:
    figure = next(
        b for b in part(edition(chosen=(2,)), "Schematics").blocks if isinstance(b, Figure)
    )
    assert figure.lettered() is None
    assert figure.table is not None
    assert ">54.5 cm / 21¼ in<" in figure.svg


def test_a_schematic_stands_where_the_author_puts_it() -> None:
    text = f"{FRONT}## Panel (make 2)\n\n![The front](<schematic: Panel>)\n\n![No](x.png)\n"
    made = edition(text)
    blocks = part(made, "Panel (make 2)").blocks
    assert isinstance(blocks[0], Figure)
    assert blocks[0].caption == "The front"
    assert isinstance(blocks[1], Paragraph)
    assert said(blocks[1]) == "[Picture: No]"
    assert "Schematics" not in titles(made)


# 23 rounds at 12 and 6 rounds at 10 in 10 cm: 19.2 + 6 = 25.2 cm.
def test_a_piece_of_two_fabrics_is_as_high_as_both_make_it() -> None:
    hat = (EXAMPLE.parent / "bittern-hat.md").read_text("utf-8")
    brim = '"Brim" = { swatch = "rib" }\n'
    assert brim in hat
    of_one = hat.replace(brim, "")
    for text, height in ((of_one, "24 cm / 9½ in"), (hat, "25 cm / 10 in")):
        pressed = press(Paper(text), "hat.md", ("S",), shapes=True)
        made = compose(pressed.manuscript, pressed.sizing, pressed.proof)
        (figure,) = part(made, "Schematics").blocks
        assert isinstance(figure, Figure)
        assert figure.caption == "Hat"  # nothing of it is sewn
        assert figure.table is not None
        assert dict(zip(figure.table.head, figure.table.rows[0], strict=True))["Height"] == height


def hazards(text: str, **front: str) -> list[str]:
    def changed(made: Sizing) -> Sizing:
        return replace(made, title="", body=front.get("body", "Women"), yarns=made.yarns)

    made = edition(text, sizes=changed)
    found = [b for one in made.parts for b in one.blocks if isinstance(b, Caution)]
    return [said(block) for block in found]


def test_cautions_stand_where_they_apply() -> None:
    assert hazards(TEE) == []
    bonnet = hazards("# Baby bonnet\n\nWork two ties.\n\nSew on a button.\n")
    assert any("neck or hood" in words for words in bonnet)
    assert any("buttons" in words for words in bonnet)
    assert any("indoors" in words for words in bonnet)
    assert hazards("# Tee\n\n## Sleeve\n\nShape the cap.\n") == []
    told = everything(edition("# Blanket for a baby\n\nText.\n"))
    assert "follow the local rules" in told


def test_a_recalled_figure_is_never_marked_in_an_edition() -> None:
    def changed(made: Sizing) -> Sizing:
        points = tuple(replace(point, recalled=(True,) * 9) for point in made.points)
        return replace(made, points=points)

    assert edition(sizes=changed) == edition()


# --------------------------------------------------------------------------- odd manuscripts


@pytest.mark.parametrize("text", ["", "\n", "# \n", "## \n", "x", "## \n\nRow 1: sc\n\n" * 50])
def test_anything_makes_an_edition(text: str) -> None:
    made = inputs.manuscript(text)
    resolved = replace(sizing().resolved, sizes=("",), chosen=(0,))
    bare = Sizing(sizes=("",), chosen=(0,), resolved=resolved)
    empty = Proof(sizes=("",), courses=(), pieces=(), used=frozenset())
    one = compose(made, bare, empty)
    assert (one.title, one.size) == ("tee", "")
    assert " ".join(text.replace("#", "").split()) in " ".join(everything(one).split())


def test_a_language_that_is_none_is_english() -> None:
    def language(tag: str) -> str:
        def changed(made: Sizing) -> Sizing:
            return replace(made, plain=MappingProxyType({"language": tag}))

        return edition(sizes=changed).language

    assert [language(tag) for tag in ("", "de", "en-GB", '"><x', "12")] == [
        *("en", "de", "en-GB", "en", "en"),
    ]


def test_file_names_lead_nowhere_else() -> None:
    assert file_stem("marram-tee", "M") == "marram-tee-M"
    assert file_stem("My Tee / v2", "2-4 yrs") == "My-Tee-v2-2-4-yrs"
    assert file_stem("../../etc/passwd", "..") == "etc-passwd"
    assert file_stem("", "") == "pattern"
    assert len(file_stem("x" * 5000, "y" * 5000)) <= 161


# --------------------------------------------------------------------------- reading over


def slugs(text: str, sizes: Callable[[Sizing], Sizing] = lambda made: made) -> list[str]:
    made, _ = read_manuscript(text, "m")
    found = proofread(made, sizes(sizing()))
    return [f"{one.finding.code.slug} `{text[one.place.start : one.place.end]}`" for one in found]


OUTLINES = """+++
terms = "US"
[hooks]
main = "4 mm"
[swatch.plain]
stitch   = "sc"
hook     = "main"
stitches = 18
rows     = 20
over     = "10 cm"
after    = "blocking"
+++

## LEFT

Ch 21.

Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)

Dec 1 st at neck edge on next 4 rows.

## Tube

Ch 20, join with sl st in first ch to form a ring.

Rnd 1: Ch 1, sc in each ch around, join. (20 sc)

## Band

Join yarn at neck edge, ch 1, sc 30 evenly around neck edge, join.
"""


@pytest.mark.parametrize(("name", "noted"), [("Piece", ["## Piece"]), ("Left Front", [])], ids=str)
def test_a_piece_that_lies_nobody_knows_where_is_told(name: str, noted: list[str]) -> None:
    text = OUTLINES.replace("LEFT", name)
    found = press(Paper(text), "m.md", shapes=True).found
    places = [one.place for one in found if one.finding.code.slug == "piece-not-drawn"]
    assert [f"## {text[place.start : place.end]}" for place in places] == noted


def test_no_gauge_in_rows_is_told_of_tubes_too() -> None:
    found = press(Paper(OUTLINES.replace("rows     = 20\n", "")), "m.md").found
    places = [one.place for one in found if one.finding.code.slug == "piece-not-drawn"]
    assert len(places) == 2


def test_a_whole_edition_has_nothing_to_read_over() -> None:
    assert slugs(TEE) == []


def test_what_is_missing_is_found_at_its_place() -> None:
    assert slugs("Wind 🧶, then 🧶.\n\nZürich – ½ “é”\n") == ["character-not-printed `🧶`"]
    pictures = "![x](y.png)\n\n![z](<schematic: Panel>)\n\n![a](<schematic: Sleeve>)\n\n"
    assert slugs(f"## Panel (make 2)\n\n{pictures}Ch 6.\n") == [
        "picture-left-out `![x](y.png)`",
        "picture-left-out `![a](<schematic: Sleeve>)`",
    ]

    hat = "## Hat (in rounds)\n\n### Crown\n\nRnd 1: 6 sc in ring.\n\n![z](<schematic: Hat>)\n"
    assert slugs(hat) == []
    assert slugs("## Notes\n\n![z](<schematic: Notes>)\n") == [
        "picture-left-out `![z](<schematic: Notes>)`"
    ]

    def no_rows(made: Sizing) -> Sizing:
        swatch = replace(made.swatches["texture"], rows=None)
        return replace(made, swatches={"texture": swatch}, piece_swatch={})

    edging = "## Edging\n\nJoin at a seam, ch 1, sc in each st around.\n"
    found = slugs(f"## Panel (make 2)\n\nWith larger hook, ch 6.\n\n{edging}", no_rows)
    assert found == ["piece-not-drawn `Panel (make 2)`"]

    def unsigned(made: Sizing) -> Sizing:
        return replace(made, plain=MappingProxyType({"designer": "A", "version": "1"}))

    assert slugs(f"{FRONT}Text.\n", unsigned)[0].startswith("unsigned-edition")
    assert UnsignedEdition(("contact", "date")).message() == "the edition names no contact or date"
