"""The space that a single chain is of: "of next ch-5 sp" behind "3rd ch", "of each 5-ch loop"."""

from typing import Final

from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.nouns import length_first, read_noun
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import as_int
from stitchproof.language.tree import Each, End, First, Last, Next, Noun, Same, Thing

_NEXT: Final = word_set("next following foll fol")
_EACH: Final = frozenset(("each", "every", "ea"))
_WHICH: Final = _NEXT | word_set("first 1st last each every ea same this that any corner")
_NOT_OF_TURNING: Final = _NEXT | _EACH | {"last", "corner"}
_SPACES: Final = frozenset((Thing.SPACE, Thing.CHAIN_SPACE))

Space = Next | First | Last | Each | Same


def read_space_of(reader: Reader, *, center: bool = False) -> Space | None:
    """Read "of next ch-5 sp", "of each of next 3 ch-3 loops"; None, and nothing taken, otherwise.

    A chain that is only named by its length, "of ch-5", may be a turning chain; behind "center ch"
    it is a space.
    """
    start = reader.at
    found = _read(reader, center=center)
    if found is None:
        reader.at = start
    return found


def _read(reader: Reader, *, center: bool) -> Space | None:
    if not reader.accept("of"):
        return None
    reader.accept("the")
    which = reader.text() if reader.text() in _WHICH else ""
    reader.take(bool(which))
    if which in _EACH and reader.sees("of", "next"):
        which = "next"
        reader.take(2)
    reader.accept("corner")
    number = reader.number() if not length_first(reader) else None
    reader.take(number is not None)
    noun = _space(reader, named=which in _NOT_OF_TURNING or center)
    if noun is None:
        return None
    count = number or ONE
    match which:
        case "last":
            return Last(count, noun)
        case "first" | "1st":
            return First(count, noun)
        case "same" | "this" | "that":
            return Same(noun)
        case "each" | "every" | "ea":
            until = read_until(reader) if starts_until(reader) else End()
            return None if until is None else Each(noun, until)
        case _:
            return Next(count, noun)


def _space(reader: Reader, *, named: bool) -> Noun | None:
    """Read "ch-5 sp", "5-ch loop"; "ch-5" alone where it is `named` as a space is."""
    start = reader.at
    noun = read_noun(reader)
    if noun is not None and noun.thing in _SPACES:
        return noun
    reader.at = start
    if not named:
        return None
    counted = length_first(reader)
    if counted:
        chains = as_int(reader.number())
        reader.take(counted)
        return Noun(Thing.CHAIN_SPACE, chains=chains)
    if reader.text() not in CHAINS:
        return None
    ahead = 2 if reader.text(1) == "-" else 1
    chains = as_int(reader.number(ahead))
    if chains is None:
        return None
    reader.take(ahead + 1)
    return Noun(Thing.CHAIN_SPACE, chains=chains)
