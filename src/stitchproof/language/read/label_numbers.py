"""The numbers of a row label: `7`, `3-8`, `3, 5 and 7`, `66 (66, 70)`, `9-10 (11-12)`."""

import re
from collections.abc import Callable
from typing import Final, TypeAlias

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import Number, Value
from stitchproof.language.read.openings import EMPHASIS, opens_strongly
from stitchproof.language.read.rows_by_size import rows_by_size
from stitchproof.language.tree import Label

ReadNumber: TypeAlias = Callable[[str, int], Number | None]
"""Give the number that some characters are, if they are one, placed from an offset on."""


@dataclass(frozen=True, slots=True)
class Source:
    """The text a label stands in, and who reads its numbers.

    Attributes
    ----------
    name, text : str
        Name of the text, and all of it.
    read : ReadNumber
        Reads a number.
    sizes : int
        How many sizes the manuscript has; 0: not known.
    names : tuple of str
        Names of the sizes, where the text has a line of them.
    """

    name: str
    text: str
    read: ReadNumber
    sizes: int = 0
    names: tuple[str, ...] = ()

    def number_at(self, start: int, end: int) -> Number | None:
        """Give the number written from one offset of the text to another, if there is one."""
        return self.read(self.text[start:end], start)


@dataclass(frozen=True, slots=True)
class Rows:
    """The numbers of a label, and where they end."""

    end: int
    listed: tuple[tuple[Number, Number], ...] = ()


ORDINAL_WORDS: Final = (
    "first second third fourth fifth sixth seventh eighth ninth tenth".split()  # noqa: SIM905
)
_ONE_NUMBER: Final = re.compile(
    r"\{[^{}\n]{1,200}\}|\d{1,9}(?![\d/])(?:st|nd|rd|th)?|[(\[]\s*\d[\d\s,:;-]*[)\]]"
)
_ROW: Final = r"(?:(?:r|rows?|rn?ds?|rounds?)\.?\s?)?\d+"  # `R10 (R12, R14)`
_BRACKET: Final = (
    rf"\s{{0,3}}[(\[{{]\s*(?:{_ROW}|[-–—])(?:\s*[,:;/]\s*(?:{_ROW}|[-–—])|[-–—]{_ROW})*\s*[)\]}}]"
)
_PER_SIZE: Final = re.compile(rf"(?:{_BRACKET})+(?:\s\d+(?:{_BRACKET})+)*", re.IGNORECASE)
_NAMED_ROW: Final = re.compile(r"[a-z]", re.IGNORECASE)
_TO: Final = re.compile(
    r"\)?\s*(?:[-–—]{1,2}|to\b|thru\b|through\b|a\b(?=\s\d))\s*"
    r"(?:(?:rows?|rn?ds?|rounds?|r)\b\.?\s*|r(?=\d))?(?=[\d{]|[(\[]\s*\d)",
    re.IGNORECASE,
)
_AND: Final = re.compile(
    r"\s*(?:,\s*(?:and\b|&)?|and\b|&|\+)\s*(?:rows?\s+|rnds?\s+)?(?=\d)", re.IGNORECASE
)


def read_rows(source: Source, start: int, end: int) -> Rows:
    """Read the numbers after `Rows`."""
    by_size = numbers_by_size(source, start, end)
    if by_size is not None:
        return by_size
    listed: list[tuple[Number, Number]] = []
    at = start
    while True:
        first, at = _one(source, at, end, lonely=True)
        if first is None:
            return Rows(at, tuple(listed))
        last = first
        to = _TO.match(source.text, at, end)
        if to:
            other, after = _one(source, to.end(), end, lonely=False)
            if other is not None and not _counts_stitches(source, (start, at), to, first, other):
                last, at = other, after
        listed.append((first, last))
        more = _AND.match(source.text, at, end)
        if more is None:
            return Rows(at, tuple(listed))
        at = more.end()


_SPACED: Final = re.compile(r"\s+[-–—]{1,2}\s+")
_SINGULAR: Final = re.compile(r"(?:row|rn?d|round)\.?\s*$", re.IGNORECASE)
_NEXT_LABEL: Final = re.compile(
    r"\n[\s>*_#•-]{0,8}(?:(?:rows?|rn?ds?|rounds?)\.?\s{0,3}|r\s?)(?P<row>\d{1,4})", re.IGNORECASE
)
_FAR: Final = 1200  # characters of a line and the one after it


def _counts_stitches(
    source: Source, places: tuple[int, int], to: re.Match[str], first: Number, other: Number
) -> bool:
    """Whether the number behind a dash is of stitches: `Rnd 2 - 2 sc in each st` is one round.

    Where that could be a range as well, the row after it decides.
    """
    start, at = places
    if not _SPACED.fullmatch(to.group()) or not opens_strongly(
        source.text[to.end() : to.end() + _FAR]
    ):
        return False
    one, two = (n.value[0] if isinstance(n.value, tuple) else None for n in (first, other))
    if not isinstance(one, int) or not isinstance(two, int) or two <= one:
        return True
    following = _NEXT_LABEL.search(source.text, at, at + _FAR)
    row = int(following["row"]) if following else 0
    if row in {one + 1, two + 1}:
        return row == one + 1
    return bool(_SINGULAR.search(source.text, max(0, start - 8), start))


def _one(source: Source, start: int, end: int, *, lonely: bool) -> tuple[Number | None, int]:
    """Read one number with its list of sizes; `lonely`: `5 (24)` is not two sizes."""
    slashed = _SLASHED.match(source.text, start, end)
    if slashed and len(slashed.group().split("/")) == source.sizes:
        return _by_slashes(source, slashed), slashed.end()
    dashed = _DASHED.match(source.text, start, end)  # `- (19, 21)`: none in the first size
    if dashed is not None:
        return source.number_at(start, dashed.end()), dashed.end()
    match = _ONE_NUMBER.match(source.text, start, end)
    if match is None:
        return None, start
    stop = match.end()
    sizes = _PER_SIZE.match(source.text, stop, end) if match.group()[0].isdigit() else None
    if sizes:
        several = len(re.findall(r"\d+|(?<!\d)[-–—]", sizes.group())) > 1
        if several or not lonely or source.sizes == 2:  # noqa: PLR2004 - `66 (70)`: two sizes
            number = source.number_at(start, sizes.end())
            named = several and _NAMED_ROW.search(sizes.group())
            if number is None and (named or not lonely):  # `10 (R12, R14)`, of a range `3-5 (7)`
                number = _told_by_digits(source, start, sizes.end())
            if number is not None:
                return number, sizes.end()
    listed = _COMMA_BEFORE.match(source.text, stop, end) if source.sizes > 1 else None
    if listed and len(re.findall(r"\d+", listed.group())) == source.sizes - 1:
        return _told_by_digits(source, start, listed.end()), listed.end()
    if match.group().isdigit():
        return plain_number(source, start, match.group()), stop
    return source.number_at(start, stop), stop


_DASHED: Final = re.compile(r"[-–—]\s?[(\[](?:\s?[,:;]?\s?(?:\d{1,4}|[-–—])(?!\d))+\s?[)\]]")
_COMMA_BEFORE: Final = re.compile(  # `Rows 3-14, (15, 16, 18, 19):`
    r",\s?[(\[]\s*\d{1,4}(?:\s*[,:;/]\s*\d{1,4})*\s*[)\]](?=\s*[:.–—-])"
)
_SLASHED: Final = re.compile(r"\d{1,4}(?:\s?/\s?\d{1,4})+(?!\s?[\d/])")


def _by_slashes(source: Source, match: re.Match[str]) -> Number:
    """Read `17/23/31`: a number for each size."""
    values = tuple(int(value) for value in match.group().split("/"))
    place = Span(source.name, match.start(), match.end())
    return Number(value=values, spelling=match.group(), place=place)


def _told_by_digits(source: Source, start: int, end: int) -> Number:
    words = source.text[start:end]
    values = tuple(int(digits) for digits in re.findall(r"\d+", words))
    return Number(value=values, spelling=words, place=Span(source.name, start, end))


def numbers_by_size(source: Source, start: int, end: int) -> Rows | None:
    """Read `9-10 (11-12)`, `14 (15-16, 17-18)`: rows for each size; None where none are told."""
    ordinals = _from_to(source, start, end)
    if ordinals is not None:
        return ordinals
    found = rows_by_size(source.text, start, end, source.sizes)
    if found is None:
        return None
    rows, stop = found
    spelling, place = source.text[start:stop], Span(source.name, start, stop)
    first, last = (
        Number(value=tuple(row[which] for row in rows), spelling=spelling, place=place)
        for which in (0, 1)
    )
    same = all(one == other for one, other in rows)
    return Rows(stop, ((first, first if same else last),))


_NTHS: Final = (
    r"\d{1,4}(?:st|nd|rd|th)\s?[(\[]\s*\d{1,4}(?:st|nd|rd|th)"
    r"(?:\s?[-–,:;/]\s?\d{1,4}(?:st|nd|rd|th))*\s*[)\]]"
)
_FROM_TO: Final = re.compile(
    rf"(?P<one>{_NTHS})\s+(?:to|through)\s+(?P<other>{_NTHS})", re.IGNORECASE
)


def _from_to(source: Source, start: int, end: int) -> Rows | None:
    """Read `26th [26th:29th] to 33rd [34th:38th]`: from where to where in each size."""
    match = _FROM_TO.match(source.text, start, end)
    if match is None:
        return None
    ends = [_each(source, match.start(group), match[group]) for group in ("one", "other")]
    counts = [len(one.value) for one in ends if isinstance(one.value, tuple)]
    return Rows(match.end(), ((ends[0], ends[1]),)) if counts == [source.sizes] * 2 else None


def _each(source: Source, at: int, words: str) -> Number:
    """Make a number of one ordinal a size."""
    values = tuple(int(value) for value in re.findall(r"\d+", words))
    return Number(value=values, spelling=words, place=Span(source.name, at, at + len(words)))


def plain_number(source: Source, at: int, words: str) -> Number:
    """Make the number that figures or an ordinal say: `7`, `3rd`, `first`, `24 (26, 26)th`."""
    if set(words) & set("([{"):
        listed = source.read(words.rstrip("abcdefghijklmnopqrstuvwxyz "), at)
        if listed is not None:
            return replace(listed, spelling=words, place=Span(source.name, at, at + len(words)))
    digits = re.match(r"\d+", words)
    value = int(digits.group()) if digits else ORDINAL_WORDS.index(words.lower()) + 1
    return Number(value=(value,), spelling=words, place=Span(source.name, at, at + len(words)))


def covering(rows: Rows) -> Label:
    """Make a label of its numbers: a range where they follow one another, else a list."""
    first, last = rows.listed[0][0], rows.listed[-1][1]
    if len(rows.listed) == 1:
        return Label("", first=first, last=last)
    named: list[Number] = []
    for one, other in rows.listed:
        named += (one,) if one is other else (one, other)
    values = [n.value for n in named]
    single = all(one is other for one, other in rows.listed)
    flat = [v[0] for v in values if isinstance(v, tuple) and len(v) == 1 and isinstance(v[0], int)]
    if single and flat == list(range(flat[0], flat[0] + len(named))) if flat else False:
        return Label("", first=first, last=last)
    return Label("", first=first, last=last, listed=_spread(rows))


def _spread(rows: Rows) -> tuple[Number, ...]:
    """Name every row of `3-5 and 7`."""
    listed: list[Number] = []
    for first, last in rows.listed:
        a, b = first.value, last.value
        if first is last or not (isinstance(a, tuple) and isinstance(b, tuple)):
            listed += (first,) if first is last else (first, last)
            continue
        low, high = a[0], b[0]
        assert isinstance(low, int)
        assert isinstance(high, int)
        listed += (
            Number(value=(row,), spelling=str(row), place=first.place)
            for row in range(low, min(high, low + 999) + 1)
        )
    return tuple(listed)


_FOR_SIZES: Final = re.compile(
    r"[(\[]\s*(?:to\s+)?(?:rows?\s+|rnds?\s+)?(?:\d+\s*[-–—]\s*)?(?P<row>\d{1,4})\s+for\s+"
    r"(?:sizes?\s+)?(?P<sizes>[^()\[\]\n]{1,60})[)\]]",
    re.IGNORECASE,
)


def ends_by_size(source: Source, label: Label, start: int, end: int) -> Number | None:
    """Read `(6-11 for L)` behind `Rows 6-9`: where the range ends in each size."""
    last = label.last.value if label.last else None
    told = _FOR_SIZES.search(source.text, start, end)
    if told is None or not isinstance(last, tuple) or len(last) != 1 or label.last is None:
        return None
    named = {n.strip() for n in re.split(r",|&|\band\b", told["sizes"]) if n.strip()}
    if not source.names or not named <= set(source.names):
        return None
    values = tuple(int(told["row"]) if name in named else last[0] for name in source.names)
    place = Span(source.name, label.last.place.start, told.end())
    return Number(value=values, spelling=source.text[place.start : place.end], place=place)


def how_many(numbers: list[Number]) -> Number:
    """Count the rows of `3rd to 5th neck rows`, which stand outside the count of the others."""
    one, other = values_of(numbers[0]), values_of(numbers[-1])
    size = max(len(one), len(other))
    ones, others = (v * size if len(v) == 1 else v for v in (one, other))
    pairs = zip(ones, others, strict=False)
    values = tuple(
        last - first + 1 if isinstance(first, int) and isinstance(last, int) else None
        for first, last in pairs
    )
    return Number(value=values, spelling=numbers[-1].spelling, place=numbers[-1].place)


def values_of(number: Number) -> tuple[Value, ...]:
    """Give the values of a number that is written out."""
    return number.value if isinstance(number.value, tuple) else ()


def worded_as(
    source: Source, place: tuple[int, int], label: Label, side: str, row: str = ""
) -> Label:
    """Give a label the words that stand from one offset to another."""
    words = source.text[place[0] : place[1]].strip()
    tail = EMPHASIS.match(words[-2:])
    words = words[: -len(tail.group())].rstrip() if tail and words.endswith(tail.group()) else words
    return Label(
        words=" ".join(words.split()).rstrip(".:;,–— "),
        first=label.first,
        last=label.last,
        listed=label.listed,
        span=label.span,
        round=row.lower().startswith(("rnd", "rd", "round")),
        side={"r": "RS", "w": "WS", "": ""}[side[:1].lower()],
        place=Span(source.name, place[0], place[1]),
    )


def before_work(source: Source, row: re.Match[str], end: int) -> int:
    """Give where the number of `Round 1- 6 sc in magic ring` ends; the end where none is so."""
    several = row["row"].lower().endswith("s")
    found = None if several else _DASHED_OFF.match(source.text, row.end(), end)
    return found.end("number") if found is not None else end


_DASHED_OFF: Final = re.compile(
    r"\s*(?P<number>\d{1,3})[-–—]\s+(?=\d{1,3}\s?(?:sc|h?dc|h?tr|inc|dec|sts?)\b)", re.IGNORECASE
)
