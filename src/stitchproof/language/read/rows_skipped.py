"""Rows that some sizes leave out: `Baby size: skip ahead to Rnd 10`, `For size S omit Row 6`.

So too the rows that come next and are only for some: `Work the next rnd for the 3rd size only`.
"""

import re
from types import MappingProxyType
from typing import Final

from stitchproof.language.read.size_ranks import size_rank
from stitchproof.language.read.which_sizes import named_sizes

_REACH: Final = 120  # characters of a line
_ROW: Final = r"(?:rows?|rn?ds?|rounds?)\.?"
_NAME: Final = (
    rf"(?:(?!(?:next|following|this|that|end|of|beg|beginning|same)\b)[a-z][\w’'-]*\s+){{1,3}}{_ROW}"
    r"(?:\s*\d{1,3})?"
)
_PART: Final = (  # a heading or a label: `Straight Part`, `Edge`
    r"(?!(?:next|following|this|that|end|of|beg|beginning|same|step|page)\b)"
    r"(?:(?!(?:hook|yarn|colou?r|mc|cc)\b)[a-z][\w’'-]*(?:\s+(?=[^\W\d_])|(?=\s*[.,;)\]*_]|\s*$))){1,4}"
)
_OTHERS: Final = (
    r"(?:(?:all\s+|the\s+)*(?:every(?:body|one)\s+else|others?|remaining|other sizes)\b[^\n]{0,50}"
    r"|[^\n.;:]{1,60}\s(?:continues?|(?:go(?:es)?|carry|carries)\s+on)\b[^\n]{0,40})"
)
_SKIPS: Final = re.compile(
    r"\s*[*_(\[]*(?:for\s+)?(?:the\s+)?(?:sizes?\s+)?(?P<list>[^:.;()\[\]]{1,60}?)(?:\s+sizes?)?"
    r"(?:\s+only|\s+(?:is|are)\s+(?:now\s+)?(?:done|complete|completed|finished|ready))?"
    r"\s*[:,–—-]?\s*(?:(?:should|now|please)\s+)*"
    r"(?:(?:(?:skip|go|move|proceed|jump)s?\s+(?:(?:ahead|on|directly|straight|now|forward)\s+)*to"
    r"|(?:cont(?:inue)?|go\s+on|carry\s+on|resume)\s+(?:with|at|from))\s+"
    rf"(?:the\s+)?(?:{_ROW}\s*(?P<to>\d{{1,4}})|(?P<name>{_NAME}))"
    r"|(?:skip|go|move|proceed|jump)s?\s+(?:(?:ahead|on|directly|straight|now|forward)\s+)*to\s+"
    rf"(?:the\s+)?(?P<part>{_PART})"
    rf"|(?:omit|skip)s?\s+{_ROW}\s*(?P<first>\d{{1,4}})(?:\s*(?:-|–|to|and|&)\s*(?P<last>\d{{1,4}}))?)"
    rf"\s*[.,;)\]*_]*\s*(?:{_OTHERS})?$",
    re.IGNORECASE,
)
_PARTED: Final = re.compile(r"\s*(?:,|/|&|\band\b)\s*")


def read_rows_skipped(
    line: str, sizes: tuple[str, ...]
) -> tuple[tuple[str, ...], int | str] | None:
    """Read which sizes leave rows out from here, and the row with which they go on.

    That is its number, or in lower case its name or that of the part it stands in.

    None where a line says something else.
    """
    match = _SKIPS.match(line[:_REACH])
    if match is None or len(line) > _REACH:
        return None
    listed = tuple(name.strip() for name in _PARTED.split(match["list"]))
    named = named_sizes(listed, sizes)
    if not named:  # `Small basket`
        named = named_sizes(tuple(_OF_THING.sub("", name) for name in listed), sizes)
    told = tuple(name.strip().removesuffix(" size") for name in _PARTED.split(match["list"]))
    if not named and all(size_rank(name) is not None for name in told):
        named = told  # of which sizes these are nobody knows
    if not named or len(named) == len(sizes):
        return None
    name = match["name"] or match["part"]
    if name:
        return named, " ".join(name.lower().split()).rstrip(".")
    return named, int(match["to"]) if match["to"] else int(match["last"] or match["first"]) + 1


_OF_THING: Final = re.compile(r"\s+[a-z]+$")
_NEXT: Final = re.compile(
    r"\s*[*_(\[]*(?:work|repeat|rep)?\s*(?:the\s+)?(?:next|following)\s+"
    rf"(?:(?P<many>\d|two|three|four)\s+)?{_ROW}\s+(?:(?:is|are)\s+)?(?:worked\s+)?(?:for|in|on)\s+"
    r"(?:the\s+)?(?:sizes?\s+)?(?P<list>[^:.;()\[\]]{1,60}?)(?:\s+sizes?)?\s+only\s*[.:)\]*_]*$",
    re.IGNORECASE,
)
_FEW: Final = MappingProxyType({"two": 2, "three": 3, "four": 4})


def read_next_only(line: str, sizes: tuple[str, ...]) -> tuple[tuple[str, ...], int] | None:
    """Read for which sizes the next rows are, and how many; None where a line says it of none."""
    match = _NEXT.match(line[:_REACH])
    if match is None or not sizes or len(line) > _REACH:
        return None
    named = named_sizes(tuple(name.strip() for name in _PARTED.split(match["list"])), sizes)
    many = (match["many"] or "1").lower()
    return (named, _FEW.get(many) or int(many)) if named else None
