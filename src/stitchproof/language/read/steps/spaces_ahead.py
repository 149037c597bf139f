"""Chain spaces some way ahead of the cursor: "ch-2 sp", "1ch-sp", "ch-1 sp across"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import Reader

CHAINS: Final = word_set("ch chs chain chains")
SPACES: Final = word_set("sp sps space spaces lp lps loop loops arch arches gap gaps")
PLURAL_SPACES: Final = word_set("sps spaces lps loops arches gaps")
EXTENTS: Final = word_set("across around to until")


def is_one_space(reader: Reader, ahead: int) -> bool:
    """Tell whether "1ch-sp", "1-ch sp" stands some way ahead: a place, and no chain to make."""
    if reader.number(ahead) is None:
        return False
    chain = ahead + (2 if reader.text(ahead + 1) == "-" else 1)
    space = chain + (2 if reader.text(chain + 1) == "-" else 1)
    return reader.text(chain) in CHAINS and reader.text(space) in SPACES - PLURAL_SPACES


def extent_behind_space(reader: Reader, ahead: int) -> bool:
    """Tell whether "ch-1 sp across" stands there: every one of them, though "each" is not said."""
    for i in range(ahead + 1, ahead + 5):
        if reader.text(i) in SPACES:
            return reader.text(i + 1) in EXTENTS
    return False


def space_behind(reader: Reader, ahead: int) -> bool:
    """Tell whether "ch-2 sp", "2-ch sp", "sp", "corner sp" stands some way ahead, and no "each"."""
    ahead += reader.text(ahead) == "corner"
    text = reader.text(ahead)
    if text in SPACES:
        return True
    if text not in CHAINS and (reader.number(ahead) is None or not reader.text(ahead + 1)):
        return False
    counted = text in CHAINS or reader.text(ahead + 1) in CHAINS | {"-"}
    return counted and any(reader.text(ahead + i) in SPACES for i in range(1, 5))
