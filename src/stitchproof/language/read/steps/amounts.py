"""Stitches counted behind their name or along an edge: "sc x 6", "13 sc around first leg"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.made import Found, Wanted
from stitchproof.language.read.steps.places import (
    Place,
)
from stitchproof.language.read.steps.reader import CLOSING, OPENING, STOPS, Frame, Reader
from stitchproof.language.read.steps.rows_below import read_limb
from stitchproof.language.read.steps.spaces_ahead import CHAINS, SPACES
from stitchproof.language.read.steps.spread import (
    evenly,
)
from stitchproof.language.read.steps.stitches import as_int
from stitchproof.language.tree import (
    CHAIN,
    STITCH,
    Each,
    Either,
    Group,
    Make,
    Next,
    Noun,
    On,
    OppositeSide,
    Repeat,
    Thing,
)

ALONG: Final = word_set("around along across down up over")


_EDGES: Final = word_set("edge edges side sides flap opening armhole neckline brim cuff hem border")


_FOUNDATION: Final = word_set("ch chs chain chains foundation row rows next each every same")


def _names_edge(reader: Reader) -> bool:
    """Tell whether "along side of heel flap" begins, an edge that is no foundation chain."""
    words: set[str] = set()
    i = 1
    while reader.text(i) and reader.text(i) not in {",", ";", ".", "(", "["}:
        words.add(reader.text(i))
        i += 1
    return bool(words & _EDGES) and not words & _FOUNDATION


def _names_row_ends(reader: Reader) -> bool:
    """Tell whether "up row ends", "down the row ends" begins."""
    ahead = 2 if reader.text(1) == "the" else 1
    ahead += reader.text(ahead) in {"last", "next", "remaining"}
    return reader.text() in ALONG and reader.sees_at(ahead, "row", "ends")


def names_another(reader: Reader) -> bool:
    """Tell whether "along side of heel flap", "around the first leg", "along the ch" begins."""
    if _chain_around(reader) or _names_edge(reader) or _names_row_ends(reader):
        return True
    start = reader.at
    named = _on_another(reader, None) is not None
    reader.at = start
    return named


def along_named(reader: Reader, wanted: Wanted) -> Found | None:
    """Read "14 sc along side of heel flap", "13 sc around the first leg"; None where neither."""
    if _chain_around(reader):
        return _around_chain(reader, wanted)
    if _names_edge(reader) or (wanted.number not in {None, ONE} and _names_row_ends(reader)):
        return evenly(reader, wanted.number)
    return _on_another(reader, wanted)


def _chain_around(reader: Reader) -> int:
    """Count the tokens of "around the ch-8", "over the ch-8"; 0 where the words say otherwise."""
    ahead = 2 if reader.text(1) == "the" else 1
    named = reader.text(ahead) in CHAINS and reader.text(ahead + 1) == "-"
    told = named and reader.text() in {"around", "over"}
    return ahead + 3 if told and as_int(reader.number(ahead + 2)) is not None else 0


def _around_chain(reader: Reader, wanted: Wanted) -> Found:
    """Read "8 sc around the ch-8", "over the ch-8 loop": all of them in that space."""
    length = _chain_around(reader)
    chains = as_int(reader.number(length - 1))
    reader.take(length)
    reader.accept_any(SPACES)
    at = Next(ONE, Noun(Thing.CHAIN_SPACE, chains=chains))
    return Found(Place(at), wanted.number or ONE)


def _on_another(reader: Reader, wanted: Wanted | None) -> Found | None:
    """Read "13 sc around the first leg", "4 sc along the ch": so many, one in each."""
    start = reader.at
    reader.take()
    at = Next((wanted.number if wanted is not None else None) or ONE)
    limb = read_limb(reader)
    if limb:
        return Found(Place(On(at, piece=limb)), counted=True)
    reader.accept("the")
    if reader.accept_any(CHAINS) and (reader.ended() or reader.text() in STOPS):
        return Found(Place(replace(at, noun=CHAIN)), counted=True)
    reader.at = start
    return None


def along_opposite(place: Place, wanted: Wanted, lead: str) -> Found | None:
    """Read "4 sc along other side of ch": so many in all, one in each chain."""
    number = wanted.number
    if lead not in {"along", "across", "on"} or number is None or number == ONE:
        return None
    if place.at != OppositeSide(Each(STITCH)):
        return None
    return Found(replace(place, at=OppositeSide(Next(number))), counted=True)


def number_behind(reader: Reader, frame: Frame) -> bool:
    """Go to the number of "sc 12", "sc x 6"; tell whether one counts the stitch alone."""
    if reader.number() is not None:
        alone = reader.text(2) in STOPS | CLOSING or not reader.text(2)
        return reader.text(1) != "x" or not alone  # "sc2tog 2x"
    if reader.text() != "x" or not _counts_itself(reader, frame):
        return False
    reader.take()
    return True


def _counts_itself(reader: Reader, frame: Frame) -> bool:
    """Tell whether "x 6" behind a stitch counts that stitch alone, and not the steps before it.

    It does where nothing was worked before it, where an earlier stitch of the line has an "x" of
    its own, and where more stitches follow.
    """
    if reader.number(1) is None:
        return False
    worked = any(isinstance(step, Make | Group | Repeat | Either) for step in frame.steps)
    opened = reader.at
    while opened and reader.tokens[opened - 1].text not in OPENING | {"*": "*"}:
        opened -= 1
    words = [token.text for token in reader.tokens[opened : reader.at]]
    return not worked or "x" in words or not _ends_behind_count(reader)


def _ends_behind_count(reader: Reader) -> bool:
    """Tell whether the line, or its bracket, ends behind "x 6"."""
    follows = reader.text(2)
    return not follows or follows in CLOSING | {".", ";", "*", "–", "—"}
