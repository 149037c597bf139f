"""Rows that go on growing: `Continue in this way, working 1 more dc between increases each rnd`.

Each row is the row before it with so many plain stitches more, or fewer, between those that shape.
"""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor, Tokens, read_named_rows
from stitchproof.language.read.row_often import how_often, rows_back
from stitchproof.language.tree import RepeatRows

_MORE: Final = word_set("more additional extra")
_FEWER: Final = word_set("fewer less")
_UNITS: Final = word_set("st sts stitch stitches sc hdc dc htr tr plain")
_BETWEEN: Final = word_set("between before along on")
_SHAPED: Final = word_set(
    "inc incs increase increases dec decs decrease decreases the each every all shaping group"
    " side sides edge edges corner corners"
)
_WORKING: Final = word_set("working having with adding placing leaving always but and by")
_GOING_ON: Final = word_set(
    "cont continue continuing keep adding work working to in this the same that way manner fashion"
    " pattern patt as before established set est rep repeat repeating last previous rnd row round"
    " of increasing decreasing increase decrease inc dec so evenly"
)
_OPENERS: Final = word_set("cont continue continuing keep rep repeat repeating work")
_AFTER: Final = word_set("in on per each every row rnd round rows rnds rounds time than before")


def read_growing(tokens: Tokens) -> RepeatRows | None:
    """Read a line of rows each of which has so many stitches more or fewer between its shaping.

    Parameters
    ----------
    tokens : tuple of Token
        The instruction without its label and its stated count.

    Returns
    -------
    RepeatRows or None
        None: the line says something else.
    """
    if not tokens or tokens[0].text not in _OPENERS:
        return None
    at = _change(tokens)
    if at is None:
        return _growing_sides(tokens)
    number = tokens[at - 1].number
    value = number.value if number is not None else None
    end = _behind(tokens, at)
    lead = at - 1
    while lead and tokens[lead - 1].text in _WORKING | STOPS:
        lead -= 1
    made = _rows(tokens[:lead])
    if made is None or end is None or not isinstance(value, tuple) or not isinstance(value[0], int):
        return None
    by = value[0] if tokens[at].text in _MORE else -value[0]
    return replace(made, between=by, place=tokens[0].place.to(tokens[-1].place))


def _growing_sides(tokens: Tokens) -> RepeatRows | None:
    """Read `adding one more 3-dc group along each side on every round`."""
    at = next((i for i in range(1, len(tokens)) if tokens[i].text in _MORE), 0)
    by = 1 if at and tokens[at - 1].text in {"an", "a"} else _one_number(tokens, at - 1)
    cursor = Cursor(tokens, at + 1)
    if not by or not _group(cursor) or not cursor.take_any(_ALONG):
        return None
    sided = cursor.take_any(_EACH) and cursor.take_any(_SIDES)
    cursor.take_any(_AFTER | STOPS)
    lead = at - 1
    while lead and tokens[lead - 1].text in _WORKING | STOPS:
        lead -= 1
    made = _rows(tokens[:lead]) if sided and cursor.done() else None
    if made is None:
        return None
    place = tokens[0].place.to(tokens[-1].place)
    return replace(made, between=by, groups=True, place=place)


def _one_number(tokens: Tokens, at: int) -> int:
    """Give a whole number that is the same in all sizes; 0 where none stands."""
    number = tokens[at].number if at >= 0 else None
    value = number.value if number is not None else None
    one = value[0] if isinstance(value, tuple) and len(value) == 1 else None
    return one if isinstance(one, int) else 0


def _group(cursor: Cursor) -> bool:
    """Go past `3-dc group`, `group of 3 dc`, `cluster`."""
    if cursor.number() is not None:
        cursor.at += 1
        cursor.take("-")
        if not cursor.take_any(_UNITS):
            return False
    if not cursor.take_any(_GROUPS):
        return False
    if cursor.take("of") and cursor.number() is not None:
        cursor.at += 1
        return cursor.take_any(_UNITS)
    return True


_GROUPS: Final = word_set("group groups cluster clusters block blocks granny")
_ALONG: Final = word_set("along on to in per down for")
_EACH: Final = word_set("each every all the of four 4")
_SIDES: Final = word_set("side sides edge")


def _change(tokens: Tokens) -> int | None:
    """Find the `more` of `1 more dc between`."""
    for i in range(1, len(tokens) - 2):
        counted = tokens[i - 1].number is not None and tokens[i].text in _MORE | _FEWER
        if counted and tokens[i + 1].text in _UNITS and tokens[i + 2].text in _BETWEEN:
            return i
    return None


def _behind(tokens: Tokens, at: int) -> int | None:
    """Go past `between the increases in every round`; None where anything else follows."""
    i = at + 3
    shaped = False
    while i < len(tokens) and tokens[i].text in _SHAPED | _AFTER | STOPS:
        shaped = shaped or tokens[i].text in _SHAPED
        i += 1
    return i if shaped and i == len(tokens) else None


def _rows(lead: Tokens) -> RepeatRows | None:
    """Read which rows go on: `Rep Rnd 4`, `Continue in the same way`."""
    cursor = Cursor(lead, 1)
    cursor.take_any(word_set("as for the"))
    named = read_named_rows(cursor) if cursor.text() in ROWS else rows_back(cursor)
    if named is not None:
        named = how_often(cursor, named)
        cursor.take_any(STOPS)
        return named if cursor.done() else None
    known = all(token.text in _GOING_ON | STOPS for token in lead)
    return RepeatRows(back=ONE) if known else None
