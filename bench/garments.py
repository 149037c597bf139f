"""Writes large manuscripts to measure with: as a designer would write them out, row by row."""

from collections.abc import Iterator
from typing import Final

SIZES: Final = ("XS", "S", "M", "L", "XL", "2X", "3X", "4X", "5X", "6X")
_FIRST: Final = 81  # stitches of the smallest panel
_STEP: Final = 6
_WAIST: Final = (20, 32, 44, 56)  # rows that narrow
_HIPS: Final = (68, 80, 92, 104)  # rows that widen
_BODY: Final = 120  # rows to the armhole
_CUFF: Final = 49
_SLEEVE: Final = 110

_EVEN: Final = (
    "Ch 1, sc in each st across, turn.",
    "Ch 1, sc in first st, *dc in next st, sc in next st; rep from * across, turn.",
    "Ch 1, hdc in each st across, turn.",
    "Ch 1, *sc in next st, dc in next st; rep from * to last st, sc in last st, turn.",
)
_NARROW: Final = (
    "Ch 1, sc in first st, sc2tog over next 2 sts, sc in each st to last 3 sts, "
    "sc2tog over next 2 sts, sc in last st, turn."
)
_WIDEN: Final = "Ch 1, 2 sc in first st, sc in each st to last st, 2 sc in last st, turn."


def listed(counts: tuple[int, ...]) -> str:
    """Write a number for each size: `113 (121, 129)`."""
    return f"{counts[0]} ({', '.join(str(c) for c in counts[1:])})"


def pullover(changed: int | None = None) -> str:
    """Write a pullover in ten sizes, about 45,000 stitches in each of the middle ones.

    Parameters
    ----------
    changed : int, optional
        Number of a row of the back that is worked in other stitches of the same count.
    """
    lines = [
        "# Ten-size pullover\n\nSizes: XS (S, M, L, XL, 2X, 3X, 4X, 5X, 6X)\n\n## Notes\n",
        "The ch-1 at the start of rows never counts as a st.\n",
    ]
    for name in ("Back", "Front"):
        lines += [f"## {name}\n", *_panel(changed if name == "Back" else None)]
    lines += ["## Sleeve (make 2)\n", *_sleeve()]
    return "\n\n".join(lines) + "\n"


def _founded(counts: tuple[int, ...]) -> Iterator[str]:
    yield f"Ch {listed(tuple(c + 1 for c in counts))}."
    yield f"Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. {listed(counts)} sts"


def _panel(changed: int | None) -> Iterator[str]:
    counts = tuple(_FIRST + _STEP * i for i in range(len(SIZES)))
    yield from _founded(counts)
    for row in range(2, _BODY + 1):
        words = _EVEN[row % len(_EVEN)]
        if row in _WAIST:
            words, counts = _NARROW, tuple(c - 2 for c in counts)
        elif row in _HIPS:
            words, counts = _WIDEN, tuple(c + 2 for c in counts)
        if row == changed:
            words = "Ch 1, hdc in first st, sc in each st to last st, hdc in last st, turn."
        yield f"Row {row}: {words} {listed(counts)} sts"
    edge = tuple(4 + i for i in range(len(SIZES)))
    counts = tuple(c - 2 * e for c, e in zip(counts, edge, strict=True))
    row = _BODY + 1
    yield (
        f"Row {row}: Sl st in first {listed(edge)} sts, ch 1, sc in each st to last {listed(edge)} "
        f"sts, leave last {listed(edge)} sts unworked, turn. {listed(counts)} sts"
    )
    for row in range(_BODY + 2, _BODY + 12):
        words = _NARROW if row % 2 == 0 else _EVEN[0]
        counts = tuple(c - 2 for c in counts) if row % 2 == 0 else counts
        yield f"Row {row}: {words} {listed(counts)} sts"
    for row in range(_BODY + 12, _BODY + 20):
        yield f"Row {row}: {_EVEN[row % len(_EVEN)]} {listed(counts)} sts"
    times = tuple(8 + i for i in range(len(SIZES)))
    yield f"Rep last 4 rows {listed(times)} more times."
    yield "Fasten off."


def _sleeve() -> Iterator[str]:
    counts = tuple(_CUFF + 4 * (i // 2) for i in range(len(SIZES)))
    yield from _founded(counts)
    for row in range(2, _SLEEVE + 1):
        words = _EVEN[row % len(_EVEN)]
        if row % 7 == 0:
            words, counts = _WIDEN, tuple(c + 2 for c in counts)
        yield f"Row {row}: {words} {listed(counts)} sts"
    yield "Fasten off."


def blanket() -> str:
    """Write a blanket of 500 rows of 400 stitches, every row written out."""
    lines = [
        "# Blanket\n\n## Blanket\n\nThe ch-1 at the start of rows never counts as a st.",
        "Ch 402.\n\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (401 sts)",
        *(f"Row {row}: {_EVEN[row % len(_EVEN)]} (401 sts)" for row in range(2, 501)),
    ]
    return "\n\n".join(lines) + "\n"


def doily() -> str:
    """Write a doily of sixty rounds that grows by six stitches a round, with open rounds."""
    lines = ["# Doily\n\n## Doily\n\nRnd 1: 6 sc in magic ring; join. (6 sc)"]
    count = 6
    for rnd in range(2, 61):
        if rnd % 6 == 0:
            half = count // 2
            lines.append(
                f"Rnd {rnd}: Ch 1, *sc in next st, ch 1, sk next st; rep from * around; join. "
                f"({half} sc, {half} ch-1 sps)"
            )
            lines.append(f"Next rnd: Ch 1, 2 sc in each ch-1 sp around; join. ({count} sc)")
            continue
        plain = count // 6 - 1
        rest = f", sc in next {plain} sts" if plain else ""
        words = f"*2 sc in next st{rest}; rep from * around" if plain else "2 sc in each st around"
        count += 6
        lines.append(f"Rnd {rnd}: Ch 1, {words}; join. ({count} sc)")
    return "\n\n".join(lines) + "\n"


def stripes(courses: int, different: int, stitches: int = 100) -> str:
    """Write flat rows, some of them different in words, for the curves."""
    lines = [f"## Strip\n\nCh {stitches + 1}."]
    lines.append(f"Row 1: Sc in 2nd ch from hook and in each ch across, turn. ({stitches} sc)")
    for row in range(2, courses + 1):
        first = 1 + row % different
        lines.append(
            f"Row {row}: Ch 1, dc in next {first} sts, sc in each st across, turn. ({stitches} sts)"
        )
    return "\n\n".join(lines) + "\n"
