"""How long rows are repeated: `until piece measures 28 cm`, `to Row 20`, `or as you like`."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.read.how_long import read_until
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import STOPS, Cursor
from stitchproof.language.tree import (
    RepeatRows,
)


def how_long(cursor: Cursor, made: RepeatRows) -> RepeatRows:
    """Read `until you have 18 rows in all`, `until piece measures 28 cm`, `to Row 20`."""
    start = cursor.at
    cursor.take("alternately")
    again = tuple(cursor.text(ahead) for ahead in range(3))
    if again in _OVER_AND_OVER:
        cursor.at += 3
        cursor.take("again")
    if _as_often_as_wished(cursor):
        return replace(made, until_words="desired length")
    if cursor.text() in _GOING_ON and cursor.text(1) in {"until", "till"}:
        cursor.at += 1
    if cursor.text() in {"until", "till", "to", "through", "for"}:
        end = start
        while end < len(cursor.tokens) and cursor.tokens[end].text not in {",", ";", "."}:
            end += 1
        clause = cursor.tokens[cursor.at : end]
        told = read_until(clause, made)
        if told is not None:
            cursor.at = end
            _past_another_length(cursor)
            return told
    elif cursor.text() == "or" and made.often is not None:
        _past_another_length(cursor)
    return made


_OVER_AND_OVER: Final = (("over", "and", "over"), ("again", "and", "again"))
_GOING_ON: Final = word_set("work working cont continue continuing going")
_WISHED: Final = word_set(
    "like want wish prefer desire desired length required needed need long longer run out"
)


def _as_often_as_wished(cursor: Cursor) -> bool:
    """Read `as many times as you like`, `as often as desired`: how long is left to the maker."""
    start = cursor.at
    if cursor.take("as") and cursor.text() in {"many", "often", "long"}:
        while cursor.at < len(cursor.tokens) and cursor.text() not in STOPS:
            cursor.at += 1
        said = [token.text for token in cursor.tokens[start : cursor.at]]
        if _WISHED.intersection(said) and not any(word.isdigit() for word in said):
            return True
    cursor.at = start
    return False


_FAR: Final = 12  # words that leave the length to the maker


def _past_another_length(cursor: Cursor) -> None:
    """Skip `, or as long as you like`, `or desired length`: the length is the maker's own."""
    ahead = 1 if cursor.text() == "," else 0
    if cursor.text(ahead) != "or":
        return
    end = ahead
    while cursor.text(end) and cursor.text(end) not in STOPS and end < _FAR:
        end += 1
    words = [cursor.text(i) for i in range(ahead, end)]
    left_open = _WISHED.intersection(words) or words[1:2] in (["until"], ["till"])
    if left_open and not any(t.isdigit() for t in words) and not _WORKED.intersection(words):
        cursor.at += end


_WORKED: Final = word_set("row rows rnd rnds round rounds st sts stitch stitches")
