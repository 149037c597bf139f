"""Which brackets are a list of sizes: `70 (76, 84)`, `9 (9-11-11)`, `(40, 44, 48)`.

A bracket behind a number is its list if it holds nothing but numbers. A bracket with one bare
number may also be the count that a line states ("sc, inc x 6 (24)"); how many sizes there are, and
what stands before and behind, decides. Every list is looked at over a bounded stretch, so the time
grows in a line with the text.
"""

from typing import Final, TypeAlias

from stitchproof.language.number import Value
from stitchproof.language.read.numerals import LENGTHS, Raw, word_set

Listed: TypeAlias = tuple[tuple[Value, ...], int]  # values, index behind the last raw

_MOST: Final = 48  # sizes in one bracket
_CLOSING: Final = {"(": ")", "[": "]", "{": "}"}
_SEPARATORS: Final = frozenset((",", ":", ";", "-", "–", "—", "/"))
_DASHES: Final = frozenset(("-", "–", "—"))
# A number behind these never ends a line as a count's neighbour: "Ch 97 (129).", "Row 42 (38)".
_LISTING: Final = word_set(
    "ch chain chs row rows rnd rnds round rounds size sizes of to for fsc fdc fhdc make"
)
_AGAIN: Final = word_set("rep reps rpt repeat repeats repeating as like")
_ROW_WORDS: Final = word_set("row rows rnd rnds round rounds")
_UNITS: Final = word_set(
    "st sts stitch stitches sc dc hdc tr htr ch chs sp sps times time rows row rnds rounds cm in"
    " inches loops lps ss single half double treble chain chains shell shells cluster clusters"
    " fan fans group groups motif motifs scallop scallops"
)
# `(3, 4 sts)` is a list; `ch 3, 4 sts` is two things.
_BEFORE_A_COUNT: Final = frozenset(("(", "[", "{", "<", "–", "—", "-", "=", ":"))
_TIMES: Final = frozenset(("time", "times"))


def number_at(raws: list[Raw], i: int, sizes: int | None) -> Listed | None:
    """Read the number that begins at `i`, with its list of sizes; None if none begins there."""
    raw = raws[i]
    if raw.kind == "number":
        if raw.formula is not None:
            return (), i + 1
        return _bare(raws, i, sizes) or _from_number(raws, i, sizes)
    if raw.text in _DASHES:
        return _bare(raws, i, sizes) or _from_dash(raws, i, sizes)
    if raw.text in _CLOSING:
        return _whole(raws, i, sizes)
    return None


def ordinals_at(raws: list[Raw], i: int, sizes: int | None) -> Listed:
    """Read `3rd`, and with it the list of sizes in `3rd (4th, 5th)`: where it ends too."""
    alone: Listed = (raws[i].value,), i + 1
    if raws[i].kind != "ordinal" or sizes == 1:
        return alone
    values, at = list(alone[0]), i + 1
    while at < len(raws) and raws[at].text in _CLOSING:
        closing, inner = _CLOSING[raws[at].text], at + 1
        while inner + 1 < len(raws) and raws[inner].kind == "ordinal" and len(values) < _MOST:
            values.append(raws[inner].value)
            inner += 2
            if raws[inner - 1].text == closing or raws[inner - 1].text not in _SEPARATORS:
                break
        if inner == at + 1 or raws[inner - 1].text != closing:
            return alone
        at = inner
    many = len(values) > 2 if sizes is None else len(values) == sizes  # noqa: PLR2004 - `2nd (3rd)`
    return (tuple(values), at) if many else alone


def _from_number(raws: list[Raw], i: int, sizes: int | None) -> Listed:
    values: tuple[Value, ...] = (raws[i].value,)
    if sizes == 1:
        return values, i + 1
    stray = _stray_comma(raws, i, sizes)
    if stray is not None:
        return stray
    if _units_bracket(raws, i + 1) is not None:
        return _one_bracket_each(raws, i)
    more, at = _brackets(raws, i + 1, after=True)
    if not more or _are_ranges(raws, i, at):
        return values, i + 1
    if len(more) == 1 and _is_count(raws, i, at, (values[0], more[0]), sizes):
        return values, i + 1
    whole = sizes is not None and len(more) == sizes
    if whole and i and raws[i - 1].text in {"x", "times"}:
        return values, i + 1  # `x 9 (-, 54, 54)`: so often, and what it comes to
    if whole and at < len(raws) and raws[at].text in _TIMES | {"more"}:
        return values, i + 1  # `rep Rows 2-4 (20, 30, 40) more times`
    if whole and _is_made(raws, i) and at == len(raws):
        return values, i + 1  # `inc 2 [32/42/52]`, with which the line ends
    return _alternating(raws, at, values + more, sizes) or (values + more, at)


def _are_ranges(raws: list[Raw], i: int, end: int) -> bool:
    """Whether `6 (7-8, 9-10)` behind `5-` is a range a size: no list of numbers."""
    if i < 2 or raws[i - 1].text not in _DASHES or raws[i - 2].kind != "number":  # noqa: PLR2004
        return False
    inside = [raw.text for raw in raws[i + 2 : end - 1]]
    return len(inside) > _ONE_RANGE and all(
        (text in _DASHES) == (at % 4 == 1) and (text in _SEPARATORS) == (at % 2 == 1)
        for at, text in enumerate(inside)
    )


_ONE_RANGE: Final = 3  # raws of `7-8`


def _brackets(raws: list[Raw], at: int, *, after: bool = False) -> Listed:
    """Read bracket after bracket: `(85, 95) [111] {135, 145}`, `(66, 72) (84, 90)`."""
    values: tuple[Value, ...] = ()
    seen: set[str] = set()
    while at < len(raws) and raws[at].text in _CLOSING and len(values) < _MOST:
        opened = raws[at].text
        inner = _bracket(raws, at, after=after or bool(values))
        if inner is None or (opened == "{" and not values and len(inner[0]) == 1):
            break
        if opened in seen and len(inner[0]) == 1:  # `(28) (26)` are two counts
            break
        seen.add(opened)
        values, at = values + inner[0], inner[1]
    return _slashed(raws, at, values) if values else (values, at)


def _slashed(raws: list[Raw], at: int, values: tuple[Value, ...]) -> Listed:
    """Read `/27/` behind `21 [23] {25}`."""
    if at + 2 >= len(raws) or raws[at].text != "/" or raws[at + 2].text != "/":
        return values, at
    number = raws[at + 1]
    if number.kind != "number" or number.formula is not None:
        return values, at
    return (*values, number.value), at + 3


def _bracket(raws: list[Raw], at: int, *, after: bool = False) -> Listed | None:
    """Read one bracket that holds numbers and nothing else; `after` others: dashes alone too."""
    closing = _CLOSING.get(raws[at].text)
    if closing is None:
        return None
    values: list[Value] = []
    parted = True
    at += 1
    while at < len(raws) and len(values) < _MOST:
        raw = raws[at]
        if raw.kind == "number" and raw.formula is None:
            values.append(raw.value)
        elif raw.text in _DASHES:
            values.append(None)
        else:
            return None
        at += 1
        if raw.kind == "number" and at < len(raws) and raws[at].text in _TIMES:
            at += 1  # `once (twice, 3 times)`
        if at < len(raws) and raws[at].text == closing:
            absent = len(values) > 1 and all(value is None for value in values)
            return None if absent and not (after and parted) else (tuple(values), at + 1)
        if at >= len(raws) or raws[at].text not in _SEPARATORS:
            return None
        parted = parted and raws[at].text not in _DASHES  # `(- - -)` is a line
        at += 1
    return None


def _is_count(
    raws: list[Raw], i: int, end: int, pair: tuple[Value, Value], sizes: int | None
) -> bool:
    """Whether `12 (12)` is a number with a stated count behind it, not two sizes."""
    if _is_length_of_chain(raws, i) and [raw.text for raw in raws[end:]] in ([], ["."], [";"]):
        return True
    before = raws[i - 1].text if i else ""
    if sizes == len(pair):  # `(dc 8, inc) x 6 [60]`: no size makes ten times another's
        return before == "x" and end == len(raws) and not _near(pair)
    if before == "x" and (end == len(raws) or raws[end].text not in _TIMES):
        return True
    rest = [raw.text for raw in raws[end : end + 2]]
    numbered = end < len(raws) and raws[end].kind == "number"  # `60 (60) 66 (66)`
    if pair[0] == pair[1] and not numbered and not set(rest[:1]) & (_UNITS | LENGTHS.keys()):
        return True
    if rest not in ([], ["."], [";"], [","]):
        return False
    if before == "*" or raws[i].text in {"once", "twice"}:
        return True
    if sizes is not None:
        return before not in _LISTING or not _near(pair)
    if before in _ROW_WORDS and i > 1 and raws[i - 2].text in _AGAIN:
        return True  # `repeat row 52 (5)`: which row is worked again seldom hangs on the size
    if before in _ROW_WORDS or (before in {"&", "and", "-", "–"} and _names_rows(raws, i)):
        return not _near(pair)  # `alternate rows 2 & 3 (30)`
    return bool(before) and raws[i - 1].kind == "word" and before not in _LISTING


def _is_length_of_chain(raws: list[Raw], i: int) -> bool:
    """Whether a number names a chain by its length: `join in top of ch-3 (24)`."""
    at = i - 1
    at -= at > 0 and raws[at].text in _DASHES
    if at < 1 or raws[at].text not in _CHAINS:
        return False
    at -= 1
    while at > 0 and raws[at].text in _NAMED_CHAIN:
        at -= 1
    return raws[at].text == "of"


_CHAINS: Final = word_set("ch chain")
_NAMED_CHAIN: Final = word_set("the beg beginning starting turning initial first same")


def _is_made(raws: list[Raw], i: int) -> bool:
    """Whether the word before a number is of what is made: `inc 2`, `sc 5`; no `ch 20`."""
    before = raws[i - 1] if i else None
    return before is not None and before.kind == "word" and before.text not in _LISTING


def _names_rows(raws: list[Raw], i: int) -> bool:
    """Whether a number is the last of rows that are named: `rows 2 & 3`."""
    return i > 2 and raws[i - 2].kind == "number" and raws[i - 3].text in _ROW_WORDS  # noqa: PLR2004


def _near(pair: tuple[Value, Value]) -> bool:
    """Whether `10 (12)` are two sizes of one thing rather than `1 (24)`, a chain and a count."""
    one, other = pair
    if one is None or other is None:
        return False
    return min(one, other) > 3 and max(one, other) < 2 * min(one, other)  # noqa: PLR2004


def _alternating(
    raws: list[Raw], at: int, values: tuple[Value, ...], sizes: int | None
) -> Listed | None:
    """Read `60 (60) 66 (66) 70`, only where the sizes then come out."""
    if sizes is None:
        return None
    while at < len(raws) and raws[at].kind == "number" and len(values) < sizes:
        values = (*values, raws[at].value)
        at += 1
        inner = _bracket(raws, at) if at < len(raws) else None
        if inner is not None and len(values) + len(inner[0]) <= sizes:
            values, at = values + inner[0], inner[1]
    return (values, at) if len(values) == sizes else None


def _stray_comma(raws: list[Raw], i: int, sizes: int | None) -> Listed | None:
    """Read `3, (3, 4)`; `Ch 43, (85)` and `42, (84) sc` where there are two sizes."""
    if i + 2 >= len(raws) or raws[i + 1].text != "," or raws[i + 2].text != "(":
        return None
    inner = _bracket(raws, i + 2, after=True)
    if inner is None:
        return None
    if len(inner[0]) == 1 and not (sizes == 2 and _are_two(raws, i, inner)):  # noqa: PLR2004
        return None
    if sizes is not None and len(inner[0]) + 1 != sizes:
        return None
    return (raws[i].value, *inner[0]), inner[1]


def _are_two(raws: list[Raw], i: int, inner: Listed) -> bool:
    """Whether `42, (84)` are two sizes of one thing, by what stands beside and their values."""
    (other,), end = inner
    one = raws[i].value
    before, after = raws[i - 1].text if i else "", raws[end].text if end < len(raws) else ""
    if before not in _LISTING | _BEFORE_A_COUNT and after not in _UNITS | {"more"}:
        return False
    values = (one, other)
    if None in values or one == other:
        return False
    return max(one or 0, other or 0) <= _WIDEST * min(one or 0, other or 0)


_WIDEST: Final = 4  # times the smaller of two sizes of one thing


def _from_dash(raws: list[Raw], i: int, sizes: int | None) -> Listed | None:
    """Read `- (-, 2, 4)`: nothing in the first size."""
    if i + 1 >= len(raws) or raws[i + 1].text not in {"(", "["} or sizes == 1:
        return None
    more, at = _brackets(raws, i + 1, after=True)
    if more and sizes is not None and len(more) + 1 < sizes:
        return _alternating(raws, at, (None, *more), sizes)  # `- (-) 182 (196) 210`
    if not more or (sizes is not None and len(more) + 1 != sizes):
        return None
    if sizes is None and (len(more) == 1 or not any(more)):
        return None
    return (None, *more), at


def _whole(raws: list[Raw], i: int, sizes: int | None) -> Listed | None:
    """Read `(40, 44, 48)` with every size inside."""
    inner = _bracket(raws, i)
    if inner is None or len(inner[0]) < 2 or sizes == 1:  # noqa: PLR2004 - `(24)` is a count
        return None
    if sizes is not None and len(inner[0]) != sizes:
        return None
    return None if sizes is None and raws[i].text == "{" else inner


def _bare(raws: list[Raw], i: int, sizes: int | None) -> Listed | None:
    """Read `20, 22, 24 sts`, `20: 22: 24 sts`, `-, 22, 24 sts`: one number a size, no bracket."""
    if sizes is None or not 1 < sizes < _MOST:
        return None
    asked, sizes = sizes, _slashed_numbers(raws, i, sizes)
    if i + 2 * sizes - 1 > len(raws):
        return None
    parting = raws[i + 1].text
    if parting not in _BARE:
        return None
    stretch = raws[i : i + 2 * sizes - 1]
    numbers, partings = stretch[::2], stretch[1::2]
    if any(raw.text != parting for raw in partings) or not _are_values(numbers, parting):
        return None
    end = i + 2 * sizes - 1
    before, after = raws[i - 1].text if i else ".", raws[end].text if end < len(raws) else ""
    if sizes == 2 and parting == "/":  # noqa: PLR2004
        if not _are_two_slashed(numbers, before, after):
            return None
    elif not _is_bare_list(before, after, parting, sizes) or after == parting:
        return None
    if sizes != asked and after not in _UNITS and before not in _BEFORE_BARE:
        return None
    return tuple(raw.value if raw.kind == "number" else None for raw in numbers), end


def _slashed_numbers(raws: list[Raw], i: int, sizes: int) -> int:
    """Count `20/20/22/24`, which is a list even where a size is missing; else give the sizes."""
    end = i
    while end + 2 < len(raws) and raws[end + 1].text == "/" and raws[end + 2].kind == "number":
        end += 2
    many = (end - i) // 2 + 1
    return many if min(many, sizes) >= _LEAST_SLASHED and many < _MOST else sizes


_LEAST_SLASHED: Final = 3  # `22/24` may be a fraction, and `5/6/24` of one size a date


def _are_two_slashed(numbers: list[Raw], before: str, after: str) -> bool:
    """Whether `22/24 sts` are two sizes: no fraction, no length, no rows, no date."""
    whole = all(raw.kind == "number" and raw.value is not None and raw.value > 1 for raw in numbers)
    counted = after in _UNITS - LENGTHS.keys() or before in _BEFORE_BARE
    return whole and counted and before not in _ROWS | {"/"} and after != "/"


def _are_values(raws: list[Raw], parting: str) -> bool:
    """Whether all are numbers, or dashes for sizes that have none; a sign between tells which."""
    numbers = [raw for raw in raws if raw.kind == "number"]
    if not numbers or any(raw.formula is not None for raw in numbers):
        return False
    dashed = parting == "," and all(raw in numbers or raw.text in _DASHES for raw in raws)
    return len(numbers) == len(raws) or dashed


def _is_bare_list(before: str, after: str, parting: str, sizes: int) -> bool:
    """Whether numbers with one sign between each are the sizes, not rows or a range."""
    if (before in _ROWS and after not in _TIMES) or (before in _SEPARATORS and before == parting):
        return False
    unit = after in _UNITS | LENGTHS.keys()
    if sizes == 2:  # noqa: PLR2004 - `3, 4 sts` and `80-84` may be two of a row
        return parting == "," and unit and before in _BEFORE_A_COUNT
    if parting not in _ALSO_BETWEEN:
        return True
    opened = before in _CLOSING and after[:1].isalpha() and after not in _GOING_ON
    return unit or before in _BEFORE_BARE or opened  # `(10, 10, 13, 13 V-sts + 2 dc)`


_BARE: Final = frozenset((",", ":", "-", "–", "/"))
_ALSO_BETWEEN: Final = frozenset((",", ":"))  # signs that stand between other things too
_ROWS: Final = word_set("row rows rnd rnds round rounds size sizes fit")
_GOING_ON: Final = word_set("and or to through only etc")
_BEFORE_BARE: Final = word_set("ch chain make next first last fsc fhdc fdc <")


def _units_bracket(raws: list[Raw], at: int) -> Listed | None:
    """Read `[3 times]`."""
    if at + 3 >= len(raws) or raws[at].text not in {*_CLOSING, "/"}:
        return None
    closing = _CLOSING.get(raws[at].text, "/")
    number, unit, close = raws[at + 1 : at + 4]
    if number.kind != "number" or unit.text not in _TIMES or close.text != closing:
        return None
    return (number.value,), at + 4


def _one_bracket_each(raws: list[Raw], i: int) -> Listed:
    """Read `twice [3 times]{4 times}/5 times/`: one kind of bracket a size."""
    values: tuple[Value, ...] = (raws[i].value,)
    at = i + 1
    while (inner := _units_bracket(raws, at)) is not None:
        values, at = values + inner[0], inner[1]
    return values, at
