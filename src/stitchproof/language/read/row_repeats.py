"""Lines that name earlier rows instead of giving steps: `Rep Rows 3-6 15 (16) more times`.

The line is read clause by clause from its first word. What is left over at the end ("with B",
"omitting the turning ch") is handed to the reader of steps, so nothing the author wrote is lost.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final, TypeAlias

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.language.number import ONE, Number, NumberKind, Value
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.tree import Colour, Remark, RepeatRows, Steps, Times, Unread

Tokens: TypeAlias = tuple[Token, ...]
ReadSteps: TypeAlias = Callable[[Tokens], tuple[Steps, list[Diagnostic]]]

_ROWS: Final = frozenset(("row", "rows", "rnd", "rnds", "round", "rounds", "r"))
_REPEAT: Final = frozenset(("rep", "repeat", "reps", "repeating"))
_WORK: Final = frozenset(("work", "working", "cont", "continue", "continuing", "knit"))
_EVEN: Final = frozenset(("even", "straight", "patt", "pattern", "pat", "established", "set"))
_DASHES: Final = frozenset(("-", "–", "—", "to", "through", "thru"))
_AND: Final = frozenset((",", "and", "&", "+"))
_STOPS: Final = frozenset((",", ".", ";", ":"))
_SIDES: Final = {"rs": "RS", "right": "RS", "ws": "WS", "wrong": "WS"}


@dataclass(slots=True)
class _Cursor:
    """Where the reader stands."""

    tokens: Tokens
    at: int = 0

    def text(self, ahead: int = 0) -> str:
        """Give the word `ahead` tokens on; empty beyond the end."""
        i = self.at + ahead
        return self.tokens[i].text if i < len(self.tokens) else ""

    def take(self, *words: str) -> bool:
        """Go past these words if they stand here."""
        if all(self.text(i) == word for i, word in enumerate(words)):
            self.at += len(words)
            return True
        return False

    def take_any(self, words: frozenset[str]) -> bool:
        """Go past any of these words that stand here one after another."""
        start = self.at
        while self.text() in words and self.at < len(self.tokens):
            self.at += 1
        return self.at > start

    def number(self) -> Number | None:
        """Give the number here, without going past it."""
        if self.at >= len(self.tokens):
            return None
        token = self.tokens[self.at]
        return token.number if token.kind in {TokenKind.NUMBER, TokenKind.ORDINAL} else None

    def done(self) -> bool:
        """Say whether nothing but a stop is left."""
        return all(t.text in _STOPS for t in self.tokens[self.at :])


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
    cursor = _Cursor(tokens)
    made = _what(cursor)
    if made is None:
        return None
    while not cursor.done():
        before = cursor.at
        made = _how_often(cursor, made)
        made = _how_long(cursor, made)
        made = _ending(cursor, made)
        made = _manner(cursor, made)
        cursor.take_any(_STOPS | {"and", "then"})
        if cursor.at == before:
            break
    found: list[Diagnostic] = []
    rest = cursor.tokens[cursor.at :]
    if not cursor.done():
        extra, found = read_steps(rest)
        made = replace(made, extra=(*made.extra, *extra))
    return replace(made, place=tokens[0].place.to(tokens[-1].place)), found


# --------------------------------------------------------------------------- which rows


def _what(cursor: _Cursor) -> RepeatRows | None:
    """Read which rows are worked again; None if the line is no repeat of rows."""
    if cursor.text() in _REPEAT:
        cursor.at += 1
        cursor.take_any(frozenset(("the", "pattern", "patt", "of", "as", "in")))
        return _named(cursor) or _back(cursor) or _none(cursor)
    if cursor.text() in {"as", "=", "same", "like"}:
        cursor.take_any(frozenset(("as", "=", "same", "like", "for", "the", "in")))
        return _named(cursor) or _back(cursor) or _piece(cursor)
    if cursor.text() in _WORK:
        return _work(cursor)
    return None


def _none(cursor: _Cursor) -> None:
    cursor.at = 0


def _work(cursor: _Cursor) -> RepeatRows | None:
    """Read `Work even in patt for 6 rows`, `Work as for Row 2`, `Work Rows 3-6 twice`."""
    cursor.at += 1
    if cursor.text() in {"as", "same", "like"}:
        cursor.take_any(frozenset(("as", "same", "like", "for", "given", "on", "the")))
        return _named(cursor) or _piece(cursor)
    if cursor.text() in {"even", "straight"} or (
        cursor.text() == "in" and cursor.text(1) in _EVEN | {"est", "same"}
    ):
        cursor.take_any(_EVEN | {"in", "as", "est", "same", "manner", "the", "on", "all", "sts"})
        rows = _many_rows(cursor, frozenset(("for", "over", "next", "another")))
        return RepeatRows(back=ONE, often=rows) if rows else RepeatRows(back=ONE)
    if cursor.text() in _ROWS or cursor.number() is not None:
        return _named(cursor) or _more_rows(cursor) or _none(cursor)
    return None


def _more_rows(cursor: _Cursor) -> RepeatRows | None:
    """Read `Work 5 more rows`, `Continue for 6 rows`."""
    number = cursor.number()
    if number is None or cursor.text(1) not in {"more", *_ROWS}:
        return None
    rows = _many_rows(cursor, frozenset())
    if rows and (cursor.done() or (cursor.text() == "in" and cursor.text(1) in _EVEN)):
        return RepeatRows(back=ONE, often=rows)
    return _none(cursor)


def _many_rows(cursor: _Cursor, lead: frozenset[str]) -> Times | None:
    """Read `for 6 rows` as so many times the row before."""
    start = cursor.at
    cursor.take_any(lead)
    number = cursor.number()
    if number is not None:
        cursor.at += 1
        cursor.take("more")
        if cursor.take_any(_ROWS):
            return Times(number, more=True)
    cursor.at = start
    return None


def _named(cursor: _Cursor) -> RepeatRows | None:
    """Read `Rows 3-6`, `Rows 2 and 3`, `2nd row`, `rows 2, 3 and 5`."""
    start = cursor.at
    if cursor.text() in _ROWS:
        cursor.at += 1
        cursor.take(".")
        numbers = _numbers(cursor)
        made = _rows(cursor, numbers) if numbers else None
    else:
        first = cursor.tokens[cursor.at] if cursor.at < len(cursor.tokens) else None
        ordinal = first is not None and first.kind is TokenKind.ORDINAL
        numbers = _numbers(cursor) if ordinal or cursor.text() == "first" else []
        made = _rows(cursor, numbers) if numbers and cursor.take_any(_ROWS) else None
    if made is None:
        cursor.at = start
    return made


def _numbers(cursor: _Cursor) -> list[tuple[Number, Number]]:
    found: list[tuple[Number, Number]] = []
    while True:
        cursor.take_any(_ROWS)
        first = _row_number(cursor)
        if first is None:
            return found
        last = first
        if cursor.text() in _DASHES:
            back = cursor.at
            cursor.at += 1
            cursor.take_any(_ROWS)
            other = _row_number(cursor)
            if other is None:
                cursor.at = back
            else:
                last = other
        found.append((first, last))
        # `Rep Rows 2 and 3 5 more times`: the last number is no row.
        if cursor.text() not in _AND or not _another(cursor):
            return found
        cursor.take_any(_AND)


def _row_number(cursor: _Cursor) -> Number | None:
    if cursor.text() == "first":
        place = cursor.tokens[cursor.at].place
        cursor.at += 1
        return Number(value=(1,), spelling="first", place=place)
    number = cursor.number()
    if number is not None:
        cursor.at += 1
    return number


def _another(cursor: _Cursor) -> bool:
    """Whether another row follows an `and`, not another count of times."""
    i = 1
    while cursor.text(i) in _AND | _ROWS:
        i += 1
    at = cursor.at + i
    if at >= len(cursor.tokens) or cursor.tokens[at].kind is TokenKind.WORD:
        return False
    return (
        cursor.text(i + 1) not in {"more", "times", "time"} and cursor.tokens[at].number is not None
    )


def _rows(cursor: _Cursor, numbers: list[tuple[Number, Number]]) -> RepeatRows:
    first, last = numbers[0][0], numbers[-1][1]
    if len(numbers) == 1:
        return RepeatRows(first=first, last=last)
    single = [
        one.value[0] for one, other in numbers if one is other and isinstance(one.value, tuple)
    ]
    if len(single) == len(numbers) and _follow(single):
        return RepeatRows(first=first, last=last)
    listed: list[Number] = []
    for one, other in numbers:
        listed += _between(one, other)
    return RepeatRows(first=first, last=last, listed=tuple(listed))


def _follow(values: list[Value]) -> bool:
    first = values[0]
    return isinstance(first, int) and values == list(range(first, first + len(values)))


def _between(first: Number, last: Number) -> list[Number]:
    a, b = first.value, last.value
    if first is last or not (isinstance(a, tuple) and isinstance(b, tuple)):
        return [first] if first is last else [first, last]
    low, high = a[0], b[0]
    if not isinstance(low, int) or not isinstance(high, int):
        return [first, last]
    middle = range(low + 1, min(high, low + 999))
    rows = (Number(value=(row,), spelling=str(row), place=first.place) for row in middle)
    return [first, *rows, last]


def _back(cursor: _Cursor) -> RepeatRows | None:
    """Read `last row`, `last 4 rows`, `previous 2 rows`, `this row`."""
    start = cursor.at
    if not cursor.take_any(frozenset(("last", "previous", "these", "this", "preceding", "prev"))):
        return None
    number = cursor.number()
    if number is not None:
        cursor.at += 1
    if cursor.take_any(_ROWS):
        return RepeatRows(back=number or ONE)
    cursor.at = start
    return None


def _piece(cursor: _Cursor) -> RepeatRows | None:
    """Read `same as Back to end of Row 30`."""
    start = cursor.at
    while cursor.at < len(cursor.tokens) and cursor.at - start < 5:  # noqa: PLR2004 - a name
        if cursor.text() in _STOPS | {
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
            return _none(cursor)
        cursor.at += 1
    name = " ".join(t.text for t in cursor.tokens[start : cursor.at])
    if not name or name in {"is", "before", "usual", "established", "you go"}:
        return _none(cursor)
    rows = _named(cursor)
    if rows is not None:
        return replace(rows, piece=name)
    back = cursor.at
    if cursor.take_any(frozenset(("to", "through", "until", "end", "of", "the", "including"))):
        number = _ordinal_row(cursor)
        if number is not None:
            return RepeatRows(first=ONE, last=number, piece=name)
        cursor.at = back
    return RepeatRows(piece=name)


def _ordinal_row(cursor: _Cursor) -> Number | None:
    start = cursor.at
    rows = _named(cursor)
    if rows is None:
        cursor.at = start
    return rows.last if rows else None


# --------------------------------------------------------------------------- how often, how long


def _how_often(cursor: _Cursor, made: RepeatRows) -> RepeatRows:
    """Read `5 more times`, `twice more`, `another 4 times`, `x 3`, `for 6 rows`."""
    start = cursor.at
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
    if cursor.take_any(_ROWS) and any(t.text in {"for", "another"} for t in lead):
        # Six rows of a one-row repeat are six times; of a longer one, a number of rows from here.
        one_row = made.first is not None and made.first is made.last and not made.listed
        if one_row or made.back == ONE:
            return replace(made, often=Times(number, more=True))
    cursor.at = start
    return made


def _how_long(cursor: _Cursor, made: RepeatRows) -> RepeatRows:
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
            return told
    if cursor.at == start:
        return made
    return made


def _until(clause: Tokens, made: RepeatRows) -> RepeatRows | None:
    numbers = [t for t in clause if t.number is not None]
    length = next(
        (t.number for t in numbers if t.number and t.number.kind is NumberKind.LENGTH), None
    )
    words = [t.text for t in clause]
    if length is not None:
        return replace(made, until_length=length)
    if words[0] == "for":
        return None
    for i, token in enumerate(clause):
        if token.number is None:
            continue
        if any(w in _ROWS for w in words[i + 1 : i + 3]) or (i and words[i - 1] in _ROWS):
            return replace(made, until_rows=token.number)
    if words[0] == "to" and len(words) > 1 and words[1] not in {"desired", "end", "length"}:
        return None
    said = " ".join(words[1:])
    return replace(made, until_words=said) if said else None


def _ending(cursor: _Cursor, made: RepeatRows) -> RepeatRows:
    """Read `ending with a WS row`, `ending with Row 4`, `end after a RS row`."""
    start = cursor.at
    if not cursor.take_any(frozenset(("ending", "end", "ends", "finishing", "finish"))):
        return made
    cursor.take_any(frozenset(("with", "after", "on", "by", "working", "a", "an", "the", "of")))
    side = _SIDES.get(cursor.text(), "")
    if side:
        cursor.at += 1
        cursor.take("side")
        cursor.take_any(_ROWS)
        return replace(made, ending=side)
    number = _ordinal_row(cursor)
    if number is not None:
        return replace(made, ending_row=number)
    cursor.at = start
    return made


def _manner(cursor: _Cursor, made: RepeatRows) -> RepeatRows:
    """Read `with B`, `in A`, `alternately`, `in patt`, `of Back`."""
    if cursor.take("alternately") or cursor.take("throughout"):
        return made
    start = cursor.at
    if cursor.text() in {"in", "as"} and cursor.text(1) in _EVEN | {"established", "est"}:
        cursor.take_any(_EVEN | {"in", "as", "est"})
        return made
    if cursor.text() in {"of", "from"} and cursor.text(1) not in {"", "the"} and not made.piece:
        name = cursor.tokens[cursor.at + 1]
        if name.kind is TokenKind.WORD and name.text not in {"pattern", "patt", "beg", "this"}:
            cursor.at += 2
            return replace(made, piece=name.text)
    if cursor.text() in {"with", "in", "using"}:
        colour = _colour(cursor)
        if colour is not None:
            return replace(made, extra=(*made.extra, colour))
    cursor.at = start
    return made


def _colour(cursor: _Cursor) -> Colour | None:
    """Read `with B`, `using CC`: one short name and no more."""
    if cursor.at + 1 >= len(cursor.tokens):
        return None
    name = cursor.tokens[cursor.at + 1]
    after = cursor.text(2)
    if name.kind is not TokenKind.WORD or after not in _STOPS | {""} or name.text in _EVEN:
        return None
    place = cursor.tokens[cursor.at].place.to(name.place)
    cursor.at += 2
    return Colour(name.text, place=place)
