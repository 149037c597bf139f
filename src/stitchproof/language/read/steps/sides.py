"""Edges other than the last course: row ends, and the other side of the foundation chain."""

from itertools import pairwise
from typing import Final

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import read_until, starts_until
from stitchproof.language.read.steps.nouns import read_noun
from stitchproof.language.read.steps.parts import part_length
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import (
    SPACE,
    STITCH,
    Each,
    Evenly,
    Next,
    Noun,
    OppositeSide,
    RowEnds,
    Target,
    Thing,
)

_WHICH: Final = word_set("the one other same left right first second next this long short")


def read_opposite(reader: Reader) -> Target | None:
    """Read "opposite side of foundation ch", "other side of ch", "free loops of ch"."""
    if reader.text() not in _OPPOSITE:
        return None
    if reader.text() in _UNUSED and reader.text(1) not in _LOOPS | _LOOP:
        return None
    if reader.text(1) not in {"side", "edge", "of"} | _LOOPS | _LOOP:
        return None
    if reader.text() not in {"free", "remaining"} | _UNUSED and reader.text(1) in _LOOP:
        return None
    reader.take(1 if reader.text() == "underside" else 2)
    reader.accept("of")
    reader.accept("each")
    reader.accept("of")
    reader.accept("the")
    reader.accept_any(_FOUNDING)
    if reader.text() == "next" and reader.text(1) in CHAINS:
        reader.take(2)
        return OppositeSide(Next())
    reader.accept("next")
    number = reader.number()
    if number is not None and reader.text(1) in CHAINS:
        reader.take(2)
        return OppositeSide(Next(number))
    if not reader.accept_any(CHAINS):
        return None
    if reader.text() == "-" and reader.number(1) is not None:
        reader.take(2)  # "other side of the ch-6"
    until = read_until(reader) if starts_until(reader) else None
    return OppositeSide(Each(STITCH) if until is None else Each(STITCH, until))


_UNUSED: Final = word_set("unused unworked")
_OPPOSITE: Final = _UNUSED | word_set("opposite other underside free remaining")
_LOOPS: Final = word_set("loops lps")
_LOOP: Final = word_set("loop lp")


def outer_edge(reader: Reader) -> Target | None:
    """Read a place on an edge that is not the last course, where it is named by what lies there."""
    return _counted_ends(reader) or _below_first_row(reader) or _back_of_chains(reader)


def _back_of_chains(reader: Reader) -> OppositeSide | None:
    """Read "back of 3 chs" where the line has made these chains and worked into them before."""
    number = reader.number(2)
    if not reader.sees("back", "of") or number is None or reader.text(3) not in CHAINS:
        return None
    before = [token.text for token in reader.tokens[: reader.at]]
    beside = {(one, other) for one, other in pairwise(before)}
    told = number.spelling
    made = any((chain, told) in beside for chain in CHAINS)
    if not made or not any((told, chain) in beside for chain in CHAINS):
        return None
    reader.take(4)
    return OppositeSide(Next(number))


def _below_first_row(reader: Reader) -> OppositeSide | None:
    """Read "base of each st across", "bottom of next 3 sc": the foundation, below the first row."""
    if reader.text() not in _FEET or reader.text(1) != "of":
        return None
    start = reader.at
    reader.take(2)
    reader.accept("the")
    each = bool(reader.accept_any(word_set("each every")))
    if not each and not reader.accept_any(word_set("next first")):
        reader.at = start
        return None
    number = reader.number()
    reader.take(number is not None)
    noun = read_noun(reader)
    if noun is None or noun.thing not in {Thing.STITCH, Thing.KIND, Thing.CHAIN}:
        reader.at = start
        return None
    if reader.text() in {"of", "on", "in"}:
        of_foundation(reader)
    if not each:
        return OppositeSide(Next(number or ONE))
    until = read_until(reader) if starts_until(reader) else None
    return OppositeSide(Each(STITCH) if until is None else Each(STITCH, until))


def on_foundation(reader: Reader) -> bool:
    """Read "along opposite side of ch" behind a noun, "of the ch" behind free loops."""
    if _of_chain_behind_loops(reader):
        return True
    ahead = int(reader.text() == "back")
    ahead += reader.text(ahead) in {"along", "on", "of", "across", "down", "up"}
    if reader.text(ahead) == "the":
        ahead += 1
    if reader.text(ahead) not in {"opposite", "other"} or reader.text(ahead + 1) != "side":
        return False
    if not reader.text(ahead + 2) or reader.text(ahead + 2) in STOPS:
        reader.take(ahead + 2)
        return True
    start = reader.at
    reader.take(ahead)
    if read_opposite(reader) is not None:
        return True
    reader.at = start
    return False


def _of_chain_behind_loops(reader: Reader) -> bool:
    """Go past "of the ch", "of foundation ch" behind "free loops": its other side."""
    loops = reader.at > 1 and reader.tokens[reader.at - 1].text in _LOOPS | _LOOP
    if not loops or reader.tokens[reader.at - 2].text != "free" or reader.text() != "of":
        return False
    ahead = 2 if reader.text(1) == "the" else 1
    ahead += reader.text(ahead) in _FOUNDING
    if reader.text(ahead) not in CHAINS:
        return False
    reader.take(ahead + 1)
    return True


_FOUNDING: Final = word_set("foundation beginning beg starting base")


def along_foundation(reader: Reader, at: Next) -> OppositeSide | None:
    """Read "along the other side" behind "next 12 chs"; what follows goes there too."""
    of_loops = at.noun == SPACE and reader.tokens[reader.at - 1].text in _LOOPS
    if at.noun.thing not in {Thing.CHAIN, Thing.STITCH} and not of_loops:
        return None
    if not (at.noun.thing is Thing.CHAIN and first_edge(reader)) and not on_foundation(reader):
        return None
    reader.opposite = True
    return OppositeSide(Next(at.number))


def accept_row_end(reader: Reader) -> bool:
    """Go past "row end", "row" behind the name of its stitch: "1 sc in each sc row"."""
    if reader.text() == "row" and reader.text(1) in STOPS | CLOSING | {"", "and", "along"}:
        reader.take()
        return True
    return reader.accept("row", "end") or reader.accept("row", "-", "end")


def ends_of_rows(reader: Reader) -> bool:
    """Read "end of each row", "ends of rows", "side of every row"."""
    if reader.text() not in {"end", "ends", "side", "sides", "edge"} or reader.text(1) != "of":
        return False
    ahead = 2
    while reader.text(ahead) in {"each", "every", "the", "ea", "all"}:
        ahead += 1
    several = ahead > 2 or reader.text(ahead) in {"rows", "rnds"}  # noqa: PLR2004 - "of" before
    ahead += reader.text(ahead) in _OF_PART
    if not several or reader.text(ahead) not in {"row", "rows", "rnd", "rnds"}:
        return False
    reader.take(ahead + 1)
    return True


_OF_PART: Final = word_set("ribbing rib ribbed cuff band waistband hem brim collar border")


def _counted_ends(reader: Reader) -> Next | None:
    """Read "end of each of 8 rows", "ends of next 12 rows", "end of next row": so many row ends."""
    if reader.text() not in {"end", "ends", "side", "sides", "edge"} or reader.text(1) != "of":
        return None
    ahead = 2
    while reader.text(ahead) in _EACH_OF:
        ahead += 1
    kind = starts_stitch(reader, ahead)  # "end of next dc row"
    one = reader.text(ahead - 1) in {"next", "following"}
    if one and reader.text(ahead + kind) in {"row", "rnd"}:
        reader.take(ahead + 1 + kind)
        return Next(ONE, Noun(Thing.ROW_END))
    here = reader.at
    reader.take()
    number = _of_rows(reader)
    if number is None:
        reader.at = here
        return None
    if reader.text() in {"around", "across"} and reader.text(1) in STOPS | {""}:
        reader.take()  # all of them, as the number says
    return Next(number, Noun(Thing.ROW_END))


_EACH_OF: Final = word_set("each every the of next first last all following")


def _of_rows(reader: Reader) -> Number | None:
    """Read "of the next 30 rows" behind "each row end": how many."""
    ahead = 1
    while reader.text(ahead) in _EACH_OF:
        ahead += 1
    number = reader.number(ahead)
    kind = number is not None and starts_stitch(reader, ahead + 1)  # "each of the 59 tr rows"
    if number is None or reader.text(ahead + 1 + kind) not in {"row", "rows", "rnds", "rounds"}:
        return _of_one_row(reader, ahead)
    reader.take(ahead + 2 + kind)
    return number


def _of_one_row(reader: Reader, ahead: int) -> Number | None:
    """Read "of Row 61 (81, 121)": one row, by its number."""
    if reader.text(ahead) not in {"row", "rnd"} or reader.number(ahead + 1) is None:
        return None
    reader.take(ahead + 2)
    return ONE


def ends_of_kind(reader: Reader) -> Noun | None:
    """Read "side of each dc row", "end of every sc row": the ends of the rows of one stitch."""
    if reader.text() not in {"end", "ends", "side", "sides"} or reader.text(1) != "of":
        return None
    if reader.text(2) not in {"each", "every"} or not starts_stitch(reader, 3):
        return None
    start = reader.at
    reader.take(3)
    noun = read_noun(reader)
    if noun is None or not reader.accept_any(word_set("row rows")):
        reader.at = start
        return None
    return noun


def rows_of_stitch(reader: Reader, ahead: int) -> bool:
    """Tell whether "each of the 59 dc rows", "next sc row" stands some way ahead."""
    while reader.text(ahead) in _EACH_OF:
        ahead += 1
    ahead += reader.number(ahead) is not None
    return starts_stitch(reader, ahead) and reader.text(ahead + 1) in {"row", "rows"}


def read_row_ends(reader: Reader, noun: Noun) -> RowEnds | Evenly | Next | None:
    """Read how far row ends go: "along the side", "across", "of the next 30 rows", nothing."""
    if reader.text() == "of" and (many := _of_rows(reader)) is not None:
        return Next(many, Noun(Thing.ROW_END))
    if reader.text() == "of":
        reader.take(1 + length if (length := part_length(reader, 1)) else 0)  # "of the band"
    around = part_length(reader, 1) if reader.text() == "around" else 0
    if around:  # how many edges that goes along is not told
        start = reader.at
        reader.take(1 + around)
        return Evenly(None, reader.words(start))
    to_corner = _to_corner(reader)
    sided = reader.text() in {"along", "up", "down", "on", "across"} and not _ends_across(reader)
    if not to_corner and sided:
        part = part_length(reader, 1)
        reader.take(1 + part)
        reader.pass_over(_WHICH if not part else frozenset())
        if not part and not reader.accept_any(word_set("side edge")):
            return None
    elif not to_corner and starts_until(reader) and read_until(reader) is None:
        return None
    _to_corner(reader)
    reader.opposite = False
    return RowEnds(((noun, ONE),))


_FEET: Final = word_set("base bottom foot underside bases bottoms feet undersides")
_TOWARDS: Final = word_set("the next other bottom top lower upper far last")


def _to_corner(reader: Reader) -> bool:
    """Go past "to the bottom corner", "up to top": row ends go to the end of their side."""
    ahead = 1 if reader.text() in {"up", "down"} else 0
    if reader.text(ahead) not in {"to", "until"}:
        return False
    ahead += 1
    first = ahead
    while reader.text(ahead) in _TOWARDS:
        ahead += 1
    ahead += reader.text(ahead) in {"corner", "edge"}
    last = reader.text(ahead - 1)
    if ahead == first or last not in {"corner", "edge", "top", "bottom"}:
        part = part_length(reader, first)  # "to toe", "to heel seam"
        seam = reader.text(first + part) == "seam"
        if not part or reader.text(first + part + seam) not in STOPS | {"", "and"}:
            return False
        ahead = first + part + seam
    reader.take(ahead)
    return True


def _ends_across(reader: Reader) -> bool:
    return reader.text() == "across" and (not reader.text(1) or reader.text(1) in STOPS)


def of_foundation(reader: Reader) -> bool:
    """Read "of foundation ch"."""
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text(ahead) != "foundation":
        return False
    reader.take(ahead + 1)
    reader.accept_any(CHAINS | word_set("row round edge"))
    return True


def begun(reader: Reader) -> bool:
    """Read "of foundation ch", "along bottom edge" behind its first chains."""
    return first_edge(reader) or (reader.text() == "of" and of_foundation(reader))


def first_edge(reader: Reader) -> bool:
    """Read "along the bottom edge", "across cast-on edge": where the piece began."""
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text() not in {"along", "across", "on", "of"}:
        return False
    named = 3 if reader.sees_at(ahead, "cast", "-", "on") else 1
    if named == 1 and reader.text(ahead) not in _WHERE_BEGUN:
        return False
    if reader.text(ahead + named) != "edge":
        return False
    reader.take(ahead + named + 1)
    return True


_WHERE_BEGUN: Final = word_set("bottom lower base foundation beginning beg starting original")
