"""Places beside the tops of stitches: around posts, rows below, between two stitches."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import read_noun
from stitchproof.language.read.steps.places import EACH, Place, read_target
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import (
    STITCH,
    Below,
    Each,
    First,
    Last,
    Next,
    Noun,
    Post,
    Same,
)

_NAMED_PLACE: Final = EACH | word_set("next following foll fol first last same")
_POSTS: Final = word_set("post posts stem stems")
_ROWS: Final = word_set("row rows rnd rnds round rounds")


def read_around(reader: Reader) -> Place | None:
    """Read what follows "around" where it is a post: "the front post of next st", "next dc"."""
    post = Post.NONE
    reader.accept("the")
    reader.accept("corresponding")
    for word, side in (("front", Post.FRONT), ("back", Post.BACK)):
        if reader.accept(word):
            post = side
    if reader.accept_any(_POSTS):
        reader.accept("of")
        reader.accept("the")
    deep = _deep(reader)
    if deep is not None:
        return Place(deep, post=post)
    target = read_target(reader)
    return None if target is None else Place(target, post=post)


def _deep(reader: Reader) -> Below | None:
    """Read "dc 2 rows below next st": what stands there, how deep, and below what."""
    rows_ahead = _rows_ahead(reader)
    if rows_ahead is None:
        return None
    noun: Noun | None = STITCH
    if rows_ahead:
        reader.accept_any(word_set("corresponding"))
        noun = read_noun(reader)
    rows = reader.number()
    if noun is None or rows is None or reader.text(1) not in _ROWS:
        return None
    reader.take(3)
    below = read_target(reader)
    if isinstance(below, Next | Each | Same | First | Last):
        return Below(rows, below, noun)
    return None


def _rows_ahead(reader: Reader) -> int | None:
    """Find "2 rows below" within a few words, before any "next" or "each"."""
    for i in range(6):
        text = reader.text(i)
        if text in _NAMED_PLACE or not text:
            return None
        if reader.number(i) is not None and reader.text(i + 1) in _ROWS:
            follows = reader.text(i + 3)
            target = follows in _NAMED_PLACE | {"the"}
            return i if reader.text(i + 2) in {"below", "down"} and target else None
    return None


def starts_post(reader: Reader) -> bool:
    """Tell whether "around" at the cursor is about a post, not "to the end"."""
    follows = reader.text(1)
    if not follows or follows in STOPS or follows in CLOSING:
        return False
    ahead = 2 if follows == "the" else 1
    if reader.ordinal(ahead) is not None:
        return True
    if reader.text(ahead) in {"corresponding", "skipped", "missed"} or starts_stitch(reader, ahead):
        return True
    if reader.text(ahead) in _POSTS | {"front", "back"} | _NAMED_PLACE:
        return True
    return follows in {"same", "first", "last", "st"} or (
        reader.number(ahead) is not None
        and reader.text(ahead + 1) in {"st", "sts", "skipped", "missed"}
    )
