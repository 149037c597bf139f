"""Lines that name earlier rows instead of giving steps: `Rep Rows 3-6 15 (16) more times`.

The line is read clause by clause from its first word. What is left over at the end ("with B",
"omitting the turning ch") is handed to the reader of steps, so nothing the author wrote is lost.
"""

from collections.abc import Callable
from typing import Final, TypeAlias

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number
from stitchproof.language.read.even_between import read_even_between
from stitchproof.language.read.even_rows import many_rows, more_rows, past_named_stitch
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import TIMES, word_set
from stitchproof.language.read.row_cycles import read_cycle
from stitchproof.language.read.row_first import begun_with, first_of_them, then_begun, turned
from stitchproof.language.read.row_lengths import how_long
from stitchproof.language.read.row_manner import (
    EVEN,
    as_they_are,
    manner,
    of_pattern,
    past_pattern,
    spoken,
    yarn_that_ends,
)
from stitchproof.language.read.row_names import (
    ROWS,
    STOPS,
    Cursor,
    Tokens,
    read_bare_rows,
    read_named_rows,
)
from stitchproof.language.read.row_often import how_often, rows_back
from stitchproof.language.read.rows_of_piece import of_piece, past_foundation, piece_before
from stitchproof.language.read.steps.findings import UnreadWords
from stitchproof.language.tree import (
    Between,
    Make,
    Remark,
    RepeatRows,
    Steps,
    Unread,
)

ReadSteps: TypeAlias = Callable[[Tokens], tuple[Steps, list[Diagnostic]]]

_REPEAT: Final = word_set("rep repeat reps rpt repeating")
_ALTERNATE: Final = frozenset(("alternate", "alternating"))
_WORK: Final = frozenset(("work", "working", "cont", "continue", "continuing", "knit"))
_FORM: Final = word_set("form forms set sets establish establishes make makes")
_THEM: Final = word_set("them these the this two")
_SIDES: Final = {"rs": "RS", "right": "RS", "ws": "WS", "wrong": "WS"}


def read_row_repeat(
    tokens: Tokens, read_steps: ReadSteps
) -> tuple[RepeatRows, list[Diagnostic]] | None:
    """Read an instruction that repeats rows.

    Parameters
    ----------
    tokens : tuple of Token
        The instruction without its label and its stated count.
    read_steps : ReadSteps
        Reads what is changed or added.

    Returns
    -------
    (RepeatRows, findings) or None
        None: the line gives steps of its own.
    """
    if not tokens:
        return None
    cursor = Cursor(tokens)
    first = first_of_them(cursor)
    made = _what(cursor)
    if made is not None and first is not None:
        made = turned(made, first)
    if made is None:
        return None
    while not cursor.done():
        before = cursor.at
        made = how_often(cursor, made)
        made = then_begun(cursor, made)
        made = how_long(cursor, made)
        made = _ending(cursor, made)
        made = begun_with(cursor, manner(cursor, made))
        cursor.take_any(STOPS | {"and", "then", "again"})
        if cursor.at == before:
            break
    found: list[Diagnostic] = []
    rest = cursor.tokens[cursor.at :]
    if not cursor.done():
        told = as_they_are(rest)
        extra, found = ((told,), []) if told is not None else read_steps(rest)
        if not extra and not found:  # a loop to work in, which the stitches of the row say not
            while rest[-1].text in STOPS and len(rest) > 1:
                rest = rest[:-1]
            extra = (Remark(spoken(rest), rest[0].place.to(rest[-1].place)),)
        if any(isinstance(s, Make) and isinstance(s.at, Between) for s in extra):
            # "working 3 sc between increases" changes what is repeated
            place = rest[0].place.to(rest[-1].place)
            words = " ".join(token.written or token.text for token in rest)
            extra = (Unread(words, place),)
            found = [Diagnostic(finding=UnreadWords(words), place=place)]
        made = replace(made, extra=(*made.extra, *extra))
    return replace(made, place=tokens[0].place.to(tokens[-1].place)), found


# --------------------------------------------------------------------------- which rows


def _what(cursor: Cursor) -> RepeatRows | None:
    """Read which rows are worked again; None if the line is no repeat of rows."""
    turn = read_even_between(cursor) or read_cycle(cursor)
    if turn is not None:
        return turn
    if _past_going_on(cursor):
        return _rows(cursor) or rows_back(cursor)
    if cursor.text() in _REPEAT:
        cursor.at += 1
        cursor.take_any(frozenset(("the", "pattern", "patt", "of", "as", "in")))
        named = _rows(cursor)
        return named or rows_back(cursor) or _bare_stretch(cursor)
    if cursor.text() in _ALTERNATE:  # `alternate rows 2 and 3`
        cursor.at += 1
        cursor.take_any(frozenset(("between", "working", "the")))
        return read_named_rows(cursor)
    if cursor.text() in {"as", "=", "same", "like"}:
        cursor.take_any(frozenset(("as", "=", "same", "like", "for", "the", "in")))
        named = _rows(cursor) or rows_back(cursor)
        return named or read_bare_rows(cursor) or _piece(cursor)
    if cursor.text() in _WORK:
        return _work(cursor)
    return _pattern_rows(cursor)


def _rows(cursor: Cursor) -> RepeatRows | None:
    """Read which rows, and of which piece: `Rows 2-5 of Back`, `Body Round 2`."""
    start = cursor.at
    piece = piece_before(cursor)
    rows = read_named_rows(cursor)
    if rows is None:
        cursor.at = start
        return None
    return replace(rows, piece=piece) if piece else of_piece(cursor, rows)


def _past_going_on(cursor: Cursor) -> bool:
    """Go past `continue to` before `rep Row 2`, `keep` before `working`; say if rows come next."""
    start = cursor.at
    if cursor.take_any(_GOING_ON):
        cursor.take_any(frozenset((".", "on", "to")))
        past_pattern(cursor)
        if cursor.text() in _REPEAT | {"work", "working"}:
            return False
        if cursor.take("with"):
            cursor.take("the")
            if cursor.text() in ROWS | {"last", "previous", "these"}:
                return True
    cursor.at = start
    return False


_GOING_ON: Final = word_set("continue cont continuing keep carry go")


def _bare_stretch(cursor: Cursor) -> RepeatRows | None:
    """Read `3 through 9` behind "repeat", and `3` alone; `twice` there is how often."""
    return None if cursor.text() in TIMES else read_bare_rows(cursor)


def _pattern_rows(cursor: Cursor) -> RepeatRows | None:
    """Read `Rows 2 and 3 form the pattern. Repeat them 6 times more`."""
    start = cursor.at
    made = read_named_rows(cursor) or rows_back(cursor)
    if made is not None and cursor.take("alternately"):
        return made
    if made is not None and cursor.take_any(_FORM):
        while cursor.at < len(cursor.tokens) and cursor.text() not in STOPS:
            cursor.at += 1
        cursor.take_any(STOPS)
        if cursor.take_any(_REPEAT) and cursor.take_any(_THEM):
            cursor.at += cursor.number() is not None and cursor.text(1) in ROWS
            cursor.take_any(ROWS)
            return made
    cursor.at = start
    return None


def _work(cursor: Cursor) -> RepeatRows | None:
    """Read `Work even in patt for 6 rows`, `Work as for Row 2`, `Work Rows 3-6 twice`."""
    cursor.at += 1
    cursor.at += cursor.text() == "the" and cursor.text(1) == "same"
    if cursor.text() in {"as", "same", "like"}:
        cursor.take_any(frozenset(("as", "same", "like", "for", "given", "on", "the")))
        return read_named_rows(cursor) or _piece(cursor)
    plain = cursor.text() in {"even", "straight"} or cursor.take("without", "shaping")
    if plain or (cursor.text() == "in" and _goes_on(cursor)):
        cursor.take_any(EVEN | word_set("in as est same this manner way the on all sts"))
        if cursor.text() in {"to", "across", "around", "over"} or cursor.text(1) == "last":
            return None  # a stretch of one row
        _past_themanner(cursor)
        if cursor.text() in {"in", "on", "of", "per", "by"} or cursor.text() in ROWS:
            cursor.at += cursor.text() not in ROWS  # `in patt as established in Row 2`
            named = read_named_rows(cursor)
            if named is not None:
                return named
        past_named_stitch(cursor)
        rows = many_rows(cursor, frozenset(("for", "over", "next", "another")))
        return RepeatRows(often=rows)
    past_foundation(cursor)
    if cursor.text() in {"last", "previous", "these"} and cursor.text(1) != "of":
        return rows_back(cursor)
    cursor.at += cursor.text() == "the" and cursor.text(2) in ROWS | {
        "and",
        "to",
        "-",
        "–",
        "&",
        ",",
    }
    if cursor.text() in ROWS | {"another", "a"} or cursor.number() is not None:
        return _rows(cursor) or _counted_as(cursor) or more_rows(cursor)
    return None


def _counted_as(cursor: Cursor) -> RepeatRows | None:
    """Read `12 more rows as Row 2`, `4 rnds as for Rnd 2` behind "work"."""
    start = cursor.at
    cursor.take_any(frozenset(("another", "a", "further")))
    often = many_rows(cursor, frozenset()) if cursor.number() is not None else None
    cursor.take_any(frozenset(("even", "straight")))
    if often is not None and cursor.take_any(frozenset(("as", "like"))):
        cursor.take_any(frozenset(("for", "in", "the")))
        named = _rows(cursor)
        if named is not None:
            return replace(named, often=often)
    cursor.at = start
    return None


def _goes_on(cursor: Cursor) -> bool:
    """Say whether `in patt`, `in hdc for 10 more rows` goes on as the rows before."""
    if cursor.text(1) in EVEN | {"est", "same", "this"}:
        return True
    return any(
        cursor.text(ahead) in {"for", "until"} and cursor.text(ahead + 1) not in _NO_LENGTH
        for ahead in (2, 3, 4, 5)
    )


_NO_LENGTH: Final = frozenset(("", "the", "this", "each", "every"))


def _past_themanner(cursor: Cursor) -> None:
    """Skip `in hdc`, `on these sts` before `for 6 rows`: the row below is worked again anyway."""
    for ahead in range(5):
        if cursor.text(ahead) in STOPS:
            return
        if cursor.text(ahead) in {"for", "until", "till"}:
            cursor.at += ahead
            return


def _piece(cursor: Cursor) -> RepeatRows | None:
    """Read `same as Back to end of Row 30`."""
    start = cursor.at
    while not _says_where(cursor) and cursor.at < min(len(cursor.tokens), start + _LONGEST_NAME):
        if cursor.text() in STOPS | {
            "to",
            "until",
            "through",
            "row",
            "rows",
            "but",
            "rnd",
            "rnds",
        }:
            break
        if cursor.tokens[cursor.at].kind is TokenKind.MARK:
            return None
        cursor.at += 1
    name = " ".join(t.text for t in cursor.tokens[start : cursor.at])
    if not name or name in {"is", "before", "usual", "established", "you go"}:
        return None
    _past_where(cursor)
    rows = read_named_rows(cursor)
    if rows is not None:
        return replace(rows, piece=name)
    back = cursor.at
    if cursor.take_any(frozenset(("to", "through", "until", "end", "of", "the", "including"))):
        number = _ordinal_row(cursor)
        if number is not None:
            return RepeatRows(first=ONE, last=number, piece=name)
        cursor.at = back
    return RepeatRows(piece=name)


_LONGEST_NAME: Final = 5  # tokens
_WHERE: Final = frozenset(("the", "other", "opposite", "end", "side", "edge"))


def _says_where(cursor: Cursor) -> bool:
    """Tell whether `on the opposite end`, `at other side` stands there."""
    return cursor.text() in {"on", "at"} and cursor.text(1) in _WHERE


def _past_where(cursor: Cursor) -> None:
    """Go past `on the opposite end` behind the name of a piece."""
    if _says_where(cursor):
        cursor.at += 1
        while cursor.text() in _WHERE:
            cursor.at += 1


def _ordinal_row(cursor: Cursor) -> Number | None:
    start = cursor.at
    rows = read_named_rows(cursor)
    if rows is None:
        cursor.at = start
    return rows.last if rows else None


# --------------------------------------------------------------------------- how often, how long


def _ending(cursor: Cursor, made: RepeatRows) -> RepeatRows:
    """Read `ending with a WS row`, `ending with Row 4`, `end after a RS row`."""
    start = cursor.at
    if not cursor.take_any(frozenset(("ending", "end", "ends", "finishing", "finish"))):
        return made
    cursor.take_any(frozenset(("with", "after", "on", "by", "working", "a", "an", "the", "of")))
    side = _SIDES.get(cursor.text(), "")
    if side:
        cursor.at += 1
        cursor.take("-")
        cursor.take("side")
        if cursor.take("facing"):  # for the next row: the last one is of the other side
            cursor.take_any(frozenset(("for", "the", "next")))
            side = "WS" if side == "RS" else "RS"
        cursor.take_any(ROWS)
        return replace(made, ending=side)
    number = _ordinal_row(cursor)
    if number is not None:
        made = replace(made, ending_row=_last_of_them(cursor, number))
        of_pattern(cursor)
        return made
    yarn = yarn_that_ends(cursor, start)
    if yarn is not None:
        return replace(made, extra=(*made.extra, yarn))
    cursor.at = start
    return made


def _last_of_them(cursor: Cursor, number: Number) -> Number:
    """Read `, then Row 6` behind `end by working Row 5`: the last one named ends it."""
    while True:
        start = cursor.at
        cursor.take_any(frozenset((",", "then", "and", "followed", "by")))
        following = _ordinal_row(cursor) if cursor.at > start else None
        if following is None:
            cursor.at = start
            return number
        number = following
