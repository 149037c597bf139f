"""Stitches left at the ends of rows: `Sl st across 5 (6, 7) sts at beg of next 2 rows`."""

from typing import Final

from stitchproof.language.number import ONE, Number
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor, Tokens
from stitchproof.language.tree import Shape

_VERBS: Final = (
    ("sl", "st"),
    ("slip", "stitch"),
    ("ss",),
    ("skip",),
    ("sk",),
    ("miss",),
    ("leave",),
    ("bind", "off"),
    ("cast", "off"),
)
_STITCHES: Final = word_set("st sts stitch stitches sc hdc dc htr tr")
_STARTS: Final = word_set("beg beginning start end")
_BOTH: Final = word_set("each both either")
_SIDES: Final = word_set("end ends side sides edge edges")


def read_steps_at_ends(tokens: Tokens) -> Shape | None:
    """Read a line that leaves stitches at the beginning or the ends of the next rows."""
    cursor = Cursor(tokens)
    if not any(cursor.take(*verb) for verb in _VERBS):
        return None
    way = "slip" if tokens[0].text in {"sl", "slip", "ss"} else "leave"
    cursor.take_any(word_set("across over in into first next the"))
    number = cursor.number()
    if number is None or cursor.tokens[cursor.at].kind is not TokenKind.NUMBER:
        return None
    cursor.at += 1
    cursor.take_any(_STITCHES)
    cursor.take("unworked")
    ends, at = _ends(cursor)
    rows = _next_rows(cursor) if ends else None
    if rows is None or cursor.text() not in STOPS | {""}:
        return None
    place = tokens[0].place.to(tokens[cursor.at - 1].place)
    phases = ((ONE, rows),)
    return Shape("decreased", number, phases, at=at, ends=ends, way=way, place=place)


def _ends(cursor: Cursor) -> tuple[int, str]:
    """Read `at beg of`, `at each end of`: at how many ends of a row, and which one it is."""
    if not cursor.take_any(frozenset(("at", "on"))):
        return 0, ""
    cursor.take("the")
    both = cursor.take_any(_BOTH)
    which = cursor.text()
    if not cursor.take_any(_SIDES if both else _STARTS):
        return 0, ""
    cursor.take("of")
    cursor.take("the")
    return (2, "") if both else (1, "end" if which == "end" else "beg")


def _next_rows(cursor: Cursor) -> Number | None:
    if not cursor.take_any(word_set("next foll following")):
        return None
    number = cursor.number()
    if number is not None:
        cursor.at += 1
    return (number or ONE) if cursor.take_any(ROWS) else None
