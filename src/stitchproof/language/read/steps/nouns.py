"""The things that places are counted in: "sts", "ch-2 sp", "dc", "shells", "turning ch"."""

from typing import Final

from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import Reader
from stitchproof.language.read.steps.spaces_ahead import (
    CHAINS,
    EXTENTS,
    PLURAL_SPACES,
    SPACES,
    extent_behind_space,
    is_one_space,
    space_behind,
)
from stitchproof.language.read.steps.stitches import StitchName, as_int, read_stitch
from stitchproof.language.read.steps.stitches import starts_stitch as _starts_stitch
from stitchproof.language.read.steps.unnamed_groups import (
    GROUPS,
    UNNAMED,
    counted_group,
    group_ahead,
    its_space,
    pass_makeup,
)
from stitchproof.language.read.vocabulary import near
from stitchproof.language.tree import CHAIN, SPACE, STITCH, Noun, Thing
from stitchproof.trade.stitches import SEVERAL

STITCHES: Final = word_set("st sts stitch stitches")
_OPENINGS: Final = word_set(
    "armhole armholes underarm underarms opening openings thumbhole thumbholes"
    " buttonhole buttonholes leghole legholes handle handles slit slits"
)
BEGINNING: Final = word_set("turning beg beginning starting start initial")
CORNER: Final = Noun(Thing.SPACE, "corner")
CENTRE_STITCH: Final = Noun(Thing.STITCH, "centre")
_GAPS: Final = word_set("gap gaps")  # between groups, which no chain need make
_CENTRES: Final = word_set("center centre middle")
CORNER_STITCH: Final = Noun(Thing.STITCH, "corner")
BODY_STITCH: Final = Noun(Thing.STITCH, "edge")  # of the edge that a rib is joined to
POST_STITCH: Final = Noun(Thing.KIND, "post")  # front or back, around whichever stitch
BLOCKS: Final = word_set("block blocks tile tiles")  # of corner-to-corner work
_CORNERS: Final = word_set("corner corners point points tip tips spine")
_BARE_CHANGES: Final = word_set("inc dec")
TURNING_CHAIN: Final = Noun(Thing.TURNING_CHAIN)
MARKED: Final = Noun(Thing.MARKED)
_ADJECTIVES: Final = word_set("unworked free remaining rem unused open worked waiting held raglan")


def read_noun(reader: Reader) -> Noun | None:
    """Read one noun at the cursor; None if none stands there."""
    reader.pass_over(_ADJECTIVES)
    _pass_part(reader)
    text = reader.text()
    if text in _CORNERS and reader.text(1) not in {"of", "-"}:
        return _corner(reader)
    if text in STITCHES:
        reader.take()
        return _or_chain(reader)
    if text in _CENTRES and reader.text(1) in STITCHES:
        reader.take(2)
        return CENTRE_STITCH
    if text in BEGINNING or text in {"tch", "t"}:
        return _turning_chain(reader)
    if text in CHAINS:
        return _chain(reader)
    if text in SPACES:
        reader.take()
        return Noun(Thing.SPACE, "gap") if text in _GAPS else SPACE
    if reader.number() is not None:
        return _counted_space(reader)
    if reader.accept_any(BLOCKS):
        return Noun(Thing.GROUP, "block")
    if reader.accept_any(GROUPS):
        pass_makeup(reader)
        return UNNAMED
    return _fixed(reader) or _kind(reader)


_CHAIN_PARTS: Final = word_set(
    "foundation base original underarm bridge armhole buttonhole thumbhole eyelet"
)
_SHORTEST_PART: Final = 4  # letters
_SHORT_PARTS: Final = word_set("rib hem toe leg arm cap ear")


def _pass_part(reader: Reader) -> None:
    """Go past the part that stitches belong to: "instep sts", "heel sts", "foundation ch"."""
    token = reader.token()
    if token is None or token.kind is not TokenKind.WORD or _starts_stitch(reader):
        return
    follows = reader.text(1)
    if token.text in _CHAIN_PARTS and follows in CHAINS:
        reader.take()
        return
    short = len(token.text) < _SHORTEST_PART and token.text not in _SHORT_PARTS
    known = token.text in _NO_PARTS or short
    if known or not set(token.text) & set("aeiouy"):
        return
    if token.text in _PARTS_OF_WORK and _starts_stitch(reader, 1):
        reader.take()  # "sk 37 sleeve hdc"
        return
    if follows not in STITCHES and (follows not in _SPACES_ALONE or token.text in _SIDES_OF):
        return
    if not near(token.text, reader.context.terms):
        reader.take()


_PARTS_OF_WORK: Final = word_set(
    "sleeve body yoke back front bodice skirt neck heel foot sole instep palm thumb ribbing rib"
    " cuff band crown brim shoulder underarm armhole side"
)
_SPACES_ALONE: Final = word_set("sp sps space spaces")
_SIDES_OF: Final = word_set("back front third both") | SPACES
_NO_PARTS: Final = word_set(
    "marked next last first same each every other skipped missed indicated specified designated"
    " corner turning beginning starting center centre middle stated given this that these those"
    " opposite and into chain post extra more between worked another joining joined"
)


def _corner(reader: Reader) -> Noun | None:
    """Read "corner", "corner sp", "corner ch-2 sp", "corner st", "corner sc"."""
    reader.take()
    if reader.text() in SPACES or reader.text() in CHAINS or reader.number() is not None:
        noun = read_noun(reader)
        if noun is not None and noun.thing is Thing.CHAIN_SPACE and noun.chains is not None:
            return noun
        spaces = {Thing.SPACE, Thing.CHAIN_SPACE}
        if noun == CHAIN:
            return CHAIN
        return CORNER if noun is not None and noun.thing in spaces else None
    if reader.text() in STITCHES or (starts_name(reader) and reader.text() not in _BARE_CHANGES):
        noun = read_noun(reader)
        stitch = noun is not None and noun.thing in {Thing.STITCH, Thing.KIND}
        return CORNER_STITCH if stitch else None
    return CORNER


def _or_chain(reader: Reader) -> Noun:
    """Read the rest of "st and ch", "st or ch", "st and ch-1 sp"."""
    underarm = 2 if reader.text(1) == "underarm" else 1
    if reader.text() not in {"and", "or", "&", "/"} or reader.text(underarm) not in CHAINS:
        return STITCH
    reader.take(underarm)
    chain = _chain(reader)
    return Noun(Thing.STITCH_OR_CHAIN, chains=chain.chains)


def _turning_chain(reader: Reader) -> Noun | None:
    if reader.accept("tch"):
        reader.accept_any(SPACES)
        return TURNING_CHAIN
    ahead = 2 if reader.text(1) == "-" else 1
    counted = length_first(reader, 1)
    if reader.text(ahead) not in CHAINS and not counted:
        return None
    reader.take(1 + counted if counted else ahead + 1)
    _skip_length(reader)
    return TURNING_CHAIN


def length_first(reader: Reader, ahead: int = 0) -> int:
    """Count the tokens of "3-ch", "3 ch" that name one chain by its length; 0: none is there."""
    if as_int(reader.number(ahead)) is None:
        return 0
    behind = 2 if reader.text(ahead + 1) == "-" else 1
    return behind + 1 if reader.text(ahead + behind) in CHAINS else 0


def _skip_length(reader: Reader) -> None:
    """Go past the length of a chain that is named by it: "-3"."""
    ahead = 1 if reader.text() == "-" else 0
    if reader.number(ahead) is not None:
        reader.take(ahead + 1)
    reader.accept_any(SPACES)


def _chain(reader: Reader) -> Noun:
    """Read "ch", "ch-2 sp", "ch sp", and "ch-3" for a turning chain."""
    reader.take()
    ahead = 1 if reader.text() == "-" else 0
    number = reader.number(ahead)
    if number is None:
        if reader.text(ahead) in SPACES:
            reader.take(ahead + 1)
            return Noun(Thing.CHAIN_SPACE)
        return CHAIN
    behind = ahead + 2 if reader.text(ahead + 1) == "-" else ahead + 1
    behind += _names_space(reader, behind)
    if reader.text(behind) in SPACES | _OPENINGS:
        reader.take(behind + 1)
        return Noun(Thing.CHAIN_SPACE, chains=as_int(number))
    reader.take(ahead + 1)
    return TURNING_CHAIN


def _counted_space(reader: Reader) -> Noun | None:
    """Read "3-ch sp", "3ch loop", "2-ch corner sp", and "3-ch" for a turning chain."""
    number = as_int(reader.number())
    ahead = 2 if reader.text(1) == "-" else 1
    if number is not None and group_ahead(reader):
        return counted_group(reader, ahead)
    if number is None or reader.text(ahead) not in CHAINS:
        return None
    behind = ahead + 2 if reader.text(ahead + 1) == "-" else ahead + 1
    behind += _names_space(reader, behind)
    if reader.text(behind) in SPACES | _OPENINGS:
        reader.take(behind + 1)
        return Noun(Thing.CHAIN_SPACE, chains=number)
    if reader.text(1) != "-":
        return None
    reader.take(ahead + 1)
    return TURNING_CHAIN


def _names_space(reader: Reader, ahead: int) -> bool:
    """Tell whether "corner", "handle" stands before "sp" some way ahead: which space it is."""
    named = reader.text(ahead) in _OPENINGS | _NAMES_OF_SPACES
    return reader.text(ahead) == "corner" or (named and reader.text(ahead + 1) in SPACES)


_NAMES_OF_SPACES: Final = word_set("raglan neck sleeve thumb edge center centre point tip button")


def chain_space_ahead(reader: Reader) -> bool:
    """Tell whether "3-ch sp" or "3-ch", one thing and no count of them, stands at the cursor."""
    if reader.number() is None:
        return False
    if group_ahead(reader) or (reader.text(1) == "-" and length_first(reader)):
        return True
    ahead = 2 if reader.text(1) == "-" else 1
    behind = ahead + 2 if reader.text(ahead + 1) == "-" else ahead + 1
    behind += _names_space(reader, behind)
    spaced = reader.text(ahead) in CHAINS and reader.text(behind) in SPACES | _OPENINGS
    return spaced and reader.text(behind) not in PLURAL_SPACES


_FIXED: Final = tuple(
    (tuple(words.split()), noun)
    for noun, named in (
        (Noun(Thing.RING), ("center ring", "centre ring", "ring")),
        (Noun(Thing.SEAM), ("seam",)),
        (MARKED, ("marked st", "marked stitch", "marked sp", "marked space")),
        (Noun(Thing.ROW_END), ("row - end", "row - ends", "row end", "row ends", "row edge")),
        (Noun(Thing.ROW_END), ("end of row", "side of row", "row", "rows")),
        (TURNING_CHAIN, ("top of turning ch",)),
        (SPACE, ("buttonhole", "buttonholes", "button hole", "button holes")),
        (POST_STITCH, ("post sts", "post st", "post stitches", "post stitch")),
    )
    for words in named
)


def _fixed(reader: Reader) -> Noun | None:
    return next((noun for words, noun in _FIXED if reader.accept(*words)), None)


def _kind(reader: Reader) -> Noun | None:
    if reader.text() == "marked":
        return MARKED if pass_marked(reader) else None
    if not starts_name(reader):
        return None
    named = read_stitch(reader)
    return None if named is None else its_space(reader, named) or noun_of(named)


def pass_marked(reader: Reader) -> bool:
    """Go past "marked sc", "marked ch-1 sp", "marked corner sp"."""
    start = reader.at
    reader.take()
    space = read_noun(reader) if reader.text() in CHAINS | {"corner"} else None
    if space is not None and space.thing in {Thing.SPACE, Thing.CHAIN_SPACE}:
        return True
    if space is None and _starts_stitch(reader) and read_stitch(reader) is not None:
        return True
    reader.at = start
    return False


def starts_name(reader: Reader) -> bool:
    """Tell whether a stitch name stands at the cursor that can be a noun."""
    return _starts_stitch(reader)


def noun_of(named: StitchName) -> Noun:
    """Give the noun for stitches of a name."""
    special = named.special
    if special is not None and special.body is not None:
        return Noun(Thing.GROUP, special.name)
    if named.stitch.kind in SEVERAL:
        return Noun(Thing.GROUP, named.stitch.kind)
    return Noun(Thing.KIND, named.stitch.name)


def _chain_or_stitch(reader: Reader) -> Noun:
    """Read the rest of "ch and st", "ch and each st"."""
    ahead = 1
    while reader.text(ahead) in {"in", "each"}:
        ahead += 1
    if reader.text(ahead) in STITCHES:
        reader.take(ahead + 1)
        return Noun(Thing.STITCH_OR_CHAIN)
    named = _starts_stitch(reader, ahead) and reader.text(ahead) not in CHAINS
    if reader.text(ahead - 1) == "each" and named:
        reader.take(ahead)
        read_stitch(reader)
        return Noun(Thing.STITCH_OR_CHAIN)
    return CHAIN


def _and_kind(reader: Reader, noun: Noun) -> Noun:
    """Read the rest of "st and pc across": a stitch of any kind, whatever else it is called."""
    start = reader.at
    reader.take()
    read_stitch(reader)
    posted = reader.text() == "around" and reader.text(1) in _AROUND_ONE
    if posted or reader.text() not in EXTENTS:
        reader.at = start
    return noun


_AROUND_ONE: Final = word_set("each every next first last same the post posts")


def _with_each(reader: Reader, noun: Noun) -> Noun:
    """Read the rest of "st and in each ch-1 sp": with chains and spaces it is every place."""
    ahead = 1
    while reader.text(ahead) in {"in", "into", "each"}:
        ahead += 1
    each = reader.text(ahead - 1) == "each"
    single = as_int(reader.number(ahead)) == 1 and reader.text(ahead + 1) in CHAINS
    single = single and reader.text(ahead + 2) in EXTENTS
    alone = single or (ahead == 1 and is_one_space(reader, 1))
    named = each or alone or extent_behind_space(reader, ahead)
    if noun.thing is Thing.CHAIN_SPACE or not named:
        return noun
    of = ahead
    while each and reader.text(of) in {"of", "the", "those", "next"}:
        of += 1
    if of > ahead and reader.number(of) is not None and reader.text(of + 1) in CHAINS:
        ahead = of + 1  # "each of the 5 chs": however many they are
    ahead += reader.text(ahead) in _CHAIN_PARTS
    if reader.text(ahead) in CHAINS:
        reader.take(ahead)
        chain = _chain(reader)
    elif not each and reader.text(ahead + 2) in EXTENTS:
        reader.take(ahead + 2)  # "tr and 1 ch to last tr"
        chain = CHAIN
    elif reader.number(ahead) is not None and reader.text(ahead + 1) in CHAINS | {"-"}:
        reader.take(ahead)
        chain = _counted_space(reader) or CHAIN
    else:
        return noun
    return Noun(Thing.STITCH_OR_CHAIN, noun.kind, chain.chains)


def read_nouns(reader: Reader, *, each: bool = True) -> Noun | None:
    """Read a noun, or two that together are every place: "sc and ch-1 sp".

    Where not `each` place is meant, "next dc and ch-1 sp" are two places one after the other.
    """
    noun = read_noun(reader)
    if noun is None or reader.text() not in {"and", "&"}:
        return noun
    if not each and noun != CHAIN and space_behind(reader, 1):
        return noun
    if noun == CHAIN:
        return _chain_or_stitch(reader)
    pair = (Thing.KIND, Thing.STITCH)
    if noun.thing not in pair and noun.thing is not Thing.CHAIN_SPACE:
        return noun
    if reader.text(1) in {"each", "in", "into"} or (
        reader.number(1) is not None and reader.text(2) in CHAINS | {"-"}
    ):
        return _with_each(reader, noun)
    if noun == STITCH and _starts_stitch(reader, 1):
        return _and_kind(reader, noun)
    if noun.thing is Thing.KIND and _starts_stitch(reader, 1) and reader.text(1) not in CHAINS:
        both = _and_kind(reader, STITCH)
        return noun if reader.text() in {"and", "&"} else both
    underarm = 2 if reader.text(1) == "underarm" else 1
    if reader.text(underarm) in CHAINS and reader.number(underarm + 1) is None:
        reader.take(underarm)
        chain = _chain(reader)
        return Noun(Thing.STITCH_OR_CHAIN, noun.kind, chain.chains)
    return noun


def turning_chain_ahead(reader: Reader) -> bool:
    """Tell whether "of turning ch", "of the tch" stands at the cursor."""
    ahead = 2 if reader.text(1) == "the" else 1
    return reader.text(ahead) in BEGINNING | {"tch"} or (
        reader.text(ahead) == "t" and reader.text(ahead + 1) == "-"
    )
