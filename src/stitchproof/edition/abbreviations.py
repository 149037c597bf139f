"""The abbreviations of a pattern: those its instructions use, found and not typed."""

import re
from collections.abc import Iterator
from typing import Final

from stitchproof.edition.matter import Matter
from stitchproof.edition.model import Block, Facts, Paragraph, plain
from stitchproof.language.manuscript import BlockKind
from stitchproof.trade import stitches
from stitchproof.trade.terms import explain

_PROSE: Final = frozenset((BlockKind.PROSE, BlockKind.LIST, BlockKind.QUOTE, BlockKind.TABLE))
_CAPITALS: Final = frozenset(("rs", "ws", "mc", "cc"))
# "yo", and letters without a vowel: no word of English, unless it is all in capitals.
_NO_VOWEL: Final = "b-df-hj-np-tv-zB-DF-HJ-NP-TV-Z"
_SHORT: Final = re.compile(rf"(?<![\w.'’-])(?:[Yy]o|[{_NO_VOWEL}]{{2,5}})(?![\w'’])")
_LABEL_WORDS: Final = re.compile(r"\b(?:rnds?|rs|ws|mc|cc)\b")


def abbreviations(matter: Matter) -> Iterator[Block]:
    """Explain every abbreviation used, in the pattern's own terms, stitches with their making.

    Stitches that the author defines are named and left to that definition.
    """
    own = {special.name: special for special in matter.manuscript.specials}
    found: dict[str, str] = {}
    for word in _used(matter):
        known = explain(word, matter.terms)
        if known is not None:
            ours = own.get(word) or own.get(known.abbr.lower())
            how = "see the special stitches" if ours else _making(word, matter)
            found[known.abbr] = f"{known.meaning}{f': {how}' if how else ''}"
    # "st" explains "sts".
    found = {
        word: told
        for word, told in found.items()
        if word.removesuffix("s") not in found or not word.endswith("s")
    }
    if not found:
        return
    yield Paragraph(plain(f"This pattern uses {matter.terms} crochet terms."))
    yield Facts(
        tuple((word, plain(meaning)) for word, meaning in sorted(found.items(), key=_by_word))
    )


def _used(matter: Matter) -> Iterator[str]:
    for word, _ in matter.manuscript.words:
        yield word.lower()
    yield from _in_prose(matter)
    for section in matter.manuscript.sections:
        for course in section.courses:
            yield from _LABEL_WORDS.findall(course.label.words.lower())
    for name in sorted(matter.proof.used):
        named = stitches.named(name.replace("_", " "), "US")
        if named is not None:
            yield stitches.abbreviation(
                named.kind, named.post, named.together, matter.terms
            ).lower()


def _in_prose(matter: Matter) -> Iterator[str]:
    """Give abbreviations of notes and definitions; what may be a word of English is none."""
    text = matter.manuscript.text
    for block in matter.manuscript.blocks:
        if block.kind not in _PROSE:
            continue
        for found in _SHORT.finditer(text, block.place.start, block.place.end):
            sides = found[0].lower() in _CAPITALS
            if found[0].isupper() if sides else not found[0].isupper():
                yield found[0].lower()


def _making(word: str, matter: Matter) -> str:
    named = stitches.named(word, matter.terms)
    if named is None:
        return ""
    made = stitches.definition(named.kind, named.post, named.together, matter.terms)
    return f"{made[:1].lower()}{made[1:]}".rstrip(".")


def _by_word(item: tuple[str, str]) -> tuple[str, str]:
    return item[0].casefold(), item[0]
