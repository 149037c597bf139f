"""Stitches listed behind the one place they go into: "in next sp work 2 dc, ch 2, 2 dc"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import OPENING, STOPS, Reader
from stitchproof.language.read.steps.remarks import is_remark
from stitchproof.language.read.steps.spaces_ahead import CHAINS
from stitchproof.language.read.steps.stitches import read_stitch, starts_stitch
from stitchproof.language.tree import Chain, Group, Make, Same, Step, Steps, Target
from stitchproof.language.walk import put_at

_COUNTS: Final = word_set("count counts counted")
_MADE: Final = word_set("made formed completed worked")  # "(petal made)"


def read_listed(reader: Reader, target: Target, start: int) -> Steps | None:
    """Read "2 dc, ch 2, 2 dc" without brackets behind its place, as far as no other place comes."""
    body: list[Step] = []
    while True:
        before = reader.at
        if body and not (reader.accept(",") or reader.accept("and")):
            break
        step = _bare_item(reader)
        if step is None or not _item_ends(reader):
            reader.at = before  # the next step has a place of its own
            break
        body.append(step)
    match body:
        case []:
            reader.take()
            return None
        case [Make() as make]:
            return (replace(make, at=target, place=reader.span(start)),)
        case [Group() as group]:
            return (replace(group, at=target, place=reader.span(start)),)
        case _:
            return (Group(tuple(body), target, "", reader.span(start)),)


def _bare_item(reader: Reader) -> Step | None:
    """Read "2 dc" or "ch 2" alone, as it stands in one place with others."""
    start = reader.at
    number = reader.number()
    if number is not None:
        reader.take()
        reader.accept("-")
    if reader.accept_any(CHAINS):
        reader.accept("-")
        after = None if number is not None else reader.number()
        if after is not None:
            reader.take()
        return Chain(number or after or ONE, place=reader.span(start))
    named = read_stitch(reader) if starts_stitch(reader) else None
    if named is None:
        return None
    if named.special is not None and named.special.body is not None:
        span = reader.span(start)
        return Group(put_at(named.special.body, span), Same(), named.special.name, span)
    return Make(named.stitch, number or ONE, Same(), reader.span(start))


def _item_ends(reader: Reader) -> bool:
    return reader.ended() or reader.text() in STOPS | {"and", "then"} or _beside(reader)


def _beside(reader: Reader) -> bool:
    """Tell whether "(petal made)", "(beg 3 chs count as dc)" stands there: it says no more work."""
    close = reader.partner[reader.at] if reader.text() in OPENING else -1
    if close < 0:
        return False
    words = {token.text for token in reader.tokens[reader.at : close]}
    last = reader.tokens[close - 1].text in _MADE
    return last or bool(words & _COUNTS) or is_remark(reader, reader.at + 1, close)
