"""Stitches spread over an edge: "42 evenly along lower edge", "24 across back neck", rates."""

from itertools import pairwise
from typing import Final

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until
from stitchproof.language.read.steps.made import Found, Wanted, bare_place
from stitchproof.language.read.steps.nouns import read_noun
from stitchproof.language.read.steps.parts import accept_part, part_length
from stitchproof.language.read.steps.places import EACH, Place
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import STITCH, Each, Evenly, RowEnds

_ROWS: Final = word_set("row rows rnd rnds round rounds")


def in_all(reader: Reader, wanted: Wanted) -> Found | None:
    """Read "22 sc across": they are 22 in all."""
    until = read_until(reader)
    return None if until is None else Found(Place(bare_place(wanted)), counted=True)


def across_evenly(reader: Reader) -> Found:
    """Read "evenly across" with no number: it is one in each stitch."""
    reader.take()
    return Found(Place(Each()))


def along_part(reader: Reader, wanted: Wanted) -> bool:
    """Tell whether "24 sc across back neck", "sc down left front" goes along an edge by name."""
    text = reader.text()
    ahead = 2 if reader.text(1) == "the" else 1
    founded = text == "along" and reader.sees_at(ahead, "foundation", "edge")
    if founded:
        return wanted.number not in {None, ONE}
    if text not in {"across", "along", "up", "down", "around"} or not part_length(reader, 1):
        return False
    return text in {"up", "down"} or wanted.number not in {None, ONE}


def rate_ahead(reader: Reader) -> int:
    """Count the tokens before the number of "for every 2 rows", "at end of every 2 rows", or 0."""
    ahead = 0
    if reader.text() in {"in", "into", "along", "over", "at"}:
        ahead = 2 if reader.text(1) == "the" else 1
        named = reader.text(ahead) in _ENDS and reader.text(ahead + 1) == "of"
        ahead = ahead + 2 if named else 1
    elif reader.text() == "for":
        ahead = 1
    ahead += reader.text(ahead) in EACH | {"per"}
    each = ahead > 0 and reader.text(ahead - 1) in EACH | {"per"}
    counted = each and reader.number(ahead) is not None
    return ahead if counted and (reader.text() == "for" or reader.text(ahead + 1) in _ROWS) else 0


_ENDS: Final = word_set("end ends side sides edge")


def for_every(reader: Reader, wanted: Wanted, ahead: int) -> Found | None:
    """Read "3 sc for every 2 rows along edge": a rate along row ends; its number is some way on."""
    over = reader.number(ahead)
    reader.take(ahead + 1)
    if over is None or not reader.accept_any(_ROWS):
        return None
    reader.accept("-")
    reader.accept_any(word_set("end ends"))
    if reader.text() in {"along", "across", "up", "down", "around", "of", "on"}:
        reader.take()
        accept_part(reader)
    return Found(Place(RowEnds(((STITCH, ONE),), over=over)), wanted.number or ONE)


def evenly(reader: Reader, number: Number | None) -> Found | None:
    """Read "evenly along lower edge": the words to the next stop say where."""
    start = reader.at
    while not reader.ended() and (reader.text() not in _STOPPING or _goes_on(reader)):
        if number is None and reader.sees("until", "you", "have") and reader.number(3) is not None:
            words, total = reader.words(start), reader.number(3)
            reader.take(4)
            read_noun(reader)
            return Found(Place(Evenly(total, words, "in all")))
        if reader.text() in {"and", "then"} and _other_step(reader):
            break  # "20 sc across back neck and 12 sc down left front"
        if reader.text() == "with" and reader.number(1) is not None and starts_stitch(reader, 2):
            break  # "evenly around, with 3 sc in each corner"
        if reader.text() == "working" and reader.number(1) is not None:
            break  # "evenly around brim, working one stitch per row end"
        reader.take()
    along = reader.words(start)
    if _along_each(along):
        number = None  # how many sides there are is not told
    return Found(Place(Evenly(number, along)))


def _along_each(along: str) -> bool:
    """Tell whether stitches go "along each side", so many on every one of them."""
    words = along.lower().split()
    return any(one in _EVERY and other in _SIDES for one, other in pairwise(words))


_EVERY: Final = word_set("each every either both")
_SIDES: Final = word_set("side edge sides edges")


def _other_step(reader: Reader) -> bool:
    """Tell whether a number or a stitch stands behind "and": no edge to go along."""
    return reader.number(1) is not None or starts_stitch(reader, 1)


_STOPPING: Final = frozenset((",", ";", ".", "(", "["))
_DIRECTIONS: Final = word_set("up down around across along over")


def _goes_on(reader: Reader) -> bool:
    """Tell whether ", around neck", ", and down left front" goes on along further edges."""
    ahead = 2 if reader.text(1) in {"and", "then"} else 1
    along = reader.text() == "," and reader.text(ahead) in _DIRECTIONS
    return along and part_length(reader, ahead + 1) > 0
