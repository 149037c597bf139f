"""How often: "4 times", "x 4", "3 more times", "around", "to last 4 sts"."""

from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.language.number import Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import ACROSS, read_until, starts_until
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Reader
from stitchproof.language.read.steps.spaces_ahead import SPACES
from stitchproof.language.tree import AsLong, Often, Times

_TIMES: Final = word_set("time times x")
_SPELLED: Final = word_set("once twice thrice")
_MORE: Final = word_set("more additional further extra")
_TOTAL: Final = word_set("total all altogether")


@dataclass(frozen=True, slots=True)
class HowOften:
    """How often, and what the words say of the first working.

    Attributes
    ----------
    often : Often
        How often.
    open : bool
        The words leave open whether the first working is in the number.
    total : bool
        The words say that it is.
    """

    often: Often
    open: bool = False
    total: bool = False


def starts_often(reader: Reader, ahead: int = 0) -> bool:
    """Tell whether words of repetition begin at the cursor."""
    text = reader.text(ahead)
    if text in {"x", "*"} and reader.number(ahead + 1) is not None:
        return True
    if text in {"a", "for", "another"}:
        return _later_times(reader, ahead + 1)
    if text == "in" and reader.text(ahead + 1) in _EACH:
        return bool(_in_each(reader, ahead))
    if reader.number(ahead) is not None:
        if text in _SPELLED or text.startswith("twice"):
            return True
        after = reader.text(ahead + 1)
        return after in _TIMES or (after in _MORE and reader.text(ahead + 2) in _TIMES)
    return ahead == 0 and starts_until(reader)


def _later_times(reader: Reader, ahead: int) -> bool:
    """Tell whether "a total of 6 times" or "another 4 times" goes on from here."""
    if reader.text(ahead) in {"a", "further", "additional"}:
        ahead += 1
    if reader.text(ahead) == "total":
        return reader.text(ahead + 1) == "of"
    return reader.number(ahead) is not None and reader.text(ahead + 1) in _TIMES | _MEMBERS


_MEMBERS: Final = word_set("arms legs petals points spokes rays leaves tentacles sides corners")
_EACH: Final = word_set("each every")


def in_spaces_left(reader: Reader) -> bool:
    """Tell whether "in each remaining ch-1 sp" stands there: a place that takes a whole bracket."""
    if reader.text() != "in" or reader.text(1) not in _EACH:
        return False
    length = _in_each(reader, 0)
    return length > 0 and reader.text(length - 1) in SPACES


def _in_each(reader: Reader, ahead: int) -> int:
    """Count the tokens of "in each remaining st" behind a repeat: to the end."""
    rest = reader.text(ahead + 2) in {"remaining", "rem", "other"}
    end = _places_ahead(reader, ahead + 3)
    return end - ahead if rest and end > ahead + 3 else 0


def _places_ahead(reader: Reader, start: int) -> int:
    """Find where "ch-6 loop around" ends that begins some way ahead; that way for other words."""
    i = start
    while i < start + 6 and (reader.text(i) == "-" or reader.text(i) not in _ENDS):
        i += 1
    return i if reader.text(i - 1) in _PLACES | {"around", "across"} else start


_SIDES: Final = word_set("side corner petal point")


def read_in_every(reader: Reader) -> HowOften | None:
    """Read "in each ch-6 loop around" behind "rep from *": as often as it is there, to the end."""
    for_side = reader.text() == "for" and reader.text(2) in _SIDES
    if reader.text(1) not in _EACH or not (reader.text() == "in" or for_side):
        return None
    end = 3 if for_side else _places_ahead(reader, 2)
    if end == 2:  # noqa: PLR2004 - no place is named
        return None
    reader.take(end)
    return HowOften(AsLong())


_ENDS: Final = STOPS | CLOSING | {""}
_PLACES: Final = word_set("st sts stitch stitches sc dc hdc tr sp space loop lp")


def read_often(reader: Reader) -> HowOften | None:
    """Read the words of repetition at the cursor."""
    reader.take(reader.text() in ACROSS and _counted_ahead(reader))
    if starts_until(reader):
        until = read_until(reader)
        return None if until is None else HowOften(AsLong(until))
    if reader.text() == "in" and reader.text(1) in _EACH:
        reader.take(_in_each(reader, 0))
        return HowOften(AsLong())
    members = reader.text() == "for" and reader.text(2) in _MEMBERS
    if reader.text() in {"x", "*"}:
        reader.take()
    reader.accept("for")
    total = _total(reader)
    more = bool(reader.accept_any(word_set("another")))
    further = int(reader.text() == "a")
    if reader.text(further) in {"further", "additional"} and reader.number(further + 1) is not None:
        reader.take(further + 1)
        more = True
    number = reader.number()
    if number is None:
        return None
    once = reader.text() == "once"
    reader.take()
    more = _counted(reader) or more
    reader.accept_any(_MEMBERS)
    total = _total(reader) or total or members
    _pass_extent(reader)
    if total:
        return HowOften(Times(number), total=True)
    return HowOften(Times(number, more=more), open=not more and not once and not _small(number))


def _counted_ahead(reader: Reader) -> bool:
    """Tell whether "3 more times" stands behind "around", which then says nothing of how often."""
    return reader.number(1) is not None and reader.text(2) in _TIMES | _MORE


def _counted(reader: Reader) -> bool:
    """Read "more times", "times more" and tell whether it said more."""
    more = bool(reader.accept_any(_MORE))
    reader.accept_any(_TIMES)
    return bool(reader.accept_any(_MORE)) or more


def _total(reader: Reader) -> bool:
    if reader.accept("a", "total", "of") or reader.accept("total", "of"):
        return True
    if reader.text() == "in" and reader.text(1) in _TOTAL:
        reader.take(2)
        return True
    return bool(reader.accept("total"))


def _pass_extent(reader: Reader) -> None:
    if reader.text() in {"across", "around"}:
        reader.take()


def _small(number: Number) -> bool:
    """Tell whether some size does it 0 times or once: then the first working is not counted."""
    if not isinstance(number.value, tuple):
        return False
    return any(value in {0, 1} for value in number.value)
