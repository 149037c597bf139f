"""Rows of another piece: `as for Left Front`, `foundation chain and Rows 1-16 of Back`."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import STOPS, Cursor
from stitchproof.language.tree import (
    RepeatRows,
)

_FOUNDATION: Final = word_set("the foundation setup set up base")


def past_foundation(cursor: Cursor) -> None:
    """Skip `foundation chain and` before the rows of a piece: they stand on it anyhow."""
    start = cursor.at
    named = cursor.take_any(_FOUNDATION) and cursor.take_any(word_set("row rnd ch chain chs"))
    cursor.take(",")
    if not named or not cursor.take_any(word_set("and &")):
        cursor.at = start


_LIKE: Final = word_set("as of for from same like given on the in")


_PIECES: Final = word_set(
    "front back sleeve panel piece mitt mitten sock side shoulder half band border strap"
)


def of_piece(cursor: Cursor, rows: RepeatRows | None) -> RepeatRows | None:
    """Read `as for Left Front`, `of Back` behind rows: they are those of that piece."""
    start = cursor.at
    if rows is None or not cursor.take_any(_LIKE):
        return rows
    first = cursor.at
    while cursor.at < len(cursor.tokens) and cursor.text() not in STOPS:
        cursor.at += 1
    name = cursor.tokens[first : cursor.at]
    named = any(t.written[:1].isupper() or t.text in _PIECES for t in name)
    if not named or len(name) > 4 or any(t.kind is not TokenKind.WORD for t in name):  # noqa: PLR2004 - a name
        cursor.at = start
        return rows
    return replace(rows, piece=" ".join(t.text for t in name))
