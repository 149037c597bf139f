"""How long rows are repeated: `until piece measures 28 cm`, `to Row 20`, `or as you like`."""

from dataclasses import replace
from typing import Final

from stitchproof.language.number import Number, NumberKind
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor, Tokens
from stitchproof.language.tree import (
    RepeatRows,
)


def how_long(cursor: Cursor, made: RepeatRows) -> RepeatRows:
    """Read `until you have 18 rows in all`, `until piece measures 28 cm`, `to Row 20`."""
    start = cursor.at
    cursor.take("alternately")
    if cursor.text() in {"until", "till", "to", "through", "for"}:
        end = start
        while end < len(cursor.tokens) and cursor.tokens[end].text not in {",", ";", "."}:
            end += 1
        clause = cursor.tokens[cursor.at : end]
        told = _until(clause, made)
        if told is not None:
            cursor.at = end
            _past_another_length(cursor)
            return told
    if cursor.at == start:
        return made
    return made


_WISHED: Final = word_set(
    "like want wish prefer desire desired length required needed need long longer run out"
)


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
    if _WISHED.intersection(words) and not any(t.isdigit() for t in words):
        cursor.at += end


def _until(clause: Tokens, made: RepeatRows) -> RepeatRows | None:
    numbers = [t for t in clause if t.number is not None]
    length = next(
        (t.number for t in numbers if t.number and t.number.kind is NumberKind.LENGTH), None
    )
    words = [t.text for t in clause]
    count = _count_of(clause)
    if count is not None:
        return replace(made, until_count=count)
    if length is not None:
        return replace(made, until_length=length)
    if words[0] == "for":
        return None
    for i, token in enumerate(clause):
        if token.number is None:
            continue
        if any(w in ROWS for w in words[i + 1 : i + 3]) or (i and words[i - 1] in ROWS):
            return replace(made, until_rows=token.number)
    if words[0] == "to" and len(words) > 1 and words[1] not in {"desired", "end", "length"}:
        return None
    said = " ".join(words[1:])
    return replace(made, until_words=said) if said else None


def _count_of(clause: Tokens) -> Number | None:
    """Read `until 12 (14) sts rem`, `until there are 30 sc`, `until you have 40 sts`."""
    at = 1
    while at < len(clause) and clause[at].text in _HAVING:
        at += 1
    if clause[0].text == "for" or at + 1 >= len(clause) or clause[at + 1].text not in _COUNTED:
        return None
    number = clause[at].number
    whole = number is not None and number.kind is NumberKind.COUNT
    return number if whole and clause[at].kind is TokenKind.NUMBER else None


_HAVING: Final = word_set("there are is you have only a total of")


_COUNTED: Final = word_set("st sts stitch stitches sc dc hdc tr htr")
