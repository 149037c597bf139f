"""The abbreviations of a pattern: those its instructions use, found and not typed."""

import re
from collections.abc import Iterator
from typing import Final

from stitchproof.edition.matter import Matter
from stitchproof.edition.model import Block, Facts, Paragraph, plain
from stitchproof.trade import stitches
from stitchproof.trade.terms import explain

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
    for section in matter.manuscript.sections:
        for course in section.courses:
            yield from _LABEL_WORDS.findall(course.label.words.lower())
    for name in sorted(matter.proof.used):
        named = stitches.named(name.replace("_", " "), "US")
        if named is not None:
            yield stitches.abbreviation(
                named.kind, named.post, named.together, matter.terms
            ).lower()


def _making(word: str, matter: Matter) -> str:
    named = stitches.named(word, matter.terms)
    if named is None:
        return ""
    made = stitches.definition(named.kind, named.post, named.together, matter.terms)
    return f"{made[:1].lower()}{made[1:]}".rstrip(".")


def _by_word(item: tuple[str, str]) -> tuple[str, str]:
    return item[0].casefold(), item[0]
