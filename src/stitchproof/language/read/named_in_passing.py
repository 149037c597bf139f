"""Groups that a row names where it makes them first: `5 dc in next ch (fan made)`."""

import re
from collections.abc import Mapping
from itertools import islice
from typing import Final

from stitchproof.base.place import Span
from stitchproof.language.read.specials import ReadBody, trade_stitch
from stitchproof.language.tree import Special, Unread
from stitchproof.trade.tables import Terms

_IN_PASSING: Final = re.compile(
    r"(?P<body>\([^()]{3,60}\)|\b[2-9] ?[a-z]{2,9}(?: [a-z]{5,9}){0,3})"
    r" (?:all )?(?:in|into) (?:the )?"
    r"(?:same|next|first|each|last)?"
    r"[^,;.()\[\]*]{1,30}?\s*(?:[(\[]|[–—-]\s*|[,;]\s*)(?:(?:an?|first|1st|beg(?:inning)?)\s+)?"
    r"(?P<name>[a-z][a-z-]{1,14}(?: st(?:itch)?)?) (?:is )?(?:made|formed|completed)\b",
    re.IGNORECASE,
)
_MADE: Final = ("made", "formed", "completed")
_NOT_NAMED: Final = re.compile(
    r"(?:inc|dec|increase|decrease|corner|first|last|is|just|join\w*|petal|row|rnd|round|chain|sp|loop)\b",
    re.IGNORECASE,
)
_MOST_IN_PASSING: Final = 20


def may_name_in_passing(text: str) -> bool:
    """Tell whether any row of a text may say what a group is called: `(fan made)`."""
    words = text.lower()
    return any(word in words for word in _MADE)


def named_in_passing(
    text: str, place: Span, terms: Terms, known: Mapping[str, Special], read_body: ReadBody
) -> tuple[Special, ...]:
    """Read groups that a row names where it makes them first: `5 dc in next ch (fan made)`."""
    if not may_name_in_passing(text[place.start : place.end]):
        return ()
    made: list[Special] = []
    for match in islice(_IN_PASSING.finditer(text, place.start, place.end), _MOST_IN_PASSING):
        name = match["name"].lower()
        if name in known or _NOT_NAMED.match(name) or trade_stitch(name, terms) is not None:
            continue
        start, end = match.span("body")
        if text[start] == "(":
            start, end = start + 1, end - 1
        steps = read_body(start, end, known)
        if steps and not any(isinstance(step, Unread) for step in steps):
            words = " ".join(match["body"].split())
            made.append(
                Special(name=name, written=match["name"], body=steps, words=words, place=place)
            )
    return tuple(made)
