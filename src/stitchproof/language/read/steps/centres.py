"""The centre of something as the end of a run: "to center sp", "to centre st of corner"."""

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import CORNER, CORNER_STITCH, read_noun
from stitchproof.language.read.steps.reader import STOPS, Reader
from stitchproof.language.tree import Noun, Thing


def read_centre_space(reader: Reader) -> Noun | None:
    """Read "center", "center sp", "centre ch-2 sp": the space between stitches of one place."""
    if reader.text() not in {"center", "centre", "middle"}:
        return None
    reader.take()
    if reader.ended() or reader.text() in STOPS:
        return CORNER
    noun = read_noun(reader)
    spaces = {Thing.SPACE, Thing.CHAIN_SPACE}
    if noun is None or noun.thing not in spaces:
        return None
    return CORNER if noun.chains is None else noun


def read_centre(reader: Reader) -> Noun | None:
    """Read "center sc of next corner", "centre st of next 3-sc group", "of 3-sc corner"."""
    if reader.text() not in {"center", "centre", "middle"}:
        return None
    start = reader.at
    reader.take()
    noun = read_noun(reader)
    at: Noun | None = None
    if noun is not None and noun.thing in {Thing.SPACE, Thing.CHAIN_SPACE}:
        return CORNER if noun.thing is Thing.SPACE else noun
    if noun is not None and noun.thing in {Thing.STITCH, Thing.KIND}:
        at = Noun(Thing.STITCH, "centre")
        if reader.accept("of"):
            reader.pass_over(word_set("the next each corner"))
            if reader.tokens[reader.at - 1].text == "corner":
                at = CORNER_STITCH
            elif reader.number() is not None:
                reader.take()
                reader.accept("-")
                at = at if read_noun(reader) is not None else None
                reader.pass_over(word_set("corner corners group groups"))
            else:
                at = at if reader.accept_any(word_set("group groups")) else None
    if at is None:
        reader.at = start
    return at
