"""Rows of another piece: `as for Left Front`, `foundation chain and Rows 1-16 of Back`."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor
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
    "front back body yoke sleeve panel piece mitt mitten sock side shoulder half band border strap"
)


_LONGEST_NAME: Final = 3  # words


def piece_before(cursor: Cursor) -> str:
    """Go past `Body` before `Round 2`: the piece that has the rows; empty where none is named."""
    end = cursor.at
    while end < min(cursor.at + _LONGEST_NAME, len(cursor.tokens)):
        token = cursor.tokens[end]
        named = token.written[:1].isupper() or token.text in _PIECES
        if token.kind is not TokenKind.WORD or token.text in ROWS or not named:
            break
        end += 1
    name = cursor.tokens[cursor.at : end]
    numbered = end + 1 < len(cursor.tokens) and cursor.tokens[end + 1].kind is TokenKind.NUMBER
    if not name or not numbered or cursor.tokens[end].text not in ROWS:
        return ""
    cursor.at = end
    return " ".join(token.text for token in name)


def of_piece(cursor: Cursor, rows: RepeatRows | None) -> RepeatRows | None:
    """Read `as for Left Front`, `of Back` behind rows: they are those of that piece."""
    start = cursor.at
    purpose = cursor.text() == "for"  # `repeat Row 2 for the strap` tells what comes of it
    if rows is None or not cursor.take_any(_LIKE):
        return rows
    first = cursor.at
    while cursor.at < len(cursor.tokens) and cursor.text() not in STOPS:
        cursor.at += 1
    name = cursor.tokens[first : cursor.at]
    named = any(t.written[:1].isupper() or (t.text in _PIECES and not purpose) for t in name)
    if not named or len(name) > 4 or any(t.kind is not TokenKind.WORD for t in name):  # noqa: PLR2004 - a name
        cursor.at = start
        return rows
    return replace(rows, piece=" ".join(t.text for t in name))
