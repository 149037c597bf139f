"""Rows that some sizes leave out: `Baby size: skip ahead to Rnd 10`, `For size S omit Row 6`."""

import re
from typing import Final

from stitchproof.language.read.which_sizes import named_sizes

_REACH: Final = 120  # characters of a line
_ROW: Final = r"(?:rows?|rn?ds?|rounds?)\.?"
_SKIPS: Final = re.compile(
    r"\s*[*_(\[]*(?:for\s+)?(?:the\s+)?(?:sizes?\s+)?(?P<list>[^:.;()\[\]]{1,60}?)(?:\s+sizes?)?"
    r"(?:\s+only)?\s*[:,–—-]?\s*(?:should\s+)?"
    r"(?:(?:skip|go|move|proceed|jump)s?\s+(?:(?:ahead|on|directly|straight|now|forward)\s+)*to\s+"
    rf"(?:the\s+)?{_ROW}\s*(?P<to>\d{{1,4}})"
    rf"|(?:omit|skip)s?\s+{_ROW}\s*(?P<first>\d{{1,4}})(?:\s*(?:-|–|to|and|&)\s*(?P<last>\d{{1,4}}))?)"
    r"\s*[.)\]*_]*\s*$",
    re.IGNORECASE,
)
_PARTED: Final = re.compile(r"\s*(?:,|/|&|\band\b)\s*")


def read_rows_skipped(line: str, sizes: tuple[str, ...]) -> tuple[tuple[str, ...], int] | None:
    """Read which sizes leave rows out from here, and the row with which they go on.

    None where a line says something else.
    """
    match = _SKIPS.match(line[:_REACH])
    if match is None or not sizes or len(line) > _REACH:
        return None
    named = named_sizes(tuple(name.strip() for name in _PARTED.split(match["list"])), sizes)
    if not named or len(named) == len(sizes):
        return None
    return named, int(match["to"]) if match["to"] else int(match["last"] or match["first"]) + 1
