"""Places named by what they are for: "indicated st", "base of ch-3", "magic ring"."""

from typing import Final

from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import STITCHES, read_noun
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.steps.rings import ring_length
from stitchproof.language.read.steps.rows_below import side_of_part
from stitchproof.language.read.steps.same import at_base, indicated
from stitchproof.language.read.steps.sides import ends_of_kind, ends_of_rows, read_row_ends
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.tree import STITCH, First, Last, Next, On, Ring, Same, Target

RINGS: Final = word_set("ring circle")


def ring(reader: Reader) -> Ring | None:
    """Read "magic ring", "ring", "MR"."""
    length = ring_length(reader)
    if length:
        reader.take(length)
        return Ring(magic=True)
    return Ring() if reader.accept_any(word_set("ring circle loop")) else None


def _ring_before(reader: Reader) -> bool:
    """Tell whether the line made a ring, which "into it" then means."""
    return any(token.text in {"ring", "loop", "circle"} for token in reader.tokens[: reader.at])


def in_words(reader: Reader) -> Target | None:
    """Read places that are named by what they are for: "indicated st", "base of ch-3"."""
    if indicated(reader):
        return Same()
    if reader.text() == "end" and reader.text(1) in CHAINS | STITCHES:
        reader.take()
        noun = read_noun(reader)
        return None if noun is None else Last(ONE, noun)  # "4 sc in end ch"
    if ends_of_rows(reader):
        return read_row_ends(reader, STITCH)
    if (rows := ends_of_kind(reader)) is not None:
        return read_row_ends(reader, rows)
    opening = side_of_part(reader)
    if opening:
        return On(Next(), piece=opening)
    if reader.text() == "it" and _ring_before(reader):
        reader.take()
        return Ring()
    if reader.text() in {"joining", "joined", "join"}:
        ahead = 3 if reader.text(1) in {"sl", "slip"} else 1
        if reader.text(ahead) in STITCHES | {"sp", "space"} or (ahead > 1 and reader.text(ahead)):
            reader.take(ahead)
            noun = read_noun(reader) if reader.text() in STITCHES | {"sp", "space"} else STITCH
            return None if noun is None else Same(noun)
        return None
    return First() if reader.sees("base") and at_base(reader) else None
