"""The space beside a turning chain: "ch-1 sp of tch", "ch sp of beg ch-4"."""

from typing import Final

from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS, SPACES
from stitchproof.language.read.steps.stitches import as_int
from stitchproof.language.tree import Last, Noun, Target, Thing

_LONGEST: Final = 4  # tokens of "ch-1 sp", "1-ch sp" before the last
_WHICH: Final = word_set("beg beginning turning starting first last previous prev")
_TURNING: Final = word_set("tch t")


def space_of_chain(reader: Reader) -> Target | None:
    """Read "ch-1 sp of tch": in a row it is the last space, beside the chain at the far end."""
    ahead = 0
    chains: int | None = None
    while ahead < _LONGEST and _of_chains(reader, ahead):
        chains = as_int(reader.number(ahead)) or chains
        ahead += 1
    if reader.text(ahead) not in SPACES or reader.text(ahead + 1) not in {"of", "at", "by"}:
        return None
    ahead += 3 if reader.text(ahead + 2) == "the" else 2
    start = ahead
    while reader.text(ahead) in _WHICH | _TURNING | {"-"}:
        ahead += 1
    named = ahead > start
    if reader.text(ahead) in CHAINS:
        ahead += 1
    elif reader.text(ahead - 1) != "tch":
        return None
    after = ahead + 1 if reader.text(ahead) == "-" else ahead
    if reader.number(after) is not None and (named or after > ahead):
        named, ahead = True, after + 1
    if not named:
        return None
    reader.take(ahead)
    return Last(ONE, Noun(Thing.CHAIN_SPACE, chains=chains))


def _of_chains(reader: Reader, ahead: int) -> bool:
    return reader.text(ahead) in CHAINS | {"-"} or reader.number(ahead) is not None
