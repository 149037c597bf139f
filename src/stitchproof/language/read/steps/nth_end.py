"""Which of several a run goes to: "to 3rd ch-1 sp", "to ch-1 sp of 3rd V-st"."""

from stitchproof.language.number import Number
from stitchproof.language.read.steps.nouns import read_noun
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.tree import Noun, Thing


def ordinal_here(reader: Reader) -> Number | None:
    """Read "3rd (3rd, 4th)" before a noun: which of them from here."""
    nth = reader.ordinal()
    reader.take(nth is not None)
    return nth


def of_nth_group(reader: Reader, noun: Noun) -> Number | None:
    """Read "of 3rd V-st" behind "ch-1 sp": the space of the third has two such before it."""
    start = reader.at
    if noun.thing in {Thing.SPACE, Thing.CHAIN_SPACE} and reader.accept("of"):
        reader.accept("the")
        nth = ordinal_here(reader)
        group = read_noun(reader) if nth is not None else None
        if group is not None and group.thing is Thing.GROUP:
            return nth
    reader.at = start
    return None
