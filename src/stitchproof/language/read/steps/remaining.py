"""What remains, as an end: "until 4 sts remain", "to 2 sts before marker"."""

from typing import Final

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import read_noun
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS


def none_left(reader: Reader) -> int:
    """Count the tokens of "until none remain", "till no sts are left"; 0: they are not there."""
    if reader.text(1) not in {"none", "no"}:
        return 0
    ahead = 2 + (reader.text(2) in {"sts", "stitches", "more"})
    ahead += reader.text(ahead) in {"are", "is"}
    return ahead + 1 if reader.text(ahead) in REMAIN else 0


def is_before(reader: Reader, ahead: int) -> bool:
    """Tell whether "st before", "sts before" stands some way ahead."""
    sts = reader.text(ahead) in word_set("st sts stitch stitches sc hdc dc tr")
    return sts and reader.text(ahead + 1) == "before"


REMAIN: Final = word_set("remain remains remaining rem left")


LEFT_OVER: Final = word_set("unworked in the row rnd round is are from end before at")


def remains(reader: Reader, ahead: int) -> bool:
    """Tell whether "st remains", "sts rem", "dc are left" stands some way ahead."""
    if reader.text(ahead) in {"are", "is"} | REMAIN:
        return reader.text(ahead) in REMAIN
    if reader.text(ahead + 1) in {"are", "is"}:
        return reader.text(ahead + 2) in REMAIN
    return reader.text(ahead + 1) in REMAIN or _from_end(reader, ahead + 1)


def _from_end(reader: Reader, ahead: int) -> bool:
    """Tell whether "from end", "before the end" stands some way ahead."""
    if reader.text(ahead) not in {"from", "before"}:
        return False
    return reader.text(ahead + (2 if reader.text(ahead + 1) == "the" else 1)) == "end"


def counted_end(reader: Reader, ahead: int) -> bool:
    """Tell whether "sts remain", "sts before marker", "ch-1 sp is left" stands some way ahead."""
    if remains(reader, ahead) or is_before(reader, ahead):
        return True
    return reader.text() != "to" and space_remains(reader, ahead)


def space_remains(reader: Reader, ahead: int) -> bool:
    """Tell whether "ch-1 sp remains", "ch 2 loops are left" stands some way ahead."""
    if reader.text(ahead) not in CHAINS:
        return False
    for i in range(ahead + 1, ahead + 6):
        if reader.text(i) in {"sp", "sps", "space", "spaces", "lp", "lps", "loop", "loops"}:
            return reader.text(i + 1) in REMAIN | {"are", "is"}
    return False


def until_there_are(reader: Reader) -> Number | None:
    """Read "until you have 17 sc" behind "sc in each st": so many of them, one in each."""
    if not reader.sees("until", "you", "have") or reader.number(3) is None:
        return None
    number, start = reader.number(3), reader.at
    made = reader.tokens[max(start - _BACK, 0) : start]
    several = any(t.number is not None and t.number != ONE for t in made)
    reader.take(4)
    if several or read_noun(reader) is None:
        reader.at = start
        return None
    return number


_BACK: Final = 8  # tokens of "work 1 sc in each sc and ch-1 sp"
