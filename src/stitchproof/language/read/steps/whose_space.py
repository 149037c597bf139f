"""Whose space it is, or whose chain: "of next shell", "of the block below", "of next ch-5 loop"."""

from collections.abc import Callable
from typing import Final

from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.nouns import BLOCKS, read_noun
from stitchproof.language.read.steps.ordinals import group_of
from stitchproof.language.read.steps.previous import pass_previous
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.steps.spaces_ahead import space_behind
from stitchproof.language.tree import Each, End, Next, Noun, Target, Thing, Within

_WHICH: Final = word_set("next following foll first 1st previous prev last preceding")
_OF: Final = word_set("of from on")
_EACH: Final = word_set("each every ea")
_PREVIOUS: Final = word_set("previous prev last preceding")
_BEFORE_SPACE: Final = word_set(
    "the a an this that these those your top any very next following foll fol first 1st same"
)
_SPACES: Final = frozenset((Thing.SPACE, Thing.CHAIN_SPACE))
_ROWS: Final = word_set("row's rows' row rows")


def block_of(reader: Reader, noun: Noun) -> Next | Each | None:
    """Read whose space it is; None, and nothing taken, where no block is named.

    Blocks lean over: the one ahead has its space at its far end, so the next such space is meant
    whatever the block is called.
    """
    start = reader.at
    if not reader.accept_any(_OF):
        return None
    reader.accept("the")
    if reader.text() in _PREVIOUS and reader.text(1) in _ROWS:
        reader.take(2)
    each = reader.accept_any(_EACH)
    if not each:
        reader.accept_any(_WHICH)
    if not reader.accept_any(BLOCKS):
        reader.at = start
        return None
    if reader.number() is not None and not each:
        reader.take()  # "of Block 1"
    if not reader.accept("below"):
        _pass_row(reader)
    if not each:
        return Next(ONE, noun)
    until = read_until(reader) if starts_until(reader) else End()
    if until is None:
        reader.at = start
        return None
    return Each(noun, until)


def _pass_row(reader: Reader) -> None:
    """Go past the row that the block is of: "of previous row", "in Row 1"."""
    if reader.text() in {"in", "of", "from", "on"} and reader.text(1) == "row":
        reader.take(2 + (reader.number(2) is not None))
        reader.accept("below")
    else:
        pass_previous(reader)


def of_group(reader: Reader, noun: Noun) -> Target | None:
    """Read the block or the group that a space, or a stitch of its kind, is of."""
    block = block_of(reader, noun) if noun.thing in _SPACES else None
    group = group_of(reader) if block is None else None
    one = None if noun.thing in _SPACES else ONE  # "dc of next scallop": it has one
    return block if group is None else Within(one, noun, group)


def within_each(
    reader: Reader, noun: Noun, every: Callable[[Reader, Noun], Target | None]
) -> Target | None:
    """Read "V-st ch-1 sp across" behind "each": that space of every group, as far as `every` reads.

    None, and nothing taken, where no space stands behind the name of a group.
    """
    start = reader.at
    space = read_noun(reader) if noun.thing is Thing.GROUP and space_behind(reader, 0) else None
    each = every(reader, noun) if space is not None and space.thing in _SPACES else None
    if space is not None and isinstance(each, Each):
        return Within(None, space, each)
    reader.at = start
    return None


def of_space(reader: Reader) -> bool:
    """Read "of next ch-5 loop" behind a count of chains and tell whether it stood there."""
    start = reader.at
    if not reader.accept("of"):
        return False
    reader.pass_over(_BEFORE_SPACE)
    noun = read_noun(reader)
    if noun is not None and noun.thing in _SPACES:
        return True
    reader.at = start
    return False
