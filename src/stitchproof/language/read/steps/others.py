"""Places told by others: "all other sts", "each st except the last", "that sp"."""

from collections.abc import Callable
from itertools import pairwise
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import STITCHES, read_noun
from stitchproof.language.read.steps.reader import OPENING, STOPS, Reader
from stitchproof.language.read.steps.remaining import REMAIN
from stitchproof.language.read.steps.same import stops_here
from stitchproof.language.tree import Each, End, Last, Next, Same, Target, Thing, ToLast, Until


def _pass_both(reader: Reader) -> None:
    """Go past "each of the", "both" before "first and last sts": one place, then the other."""
    ahead = 0
    while reader.text(ahead) in _BOTH and ahead < len(_BOTH):
        ahead += 1
    if ahead and reader.sees_at(ahead, "first", "and", "last"):
        reader.take(ahead)


_BOTH: Final = word_set("each of both the")


_ONES: Final = word_set("st stitch one sc hdc dc tr")


def that_place(reader: Reader) -> Same | Last | Next | None:
    """Read "that sp" behind "sl st to 3rd sp": the hook stands there already."""
    _pass_both(reader)
    left = the_one_left(reader)
    if left is not None:
        return left
    the = reader.text() == "the"
    if reader.text(the) in _ONES and reader.sees_at(the + 1, "after", "that"):
        reader.take(the + 3)
        return Next()
    if (
        reader.text() == "there"
        and reader.at
        and reader.tokens[reader.at - 1].text in {"in", "into"}
    ):
        reader.take(2 if reader.text(1) == "too" else 1)
        return Same()
    if reader.text() not in {"that", "this"} or not _slipped_there(reader):
        return None
    start = reader.at
    reader.take()
    noun = read_noun(reader) if reader.number() is None else None
    if noun is not None and noun.thing in _NAMED_AGAIN and (stops_here(reader) or reader.ended()):
        return Same(noun)
    reader.at = start
    return None


def the_one_left(reader: Reader) -> Last | None:
    """Read "it", "that st", "the last one" behind "until 1 st is left" and "to the last st"."""
    for words in _LEFT:
        after = reader.text(len(words))
        if not reader.sees(*words) or (after and after not in STOPS | OPENING.keys()):
            continue
        before = [token.text for token in reader.tokens[max(reader.at - _NEAR, 0) : reader.at]]
        at_last = any(one == "last" and st in STITCHES for one, st in pairwise(before))
        if (set(before) & REMAIN and "until" in before) or (at_last and "to" in before):
            reader.take(len(words))
            return Last()
    return None


_LEFT: Final = (("it",), ("that", "one"), ("that", "st"), ("last", "one"), ("the", "last", "one"))
_NEAR: Final = 12  # tokens


def _slipped_there(reader: Reader) -> bool:
    """Tell whether the clause before this one is a slip stitch to a place."""
    words = [token.text for token in reader.tokens[max(reader.at - _CLAUSES, 0) : reader.at]]
    return any(
        word in {"to", "into"} and _slips(words[max(i - _FAR, 0) : i])
        for i, word in enumerate(words)
    )


def _slips(words: list[str]) -> bool:
    """Tell whether words are those of a slip stitch: "sl st across" before "to first corner"."""
    clause = words[len(words) - words[::-1].index(",") :] if "," in words else words
    return bool(_SLIPS & set(clause))


_FAR: Final = 3  # words
_CLAUSES: Final = 40  # words between a slip stitch and what is worked where it went
_SLIPS: Final = word_set("sl slip ss")


_NAMED_AGAIN: Final = frozenset(
    (Thing.STITCH, Thing.KIND, Thing.SPACE, Thing.CHAIN_SPACE, Thing.GROUP)
)


def any_left(reader: Reader, read_each: Callable[[Reader], Target | None]) -> Target | None:
    """Read "any dc left", "any rem dc": all to the end, and there may be none."""
    if reader.text() != "any" or not {reader.text(i) for i in range(1, 4)} & REMAIN:
        return None
    reader.take()
    every = read_each(reader)
    if isinstance(every, Each) and every.until == End():
        return replace(every, until=ToLast(plain(0)))
    return every


def all_others(reader: Reader) -> bool:
    """Read "all other sts", "all the others", "every other st between": all that are left."""
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text(ahead) not in {"other", "others"}:
        return False
    named = reader.text(ahead + 1) in STITCHES
    if reader.text() == "all" and (named or reader.text(ahead) == "others"):
        reader.take(ahead + 1 + named)
        reader.accept_any(word_set("between across around"))
        return True
    if named and reader.text(ahead + 2) == "between":
        reader.take(ahead + 3)
        return True
    return False


def apart_from(reader: Reader) -> Number | None:
    """Read "other", "alternate", "3rd" behind "every": how far apart the places are."""
    if reader.accept_any(_EVERY_SECOND):
        return plain(2)
    ordinal = reader.ordinal()
    if ordinal is not None:
        reader.take()
    return ordinal


_EVERY_SECOND: Final = word_set("other alternate alt second")

BUT: Final = word_set("except but excluding")


def but_last(reader: Reader) -> Until | None:
    """Read "except the last", "but last 2 sts" behind "each st": so many stay unworked."""
    reader.take()
    reader.pass_over(word_set("for the"))
    if not reader.accept("last"):
        return None
    number = reader.number()
    if number is not None:
        reader.take()
    reader.accept_any(STITCHES | word_set("one"))
    return ToLast(number or ONE)
