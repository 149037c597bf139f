"""How long rows are repeated: `until piece measures 28 cm`, `until you have 18 rows in all`."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import Number, NumberKind
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.row_names import ROWS, Tokens
from stitchproof.language.tree import RepeatRows, Times


def read_until(clause: Tokens, made: RepeatRows) -> RepeatRows | None:
    """Read the end of a repeat: a count, a length, a number of rows, or what else is said."""
    words = [t.text for t in clause]
    count = _count_of(clause)
    if count is not None:
        return replace(made, until_count=count)
    again = _worked_in_all(clause)
    if again is not None:
        return replace(made, often=Times(again, more=True))
    at = next((i for i, t in enumerate(clause) if _is_length(t)), None)
    if at is not None:
        length = clause[at].number
        if _is_of_piece(clause, at):
            return replace(made, until_length=length)
        return replace(made, until_length=length, until_words=_said(clause[1:]))
    if words[0] == "for":
        return None
    for i, token in enumerate(clause):
        if token.number is None:
            continue
        if any(w in ROWS for w in words[i + 1 : i + 3]) or (i and words[i - 1] in ROWS):
            return replace(made, until_rows=token.number)
    wished = words[1:2] == ["the"] and bool({"desired", "wanted", "wished"}.intersection(words))
    if words[0] == "to" and len(words) > 1 and words[1] not in _ENDS and not wished:
        return None
    said = " ".join(words[1:])
    return replace(made, until_words=said) if said else None


_ENDS: Final = frozenset(("desired", "end", "length"))


def _worked_in_all(clause: Tokens) -> Number | None:
    """Read `until the Inc row has been worked 4 (5, 5) times`: once less often from here."""
    words = [token.text for token in clause]
    at = next((i for i in range(len(clause) - 1) if words[i + 1] in _TIMES and clause[i].number), 0)
    number = clause[at].number
    told = at > 1 and words[at - 1] in _DONE and bool(set(words[:at]) & ROWS)
    values = number.value if number is not None and told else ()
    values = values if isinstance(values, tuple) else ()
    counts = [v for v in values if isinstance(v, int)]
    if number is None or not counts or len(counts) < len(values) or min(counts) < 1:
        return None
    left = [count - 1 for count in counts]
    more = f" ({', '.join(str(count) for count in left[1:])})" if left[1:] else ""
    return replace(number, value=tuple(left), spelling=f"{left[0]}{more}", kind=NumberKind.TIME)


_DONE: Final = word_set("worked completed done repeated rep")
_TIMES: Final = word_set("times time")


def _is_length(token: Token) -> bool:
    return token.number is not None and token.number.kind is NumberKind.LENGTH


def _is_of_piece(clause: Tokens, at: int) -> bool:
    """Tell whether a length is that of the whole piece, from where it begins.

    "Armhole measures 18 cm", "7 in from underarm" and "3 cm less than front" are of a part of it.
    """
    before = {token.text for token in clause[1:at]}
    behind = {token.text for token in clause[at + 1 :] if not _is_length(token)}
    if before & _FROM and not before & _BEGINNINGS:
        return False  # "from underarm measures 18 cm"
    return not before & _OF_A_PART and behind <= _FROM_THE_BEGINNING


def _said(clause: Tokens) -> str:
    """Give the author's words; those about a length keep the spelling of their numbers."""
    words = ""
    end = clause[0].place.start
    for token in clause:
        gap = " " if token.place.start > end else ""
        words += f"{gap}{token.written if token.number else token.text}"
        end = token.place.end
    return words


_OF_A_PART: Final = word_set(
    "armhole armholes neck neckline yoke opening slit underarm raglan cap above below"
)
_FROM: Final = frozenset(("from", "since"))
_BEGINNINGS: Final = word_set("beg beginning start cast foundation edge bottom hem")
_FROM_THE_BEGINNING: Final = word_set(
    "from the beg beginning start begin cast on - foundation ch chain row rnd edge lower bottom hem"
    " cuff long in length total all high tall deep wide measured measuring ( ) [ ]"
)


def _count_of(clause: Tokens) -> Number | None:
    """Read `until 12 (14) sts rem`, `until there are 30 sc`, `until you have 40 sts`."""
    at = 1
    while at < len(clause) and clause[at].text in _HAVING:
        at += 1
    if clause[0].text == "for" or at + 1 >= len(clause) or clause[at + 1].text not in _COUNTED:
        return None
    number = clause[at].number
    whole = number is not None and number.kind is NumberKind.COUNT
    return number if whole and clause[at].kind is TokenKind.NUMBER else None


_HAVING: Final = word_set("there are is you have only a total of")
_COUNTED: Final = word_set("st sts stitch stitches sc dc hdc tr htr")
