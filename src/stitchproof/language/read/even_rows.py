"""Rows worked even, counted: `Work 5 rows even`, `3 more rows in hdc`, `even for 4 rows`."""

from typing import Final

from stitchproof.language.number import ONE, Number, NumberKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_manner import EVEN
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor
from stitchproof.language.tree import RepeatRows, Times

PLAIN: Final = word_set("even straight plain evenly")
_SHAPING: Final = word_set("shaping increasing decreasing inc dec increases decreases")
_AGAIN: Final = word_set("rep repeat repeating work working")
_ONE_MORE: Final = word_set("a an one another further more")
MANNER: Final = word_set(
    "sc hdc dc htr tr dtr st sts patt pattern as est established set between rem remaining all"
    " other"
)


def even_rows(cursor: Cursor) -> Number | None:
    """Read `work 5 (5, 4) rnds even`, `3 more rows in hdc`, `a row straight`: how many."""
    start = cursor.at
    cursor.take_any(_AGAIN)
    if cursor.take_any(PLAIN):  # `work even for 3 rows`
        _past_the_stitch(cursor)
        number = whole_number(cursor) if cursor.take_any(word_set("for over")) else None
        cursor.take("more")
        told = cursor.take_any(ROWS)
        cursor.take("more")
    else:
        one = cursor.take_any(_ONE_MORE)
        number = whole_number(cursor) or (ONE if one else None)
        cursor.take_any(_ONE_MORE)
        before = cursor.take_any(PLAIN)
        told = cursor.take_any(ROWS) and (_says_even(cursor) or before)
    if number is None or not told:
        cursor.at = start
        return None
    return number


def _says_even(cursor: Cursor) -> bool:
    """Go past `even`, `without shaping`, `in hdc`, `straight in patt`."""
    start = cursor.at
    before = -1
    while cursor.at > before:
        before = cursor.at
        cursor.take_any(PLAIN)
        _past_the_stitch(cursor)
        if cursor.take_any(word_set("without with no")):
            cursor.take_any(word_set("any further more"))
            if not cursor.take_any(_SHAPING):
                cursor.at = start
                return False
    return cursor.at > start


def _past_the_stitch(cursor: Cursor) -> None:
    """Go past `in hdc`, `of sc`, `in patt as established`."""
    start = cursor.at
    if not cursor.take_any(word_set("in of as")) or not cursor.take_any(MANNER):
        cursor.at = start


def whole_number(cursor: Cursor) -> Number | None:
    """Give a whole number, and go past it."""
    number = cursor.number()
    if number is None or number.kind is NumberKind.LENGTH:
        return None
    cursor.at += 1
    return number


def more_rows(cursor: Cursor) -> RepeatRows | None:
    """Read `Work 5 more rows`, `Work 3 rows even`, `Work 6 rows in patt`, `2 more rows of sc`."""
    here = cursor.at
    even = even_rows(cursor)
    told = {token.text for token in cursor.tokens[here : cursor.at]} & _TELLING
    if even is not None and told and cursor.text() in STOPS | _DASHES | {""}:
        return RepeatRows(often=Times(even, more=True))
    cursor.at = here
    cursor.take_any(frozenset(("another", "a", "further")))
    if cursor.number() is None:
        return None
    rows = many_rows(cursor, frozenset())
    straight = cursor.text() in {"even", "straight"} or (
        cursor.text() == "in" and cursor.text(1) in EVEN | {"est"}
    )
    more = cursor.at > 1 and "more" in {t.text for t in cursor.tokens[: cursor.at]}
    plain = cursor.text() in {"of", "in"} and (more or cursor.text(1) == "plain")
    if rows is None or not (straight or plain or cursor.done()):
        return None
    cursor.take("of", "plain")
    cursor.take("of")
    cursor.take_any(EVEN | {"in", "as", "est", "plain"})
    past_named_stitch(cursor)
    return RepeatRows(often=rows)


_TELLING: Final = PLAIN | {"more", "without", "shaping", "patt", "pattern"}
_DASHES: Final = frozenset(("-", "–", "—"))


def past_named_stitch(cursor: Cursor) -> None:
    """Skip `sc` of `even in sc`: worked even, the row has as many of it."""
    if cursor.at and cursor.tokens[cursor.at - 1].text in {"in", "of", "plain"}:
        while cursor.text() in _STITCH_WORDS:
            cursor.at += 1


_STITCH_WORDS: Final = word_set(
    "sc hdc dc htr tr dtr single half double treble crochet blo flo sts stitches only"
)


def many_rows(cursor: Cursor, lead: frozenset[str]) -> Times | None:
    """Read `for 6 rows` as so many times the row before."""
    start = cursor.at
    cursor.take_any(lead)
    number = cursor.number()
    if number is not None:
        cursor.at += 1
        cursor.take("more")
        if cursor.take_any(ROWS):
            cursor.take("more")
            return Times(number, more=True)
    cursor.at = start
    return None
