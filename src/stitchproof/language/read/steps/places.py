"""Where a stitch goes: the words after "in", "into", "around", "between" and "over".

Each reader stands behind the preposition. It gives None for words it does not know, and the whole
step is then unread: a place is exact or it is nothing.
"""

from dataclasses import dataclass, replace
from typing import Final, TypeAlias

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.nouns import (
    BEGINNING,
    CHAINS,
    TURNING_CHAIN,
    chain_space_ahead,
    read_noun,
    read_nouns,
)
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader
from stitchproof.language.read.steps.stitches import loop_length, read_loop, starts_stitch
from stitchproof.language.tree import (
    STITCH,
    Below,
    Between,
    Each,
    End,
    First,
    Last,
    Loop,
    Marked,
    Next,
    Noun,
    Nth,
    OppositeSide,
    Origin,
    Post,
    Ring,
    RowEnds,
    Same,
    SeamPlace,
    Target,
    Thing,
    Until,
)

IN: Final = word_set("in into")
EACH: Final = word_set("each every ea")
_FROM_HERE: Final = word_set("next following foll fol")
_PREVIOUS: Final = word_set("previous prev last preceding row rnd round")
_ROWS: Final = word_set("row rows rnd rnds round rounds")
_RINGS: Final = word_set("ring circle")
_PLAIN_PLACE: TypeAlias = Next | Each | Same | First | Last
_WHICH_SEAMS: Final = word_set("shoulder side other same next first second underarm raglan")


@dataclass(frozen=True, slots=True)
class Place:
    """Where a stitch goes, with what the words for it say about loop and post."""

    at: Target
    loop: Loop | None = None
    post: Post = Post.NONE


def read_in(reader: Reader, made: bool = True) -> Place | None:  # noqa: FBT001, FBT002
    """Read what follows "in" or "into"; `made`: stitches of the line stand before it."""
    if reader.text() in EACH and loop_length(reader, 1):
        reader.take()  # "each front loop" is the front loop of each stitch
        loop = read_loop(reader)
        until = read_until(reader) if starts_until(reader) else End()
        return None if until is None else Place(Each(STITCH, until), loop)
    loop = read_loop(reader)
    if loop is not None:
        reader.accept("of")
        if starts_until(reader):
            until = read_until(reader)
            return None if until is None else Place(Each(STITCH, until), loop)
        if _stops(reader):
            return Place(Next(), loop)
        reader.accept_any(IN)
    reader.accept("of")
    target = read_target(reader, made=made)
    return None if target is None else Place(target, loop)


def _stops(reader: Reader) -> bool:
    return reader.ended() or reader.text() in STOPS or reader.text() == "and"


def read_target(reader: Reader, *, made: bool = True) -> Target | None:
    """Read a place without its preposition."""
    target = _target(reader, made)
    if target is None:
        return None
    _pass_previous(reader)
    if isinstance(target, Next | Each | Same | First | Last):
        return _below(reader, target)
    return target


def _target(reader: Reader, made: bool) -> Target | None:  # noqa: FBT001 - by what is seen
    reader.pass_over(_ARTICLES)
    text = reader.text()
    if text in EACH or text == "all":
        reader.take()
        return _each(reader)
    if text in BEGINNING and reader.text(1) not in CHAINS and starts_stitch(reader, 1):
        reader.take()
        noun = read_noun(reader)
        return None if noun is None or noun.thing is Thing.CHAIN else First(ONE, noun)
    if text in _FROM_HERE:
        reader.take()
        return _next(reader)
    if text in {"first", "1st"}:
        reader.take()
        return _first(reader)
    if text == "last":
        reader.take()
        return _last(reader)
    if text == "same":
        reader.take()
        return _same(reader)
    if reader.ordinal() is not None:
        return _nth(reader, made)
    return _other(reader)


_ARTICLES: Final = word_set("the a an this that top any")


def _other(reader: Reader) -> Target | None:
    if reader.text() in {"sp", "space"} and reader.text(1) == "between":
        reader.take(2)
        between = _target(reader, made=True)
        return Between(between) if isinstance(between, Next | First | Last | Each) else None
    if reader.accept("of"):
        return _top(reader)
    if _indicated(reader):
        return Same()
    if reader.text() in {"magic", "adjustable"} or reader.text() in _RINGS:
        reader.accept_any(word_set("magic adjustable"))
        return Ring() if reader.accept_any(word_set("ring circle loop")) else None
    if reader.sees("loop") or reader.sees("mr"):
        reader.take()
        return Ring()
    seam = _seam(reader)
    if seam is not None:
        return seam
    if reader.sees("marked") or reader.sees("marker"):
        return _marked(reader)
    number = reader.number()
    if number is not None and not chain_space_ahead(reader):
        reader.take()
        noun = read_nouns(reader)
        return None if noun is None else _spread(reader, Next(number, noun))
    opposite = _opposite(reader)
    if opposite is not None:
        return opposite
    noun = read_noun(reader)
    return None if noun is None else _named(reader, noun)


def _named(reader: Reader, noun: Noun) -> Target | None:
    """Read what may follow a noun alone: "sp just made", "ch-1 sp of each V-st"."""
    if reader.accept("just", "made"):
        return Same(noun)
    spaces = {Thing.CHAIN_SPACE, Thing.SPACE}
    if noun.thing not in spaces or not reader.sees("of"):
        return _of_noun(noun)
    if reader.text(1) not in EACH | _FROM_HERE:
        return _of_noun(noun)
    reader.take()
    of = _target(reader, made=True)
    if isinstance(of, Each | Next) and of.noun.thing in {Thing.GROUP, Thing.KIND}:
        return replace(of, noun=noun)  # a group has one such space
    return None


def _top(reader: Reader) -> Target | None:
    """Read behind "top of": "beg ch-3", "3 ch", or a stitch, whose top is meant anyhow."""
    if reader.number() is not None and reader.text(1) in CHAINS:
        reader.take(2)
        return Next(ONE, TURNING_CHAIN)
    return _target(reader, made=True)


_INDICATED: Final = word_set("indicated specified designated stated given required")
_ANYWHERE: Final = word_set("st sp space stitch place sts or and ch loop -")


def _indicated(reader: Reader) -> bool:
    """Read "indicated st", "st or sp indicated": the place that the row will name."""
    ahead = 0
    while reader.text(ahead) in _ANYWHERE or reader.number(ahead) is not None:
        ahead += 1
        if ahead > _FAR:
            return False
    if reader.text(ahead) not in _INDICATED:
        return False
    reader.take(ahead + 1)
    reader.pass_over(_ANYWHERE if not ahead else frozenset())
    return True


def _of_noun(noun: Noun) -> Target:
    if noun.thing is Thing.MARKED:
        return Marked()
    if noun.thing is Thing.RING:
        return Ring()
    return Next(ONE, noun)


def _seam(reader: Reader) -> SeamPlace | None:
    if reader.accept("seam"):
        return SeamPlace("")
    if reader.text() in _WHICH_SEAMS and reader.text(1) == "seam":
        which = reader.text()
        reader.take(2)
        return SeamPlace(which)
    return None


def _marked(reader: Reader) -> Marked | None:
    if reader.accept("marker"):
        return Marked()
    if reader.text(1) in {"st", "stitch", "sc", "dc", "hdc"}:
        reader.take(2)
        return Marked()
    return None


def _opposite(reader: Reader) -> Target | None:
    """Read "opposite side of foundation ch", "other side of ch", "free loops of ch"."""
    if reader.text() not in {"opposite", "other", "underside", "free", "remaining"}:
        return None
    if reader.text(1) not in {"side", "edge", "loops", "lps", "of"}:
        return None
    reader.take(2)
    reader.accept("of")
    reader.accept("the")
    reader.accept_any(word_set("foundation beginning beg starting base"))
    if not reader.accept_any(CHAINS):
        return None
    until = read_until(reader) if starts_until(reader) else None
    return OppositeSide(Each(STITCH) if until is None else Each(STITCH, until))


def _each(reader: Reader) -> Target | None:
    """Read behind "each": "of next 3 sts", "st across", "ch-1 sp to last 3 sts"."""
    reader.accept("of")
    reader.accept("the")
    if reader.text() in _FROM_HERE | {"first", "last"} or reader.text() == "same":
        return _target(reader, made=True)
    number = reader.number()
    if number is not None and not chain_space_ahead(reader):
        reader.take()
        noun = read_nouns(reader)
        return None if noun is None else Next(number, noun)
    if reader.text() == "other" or reader.ordinal() is not None:
        return None
    noun = read_nouns(reader)
    if noun is None:
        return None
    _pass_previous(reader)
    if noun.thing is Thing.ROW_END:
        return _row_ends(reader, STITCH)
    if noun.thing is Thing.KIND and _accept_row_end(reader):
        return _row_ends(reader, noun)
    return _every(reader, noun)


def _every(reader: Reader, noun: Noun) -> Target | None:
    """Read how far "each st" goes, and whether along the other side of the foundation."""
    other_side = _on_foundation(reader)
    until: Until | None = End()
    if starts_until(reader):
        until = read_until(reader)
    if until is None:
        return None
    if other_side or _on_foundation(reader):
        return OppositeSide(Each(STITCH, until))
    return Each(noun, until)


def _on_foundation(reader: Reader) -> bool:
    """Read "along opposite side of ch" behind a noun."""
    ahead = 1 if reader.text() in {"along", "on", "of", "across"} else 0
    if reader.text(ahead) == "the":
        ahead += 1
    if reader.text(ahead) not in {"opposite", "other"} or reader.text(ahead + 1) != "side":
        return False
    reader.take(ahead)
    return _opposite(reader) is not None


def _accept_row_end(reader: Reader) -> bool:
    return reader.accept("row", "end") or reader.accept("row", "-", "end")


def _row_ends(reader: Reader, noun: Noun) -> RowEnds | None:
    if reader.text() in {"along", "up", "down", "on", "across"} and not _ends_across(reader):
        reader.take()
        reader.pass_over(word_set("the one other same left right first second next this"))
        if not reader.accept_any(word_set("side edge")):
            return None
    elif starts_until(reader) and read_until(reader) is None:
        return None
    reader.opposite = False
    return RowEnds(((noun, ONE),))


def _ends_across(reader: Reader) -> bool:
    return reader.text() == "across" and (not reader.text(1) or reader.text(1) in STOPS)


def _counted(reader: Reader) -> tuple[Number, Noun] | None:
    """Read "3 sts", "st", "ch-2 sp", "3-ch sp", "7" behind "next", "first" or "last"."""
    number = ONE
    if reader.number() is not None and not chain_space_ahead(reader):
        number = reader.number() or ONE
        reader.take()
        if _stops(reader):
            return number, STITCH
    elif _stops(reader):
        return ONE, STITCH
    noun = read_nouns(reader)
    return None if noun is None else (number, noun)


def _next(reader: Reader) -> Target | None:
    if reader.ordinal() is not None:
        ordinal = reader.ordinal()
        assert ordinal is not None
        reader.take()
        noun = read_noun(reader)
        return None if noun is None else Nth((ordinal,), noun, Origin.HERE)
    if reader.sees("seam"):
        reader.take()
        return SeamPlace("next")
    counted = _counted(reader)
    if counted is None:
        return None
    number, noun = counted
    if noun.thing is Thing.MARKED:
        return Marked()
    return _spread(reader, Next(number, noun))


def _spread(reader: Reader, target: Next) -> Target | None:
    """Go past "across" or "around" behind a count of places, which says nothing more."""
    if reader.text() in {"across", "around"}:
        follows = reader.text(1)
        if not follows or follows in STOPS or follows in CLOSING or follows in _ROWS:
            reader.take()
            reader.accept_any(_ROWS)
    return target


def _first(reader: Reader) -> Target | None:
    counted = _counted(reader)
    if counted is None:
        return None
    number, noun = counted
    if noun.thing is Thing.CHAIN and reader.text() == "of" and _foundation(reader):
        reader.opposite = True
        return OppositeSide(Next(number))
    return First(number, noun)


def _foundation(reader: Reader) -> bool:
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text(ahead) != "foundation":
        return False
    reader.take(ahead + 1)
    reader.accept_any(CHAINS)
    return True


def _last(reader: Reader) -> Target | None:
    if reader.text() in {"made", "worked"}:
        return None
    counted = _counted(reader)
    if counted is None:
        return None
    number, noun = counted
    if reader.accept_any(word_set("made worked")):
        return Same(noun) if number == ONE else None
    return Last(number, noun)


_FAR: Final = 6  # words of a place
_SAME_AS: Final = word_set(
    "joining join sl st ss last previous prev first the as turning tch ch beg beginning made joined"
    " chain - sc dc hdc tr stitch slip worked where yarn was is"
)


def _same(reader: Reader) -> Target | None:
    if reader.text() in {"place", "one", "spot"}:
        reader.take()
        noun: Noun | None = STITCH
    else:
        noun = read_noun(reader)
    if noun is None:
        return None
    _pass_base(reader)
    if reader.accept("as") or reader.sees("where"):
        while reader.text() in _SAME_AS or (reader.number() is not None and _is_length(reader)):
            reader.take()
        if not _stops(reader) and not reader.sees("across"):
            return None
    return Same(noun)


def _pass_base(reader: Reader) -> None:
    """Go past "at base of ch-3", which is the stitch that the chain stands on."""
    if reader.text() not in {"at", "as"} or reader.text(1) not in {"base", "the"}:
        return
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text(ahead) != "base" or reader.text(ahead + 1) != "of":
        return
    reader.take(ahead + 2)
    reader.pass_over(word_set("the turning beg beginning ch chain - tch"))
    if reader.number() is not None:
        reader.take()


def _is_length(reader: Reader) -> bool:
    before = reader.at - 1
    return before >= 0 and reader.tokens[before].text in {"-", "ch"}


def _nth(reader: Reader, made: bool) -> Target | None:  # noqa: FBT001
    """Read "4th ch from hook", "2nd ch of turning ch", "6th and 12th st"."""
    ordinals: list[Number] = []
    while (ordinal := reader.ordinal()) is not None:
        ordinals.append(ordinal)
        reader.take()
        more = 2 if reader.text() == "," and reader.text(1) in {"and", "&"} else 1
        if reader.text() in {",", "and", "&"} and reader.ordinal(more) is not None:
            reader.take(more)
    noun = read_noun(reader)
    if noun is None:
        return None
    origin = _origin(reader, noun, made)
    return None if origin is None else Nth(tuple(ordinals), noun, origin)


def _origin(reader: Reader, noun: Noun, made: bool) -> Origin | None:  # noqa: FBT001
    if reader.accept("from", "hook") or reader.accept("from", "the", "hook"):
        return Origin.HOOK
    if reader.sees("of"):
        reader.take()
        reader.accept("the")
        if reader.text() in BEGINNING or reader.text() in CHAINS | {"tch", "t", "skipped"}:
            reader.accept("skipped")
            of = read_noun(reader)
            return Origin.TURNING_CHAIN if of in {TURNING_CHAIN, _CHAINS} else None
        if reader.accept_any(_PREVIOUS):
            reader.accept_any(_ROWS)
            return Origin.EDGE
        return None
    if noun.thing is Thing.CHAIN:
        return Origin.TURNING_CHAIN if made else Origin.HOOK
    return Origin.EDGE


_CHAINS: Final = Noun(Thing.CHAIN)


def _pass_previous(reader: Reader) -> None:
    """Go past "of previous row", "of row below": the edge worked into is meant anyhow."""
    if reader.text() not in {"of", "from", "on", "in"}:
        return
    ahead = 2 if reader.text(1) == "the" else 1
    if (reader.text(ahead) in _ROWS and reader.text(ahead + 1) == "below") or (
        reader.text(ahead) in _PREVIOUS and reader.text(ahead + 1) in _ROWS
    ):
        reader.take(ahead + 2)
    elif reader.text(ahead) in _ROWS and reader.text() == "of":
        if reader.number(ahead + 1) is None:
            reader.take(ahead + 1)
        elif _left_over(reader):
            reader.take(ahead + 2)


def _left_over(reader: Reader) -> bool:
    """Tell whether "unworked sts" stands before the cursor: what a row left is still its edge."""
    words = {token.text for token in reader.tokens[max(reader.at - 3, 0) : reader.at]}
    return bool(words & {"unworked", "free", "unused"})


def _below(reader: Reader, target: _PLAIN_PLACE) -> Target | None:
    """Read "2 rows below" behind a place."""
    rows = reader.number()
    if rows is None or reader.text(1) not in _ROWS or reader.text(2) not in {"below", "down"}:
        return target
    reader.take(3)
    return Below(rows, replace(target, noun=STITCH), target.noun)
