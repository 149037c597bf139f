"""The place worked last, and the stitch that a chain stands on."""

from itertools import pairwise
from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import length_first, read_noun
from stitchproof.language.read.steps.reader import MARKS, OPENING, STOPS, Reader
from stitchproof.language.tree import STITCH, First, Noun, Same, Target, Thing

_SAME_AS: Final = word_set(
    "joining join sl st ss leg last previous prev first the as turning tch ch beg beginning made"
    " joined chain - your sc dc hdc htr tr stitch slip worked where yarn was is"
)


def stops_here(reader: Reader) -> bool:
    """Tell whether nothing of the place can follow; "(peak)", "(12)" says nothing of it."""
    if reader.text() in OPENING and reader.partner[reader.at] == reader.at + 2:
        return True
    return reader.ended() or reader.text() in STOPS | MARKS or reader.text() == "and"


def read_same(reader: Reader) -> Target | None:
    """Read behind "same": "st as joining", "sp", "st at base of ch-3"."""
    if reader.text() in {"place", "one", "spot"}:
        reader.take()
        noun: Noun | None = STITCH
    else:
        noun = read_noun(reader)
    if noun is None:
        return None
    if at_base(reader):
        return Same(noun, first=True)
    behind = reader.at
    if reader.accept("as") or reader.sees("where"):
        while reader.text() in _SAME_AS or (reader.number() is not None and _is_length(reader)):
            reader.take()
        if not stops_here(reader) and not reader.sees("across"):
            return None
    words = {token.text for token in reader.tokens[behind : reader.at]}
    first = bool(words & _BEGINNING) and not words & _LAST
    # whatever the place is called: "1 sc in same sp as last sl st"
    return Same(STITCH if _of_join(reader, behind) else noun, first=first)


_BEGINNING: Final = word_set("joining join joined beg beginning ch chain tch turning first")
_LAST: Final = word_set("last previous prev")


def _of_join(reader: Reader, start: int) -> bool:
    """Tell whether the words from `start` on name the slip stitch that closed the round before."""
    words = {token.text for token in reader.tokens[start : reader.at]}
    slipped = any(
        one.text in _SLIPS and (one.text == "ss" or other.text == "st")
        for one, other in pairwise(reader.tokens[: start - 1])
    )
    return bool(words & (_SLIPS | _JOINS)) and not slipped


_SLIPS: Final = word_set("sl ss slip")
_JOINS: Final = word_set("join joining joined")


def _with_the_first(reader: Reader) -> Same | None:
    """Read "ch with the first 2 sc", "st that holds the first dc": where the row begins."""
    ahead = 2 if reader.text(1) in {"that", "which"} else 1
    if reader.text() not in _PLACES or reader.text(ahead) not in _HOLDING:
        return None
    ahead += 1 + (reader.text(ahead + 1) == "the")
    if reader.text(ahead) not in {"first", "1st", "beg", "beginning"}:
        return None
    ahead += 1 + (reader.number(ahead + 1) is not None)
    start = reader.at
    reader.take(ahead)
    noun = read_noun(reader)
    if noun is None or noun.thing not in {Thing.STITCH, Thing.KIND} or not stops_here(reader):
        reader.at = start
        return None
    return Same(STITCH, first=True)


_HOLDING: Final = word_set("with holding holds containing contains has had")


def joined_place(reader: Reader) -> Target | None:
    """Read "st with the join", "place where the yarn was joined": the stitch the row begins in."""
    holding = _with_the_first(reader)
    if holding is not None:
        return holding
    ahead = 1 if reader.text() in _PLACES else 0
    if reader.text(ahead) in {"with", "of"} and ahead:
        ahead += 1 + (reader.text(ahead + 1) == "the")
        if reader.text(ahead) not in {"join", "joining"}:
            return None
        reader.take(ahead + 1)
        return Same(STITCH, first=True)
    if reader.text(ahead) != "where":
        return None
    end = ahead + 1
    while reader.text(end) in _YARN_JOINED:
        end += 1
    words = {reader.text(i) for i in range(ahead, end)}
    if not words & {"joined", "rejoined", "join"} or not words & {"yarn", "you"}:
        return None
    reader.take(end)
    return Same(STITCH, first=True)


_PLACES: Final = word_set("st stitch place spot sp space ch one")
_YARN_JOINED: Final = word_set("the yarn new you was is were have had joined rejoined join")


def just_made(reader: Reader, noun: Noun) -> Same | First | None:
    """Read "just made", "at base of ch-3" behind a place: the last one, or where the row began."""
    if reader.text() == "just" and reader.text(1) in {"made", "formed", "completed", "worked"}:
        reader.take(2)
        return Same(noun)
    if noun.thing in _PLACES_BELOW and at_base(reader):
        spaced = noun.thing in {Thing.SPACE, Thing.CHAIN_SPACE}
        return Same(noun, first=True) if spaced else First()
    return None


_PLACES_BELOW: Final = frozenset((Thing.STITCH, Thing.CHAIN, Thing.SPACE, Thing.CHAIN_SPACE))


def at_base(reader: Reader) -> bool:
    """Read "at base of ch-3": the stitch that the chain stands on."""
    ahead = 1 if reader.text() in {"at", "as"} else 0
    if reader.text(ahead) == "the":
        ahead += 1
    if reader.text(ahead) not in {"base", "foot"} or reader.text(ahead + 1) != "of":
        return False
    reader.take(ahead + 2)
    reader.pass_over(word_set("the turning beg beginning ch chain - tch"))
    behind = length_first(reader)  # "base of 3ch", "base of 3-ch"
    if behind:
        reader.take(behind)
    elif reader.number() is not None:
        reader.take()
    return True


def _is_length(reader: Reader) -> bool:
    before = reader.at - 1
    return before >= 0 and reader.tokens[before].text in {"-", "ch", "first"}


_FAR: Final = 6  # words of a place
_INDICATED: Final = word_set("indicated specified designated stated given required")
_ANYWHERE: Final = word_set("st sp space stitch place sts or and ch loop -")


def indicated(reader: Reader) -> bool:
    """Read "indicated st", "st or sp indicated": the place that the row will name."""
    ahead = 0
    while reader.text(ahead) in _ANYWHERE or reader.number(ahead) is not None:
        ahead += 1
        if ahead > _FAR:
            return False
    if reader.text(ahead) not in _INDICATED:
        return False
    reader.take(ahead + 1)
    reader.pass_over(_ANYWHERE if not ahead else frozenset())
    return True
