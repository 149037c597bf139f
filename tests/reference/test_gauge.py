"""Gauge, multiples and foundation chains, against worked examples of others.

Published examples round differently, so each check says the rule of its source. Rules of this
program: the nearest legal number, ties up, unless a count says otherwise.

Sources
-------
[1] rebab.net, "How many yards of yarn to crochet a blanket" (a copied page; author not named):
    rounds down.
[2] Oombawka Design Crochet, "Using stitch pattern multiples": takes the nearest multiple.
[3] Pink Brutus, "It always goes back to gauge and stitches", 2017 (for knitting): takes the
    nearest multiple; in the round the stitches that balance a flat repeat are dropped.
[4] Crochet Cabana, "Multiples": repeats times stitches, and the balance.
[5] KnittingHelp forum, thread 72046, on chains that count as a stitch.
"""

from fractions import Fraction

import pytest

from stitchproof.base.units import parse_length, round_half_away
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.read.front import read_front
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.sizing.fit import Multiple, Rounding, nearest, parse_multiple
from stitchproof.sizing.model import Swatch
from stitchproof.sizing.size import size_manuscript

pytestmark = pytest.mark.reference

ANY = Multiple()


def swatch(stitches: str, rows: str, over: str) -> Swatch:
    over_mm = parse_length(over)
    assert over_mm is not None
    return Swatch(name="x", stitches=Fraction(stitches), rows=Fraction(rows), over_mm=over_mm)


def stitches_for(width: str, gauge: Swatch) -> Fraction:
    mm = parse_length(width)
    assert mm is not None
    assert gauge.sts_per_mm is not None
    return mm * gauge.sts_per_mm


# --------------------------------------------------------------------------- gauge


def test_inches_and_stitches() -> None:
    # The formula width x gauge, from memory; 20 in at 14 sts to 4 in.
    assert stitches_for("20 in", swatch("14", "8", "4 in")) == 70


def test_centimetres_and_stitches_to_the_nearest() -> None:
    # From memory; 53 cm at 18 sts to 10 cm is 95.4, nearest 95, which is 52.8 cm wide.
    gauge = swatch("18", "10", "10 cm")
    wanted = stitches_for("53 cm", gauge)
    assert wanted == Fraction(954, 10)
    made = nearest(wanted, ANY)
    assert made == 95
    assert gauge.sts_per_mm is not None
    assert round_half_away(made / gauge.sts_per_mm) == 528


def test_a_blanket_rounded_down_and_with_ties_up() -> None:
    # [1]: 50 in at 13 dc to 4 in is 162.5, 60 in at 7.5 rows to 4 in is 112.5; it rounds down.
    gauge = swatch("13", "7.5", "4 in")
    wide = stitches_for("50 in", gauge)
    assert gauge.rows_per_mm is not None
    high = 60 * Fraction(127, 5) * gauge.rows_per_mm
    assert (wide, high) == (Fraction(325, 2), Fraction(225, 2))
    down = [nearest(one, ANY, Rounding.DOWN) for one in (wide, high)]
    assert down == [162, 112]
    assert down[0] * down[1] == 18_144
    # The same true ties by the rule of this program.
    up = [nearest(one, ANY) for one in (wide, high)]
    assert up == [163, 113]
    assert up[0] * up[1] == 18_419


# --------------------------------------------------------------------------- multiples


@pytest.mark.parametrize(
    ("wanted", "multiple", "made"),
    [
        (70, "6 + 2", 68),  # [2], nearest
        (180, "7", 182),  # [3], nearest, in the round: no balance
        (95, "6 + 2", 98),  # a tie of 92 and 98; ties up is this program's rule, no source
        (162, "12 + 11", 167),  # worked from the same formula, no source
        (91, "3 + 1", 91),  # [4]: 30 repeats of 3, and 1
    ],
)
def test_multiples(wanted: int, multiple: str, made: int) -> None:
    legal = parse_multiple(multiple)
    assert legal is not None
    assert nearest(Fraction(wanted), legal) == made


def test_the_next_multiple_up() -> None:
    # [2]: the next one above 68 is 74.
    legal = parse_multiple("6 + 2")
    assert legal is not None
    assert nearest(Fraction(70), legal, Rounding.UP) == 74


def test_a_repeat_in_the_round() -> None:
    # [3]: 180 / 7 = 25.7 repeats, so 175 or 182.
    legal = Multiple(7)
    assert nearest(Fraction(180), legal, Rounding.DOWN) == 175
    assert nearest(Fraction(180), legal, Rounding.UP) == 182


# --------------------------------------------------------------------------- foundation chains


@pytest.mark.parametrize(
    ("skipped", "counted", "stitches", "chains"),
    [
        (1, 0, 40, 41),  # sc in 2nd ch from hook; common practice, no source
        (2, 1, 40, 41),  # hdc in 3rd ch, counted; by the rule of [5]
        (2, 0, 40, 42),  # hdc or dc in 3rd ch, chains not counted; common practice, no source
        (3, 1, 40, 42),  # dc in 4th ch, counted; by the rule of [4] and [5]
        (4, 1, 40, 43),  # tr in 5th ch, counted; by the same rule
        (2, 1, 11, 12),  # [5]: ch 12 makes 11 hdc when the first two count
    ],
)
def test_a_chain_comes_out_of_a_formula(
    skipped: int,
    counted: int,
    stitches: int,
    chains: int,
) -> None:
    # chains = stitches + skipped, less one if the skipped chains count as a stitch
    text = (
        f"+++\n[counts]\nsts = {stitches}\nskipped = {skipped}\ncounted = {counted}\n"
        "chains = 'sts + skipped - counted'\n+++\nCh {chains}.\n"
    )
    sizing, found = size_manuscript(read(text), lambda _: "", None)
    assert found == []
    assert sizing.counts[-1].value == (chains,)
    assert list(sizing.resolved.formulas.values()) == [(chains,)]


def read(text: str) -> Manuscript:
    manuscript, _ = read_manuscript(text, "chain.md")
    assert read_front(text, "chain.md")[2] == []
    return manuscript
