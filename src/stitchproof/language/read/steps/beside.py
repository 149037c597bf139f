"""What stands between a stitch and its place and says nothing of it: "loosely", "(see note)"."""

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.amounts import ALONG
from stitchproof.language.read.steps.one_place import FOUNDATIONS, pass_end
from stitchproof.language.read.steps.places import IN
from stitchproof.language.read.steps.reader import OPENING, Reader
from stitchproof.language.read.steps.stitches import StitchName, read_stitch, starts_stitch


def pass_beside(reader: Reader, named: StitchName) -> None:
    """Go past what stands between a stitch and its place and says nothing of it."""
    reader.accept_any(word_set("loosely"))
    reader.take(reader.text() == "spaced" and reader.text(1) in ALONG | {"evenly"})
    _pass_pointer(reader)
    _pass_replaced(reader)
    if named.stitch.kind in FOUNDATIONS:
        pass_end(reader)


def _pass_pointer(reader: Reader) -> None:
    """Go past "(see Abbreviations)", "(not 3)" between a stitch and its place."""
    close = reader.partner[reader.at] if reader.text() in OPENING else -1
    named = close == reader.at + 2 and starts_stitch(reader, 1)  # "5 foundation dc (fdc)"
    if close > 0 and (named or reader.text(1) in {"see", "refer", "note", "not", "instead"}):
        reader.take(close + 1 - reader.at)


def _pass_replaced(reader: Reader) -> None:
    """Go past "instead of 3 tr" between a stitch and its place."""
    start = reader.at
    if not reader.accept("instead", "of"):
        return
    reader.take(reader.number() is not None)
    if read_stitch(reader) is None or reader.text() not in IN:
        reader.at = start
