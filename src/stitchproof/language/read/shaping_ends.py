"""At which ends of a row it is shaped: `at each end of`, `at neck edge`, `at beg and end of`."""

from types import MappingProxyType
from typing import Final

from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, Cursor

UNITS: Final = word_set("st sts stitch stitches sc dc hdc htr tr dtr")
_LEADS: Final = word_set("at on along in to for over")
_BOTH: Final = word_set("each both either")
_MIDDLE: Final = word_set("middle center centre")
_EDGES: Final = word_set("edge edges side sides end ends")
_STARTS: Final = word_set("beg beginning start")
_ADJECTIVES: Final = word_set(
    "neck side armhole front raglan shoulder sleeve outer inner center centre back one left right"
    " underarm cap v outside inside opposite seam same this shaped other waist"
)
_OF_WHAT: Final = word_set(
    "the row rnd round piece work needle marker marked center centre st stitch"
)


def end_words(cursor: Cursor) -> str:
    """Give the words for the ends named at the cursor; empty for `each end`, `one edge`.

    `at neck edge` is "neck edge", `at each armhole edge` "armhole edge", `each side of center st`
    "side of center st".
    """
    here = Cursor(cursor.tokens, cursor.at)
    ends = count_ends(here)
    words = [_PLAIN.get(token.text, token.text) for token in cursor.tokens[cursor.at : here.at]]
    while words and words[0] in _BEFORE_ENDS:
        words = words[1:]
    if "of" in words:
        cut = words.index("of")
        kept = words[cut:] if set(words[cut:]) & _CENTRES else []
        words = words[:cut] + kept
    if words[:1] == ["one"] or "and" in words or "&" in words:
        return ""
    return "" if len(words) == 1 and ends > 1 else " ".join(words)


_PLAIN: Final = MappingProxyType(
    {"edges": "edge", "sides": "side", "ends": "end", "stitch": "st", "stitches": "sts"}
    | {"beginning": "beg", "start": "beg", "centre": "center"}
)
_BEFORE_ENDS: Final = _LEADS | _BOTH | {",", "evenly", "the"}
_CENTRES: Final = word_set("center marker marked")


def count_ends(cursor: Cursor) -> int:
    """Read `at each end of`, `at neck edge`, `each side`: how many ends; 0 where none is named."""
    start = cursor.at
    cursor.take_any(frozenset((",", "evenly")))
    if cursor.text() in _LEADS:
        cursor.at += 1
    cursor.take("the")
    ends = _named_ends(cursor)
    if not ends:
        cursor.at = start
        return 0
    back = cursor.at
    if cursor.take("of"):
        named = cursor.take_any(_OF_WHAT)
        numbered = cursor.number() is not None and cursor.text(1) not in {"times", "time"}
        if numbered and cursor.tokens[cursor.at - 1].text in ROWS:
            cursor.at -= 1  # `of Row 4 and every foll 4th row`
        if not named and cursor.text() not in ROW_WORDS:
            cursor.at = back
    cursor.take("only")
    return ends


ROW_WORDS: Final = word_set("every each next this foll following alternate alt") | ROWS


def _named_ends(cursor: Cursor) -> int:
    both = cursor.take_any(_BOTH)
    back = cursor.at
    cursor.take_any(_ADJECTIVES)
    if cursor.at > back and cursor.text() not in _EDGES | _STARTS:  # `each side`
        cursor.at -= 1
    word = cursor.text()
    if word in _MIDDLE and not both:  # `in the middle of every row`
        cursor.at += 1
        return 1
    if word in _EDGES:
        cursor.at += 1
        return 2 if both or word in {"sides", "ends", "edges"} else 1
    if word in _STARTS and not both:
        cursor.at += 1
        if cursor.text() in {"and", "&"} and cursor.text(1) == "end":
            cursor.at += 2
            return 2
        return 1
    if word == "first" and cursor.text(1) == "and" and cursor.text(2) == "last":
        cursor.at += 3
        return 2 if cursor.take_any(UNITS) else 0
    return 0
