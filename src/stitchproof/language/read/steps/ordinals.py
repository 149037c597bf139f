"""Places counted off: "4th ch from hook", "2nd ch of turning ch", "centre dc of next shell"."""

from typing import Final

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.chain_of_space import read_space_of
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.nouns import (
    BEGINNING,
    CORNER,
    CORNER_STITCH,
    STITCHES,
    TURNING_CHAIN,
    length_first,
    read_noun,
)
from stitchproof.language.read.steps.reader import STOPS, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import as_int, starts_stitch
from stitchproof.language.read.steps.unnamed_groups import UNNAMED
from stitchproof.language.tree import (
    CHAIN,
    STITCH,
    Each,
    End,
    First,
    Last,
    Next,
    Noun,
    Nth,
    On,
    Origin,
    Ring,
    Same,
    Target,
    Thing,
    Within,
)

MIDDLE: Final = word_set("center centre middle")
_GROUPS: Final = word_set("group groups")
_EACH: Final = word_set("each every ea")
_FROM_HERE: Final = word_set("next following foll fol")
_PREVIOUS: Final = word_set("previous prev last preceding row rnd round")
_ROWS: Final = word_set("row rows rnd rnds round rounds")
_BELOW: Final = frozenset(("below",))
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
    bare = read_space_of(reader) if reader.text() == "of" and len(ordinals) == 1 else None
    if bare is not None:
        return Within(ordinals[0], CHAIN, bare)  # "3rd of next 5-ch loop"
    noun = CHAIN if _of_chain(reader) else read_noun(reader)
    if noun is None:
        return None
    space = read_space_of(reader) if noun == CHAIN and len(ordinals) == 1 else None
    if space is not None:
        return Within(ordinals[0], CHAIN, space)
    if reader.text() == "of" and len(ordinals) == 1:
        middle = _middle_of_corner(reader, ordinals[0]) if noun.thing is Thing.KIND else None
        if middle is not None:
            return middle
        of = group_of(reader)
        if of is not None:
            return Within(ordinals[0], noun, of)
    origin = _origin(reader, noun, made)
    return None if origin is None else Nth(tuple(ordinals), noun, origin)


def _middle_of_corner(reader: Reader, ordinal: Number) -> Target | None:
    """Read "of each corner", "of next 3-sc group" behind "2nd sc": the middle one of the three."""
    ahead = 1
    while reader.text(ahead) in _FROM_HERE | _EACH | {"the", "same", "first"}:
        ahead += 1
    if as_int(ordinal) != _MIDDLE_OF_THREE:
        return None
    grouped = as_int(reader.number(ahead)) == _THREE and reader.text(ahead + 1) == "-"
    cornered = reader.text(ahead) in {"corner", "corners"}
    return _of_corner(reader) if grouped or cornered else None


_MIDDLE_OF_THREE: Final = 2
_THREE: Final = 3


def _of_chain(reader: Reader) -> bool:
    """Tell whether "of 3 ch", "of beg ch-3" follows an ordinal: a chain of it is meant."""
    if reader.text() != "of":
        return False
    ahead = 1
    while reader.text(ahead) in {"the", "first", "1st"} | _PASSED:
        ahead += 1
    return bool(length_first(reader, ahead)) or reader.text(ahead) in BEGINNING | CHAINS | {"tch"}


_PASSED: Final = word_set("skipped missed unworked")


def read_middle(reader: Reader) -> Target | None:
    """Read "center dc of next 5-dc group": the third from here."""
    reader.take()
    number = reader.number()
    if number is not None and reader.text(1) in STITCHES:
        reader.take(2)
        return Next(number)  # "skip center 12 sts"
    return _middle(reader)


def _of_neck(reader: Reader) -> On | None:
    """Read "st of V", "of the V" behind "center": one stitch at the point of a neckline."""
    start = reader.at - 1
    ahead = int(reader.text() in STITCHES)
    if reader.text(ahead) != "of":
        return None
    ahead += 2 if reader.text(ahead + 1) in {"the", "front"} else 1
    if reader.text(ahead) not in {"v", "vee", "neckline"}:
        return None
    reader.take(ahead + 1)
    return On(Next(), piece=reader.words(start))


def _middle(reader: Reader) -> Target | None:
    neck = _of_neck(reader)
    if neck is not None:
        return neck
    if reader.sees("ring") or reader.sees("of", "ring"):
        reader.take(2 if reader.sees("of") else 1)
        return Ring()
    whole = group_of(reader)
    if whole is not None:
        return Within(None, STITCH, whole)
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
    return _middle_one(reader)


def _middle_one(reader: Reader) -> Target | None:
    """Read "dc of next 5-dc group", "ch of next ch-5 sp", "ch-2 sp" behind "center"."""
    noun = CORNER if _ends_here(reader) else read_noun(reader)
    space = read_space_of(reader, center=True) if noun == CHAIN else None
    if space is not None:
        return Within(None, CHAIN, space)
    stands = reader.at
    of_group = group_of(reader) if noun is not None else None
    if noun is not None and of_group is not None:
        if of_group.noun != UNNAMED:
            return Within(None, noun, of_group)
        reader.at = stands  # the middle of any group is a place of the edge
    if noun is not None and noun.thing in {Thing.SPACE, Thing.CHAIN_SPACE}:
        return Next(noun=CORNER if noun.chains is None else noun)
    if noun is not None and noun.thing in {Thing.STITCH, Thing.KIND}:
        return _of_corner(reader)
    return None


def _ends_here(reader: Reader) -> bool:
    return reader.ended() or reader.text() in STOPS


def _of_corner(reader: Reader) -> Target | None:
    """Read "of next corner", "of each corner group", "of each 3-sc group" behind a centre stitch.

    Such a stitch is found on the edge: it stands in the middle of an odd group in one place.
    """
    at = Noun(Thing.STITCH, "centre")
    if not reader.accept("of"):
        return Next(noun=at)
    reader.accept("the")
    each, last = reader.text() in {"each", "every"}, reader.text() == "last"
    if each or last or reader.text() in _FROM_HERE | {"same", "first", "1st"}:
        reader.take()
    if reader.accept_any(word_set("corner corners")):
        at = CORNER_STITCH
        if reader.number() is not None and starts_stitch(reader, 1):
            reader.take()
            read_noun(reader)  # "of each corner 3 dc"
        reader.accept_any(_GROUPS | word_set("st sts"))
    elif as_int(reader.number()) is not None:
        reader.take()
        reader.accept("-")
        if not starts_stitch(reader):
            return None
        read_noun(reader)
        reader.accept_any(_GROUPS | word_set("corner corners"))
    elif not reader.accept_any(_GROUPS):
        of = read_noun(reader)
        if of is None or of.thing is not Thing.GROUP:
            return None
    if not each:
        return Last(noun=at) if last else Next(noun=at)
    until = read_until(reader) if starts_until(reader) else End()
    return None if until is None else Each(at, until)


_WHICH: Final = word_set("next following foll first 1st")
_SCALLOPS: Final = word_set("petal petals scallop scallops")


def group_of(reader: Reader) -> Next | First | Last | Each | Same | Nth | None:
    """Read "of next 5-dc group", "of last shell", "of each V-st"; None, and nothing taken, else."""
    start = reader.at
    if not reader.accept("of"):
        return None
    reader.take(2 if reader.text() in {"each", "every"} and reader.text(1) == "of" else 0)
    reader.accept("the")
    which = reader.text()
    grouped = which in _WHICH | {"last"} and reader.text(2) != "-"  # no "next 5-dc group"
    many = reader.number(1) if grouped else None  # "first 3 shells"
    reader.take(many is not None)
    ordinal = reader.ordinal() if which not in _WHICH and many is None else None
    if (
        ordinal is not None
        or which in _WHICH
        or which in {"last", "each", "every", "same", "this", "that", "any", "a"}
    ):
        reader.take()
    noun = UNNAMED if reader.accept_any(_SCALLOPS) else read_noun(reader)
    if noun is None or noun.thing is not Thing.GROUP:
        reader.at = start
        return None
    reader.accept_any(_GROUPS)
    if ordinal is not None:
        return Nth((ordinal,), noun, Origin.EDGE)
    match which:
        case "last":
            return Last(many or ONE, noun)
        case "each" | "every":
            until = read_until(reader) if starts_until(reader) else End()
            return None if until is None else Each(noun, until)
        case "same" | "this" | "that":
            return Same(noun)
        case "first" | "1st":
            return First(many or ONE, noun)
        case _:
            return Next(many or ONE, noun)


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
        if reader.text() in {"first", "1st"}:
            reader.take(1 if length_first(reader, 1) else 0)
        counted = length_first(reader)
        if counted:
            reader.take(counted)
            return Origin.TURNING_CHAIN
        if reader.text() in BEGINNING or reader.text() in CHAINS | {"tch", "t"} | _PASSED:
            reader.accept_any(_PASSED)
            if length_first(reader):
                reader.take(length_first(reader))
                return Origin.TURNING_CHAIN
            of = read_noun(reader)
            return Origin.TURNING_CHAIN if of in {TURNING_CHAIN, CHAIN} else None
        if reader.accept_any(_PREVIOUS):
            reader.accept_any(_ROWS | _BELOW)
            return Origin.EDGE
        return None
    if noun.thing is Thing.CHAIN:
        return Origin.TURNING_CHAIN if made else Origin.HOOK
    return Origin.EDGE
