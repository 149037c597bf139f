"""Loops that hold for the rest of a line: "working in back loops only", "through front loops"."""

from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.nouns import read_noun
from stitchproof.language.read.steps.places import EACH
from stitchproof.language.read.steps.reader import OPENING, STOPS, Reader
from stitchproof.language.read.steps.remarks import is_remark
from stitchproof.language.read.steps.stitches import loop_length, read_loop, starts_stitch
from stitchproof.language.tree import Loop


def loop_for_line(reader: Reader, ahead: int) -> Loop | None:
    """Read "in the back loops only" where a stop follows: it holds for the rest of the line."""
    after = ahead + loop_length(reader, ahead)
    if reader.text(after) == "of" and reader.text(after + 1) in EACH and after > ahead:
        start = reader.at
        reader.take(ahead)
        loop = read_loop(reader)
        reader.take(2)
        read_noun(reader)
        if reader.text() in STOPS:
            return loop
        reader.at = start
        return None
    this_row = after
    while reader.text(this_row) in _THIS_ROW and after > ahead:
        this_row += 1
    ends = reader.text(_past_remark(reader, this_row)) in STOPS | {"", ")"}
    only = reader.text(after - 1) == "only" and _work_follows(reader, this_row)
    if after == ahead or not (ends or only):
        return None
    reader.take(ahead)
    loop = read_loop(reader)
    reader.take(this_row - after)
    return loop


def _past_remark(reader: Reader, ahead: int) -> int:
    """Look behind "(this makes a ridge)", which is read after the loops."""
    close = reader.partner[reader.at + ahead] if reader.text(ahead) in OPENING else -1
    if close < 0 or not is_remark(reader, reader.at + ahead + 1, close):
        return ahead
    return close + 1 - reader.at


def _work_follows(reader: Reader, ahead: int) -> bool:
    """Tell whether "1 dc in each st", "sc across" follows without a comma between."""
    counted = reader.number(ahead) is not None
    return starts_stitch(reader, ahead + counted)


_THIS_ROW: Final = word_set("for on this row rnd round throughout whole entire the across around")
