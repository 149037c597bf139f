"""Words behind a place that name its row: "of previous row", "2 rows below", "of body"."""

from typing import Final, TypeAlias

from stitchproof.base.records import replace
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.parts import accept_of_part, names_part, part_length
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader
from stitchproof.language.tree import STITCH, Below, Each, First, Last, Next, Same, Target

_PREVIOUS: Final = word_set("previous prev last preceding row rnd round this")
_OTHER: Final = word_set("other opposite")
_BEGINNINGS: Final = word_set("beg beginning start end")
_ROWS: Final = word_set("row rows rnd rnds round rounds")
_WHOLE: Final = word_set("full whole complete worked")
_PLAIN_PLACE: TypeAlias = Next | Each | Same | First | Last


def pass_previous(reader: Reader) -> None:
    """Go past "of previous row", "of row below": the edge worked into is meant anyhow."""
    _pass_left(reader)
    _pass_motif(reader)
    over = reader.text() in {"over", "above"} and accept_of_part(reader)  # "over the opening"
    if over or reader.text() not in {"of", "from", "on", "in", "along", "at"}:
        return
    if reader.text() == "at" and reader.text(1) in _BEGINNINGS and reader.text(2) == "of":
        reader.take(2)
    ahead = 2 if reader.text(1) == "the" else 1
    of_foundation = reader.text(ahead) in _OTHER and reader.text(ahead + 1) == "side"
    if of_foundation or accept_of_part(reader):
        return
    whole = reader.text(ahead + 1) in _WHOLE or names_part(reader, ahead + 1)
    if reader.text(ahead) in {"last", "previous"} and whole:
        ahead += 1  # "of the last full row", "of the last Front row"
        if reader.text(ahead + 1) in _ROWS:
            reader.take(ahead + 2)
            accept_of_part(reader)
            return
    if (reader.text(ahead) in _ROWS and reader.text(ahead + 1) == "below") or (
        reader.text(ahead) in _PREVIOUS and reader.text(ahead + 1) in _ROWS
    ):
        reader.take(ahead + 2)
    elif reader.text(ahead) in _ROWS and reader.text() in {"of", "on"}:
        if reader.number(ahead + 1) is None:
            reader.take(ahead + 1 if reader.text() == "of" else 0)
        elif left_over(reader):
            reader.take(ahead + 2)
    accept_of_part(reader)


def _pass_motif(reader: Reader) -> None:
    """Go past "of pineapple", "of the 9-dc group" behind a place: what the next stitch is of."""
    if reader.text() != "of":
        return
    ahead = 2 if reader.text(1) == "the" else 1
    counted = reader.number(ahead) is not None and reader.text(ahead + 1) == "-"
    if counted and reader.text(ahead + 3) in _GROUPS:
        reader.take(ahead + 4)
    elif reader.text(ahead) in _MOTIFS:
        reader.take(ahead + 1)
        reader.accept("base")


_GROUPS: Final = word_set("group groups")
_MOTIFS: Final = word_set("pineapple pineapples")


def _pass_left(reader: Reader) -> None:
    """Go past "left", "left before the join" behind a place: those that the row has still."""
    waits = 2 if reader.text(1) == "unworked" else 1
    of_row = reader.text(2) in {"on", "of"} and reader.text(3) in _ROWS
    ends = reader.text(2) in STOPS | CLOSING | {"", "and"}
    if reader.sees("left", "unworked") and (ends or of_row):
        reader.take(2)
        return
    if reader.text() == "left" and reader.text(waits) in {"for", "at", "on"}:
        length = part_length(reader, waits + 1)
        reader.take(waits + 1 + length if length else 0)
        return
    closes = reader.text(1) in STOPS | CLOSING | {"", "and", "at", "on"}
    if reader.text() != "left" or not (closes or reader.text(1) == "before"):
        return
    ahead = 2 if reader.text(2) == "the" else 1
    if closes:
        reader.take()
    elif reader.text(ahead + 1) in _JOINED:
        reader.take(ahead + 2)


_JOINED: Final = word_set("join joining end beginning turning start")


def left_over(reader: Reader) -> bool:
    """Tell whether "unworked sts" stands before the cursor: what a row left is still its edge."""
    words = {token.text for token in reader.tokens[max(reader.at - 3, 0) : reader.at]}
    return bool(words & {"unworked", "free", "unused"})


def below(reader: Reader, target: _PLAIN_PLACE) -> Target | None:
    """Read "2 rows below" behind a place."""
    rows = reader.number()
    if rows is None or reader.text(1) not in _ROWS or reader.text(2) not in {"below", "down"}:
        return target
    reader.take(3)
    return Below(rows, replace(target, noun=STITCH), target.noun)
