"""Groups in one place that no name was given to: "group", "3-dc group", "3tr groups"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader
from stitchproof.language.read.steps.stitches import StitchName, as_int, read_stitch, starts_stitch
from stitchproof.language.tree import Chain, Noun, Thing

UNNAMED: Final = Noun(Thing.GROUP)  # a group that no name was given to
GROUPS: Final = word_set("group groups grp grps petal petals")


def pass_makeup(reader: Reader) -> None:
    """Go past "of 3 dc" behind "group"."""
    if reader.text() == "of" and reader.number(1) is not None and starts_stitch(reader, 2):
        reader.take(2)
        read_stitch(reader)


_SHELLS: Final = word_set("shell shells fan fans")


def group_ahead(reader: Reader) -> bool:
    """Tell whether "3-dc group", "3tr groups" stands behind the number at the cursor."""
    if reader.text(1) == "-":
        return reader.text(3) in GROUPS | _SHELLS
    return reader.text(2) in GROUPS and not reader.apart(reader.at)


def counted_group(reader: Reader, ahead: int) -> Noun | None:
    """Read "3-dc group": stitches in one place that no name was given to."""
    start = reader.at
    reader.take(ahead)
    named = read_stitch(reader)
    if named is not None and (named.fan or reader.accept_any(GROUPS | _SHELLS)):
        return UNNAMED
    reader.at = start
    return None


def pass_between(reader: Reader, noun: Noun) -> None:
    """Go past "between groups", "between 3-dc groups" behind "sp"."""
    if noun.thing is not Thing.SPACE or reader.text() != "between":
        return
    ahead = 1
    while ahead < _FAR and reader.text(ahead) not in STOPS | CLOSING and reader.text(ahead):
        ahead += 1
        if reader.text(ahead - 1) in _MADE_OF:
            reader.take(ahead)
            return


_FAR: Final = 7  # tokens
_MADE_OF: Final = word_set("group groups cluster clusters shell shells")


def its_space(reader: Reader, named: StitchName) -> Noun | None:
    """Read "sp" behind the name of a group that holds one: "V-st sp", "shell sp"."""
    body = named.special.body if named.special is not None else None
    chains = [step for step in body or () if isinstance(step, Chain)]
    if len(chains) != 1 or not reader.accept_any(_SPACES):
        return None
    return Noun(Thing.CHAIN_SPACE, chains=as_int(chains[0].count))


_SPACES: Final = word_set("sp sps space spaces")
