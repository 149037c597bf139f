"""Row labels: everything a designer writes before the colon.

`Row 7 (RS):`, `3rd row:`, `5.`, `Rows 7–66 (66, 70):`, `Next 8 rows:`, `Foundation row`, `Dec Row
2:`, `Shoulders:`. A label is read from the text itself; only its numbers are asked of the lexer,
through `Source.number_at`, so that braces and lists of sizes are the same numbers everywhere.
"""

import re
from collections.abc import Sequence
from typing import Final

from stitchproof.base.place import Span
from stitchproof.base.records import replace
from stitchproof.language.number import ONE, Number, plain
from stitchproof.language.read.for_sizes import names_sizes, past_only
from stitchproof.language.read.label_numbers import (
    ORDINAL_WORDS,
    Rows,
    Source,
    before_work,
    covering,
    ends_by_size,
    how_many,
    numbers_by_size,
    plain_number,
    read_rows,
    values_of,
    worded_as,
)
from stitchproof.language.read.openings import (
    NUMBER,
    REACH,
    WORD_NUMBERS,
    holds_a_verb,
    opens_with_a_verb,
    skip_marks,
    skip_space,
    states_a_convention,
)
from stitchproof.language.tree import Label

_ROW: Final = r"(?P<row>(?:rows?|rn?ds?|rounds?|steps?)(?![a-z])|r(?=[\s.]?\d))\.?"
_SIZED: Final = r"(?:\s?[(\[{]\s*\d{1,4}(?:\s*[,:;/]\s*\d{1,4})*\s*[)\]}]\s?)*"
_ORDINAL: Final = rf"(?:\d{{1,4}}{_SIZED}\s?(?:st|nd|rd|th|d)\b|\b(?:{'|'.join(ORDINAL_WORDS)})\b)"
_PART: Final = r"(?:\s+(?!(?:and|of|in|to|from|the|for|on)\b)[a-z][a-z-]{2,12}){0,2}?"
_NUMBERED: Final = re.compile(
    rf"(?:(?:RS|WS)\s+)?{_ROW}\s*(?=[\d{{(\[]|[-–]\s?[(\[])", re.IGNORECASE
)
_BY_ORDINAL: Final = re.compile(
    rf"(?:the\s+)?(?P<all>{_ORDINAL}(?:\s*(?:,|and|&|to|-|–|—)\s*{_ORDINAL})*)"
    rf"(?P<sizes>(?:\s*(?P<to>to|-|–|—))?\s*[\[(]\s*{_ORDINAL}(?:\s*[:,;/-]\s*{_ORDINAL})*\s*[\])])?"
    rf"(?P<part>{_PART})\s+{_ROW}",
    re.IGNORECASE,
)
_NEXT: Final = re.compile(
    rf"(?:next|following|(?:last|final)(?=\s*\d))\s+"
    rf"(?:(?P<often>[^\n.A-Za-z]{{1,60}}?\s*|(?:{'|'.join(WORD_NUMBERS)})\s+)"
    rf"(?:[a-z][a-z-]{{2,12}}\s+){{0,2}}?)?{_ROW}(?!\s*\d+\b)",
    re.IGNORECASE,
)
_KNOWN_NAMES: Final = (
    r"foundation|set[\s-]?up|last|final|dec(?:rease)?|inc(?:rease)?|shaping|base|joining|edging"
    r"|border|buttonhole|beginning|beg|starting|short|eyelet|picot|ribbing|dividing|ridge"
)
_NAMED: Final = re.compile(
    rf"(?P<known>(?:{_KNOWN_NAMES})\s+)?(?:(?!(?:the|of|this|that|each|every|an?|at|on|in|to|for|with"
    r"|work|rep|repeat|same|as|and|or|last|all|rows?|rn?ds?|ch|sc|h?dc|h?tr|after|before|until|from"
    rf"|both)\b)[A-Za-z][\w’'-]*\s+){{0,3}}?{_ROW}(?:(?<!\.)\s*(?P<number>\d{{1,4}}))?",
    re.IGNORECASE,
)
_BARE: Final = re.compile(
    r"(?P<all>\d{1,4}(?:\)?\s*(?:-|–|—|to|,|and|&)\s*\d{1,4})*)"
    r"(?P<told>\s\((?:[RW]S|(?:right|wrong) side)\)(?=:))?(?P<close>\s*[.:)]|\s[-–—])(?=\s)",
    re.IGNORECASE,
)
_SIDE: Final = re.compile(
    r"[(\[]?\s*(?P<side>RS|WS|right side|wrong side)\b(?: facing)?\s*[)\]]?", re.IGNORECASE
)
_REMARK: Final = re.compile(r"\s*[(\[](?P<words>[^()\[\]\n]{1,60})[)\]]")
_AND_ALL: Final = re.compile(
    r"\s*(?:,?\s*(?:and|&)\s+(?:all|every|each|following|subsequent|alternate|foll)\b|until\b"
    r"|onwards?\b|up to\b)[^\n:]{0,120}(?=:)|,?\s*(?:…|\.{3}|etc\.?|and so on)(?=\s*[:.])",
    re.IGNORECASE,
)
_SCOPE: Final = re.compile(  # `Rounds 10-11, Adult and Plus only:`
    r"\s*(?:,|\s[–—-]\s)\s*(?:for\s+)?(?:(?:all|both)\s+sizes(?:\s+again)?"
    r"|[^:.;\n]{1,60}?\bonly)(?=\s*:)",
    re.IGNORECASE,
)
_CLOSE: Final = re.compile(
    r"\s*(?:\*\*\*?|__?|\*)?\s*(?P<close>:|\.(?!\d)|;|,|--|[–—~]|-(?=\s)|\)(?=\s))?(?P<marks>\*\*\*?|__|_|\*(?=\s))?"
)
_TITLE_BEHIND: Final = re.compile(
    r"(?P<words>(?!(?:In|Into|For|Sizes?|Work(?:ing)? in(?:to)?)\b)[A-Z][A-Za-z’'/ ]{2,30}):(?=\s)"
)
_TALKS: Final = re.compile(
    r"(?:is|are|was|were|form|forms|set|sets|should|shall|will|may|can|has|have|shows?|begins?|ends?"
    r"|makes?|of|on|for|only|and|or|to|above|below|again|looks?|counts?|measures?|you|the|has)\b",
    re.IGNORECASE,
)
_GOES_ON: Final = re.compile(
    r"[*(\[]|\d|\{|same\b|as\b|like\s+\d|an?\b|rep|repeat|with\b|work\b|=|each\b|in\b|into\b|"
    rf"(?:{'|'.join(WORD_NUMBERS)})\b",
    re.IGNORECASE,
)
_MEASURED: Final = re.compile(  # `Rnds 1-3 = 1¾ inches` tells the gauge
    r"=\s*(?:about\s+|approx(?:imately|\.)?\s+)?[\d½¼¾⅓⅔⅛⅜⅝⅞./,\s-]+(?:cm|mm|in(?:s|ch(?:es)?)?\b|\"|”)",
    re.IGNORECASE,
)
_WORDS: Final = re.compile(
    r"(?P<words>(?:[A-Z]|(?:border|edging|base|handle|sides?|brim|foundation|set-?up)\b)"
    r"[\w’'/&()., -]{0,48}?)\s*(?P<marks>\*\*\*?|__?)?:(?:\*\*\*?|__?)?(?=\s)"
)
_BEFORE_CHAIN: Final = re.compile(  # a foundation chain alone: no stitch is defined by one
    r"(?P<words>[A-Z][\w’' ]{2,40}?)\s+[-–—]\s+"
    rf"(?=(?:(?:[Cc]h(?:ain)?\s+{NUMBER}|{NUMBER}\s?ch(?:ains?)?\b|[Mm]ake\s+{NUMBER}\s?ch(?:ains?)?\b)"
    r"(?:\s+(?:\(\d+\s*(?:ch|sts?)\)|loosely|at the end\b[^,.;]{0,30}))?\s*(?:[.;]|$|(?<=\w),)))",
    re.MULTILINE,
)
_OF_STITCHES: Final = re.compile(r"(?:main |body )?stitch(?:es)?(?: pattern)?", re.IGNORECASE)
_NO_LABEL: Final = re.compile(
    r"(?:[^:]*\b(?:you|abbrev\w*)\b|stitches \(|always|throughout|notes?|tips?|gauge|tension|level"
    r"|materials?|hooks?|yarns?|sizes?|available|finished|special|u\.?[ks]\.? terms?|copyright|hint"
    r"|(?:rows|rnds|rounds) (?:of|in) |(?:work|cont)\w*\b.{1,40}\b(?:rows|rnds|rounds)"
    r"|notions?|important|remember|warning|design(?:er|ed)?|e\.?g"
    r"|stitch(?:es)? (?:key|guide|used)|(?:basic |special )?stitches$|supplies|techniques?|skills?"
    r"|(?:turning|beginning|starting) ch(?:ain)?s?|multiple|pattern|terms?|measurements?|needles?"
    r"|optional)\b",
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
    text, whole = source.text, end
    end = min(end, start + REACH)
    start += skip_marks(text[start:end])
    for reader in (_numbered, _ordinal, _next, _named, _part_rows):
        found = reader(source, start, end)
        if found is not None:
            return found[0], skip_space(text, found[1], whole)
    return (_bare(source, start, end) if bare else None) or _worded(source, start, end)


def _numbered(source: Source, start: int, end: int) -> tuple[Label, int] | None:
    """Read `Row 7`, `Rnds 3-8`, `Rows 3, 5 and 7`, `Row (18, 20, 22)`, `R5`."""
    match = _NUMBERED.match(source.text, start, end)
    if match is None:
        return None
    rows = read_rows(source, match.end(), before_work(source, match, end))
    if not rows.listed:
        return None
    label = covering(rows)
    found = _closed(source, (start, rows.end, end), match, label)
    by_size = ends_by_size(source, label, rows.end, found[1]) if found else None
    return (replace(found[0], last=by_size), found[1]) if found and by_size else found


def _ordinal(source: Source, start: int, end: int) -> tuple[Label, int] | None:
    """Read `3rd row`, `2nd, 3rd and 4th rows`, `First round`."""
    by_size = _ordinals_by_size(source, start, end)
    if by_size is not None:
        return by_size
    match = _BY_ORDINAL.match(source.text, start, end)
    if match is None:
        return None
    numbers = [
        plain_number(source, m.start() + match.start("all"), m.group())
        for m in re.finditer(_ORDINAL, match["all"], re.IGNORECASE)
    ]
    if match["to"]:  # `2nd to (34th, 36th) rows`: every size within the brackets
        numbers.append(_by_size(source, match, ()))
    elif match["sizes"]:
        numbers[-1] = _by_size(source, match, numbers[-1:])
    joined = match["to"] or re.search(r"\bto\b|[-–—]", match["all"], re.IGNORECASE)
    if match["part"]:
        count = how_many(numbers) if joined else plain(len(numbers))
        return _closed(source, (start, match.end(), end), match, Label("", span=count))
    if joined and len(numbers) == 2:  # noqa: PLR2004 - a range has two ends
        rows = Rows(match.end(), ((numbers[0], numbers[1]),))
    else:
        rows = Rows(match.end(), tuple((n, n) for n in numbers))
    return _closed(source, (start, match.end(), end), match, covering(rows))


def _ordinals_by_size(source: Source, start: int, end: int) -> tuple[Label, int] | None:
    """Read `3rd-7th (3rd-8th: 3rd-9th) rows`."""
    rows = numbers_by_size(source, start, end)
    row = _ROWS_BEHIND.match(source.text, rows.end, end) if rows is not None else None
    if rows is None or row is None or not _NTH.search(source.text, start, rows.end):
        return None
    return _closed(source, (start, row.end(), end), row, covering(rows))


_NTH: Final = re.compile(r"\d(?:st|nd|rd|th)\b", re.IGNORECASE)
_ROWS_BEHIND: Final = re.compile(rf"\s+{_ROW}", re.IGNORECASE)


def _by_size(source: Source, match: re.Match[str], first: Sequence[Number]) -> Number:
    """Read `12th [14th: 16th]`, `to (12th, 14th)`: the last row in each size."""
    more = [
        plain_number(source, match.start("sizes") + m.start(), m.group())
        for m in re.finditer(_ORDINAL, match["sizes"], re.IGNORECASE)
    ]
    values = tuple(value for one in (*first, *more) for value in values_of(one))
    start = (*first, *more)[0].place.start
    place = Span(source.name, start, match.end("sizes"))
    return Number(value=values, spelling=source.text[start : place.end], place=place)


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
    span, stop = _named_range(source, match, end) or (ONE, match.end())
    several = span is ONE and match["row"].lower().endswith("s")  # `Last Yoke Rnds`
    found = _closed(source, (start, stop, end), match, Label("", span=None if several else span))
    if found is None or match["known"] or ":" in source.text[stop : found[1]]:
        return found
    at = stop - (source.text[stop - 1] == ".")
    told = match["number"] or _APART.match(source.text, at, found[1])  # `Edge row. Ch 1`
    return found if told and opens_with_a_verb(source.text[found[1] : end]) else None


_APART: Final = re.compile(r"\s+[-–—]\s|\.\s")
_PART_ROWS: Final = re.compile(
    r"(?P<words>[A-Z][\w’' -]{1,30}?\s*"
    rf"[(\[](?P<often>\d[^()\[\]\nA-Za-z]{{0,40}}?)\s+{_ROW}[)\]])"
    r"\s*(?:[:.]|[-–—])(?=\s)"
)


def _part_rows(source: Source, start: int, end: int) -> tuple[Label, int] | None:
    """Read `Cuff (5 rnds) –`: a part, and how many rows it has."""
    match = _PART_ROWS.match(source.text, start, end)
    if match is None or not opens_with_a_verb(source.text[match.end() : end].lstrip()):
        return None
    often = source.number_at(match.start("often"), match.end("often"))
    if often is None:
        return None
    place = (start, match.end("words"))
    return worded_as(source, place, Label("", span=often), "", match["row"]), match.end()


def _named_range(source: Source, match: re.Match[str], end: int) -> tuple[Number, int] | None:
    """Read `3 to 5 (6, 7)` behind `Armhole Rows`: how many rows that are; None for one row."""
    rows = read_rows(source, match.start("number"), end) if match["number"] else None
    if rows is None or not rows.listed:
        return None
    first, last = rows.listed[0][0], rows.listed[-1][1]
    if len(rows.listed) == 1 and first is not last:
        return how_many([first, last]), rows.end
    return plain(len(rows.listed)), rows.end  # of one row too: `Cap row 9 (9, 10, 10)`


_BARE_CLOSE: Final = re.compile(r"(?P<close>\s*[.:])(?=\s)")
_BARE_SIZED: Final = re.compile(r"\d{1,3}\s?[(\[][\d\s,:;-]{3,60}[)\]](?P<close>\s*[.:])(?=\s)")


def _bare(source: Source, start: int, end: int) -> tuple[Label, int] | None:
    """Read `5.`, `36 to 45.`, `46, 47.`, `11-24 (12-27, 13-30).`."""
    sized = numbers_by_size(source, start, end) if source.sizes > 1 else None
    behind = _BARE_SIZED.match(source.text, start, end)
    match = _BARE_CLOSE.match(source.text, sized.end, end) if sized else None
    match = match or (behind if source.sizes > 1 else None) or _BARE.match(source.text, start, end)
    if match is None:
        return None
    rest = skip_space(source.text, match.end(), end)
    inner = _ordinal(source, rest, end) or _numbered(source, rest, end)
    if inner is not None:  # `3. Second row: …`
        return inner[0], skip_space(source.text, inner[1], end)
    words = source.text[rest:end]
    if not (opens_with_a_verb(words) or holds_a_verb(words) or _GOES_ON.match(words)):
        return None
    told = match.groupdict().get("told")  # `1 (RS): …`
    stop = match.start("told" if told else "close")
    rows = read_rows(source, start, stop)
    if rows.end != stop:
        return None
    side = _SIDE.match(source.text, stop if told else rest, end)
    label = worded_as(source, (start, rows.end), covering(rows), side["side"] if side else "")
    return label, skip_space(source.text, side.end(), end) if side and not told else rest


def _worded(source: Source, start: int, end: int) -> tuple[Label, int] | None:
    """Read `Shoulders:` and the like, where something to work follows; `Sole - Chain 9.` too."""
    match = _WORDS.match(source.text, start, end) or _BEFORE_CHAIN.match(source.text, start, end)
    if match is None or any(_NO_LABEL.match(w) for w in match["words"].rsplit(". ", 1)):
        return None
    if match["words"].count("(") > match["words"].count(")"):  # `make 30 (33: 36) ch`
        return None
    rest = skip_space(source.text, match.end(), end)
    if states_a_convention(source.text[rest:end], 0):
        return None  # `Turning: 2ch does not count as a stitch.`
    inner = _next(source, rest, end) or _numbered(source, rest, end)
    inner = inner or _ordinal(source, rest, end)
    if not holds_a_verb(source.text[inner[1] if inner else rest : end]):
        return None
    if inner is None and _OF_STITCHES.fullmatch(match["words"]):
        return None  # `Stitch pattern: single crochet, worked firmly.`
    if inner is not None and ":" in source.text[rest : inner[1]]:
        label = worded_as(source, (start, match.end("words")), inner[0], inner[0].side)
        named = inner[0].words if inner[0].first is not None else label.words
        return replace(label, words=named, round=inner[0].round), skip_space(
            source.text, inner[1], end
        )
    return worded_as(source, (start, match.end("words")), Label(""), ""), rest


# --------------------------------------------------------------------------- what closes a label


def _closed(
    source: Source, places: tuple[int, int, int], match: re.Match[str], label: Label
) -> tuple[Label, int] | None:
    """Read remarks and the closing mark after a label, and judge whether it is one."""
    start, at, end = places
    text = source.text
    at, side = _remarks(text, at, end)
    more = _AND_ALL.match(text, at, end) or _SCOPE.match(text, at, end)
    at = more.end() if more else past_only(text, at, end, source.names)
    close = _CLOSE.match(text, at, end)
    mark = close["close"] if close else None
    rest = skip_space(text, close.end() if close else at, end)
    later = _SIDE.match(text, rest, end)
    if later and (later.group()[0] in "([" or text[later.end() : later.end() + 1] == ":"):
        side = side or later["side"]
        rest = skip_space(text, later.end(), end)
        if text[rest : rest + 1] in tuple(".:;,–—"):
            mark = mark or ":"
            rest = skip_space(text, rest + 1, end)
    title = _TITLE_BEHIND.match(text, rest, end) if mark in {"-", "–", "—", "--", ":"} else None
    sized = title and names_sizes(title["words"], source.names)  # `Rnd 4: Small only: …`
    if title and not sized and not opens_with_a_verb(title["words"]):
        at, mark, rest = title.end("words"), ":", skip_space(text, title.end(), end)
    if not _is_label(text[rest:end], mark):
        return None
    side = side or (
        text[start : start + 2].upper() if text[start : start + 2] in ("RS", "WS") else ""
    )
    return worded_as(source, (start, at), label, side, match["row"]), rest


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
        opened = opens_with_a_verb(rest) or (rest and _GOES_ON.match(rest))
        return bool(opened) and not _MEASURED.match(rest)
    return not _TALKS.match(rest)
