"""Stitches that were skipped and are worked later: "skipped st", "each of 3 skipped sts"."""

from typing import Final

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import STITCHES, read_noun
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.tree import (
    SPACE,
    STITCH,
    Below,
    Facing,
    FastenOff,
    Leave,
    Next,
    Remark,
    Skip,
    Skipped,
    Thing,
    Turn,
)


def read_skipped(reader: Reader) -> Skipped | Below | None:
    """Read "skipped st", "each of 3 skipped sts", "2 sts just skipped": those left open behind."""
    if reader.ordinal() is not None and reader.text(1) in _SKIPPED:
        nth = reader.ordinal() or ONE
        reader.take(2)
        noun = read_noun(reader)
        plain = noun is not None and noun.thing in {Thing.STITCH, Thing.KIND}
        return Skipped(ONE, noun or STITCH, nth) if plain else None
    ahead = 0
    while reader.text(ahead) in _BEFORE_SKIPPED:
        ahead += 1
    number = reader.number(ahead)
    behind = ahead + 1 if number is not None else ahead
    last = behind + 1
    if reader.text(behind) in STITCHES and reader.text(last) in {"just", "skipped", "missed"}:
        ahead = behind + 1 if reader.text(last) == "just" else behind
        if reader.text(ahead + 1) not in _SKIPPED:
            return None
        reader.take(ahead + 2)
        return Skipped(number or ONE)
    you = _you_skipped(reader, behind)
    if you:
        reader.take(you)
        return Skipped(number or ONE)
    if reader.text(behind) not in _SKIPPED:
        return None
    reader.take(behind + 1)
    noun = read_noun(reader)
    if noun is None or noun.thing not in {Thing.STITCH, Thing.KIND, Thing.CHAIN}:
        return None
    _pass_position(reader)
    row = _of_row(reader)
    if reader.number() is not None and reader.text(2) in {"below", "down"}:
        rows = reader.number() or ONE
        reader.take(3)
        return Below(rows, Next(number or ONE, SPACE), noun)  # seen behind the chain before it
    return Skipped(number or ONE, STITCH if noun.thing is Thing.CHAIN else noun, row=row)


def _you_skipped(reader: Reader, ahead: int) -> int:
    """Count the tokens up to the end of "st you skipped", "one you just missed"; 0 for none."""
    ahead += reader.text(ahead) in STITCHES
    ahead += reader.text(ahead) == "that"
    if reader.text(ahead) not in {"you", "we", "you've"}:
        return 0
    ahead += 1
    while reader.text(ahead) in {"just", "have"}:
        ahead += 1
    return ahead + 1 if reader.text(ahead) in _SKIPPED else 0


_SKIPPED: Final = word_set("skipped missed")
_BEFORE_SKIPPED: Final = word_set("the each every of next first same last both")


_ROWS: Final = word_set("row rows rnd rnds round rounds")


def _of_row(reader: Reader) -> Number | None:
    """Read "of Row 2", "on Rnd 5": the row that they are of."""
    ahead = 2 if reader.text(1) == "the" else 1
    if reader.text() not in {"of", "from", "on", "in"} or reader.text(ahead) not in _ROWS:
        return None
    row = reader.number(ahead + 1)
    if row is None or reader.text(ahead + 2) in {"below", "down"}:
        return None
    reader.take(ahead + 2)
    return row


def _pass_position(reader: Reader) -> None:
    """Go past "before it", "behind it": where the stitch left open lies is known."""
    if reader.text() in word_set("before behind") and reader.text(1) in word_set("it them"):
        reader.take(2)
    elif reader.accept("just") and not reader.accept("skipped"):
        reader.accept("missed")


def unworked_before(frame: Frame) -> None:
    """Take "leave next 10 sts unworked" before new yarn in the same line for stitches skipped."""
    for i in range(len(frame.steps) - 1, -1, -1):
        step = frame.steps[i]
        if isinstance(step, Leave):
            if step.number is not None:
                frame.steps[i] = Skip(Next(step.number), step.place)
            return
        if not isinstance(step, Remark | FastenOff | Turn | Facing):
            return
