"""A manuscript, its sizing and its proof, put together by hand for the tests of editions.

The words are those of the example garment; the numbers are the hand-worked ones of its reference
table. Nothing of the reader, the sizing or the fabric is used.
"""

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from types import MappingProxyType

from stitchproof.base.place import NOWHERE, Span
from stitchproof.fabric.proof import PieceShape, Proof, Shape, WorkedCourse
from stitchproof.language.formula import Formula, Name
from stitchproof.language.manuscript import Block, BlockKind, FrontMatter, Manuscript
from stitchproof.language.number import Number, NumberKind, Resolved, Value, plain
from stitchproof.language.tree import Course, Label, Section, Special, Stated, Statement
from stitchproof.sizing.model import BodyPoint, Hook, Measure, Sizing, Swatch, Worked, Yarn

SIZES = ("XS", "S", "M", "L", "1X", "2X", "3X", "4X", "5X")
GROUPS = (1, 3, 3, 2)
PANEL = (77, 85, 95, 103, 111, 119, 127, 135, 145)
ROWS = (62, 66, 66, 66, 70, 70, 70, 74, 74)
ARMHOLE_ROWS = (22, 22, 24, 24, 28, 30, 32, 34, 36)
NECK = (55, 55, 55, 55, 57, 57, 57, 59, 59)
FLAT = False
EXAMPLE = Path(__file__).parent.parent / "examples" / "marram-tee.md"

_S = range(len(SIZES))
_NUMBERS: dict[str, Callable[[int], Value]] = {
    "panel_sts + 2": lambda i: PANEL[i] + 2,
    "panel_sts": lambda i: PANEL[i],
    "rows": lambda i: ROWS[i],
    "(rows - 6) / 4": lambda i: Fraction(ROWS[i] - 6, 4),
    "side_rows": lambda i: ROWS[i] - ARMHOLE_ROWS[i],
    "shoulder_sts": lambda i: (PANEL[i] - NECK[i]) // 2,
    "neck_sts": lambda i: NECK[i],
    "armhole": lambda i: Fraction(ARMHOLE_ROWS[i] * 100, 12),
    "neck_rnd": lambda i: 2 * NECK[i] + 2,
    "neck_rnd / 2": lambda i: NECK[i] + 1,
    "armhole_edge": lambda i: 3 * ARMHOLE_ROWS[i] // 2,
    "armhole_rnd": lambda i: 3 * ARMHOLE_ROWS[i] + 1,
    "(armhole_rnd + 1) / 2": lambda i: (3 * ARMHOLE_ROWS[i] + 2) // 2,
}
_BRACED = re.compile(r"\{([^{}]+)\}")
_ROW = re.compile(r"(?P<words>(?:Row|Rows|Rnd) [^:]+):")
_WORDS = ("ch", "dc", "sc", "fptr", "sk", "rep", "yo", "rs")
_VERBS = ("With larger hook, ch", "Fasten off", "With smaller", "Shoulders:", "Sides:")


def manuscript(text: str, source: str = "tee") -> Manuscript:
    """Read the few things that the tests need, in the plainest way there is."""
    matter = re.match(r"\+\+\+\n.*?\n\+\+\+\n", text, re.DOTALL)
    start = matter.end() if matter else 0
    front = FrontMatter({}, {}, Span(source, 4, start - 4)) if matter else None
    numbers = tuple(
        Number(
            value=Name(found[1]),
            spelling=found[0],
            place=Span(source, found.start(), found.end()),
            kind=NumberKind.COUNT,
        )
        for found in _BRACED.finditer(text, start)
        if found[1] in _NUMBERS
    )
    blocks: list[Block] = []
    sections: list[Section] = []
    for found in re.finditer(r"[^\n]+(?:\n[^\n]+)*", text[start:]):
        place = Span(source, start + found.start(), start + found.end())
        words = found[0]
        if words.startswith("#"):
            marks = len(words) - len(words.lstrip("#"))
            place = Span(source, min(place.start + marks + 1, place.end), place.end)
            name = words.lstrip("# ")
            blocks.append(Block(BlockKind.HEADING, place, marks))
            sections.append(Section(name, marks, name.partition(" (")[0], plain(1), ()))
        elif _ROW.match(words) or words.startswith(_VERBS):
            sections[-1] = replace(
                sections[-1], courses=(*sections[-1].courses, _course(words, place))
            )
            where = len(sections) - 1, len(sections[-1].courses) - 1
            blocks.append(Block(BlockKind.INSTRUCTION, place, course=where))
        else:
            blocks.append(Block(_kind(words), place))
    return Manuscript(
        source=source,
        text=text,
        front=front,
        terms="US",
        blocks=tuple(blocks),
        sections=tuple(sections),
        numbers=numbers,
        specials=(Special("fptr", "FPtr"),),
        words=tuple((word, NOWHERE) for word in _WORDS),
    )


def _kind(words: str) -> BlockKind:
    for beginning, kind in (
        ("- ", BlockKind.LIST),
        ("> ", BlockKind.QUOTE),
        ("|", BlockKind.TABLE),
        ("```", BlockKind.CODE),
        ("![", BlockKind.PICTURE),
        ("---", BlockKind.RULE),
        ("<", BlockKind.HTML),
    ):
        if words.startswith(beginning):
            return kind
    return BlockKind.PROSE


def _course(words: str, place: Span) -> Course:
    labelled = _ROW.match(words)
    stated = re.search(r"\}?\s*(sts|sc|dc|hdc|sps)$", words)
    return Course(
        label=Label(labelled["words"], first=plain(1))
        if labelled
        else Label(words.split(maxsplit=1)[0]),
        does=(),
        stated=Stated((Statement(plain(1)),)) if stated else None,
        place=place,
    )


def proof(made: Manuscript, sizing: Sizing) -> Proof:
    """Say what a right fabric would say."""
    chosen = sizing.chosen
    courses = tuple(
        WorkedCourse(
            course=course,
            section=section.name,
            label=course.label.words,
            place=course.place,
            read=True,
            reading=None,
            side=None,
            worked=tuple(PANEL[i] for i in chosen),
            stated=None,
            absent=(),
            counts=(),
        )
        for section in made.sections
        for course in section.courses
    )
    shapes = tuple(Shape(FLAT, (0.0,) * ROWS[i], (float(PANEL[i]),) * ROWS[i]) for i in chosen)
    return Proof(
        sizes=sizing.names,
        courses=courses,
        pieces=(PieceShape("Panel (make 2)", "Panel", shapes),),
        used=frozenset(("dc", "sc", "hdc", "sl_st", "ch", "fptr")),
    )


def sizing(chosen: tuple[int, ...] = tuple(_S)) -> Sizing:
    """Give the sizing of the example garment."""
    formulas: dict[Formula, tuple[Value, ...]] = {
        Name(key): tuple(value(i) for i in _S) for key, value in _NUMBERS.items()
    }
    panel_mm = tuple(Fraction(n * 200, 35) for n in PANEL)
    length_mm = tuple(Fraction(n * 100, 12) for n in ROWS)
    armhole_mm = tuple(Fraction(n * 100, 12) for n in ARMHOLE_ROWS)
    chest = tuple(Fraction(n) for n in (737, 838, 940, 1041, 1143, 1245, 1346, 1448, 1549))
    return Sizing(
        sizes=SIZES,
        chosen=chosen,
        resolved=Resolved(SIZES, chosen, formulas),
        groups=GROUPS,
        title="Marram Tee",
        plain=MappingProxyType(
            {
                "designer": "Saltgrass Studio",
                "contact": "help@saltgrass.example",
                "version": "1.0",
                "date": "2026-11-24",
                "level": "easy",
            }
        ),
        yarns=(
            Yarn(
                key="main",
                name="Dune Sport",
                fibre="cotton and linen",
                weight=2,
                ball_g=Fraction(50),
                ball_mm=Fraction(135_000),
            ),
        ),
        hooks=(
            Hook("main", "4.5 mm", Fraction(9, 2)),
            Hook("edge", "3.75 mm", Fraction(15, 4)),
        ),
        swatches={
            "texture": Swatch(
                name="texture",
                stitch="texture pattern",
                hook="main",
                stitches=Fraction(35, 2),
                rows=Fraction(12),
                after="blocking",
            ),
            "edging": Swatch(
                name="edging",
                stitch="sc",
                hook="edge",
                worked=Worked.ROUND,
                stitches=Fraction(18),
                after="blocking",
            ),
        },
        piece_swatch=MappingProxyType({"Panel (make 2)": "texture", "Panel": "texture"}),
        body="Women",
        points=(
            BodyPoint(
                name="chest",
                values_mm=chest,
                low_mm=tuple(n - 25 for n in chest),
                high_mm=tuple(n + 25 for n in chest),
                used=True,
            ),
        ),
        measures=(Measure(name="armhole", target_mm=armhole_mm),),
        finished=(
            Measure(name="bust", target_mm=panel_mm, finished_mm=tuple(2 * n for n in panel_mm)),
            Measure(name="length", target_mm=length_mm, finished_mm=length_mm),
            Measure(name="armhole", target_mm=armhole_mm, finished_mm=armhole_mm),
        ),
    )
