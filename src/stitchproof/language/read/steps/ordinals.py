"""Places counted off: "4th ch from hook", "2nd ch of turning ch", "centre dc of next shell"."""

from typing import Final

from stitchproof.language.number import Number, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.nouns import (
    BEGINNING,
    CHAINS,
    CORNER_STITCH,
    TURNING_CHAIN,
    length_first,
    read_noun,
)
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.steps.stitches import as_int, longest, starts_stitch
from stitchproof.language.tree import (
    CHAIN,
    Each,
    End,
    Make,
    Next,
    Noun,
    Nth,
    Origin,
    Ring,
    Same,
    Target,
    Thing,
)

MIDDLE: Final = word_set("center centre middle")
_GROUPS: Final = word_set("group groups")
_EACH: Final = word_set("each every ea")
_FROM_HERE: Final = word_set("next following foll fol")
_PREVIOUS: Final = word_set("previous prev last preceding row rnd round")
_ROWS: Final = word_set("row rows rnd rnds round rounds")
_EDGES: Final = word_set("edge end side beg beginning start seam marker")


def read_nth(reader: Reader, *, made: bool) -> Target | None:
    """Read "4th ch from hook", "2nd ch of turning ch", "6th and 12th st"."""
    ordinals: list[Number] = []
    while (ordinal := reader.ordinal()) is not None:
        ordinals.append(ordinal)
        reader.take()
        more = 2 if reader.text() == "," and reader.text(1) in {"and", "&"} else 1
        if reader.text() in {",", "and", "&"} and reader.ordinal(more) is not None:
            reader.take(more)
    noun = CHAIN if _of_chain(reader) else read_noun(reader)
    if noun is None:
        return None
    if reader.text() == "of" and len(ordinals) == 1:
        size = _group_size(reader)
        if size:
            nth = as_int(ordinals[0]) or 0
            return Nth(tuple(ordinals), noun, Origin.HERE) if 0 < nth <= size else None
    origin = _origin(reader, noun, made)
    return None if origin is None else Nth(tuple(ordinals), noun, origin)


def _of_chain(reader: Reader) -> bool:
    """Tell whether "of 3 ch", "of beg ch-3" follows an ordinal: a chain of it is meant."""
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text() != "of":
        return False
    return bool(length_first(reader, ahead)) or reader.text(ahead) in BEGINNING | CHAINS | {"tch"}


def read_middle(reader: Reader) -> Target | None:
    """Read "center dc of next 5-dc group": the third from here."""
    reader.take()
    if reader.sees("ring") or reader.sees("of", "ring"):
        reader.take(2 if reader.sees("of") else 1)
        return Ring()
    if reader.accept("of"):
        reader.pass_over(word_set("the next first same"))
        each = reader.tokens[reader.at - 1].text in _EACH or reader.text() in _EACH
        reader.accept_any(_EACH)
        of = read_noun(reader)
        spaces = {Thing.SPACE, Thing.CHAIN_SPACE, Thing.GROUP}
        if of is None or of.thing not in spaces:
            return None
        if each:
            until = read_until(reader) if starts_until(reader) else End()
            return None if until is None else Each(of, until)
        before = reader.tokens[reader.at - 2].text if reader.at > 1 else ""
        return Same(of) if before == "same" else Next(noun=of)
    noun = read_noun(reader)
    if noun is not None and noun.thing in {Thing.SPACE, Thing.CHAIN_SPACE}:
        return Next(noun=noun)
    size = _group_size(reader) if noun is not None else 0
    if noun is not None and not size and noun.thing in {Thing.STITCH, Thing.KIND}:
        return _of_corner(reader)
    if noun is None or size % 2 == 0:
        return None
    return Nth((plain(size // 2 + 1),), noun, Origin.HERE)


def _of_corner(reader: Reader) -> Target | None:
    """Read "of next corner", "of each corner group", "of each 3-sc group" behind a centre stitch.

    Such a stitch is found on the edge: it stands in the middle of an odd group in one place.
    """
    at = Noun(Thing.STITCH, "centre")
    if not reader.accept("of"):
        return Next(noun=at)
    reader.accept("the")
    each = reader.text() in {"each", "every"}
    if each or reader.text() in _FROM_HERE | {"same"}:
        reader.take()
    if reader.accept_any(word_set("corner corners")):
        at = CORNER_STITCH
        reader.accept_any(_GROUPS | word_set("st sts"))
    elif as_int(reader.number()) is not None:
        reader.take()
        reader.accept("-")
        if not starts_stitch(reader):
            return None
        read_noun(reader)
        reader.accept_any(_GROUPS)
    elif not reader.accept_any(_GROUPS):
        of = read_noun(reader)
        if of is None or of.thing is not Thing.GROUP:
            return None
    if not each:
        return Next(noun=at)
    until = read_until(reader) if starts_until(reader) else End()
    return None if until is None else Each(at, until)


def _group_size(reader: Reader) -> int:
    """Read "of next 5-dc group", "of next shell": how many stitches it has; 0 if that is unsaid."""
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text() != "of" or reader.text(ahead) not in _FROM_HERE:
        return 0
    counted = as_int(reader.number(ahead + 1))
    if counted is not None:
        end = ahead + 3 if reader.text(ahead + 2) == "-" else ahead + 2
        if not starts_stitch(reader, end) or reader.text(end + 1) not in _GROUPS:
            return 0
        reader.take(end + 2)
        return counted
    found = longest(reader.special, reader, ahead + 1)
    special = found[0].special if found is not None else None
    match special.body if special is not None else None:
        case (Make(each=each, at=Same()),) if found is not None:
            reader.take(ahead + 1 + found[1])
            return as_int(each) or 0
        case _:
            return 0


def _origin(reader: Reader, noun: Noun, made: bool) -> Origin | None:  # noqa: FBT001
    ahead = 2 if reader.text(1) in {"the", "your"} else 1
    if reader.text() == "from" and reader.text(ahead) == "hook":
        reader.take(ahead + 1)
        return Origin.HOOK
    if reader.text() == "from" and reader.text(ahead) in _EDGES:
        reader.take(ahead + 1)
        return Origin.EDGE
    if reader.sees("of"):
        reader.take()
        reader.accept("the")
        counted = length_first(reader)
        if counted:
            reader.take(counted)
            return Origin.TURNING_CHAIN
        if reader.text() in BEGINNING or reader.text() in CHAINS | {"tch", "t", "skipped"}:
            reader.accept("skipped")
            of = read_noun(reader)
            return Origin.TURNING_CHAIN if of in {TURNING_CHAIN, CHAIN} else None
        if reader.accept_any(_PREVIOUS):
            reader.accept_any(_ROWS)
            return Origin.EDGE
        return None
    if noun.thing is Thing.CHAIN:
        return Origin.TURNING_CHAIN if made else Origin.HOOK
    return Origin.EDGE
