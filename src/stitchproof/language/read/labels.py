"""Row labels: everything a designer writes before the colon.

`Row 7 (RS):`, `3rd row:`, `5.`, `Rows 7–66 (66, 70):`, `Next 8 rows:`, `Foundation row`, `Dec Row
2:`, `Shoulders:`. A label is read from the text itself; only its numbers are asked of the lexer,
through `NumberAt`, so that braces and lists of sizes are the same numbers as everywhere else.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, TypeAlias

from stitchproof.base.place import Span
from stitchproof.language.number import ONE, Number
from stitchproof.language.read.openings import (
    EMPHASIS,
    WORD_NUMBERS,
    holds_a_verb,
    opens_with_a_verb,
    skip_marks,
)
from stitchproof.language.tree import Label

NumberAt: TypeAlias = Callable[[int, int], Number | None]
"""Give the number written from one offset of the text to another, if those characters are one."""


@dataclass(frozen=True, slots=True)
class Source:
    """The text a label stands in, and who reads its numbers.

    Attributes
    ----------
    name, text : str
        Name of the text, and all of it.
    number_at : NumberAt
        Reads a number.
    sizes : int
        How many sizes the manuscript has; 0: not known.
    """

    name: str
    text: str
    number_at: NumberAt
    sizes: int = 0


@dataclass(frozen=True, slots=True)
class _Rows:
    """The numbers of a label, and where they end."""

    end: int
    listed: tuple[tuple[Number, Number], ...] = ()


_ROW: Final = r"(?P<row>(?:rows?|rnds?|rounds?|steps?)(?![a-z])|r(?=[\s.]?\d))\.?"
_ORDINAL_WORDS: Final = (
    "first second third fourth fifth sixth seventh eighth ninth tenth".split()  # noqa: SIM905
)
_ORDINAL: Final = rf"(?:\d{{1,4}}\s?(?:st|nd|rd|th|d)\b|\b(?:{'|'.join(_ORDINAL_WORDS)})\b)"
_NUMBERED: Final = re.compile(rf"(?:(?:RS|WS)\s+)?{_ROW}\s*(?=[\d{{(\[])", re.IGNORECASE)
_BY_ORDINAL: Final = re.compile(
    rf"(?:the\s+)?(?P<all>{_ORDINAL}(?:\s*(?:,|and|&|to|-|–|—)\s*{_ORDINAL})*)\s+{_ROW}",
    re.IGNORECASE,
)
_NEXT: Final = re.compile(
    rf"(?:next|following)\s+(?P<often>[^\n:.A-Za-z]{{1,60}}?\s*|(?:{'|'.join(WORD_NUMBERS)})\s+)?{_ROW}(?!\s*\d)",
    re.IGNORECASE,
)
_KNOWN_NAMES: Final = (
    r"foundation|set[\s-]?up|last|final|dec(?:rease)?|inc(?:rease)?|shaping|base|joining|edging"
    r"|border|buttonhole|beginning|beg|starting|short|eyelet|picot|ribbing|dividing|ridge"
)
_NAMED: Final = re.compile(
    rf"(?P<known>(?:{_KNOWN_NAMES})\s+)?(?:(?!(?:the|of|this|that|each|every|an?|at|on|in|to|for|with"
    r"|work|rep|repeat|same|as|and|or|last|all|rows?|rnds?|ch|sc|dc|hdc|tr|after|before|until|from"
    rf"|both)\b)[A-Za-z][\w’'-]*\s+){{0,3}}?{_ROW}(?:\s*(?P<number>\d{{1,4}}))?",
    re.IGNORECASE,
)
_BARE: Final = re.compile(
    r"(?P<all>\d{1,4}(?:\s*(?:-|–|—|to|,|and|&)\s*\d{1,4})*)(?P<close>\s*[.:)]|\s[-–—])(?=\s)"
)
_SIDE: Final = re.compile(
    r"[(\[]?\s*(?P<side>RS|WS|right side|wrong side)\b(?: facing)?\s*[)\]]?", re.IGNORECASE
)
_REMARK: Final = re.compile(r"\s*[(\[](?P<words>[^()\[\]\n]{1,60})[)\]]")
_AND_ALL: Final = re.compile(
    r"\s*(?:,?\s*(?:and|&)\s+(?:all|every|each|following|subsequent)\b|until\b|onwards?\b|up to\b)[^\n:]{0,60}(?=:)",
    re.IGNORECASE,
)
_CLOSE: Final = re.compile(
    r"\s*(?:\*\*\*?|__?|\*)?\s*(?P<close>:|\.(?!\d)|;|,|--|[–—]|-(?=\s))?(?P<marks>\*\*\*?|__|_)?"
)
_TALKS: Final = re.compile(
    r"(?:is|are|was|were|form|forms|set|sets|should|shall|will|may|can|has|have|shows?|begins?|ends?"
    r"|makes?|of|on|for|only|and|or|to|above|below|again|looks?|counts?|measures?|you|the|has)\b",
    re.IGNORECASE,
)
_GOES_ON: Final = re.compile(
    r"[*(\[]|\d|\{|same\b|as\b|an?\b|rep|repeat|with\b|work\b|=|each\b|in\b|into\b|"
    rf"(?:{'|'.join(WORD_NUMBERS)})\b",
    re.IGNORECASE,
)
_WORDS: Final = re.compile(
    r"(?P<words>[A-Z][\w’'/&()., -]{0,48}?)\s*(?P<marks>\*\*\*?|__?)?:(?:\*\*\*?|__?)?(?=\s)"
)
_NO_LABEL: Final = re.compile(
    r"(?:notes?|tips?|gauge|tension|materials?|hooks?|yarns?|sizes?|finished|special|abbreviations?"
    r"|stitch(?:es)? (?:key|guide|used)|skill|level|multiple|pattern|terms?|measurements?|needles?"
    r"|notions?|hint|important|remember|warning|design(?:er|ed)?|copyright|optional|e\.?g)\b",
    re.IGNORECASE,
)


def read_label(source: Source, start: int, end: int, *, bare: bool) -> tuple[Label, int] | None:
    """Read the label a line opens with.

    Parameters
    ----------
    source : Source
        The text.
    start, end : int
        The line.
    bare : bool
        Whether a mere number (`5.`) may be a label here.

    Returns
    -------
    (Label, int) or None
        The label, and where the words after it start.
    """
    text = source.text
    start += skip_marks(text[start:end])
    for reader in (_numbered, _ordinal, _next, _named):
        found = reader(source, start, end)
        if found is not None:
            return found
    found = _bare(source, start, end) if bare else None
    return found or _worded(source, start, end)


def _numbered(source: Source, start: int, end: int) -> tuple[Label, int] | None:
    """Read `Row 7`, `Rnds 3-8`, `Rows 3, 5 and 7`, `Row (18, 20, 22)`, `R5`."""
    match = _NUMBERED.match(source.text, start, end)
    if match is None:
        return None
    rows = _rows(source, match.end(), end)
    return _closed(source, (start, rows.end, end), match, _covering(rows)) if rows.listed else None


def _ordinal(source: Source, start: int, end: int) -> tuple[Label, int] | None:
    """Read `3rd row`, `2nd, 3rd and 4th rows`, `First round`."""
    match = _BY_ORDINAL.match(source.text, start, end)
    if match is None:
        return None
    numbers = [
        _plain(source, m.start() + match.start("all"), m.group())
        for m in re.finditer(_ORDINAL, match["all"], re.IGNORECASE)
    ]
    joined = re.search(r"\bto\b|[-–—]", match["all"], re.IGNORECASE)
    if joined and len(numbers) == 2:  # noqa: PLR2004 - a range has two ends
        rows = _Rows(match.end(), ((numbers[0], numbers[1]),))
    else:
        rows = _Rows(match.end(), tuple((n, n) for n in numbers))
    return _closed(source, (start, match.end(), end), match, _covering(rows))


def _next(source: Source, start: int, end: int) -> tuple[Label, int] | None:
    """Read `Next row`, `Next 8 (8, 10) rows`."""
    match = _NEXT.match(source.text, start, end)
    if match is None:
        return None
    often: Number | None = ONE
    if match["often"] and match["often"].strip():
        words = match["often"].rstrip()
        at = match.start("often")
        often = source.number_at(at, at + len(words))
        if often is None:
            return None
    return _closed(source, (start, match.end(), end), match, Label("", span=often))


def _named(source: Source, start: int, end: int) -> tuple[Label, int] | None:
    """Read `Foundation row`, `Dec Row 2`: rows outside the count of the others."""
    match = _NAMED.match(source.text, start, end)
    if match is None or match.start("row") == start:
        return None
    found = _closed(source, (start, match.end(), end), match, Label("", span=ONE))
    if found is None or match["known"] or ":" in source.text[match.end() : found[1]]:
        return found
    return None


def _bare(source: Source, start: int, end: int) -> tuple[Label, int] | None:
    """Read `5.`, `36 to 45.`, `46, 47.`."""
    match = _BARE.match(source.text, start, end)
    if match is None:
        return None
    rest = _skip_space(source.text, match.end(), end)
    words = source.text[rest:end]
    if not (opens_with_a_verb(words) or holds_a_verb(words) or _GOES_ON.match(words)):
        return None
    rows = _rows(source, start, match.start("close"))
    if rows.end != match.start("close"):
        return None
    side = _SIDE.match(source.text, rest, end)
    label = _worded_as(source, (start, rows.end), _covering(rows), side["side"] if side else "")
    return label, _skip_space(source.text, side.end(), end) if side else rest


def _worded(source: Source, start: int, end: int) -> tuple[Label, int] | None:
    """Read `Shoulders:` and the like, where something to work follows."""
    match = _WORDS.match(source.text, start, end)
    if match is None or _NO_LABEL.match(match["words"]):
        return None
    rest = _skip_space(source.text, match.end(), end)
    if not holds_a_verb(source.text[rest:end]):
        return None
    return _worded_as(source, (start, match.end("words")), Label(""), ""), rest


# --------------------------------------------------------------------------- numbers of a label

_ONE_NUMBER: Final = re.compile(
    r"\{[^{}\n]{1,200}\}|\d{1,9}(?![\d/])(?:st|nd|rd|th)?|[(\[]\s*\d[\d\s,:;-]*[)\]]"
)
_PER_SIZE: Final = re.compile(r"\s*(?:[(\[{]\s*(?:\d+|-)(?:\s*[,:;/]\s*(?:\d+|-))*\s*[)\]}])+")
_RANGES: Final = re.compile(r"(\d+)\s*[-–—]\s*(\d+)\s*[(\[]((?:\s*\d+\s*[-–—]\s*\d+\s*,?)+)[)\]]")
_TO: Final = re.compile(r"\s*(?:[-–—]{1,2}|to\b|thru\b|through\b)\s*(?=[\d{])", re.IGNORECASE)
_AND: Final = re.compile(
    r"\s*(?:,\s*(?:and\b|&)?|and\b|&|\+)\s*(?:rows?\s+|rnds?\s+)?(?=\d)", re.IGNORECASE
)


def _rows(source: Source, start: int, end: int) -> _Rows:
    """Read the numbers after `Rows`."""
    ranges = _RANGES.match(source.text, start, end)
    if ranges:
        return _ranges_by_size(source, ranges)
    listed: list[tuple[Number, Number]] = []
    at = start
    while True:
        first, at = _one(source, at, end, lonely=True)
        if first is None:
            return _Rows(at, tuple(listed))
        last = first
        to = _TO.match(source.text, at, end)
        if to:
            other, after = _one(source, to.end(), end, lonely=False)
            if other is not None:
                last, at = other, after
        listed.append((first, last))
        more = _AND.match(source.text, at, end)
        if more is None:
            return _Rows(at, tuple(listed))
        at = more.end()


def _one(source: Source, start: int, end: int, *, lonely: bool) -> tuple[Number | None, int]:
    """Read one number with its list of sizes; `lonely`: `5 (24)` is not two sizes."""
    match = _ONE_NUMBER.match(source.text, start, end)
    if match is None:
        return None, start
    stop = match.end()
    sizes = _PER_SIZE.match(source.text, stop, end) if match.group()[0].isdigit() else None
    if sizes:
        several = "," in sizes.group() or ":" in sizes.group() or ";" in sizes.group()
        if several or not lonely or source.sizes == 2:  # noqa: PLR2004 - `66 (70)`: two sizes
            number = source.number_at(start, sizes.end())
            if number is not None:
                return number, sizes.end()
    if match.group().isdigit():
        return _plain(source, start, match.group()), stop
    return source.number_at(start, stop), stop


def _ranges_by_size(source: Source, match: re.Match[str]) -> _Rows:
    """Read `9-10 (11-12)`: a range for each size."""
    pairs = [(match[1], match[2]), *re.findall(r"(\d+)\s*[-–—]\s*(\d+)", match[3])]
    first, last = (
        Number(
            value=tuple(int(pair[end]) for pair in pairs),
            spelling=match.group(),
            place=Span(source.name, match.start(), match.end()),
        )
        for end in (0, 1)
    )
    return _Rows(match.end(), ((first, last),))


def _plain(source: Source, at: int, words: str) -> Number:
    digits = re.match(r"\d+", words)
    value = int(digits.group()) if digits else _ORDINAL_WORDS.index(words.lower()) + 1
    return Number(value=(value,), spelling=words, place=Span(source.name, at, at + len(words)))


def _covering(rows: _Rows) -> Label:
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


def _spread(rows: _Rows) -> tuple[Number, ...]:
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


# --------------------------------------------------------------------------- what closes a label


def _closed(
    source: Source, places: tuple[int, int, int], match: re.Match[str], label: Label
) -> tuple[Label, int] | None:
    """Read remarks and the closing mark after a label, and judge whether it is one."""
    start, at, end = places
    text = source.text
    at, side = _remarks(text, at, end)
    more = _AND_ALL.match(text, at, end)
    at = more.end() if more else at
    close = _CLOSE.match(text, at, end)
    mark = close["close"] if close else None
    rest = _skip_space(text, close.end() if close else at, end)
    later = _SIDE.match(text, rest, end)
    if later and (later.group()[0] in "([" or text[later.end() : later.end() + 1] == ":"):
        side = side or later["side"]
        rest = _skip_space(text, later.end(), end)
        if text[rest : rest + 1] in tuple(".:;,–—"):
            mark = mark or ":"
            rest = _skip_space(text, rest + 1, end)
    if not _is_label(text[rest:end], mark):
        return None
    side = side or (
        text[start : start + 2].upper() if text[start : start + 2] in ("RS", "WS") else ""
    )
    return _worded_as(source, (start, at), label, side, match["row"]), rest


def _remarks(text: str, at: int, end: int) -> tuple[int, str]:
    """Take `(RS)`, `(CC)`, `(Increase Round)` into the label, where the label goes on or closes."""
    side = ""
    for _ in range(3):
        remark = _REMARK.match(text, at, end)
        if remark is None:
            break
        told = _SIDE.fullmatch(remark["words"].strip())
        closes = re.match(r"\s*(?:\*\*|__|_)?\s*(?:[:;–—]|-\s|[(\[])", text[remark.end() : end])
        if not told and not closes:
            break
        side = side or (told["side"] if told else "")
        at = remark.end()
    spoken = re.compile(r",?\s+(RS|WS)\b").match(text, at, end)
    return (spoken.end(), spoken[1]) if spoken and not side else (at, side)


def _is_label(rest: str, mark: str | None) -> bool:
    """Judge by what follows: `Row 1: …` is a label, `Row 1 is the right side` is a sentence."""
    if mark == ":":
        return not re.match(r"(?:is|are)\b", rest)
    if mark in {",", None}:
        return bool(opens_with_a_verb(rest) or (rest and _GOES_ON.match(rest)))
    return not _TALKS.match(rest)


def _worded_as(
    source: Source, place: tuple[int, int], label: Label, side: str, row: str = ""
) -> Label:
    words = source.text[place[0] : place[1]].strip()
    tail = EMPHASIS.match(words[-2:])
    words = words[: -len(tail.group())].rstrip() if tail and words.endswith(tail.group()) else words
    return Label(
        words=" ".join(words.split()),
        first=label.first,
        last=label.last,
        listed=label.listed,
        span=label.span,
        round=row.lower().startswith(("rnd", "round")),
        side={"r": "RS", "w": "WS", "": ""}[side[:1].lower()],
        place=Span(source.name, place[0], place[1]),
    )


def _skip_space(text: str, at: int, end: int) -> int:
    while at < end and text[at].isspace():
        at += 1
    return at


def first_words(text: str) -> str:
    """Name an instruction without a label: its first words, up to a comma or stop, at most six."""
    head = re.split(r"[,;:]|\.(?!\d)", " ".join(text[:200].split()), maxsplit=1)[0]
    return " ".join(head.split()[:6]).strip("*_ ")
