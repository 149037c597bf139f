"""Naming rows inside an instruction: `Rows 3-6`, `Rows 2 and 3`, `2nd row`."""

from typing import Final, TypeAlias

from stitchproof.base.records import dataclass
from stitchproof.language.number import Number, Value
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.tree import RepeatRows

Tokens: TypeAlias = tuple[Token, ...]

ROWS: Final = frozenset(("row", "rows", "rnd", "rnds", "round", "rounds", "r"))
_DASHES: Final = frozenset(("-", "–", "—", "to", "through", "thru"))
_AND: Final = frozenset((",", "and", "&", "+"))
STOPS: Final = frozenset((",", ".", ";", ":"))


@dataclass(slots=True)
class Cursor:
    """Where the reader stands.

    Attributes
    ----------
    tokens : tuple of Token
        The words.
    at : int
        The next one.
    begins : int
        Number of the first row that the line is of, alike in all sizes; 0: not known.
    """

    tokens: Tokens
    at: int = 0
    begins: int = 0

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
        return all(t.text in STOPS for t in self.tokens[self.at :])


def read_named_rows(cursor: Cursor) -> RepeatRows | None:
    """Read `Rows 3-6`, `Rows 2 and 3`, `2nd row`, `rows 2, 3 and 5`."""
    start = cursor.at
    if cursor.text() in ROWS:
        cursor.at += 1
        cursor.take(".")
        numbers = _numbers(cursor)
        made = _rows(numbers) if numbers else None
    else:
        first = cursor.tokens[cursor.at] if cursor.at < len(cursor.tokens) else None
        ordinal = first is not None and first.kind is TokenKind.ORDINAL
        numbers = _numbers(cursor) if ordinal or cursor.text() == "first" else []
        made = _rows(numbers) if numbers and cursor.take_any(ROWS) else None
    if made is None:
        cursor.at = start
    return made


def read_bare_rows(cursor: Cursor) -> RepeatRows | None:
    """Read `3 through 9` behind "repeat", `3` alone behind "same as": rows without their name."""
    start = cursor.at
    first, last = _row_number(cursor), None
    if first is not None and cursor.text() in _DASHES:
        cursor.at += 1
        last = _row_number(cursor)
    elif first is not None and cursor.done():
        last = first
    counted = cursor.number() is not None or cursor.text() in STOPS | {"", "until", "for"}
    if first is None or last is None or not counted:
        cursor.at = start
        return None
    return RepeatRows(first=first, last=last)


def _numbers(cursor: Cursor) -> list[tuple[Number, Number]]:
    found: list[tuple[Number, Number]] = []
    while True:
        cursor.take_any(ROWS)
        first = _row_number(cursor)
        if first is None:
            return found
        last = first
        if cursor.text() in _DASHES:
            back = cursor.at
            cursor.at += 1
            cursor.take_any(ROWS)
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


def _row_number(cursor: Cursor) -> Number | None:
    if cursor.text() == "first":
        place = cursor.tokens[cursor.at].place
        cursor.at += 1
        return Number(value=(1,), spelling="first", place=place)
    number = cursor.number()
    if number is not None:
        cursor.at += 1
    return number


def _another(cursor: Cursor) -> bool:
    """Whether another row follows an `and`, not another count of times."""
    i = 1
    while cursor.text(i) in _AND | ROWS:
        i += 1
    at = cursor.at + i
    if at >= len(cursor.tokens) or cursor.tokens[at].kind is TokenKind.WORD:
        return False
    return (
        cursor.text(i + 1) not in {"more", "times", "time"} and cursor.tokens[at].number is not None
    )


def _rows(numbers: list[tuple[Number, Number]]) -> RepeatRows:
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
