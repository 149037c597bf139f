"""How far: "across", "to end of row", "to last 3 sts", "to next ch-2 sp", "to marked st"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.centres import read_centre, read_centre_space
from stitchproof.language.read.steps.nouns import (
    BEGINNING,
    STITCHES,
    TURNING_CHAIN,
    chain_space_ahead,
    read_noun,
)
from stitchproof.language.read.steps.nth_end import of_nth_group, ordinal_here
from stitchproof.language.read.steps.parts import accept_of_part, accept_part
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader
from stitchproof.language.read.steps.remaining import (
    LEFT_OVER,
    REMAIN,
    counted_end,
    is_before,
    none_left,
    remains,
    space_remains,
)
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.unnamed_groups import pass_between
from stitchproof.language.tree import CHAIN, STITCH, End, Noun, Thing, To, ToLast, ToMarked, Until

ACROSS: Final = word_set("across around acros arround thereafter")
_TO: Final = word_set("to until till through")
_ROWS: Final = word_set("row rnd round")
_ENDS: Final = word_set("end ends edge")
_FAR_EDGES: Final = word_set("armhole neck side front outer shoulder other far opposite left right")
_ENDED: Final = word_set("the this row rnd round rounds rows ch chain foundation")
_NAMED_ENDS: Final = word_set(
    "last next first 1st marked marker m tch corner point tip spine center centre middle underarm"
    " buttonhole"
)
_MARKERS: Final = word_set("marker markers m pm")
_MARKER_NAMES: Final = word_set(
    "side raglan underarm centre center dart corner sleeve other thumb gusset shoulder neck back"
)


def starts_until(reader: Reader) -> bool:
    """Tell whether words of extent begin at the cursor."""
    text = reader.text()
    if text in ACROSS or _all_of_it(reader) or _side_ahead(reader):
        return True
    if _all_the_way(reader):
        return True
    if text in {"all", "completely", "back", "up"}:
        return reader.text(1) in ACROSS or (text == "up" and reader.text(1) in _TO)
    if text not in _TO:
        return False
    if none_left(reader) or _reaching(reader) > 1:
        return True
    counted = 2 if reader.text(1) == "only" else 1
    if reader.number(counted) is not None and counted_end(reader, counted + 1):
        return True
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text(1) == "within" or _chain_of_length(reader, ahead) or _far_end(reader, ahead):
        return True
    follows = reader.text(ahead)
    if reader.number(ahead) is not None:
        behind = ahead + 2 if reader.text(ahead + 1) == "-" else ahead + 1
        return reader.text(behind) in CHAINS and _is_space(reader, behind)
    marked = follows in _MARKER_NAMES and reader.text(ahead + 1) in _MARKERS
    if marked or follows in _ENDS | _NAMED_ENDS | BEGINNING or reader.ordinal(ahead) is not None:
        return True
    the_one = follows in {"sp", "space"} and _closes(reader, ahead + 1)  # "sc in each st to sp"
    return the_one or (follows in CHAINS and _is_space(reader, ahead))


def _far_end(reader: Reader, ahead: int) -> bool:
    """Tell whether "armhole edge", "far end" stands some way ahead."""
    return reader.text(ahead) in _FAR_EDGES and reader.text(ahead + 1) in _ENDS


def _chain_of_length(reader: Reader, ahead: int) -> bool:
    """Tell whether "ch-4", "4-ch" closes the words: the turning chain, by its length."""
    chain, number = (ahead, ahead + 2) if reader.text(ahead) in CHAINS else (ahead + 2, ahead)
    named = reader.text(chain) in CHAINS and reader.number(number) is not None
    return named and reader.text(ahead + 1) == "-" and _closes(reader, ahead + 3)


def _all_the_way(reader: Reader) -> int:
    """Count the tokens of "all the way" before "across", of "the whole way round" with it."""
    ahead = 1 if reader.text() == "all" else 0
    if reader.text(ahead) != "the":
        return 0
    ahead += 1
    whole = reader.text(ahead) in {"whole", "entire"}
    ahead += whole
    if reader.text(ahead) != "way" or not (whole or reader.text() == "all"):
        return 0
    follows = reader.text(ahead + 1)
    if follows == "round":
        return ahead + 2
    return ahead + 1 if follows in ACROSS | _TO else 0


def _pass_the_way(reader: Reader) -> bool:
    """Go past "all the way", "all", "back" before an extent; tell whether it said one itself."""
    way = _all_the_way(reader)
    reader.take(way)
    if not way:
        reader.accept_any(word_set("all completely back up"))
    return way > 0 and reader.tokens[reader.at - 1].text == "round"


def _reaching(reader: Reader) -> int:
    """Count the tokens of "until you reach", "till reaching", "until you get to" and of "to"."""
    if reader.text(1) == "reaching":
        return 2
    if reader.text(1) == "and" and reader.text(2) == "including":
        return 3  # "up to and including the marked st"
    if reader.text(1) == "there" and reader.text(2) in {"are", "is"}:
        ahead = 4 if reader.text(3) == "only" else 3
        counted = reader.number(ahead) is not None and remains(reader, ahead + 1)
        return ahead if counted else 1
    if reader.text(1) != "you":
        return 1
    if reader.text(2) == "have" and reader.number(3) is not None:
        return 3 if remains(reader, 4) else 1
    ahead = 3 if reader.text(2) in {"get", "come", "are", "reach"} else 0
    if reader.text(3) in {"to", "at"} and ahead:
        ahead += 1
    return ahead


def _closes(reader: Reader, ahead: int) -> bool:
    text = reader.text(ahead)
    return not text or text in STOPS or text in CLOSING


_SIDES: Final = word_set("the last first this next each remaining rem final other same")


def _side_ahead(reader: Reader) -> int:
    """Count the words of "along last side", "across side"; 0 if they do not stand there."""
    ahead = 1
    while reader.text(ahead) in _SIDES:
        ahead += 1
    sided = reader.text() in {"along", "across"} and reader.text(ahead) in {"side", "sides"}
    follows = reader.text(ahead + 1)
    if not sided or follows not in STOPS | CLOSING | {"", "to", "until", "and"}:
        return 0
    return ahead + 1


def _along_ahead(reader: Reader) -> int:
    """Count the words of "along", "along the row"; 0 if they do not stand there."""
    if reader.text() != "along":
        return 0
    ahead = 2 if reader.text(1) == "the" else 1
    ahead += reader.text(ahead) in _ROWS
    return (
        ahead if _closes(reader, ahead) and (ahead == 1 or reader.text(ahead - 1) != "the") else 0
    )


def _round_ahead(reader: Reader) -> bool:
    """Tell whether "round" stands there for "around": "1 dc in each ch round", "each ch back"."""
    before = reader.tokens[reader.at - 1].text if reader.at else ""
    if reader.text() == "back":
        return before in CHAINS and _closes(reader, 1)
    if reader.text() != "round" or before in _ROUNDED:
        return False
    return reader.text(1) in STOPS | CLOSING | {""}


_ROUNDED: Final = word_set("the this each every next last of previous to rep repeat work same")


def _is_space(reader: Reader, ahead: int) -> bool:
    return any(reader.text(ahead + i) in {"sp", "sps", "space", "lp", "loop"} for i in range(1, 5))


def read_until(reader: Reader) -> Until | None:
    """Read the words of extent at the cursor; None for words that are not known."""
    side = _side_ahead(reader)
    if side:
        reader.take(side)
        return read_until(reader) if starts_until(reader) else End()
    whole = _all_of_it(reader)
    if whole:
        reader.take(whole)
        accept_part(reader)  # "all the way round the cloth"
        return End()
    if _pass_the_way(reader):
        return End()
    if reader.accept_any(ACROSS | {"along"}):
        return _across(reader)
    if reader.text() not in _TO:
        return None
    none = none_left(reader)
    if none:
        reader.take(none)
        return End()
    reader.take(max(_reaching(reader), 1))
    reader.accept("only")
    number = reader.number()
    if number is not None and (remains(reader, 1) or space_remains(reader, 1)):
        noun = STITCH if reader.text(1) in REMAIN else read_noun_behind(reader)
        reader.take()
        reader.pass_over(REMAIN | LEFT_OVER)
        return None if noun is None else ToLast(number, noun)
    if number is not None and is_before(reader, 1):
        return _before(reader, number)
    if reader.accept("within") and number is None and reader.number() is not None:
        return _within(reader)
    reader.accept("the")
    return _end(reader)


def _all_of_it(reader: Reader) -> int:
    """Count the tokens of "round", "along the edge", "all the way round"; 0: none of them."""
    if _round_ahead(reader):
        return 1
    for words in _WHOLE:
        if reader.sees(*words):
            return len(words)
    return _along_ahead(reader)


_WHOLE: Final = (
    ("all", "round"),
    ("all", "the", "way", "round"),
    ("all", "along"),
    ("from", "beginning", "to", "end"),
    ("from", "start", "to", "end"),
)


def _within(reader: Reader) -> Until | None:
    """Read "4 sts of end", "last 4 sts" behind "to within"."""
    number = reader.number()
    noun = read_noun_behind(reader)
    reader.take()
    if noun is None or number is None or not reader.accept_any(word_set("of from")):
        return None
    reader.accept("the")
    if not reader.accept_any(_ENDS):
        return None
    _of_row(reader)
    return ToLast(number, noun)


def _before(reader: Reader, number: Number) -> Until | None:
    """Read "2 sts before marker", "1 st before next ch-2 sp"."""
    reader.take(3)
    return _stopping(reader, number)


def _stopping(reader: Reader, number: Number) -> Until | None:
    """Read the place behind "before": so many stitches short of it."""
    reader.pass_over(word_set("the each a"))
    until = _to_noun(reader)
    match until:
        case To() | ToMarked():
            return replace(until, before=number)
        case _:
            return None


def read_noun_behind(reader: Reader) -> Noun | None:
    """Read the noun behind a number, leaving the cursor at its last word."""
    reader.take()
    noun = read_noun(reader)
    reader.at -= 1
    return noun


def _pass_all_sides(reader: Reader) -> None:
    """Go past "all 4 sides", "all sides" behind "around"."""
    ahead = 1 if reader.text() == "all" else 0
    ahead += ahead and reader.number(ahead) is not None
    if ahead and reader.text(ahead) in {"sides", "edges"}:
        reader.take(ahead + 1)


def _across(reader: Reader) -> Until | None:
    accept_part(reader)
    reader.take(2 if reader.text() in REMAIN and reader.text(1) in STITCHES else 0)
    _pass_all_sides(reader)
    if reader.text() in _TO and starts_until(reader):
        return read_until(reader)
    if reader.text() == "in" and reader.text(1) in {"pattern", "patt"}:
        return None
    if reader.text() in {"the", "entire", "whole"} | _ROWS:
        reader.pass_over(word_set("the entire whole"))
        if not reader.accept_any(_ROWS):
            return None
    return End()


def _end(reader: Reader) -> Until | None:
    reader.take(_far_end(reader, 0))
    if reader.text() == "end" and reader.text(1) in CHAINS:
        reader.take()
        end = read_noun(reader)
        return None if end is None else ToLast(ONE, end)  # "to end ch", which is worked apart
    if reader.accept_any(_ENDS):
        _of_row(reader)
        return End()
    if reader.text() == "last" and reader.text(1) in _MARKERS:
        reader.take(2)
        return ToMarked()  # of those that lie ahead there is one
    if reader.accept("last"):
        number = ONE
        if reader.number() is not None and not chain_space_ahead(reader):
            number = reader.number() or ONE
            reader.take()
        if _closed(reader):
            return ToLast(number)
        noun = read_noun(reader)
        if noun is not None and reader.accept("before"):  # "to last st before ch-2 sp"
            return _stopping(reader, number)
        return None if noun is None else ToLast(number, noun)
    if reader.text() in _MARKERS:
        reader.take()
        return ToMarked()
    if reader.text() in {"beginning", "beg", "start"} and _closes(reader, 1):
        reader.take()  # of a round: where it ends
        return End()
    return _to_noun(reader)


_UNDERARMS: Final = word_set("underarm underarms")


def _to_noun(reader: Reader) -> Until | None:
    named_next = bool(reader.accept_any(word_set("next following first 1st")))
    if reader.text(1) in _MARKERS and (reader.ordinal() is not None or _which(reader)):
        reader.take()  # the second marker, the side marker is the next behind the first
    if reader.text() in _MARKERS:
        reader.take()
        return ToMarked()
    nth = ordinal_here(reader)
    if reader.text() in _UNDERARMS and _closes(reader, 1):
        reader.take()
        return To(Noun(Thing.CHAIN_SPACE), nth=nth or ONE)  # the chains that were made there
    noun = read_centre(reader) or read_centre_space(reader) or read_noun(reader)
    if noun is None:
        return None
    if noun.thing is Thing.MARKED:
        return ToMarked()
    if noun == TURNING_CHAIN:
        return ToLast(ONE, TURNING_CHAIN)
    nth = nth or of_nth_group(reader, noun)
    pass_between(reader, noun)
    if noun.thing in {Thing.SPACE, Thing.CHAIN_SPACE}:
        accept_of_part(reader)  # "the ch-2 sp at the spine"
    if nth is not None:
        return None if noun == CHAIN else To(noun, nth=nth)
    return _next(noun, named_next=named_next)


def _which(reader: Reader) -> bool:
    """Tell whether "side", "raglan", "underarm" stands there, which names a marker."""
    return reader.text() in _MARKER_NAMES


def _next(noun: Noun, *, named_next: bool) -> Until | None:
    """Take a noun for an end; a plain "to next st" stops at once and says nothing."""
    if noun == STITCH and not named_next:
        return None
    return None if noun == STITCH else To(noun)


def _of_row(reader: Reader) -> None:
    if not reader.sees("of"):
        return
    ahead = 1
    while reader.text(ahead) in _ENDED:
        ahead += 1
    if reader.text(ahead - 1) in _ROWS | CHAINS:
        reader.take(ahead)


def _closed(reader: Reader) -> bool:
    return reader.ended() or reader.text() in STOPS or reader.text() in CLOSING
