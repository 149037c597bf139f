"""Stated counts: taken out of an instruction, so that only its steps are left.

A count is a number with its unit and nothing more, behind a clause that is closed: in brackets,
behind a dash, or as a sentence of its own. `sc in last 5 sts. 33 sc` states 33; `ch 2, turn. 12 sc in
ring` works 12. Where the neighbours do not decide, the words stay with the steps.
"""

from dataclasses import dataclass
from typing import Final

from stitchproof.base.place import Span
from stitchproof.language.number import NumberKind
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.units import read_unit
from stitchproof.language.tree import STITCH, Noun, Stated, Statement
from stitchproof.trade.tables import Terms

Tokens = tuple[Token, ...]


@dataclass(frozen=True, slots=True)
class Counting:
    """What the reader of counts has to know.

    Attributes
    ----------
    terms : Terms
        Whose stitch names the text uses.
    specials : frozenset of str
        Stitches and groups the author defined, lower case.
    """

    terms: Terms = "US"
    specials: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class _Count:
    """One count: tokens `start` to `end`."""

    start: int
    end: int
    statements: tuple[Statement, ...]
    excluding: tuple[str, ...] = ()
    including: tuple[str, ...] = ()
    bracket: bool = False


_REACH: Final = 120  # tokens from the end: no author says so much behind a count
_CLOSING: Final = {"(": ")", "[": "]", "{": "}"}
_DASHES: Final = frozenset(("–", "—", "=", "-", "→"))
_STOPS: Final = frozenset((".", ";", ",", "!", ":"))
_AND: Final = frozenset((",", "and", "&", "+", ";", "plus"))
_CHANGES: Final = {
    **dict.fromkeys(("increased", "inc'd", "incd", "increase", "increases", "added"), "increased"),
    **dict.fromkeys(("decreased", "dec'd", "decd", "decrease", "decreases"), "decreased"),
}
_FILLERS: Final = frozenset(
    ("total", "in", "all", "made", "remain", "remaining", "rem", "left", "now", "around", "across")
    + ("remains", "altogether")
)
_HAVE: Final = frozenset(("have", "has", "be", "are", "is", "made"))
_PRONOUNS: Final = frozenset(("you", "there", "this", "your"))
_HARMLESS: Final = frozenset(
    ("turn", "join", "fasten", "finish", "cut", "break", "do", "don't", "place", "pm", "move")
    + ("mark", "change", "changing", "switch", "drop", "remove", "rotate", "end", "weave", "carry")
    + ("note", "rs", "ws", "you", "ss", "sl", "slip", "pull", "leave", "leaving", "tie", "and")
    + ("begin", "now", "ending", "being", "this", "these", "there", "secure", "keep", "then")
)
_ROW_ENDS: Final = frozenset(
    ("across", "around", "end", "turn", "join", "last", "each", "every", "rep", "repeat", "off")
    + ("row", "rows", "times", "ring", "even", "twice", "once", "more", "ch", "joining", "all")
)
_MAKES: Final = frozenset(("ch", "chs", "chain", "turn", "join"))


def take_stated(tokens: Tokens, counting: Counting = Counting()) -> tuple[Tokens, Stated | None]:  # noqa: B008
    """Take what an instruction says it comes to out of its tokens.

    Parameters
    ----------
    tokens : tuple of Token
        The instruction without its label.
    counting : Counting
        Names of stitches.

    Returns
    -------
    (tokens, Stated or None)
        The steps' tokens, and the counts.
    """
    counts: list[_Count] = []
    at = max(len(tokens) - _REACH, 0)
    while (count := _next_count(tokens, at, counting)) is not None:
        counts.append(count)
        at = count.end
    if not counts:
        return tokens, None
    return _without(tokens, counts), _stated(tokens, counts)


def _next_count(tokens: Tokens, at: int, counting: Counting) -> _Count | None:
    """Find the first count from a token on that has nothing worked behind it."""
    bound = len(tokens)
    for start in range(at, bound):
        count = _count_at(tokens, start, bound, counting)
        if count is not None and _harmless(tokens, count.end, bound, counting):
            return count
    return None


def _count_at(tokens: Tokens, at: int, bound: int, counting: Counting) -> _Count | None:
    """Read a count in any of its forms."""
    text = tokens[at].text
    if text in _CLOSING:
        return _bracketed(tokens, at, bound, counting)
    if text in _DASHES or text == ":":
        return _dashed(tokens, at, bound, counting)
    if tokens[at].kind is TokenKind.NUMBER:
        return _bare(tokens, at, bound, counting)
    return _spoken(tokens, at, bound, counting)


def _bracketed(tokens: Tokens, at: int, bound: int, counting: Counting) -> _Count | None:
    """Read `(24 sts)`, `[52 (56, 60) sts]`, `{24 sts}`, `(24)`."""
    closing = _CLOSING[tokens[at].text]
    inner = at + 1
    while inner < bound and tokens[inner].text in {"total", "=", ":", "makes", "of", "-", "–"}:
        inner += 1
    inner = _past_phrase(tokens, inner, bound)
    statements, end, extra = _statements(tokens, inner, bound, counting, strict=False)
    if end >= bound or tokens[end].text != closing:
        return None
    if not statements:
        return None
    if _text(tokens, end + 1) in {"in", "into", "times", "x", "twice", "over", "around", "between"}:
        return None
    if at and tokens[at - 1].text in {"in", "into", "work", "*", ","} and not _is_sts(statements):
        return None
    return _Count(at, end + 1, statements, *extra, bracket=True)


def _is_sts(statements: tuple[Statement, ...]) -> bool:
    return any(s.noun == STITCH or s.change for s in statements)


def _dashed(tokens: Tokens, at: int, bound: int, counting: Counting) -> _Count | None:
    """Read `– 24 sc`, `= 24 sts`, `: 38 sc`, `– 58`."""
    text = tokens[at].text
    twice = text == "-" and _text(tokens, at + 1) == "-"  # typed for a dash
    glued = at > 0 and tokens[at].place.start == tokens[at - 1].place.end
    if at == 0 or (text == "-" and glued and not twice):
        return None
    inner = at + 2 if twice else at + 1
    while inner < bound and tokens[inner].text in {"total", "of", "makes", "now"}:
        inner += 1
    inner = _past_phrase(tokens, inner, bound)
    statements, end, extra = _statements(tokens, inner, bound, counting, strict=text == ":")
    if not statements or _text(tokens, end) not in _STOPS | {"", "turn", "join"} | _CLOSING.keys():
        return None
    if not statements[-1].unit and text == "-" and end < bound - 1:
        return None
    return _Count(at, end, statements, *extra)


def _bare(tokens: Tokens, at: int, bound: int, counting: Counting) -> _Count | None:
    """Read `turn. 95 (127) dc`, `turn 33 sts`, `. 33 sc.`: a sentence that is a count."""
    if at == 0:
        return None
    before = tokens[at - 1].text
    closed = before in {".", ";"}
    turned = before in {"turn", "join"} or (
        before in {",", ":"} and _text(tokens, at - 2) in {"turn", "join"}
    )
    statements, end, extra = _statements(tokens, at, bound, counting, strict=True)
    if not statements or (_text(tokens, end) not in {".", ";", "", "!"}):
        if not (statements and _text(tokens, end) == "," and (closed or turned)):
            return None
    said = "in all" in " ".join(t.text for t in tokens[at:end]) or "total" in _text(tokens, end - 1)
    behind = before == "," and _text(tokens, at - 2) in {"across", "around", "end"}
    said = said or (behind and statements[0].noun == STITCH)
    if not (closed or turned or (said and before == ",")) or not _worked_before(tokens, at):
        return None
    at_end = _only_stops(tokens, end, bound)
    if not at_end and not turned and not _ends_a_row(tokens, at):
        return None
    return _Count(at, end, statements, *extra)


def _spoken(tokens: Tokens, at: int, bound: int, counting: Counting) -> _Count | None:
    """Read `you should have 40 sts`, `Total 8 hdc`, `for a total of 40 sts`."""
    inner = _past_phrase(tokens, at, bound)
    if inner == at and tokens[at].text in {"total", "makes", "stitch", "st"}:
        inner = at + 1
        while inner < bound and tokens[inner].text in {"of", "is", ":", "=", "count", "-", "–"}:
            inner += 1
        if tokens[at].text in {"st", "stitch"} and _text(tokens, at + 1) != "count":
            return None
    if inner == at:
        return None
    statements, end, extra = _statements(tokens, inner, bound, counting, strict=True)
    return _Count(at, end, statements, *extra) if statements else None


def _past_phrase(tokens: Tokens, at: int, bound: int) -> int:
    """Skip `you should now have`, `there are`, `for a total of`; else stay."""
    first = _text(tokens, at)
    if first in {"for", "a"}:
        i = at + (2 if first == "for" else 1)
        return i + 2 if _text(tokens, i) == "total" and _text(tokens, i + 1) == "of" else at
    if first not in _PRONOUNS:
        return at
    for i in range(at + 1, min(at + 7, bound)):
        if tokens[i].kind is TokenKind.NUMBER:
            have = any(t.text in _HAVE for t in tokens[at:i])
            return i if have else at
        if tokens[i].text in _STOPS:
            return at
    return at


# --------------------------------------------------------------------------- statements

Extra = tuple[tuple[str, ...], tuple[str, ...]]


def _statements(
    tokens: Tokens, at: int, bound: int, counting: Counting, *, strict: bool
) -> tuple[tuple[Statement, ...], int, Extra]:
    """Read `40 dc and 4 ch-2 sps`; `strict`: every number needs a unit of the trade."""
    found: list[Statement] = []
    end = at
    i = at
    while i < bound:
        one = _statement(tokens, i, bound, counting, strict=strict)
        if one is None:
            break
        found.append(one[0])
        end = one[1]
        more = end
        while more < bound and more - end < 2 and tokens[more].text in _AND:  # noqa: PLR2004 - `, and`
            more += 1
        if more == end:
            break
        i = more
    if not found:
        return (), at, ((), ())
    extra: Extra = ((), ())
    told = _extra(tokens, end, bound, counting)
    if told is not None:
        extra, end = told
    return tuple(found), end, extra


def _statement(
    tokens: Tokens, at: int, bound: int, counting: Counting, *, strict: bool
) -> tuple[Statement, int] | None:
    number = tokens[at].number if tokens[at].kind is TokenKind.NUMBER else None
    if number is None or number.kind is not NumberKind.COUNT:
        return None
    unit = read_unit(tokens, at + 1, counting.terms, counting.specials)
    if unit is not None and (unit.end > bound or (strict and not unit.known)):
        unit = None
    if unit is None and strict:
        return None
    noun: Noun = unit.noun if unit else STITCH
    end = unit.end if unit else at + 1
    change = _CHANGES.get(_text(tokens, end), "") if end < bound else ""
    if change:
        end += 1
    while end < bound and tokens[end].text in _FILLERS:
        if tokens[end].text == "in" and _text(tokens, end + 1) not in {"all", "total"}:
            break
        end += 1
    place = tokens[at].place.to(tokens[end - 1].place)
    return Statement(number, noun, unit.words if unit else "", change, place), end


def _extra(tokens: Tokens, at: int, bound: int, counting: Counting) -> tuple[Extra, int] | None:
    """Read `(not counting the sl sts)`, `, including turning ch`."""
    i = at
    opened = ""
    if _text(tokens, i) in _CLOSING:
        opened = _CLOSING[tokens[i].text]
        i += 1
    elif _text(tokens, i) == ",":
        i += 1
    out = _text(tokens, i) in {"not", "excluding", "without", "excl"}
    if _text(tokens, i) == "not":
        i += 1
        if _text(tokens, i) not in {"counting", "including", "incl"}:
            return None
    elif not out and _text(tokens, i) not in {"counting", "including", "incl"}:
        return None
    i += 1
    kinds: list[str] = []
    while i < bound and tokens[i].text not in {*_CLOSING.values(), ".", ";"}:
        unit = read_unit(tokens, i, counting.terms, counting.specials)
        if _text(tokens, i) in {"turning", "tch", "beg", "beginning", "starting"}:
            kinds.append("tch")
            i += 1
            while i < bound and (tokens[i].text in {"ch", "chain", "-"} or tokens[i].number):
                i += 1
        elif _text(tokens, i) == "as":  # `as a st`, `as one dc`: how, not what
            while i < bound and tokens[i].text not in {*_CLOSING.values(), ".", ";", ","}:
                i += 1
        elif unit is not None and unit.known and unit.end <= bound:
            kinds.append(unit.noun.kind or unit.words)
            i = unit.end
        else:
            i += 1
    if opened:
        if i >= bound or tokens[i].text != opened:
            return None
        i += 1
    return (((tuple(kinds), ()) if out else ((), tuple(kinds))), i) if kinds else None


# --------------------------------------------------------------------------- neighbours


def _worked_before(tokens: Tokens, at: int) -> bool:
    """Whether anything but chains and turns stands before: else `12 sc` is the work itself."""
    words = (t.text for t in tokens[:at] if t.kind is TokenKind.WORD)
    return any(word not in _MAKES for word in words)


def _ends_a_row(tokens: Tokens, at: int) -> bool:
    """Whether the clause before `at` works to the end of its row."""
    i = at - 1
    while i > 0 and tokens[i].text in _STOPS:
        i -= 1
    while i >= 0 and tokens[i].text not in {".", ";"}:
        if tokens[i].text in _ROW_ENDS:
            return True
        i -= 1
    return False


def _only_stops(tokens: Tokens, at: int, bound: int) -> bool:
    return all(t.text in _STOPS or t.text in {"*", "_", "**"} for t in tokens[at:bound])


def _harmless(tokens: Tokens, at: int, bound: int, counting: Counting) -> bool:
    """Whether nothing is worked into the edge from here on: a turn, a join, a remark."""
    i = at
    fresh = True
    while i < bound:
        text = tokens[i].text
        if text in _CLOSING:
            close = next((j for j in range(i, bound) if tokens[j].text == _CLOSING[text]), bound)
            if fresh and _text(tokens, close + 1) in {
                "times",
                "in",
                "into",
                "x",
                "twice",
                "around",
            }:
                return False
            i, fresh = close + 1, False
            continue
        if text in _STOPS or text in {"*", "**", "_"}:
            fresh = True
        elif fresh:
            if not _harmless_head(tokens, i, bound, counting):
                return False
            fresh = False
        i += 1
    return True


def _harmless_head(tokens: Tokens, at: int, bound: int, counting: Counting) -> bool:
    text = tokens[at].text
    if text in {"ch", "chain"}:  # the turning chain of the next row
        rest = [t.text for t in tokens[at + 2 : at + 5] if t.text != "("]
        return not rest or rest[0] in {".", ",", ";", "turn", "and", "counts"}
    if text in {"sl", "ss", "slip"}:
        return any(t.text in {"join", "first", "top"} for t in tokens[at : at + 12])
    if tokens[at].kind is TokenKind.NUMBER:
        statements, end, _ = _statements(tokens, at, bound, counting, strict=True)
        return bool(statements) and _text(tokens, end) in {".", ";", "", ","}
    return text in _HARMLESS or text in _DASHES


# --------------------------------------------------------------------------- out of the line


def _without(tokens: Tokens, counts: list[_Count]) -> Tokens:
    kept: list[Token] = []
    at = 0
    for count in counts:
        kept += tokens[at : count.start]
        at = count.end
    kept += tokens[at:]
    return tuple(kept)


def _stated(tokens: Tokens, counts: list[_Count]) -> Stated:
    place: Span = tokens[counts[0].start].place.to(tokens[counts[-1].end - 1].place)
    excluding = tuple(dict.fromkeys(kind for count in counts for kind in count.excluding))
    including = tuple(dict.fromkeys(kind for count in counts for kind in count.including))
    if len(counts) > 1 and all(count.bracket for count in counts):
        rowwise = tuple(count.statements for count in counts)
        return Stated(rowwise[-1], rowwise, excluding, including, place)
    statements = tuple(one for count in counts for one in count.statements)
    return Stated(statements, (), excluding, including, place)


def _text(tokens: Tokens, at: int) -> str:
    return tokens[at].text if 0 <= at < len(tokens) else ""
