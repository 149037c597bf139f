"""Places in words: what stands behind a stitch to say where it goes.

Each writer gives the whole of it, preposition and all, or None for a place that the trade has no
words for; the step is then a finding and not a guess.
"""

from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import NONE, Number, plain
from stitchproof.language.stitch import STITCH
from stitchproof.language.tree import (
    Behind,
    Below,
    Between,
    Each,
    End,
    Evenly,
    First,
    Last,
    Marked,
    Next,
    Noun,
    Nth,
    On,
    OppositeSide,
    Origin,
    Ring,
    RowEnds,
    Same,
    SeamPlace,
    Skipped,
    Target,
    Thing,
    To,
    ToLast,
    ToMarked,
    Until,
    Within,
)
from stitchproof.language.write.stitch_words import noun_words
from stitchproof.language.write.wording import Wording

_SPACES: Final = frozenset((Thing.SPACE, Thing.CHAIN_SPACE, Thing.RING))


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """How a stitch reaches its place.

    Attributes
    ----------
    wording : Wording
        Whose words.
    around : bool
        It goes around a post.
    loop : str
        Loop named before the place, with "of": "3rd loop of ".
    many : bool
        Several stitches go into each place.
    rounds : bool
        The line is a round.
    opposite : bool
        The line said before that it works along the other side of the foundation.
    worked : bool
        The line has made stitches before it: the same place is not that of the beginning.
    remaining : bool
        The line has worked towards places of its own before it: what comes to the end is the rest.
    """

    wording: Wording
    around: bool = False
    loop: str = ""
    many: bool = False
    rounds: bool = False
    opposite: bool = False
    worked: bool = False
    remaining: bool = False

    @property
    def lead(self) -> str:
        """Give the preposition, with the loop."""
        return "around " if self.around else f"in {self.loop}"


def place_words(at: Target, way: Way) -> str | None:  # noqa: C901, PLR0911, PLR0912 - a line a kind of place
    """Say where a stitch goes: `in next 3 sts`, `around dc 2 rows below next st`."""
    match at:
        case Next() | Each() | Same() | First() | Last():
            return f"{way.lead}{plain_place(at, way)}"
        case Nth():
            words = nth_words(at, way)
            return None if words is None else f"{way.lead}{words}"
        case Ring(magic):
            return f"{way.lead}{'magic ' if magic else ''}ring"
        case Below():
            return _below(at, way)
        case Between(place):
            return _between(place, replace(way, many=False))
        case Marked():
            return f"{way.lead}marked {way.wording.word('st')}"
        case SeamPlace(which):
            return f"{way.lead}{which} seam" if which else f"{way.lead}seam"
        case OppositeSide():
            return _opposite(at, way)
        case Skipped(number, noun, nth, row) if way.wording.is_one(nth):
            of = "" if row is None else f" of {'Rnd' if way.rounds else 'Row'} {row.spelling}"
            return f"{way.lead}{_skipped(number, noun, way)}{of}"
        case Skipped(_, noun, nth):
            skipped = noun_words(noun, way.wording)
            which = way.wording.ordinal(nth) or ""
            return f"{way.lead}{which} {way.wording.word('skipped')} {skipped}"
        case On(place, row, piece):
            if piece == "unworked" and isinstance(place, Next):
                many = way.wording.number(place.number)
                sts = noun_words(place.noun, way.wording, many=not way.wording.is_one(place.number))
                return f"{way.lead}next {many} unworked {sts}"
            if row is None and piece.startswith(("center ", "centre ")) and " of " in piece:
                return f"{way.lead}{piece}"  # "in center st of V", which says where by itself
            where = f"{way.lead}{plain_place(place, way)}"
            rounds = "Rnd" if way.rounds else "Row"
            return f"{where} of {piece}" if row is None else f"{where} of {rounds} {row.spelling}"
        case Within():
            return f"{way.lead}{_within(at, way)}"
        case Behind() | RowEnds() | Evenly():
            return None  # a skip and a pick-up word these on their own


def _within(at: Within, way: Way) -> str:
    """Say a place of a group: `3rd dc of next shell`, `center of last fan`, `ch-2 sp of shell`."""
    of, alone = at.of, replace(way, many=False)
    group = _nth_group(of, way) if isinstance(of, Nth) else plain_place(of, alone)
    noun = noun_words(at.noun, way.wording)
    if at.ordinal is not None:
        return f"{way.wording.ordinal(at.ordinal)} {noun} of {group}"
    if at.noun.thing in _SPACES:
        return f"{noun} of {group}"
    center = way.wording.word("center")
    return f"{center} of {group}" if at.noun == STITCH else f"{center} {noun} of {group}"


def _nth_group(of: Nth, way: Way) -> str:
    """Say `2nd V-st`, counted from where the row begins."""
    return f"{way.wording.ordinal(of.ordinals[0])} {noun_words(of.noun, way.wording)}"


def _between(at: Next | First | Last | Each, way: Way) -> str:
    """Say a gap: `between next 2 sts`, `in sp before first group`."""
    if isinstance(at, Next) and way.wording.is_one(at.number) and at.noun.thing is not Thing.GROUP:
        return f"in {way.wording.word('sp')} before {plain_place(at, way)}"
    if at.noun.thing is not Thing.GROUP:
        return f"between {plain_place(at, way)}"
    space = way.wording.word("sp")
    match at:
        case Next():
            return f"in {space} between {plain_place(at, way)}"
        case First():
            return f"in {space} before {plain_place(at, way)}"
        case Last():
            return f"in {space} after {plain_place(at, way)}"
        case Each(noun, until):
            groups = noun_words(noun, way.wording, many=True)
            return f"in each {space} between {groups} {until_words(until, way)}"


def plain_place(at: Next | Each | Same | First | Last, way: Way) -> str:
    """Say a place of the edge without its preposition: `next 3 sts`, `each dc to last 2 sts`."""
    wording = way.wording
    match at:
        case Next(number, Noun(Thing.TURNING_CHAIN)) if wording.is_one(number):
            return f"top of {turning_chain(way)}"
        case Next(number, Noun(Thing.STITCH_OR_CHAIN) as noun) if not wording.is_one(number):
            many = f"{wording.number(number)} {wording.word('sts')}"
            return f"each {noun_words(noun, wording)} until you have {many}"
        case Next(number, noun):
            return _counted("next", number, noun, way)
        case First(number, noun):
            return _counted("first", number, noun, way)
        case Last(number, noun):
            return _counted("last", number, noun, way)
        case Same(noun, first):
            begun = (
                f" as {wording.word('beg')} {wording.word('ch')}" if first and way.worked else ""
            )
            return f"same {noun_words(noun, wording)}{begun}"
        case Each(noun, until) if noun.kind == "centre":
            return f"{noun_words(noun, wording)} of each group {until_words(until, way)}"
        case Each(noun, until, apart):
            each = "each" if wording.is_one(apart) else f"every {_apart(apart, way)}"
            rest = way.remaining and until == End() and noun == STITCH
            each = "each remaining" if rest and each == "each" else each
            return f"{each} {noun_words(noun, wording)} {until_words(until, way)}"


def _apart(number: Number, way: Way) -> str:
    other = way.wording.values(number) == (2,) or number == plain(2)
    return "other" if other else way.wording.ordinal(number) or way.wording.number(number)


def _skipped(number: Number, noun: Noun, way: Way) -> str:
    wording = way.wording
    if wording.is_one(number):
        return f"{wording.word('skipped')} {noun_words(noun, wording)}"
    return (
        f"{wording.number(number)} {wording.word('skipped')} {noun_words(noun, wording, many=True)}"
    )


def turning_chain(way: Way) -> str:
    """Name the chain a row or a round begins with."""
    return f"{'beg' if way.rounds else 'turning'} {way.wording.word('ch')}".replace(
        "beg ", f"{way.wording.word('beg')} "
    )


def _counted(which: str, number: Number, noun: Noun, way: Way) -> str:
    wording = way.wording
    if wording.is_one(number):
        the = "" if _is_centre(noun, wording) and which == "next" else f"{which} "
        return f"{the}{noun_words(noun, wording)}"
    each = "each of " if way.many else ""
    return f"{each}{which} {wording.number(number)} {noun_words(noun, wording, many=True)}"


def _is_centre(noun: Noun, wording: Wording) -> bool:
    """Tell whether a place is called the centre, of which there is no next one."""
    corner = noun.thing is Thing.SPACE and noun.kind == "corner"
    return noun.kind == "centre" or (wording.centred and corner)


def until_words(until: Until, way: Way) -> str:
    """Say how far: `across`, `to last 3 sts`, `to next ch-2 sp`."""
    wording = way.wording
    match until:
        case End():
            if way.wording.aloud:
                return "to the end of the round" if way.rounds else "to the end of the row"
            return "around" if way.rounds else "across"
        case ToLast(number, noun):
            if noun.thing is Thing.TURNING_CHAIN:
                return f"to {turning_chain(way)}"
            last = "the last" if wording.aloud else "last"
            if wording.is_one(number):
                return f"to {last} {noun_words(noun, wording)}"
            return f"to {last} {wording.number(number)} {noun_words(noun, wording, many=True)}"
        case To(noun, before) if _is_centre(noun, wording):
            return f"to {_before(before, way)}{noun_words(noun, wording)}"
        case To(noun, before, nth):
            which = "next" if wording.is_one(nth) else wording.ordinal(nth) or "next"
            return f"to {_before(before, way)}{which} {noun_words(noun, wording)}"
        case ToMarked(_, before):
            return f"to {_before(before, way)}marked {wording.word('st')}"


def _before(number: Number, way: Way) -> str:
    if number == NONE:
        return ""
    sts = way.wording.word("st" if way.wording.is_one(number) else "sts")
    return f"{way.wording.number(number)} {sts} before "


def nth_words(at: Nth, way: Way) -> str | None:
    """Say a place by ordinal: `4th ch from hook`, `6th and 12th st`, `2nd ch of beg ch`."""
    wording = way.wording
    ordinals = [wording.ordinal(one) for one in at.ordinals]
    if not ordinals or None in ordinals:
        return None
    *most, last = [one for one in ordinals if one]
    which = f"{', '.join(most)} and {last}" if most else last
    noun = noun_words(at.noun, wording, many=bool(most))
    match at.origin:
        case Origin.HOOK:
            return f"{which} {noun} from hook"
        case Origin.HERE:
            return f"next {which} {noun}" if not most else None
        case Origin.TURNING_CHAIN:
            return f"{which} {noun} of {turning_chain(way)}"
        case Origin.EDGE:
            edge = " of previous row" if at.noun.thing is Thing.CHAIN else ""
            return f"{which} {noun}{edge}"


def _below(at: Below, way: Way) -> str:
    wording = way.wording
    row = "row" if wording.is_one(at.rows) else "rows"
    deep = f"{wording.number(at.rows)} {row} below"
    # "around front post ..." would be taken for the side of the post, and not for the stitch.
    if isinstance(at.at, Next) and at.at.noun.thing is Thing.SPACE:
        return f"{way.lead}{wording.word('skipped')} {noun_words(at.noun, wording)} {deep}"
    posted = wording.full and at.at.noun == STITCH and at.noun.kind[:2] in {"fp", "bp"}
    if way.around and at.noun != STITCH and not posted:
        return f"around {noun_words(at.noun, wording)} {deep} {plain_place(at.at, way)}"
    named = _with_noun(at.at, at.noun)
    return f"{way.lead}{plain_place(named, way)} {deep}"


def _with_noun(
    at: Next | Each | Same | First | Last, noun: Noun
) -> Next | Each | Same | First | Last:
    match at:
        case Next(number):
            return Next(number, noun)
        case Each(until=until):
            return Each(noun, until)
        case Same():
            return Same(noun)
        case First(number):
            return First(number, noun)
        case Last(number):
            return Last(number, noun)


def _opposite(at: OppositeSide, way: Way) -> str:
    wording = way.wording
    if way.opposite:
        lone = isinstance(at.at, Next) and wording.is_one(at.at.number)
        return f"in next {wording.word('ch')}" if lone else f"in {plain_place(at.at, way)}"
    side = f"along opposite side of {wording.word('ch')}"
    if isinstance(at.at, Each):
        if at.at.until == End():
            return f"in each {wording.word('ch')} {side}" if way.many else side
        return f"in each {wording.word('ch')} {until_words(at.at.until, way)} {side}"
    chains = noun_words(Noun(Thing.CHAIN), wording, many=not wording.is_one(at.at.number))
    number = "" if wording.is_one(at.at.number) else f"{wording.number(at.at.number)} "
    return f"in underside of next {number}{chains}"


def row_ends_words(at: RowEnds, stitch: str, way: Way) -> str:
    """Say how many go into each row end: `2 sc in each dc row end and 1 sc in each sc row end`."""
    wording = way.wording
    parts = []
    for index, (noun, number) in enumerate(at.rates):
        each = "" if wording.is_one(number) and not index else f"{wording.number(number)} "
        where = "row end" if noun == STITCH else f"{noun_words(noun, wording)} row end"
        parts.append(f"{each}{stitch} in each {where}")
    if not wording.is_one(at.over):
        return f"{wording.number(at.rates[0][1])} {stitch} for every {wording.number(at.over)} rows"
    along = "up one edge and down the other, " if at.edges > 1 else ""
    words = f"{along}{' and '.join(parts)}"
    if at.stated is None:
        return words
    return f"{words} ({wording.number(at.stated)} {stitch} per edge)"


def evenly_words(at: Evenly, stitch: str, way: Way) -> str:
    """Say a count with free spacing: `work 42 sc evenly along lower edge`."""
    if at.change == "in all" and at.count is not None:
        made = f"{way.wording.number(at.count)} {stitch}"
        return f"{stitch} evenly{_along(at, way)} until you have {made}"
    if at.change:
        verb = "increasing" if at.change == "increased" else "decreasing"
        count = "" if at.count is None else f" {way.wording.number(at.count)} {_sts(at, way)}"
        return f"{stitch} {until_words(End(), way)}, {verb}{count} evenly"
    count = "" if at.count is None else f" {way.wording.number(at.count)}"
    made = f"work{count} {stitch}" if count else stitch
    return f"{made} evenly{_along(at, way)}{_parts(at, way)}"


def _along(at: Evenly, way: Way) -> str:
    """Say along what: the author's words, in full where they are heard."""
    if not at.along:
        return ""
    wording = way.wording
    return f" {wording.told(at.along) if wording.aloud else wording.kept(at.along)}"


def _parts(at: Evenly, way: Way) -> str:
    """Say how a count is made up: ` (24 up right front, 18 across back neck)`."""
    if not at.parts:
        return ""
    told = ", ".join(f"{way.wording.number(n)} {way.wording.kept(along)}" for n, along in at.parts)
    if way.wording.aloud:
        return f", namely {told},"
    return f" [{told}]" if "(" in told else f" ({told})"


def _sts(at: Evenly, way: Way) -> str:
    return way.wording.word(
        "st" if at.count is not None and way.wording.is_one(at.count) else "sts"
    )
