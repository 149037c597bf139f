"""The author's own words without abbreviations."""

import re
from typing import Final

from stitchproof.trade.tables import Terms
from stitchproof.trade.terms import explain

# Abbreviations that are words of English too, and those of many.
_ENGLISH: Final = frozenset(
    ("alt", "bet", "bob", "bo", "crab", "fan", "fans", "pat", "pop", "puff")
)
_PLURALS: Final = frozenset(
    ("chs", "sps", "lps", "rnds", "reps", "incs", "decs", "scs", "dcs", "trs")
)


def in_full(words: str, terms: Terms) -> str:
    """Say the abbreviations in the author's own words in full."""

    def full(found: re.Match[str]) -> str:
        word = found[0].lower()
        known = explain(word, terms) if len(word) > 1 and word not in _ENGLISH else None
        if known is None:
            return found[0]
        meaning = "beginning" if word == "beg" else known.meaning
        many = word in _PLURALS and not meaning.endswith("s")
        said = f"{meaning}s" if many else meaning
        begins = found[0][:1].isupper() and found[0][1:].islower()
        return f"{said[:1].upper()}{said[1:]}" if begins else said

    said = re.sub(r"(?<!\w)[A-Za-z]{2,5}(?!\w)", full, words)
    return re.sub(r"(?<=right|wrong) side(?= (?:together|facing each other))", " sides", said)
