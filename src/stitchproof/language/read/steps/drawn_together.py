"""Places drawn into one stitch: "sc last 2 sts tog", "dc in next 3 sts together"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.made import Found, Wanted, made
from stitchproof.language.read.steps.nouns import read_noun
from stitchproof.language.read.steps.reader import STOPS, Reader
from stitchproof.language.read.steps.stitches import (
    as_int,
)
from stitchproof.language.tree import (
    TURNING_CHAIN,
    First,
    Last,
    Next,
    Noun,
    Steps,
    Thing,
)

TOGETHER: Final = word_set("tog together")


def with_turning_chain(reader: Reader, wanted: Wanted, found: Found) -> Found:
    """Read "and t-ch" behind "hdc2tog over last st": the two last places are drawn together."""
    at = found.place.at
    pair = wanted.named.stitch.together == 2  # noqa: PLR2004
    if not pair or not isinstance(at, Next | First | Last) or at.number != ONE:
        return found
    beside = _and_beside(reader, at)
    if beside is not None:
        return replace(found, place=replace(found.place, at=beside))
    ahead = 1
    while reader.text(ahead) in {"top", "of", "the", "in"}:
        ahead += 1
    if reader.text() not in {"and", "&"} or reader.text(ahead) not in {"tch", "turning"}:
        return found
    start = reader.at
    reader.take(ahead)
    if read_noun(reader) != TURNING_CHAIN:
        reader.at = start
        return found
    return replace(found, place=replace(found.place, at=Last(ONE, at.noun)))


def _and_beside(reader: Reader, at: Next | First | Last) -> Next | First | Last | None:
    """Read "and next ch-1 sp" behind "over first dc", "and last dc": a stitch and a chain."""
    start = reader.at
    words = {token.text for token in reader.tokens[max(start - _FAR, 0) : start]}
    if "over" not in words or not reader.accept_any(frozenset(("and", "&"))):
        return None
    last = reader.text() == "last"
    reader.pass_over(word_set("the next last following"))
    other = read_noun(reader)
    spaces = [n for n in (at.noun, other) if n is not None and n.thing is Thing.CHAIN_SPACE]
    sts = [n for n in (at.noun, other) if n is not None and n.thing in {Thing.KIND, Thing.STITCH}]
    if len(spaces) != 1 or len(sts) != 1 or spaces[0].chains != 1:
        reader.at = start
        return None
    noun = Noun(Thing.STITCH_OR_CHAIN, sts[0].kind, 1)
    return Last(ONE, noun) if last else replace(at, noun=noun)


_FAR: Final = 8  # tokens of "dc2tog over last 1-ch sp"


def pass_article(reader: Reader) -> None:
    """Go past "the" of "double crochet the last 2 stitches together"."""
    which = reader.text() == "the" and reader.text(1) in _WHICH and reader.number(2) is not None
    ahead = 3
    while which and reader.text(ahead) and reader.text(ahead) not in STOPS and ahead < _FAR:
        if reader.text(ahead) in TOGETHER:
            reader.take()
            return
        ahead += 1


_WHICH: Final = word_set("first last next following foll")


def drawn_together(reader: Reader, wanted: Wanted, found: Found) -> Steps | None:
    """Read "sc last 2 sts tog", "dc in next 3 sts together": the places go into one stitch."""
    at = found.place.at
    if not isinstance(at, Next | First | Last) or found.each != ONE:
        return None
    count = as_int(at.number)
    if count is None or count < 2 or wanted.named.stitch.together > 1:  # noqa: PLR2004
        return None
    reader.take()
    named = replace(wanted.named, stitch=replace(wanted.named.stitch, together=count))
    place = replace(found.place, at=replace(at, number=ONE))
    return made(reader, replace(wanted, named=named), replace(found, place=place))
