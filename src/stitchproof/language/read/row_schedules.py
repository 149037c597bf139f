"""On which rows a thing is done: `every 4th row 3 times`, `on next 4 rows`, `5th and 6th row`."""

from collections.abc import Sequence
from itertools import groupby, pairwise
from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import ONE, Number, Value, plain
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, Cursor, read_named_rows
from stitchproof.language.tree import RepeatRows


@dataclass(frozen=True, slots=True)
class Phase:
    """One part of a schedule.

    Attributes
    ----------
    every : Number
        Every so many rows.
    times : Number or None
        How often, where said.
    first : Number or None
        The row it is done on for the first time, from here, if that is told apart.
    total : bool
        The first time is one of `times`.
    told : bool
        The author says which of the two holds.
    """

    every: Number
    times: Number | None = None
    first: Number | None = None
    total: bool = False
    told: bool = False


_TWO: Final = plain(2)
_LEADS: Final = word_set("on in of over for at")
_FOLLOWING: Final = word_set("foll following fol subsequent further")
_OTHER: Final = word_set("other alternate alt second rs ws 2nd")
_EVERY: Final = word_set("every each ev")
_TIMES: Final = word_set("times time x")
_TOTAL: Final = word_set("all total altogether")


def read_phase(cursor: Cursor) -> Phase | None:
    """Read one phase; None, and nothing taken, where none stands."""
    start = cursor.at
    cursor.take_any(_LEADS)
    cursor.take("the")
    made = _twice_first(cursor) or _next(cursor) or _every(cursor) or _nth(cursor)
    made = made or _numbered(cursor)
    if made is None:
        cursor.at = start
        return None
    if cursor.take("thereafter") and made.times is not None:
        return made
    past_as_before(cursor)
    return _with_times(cursor, made)


def past_as_before(cursor: Cursor) -> None:
    """Go past `as set`, `in the same way`, `, as Row 25,`."""
    start = cursor.at
    cursor.take(",")
    cursor.take_any(word_set("as like"))
    told = cursor.tokens[cursor.at - 1].text in {"as", "like"} if cursor.at else False
    cursor.take_any(word_set("in on for"))
    if told and cursor.take_any(ROWS) and cursor.number() is not None:
        cursor.at += 1
        cursor.take(",")
        return
    cursor.at = start
    for words in _AS_BEFORE:
        if cursor.take(*words):
            return


def read_rows_by_number(cursor: Cursor) -> tuple[Phase, ...]:
    """Read `Rows 8, 12 and 16`, `(Rnds 10, 15 and 20)`: rows by their numbers; empty: none stand.

    A schedule counts rows from the first that the line is of.
    """
    start = cursor.at
    closing = {"(": ")", "[": "]"}.get(cursor.text(), "")
    cursor.at += bool(closing)
    cursor.take_any(_LEADS)
    cursor.take("the")
    named = read_named_rows(cursor) if cursor.text() in ROWS and cursor.begins else None
    rows = _rows_of(named, cursor.begins) if named is not None else []
    if not rows or (closing and not cursor.take(closing)):
        cursor.at = start
        return ()
    return _in_gaps(rows)


def read_rows_of_these(cursor: Cursor) -> tuple[Phase, ...]:
    """Read `the 3rd row of these 9 and again on the 6th and 9th`; empty where none stands."""
    start = cursor.at
    cursor.take_any(_LEADS)
    cursor.take("the")
    first = _ordinal(cursor)
    cursor.take_any(ROWS)
    if first is None or not cursor.take("of", "these"):
        cursor.at = start
        return ()
    cursor.at += cursor.number() is not None
    cursor.take_any(ROWS)
    rows = [first]
    while True:
        here = cursor.at
        cursor.take_any(word_set(", and & again on in the at"))
        following = _ordinal(cursor) if cursor.at > here else None
        if following is None or following <= rows[-1]:
            cursor.at = here
            break
        rows.append(following)
        cursor.take_any(ROWS)
    return _in_gaps(rows)


def _ordinal(cursor: Cursor) -> int | None:
    """Give the row that one ordinal names, and go past it."""
    number = cursor.number()
    value = number.value if number is not None else None
    nth = cursor.at < len(cursor.tokens) and cursor.tokens[cursor.at].kind is TokenKind.ORDINAL
    if not nth or not isinstance(value, tuple) or len(value) != 1:
        return None
    cursor.at += 1
    return value[0] if isinstance(value[0], int) else None


def _in_gaps(rows: Sequence[int]) -> tuple[Phase, ...]:
    """Give rows, counted from the first, as so many rows apart."""
    gaps = [after - before for before, after in pairwise((0, *rows))]
    return tuple(Phase(plain(gap), plain(sum(1 for _ in alike))) for gap, alike in groupby(gaps))


def _rows_of(named: RepeatRows, begins: int) -> list[int]:
    """Count rows from the first one on; none where they are not told or lie before it."""
    ends = [n.value[0] for n in (named.first, named.last) if n and isinstance(n.value, tuple)]
    numbers = [n.value[0] for n in named.listed if isinstance(n.value, tuple)]
    low, high = ends if len(ends) == 2 else (None, None)  # noqa: PLR2004 - both ends are told
    if not numbers and isinstance(low, int) and isinstance(high, int):
        numbers = list(range(low, min(high, low + _MOST) + 1))
    rows = [n - begins + 1 for n in numbers if isinstance(n, int)]
    rising = all(before < after for before, after in pairwise((0, *rows)))
    return rows if rising and len(rows) == len(numbers) else []


_MOST: Final = 400  # rows that a schedule names


_AS_BEFORE: Final = (
    *(
        ("in", *the, same, way)
        for the in ((), ("the",))
        for same in ("same", "this")
        for way in ("way", "manner", "places", "fashion")
    ),
    ("as", "before"),
    ("as", "set"),
    ("as", "now", "set"),
    ("as", "given"),
    ("as", "established"),
)


def _with_times(cursor: Cursor, made: Phase) -> Phase:
    if made.times is not None:
        return made
    start = cursor.at
    cursor.take(",")
    cursor.take_any(word_set("for a total of another"))
    another = any(t.text == "another" for t in cursor.tokens[start : cursor.at])
    total = any(t.text == "total" for t in cursor.tokens[start : cursor.at])
    number = read_times(cursor)
    if number is None:
        cursor.at = start
        return _in_brackets(cursor, made)
    more = another or cursor.tokens[cursor.at - 1].text == "more" or cursor.take("more")
    if cursor.text() in {"in"} | _TOTAL and (cursor.text() in _TOTAL or cursor.text(1) in _TOTAL):
        cursor.take_any(word_set("in all total altogether"))
        total = True
    told = made.told or made.first is None or more or total
    return Phase(made.every, number, made.first, total, told)


def _in_brackets(cursor: Cursor, made: Phase) -> Phase:
    """Read `(3 front edge decs in all)` behind a phase: how often it is done."""
    start = cursor.at
    number = cursor.number() if cursor.take("(") else None
    if number is not None:
        for ahead in range(1, _FAR):
            if cursor.text(ahead) in _TOTAL | {"in"} and cursor.text(ahead) != "in":
                closes = cursor.text(ahead + 1) == ")"
                cursor.at += ahead + 2
                if closes:
                    return Phase(made.every, number, made.first, total=True, told=True)
                break
            if cursor.text(ahead) == ")":
                break
    cursor.at = start
    return made


_FAR: Final = 9  # tokens of such a bracket


def read_times(cursor: Cursor) -> Number | None:
    """Read `3 times`, `twice`, `x 3`, `5 more times`; None where no number of times stands."""
    start = cursor.at
    if cursor.take("x") and cursor.number() is not None:
        cursor.at += 1
        return cursor.tokens[cursor.at - 1].number
    cursor.at = start
    number = cursor.number()
    if number is None or cursor.tokens[cursor.at].kind is not TokenKind.NUMBER:
        return None
    spelled = cursor.text().split(" ")[0]
    cursor.at += 1
    if cursor.text() in {"more", "further"} and cursor.text(1) in _TIMES:
        cursor.at += 1
    if cursor.take_any(_TIMES) or spelled in {"once", "twice", "thrice"}:
        cursor.take_any(word_set("more"))
        return number
    cursor.at = start
    return None


def _every(cursor: Cursor) -> Phase | None:
    """Read `every 4th row`, `every other row`, `every foll 6th row`, `alternate rows`."""
    start = cursor.at
    every = cursor.take_any(_EVERY)
    cursor.take_any(_FOLLOWING)
    if not every and cursor.at == start and cursor.text() not in {"alternate", "alt"}:
        return None
    apart = _apart(cursor)
    if apart is None or (not every and cursor.at == start):
        cursor.at = start
        return None
    return Phase(apart)


def _apart(cursor: Cursor) -> Number | None:
    """Read `4th row`, `other row`, `row`, `4 rows`, `4th (4th, 6th) row`: how many rows apart."""
    start = cursor.at
    number: Number | None = ONE
    if cursor.take_any(_OTHER):
        number = _TWO
    elif cursor.number() is not None:
        number = _listed(cursor)
        cursor.take_any(word_set("th rd nd st foll following"))
    if not cursor.take_any(ROWS):
        cursor.at = start
        return None
    return number


def _listed(cursor: Cursor) -> Number | None:
    """Read a number, or ordinals for each size: `4th (4th, 6th)`."""
    first = cursor.number()
    token = cursor.tokens[cursor.at]
    cursor.at += 1
    if token.kind is not TokenKind.ORDINAL or cursor.text() not in {"(", "["}:
        return first
    values = [first.value[0]] if first and isinstance(first.value, tuple) else []
    while cursor.text() in {"(", "["}:  # `4th (4th, 3rd) (3rd, 2nd)`
        at = cursor.at + 1
        inside: list[Value] = []
        while at + 1 < len(cursor.tokens) and cursor.tokens[at].kind is TokenKind.ORDINAL:
            number = cursor.tokens[at].number
            inside += number.value[:1] if number and isinstance(number.value, tuple) else ()
            at += 1
            if cursor.tokens[at].text in {")", "]"}:
                break
            at += 1
        if not inside or at >= len(cursor.tokens) or cursor.tokens[at].text not in {")", "]"}:
            break
        values += inside
        cursor.at = at + 1
    if len(values) < 2:  # noqa: PLR2004 - no list behind it
        return first
    place = token.place.to(cursor.tokens[cursor.at - 1].place)
    spelled = f"{values[0]} ({', '.join(str(v) for v in values[1:])})"
    return Number(value=tuple(values), spelling=spelled, place=place)


def _next(cursor: Cursor) -> Phase | None:
    """Read `next 4 rows`, `next 3 RS rows`, `next row`, `next and every foll 4th row`."""
    start = cursor.at
    each = cursor.take("each", "of", "the") or cursor.take("each", "of")
    first = cursor.text() == "first" and each
    if not cursor.take_any(word_set("next this foll following") | ({"first"} if first else set())):
        cursor.at = start
        return None
    again = _and_every(cursor, ONE)
    if again is not None:
        return again
    number = cursor.number()
    if number is not None and cursor.tokens[cursor.at].kind is TokenKind.NUMBER:
        cursor.at += 1
    else:
        number = ONE
    other = cursor.take_any(_OTHER)
    if not cursor.take_any(ROWS):
        cursor.at = start
        return None
    again = _and_every(cursor, ONE) if number is ONE else None
    return again or Phase(_TWO if other else ONE, number)


def _nth(cursor: Cursor) -> Phase | None:
    """Read `5th row`, `3rd and every foll 6th row`, `row 5`."""
    start = cursor.at
    if cursor.at >= len(cursor.tokens) or cursor.tokens[cursor.at].kind is not TokenKind.ORDINAL:
        return None
    number = _listed(cursor)
    if number is None:
        return None
    again = _and_every(cursor, number)
    if again is not None:
        return again
    if not cursor.take_any(ROWS):
        cursor.at = start
        return None
    return _and_every(cursor, number) or Phase(number, ONE)


def _numbered(cursor: Cursor) -> Phase | None:
    """Read `Row 4 and then of every foll 4th row`; the number tells where it begins."""
    start = cursor.at
    if cursor.take_any(ROWS) and cursor.number() is not None:
        number = cursor.number()
        cursor.at += 1
        value = number.value[0] if number and isinstance(number.value, tuple) else None
        ahead = value - cursor.begins + 1 if isinstance(value, int) and cursor.begins else 1
        again = _and_every(cursor, plain(max(ahead, 1)))
        if again is not None:
            return replace(again, told=True)
    cursor.at = start
    return None


def _and_every(cursor: Cursor, first: Number) -> Phase | None:
    """Read `and every foll 4th row`, `and foll 4 rows` behind the first row."""
    start = cursor.at
    cursor.take(",")
    if not cursor.take_any(word_set("and & then")):
        cursor.at = start
        return None
    then = cursor.tokens[cursor.at - 1].text == "then"  # the next row, and these besides
    cursor.take("at", "the", "same", "edge")
    cursor.take_any(word_set("on at in of"))
    here = cursor.at
    if not cursor.take_any(_EVERY | _FOLLOWING):
        cursor.at = start
        return None
    if not {token.text for token in cursor.tokens[here : cursor.at]} & _EVERY:
        following = _following_rows(cursor)
        if following is not None:
            return Phase(ONE, following, first=first, told=True)
    apart = _apart(cursor)
    if apart is None:
        cursor.at = start
        return None
    return Phase(apart, first=first, told=then)


def _following_rows(cursor: Cursor) -> Number | None:
    """Read `4 rows` behind "next and foll": each of them, not every 4th."""
    start = cursor.at
    number = cursor.number()
    if number is not None and cursor.tokens[cursor.at].kind is TokenKind.NUMBER:
        cursor.at += 1
        if cursor.take_any(ROWS):
            return number
    cursor.at = start
    return None


def _twice_first(cursor: Cursor) -> Phase | None:
    """Read `3 times every 4th row`: the number of times first."""
    start = cursor.at
    number = read_times(cursor)
    if number is None:
        return None
    cursor.take_any(_LEADS)
    made = _every(cursor)
    if made is None:
        cursor.at = start
        return None
    return Phase(made.every, number)
