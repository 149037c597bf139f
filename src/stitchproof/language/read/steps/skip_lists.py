"""Several places passed over at once: "sk next ch-2 sp, 24 dc and next ch-2 sp for sleeve"."""

from typing import Final

from stitchproof.base.place import Span
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.doubt import open_reading
from stitchproof.language.read.steps.nouns import chain_space_ahead, read_noun
from stitchproof.language.read.steps.ordinals import MIDDLE
from stitchproof.language.read.steps.parts import accept_part
from stitchproof.language.read.steps.places import read_target
from stitchproof.language.read.steps.reader import CLOSING, OPENING, STOPS, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS, space_behind
from stitchproof.language.read.steps.stitches import as_int, starts_stitch
from stitchproof.language.tree import Chain, Next, Noun, Skip, Steps, Target, Thing


def read_bracketed(reader: Reader) -> Steps | None:
    """Read "(ch-2 sp, next 24 dc, ch-2 sp)": the places passed over, one after another."""
    closing = OPENING[reader.text()]
    reader.take()
    steps: Steps = ()
    while not reader.ended() and reader.text() != closing:
        if steps and not reader.accept_any(_JOINTS):
            return None
        reader.pass_over(_JOINTS)
        start = reader.at
        target = read_target(reader)
        if target is None:
            return None
        steps = (*steps, *_one_by_one(target, reader.span(start)))
    return steps if steps and reader.accept(closing) else None


def _one_by_one(target: Target, place: Span) -> Steps:
    """Take "24 dc and ch-2 sp" for two places one after the other, and not for 24 of either."""
    match target:
        case Next(number, Noun(Thing.STITCH_OR_CHAIN, kind, chains)) if kind and number != ONE:
            space = Noun(Thing.CHAIN_SPACE, chains=chains)
            return (
                Skip(Next(number, Noun(Thing.KIND, kind)), place),
                Skip(Next(ONE, space), place),
            )
        case _:
            return (Skip(target, place),)


def sts_with_spaces(reader: Reader) -> Steps:
    """Read "sleeve (24 dc and both ch-2 sps)", "24 sleeve sts with the ch-2 sps on both sides".

    A space is passed on either side of the stitches; nothing is taken where it says otherwise.
    """
    start = reader.at
    steps = _between_spaces(reader, start)
    if not steps:
        reader.at = start
    return steps


def _between_spaces(reader: Reader, start: int) -> Steps:
    reader.accept("the")
    accept_part(reader)
    held = bool(reader.accept_any(frozenset(OPENING)))
    reader.accept_any(word_set("all next"))
    if reader.number() is None or chain_space_ahead(reader):
        return ()
    sts = read_target(reader)
    if not isinstance(sts, Next) or not reader.accept_any(_TOGETHER_WITH):
        return ()
    both = bool(reader.accept_any(word_set("both 2 two")))
    reader.accept("the")
    both = bool(reader.accept_any(word_set("both 2 two"))) or both
    noun = read_noun(reader)
    if noun is None or noun.thing is not Thing.CHAIN_SPACE:
        return ()
    sides = reader.text() in {"on", "at"} and reader.text(1) in _EITHER
    reader.take(3 if sides else 0)
    if not (both or sides) or (held and not reader.accept_any(CLOSING)):
        return ()
    place = reader.span(start)
    space = Skip(Next(ONE, noun), place)
    return (space, Skip(sts, place), space)


_TOGETHER_WITH: Final = word_set("with and plus including & +")
_EITHER: Final = word_set("both either each")
_JOINTS: Final = frozenset((",", ";", "and", "&", "+"))


def and_more(reader: Reader, first: Steps) -> Steps | None:
    """Read what else is left behind "sk ch-2 sp": ", next 26 dc and next ch-2 sp".

    None where it is not known.
    """
    chained = _and_chain(reader, first)
    if chained is not None:
        return chained
    steps = first
    while (ahead := _more_ahead(reader, listed=len(steps) > 1)) > 0:
        reader.take(ahead)
        start = reader.at
        target = read_target(reader)
        if target is None:
            return None
        steps = (*steps, *_one_by_one(target, reader.span(start)))
    return steps


def _more_ahead(reader: Reader, *, listed: bool) -> int:
    """Count the tokens before another place that is left; 0 where none follows."""
    if reader.text() in {"and", "&"} and space_behind(reader, 1):
        return 1
    ahead = 1 if reader.text() in {",", "and", "&"} else 0
    ahead += ahead > 0 and reader.text(ahead) in {"and", "&"}
    if ahead and reader.number(ahead) is not None and _before_a_space(reader, ahead):
        return ahead
    if not ahead or reader.text(ahead) not in _PLACES:
        return 0
    if reader.text(ahead) == "last" and starts_stitch(reader, ahead + 1):
        return ahead if listed else 0  # "last dc in top of ch-3" may be a step
    end = ahead + 1
    while end < ahead + _LONGEST and reader.text(end) and reader.text(end) not in _BREAKS:
        end += 1
    words = {reader.text(i) for i in range(ahead, end)}
    return 0 if words & _WORKED else ahead


def _before_a_space(reader: Reader, ahead: int) -> bool:
    """Tell whether "24 dc and next ch-2 sp" stands there: a space is no end of what is worked."""
    end = ahead + 1
    while end < ahead + _LONGEST and reader.text(end) and reader.text(end) not in _BREAKS:
        end += 1
    words = {reader.text(i) for i in range(ahead, end)}
    if words & _WORKED or reader.text(end) not in {"and", "&"}:
        return False
    end += 1
    while reader.text(end) in _PLACES:
        end += 1
    return space_behind(reader, end)


_PLACES: Final = word_set("next last first the following")
_BREAKS: Final = frozenset((",", ";", ".", "and", "&", "*", "(", "["))
_WORKED: Final = word_set("in into work row rnd round time rep repeat")
_LONGEST: Final = 9  # tokens of a place: "next 26 (26, 28) dc", "next ch - 2 sp"


def _and_chain(reader: Reader, skipped: Steps) -> Steps | None:
    """Read "and ch-1" behind what is skipped: the space behind it, or a chain that is made.

    None where a noun or a number with a space of its own tells which.
    """
    if reader.text() not in {"and", "&"} or reader.text(1) not in CHAINS:
        return None
    dash = int(reader.text(2) == "-")
    number = reader.number(2 + dash)
    glued = number is not None and not reader.apart(reader.at + 1 + dash)
    if number is None or not glued or reader.text(3 + dash) not in STOPS | {"", ")", "]", "*"}:
        return None
    start = reader.at + 1
    reader.take(3 + dash)
    place = reader.span(start)
    space = Skip(Next(ONE, Noun(Thing.CHAIN_SPACE, chains=as_int(number))), place)
    readings = ((*skipped, space), (*skipped, Chain(number, place=place)))
    return open_reading(readings, _WHICH_CHAIN, _CHAINS, skipped[0].place.to(place))


_WHICH_CHAIN: Final = "a chain behind what is skipped may be skipped too, or made"
_CHAINS: Final = ("skipped too", "made")


def pass_where(reader: Reader) -> None:
    """Go past "at the centre", "at center back", "of Row 18": where they lie the row tells."""
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text() == "of" and reader.text(ahead) in _ROWS:
        numbered = reader.number(ahead + 1) is not None
        reader.take(ahead + 2 if numbered else 0)
        return
    while reader.text() in {"of", "on"} and reader.text(ahead) in _WHICH_ROW:
        ahead += 1
        if reader.text(ahead) in _ROWS:  # "on last long row"
            reader.take(ahead + 1)
            return
    if reader.text() not in {"at", "in"} or reader.text(ahead) not in MIDDLE:
        return
    reader.take(ahead + 1)
    reader.accept("of")
    reader.accept("the")
    reader.accept_any(word_set("back front neck row"))


_ROWS: Final = word_set("row rnd round")
_WHICH_ROW: Final = word_set("last previous long full whole complete main body same final")
