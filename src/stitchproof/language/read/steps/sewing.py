"""Seams: "whipstitch 20 sts from each outer edge", "row ends from hem to marker"."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from stitchproof.language.number import Number, NumberKind
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Frame, Reader
from stitchproof.language.read.steps.stitches import read_stitch, starts_stitch
from stitchproof.language.tree import Remark, SeamSides, SeamTops, Steps

_ROWS: Final = word_set("row rows")
_STITCHES: Final = word_set("st sts stitch stitches")


def read_seam(reader: Reader, frame: Frame) -> Steps | None:
    """Read a seam up to the end of its clause; the stitches left open may follow a semicolon.

    Seams in other words are kept as a remark: they make no stitches.
    """
    _ = frame
    start = reader.at
    reader.take()
    reader.accept("stitch")
    reader.accept("the")
    seam: Steps | None = None
    if reader.number() is not None:
        seam = _tops(reader, start)
    elif reader.text() in _ROWS and reader.text(1) in {"ends", "end"}:
        seam = _sides(reader, start)
    if seam is not None:
        return seam
    reader.take_until({".", ";"})
    return (Remark(reader.words(start), reader.span(start)),)


_HOW: Final = word_set(
    "together tog through closed working worked work both all the two of a along over in rs ws"
    " right wrong"
    " side sides facing layer layers thickness thicknesses piece pieces loop loops panels"
    " front back fronts outside inside to join with using same size hook neatly evenly crochet"
    " edge edges seam seams"
)
_WORKING: Final = word_set("working worked through")
_SHOULDERS: Final = word_set("shoulder shoulders")
_FORE: Final = word_set("the both two each left right first second and other front back")


def read_crocheted_seam(reader: Reader) -> Steps | None:
    """Read "sl st the shoulders together through both layers", "sc the side seams"."""
    start = reader.at
    if reader.number() is not None or not starts_stitch(reader):
        return None
    named = read_stitch(reader)
    seam = None
    if named is not None and named.special is None and named.stitch.kind in _SEAM_STITCHES:
        seam = _crocheted(reader, start, named.stitch.kind)
    if seam is None:
        reader.at = start
    return seam


_SEAM_STITCHES: Final = frozenset(("sl_st", "sc"))


def _crocheted(reader: Reader, start: int, by: str) -> Steps | None:
    reader.pass_over(_FORE)
    if reader.number() is not None:
        seam = _tops(reader, start, by)
        return seam if seam is not None and _how(reader) else None
    if reader.text() in _ROWS and reader.text(1) in {"ends", "end"}:
        ahead = 2
        while reader.text(ahead) in _HOW - {"to"}:
            ahead += 1
        reader.take(ahead - 2)
        return _sides(reader, start, by)
    if reader.accept_any(_SHOULDERS):
        if not _how(reader) or not _joined(reader, start):
            return None
        opened = _open(reader)
        return (SeamTops(None, opened, by=by, place=reader.span(start)),)
    if reader.text() in {"side", "sides", "underarm", "underarms"}:
        reader.take()
        if not _how(reader) or not _joined(reader, start):
            return None
        return (SeamSides(by=by, whole=True, place=reader.span(start)),)
    return None


def _how(reader: Reader) -> bool:
    """Go past "together through both layers"; tell whether the clause is over then."""
    while reader.text() in _HOW or (reader.text() == "," and reader.text(1) in _WORKING):
        reader.take()
    return reader.ended() or reader.text() in STOPS


def _joined(reader: Reader, start: int) -> bool:
    """Tell whether the words say that edges come together, and do not work along one of them."""
    words = {token.text for token in reader.tokens[start : reader.at]}
    return bool(words & {"together", "tog", "closed", "seam", "seams", "layers", "thicknesses"})


def _tops(reader: Reader, start: int, by: str = "") -> Steps | None:
    number = reader.number()
    assert number is not None
    reader.take()
    reader.accept_any(_STITCHES)
    if not _passes(reader, "from each outer edge") and not _passes(reader, "from each edge"):
        return None
    _passes(reader, "of the last row")
    if by and not _how(reader):
        return None
    place = reader.span(start)
    open_count = _open(reader)
    if open_count is not None:
        place = reader.span(start)
    return (SeamTops(number, open_count, by=by, place=place),)


def _open(reader: Reader) -> Number | None:
    """Read "; the centre 55 sts stay open" behind a seam of tops."""
    ahead = 1 if reader.text() in {";", ",", "."} else 0
    while reader.text(ahead) in {"the", "and", "leave", "leaving"}:
        ahead += 1
    if reader.text(ahead) not in {"centre", "center", "middle"}:
        return None
    number = reader.number(ahead + 1)
    if number is None:
        return None
    reader.take(ahead + 2)
    reader.accept_any(_STITCHES)
    reader.pass_over(word_set("stay stays are is left remain remains open unsewn for neck the"))
    return number


def _sides(reader: Reader, start: int, by: str = "") -> Steps | None:
    """Read "row ends from hem to marker, 42 rows = 35 cm; the open armhole is 20 cm deep"."""
    reader.take(2)
    if not reader.accept("from"):
        return None
    reader.pass_over(word_set("the hem lower bottom edge"))
    if not reader.accept("to"):
        return None
    reader.pass_over(word_set("the marker markers mark marked"))
    rows: Number | None = None
    ahead = 1 if reader.text() == "," else 0
    if reader.number(ahead) is not None and reader.text(ahead + 1) in _ROWS:
        rows = reader.number(ahead)
        reader.take(ahead + 2)
    length = _length(reader)
    steps: Steps = (SeamSides(rows, length, by=by, place=reader.span(start)),)
    if reader.text() == ";":
        reader.take()
        beside = reader.at
        reader.take_until({".", ";"})
        steps = (*steps, Remark(reader.words(beside), reader.span(beside)))
    return steps


def _length(reader: Reader) -> Number | None:
    ahead = 1 if reader.text() in {"=", ",", "or"} else 0
    token = reader.token(ahead)
    if token is None or token.kind is not TokenKind.NUMBER or token.number is None:
        return None
    if token.number.kind is not NumberKind.LENGTH:
        return None
    reader.take(ahead + 1)
    return token.number


def _passes(reader: Reader, words: str) -> bool:
    return reader.accept(*words.split())


_SEWN: Final = word_set(
    "ends edge edges side sides thickness thicknesses layer layers seam seams panels pieces"
    " foundation toe heel"
)


_OVER: Final = STOPS | CLOSING | {"("}


def sews_together(reader: Reader) -> bool:
    """Tell whether "sl st short ends together through both layers" begins: it makes no row."""
    words: list[str] = []
    while (word := reader.text(len(words) + 1)) and (
        word not in _OVER or (word == "," and reader.text(len(words) + 2) in _WORKING)
    ):
        words.append(word)
    counted = any(reader.number(1 + n) is not None and w != "two" for n, w in enumerate(words))
    placed = counted or bool({"next", "each", "every"} & set(words))
    layers = {"both", "through"} <= set(words) and bool(_LAYERS & set(words))
    along = bool({"each", "across"} & set(words)) and _said_before(reader)
    if reader.text() in _SLIPS and (layers or along):
        return True
    if placed:  # other stitches in each st are a row
        return False
    together = {"together", "tog", "closed"} & set(words) or {"through", "row"} <= set(words)
    together = together or {"row", "to", "foundation"} <= set(words)
    together = together or (reader.text() == "join" and {"with", "row", "of"} <= set(words))
    sewn = _SEWN & set(words)
    return bool(sewn) if together else layers and bool(sewn - _LAYERS)


def _said_before(reader: Reader) -> bool:
    """Tell whether "working through both layers" stands before, in the same sentence."""
    at = reader.at
    while at > 0 and reader.tokens[at - 1].text not in {".", ";", ":"}:
        at -= 1
    said = {token.text for token in reader.tokens[at : reader.at]}
    return {"both", "through"} <= said and bool(_LAYERS & said)


_SLIPS: Final = word_set("sl slip ss")
_LAYERS: Final = word_set("layers thicknesses")
READERS: Final[Mapping[str, Callable[[Reader, Frame], Steps | None]]] = MappingProxyType(
    dict.fromkeys(("whipstitch", "whip", "sew"), read_seam)
)
