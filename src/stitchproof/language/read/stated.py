"""Stated counts: taken out of an instruction, so that only its steps are left.

A count is a number with its unit and nothing more, behind a clause that is closed: in brackets,
behind a dash, or as a sentence of its own. `sc in last 5 sts. 33 sc` states 33; `ch 2, turn. 12 sc
in ring` works 12. Where the neighbours do not decide, the words stay with the steps.
"""

from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.language.read.count_words import (
    CLOSING,
    STOPS,
    Counting,
    Tokens,
    with_chains,
    word_at,
)
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.stated_behind import (
    DASHES,
    HARMLESS,
    ROW_ENDS,
    convention_behind,
    ends_a_row,
    harmless,
    is_range,
    worked_before,
)
from stitchproof.language.read.stated_words import (
    PRONOUNS,
    changed_by,
    is_rate,
    only_stops,
    past_both_ends,
    past_change,
    past_chat,
    past_lead,
    past_phrase,
    past_purpose,
    past_rows,
    past_talk,
    past_when,
    remark_behind,
)
from stitchproof.language.read.statements import (
    PARTS,
    is_sts,
    of_the_row,
    read_statements,
)
from stitchproof.language.tree import STITCH, Stated, Statement


@dataclass(frozen=True, slots=True)
class _Count:
    """One count: tokens `start` to `end`."""

    start: int
    end: int
    statements: tuple[Statement, ...]
    excluding: tuple[str, ...] = ()
    including: tuple[str, ...] = ()
    bracket: bool = False


_ALONG: Final = frozenset(("side", "along", "opposite", "rotate", "bottom"))
_MANY_ROWS: Final = frozenset(("rows", "rnds", "rounds"))
_REACH: Final = 120  # tokens from the end: no author says so much behind a count
_NAMING: Final = word_set(
    "total final new current body sleeve yoke neck front back number of stitch st sts stitches"
    " count counts your the now side made"
)
_NAMED: Final = word_set("count counts total number")
_TURNS: Final = frozenset(("turn", "join"))
_SENTENCE_ENDS: Final = frozenset((".", ";", ",", "!", ""))
_CLOSED: Final = _TURNS | {".", ";", "!"}
_EDGES: Final = frozenset(("across", "around", "end"))


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
        if count is not None and harmless(tokens, count.end, bound, counting):
            return count
    return None


def _count_at(tokens: Tokens, at: int, bound: int, counting: Counting) -> _Count | None:
    """Read a count in any of its forms."""
    text = tokens[at].text
    framed = _framed(tokens, at, bound, counting) if text in _FRAMES and at else None
    if framed is not None:
        return framed
    if text in CLOSING or text == "<":
        return _bracketed(tokens, at, bound, counting)
    if text in DASHES or text == ":":
        return _dashed(tokens, at, bound, counting)
    if tokens[at].kind is TokenKind.NUMBER:
        return _bare(tokens, at, bound, counting)
    return _spoken(tokens, at, bound, counting) if text in _SPEAKING else None


_FRAMES: Final = frozenset(("-", "–", "—", "*", "**", "***", "/"))


def _framed(tokens: Tokens, at: int, bound: int, counting: Counting) -> _Count | None:
    """Read `-30-`, `** 62 (68, 74) sts **`: a count between two like marks at the end."""
    if tokens[at + 1 : at + 2] and tokens[at + 1].kind is not TokenKind.NUMBER:
        return None
    statements, end, extra = read_statements(tokens, at + 1, bound, counting, strict=False)
    end += word_at(tokens, end) == "."  # `*24 sts.*`
    ended = word_at(tokens, end) == tokens[at].text and only_stops(tokens, end + 1, bound)
    return _Count(at, end + 1, statements, *extra) if statements and ended else None


def _bracketed(tokens: Tokens, at: int, bound: int, counting: Counting) -> _Count | None:
    """Read `(24 sts)`, `[52 (56, 60) sts]`, `{24 sts}`, `(24)`."""
    closing = CLOSING.get(tokens[at].text, ">")
    if is_rate(tokens, at, bound):
        return None
    inner = at + 1
    while inner < bound and tokens[inner].text in {"total", "=", ":", "makes", "of", "-", "–"}:
        inner += 1
    if (gained := changed_by(tokens, inner, bound, closing)) is not None:
        return _Count(at, inner + gained[1], (gained[0],), bracket=True)
    inner = past_change(tokens, inner, bound)
    spoken = past_phrase(tokens, inner, bound)
    statements, end, extra = read_statements(tokens, spoken, bound, counting, strict=False)
    if not statements or (not statements[-1].unit and word_at(tokens, end) in _MANY_ROWS):
        return None  # `(5 rounds)` tells how many rounds
    beyond = past_both_ends(tokens, end)
    if beyond > end and len(statements) > 1:
        statements, end = statements[:-1], beyond  # one of each end is no count of the row
    end = past_purpose(tokens, past_when(tokens, end, bound), bound)
    if spoken > inner or remark_behind(tokens, end, bound, counting.terms):
        end = past_chat(tokens, end, bound, closing)
    if end >= bound or tokens[end].text != closing:
        return None
    if word_at(tokens, end + 1) in {
        "in",
        "into",
        "times",
        "x",
        "twice",
        "over",
        "around",
        "between",
    }:
        return None
    before = word_at(tokens, at - 1)
    set_off = before in {"*", "**"} and word_at(tokens, end + 1) == before  # `*[14 sc]*`
    if before in {"in", "into", "work", "*", ","} and not set_off and not is_sts(statements):
        return None
    return _Count(at, end + 1, statements, *extra, bracket=True)


def _dashed(tokens: Tokens, at: int, bound: int, counting: Counting) -> _Count | None:
    """Read `– 24 sc`, `= 24 sts`, `: 38 sc`, `– 58`."""
    text = tokens[at].text
    twice = text == "-" and word_at(tokens, at + 1) == "-"  # typed for a dash
    glued = at > 0 and tokens[at].place.start == tokens[at - 1].place.end
    if at == 0 or (text == "-" and glued and not twice) or is_range(tokens, at):
        return None
    if text == ":" and _leads_in(tokens, at):
        return None
    if text == "…" and not ends_a_row(tokens, at):
        return None  # `1 sc, 3 dc, 1 sc, 3 dc … 1 sc`: and so on
    inner = at + 2 if twice else at + 1
    while inner < bound and tokens[inner].text in {"total", "of", "makes", "now"}:
        inner += 1
    inner = past_phrase(tokens, inner, bound)
    if inner == at + 1 and tokens[inner : inner + 1] and tokens[inner].text in CLOSING:
        held = _bracketed(tokens, inner, bound, counting) if text == "=" else None
        return replace(held, start=at) if held is not None else None
    phrased = inner > at + 1
    strict = text == ":" and not _ends_the_row(tokens, at, bound)
    statements, end, extra = read_statements(tokens, inner, bound, counting, strict=strict)
    later = bool(statements) and bool(statements[-1].unit) and word_at(tokens, end) in _LATER
    end = past_talk(tokens, end, bound) if statements and (phrased or later) else end
    end = past_purpose(tokens, end, bound)
    if not statements or word_at(tokens, end) not in STOPS | HARMLESS | {""} | CLOSING.keys():
        return None
    if not statements[-1].unit and text == "-" and end < bound - 1:
        return None
    return _Count(at, end, statements, *extra)


def _ends_the_row(tokens: Tokens, colon: int, bound: int) -> bool:
    """Whether a bare number behind `across:`, `in each sc:` is all that follows: the count."""
    edge = tokens[colon - 1].text in _EDGES | ROW_ENDS
    edge = edge or any(token.text in _EACH for token in tokens[max(colon - 4, 0) : colon])
    return edge and only_stops(tokens, colon + 2, bound)


_EACH: Final = frozenset(("each", "every"))


def _leads_in(tokens: Tokens, colon: int) -> bool:
    """Whether a lone word before a colon names the yarn of what follows: `, white: 5 sc`."""
    if colon < 2 or tokens[colon - 1].kind is not TokenKind.WORD:  # noqa: PLR2004 - word and stop
        return False
    word = tokens[colon - 1].text
    if word in {"work", "make"}:
        return True
    clause = colon - 1
    while clause > 0 and tokens[clause - 1].text not in {".", ";", ",", "!"}:
        clause -= 1
    if {token.text for token in tokens[clause:colon]} & _ALONG:
        return True  # `on the other side of the chain: 1 dc, 1 sc`
    if clause == 0 and tokens[0].text in {"in", "into"}:
        return True  # the place first: `In magic ring: 6 sc`
    known = word in _TURNS or word in _EDGES or word in HARMLESS or word in ROW_ENDS
    return tokens[colon - 2].text in {",", ";"} and not known


def _bare(tokens: Tokens, at: int, bound: int, counting: Counting) -> _Count | None:
    """Read `turn. 95 (127) dc`, `turn 33 sts`, `. 33 sc.`: a sentence that is a count."""
    closed_before = at > 0 and (tokens[at - 1].text in _CLOSED or _behind_an_edge(tokens, at))
    told = with_chains(tokens, at + 2) if word_at(tokens, at + 1) == "," else at + 1
    last = only_stops(tokens, max(told, at + 1), bound) and closed_before
    inner = past_rows(tokens, at)
    number = tokens[at].number
    plainly = number is not None and isinstance(number.value, tuple)
    listed = plainly and tokens[at].text[0] in CLOSING
    statements, end, extra = read_statements(
        tokens, inner, bound, counting, strict=not (last or listed)
    )
    if at == 0 or not statements or not worked_before(tokens, at):
        return None
    if word_at(tokens, at - 2) == "…":
        return None  # `3 dc …. 1 sc`: what the row ends with
    chained = any(token.text in _CHAINS for token in tokens[:at])
    if statements[0].unit in _CHAINS and not chained:
        return None  # `Begin at hem. 54 ch.`
    before, after = tokens[at - 1].text, word_at(tokens, end)
    turned = before in _TURNS or (before in {",", ":"} and word_at(tokens, at - 2) in _TURNS)
    closed = turned or before in {".", ";", "!"}
    if before == "," and not turned:  # `across, 24 sts.`, `, 24 sts in all`
        said = any(t.text in _IN_ALL for t in tokens[at:end])
        edge = word_at(tokens, at - 2) in _EDGES
        sts = statements[0].noun == STITCH and bool(statements[0].unit)
        closed = said or (edge and statements[0].noun == STITCH)
        closed = closed or (sts and only_stops(tokens, end, bound))  # `6 times, 18 sts`
        closed = closed and after != ","
    end = past_purpose(tokens, past_when(tokens, end, bound), bound)
    if statements[0].unit and word_at(tokens, end) in _LATER:
        end = past_talk(tokens, end, bound)  # `180 hdc when the yoke is done`
    after = word_at(tokens, end)
    if before in _EDGES and statements[0].unit:  # `across 31 hdc`, and no more
        closed = only_stops(tokens, end, bound)
    named = before in {".", ";", "!"} and bool(statements[0].unit)
    if listed and not named and before not in {"next", "first", "last"}:
        closed = only_stops(tokens, end, bound)  # `inc in each st (16, 18, 20)`
    one_word = word_at(tokens, at - 3) in CLOSING  # `(B) 4 sc`
    if before in CLOSING.values() and statements[0].unit and not one_word:  # `(ch 3 = dc) 60 dc`
        closed = only_stops(tokens, end, bound)
    ends = after in _SENTENCE_ENDS or after in HARMLESS or convention_behind(tokens, end, bound)
    if not closed or not ends:
        return None
    sure = turned or only_stops(tokens, end, bound) or ends_a_row(tokens, at)
    return _Count(at, end, statements, *extra) if sure else None


_IN_ALL: Final = word_set("all total remain remains rem")
_CHAINS: Final = frozenset(("ch", "chs", "chain", "chains"))
_LATER: Final = frozenset(("when", "if"))


def _behind_an_edge(tokens: Tokens, at: int) -> bool:
    """Whether `around, ` stands before a number: what follows is the count."""
    return tokens[at - 1].text == "," and word_at(tokens, at - 2) in _EDGES


def _spoken(tokens: Tokens, at: int, bound: int, counting: Counting) -> _Count | None:
    """Read `you should have 40 sts`, `Total 8 hdc`, `for a total of 40 sts`."""
    if word_at(tokens, at - 1) in _UNTIL:
        return None  # how long the row goes on
    of_each = _each_has(tokens, at, bound, counting)
    if of_each is not None:
        return of_each
    lead = past_lead(tokens, at, bound)
    inner = past_phrase(tokens, lead, bound)
    inner = at if inner == lead else inner
    strict = True
    if inner == at and tokens[at].text == "makes":
        inner = at + 1
    elif inner == at:
        inner, strict = _past_title(tokens, at, bound)
    if inner == at:
        return None
    statements, end, extra = read_statements(tokens, inner, bound, counting, strict=strict)
    end = past_talk(tokens, past_when(tokens, end, bound), bound) if statements else end
    return _Count(at, end, statements, *extra) if statements else None


def _each_has(tokens: Tokens, at: int, bound: int, counting: Counting) -> _Count | None:
    """Read `Each side has 7 dc.`, `each petal holds 9 sts`."""
    if tokens[at].text != "each" or word_at(tokens, at + 2) not in _HOLDS:
        return None
    part = word_at(tokens, at + 1)
    statements, end, extra = read_statements(tokens, at + 3, bound, counting, strict=True)
    made = tuple(replace(one, each=part) for one in statements)
    return _Count(at, end, made, *extra) if made and part in PARTS else None


_HOLDS: Final = frozenset(("has", "holds", "counts", "measures", "have"))


def _past_title(tokens: Tokens, at: int, bound: int) -> tuple[int, bool]:
    """Skip `Total body sts:`, `Stitch count =`; tell too whether a unit has to follow."""
    i = at
    if word_at(tokens, at) == "no" and word_at(tokens, at + 2) == "of":  # `No. of sts`
        i += 3
        at += 2
    while i < min(at + _LONGEST_TITLE, bound) and tokens[i].text in _NAMING:
        i += 1
    words = {t.text for t in tokens[at:i]}
    named = bool(words & _NAMED)
    separated = i < bound and tokens[i].text in {":", "="}
    if i == at or not (named or (separated and words & _STS)) or words <= {"of", "the", "number"}:
        return at, True
    while i < bound and tokens[i].text in {"of", "is", ":", "=", "-", "–", "—"}:
        separated = separated or tokens[i].text == "is"
        i += 1
    return i, not (separated and words & (_STS | {"count"}))


_SPEAKING: Final = PRONOUNS | _NAMING | word_set("each at after for a makes no")
_UNTIL: Final = word_set("until till when once if as rem remaining these")
_STS: Final = word_set("st sts stitch stitches")
_LONGEST_TITLE: Final = 6  # words


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
    place = tokens[counts[0].start].place.to(tokens[counts[-1].end - 1].place)
    excluding = tuple(dict.fromkeys(kind for count in counts for kind in count.excluding))
    including = tuple(dict.fromkeys(kind for count in counts for kind in count.including))
    if len(counts) > 1 and all(count.bracket for count in counts):
        rowwise = tuple(count.statements for count in counts)
        return Stated(rowwise[-1], rowwise, excluding, including, place)
    statements = of_the_row(tuple(one for count in counts for one in count.statements))
    if len(counts) == 1 and _row_by_row(statements):
        rowwise = tuple((one,) for one in statements)
        return Stated(rowwise[-1], rowwise, excluding, including, place)
    return Stated(statements, (), excluding, including, place)


def _row_by_row(statements: tuple[Statement, ...]) -> bool:
    """Whether `38, 36, 34 sc` tells one count for each row: one row has each thing once."""
    nouns = {statements[0].noun, statements[-1].noun, STITCH}
    return (
        len(statements) > 1
        and all(
            one.total and one.noun in nouns and (one.unit or one.noun == STITCH)
            for one in statements
        )
        and len({one.noun for one in statements if one.unit}) == 1
    )
