"""Whose stitch names a text says that it uses: "UK terms", "Stitch names: British"."""

import re
from collections.abc import Iterable
from typing import Final

from stitchproof.trade.tables import Terms

_OF_NAMES: Final = (  # what may be said to be of one system
    r"(?:[^.;\n]{0,30}?\b(?:terms?|terminology|abbrev\w*)\b"
    r"|\.?\s+(?:crochet\s+)?(?:stitch\s+)?(?:names?|notation|conventions?|wording)\b"
    r"|\.?\s+crochet(?=\s*(?:[.!,;)]|$)))"
)
_SAID: Final = re.compile(
    rf"\b(?P<us>u\.?s\.?a?|american|north american)\b{_OF_NAMES}"
    rf"|\b(?P<uk>u\.?k\.?|british|english)\b{_OF_NAMES}"
    r"|\b(?:terms?|terminology|abbrev\w*|stitch(?:es)?(?: names| used)?)\s*"
    r"(?:[:=(\[,]|\b(?:are|is)\b|(?=(?-i:U\.?[SK]\b)))"
    r"(?:\s+(?:all|in|given|those|the|of))*\s*"
    r"(?:(?P<us_last>(?-i:U\.?S\b)|american\b)|(?P<uk_last>(?-i:U\.?K\b)|british\b))"
    r"(?!\.?\s*(?:[/&]|and\b|or\b|sizes?\b|hooks?\b|(?-i:[A-Z])\b|\d))",
    re.IGNORECASE,
)
_IN_WHAT: Final = (
    "term",
    "abbrev",
    "name",
    "notation",
    "convention",
    "wording",
    "crochet",
    "stitch",
)  # one of them stands wherever it is said


def said_terms(narrative: Iterable[str]) -> Terms | None:
    """Read `US terms used throughout`; None where both systems are named, or none."""
    found: set[Terms] = set()
    for words in narrative:
        plain = words.lower()
        if not any(word in plain for word in _IN_WHAT):
            continue
        for said in _SAID.finditer(words):
            found.add("US" if said["us"] or said["us_last"] else "UK")
    return found.pop() if len(found) == 1 else None
