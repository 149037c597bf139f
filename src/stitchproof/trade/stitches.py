"""Stitches: what they are called, what they take from the edge below and what they leave.

US and UK names are rows of one table. Post stitches and stitches drawn together are no rows: they
are a plain stitch with a post and a number, and their names and definitions are made from its.
"""

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import cache, lru_cache
from types import MappingProxyType
from typing import Final, Literal, TypeAlias

from stitchproof.base.records import dataclass
from stitchproof.trade import tables
from stitchproof.trade.tables import Confidence, Row, Terms

PostSide: TypeAlias = Literal["none", "front", "back"]
# Families that leave several stitches or a space, of which only the pattern says how many.
SEVERAL: Final = frozenset(("shell", "v_st", "fan"))


@dataclass(frozen=True, slots=True, kw_only=True)
class StitchKind:
    """One row of the table of stitches.

    Attributes
    ----------
    id : str
        Name inside the program, after the US abbreviation.
    us, uk : str
        Abbreviation in each system.
    us_name, uk_name : str
        Long name in each system.
    us_words, uk_words : tuple of str
        Further spellings, lower case, singular.
    turning_chain : int or None
        Chains that bring the hook to the height of a row of it; None: it begins no rows.
    consumes, leaves : int or None
        Places taken from the edge below, stitches put on the new edge; None: the pattern says.
    height, width : Fraction or None
        In single crochets; rough, the swatch says the truth. None: the pattern says.
    yarn_overs : int
        Made before the hook goes in.
    pairs : int
        How often two loops are worked off after the loop is drawn up; 0: all at once.
    extended : bool
        One loop is drawn through alone first.
    group : bool
        A family of groups, made as one; the pattern says of which stitches.
    movement : str
        Definition with places for names, where it does not follow from the numbers.
    source, confidence : str
        Where the row comes from.
    """

    id: str
    us: str
    uk: str
    us_name: str
    uk_name: str
    us_words: tuple[str, ...]
    uk_words: tuple[str, ...]
    turning_chain: int | None
    consumes: int | None
    leaves: int | None
    height: Fraction | None
    width: Fraction | None
    yarn_overs: int
    pairs: int
    extended: bool
    group: bool
    movement: str
    source: str
    confidence: Confidence


@dataclass(frozen=True, slots=True)
class Named:
    """A stitch as its name tells it: `FPdc2tog` is dc, front, 2."""

    kind: str
    post: PostSide = "none"
    together: int = 1


def _kind(row: Row) -> StitchKind:
    return StitchKind(
        id=tables.text(row, "id"),
        us=tables.text(row, "us"),
        uk=tables.text(row, "uk"),
        us_name=tables.text(row, "us_name"),
        uk_name=tables.text(row, "uk_name"),
        us_words=tables.words(row, "us_words"),
        uk_words=tables.words(row, "uk_words"),
        turning_chain=tables.whole(row, "turning_chain"),
        consumes=tables.whole(row, "consumes"),
        leaves=tables.whole(row, "leaves"),
        height=tables.exact(row["height"]) if "height" in row else None,
        width=tables.exact(row["width"]) if "width" in row else None,
        yarn_overs=tables.whole(row, "yarn_overs") or 0,
        pairs=tables.whole(row, "pairs") or 0,
        extended=row.get("extended") is True,
        group=row.get("group") is True,
        movement=tables.text(row, "movement"),
        source=tables.text(row, "source"),
        confidence=tables.confidence(row),
    )


@cache
def stitches() -> Mapping[str, StitchKind]:
    """Give every stitch by its id."""
    made = (_kind(row) for row in tables.rows(tables.table("stitches"), "stitch"))
    return MappingProxyType({kind.id: kind for kind in made})


# --------------------------------------------------------------------------- words


def _forms(word: str) -> Iterator[str]:
    """Give a word, its plural, and both with "stitch" behind them where that is not said yet."""
    yield word
    if word.endswith((" st", "-st", "slst", "vst")) or word == "ss":
        yield f"{word}s"
    elif word.endswith("stitch"):
        yield f"{word}es"
    else:
        yield f"{word}s"
        yield from (f"{word} {noun}" for noun in ("st", "sts", "stitch", "stitches"))


@cache
def words(terms: Terms) -> Mapping[str, str]:
    """Give every name of a plain stitch or group in a system, lower case, with its id.

    Abbreviations, long names, plurals and "sc sts" forms are in it; post stitches and stitches
    drawn together are not, `named` reads those.
    """
    found: dict[str, str] = {}
    for kind in stitches().values():
        own = (
            (kind.us, kind.us_name, *kind.us_words)
            if terms == "US"
            else (kind.uk, kind.uk_name, *kind.uk_words)
        )
        for word in own:
            for form in _forms(word.lower()):
                found.setdefault(form, kind.id)
    return MappingProxyType(found)


_TOGETHER: Final = re.compile(r"^(?P<stitch>.+?)[ -]?(?P<number>\d{1,2})[ -]?tog(?:ether)?s?$")
_TOGETHER_LONG: Final = re.compile(
    r"^(?P<stitch>.+?) (?P<number>\d{1,2}|two|three|four|five)(?: st(?:itche)?s)? together$"
)
_NUMBERS: Final = MappingProxyType({"two": 2, "three": 3, "four": 4, "five": 5})
_POSTS: Final[tuple[tuple[re.Pattern[str], PostSide], ...]] = (
    (re.compile(r"^(?:fp[ -]?|front[ -]post )(?P<stitch>.+)$"), "front"),
    (re.compile(r"^(?:bp[ -]?|back[ -]post )(?P<stitch>.+)$"), "back"),
    (re.compile(r"^raised (?P<stitch>.+) front$"), "front"),
    (re.compile(r"^raised (?P<stitch>.+) back$"), "back"),
    (re.compile(r"^(?P<stitch>.+)/rf$"), "front"),
    (re.compile(r"^(?P<stitch>.+)/rb$"), "back"),
    (re.compile(r"^r(?P<stitch>.+)f$"), "front"),
    (re.compile(r"^r(?P<stitch>.+)b$"), "back"),
    (re.compile(r"^(?P<stitch>h?dc|h?tr|dtr)f$"), "front"),
    (re.compile(r"^(?P<stitch>h?dc|h?tr|dtr)b$"), "back"),
)


@lru_cache(maxsize=4096)
def named(name: str, terms: Terms) -> Named | None:
    """Read the name of one stitch: `dc`, `FPtr`, `sc2tog`, `front post double crochet`.

    Case does not matter; None when it is no stitch of that system.
    """
    word = name.lower()
    known = words(terms)
    if word in known:
        return Named(known[word])
    joined = _TOGETHER_LONG.match(word) or _TOGETHER.match(word)
    if joined:
        inner = named(joined["stitch"], terms)
        number = _NUMBERS.get(joined["number"]) or int(joined["number"])
        if inner and inner.together == 1 and number > 1 and _is_post(inner.kind):
            return Named(inner.kind, inner.post, number)
        return None
    for pattern, side in _POSTS:
        match = pattern.match(word)
        kind = known.get(match["stitch"]) if match else None
        if kind and _is_post(kind):
            return Named(kind, side)
    return None


def _is_post(kind: str) -> bool:
    """Say whether a stitch has a post, so that others go around it and together."""
    return kind != "sl_st" and stitches()[kind].turning_chain is not None


# --------------------------------------------------------------------------- names and definitions


def abbreviation(kind: str, post: PostSide = "none", together: int = 1, terms: Terms = "US") -> str:
    """Write a stitch short: `FPdc`, `sc2tog`; an id the table does not know comes back as it is."""
    row = stitches().get(kind)
    plain = kind if row is None else row.us if terms == "US" else row.uk
    side = {"none": "", "front": "FP", "back": "BP"}[post]
    return f"{side}{plain}{f'{together}tog' if together > 1 else ''}"


def long_name(kind: str, post: PostSide = "none", together: int = 1, terms: Terms = "US") -> str:
    """Write a stitch in full: `front post double crochet`, `single crochet 2 stitches together`."""
    row = stitches().get(kind)
    plain = kind if row is None else row.us_name if terms == "US" else row.uk_name
    side = "" if post == "none" else f"{post} post "
    return f"{side}{plain}{f' {together} stitches together' if together > 1 else ''}"


def definition(kind: str, post: PostSide = "none", together: int = 1, terms: Terms = "US") -> str:
    """Say in a sentence how a stitch is made; empty for a stitch that is not in the table."""
    row = stitches().get(kind)
    if row is None:
        return ""
    yo, skip = ("yarn over", "Skip") if terms == "US" else ("yarn round hook", "Miss")
    if row.movement:
        names = {k.id: k.us if terms == "US" else k.uk for k in stitches().values()}
        return row.movement.format(yo=yo, Yo=_sentence(yo), Skip=skip, **names)
    return _sentence(f"{_worked(row, post, together, yo)}.")


def _worked(row: StitchKind, post: PostSide, together: int, yo: str) -> str:
    """Tell the steps of a stitch that follows from its yarn overs and closing pairs."""
    first = {0: "", 1: f"{yo}, ", 2: f"{yo} twice, "}.get(
        row.yarn_overs, f"{yo} {row.yarn_overs} times, "
    )
    where = "" if together == 1 and post == "none" else " in next stitch"
    if post != "none":
        way = "from front to back to front" if post == "front" else "from back to front to back"
        where = f" {way} around the post of {'next' if together > 1 else 'the'} stitch"
    leg = f"{first}insert hook{where}, {yo} and draw up a loop"
    if row.extended:
        leg += f", {yo} and draw through 1 loop"
    # A leg that is drawn together with others stops before its last step.
    off = row.pairs if together == 1 else row.pairs - 1
    if off > 0:
        leg += (
            f", ({yo}, draw through 2 loops) {off} times"
            if off > 1
            else (f", {yo} and draw through 2 loops")
        )
    if together == 1 and row.pairs:
        return leg
    loops = 1 + together * (1 if row.pairs else 1 + row.yarn_overs)
    every = "both" if loops == 2 else f"all {loops}"  # noqa: PLR2004 - both are two
    legs = leg if together == 1 else f"[{leg}] {together} times"
    return f"{legs}, {yo} and draw through {every} loops"


def _sentence(text: str) -> str:
    """Begin with a capital, behind an opening bracket too."""
    return re.sub("[a-z]", lambda m: m.group().upper(), text, count=1)
