"""Rows worked even in stripes: `Work 2 rows in B and 2 rows in C`, `[2 rows B, 2 rows A] 3 times`.

Which yarn a row is of changes nothing that is counted: such a line works so many rows even. Every
word of it is one of stripes, else the line says more and is read as any other.
"""

from dataclasses import field
from typing import Final, TypeAlias

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.language.number import Number, NumberKind, Value
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor, Tokens, read_named_rows
from stitchproof.language.read.steps.colours import is_yarn
from stitchproof.language.read.steps.reader import CLOSING, OPENING
from stitchproof.language.tree import Remark, RepeatRows, Times

Many: TypeAlias = tuple[int, ...]
"""A number of rows: one for all sizes, or one for each."""

_WORK: Final = word_set(
    "work working cont continue continuing even straight without shaping in of with using and then"
    " to a an further another more the following foll follows as stripe stripes striping sequence"
    " pattern patt colour color colours colors order turn each these last previous times time rep"
    " repeat from end always until have been completed worked"
)
_YARNS: Final = word_set(
    "join joining change changing switch fasten off cut break drop carry yarn main contrast"
)
_STITCHES: Final = word_set("st sts stitch stitches sc hdc dc htr tr every across around one")
_BEFORE_YARN: Final = word_set("in of with using straight even each")
_STRIPES: Final = word_set("stripe stripes striping sequence")
_EVEN: Final = word_set("even straight shaping")
_KNOWN: Final = _WORK | _YARNS | _STITCHES | STOPS | OPENING.keys() | CLOSING | {"*"}
_LONGEST: Final = 120  # tokens of such a line


@dataclass(slots=True)
class _Stripes:
    """What a line of stripes has told so far.

    Attributes
    ----------
    rows : list of Many
        Rows of each group that is open, the outermost first.
    order : list of (str, str)
        Rows and yarn of each stripe, as spelled.
    times : Many or None
        How often the sequence is worked, said before it.
    total : Many or None
        Rows in all, said before the sequence.
    until : Number or None
        The row that they end with.
    """

    rows: list[Many] = field(default_factory=lambda: [(0,)])
    order: list[tuple[str, str]] = field(default_factory=list)
    times: Many | None = None
    total: Many | None = None
    until: Number | None = None


def read_stripes(tokens: Tokens, *, several: bool) -> RepeatRows | None:
    """Read a line that works rows even in stripes.

    Parameters
    ----------
    tokens : tuple of Token
        The instruction without its label and its stated count.
    several : bool
        Whether the label covers several rows: it tells how many then.

    Returns
    -------
    RepeatRows or None
        None: the line says something else, or not how many rows.
    """
    if not tokens or len(tokens) > _LONGEST or not _may_be(tokens):
        return None
    cursor, told = Cursor(tokens), _Stripes()
    yarn = ""
    while cursor.at < len(tokens):
        token = tokens[cursor.at]
        if is_yarn(token) and token.written.isupper():
            yarn = _of_yarn(cursor, told)
        elif token.text in OPENING or token.text == "*":
            told.rows.append((0,))
            cursor.at += 1
        elif token.text in CLOSING:
            if not _close(cursor, told):
                return None
        elif not _number(cursor, told, yarn):
            if token.text not in _KNOWN:
                return None
            cursor.at += 1
    return _made(tokens, told, several=several)


def _may_be(tokens: Tokens) -> bool:
    """Whether a line names a yarn and rows, and works them even or in stripes."""
    words = [token.text for token in tokens]
    yarns = {token.text for token in tokens if is_yarn(token) and token.written.isupper()}
    often = sum(word in ROWS for word in words)
    told = bool((_STRIPES | _EVEN).intersection(words))
    return bool(yarns) and bool(often) and (told or min(len(yarns), often) > 1)


def _of_yarn(cursor: Cursor, told: _Stripes) -> str:
    """Take a yarn: that of the stripe before it, where that has none, or of the next."""
    yarn = cursor.tokens[cursor.at].written
    before = [token.text for token in cursor.tokens[: cursor.at]]
    cursor.at += 1
    while before and before[-1] in _BEFORE_YARN:
        before.pop()
    behind = before[-1:] and before[-1] in ROWS
    if told.order and (behind or not told.order[-1][1]):
        told.order[-1] = told.order[-1][0], yarn
    return yarn


def _number(cursor: Cursor, told: _Stripes, yarn: str) -> bool:
    """Read `2 rows`, `Rows 3 and 4`, `to end of Row 32`, `4 times more` at the cursor."""
    start = cursor.at
    if cursor.text() in ROWS:
        return _named(cursor, told)
    number = cursor.number()
    if number is None or cursor.tokens[start].kind is not TokenKind.NUMBER:
        return False
    many = _many(number)
    if many is None:
        return False
    before = cursor.tokens[start - 1].text if start else ""
    cursor.at += 1
    cursor.take_any(word_set("more further plain"))
    if cursor.take_any(ROWS):
        if before == "until":
            told.until = number
        elif before not in {"these", "last", "previous"}:
            _add(cursor, told, many, yarn)
        return True
    if cursor.text() in _STITCHES and many == (1,):
        return True  # "1tr in each tr"
    cursor.at = start
    return _often(cursor, told, many)


def _named(cursor: Cursor, told: _Stripes) -> bool:
    """Read `Rows 3 and 4`, so many rows; `Row 32` behind "to end of" is the last one."""
    before = {token.text for token in cursor.tokens[max(cursor.at - 3, 0) : cursor.at]}
    named = None if before & {"rep", "repeat", "as"} else read_named_rows(cursor)
    if named is None:
        return False
    if "end" in before or "to" in before:
        told.until = named.last
        return True
    first, last = (_many(n) if n is not None else None for n in (named.first, named.last))
    if first is None or last is None:
        return False
    rows = (len(named.listed),) if named.listed else _combined(last, first, -1)
    told.rows[-1] = _combined(told.rows[-1], rows if named.listed else _plus(rows, 1), 1)
    return True


def _add(cursor: Cursor, told: _Stripes, many: Many, yarn: str) -> None:
    """Take so many rows: of one stripe, of each yarn that follows, or of all stripes together."""
    spelled = cursor.tokens[cursor.at - 2].text
    if cursor.take("each"):
        cursor.take_any(word_set("in of with"))
        yarns = _yarns(cursor)
        told.order += [(spelled, one) for one in yarns]
        many = tuple(value * max(len(yarns), 1) for value in many)
    elif _in_stripes_behind(cursor):
        told.total = many
        return
    else:
        told.order.append((spelled, yarn))
    told.rows[-1] = _combined(told.rows[-1], many, 1)


def _in_stripes_behind(cursor: Cursor) -> bool:
    """Whether `straight in stripes as follows` comes before the next number."""
    for ahead in range(_LONGEST):
        text = cursor.text(ahead)
        if text in _STRIPES:
            return True
        if not text or text in {",", ".", ";"} or Cursor(cursor.tokens, cursor.at + ahead).number():
            return False
    return False


def _yarns(cursor: Cursor) -> list[str]:
    """Read `B, C and A`."""
    found: list[str] = []
    while cursor.at < len(cursor.tokens):
        token = cursor.tokens[cursor.at]
        if is_yarn(token) and token.written.isupper():
            found.append(token.written)
        elif token.text not in {",", "and", "&", "then"}:
            break
        cursor.at += 1
    return found


def _close(cursor: Cursor, told: _Stripes) -> bool:
    """Read the end of a bracket, and how often it is worked."""
    cursor.at += 1
    if len(told.rows) == 1:
        return False
    often = _times(cursor)
    inner = told.rows.pop()
    told.rows[-1] = _combined(told.rows[-1], _product(inner, often[0] if often else (1,)), 1)
    return True


def _times(cursor: Cursor) -> tuple[Many, bool] | None:
    """Read `3 times`, `twice more`, `4 (4, 5) times more`: how often, and whether it is more."""
    start = cursor.at
    cursor.take("x")
    number = cursor.number()
    many = _many(number) if number is not None else None
    if many is None or number is None:
        cursor.at = start
        return None
    cursor.at += 1
    more = cursor.take("more")
    words = number.spelling.split(" ")[0]
    if not cursor.take_any(word_set("times time")) and words not in {"once", "twice", "thrice"}:
        cursor.at = start
        return None
    more = cursor.take("more") or more
    return many, more


def _often(cursor: Cursor, told: _Stripes, many: Many) -> bool:
    """Read how often what was told, or what is told next, is worked."""
    before = [token.text for token in cursor.tokens[max(cursor.at - 6, 0) : cursor.at]]
    often = _times(cursor)
    if often is None:
        return False
    _ = many
    if "*" in before and "from" in before:
        if len(told.rows) == 1:
            return False
        inner = told.rows.pop()
        told.rows[-1] = _combined(told.rows[-1], _product(inner, _plus(often[0], 1)), 1)
    elif {"these", "last"} & set(before):
        told.rows[-1] = _product(told.rows[-1], _plus(often[0], 1))
    else:
        told.times = often[0]
    return True


def _made(tokens: Tokens, told: _Stripes, *, several: bool) -> RepeatRows | None:
    place = tokens[0].place.to(tokens[-1].place)
    rows: Many = (0,)
    for group in told.rows:
        rows = _combined(rows, group, 1)
    total = told.total or _product(rows, told.times or (1,))
    if not told.order and not several:
        return None
    extra = (Remark(_in_words(told, tokens), place),) if told.order else ()
    if several:
        return RepeatRows(extra=extra, place=place)
    if told.until is not None:
        return RepeatRows(until_rows=told.until, extra=extra, place=place)
    often = Times(_number_of(total, place), more=True) if min(total) > 0 else None
    return None if often is None else RepeatRows(often=often, extra=extra, place=place)


def _in_words(told: _Stripes, tokens: Tokens) -> str:
    """Say the stripes in one order of words, without a stitch that other terms call otherwise."""
    words = {token.text for token in tokens}
    rows = "rnds" if words & {"rnd", "rnds", "round", "rounds"} else "rows"
    stripes = [f"{many} {rows} {yarn}".rstrip() for many, yarn in told.order]
    return f"in stripes of {', '.join(stripes)}"


# --------------------------------------------------------------------------- numbers


def _many(number: Number) -> Many | None:
    """Give the values of a whole number that every size has; None for any other."""
    if number.kind is NumberKind.LENGTH or not isinstance(number.value, tuple):
        return None
    values = tuple(int(v) for v in number.value if isinstance(v, int))
    return values if len(values) == len(number.value) else None


def _product(one: Many, other: Many) -> Many:
    wide, many = _alike(one, other)
    return tuple(a * b for a, b in zip(wide, many, strict=True))


def _combined(one: Many, other: Many, by: int) -> Many:
    """Add `other`, or take it away."""
    wide, many = _alike(one, other)
    return tuple(a + b * by for a, b in zip(wide, many, strict=True))


def _plus(many: Many, more: int) -> Many:
    return tuple(value + more for value in many)


def _alike(one: Many, other: Many) -> tuple[Many, Many]:
    """Give both a value for each size that one of them has one for."""
    length = max(len(one), len(other))
    wide = one * length if len(one) == 1 else one
    many = other * length if len(other) == 1 else other
    return wide[:length], many[:length]


def _number_of(many: Many, place: Span) -> Number:
    values: tuple[Value, ...] = tuple(many)
    first, *others = map(str, many)
    spelling = f"{first} ({', '.join(others)})" if others else first
    return Number(value=values, spelling=spelling, place=place)
