"""The state of sorting lines, and for which sizes the lines are."""

import re
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.language.read.blocks import Line
from stitchproof.language.read.for_sizes import ALL_SIZES, read_only
from stitchproof.language.read.label_numbers import Source
from stitchproof.language.read.openings import skip_marks
from stitchproof.language.read.rows_skipped import read_next_only, read_rows_skipped
from stitchproof.language.read.sections import Region
from stitchproof.language.read.size_ends import is_an_end, joins_again
from stitchproof.language.tree import Label

WORKED: Final = (Region.PIECE, Region.FINISHING)


@dataclass(slots=True)
class Sorter:
    """The state between one stretch and the next."""

    source: Source
    region: Region
    level: int = 0
    soft: Region | None = None  # a line such as "Notes" without heading marks opened it
    only: tuple[str, ...] = ()
    sizes: tuple[str, ...] = ()
    ended: bool = False  # `only` are the sizes that go on where others have fastened off
    # the row with which those that leave rows out go on; below 0: so many rows from here, less one
    until: int | str = 0

    def where(self) -> Region:
        """Give the region that holds now."""
        return self.soft or self.region


def leaves_out(sorter: Sorter, words: str, *, worked: bool) -> bool:
    """Take `Baby size: skip to Rnd 10` for whom the rows from here on are.

    `worked`: it stands below an instruction, wherever that is.
    """
    _reaches_the_part(sorter, words)
    here = worked or sorter.where() in WORKED
    following = read_next_only(words, sorter.sizes) if here else None
    if following is not None:
        sorter.only, sorter.until = following[0], -following[1] - 1
        return True
    skipped = read_rows_skipped(words, sorter.sizes) if here else None
    if skipped is None:
        return False
    known = set(skipped[0]) <= set(sorter.sizes)
    left = tuple(size for size in sorter.only or sorter.sizes if size not in skipped[0])
    sorter.only = left if known else (f"all but {skipped[0][0]}",)  # none that the pattern has
    sorter.until = skipped[1]
    return True


def begins(sorter: Sorter, only: tuple[str, ...]) -> None:
    """Let lines from here on be for some sizes, or for all."""
    sorter.only = only
    if isinstance(sorter.until, int) and sorter.until < 0:
        sorter.until = 0


def go_on(sorter: Sorter, label: Label | None) -> None:
    """Let all sizes work again from the row on with which those go on that left some out."""
    if label is None or not sorter.until:
        return
    if isinstance(sorter.until, int) and sorter.until < 0:
        sorter.until += 1
        sorter.only = sorter.only if sorter.until else ()
        return
    first = label.first.value if label.first is not None else None
    called = _called(label.words)
    if sorter.until == called or (isinstance(first, tuple) and sorter.until in first):
        sorter.only, sorter.until = (), 0


def _called(words: str) -> str:
    return words.lower().partition("(")[0].strip(" *_:.\t")


def _reaches_the_part(sorter: Sorter, title: str) -> None:
    """Let all sizes work again from the part on, named by a line of its own, that some went to."""
    if isinstance(sorter.until, str) and sorter.until == _called(title):
        sorter.only, sorter.until = (), 0


def ends_some(sorter: Sorter, words: str, only: tuple[str, ...] | None) -> None:
    """Let the sizes that fasten off stand still until all are named, or new yarn is joined."""
    if only and is_an_end(words):
        goes_on = tuple(size for size in sorter.only or sorter.sizes if size not in only)
        sorter.only, sorter.ended = goes_on, bool(goes_on)
    elif only is None and sorter.ended and joins_again(words):
        sorter.only, sorter.ended = (), False


def sizes_of(sorter: Sorter, line: Line) -> tuple[int, tuple[str, ...] | None]:
    """Read `Sizes L and XL only:` or `All sizes:` at the start of a line."""
    text = sorter.source.text
    start = line.start + skip_marks(line.of(text))
    every = ALL_SIZES.match(text, start, line.end)
    if every:
        sorter.only = ()
        return every.end(), ()
    told = read_only(text, start, line.end, sorter.sizes, sorter.only)
    if told and told[1] >= line.end and "only" not in text[start : told[1]].lower():
        told = told if sorter.where() in WORKED else None  # `Size S:` above its measurements
    return (told[1], told[0]) if told else (line.start, None)


_TITLED_FOR_ALL: Final = re.compile(
    r"[\s*_]*[^\W\d_][^()\[\]:;,.*_]{1,40}?[\s*_]*(?:[(\[]|\s[–—-]\s)[\s*_]*"
    rf"{ALL_SIZES.pattern}[)\]]?[\s*_:.]*",
    re.IGNORECASE,
)


def titled_for_all(sorter: Sorter, words: str) -> bool:
    """Whether a title that is no heading is for all sizes: `Body (all sizes)`."""
    return sorter.where() in WORKED and _TITLED_FOR_ALL.fullmatch(words) is not None
