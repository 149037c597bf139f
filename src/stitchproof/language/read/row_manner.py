"""How rows are worked again: with another yarn, mirrored, in pattern."""

from collections.abc import Sequence
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.numerals import TIMES, word_set
from stitchproof.language.read.row_names import ROWS, STOPS, Cursor, Tokens
from stitchproof.language.read.steps.colours import is_yarn
from stitchproof.language.tree import (
    Colour,
    Remark,
    RepeatRows,
)

EVEN: Final = frozenset(("even", "straight", "patt", "pattern", "pat", "established", "set"))


_WITHOUT: Final = word_set("omitting omit leaving out without and the")
_TURNING: Final = word_set("turning ch chain chains tch")


def manner(cursor: Cursor, made: RepeatRows) -> RepeatRows:
    """Read `with B`, `in A`, `alternately`, `in patt`, `of Back`."""
    if cursor.take("alternately") or cursor.take("throughout"):
        return made
    if cursor.text() in {"reversing", "reverse"}:  # a mirror image has the same counts
        return _mirrored(cursor, made)
    said = _stripes(cursor) or _rows_of_yarns(cursor) or _gain(cursor)
    if said is not None:
        return replace(made, extra=(*made.extra, said))
    start = cursor.at
    if _on_these(cursor) or _along_edge(cursor):
        return made
    if cursor.take_any(_WITHOUT) and cursor.take_any(_TURNING):
        return replace(made, chainless=True)
    cursor.at = start
    return _of_what(cursor, made)


def _on_these(cursor: Cursor) -> bool:
    """Go past `on these sts`, `over these 12 sts only`: the rows are of what is worked anyhow."""
    start = cursor.at
    if cursor.text() in {"on", "over", "across"} and cursor.text(1) in {"these", "those"}:
        cursor.at += 2
        cursor.at += cursor.number() is not None
        if cursor.take_any(_STITCHES):
            cursor.take("only")
            return True
    cursor.at = start
    return False


def _along_edge(cursor: Cursor) -> bool:
    """Go past `around the body`, `all along the lower edge`: where rows of an edging are."""
    start = cursor.at
    cursor.take("all")
    if cursor.take_any(_ALONG):
        end = cursor.at
        while cursor.text(end - cursor.at) not in STOPS | {""} and end - cursor.at < _SHORT_NAME:
            end += 1
        words = [token.text for token in cursor.tokens[cursor.at : end]]
        if words and words[-1] in _EDGES and cursor.tokens[end - 1].number is None:
            cursor.at = end
            return True
    cursor.at = start
    return False


_ALONG: Final = word_set("around along across round")
_SHORT_NAME: Final = 5  # words
_EDGES: Final = word_set(
    "body edge hem neck front back border opening armhole skirt piece neckline"
)
_STITCHES: Final = word_set("st sts stitches sc hdc dc htr tr")
_PARTS: Final = word_set(
    "strap straps handle handles tie ties band flap tail brim cuff ribbing border collar"
)


def past_pattern(cursor: Cursor) -> None:
    """Go past `in pattern as established,` before `repeating Rows 2-5`, which tells it."""
    start = cursor.at
    if cursor.take_any(frozenset(("in", "as"))) and cursor.text() in EVEN | {"est"}:
        cursor.take_any(EVEN | {"as", "est"})
        cursor.take_any(STOPS)
        if cursor.text() in {"rep", "repeat", "repeating"}:
            return
    cursor.at = start


def of_pattern(cursor: Cursor) -> None:
    """Go past `of pattern`, `of the patt` behind the row that ends it."""
    start = cursor.at
    cursor.take("of")
    cursor.take("the")
    if cursor.at == start or cursor.text() not in {"patt", "pattern", "repeat"}:
        cursor.at = start
        return
    cursor.at += 1


def _of_what(cursor: Cursor, made: RepeatRows) -> RepeatRows:
    """Read `for patt`, `in patt`, `of Back`, `with B`."""
    start = cursor.at
    if cursor.text() == "for" and cursor.text(1) in {"patt", "pattern"}:
        cursor.at += 2
        return made
    if cursor.text() == "for" and cursor.text(1) in {"the", "a"} and cursor.text(2) in _PARTS:
        cursor.at += 3  # "for the strap" tells what the rows are, not how many
        return made
    if cursor.text() in {"in", "as"} and cursor.text(1) in EVEN | {"established", "est"}:
        cursor.take_any(EVEN | {"in", "as", "est"})
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
        chosen = _chosen(cursor)
        if chosen is not None:
            return replace(made, extra=(*made.extra, chosen))
    cursor.at = start
    return made


_STRIPING: Final = word_set(
    "keeping changing continuing maintaining alternating following working cont continue"
)
_COLOURS: Final = word_set(
    "stripe stripes striping stripe-pattern shade shades color colors colour colours yarn yarns"
    " sequence"
)
_WORK: Final = word_set(
    "st sts stitch stitches sc hdc dc tr htr dtr ch sk inc dec rep increase decrease"
)


def _stripes(cursor: Cursor) -> Remark | None:
    """Read `keeping stripes correct`, `changing shade every 2 rows in the order A, B, C`.

    Which yarn a row is worked in changes nothing that is counted.
    """
    if cursor.text() not in _STRIPING:
        return None
    end = cursor.at
    while end < len(cursor.tokens) and cursor.tokens[end].text not in {".", ";", ":"} | _HOW_LONG:
        end += 1
    return _about_yarns(cursor, end)


_OF_STRIPES: Final = word_set(
    "each of in and & , : with working alternating alternate alternately throughout turn then the"
    " following as order stripe stripes sequence color colors colour colours shade shades yarn"
)


def _rows_of_yarns(cursor: Cursor) -> Remark | None:
    """Read `working two rows each of B, C and A in turn`, `alternating 2 rows A and 2 rows B`."""
    end = cursor.at
    if cursor.text() in STOPS:
        return None
    yarns = rows = 0
    while end < len(cursor.tokens) and cursor.tokens[end].text not in {".", ";"} | _HOW_LONG:
        token = cursor.tokens[end]
        rows += token.text in ROWS
        yarns += is_yarn(token)
        known = token.text in ROWS | _OF_STRIPES or is_yarn(token)
        if not known and token.kind is not TokenKind.NUMBER:
            return None
        end += 1
    if not yarns or not rows:
        return None
    said = cursor.tokens[cursor.at : end]
    cursor.at = end
    return Remark(spoken(said), said[0].place.to(said[-1].place))


def as_they_are(rest: Tokens) -> Remark | None:
    """Read `always increasing in the center 2 sts`, `working 2 dc in corners on every inc row`.

    It says again what the rows do; how many stitches they have more between is another thing.
    """
    while rest and rest[-1].text in STOPS:
        rest = rest[:-1]
    words = [token.text for token in rest]
    led = words[:1] and words[0] in _DOING
    each = any(
        word in _EVERY and bool((ROWS | _TIME).intersection(words[i + 1 : i + 3]))
        for i, word in enumerate(words)
    )
    shaped = bool(_SHAPING.intersection(words)) or words[:1] == ["always"]
    if not led or not (each or words[0] == "always") or not shaped or _CHANGED.intersection(words):
        return None
    return Remark(spoken(rest), rest[0].place.to(rest[-1].place))


_DOING: Final = word_set("always working increasing decreasing placing making")
_SHAPING: Final = word_set(
    "inc incs increase increases increasing dec decs decrease decreases decreasing shaping"
)
_TIME: Final = frozenset(("time",))
_CHANGED: Final = word_set("more fewer less extra additional longer shorter instead until")


def _chosen(cursor: Cursor) -> Remark | None:
    """Read `in your chosen colours`, `in the colour sequence`; how often may stand behind it."""
    end = cursor.at + 1
    if any(token.written.isupper() for token in cursor.tokens[end : end + 3]):
        return None  # a yarn by its name
    while end < len(cursor.tokens) and cursor.tokens[end].text not in STOPS | _HOW_LONG | {"for"}:
        if cursor.tokens[end].kind is TokenKind.NUMBER or cursor.tokens[end].text in TIMES:
            break
        end += 1
    return _about_yarns(cursor, end)


def _about_yarns(cursor: Cursor, end: int) -> Remark | None:
    """Take words that speak of colours and of no stitch."""
    said = cursor.tokens[cursor.at : end]
    while said and said[-1].text == ",":
        said = said[:-1]
    words = {token.text for token in said}
    if not words & _COLOURS or words & _WORK:
        return None
    cursor.at = end
    return Remark(spoken(said), said[0].place.to(said[-1].place))


def _gain(cursor: Cursor) -> Remark | None:
    """Read `adding 8 tr each time`: what the rows that are worked again come to."""
    start = cursor.at
    cursor.take("thus")
    cursor.take("so")
    if not cursor.take("adding") or cursor.number() is None:
        cursor.at = start
        return None
    cursor.at += 1
    cursor.take_any(_GAINED)
    often = cursor.take_any(_EVERY) and (cursor.take("time") or cursor.take_any(ROWS))
    if not often or cursor.text() not in STOPS | {""}:
        cursor.at = start
        return None
    said = cursor.tokens[start : cursor.at]
    return Remark(spoken(said), said[0].place.to(said[-1].place))


_GAINED: Final = word_set(
    "more new st sts stitch stitches sc hdc dc tr htr dtr half single double treble crochet"
    " crochets"
)
_EVERY: Final = word_set("in on with per each every")


_HOW_LONG: Final = word_set("until till ending finishing")


def yarn_that_ends(cursor: Cursor, start: int) -> Remark | None:
    """Read `a row in C`, `2 rows of A`, `a B row` behind "ending with": in which yarn, no more."""
    end = cursor.at
    while end < len(cursor.tokens) and cursor.tokens[end].text not in STOPS:
        end += 1
    said = cursor.tokens[cursor.at : end]
    short = 1 < len(said) <= _MOST_WORDS
    yarns = [token for token in said if token.written.isupper() and token.kind is TokenKind.WORD]
    rows = {token.text for token in said} & (ROWS | {"stripe"})
    if not (short and yarns and rows) or {token.text for token in said} & _WORK:
        return None
    cursor.at = end
    said = cursor.tokens[start:end]
    return Remark(spoken(said), said[0].place.to(said[-1].place))


_MOST_WORDS: Final = 5


def spoken(said: Sequence[Token]) -> str:
    """Give the author's words, with no space before a comma."""
    words = ""
    for i, token in enumerate(said):
        apart = i > 0 and token.place.start > said[i - 1].place.end
        words += " " * apart + (token.written or token.text)
    return words


def _mirrored(cursor: Cursor, made: RepeatRows) -> RepeatRows:
    """Read `reversing all shaping` as a remark."""
    start = cursor.at
    while cursor.at < len(cursor.tokens) and cursor.text() not in STOPS:
        cursor.at += 1
    said = cursor.tokens[start : cursor.at]
    remark = Remark(" ".join(t.text for t in said), said[0].place.to(said[-1].place))
    return replace(made, extra=(*made.extra, remark))


def _is_number(cursor: Cursor, at: int) -> bool:
    return at < len(cursor.tokens) and cursor.tokens[at].kind is TokenKind.NUMBER


def _colour(cursor: Cursor) -> Colour | None:
    """Read `with B`, `using CC`: one short name and no more."""
    if cursor.at + 1 >= len(cursor.tokens):
        return None
    name = cursor.tokens[cursor.at + 1]
    after = cursor.text(2)
    lasts = name.written.isupper() and (after in _HOW_LONG or after in TIMES)
    lasts = lasts or (name.written.isupper() and _is_number(cursor, cursor.at + 2))
    if name.kind is not TokenKind.WORD or name.text in EVEN:
        return None
    if after not in STOPS | {""} and not lasts:
        return None
    place = cursor.tokens[cursor.at].place.to(name.place)
    cursor.at += 2
    return Colour(name.written or name.text, place=place)
