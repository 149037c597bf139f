"""A measure that rises with the size and falls in one of them."""

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.place import Span
from stitchproof.checks import narrative
from stitchproof.checks.seen import Seen
from stitchproof.language.manuscript import BlockKind
from stitchproof.language.number import Number

_RISES: Final = re.compile(
    r"\b(?:bust|chest|hips?|waist|upper arms?|biceps?|wrist|armholes?|cross[- ]back|shoulders?"
    r"|circumference|width|yardage|yards?|yds?|met(?:re|er)s?|skeins?|balls?|hanks?|grams?)\b",
    re.IGNORECASE,
)
_CELL: Final = re.compile(
    r"\s*(?P<number>\d{1,4}(?:\.\d{1,2})?)\s*(?:cm|in|mm|m|g|yds?|\"|”|″)?\s*"
)
_WRITTEN: Final = re.compile(r"\d+(?:\.\d+)?\s?(?:[¼½¾⅓⅔⅛⅜⅝⅞]|\d/\d)?")
_FEWEST: Final = 3  # sizes; of two, the second may well be another kind of wearer


@facts
class FallsWithSize:
    """What falls, and the two numbers."""

    code: ClassVar[Code] = Code("C433", "falls-with-size", Level.WARNING)
    what: str
    before: str
    after: str

    def message(self) -> str:
        """Give both numbers."""
        return f"{self.what} rises from size to size, but falls from {self.before} to {self.after}"

    def help(self) -> str:
        """Say where to look."""
        return "check the two numbers"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Look at the lists and tables of measures outside the instructions."""
    sizes = seen.resolved.sizes
    if len(sizes) >= _FEWEST:
        yield from _lists(seen, sizes)
        yield from _tables(seen, sizes)


def _lists(seen: Seen, sizes: tuple[str, ...]) -> Iterator[Diagnostic]:
    listed = [n for n in seen.manuscript.numbers if _written(n, len(sizes))]
    if not listed:
        return
    at = 0
    for line in narrative.lines(seen.manuscript):
        while at < len(listed) and listed[at].place.start < line.start:
            at += 1
        if at == len(listed):
            return
        number = listed[at]
        before = seen.manuscript.text[line.start : number.place.start]
        what = _RISES.search(before) if number.place.start < line.end else None
        if what is not None and isinstance(number.value, tuple):
            values = number.value
            written = tuple(_WRITTEN.findall(number.spelling))
            if len(written) != len(values):
                written = tuple("-" if v is None else f"{float(v):g}" for v in values)
            yield from _fall((what.group(), written), values, number.place, sizes)


def _written(number: Number, sizes: int) -> bool:
    return isinstance(number.value, tuple) and len(number.value) == sizes


def _tables(seen: Seen, sizes: tuple[str, ...]) -> Iterator[Diagnostic]:
    for line in narrative.lines(seen.manuscript, BlockKind.TABLE):
        what, *cells = seen.manuscript.text[line.start : line.end].strip(" |").split("|")
        found = [_CELL.fullmatch(cell) for cell in cells]
        if len(cells) == len(sizes) and _RISES.search(what):
            values = [Fraction(m["number"]) if m else None for m in found]
            written = tuple(cell.strip() for cell in cells)
            yield from _fall((what.strip(" *_"), written), values, line, sizes)


def _fall(
    shown: tuple[str, tuple[str, ...]],
    values: Sequence[int | Fraction | None],
    place: Span,
    sizes: tuple[str, ...],
) -> Iterator[Diagnostic]:
    """Tell of the one place where a list falls that rises everywhere else."""
    what, written = shown
    known = [v for v in values if v is not None]
    falls = [i for i, (a, b) in enumerate(pairwise(known)) if b < a]
    if len(known) < len(sizes) or len(falls) != 1:
        return
    at = falls[0]
    rest = (known[:at] + known[at + 1 :], known[: at + 1] + known[at + 2 :])
    if any(all(a <= b for a, b in pairwise(one)) and one[0] < one[-1] for one in rest):
        yield Diagnostic(
            finding=FallsWithSize(what.lower(), written[at], written[at + 1]),
            place=place,
            sizes=(sizes[at], sizes[at + 1]),
        )
