"""How stitches are worked, where it changes no count: "behind dc just made", "in back bumps"."""

from itertools import pairwise
from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.parts import part_length
from stitchproof.language.read.steps.reader import STOPS, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS, SPACES
from stitchproof.language.read.steps.stitches import read_stitch, starts_stitch

_OF_CHAIN: Final = word_set("of the each every foundation beg beginning only")


def names_bumps(reader: Reader) -> bool:
    """Read "back bumps of ch": which thread of a chain is taken changes no count."""
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text(ahead) not in {"back", "bottom", "rear"}:
        return False
    if reader.text(ahead + 1) not in word_set("bump bumps ridge ridges hump humps bar bars"):
        return False
    ahead += 2
    while reader.text(ahead) in CHAINS | _OF_CHAIN:
        ahead += 1
    if reader.text(ahead) not in {",", ":", ";"}:
        return False
    reader.take(ahead)
    return True


_ALL: Final = word_set("every each all")
_ON: Final = word_set("in into on over above")
_LONGEST: Final = 24  # tokens


def tells_over_what(reader: Reader) -> bool:
    """Read "every sc into a dc and every dc into a sc": what comes to stand on what.

    It says how the stitches named before fall, and works none.
    """
    if reader.text() not in _ALL or not starts_stitch(reader, 1):
        return False
    start = reader.at
    reader.take()
    read_stitch(reader)
    reader.accept_any(STITCHES)
    placed = bool(reader.accept_any(_ON))
    if placed:
        reader.accept("top", "of")
    if not placed or reader.text() not in {"a", "an"} | _ALL or not starts_stitch(reader, 1):
        reader.at = start
        return False
    while not reader.ended() and reader.text() not in STOPS and reader.at - start < _LONGEST:
        reader.take()
    return True


def names_manner(reader: Reader) -> bool:
    """Read "behind dc just made", "from left to right": the manner, not the place."""
    if tells_over_what(reader):
        return True
    if reader.text() in {"behind", "in", "at", "over"} and _beside_made(reader):
        return True
    if reader.text() != "from" or reader.text(1) not in {"left", "right"}:
        return False
    reader.take(4 if reader.text(2) == "to" else 2)
    return True


def pass_made(reader: Reader) -> None:
    """Go past "in front of the sts just made" behind a place: on which side it is worked."""
    start = reader.at
    reader.accept("working")
    if reader.text() in {"behind", "in"} and _beside_made(reader):
        said = {token.text for token in reader.tokens[start : reader.at]}
        if said & _MADE and (reader.ended() or reader.text() in STOPS):
            return
    reader.at = start


_MADE: Final = word_set("made worked it them")
_AFTER_MADE: Final = word_set("just made worked it them these those post posts petals")


def _beside_made(reader: Reader) -> bool:
    """Read "behind dc just made", "in front of FPtr just worked", "over ch-2 sp"."""
    ahead = {"behind": 1, "over": 1}.get(reader.text(), 2)
    if reader.text() in {"in", "at"} and reader.text(1) not in {"front", "back"}:
        return False
    if ahead == 2:  # noqa: PLR2004 - "in front"
        ahead += reader.text(2) == "of"
        if ahead == 2 and reader.text(2) not in STOPS:  # noqa: PLR2004
            return False
    start = reader.at
    reader.take(ahead)
    while reader.text() in _BESIDE_WORDS or reader.number() is not None:
        reader.take()
    named = reader.at
    if starts_stitch(reader) and reader.text() not in STITCHES:
        read_stitch(reader)
    if reader.text() in {"in", "into", "around"} and reader.at > named:
        reader.at = named  # "in front of these FPtr in each of ...": the stitch is what is done
        return True
    behind = STITCHES | CHAINS | SPACES | _AFTER_MADE | {"-"}
    while reader.text() in behind or _chains_of_space(reader):
        reader.take()
    of = int(reader.text() == "of" and reader.tokens[reader.at - 1].text in _AFTER_MADE)
    if reader.text(of) in _ROWS and reader.number(of + 1) is not None:
        reader.take(of + 2)  # "behind petals of Rnd 3", "behind Rnd 3"
    if reader.text() in STOPS or starts_stitch(reader) or reader.ended():
        return True
    reader.at = start
    return False


def _chains_of_space(reader: Reader) -> bool:
    """Tell whether the number of "ch-1 sp" stands here."""
    before = reader.tokens[reader.at - 1].text
    return reader.number() is not None and before in CHAINS | {"-"}


_ROWS: Final = word_set("row rnd round")
_BESIDE_WORDS: Final = word_set("the last previous prev these those next first")


def as_before(reader: Reader) -> bool:
    """Tell whether "as follows", "the same in reverse", "missed the centre 8" comes: no stitch."""
    the = int(reader.text() == "the")
    reversed_ = {reader.text(i) for i in range(the + 1, the + 4)} & _REVERSED
    done = reader.tokens[reader.at - 1].text == "having" and reader.text() in _DONE
    match = [reader.text(i) for i in range(_NEAR)]  # "the other shoulder to match from the edge"
    alike = {("to", "match"), ("to", "correspond")} & set(pairwise(match))
    shoulder = bool(alike) and part_length(reader) > 0
    return (
        shoulder
        or _other_part(reader)
        or reader.sees("as", "follows")
        or (reader.text(the) == "same" and bool(reversed_))
        or done
    )


def _other_part(reader: Reader) -> bool:
    """Tell whether "second shoulder over rem 12 sts in the same way", "to correspond to" comes."""
    if reader.text() == "to" and reader.text(1) in {"match", "correspond"}:
        return True
    the = int(reader.text() == "the")
    if reader.text(the) not in _OTHERS or not part_length(reader, the):
        return False
    clause = [reader.text(i) for i in range(_FAR) if i + reader.at < len(reader.tokens)]
    ends = next((i for i, text in enumerate(clause) if text in STOPS), len(clause))
    pairs = set(pairwise(clause[:ends]))
    return bool(pairs & _ALIKE) or clause[max(ends - 2, 0) : ends] == ["the", "same"]


_FAR: Final = 16  # words
_OTHERS: Final = word_set("second 2nd other remaining rem opposite left right")
_ALIKE: Final = frozenset(
    (
        *(("same", "way"), ("same", "manner"), ("same", "as"), ("to", "match")),
        *(("to", "correspond"), ("as", "for"), ("as", "first"), ("like", "first")),
    )
)
_NEAR: Final = 6  # words
_REVERSED: Final = word_set("reverse reversed mirror mirrored")
_DONE: Final = word_set("missed skipped left")
