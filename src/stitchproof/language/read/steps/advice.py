"""Advice beside the work, up to what is worked again."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.parts import part_length
from stitchproof.language.read.steps.reader import OPENING, Frame, Reader
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import starts_stitch
from stitchproof.language.tree import (
    FastenOff,
    Remark,
    Steps,
)


def read_advice(reader: Reader, frame: Frame) -> Steps | None:
    """Keep advice up to the next stop: "being careful not to twist"."""
    start = reader.at
    _ = frame
    while not reader.ended() and reader.text() not in {",", ";", ".", ":", "(", "[", "–", "—"}:
        if reader.at > start and works_on(reader):
            break
        reader.take()
    return (Remark(reader.words(start), reader.span(start)),)


def read_as(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "as before", "as usual" as a remark: how it is done was said."""
    ends = not reader.text(2) or reader.text(2) in _ENDS
    return read_advice(reader, frame) if reader.text(1) in _AS_BEFORE and ends else None


_AS_BEFORE: Final = word_set("before usual always established set")


def read_so(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "so 4 rounds in all", "so that a sc sits on a dc" as a remark: others tell the work."""
    told = reader.number(1) is not None and reader.text(2) in ROWS
    if told:
        return read_advice(reader, frame)
    start, ahead = reader.at, 1
    while reader.text(ahead) and reader.text(ahead) not in {",", ".", ";", "!"}:
        if reader.number(ahead) is not None:
            return None
        ahead += 1
    if reader.text(1) not in _TO_WHAT_END:
        return None
    reader.take(ahead)
    return (Remark(reader.words(start), reader.span(start)),)


_TO_WHAT_END: Final = word_set("that it the you they your there this as we")


def read_use(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "use the tail to close the gap" as a remark; "use the smaller hook" is none."""
    words = {reader.text(i) for i in range(1, _FAR)}
    return read_advice(reader, frame) if words & _ENDS_OF_YARN and "to" in words else None


_ENDS_OF_YARN: Final = word_set("tail tails end ends needle")


def read_every_row(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "each round begins with 1 ch and ends with a ss" as a remark: the rows show it."""
    if reader.text(1) not in ROWS or reader.text(2) not in _TELLS:
        return None
    start = reader.at
    _ = frame
    reader.take_until({".", ";", ":"})
    return (Remark(reader.words(start), reader.span(start)),)


_TELLS: Final = word_set("begins starts ends is has should closes")


def read_shaping_title(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "decrease at the start:", "inc 1 st at each end (2 dc in first st, ...)" as a remark.

    What it is stands behind it.
    """
    _ = frame
    counted = 1 if reader.number(1) is not None else 0
    counted += counted and reader.text(2) in STITCHES
    if reader.text() not in _SHAPING or reader.text(1 + counted) not in {"at", "on", "for"}:
        return None
    length = 2 + counted
    while reader.text(length) in _WHERE_SHAPED:
        length += 1
    told = reader.text(length) == ":"
    inside = length + 1 + (reader.number(length + 1) is not None)
    told = told or (reader.text(length) in OPENING and starts_stitch(reader, inside))
    if not told:
        return None
    start = reader.at
    reader.take(length)
    words = f"{reader.words(start)}:"
    reader.accept(":")
    return (Remark(words, reader.span(start)),)


_SHAPING: Final = word_set("decrease increase dec inc shape shaping")
_WHERE_SHAPED: Final = word_set(
    "the start beginning beg end this row rnd round of neck armhole edge side left right both each"
    " ends sides other"
)


def read_pull(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "pull ring closed", "pull tail tight" as a remark; a loop that is drawn up is work."""
    words: list[str] = []
    while len(words) < _FAR and reader.text(len(words)) not in _ENDS:
        words.append(reader.text(len(words)))
    shut = words[-1:] and words[-1] in _SHUT and not set(words) & _OPEN
    if shut:
        return read_advice(reader, frame)  # "pull the loop closed": that of a ring of yarn
    cut = any(isinstance(step, FastenOff) and step.do for step in frame.steps)
    if cut and "through" in words:
        return read_advice(reader, frame)  # the end of the yarn, through what is left open
    return None if set(words) & _DRAWN or not set(words) & _CLOSING else read_advice(reader, frame)


def read_to_match(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "complete second side to match" as a remark: it says nothing that is not said before."""
    words: list[str] = []
    while len(words) < _FAR and reader.text(len(words)) not in _ENDS:
        words.append(reader.text(len(words)))
    return read_advice(reader, frame) if set(words) & _ALIKE else None


_ALIKE: Final = word_set("match same mirror likewise")
_ENDS: Final = frozenset(("", ",", ";", ".", ":", "(", "["))
_SHUT: Final = word_set("closed shut tight tightly snug taut")
_OPEN: Final = word_set("up through hook next each last")
_DRAWN: Final = word_set("loop loops lp lps up through hook")
_CLOSING: Final = word_set("ring tail tight tightly closed close snug yarn end")
_FAR: Final = 8  # words
_HELD: Final = word_set(
    "behind back front petals tail loose tension taut strands yarns double straight flat untwisted"
)


def read_keeping(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "keeping chains behind petals" as a remark: how it is worked, not where."""
    words = {reader.text(i) for i in range(_FAR)}
    if reader.text() == "keeping" and {reader.text(1), reader.text(2)} & {"marker", "markers"}:
        start = reader.at
        reader.take_until({",", ";", "."})
        return (Remark(reader.words(start), reader.span(start)),)
    if reader.text() == "hold" and reader.text(1) in {"the", "both", "pieces", "it"}:
        return read_advice(reader, frame)
    return read_advice(reader, frame) if words & _HELD else None


def works_another(reader: Reader) -> bool:
    """Tell whether "a second strap on the last sts", "the other side to match" stands there."""
    length = part_length(reader)
    words = {reader.text(i) for i in range(length)}
    return bool(words & _ANOTHER) and reader.text(length) in _WHERE_TO


_ANOTHER: Final = word_set("second 2nd other another third")
_WHERE_TO: Final = word_set("on over across at to in the same")


def works_on(reader: Reader) -> bool:
    """Tell whether stitches follow "and": "rotate and work 12 sc", "fold and sc in next st"."""
    if reader.text() not in {"and", "then"}:
        return False
    if reader.text(1) in _JOINERS:
        return True
    ahead = 2 if reader.text(1) in {"work", "make"} else 1
    if reader.number(ahead) is not None:
        return starts_stitch(reader, ahead + 1) or reader.text(ahead + 1) in CHAINS
    along = reader.text(ahead) in {"in", "along", "on", "across", "into"}
    return starts_stitch(reader, ahead) or (ahead > 1 and along)


_JOINERS: Final = word_set("join rejoin attach")


def read_before(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "before turning" as a remark: when something is done, not what."""
    start, last = reader.at, frame.steps[-1] if frame.steps else None
    said = read_advice(reader, frame) if reader.text(1) in _DOING else None
    if said is None or not isinstance(last, Remark):
        return said
    words, place = (
        reader.words(start),
        reader.span(start),
    )
    frame.steps[-1] = Remark(f"{last.words}, {words}", last.place.to(place))
    return ()


_DOING: Final = word_set("turning joining fastening you")


def read_purpose(reader: Reader, frame: Frame) -> Steps | None:
    """Keep "to form last loop", "to join" as a remark: what it names was worked already."""
    if reader.text(1) not in _PURPOSES:
        return None
    return read_advice(reader, frame)


_PURPOSES: Final = word_set(
    "form begin start complete finish close even hide join level smooth disguise soften shape"
    " dec decrease inc increase"
)
