"""Which of the last rows are worked again, and how often: `last 4 rows`, `5 more times`."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, NumberKind
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor, Tokens
from stitchproof.language.tree import RepeatRows, Times


def rows_back(cursor: Cursor) -> RepeatRows | None:
    """Read `last row`, `last 4 rows`, `previous 2 rows`, `this row`."""
    start = cursor.at
    if not cursor.take_any(frozenset(("last", "previous", "these", "this", "preceding", "prev"))):
        return None
    number = cursor.number()
    if number is not None:
        cursor.at += 1
    if cursor.take_any(ROWS):
        return RepeatRows(back=number or ONE)
    cursor.at = start
    return None


def how_often(cursor: Cursor, made: RepeatRows) -> RepeatRows:
    """Read `5 more times`, `twice more`, `another 4 times`, `x 3`, `for 6 rows`."""
    start = cursor.at
    if made.often is not None and _rows_in_all(cursor):
        return made
    cursor.take_any(frozenset(("for", "a", "total", "of", "x", "another", "further", "additional")))
    another = any(t.text in {"another", "further"} for t in cursor.tokens[start : cursor.at])
    number = cursor.number()
    if number is None or number.kind is NumberKind.LENGTH:
        cursor.at = start
        return made
    lead = cursor.tokens[start : cursor.at]
    spelled = cursor.text()
    cursor.at += 1
    more = cursor.take("more") or another
    if cursor.take_any(frozenset(("times", "time"))) or spelled.split(" ")[0] in {"once", "twice"}:
        more = cursor.take("more") or more
        cursor.take_any(frozenset(("in", "all", "total")))
        return replace(made, often=Times(replace(number, kind=NumberKind.TIME), more=more))
    if any(t.text == "x" for t in lead) and cursor.done():
        return replace(made, often=Times(replace(number, kind=NumberKind.TIME)))
    if cursor.take_any(ROWS) and any(t.text in {"for", "another"} for t in lead):
        # Six rows of a one-row repeat are six times; of a longer one, a number of rows from here.
        one_row = made.first is not None and made.first is made.last and not made.listed
        even = made.first is None and made.back is None and not made.piece
        if one_row or made.back == ONE or even:
            return replace(made, often=Times(number, more=True))
    cursor.at = start
    return made


def _rows_in_all(cursor: Cursor) -> bool:
    """Go past `for 80 rows in all`, `– 40 rows in total` behind how often: how far that goes."""
    start = cursor.at
    cursor.take_any(frozenset(("–", "—", "-", ",", "for", "making", "you", "now", "have")))
    cursor.take_any(frozenset(("a", "total", "of")))
    if cursor.number() is not None:
        cursor.at += 1
        counted = cursor.take_any(ROWS)
        if counted and cursor.take_any(_IN_ALL):
            return True
    cursor.at = start
    return False


_IN_ALL: Final = frozenset(("in", "all", "total", "altogether", "worked", "completed"))


def change_behind(tokens: Tokens) -> int:
    """Find `, increasing 8 sts in each row` at the end of a line that works rows again; 0: none."""
    end = len(tokens)
    while end and tokens[end - 1].text in STOPS:
        end -= 1
    at = end - 1
    if at < 0 or tokens[at].text not in ROWS | _TIMES or tokens[at - 1].text not in _EACH:
        return 0
    at -= 2
    at -= tokens[at].text in _IN
    at -= tokens[at].text in _STITCHES
    if at < 1 or tokens[at].number is None or tokens[at - 1].text not in _CHANGING:
        return 0
    return at - 1


_TIMES: Final = frozenset(("time",))
_EACH: Final = frozenset(("each", "every", "per"))
_IN: Final = frozenset(("in", "on"))
_STITCHES: Final = frozenset(("st", "sts", "stitch", "stitches", "sc", "hdc", "dc", "htr", "tr"))
_CHANGING: Final = frozenset(("increasing", "inc", "decreasing", "dec"))
