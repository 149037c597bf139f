"""The hat and the scarf of the examples, computed by hand.

Both designs are our own; the arithmetic below was done apart from the program and nobody has
crocheted them. Common practice, no source: width times gauge gives stitches, taken to the nearest
legal multiple, ties up.

Bittern Hat. Heads 51, 55.5 and 60 cm; 16 hdc and 12 rounds are 10 cm; ribbing 10 rounds are 10 cm.

    around      0.9 * 51   = 45.90 cm   0.9 * 55.5 = 49.95 cm   0.9 * 60   = 54.00 cm
    wanted      45.9 * 1.6 = 73.44      49.95 * 1.6 = 79.92     54 * 1.6   = 86.40
    of eights   72 (off 1.44)           80 (off 0.08)           88 (off 1.60; 80 is off 6.40)
    finished    72 / 1.6   = 45 cm      80 / 1.6   = 50 cm      88 / 1.6   = 55 cm
    crown rnds  72 / 8     = 9          80 / 8     = 10         88 / 8     = 11
    cap rnds    19.5 * 1.2 = 23.4: 23   20.5 * 1.2 = 24.6: 25   21.5 * 1.2 = 25.8: 26
    brim rnds   5 * 1      = 5          5.5 * 1    = 5.5: 6     6 * 1      = 6

Round n of the crown has 8n stitches. Size S has no Rnd 10 or 11, size M no Rnd 11. The sides are
Rnds 10-23, 11-25 and 12-26, the brim Rnds 24-28, 26-31 and 27-32.

Skerry Scarf. Widths 18, 27 and 45 cm, lengths 150, 165 and 180 cm; 19.5 sts and 9.5 rows are 10 cm.

    wanted sts  18 * 1.95  = 35.10      27 * 1.95  = 52.65      45 * 1.95  = 87.75
    6n + 1      37 (31 off 4.1)         55 (49 off 3.65)        85 (off 2.75; 91 off 3.25)
    scallops    6                       9                       14
    wanted rows 150 * 0.95 = 142.5      165 * 0.95 = 156.75     180 * 0.95 = 171
    6n + 2      140 (off 2.5; 146 3.5)  158 (off 1.25)          170 (off 1; 176 off 5)
    repeats     23, so 22 more          26, so 25 more          28, so 27 more
    finished    140 / .95 = 147.4 cm    158 / .95 = 166.3 cm    170 / .95 = 178.9 cm
    foundation  38                      56                      86

With n scallops: Rows 1 and 7 have 6n + 1 sc; Rows 2 and 4 have n + 1 sc and n arches; Row 3 has
n sc and 3 + 5(n - 1) + 3 = 5n + 1 dc; Row 5 has n + 1 sc and 5n dc; Row 6 has n sc, 2 dc, n - 1
arches and 2 ch-2 sps; the last row has 2n + 1 sc and 2n ch-3 sps.
"""

from pathlib import Path

import pytest

from tests.mini_patterns import Object, errors, proof, shown

pytestmark = pytest.mark.reference
EXAMPLES = Path(__file__).parents[2] / "examples"

HAT: tuple[tuple[str, tuple[int | None, ...]], ...] = (
    ("Rnd 1", (8, 8, 8)),
    ("Rnd 2", (16, 16, 16)),
    ("Rnd 3", (24, 24, 24)),
    ("Rnd 4", (32, 32, 32)),
    ("Rnd 5", (40, 40, 40)),
    ("Rnd 6", (48, 48, 48)),
    ("Rnd 7", (56, 56, 56)),
    ("Rnd 8", (64, 64, 64)),
    ("Rnd 9", (72, 72, 72)),
    ("Rnd 10", (None, 80, 80)),
    ("Rnd 11", (None, None, 88)),
    ("Rnds {crown_rnds + 1}", (72, 80, 88)),
    ("Rnd {cap_rnds + 1}", (72, 80, 88)),
    ("Rnd {cap_rnds + 2}", (72, 80, 88)),
    ("Rnds {cap_rnds + 3}", (72, 80, 88)),
    ("Next Rnd", (72, 80, 88)),
)
SCARF: tuple[tuple[str, tuple[int | None, ...]], ...] = (
    ("Ch", (38, 56, 86)),
    ("Row 1 ", (37, 55, 85)),
    ("Row 2 ", (7, 10, 15)),
    ("Row 3", (37, 55, 85)),
    ("Row 4", (7, 10, 15)),
    ("Row 5", (37, 55, 85)),
    ("Row 6", (8, 11, 16)),
    ("Row 7", (37, 55, 85)),
    ("Rows 8", (37, 55, 85)),
    ("Row {rows}", (13, 19, 29)),
)


def _made(name: str) -> Object:
    return proof((EXAMPLES / name).read_text("utf-8"), name)


def _courses(made: Object) -> list[Object]:
    return [course for section in made["sections"] for course in section["courses"]]


@pytest.mark.parametrize(
    ("name", "sizes", "rows"),
    [
        ("bittern-hat.md", ["S", "M", "L"], HAT),
        ("skerry-scarf.md", ["Narrow", "Wide", "Wrap"], SCARF),
    ],
)
def test_every_row_in_every_size(
    name: str, sizes: list[str], rows: tuple[tuple[str, tuple[int | None, ...]], ...]
) -> None:
    made = _made(name)
    assert made["sizes"] == sizes
    assert [shown(finding) for finding in errors(made)] == []
    courses = iter(_courses(made))
    for label, worked in rows:
        course = next(c for c in courses if (c["label"] + " ").startswith(label))
        assert tuple(course["worked"]) == worked, label
        assert course["read"], label


@pytest.mark.parametrize("name", ["bittern-hat.md", "skerry-scarf.md", "marram-tee.md"])
def test_an_example_has_nothing_to_find(name: str) -> None:
    made = _made(name)
    loud = [shown(f) for f in made["findings"] if f["level"] != "note" and not f["accepted"]]
    # The neck of the smallest tee is wide for its wearer, and its author is told so.
    assert [line for line in loud if "XS" not in line] == []
