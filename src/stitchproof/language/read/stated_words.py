"""Words around a stated count that are no part of it: "you should now have", "at the end of"."""

from typing import Final

from stitchproof.language.number import NumberKind
from stitchproof.language.read.asides import makes_nothing
from stitchproof.language.read.count_words import CLOSING, STOPS, Tokens, word_at
from stitchproof.language.read.lex import TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.tree import STITCH, Statement
from stitchproof.trade.tables import Terms

_HAVE: Final = frozenset(("have", "has", "be", "are", "is", "made", "makes", "gives", "leaves"))


PRONOUNS: Final = word_set(
    "you there this your you'll you've we we'll that which it now"
    " that's it's there's you're we're that'll"
)
_HAVING: Final = word_set("that's it's there's you're we're")  # that say "have" themselves


_WHEN: Final = word_set(
    "at the end of this each every row rnd round rows rounds from here on now so far after before"
    " turning when you are done for per ends"
)


_WHEN_FIRST: Final = (_WHEN - PRONOUNS) | word_set("last first these those final")


def past_lead(tokens: Tokens, at: int, bound: int) -> int:
    """Skip `at the end of the last row,` before `you should have 40 sts`; else stay."""
    i = at
    if tokens[at].text in {"at", "after"}:
        while i < bound and tokens[i].text in _WHEN_FIRST:
            i += 1
        while i < bound and (tokens[i].text == "," or tokens[i].kind is TokenKind.NUMBER):
            i += 1
    return i if i < bound else at


def past_rows(tokens: Tokens, at: int) -> int:
    """Skip `6 rows,` before `24 sts each`."""
    rows = word_at(tokens, at + 1) in {"row", "rows", "rnd", "rnds", "rounds"}
    return at + 3 if rows and word_at(tokens, at + 2) in {",", "of", "with", "x", "and"} else at


def past_when(tokens: Tokens, at: int, bound: int) -> int:
    """Skip `at the end of every row`, `each`; stay where anything else follows."""
    i = at
    while i < bound and tokens[i].text in _WHEN:
        i += 1
    ends = i >= bound or tokens[i].text in STOPS or tokens[i].text in CLOSING.values()
    return i if ends else at


_REMAIN: Final = word_set("remain remains remaining rem left")
_SHARED: Final = word_set("each both every either")


def past_purpose(tokens: Tokens, at: int, bound: int) -> int:
    """Skip `for the right shoulder` behind `20 sts remain`; stay where the count is of each."""
    if word_at(tokens, at) != "for" or word_at(tokens, at - 1) not in _REMAIN:
        return at
    i = at
    while i < bound and tokens[i].text not in STOPS and tokens[i].text not in CLOSING.values():
        if tokens[i].kind is not TokenKind.WORD or tokens[i].text in _SHARED:
            return at
        i += 1
    return i


def past_both_ends(tokens: Tokens, at: int) -> int:
    """Skip `at each edge`, `on both sides` behind what stands there; else stay."""
    which = word_at(tokens, at) in {"at", "on"} and word_at(tokens, at + 1) in {"each", "both"}
    return at + 3 if which and word_at(tokens, at + 2) in _BOTH else at


_BOTH: Final = word_set("edge edges end ends side sides")


def past_chat(tokens: Tokens, at: int, bound: int, closing: str) -> int:
    """Skip what is said behind a count within its brackets, where nothing in it is counted."""
    i = at
    while i < bound and tokens[i].text != closing:
        if tokens[i].kind is TokenKind.NUMBER or tokens[i].text in CLOSING:
            return at
        i += 1
    return i


def remark_behind(tokens: Tokens, at: int, bound: int, terms: Terms) -> bool:
    """Tell whether `, phew!`, `- count again` stands behind a count to the end of its brackets.

    What names a part of the row, or anything of the trade, may belong to what is counted.
    """
    unit = tokens[at - 1].kind is TokenKind.WORD
    if not unit or word_at(tokens, at) not in _PARTING:
        return False
    i = at + 1
    while i < bound and tokens[i].text not in CLOSING.values():
        i += 1
    said = [token.text for token in tokens[at + 1 : i] if token.text not in STOPS]
    words = len(said) and all(token.kind is not TokenKind.NUMBER for token in tokens[at + 1 : i])
    return bool(words) and not _PARTLY & set(said) and makes_nothing(" ".join(said), terms)


_PARTING: Final = word_set(", ; ! - – — . …")
_PARTLY: Final = word_set(
    "for each every per both either side sides half halves front back sleeve sleeves left right"
    " on between not counting including excluding without plus minus of end ends"
)
_TALK: Final = word_set("if when as so by counting including now still left before by whichever")


def past_talk(tokens: Tokens, at: int, bound: int) -> int:
    """Skip `if all went well` behind a count that is said in words; stay where more is counted."""
    if word_at(tokens, at) not in _TALK:
        return at
    i = at
    while i < bound and tokens[i].text not in {".", ";", "!"}:
        if tokens[i].kind is not TokenKind.WORD:
            return at
        i += 1
    return i


def past_phrase(tokens: Tokens, at: int, bound: int) -> int:
    """Skip `you should now have`, `there are`, `for a total of`; else stay."""
    first = word_at(tokens, at)
    if first in {"for", "a"}:
        i = at + (2 if first == "for" else 1)
        return i + 2 if word_at(tokens, i) == "total" and word_at(tokens, i + 1) == "of" else at
    if first not in PRONOUNS:
        return at
    for i in range(at + 1, min(at + 7, bound)):
        if tokens[i].kind is TokenKind.NUMBER:
            have = first in _HAVING or any(t.text in _HAVE for t in tokens[at:i])
            return i if have else at
        if tokens[i].text in STOPS:
            return at
    return at


def is_rate(tokens: Tokens, at: int, bound: int) -> bool:
    """Tell `(1 st per row)`, `(36 sc per edge)`, `(that is two for each row)` from a count."""
    for i in range(at, min(at + 6, bound)):
        if tokens[i].text in {"per", "for"}:
            each = i + (word_at(tokens, i + 1) in {"each", "every"})
            if (each > i or tokens[i].text == "per") and word_at(tokens, each + 1) in _ROW_NAMES:
                return True
    return False


_ROW_NAMES: Final = frozenset(("row", "rnd", "round", "rows", "rounds", "edge"))


def past_change(tokens: Tokens, at: int, bound: int) -> int:
    """Skip `+2;`, `-2 sts,` before a total; stay where no other number follows."""
    if word_at(tokens, at) not in {"+", "-", "–"} or at + 3 >= bound:
        return at
    i = at + 2
    while i < bound and tokens[i].text in {"st", "sts", ";", ",", "="}:
        i += 1
    return i if i < bound and i > at + 2 and tokens[i].kind is TokenKind.NUMBER else at


def changed_by(tokens: Tokens, at: int, bound: int, closing: str) -> tuple[Statement, int] | None:
    """Read `+2`, `- 4 sts` within brackets: so many more or fewer, and how far it goes."""
    sign = word_at(tokens, at)
    number = tokens[at + 1].number if at + 1 < bound else None
    if sign not in {"+", "-", "–"} or number is None or number.kind is not NumberKind.COUNT:
        return None
    end = at + 2
    end += word_at(tokens, end) in {"st", "sts", "stitches"}
    if word_at(tokens, end) != closing:
        return None
    change = "increased" if sign == "+" else "decreased"
    place = tokens[at].place.to(tokens[end - 1].place)
    return Statement(number, STITCH, "st", change, "", place), end + 1 - at


def only_stops(tokens: Tokens, at: int, bound: int) -> bool:
    """Tell whether nothing but stops and marks stands from a token on."""
    return all(t.text in STOPS or t.text in {"*", "_", "**"} for t in tokens[at:bound])
