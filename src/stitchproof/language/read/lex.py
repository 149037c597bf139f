"""From characters to tokens, with every place exact in the author's text.

Text pasted from a word processor reads like plain text: letters and digits are folded one code
point at a time, and each folded character remembers which code point it came from. A number of the
text is one token whether it is written `12`, `three`, `70 (76, 84)` or `{panel_sts + 2}`.
"""

import re
import unicodedata
from bisect import bisect_left
from dataclasses import field
from enum import Enum
from typing import Final

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.place import NOWHERE, Span
from stitchproof.base.records import dataclass, replace
from stitchproof.language.formula import Formula
from stitchproof.language.number import Number, NumberKind, Value
from stitchproof.language.read.named_lists import every_size, named_list, names_all
from stitchproof.language.read.numerals import (
    FRACTIONS,
    LENGTHS,
    LONGEST_NUMBER,
    Raw,
    decimal,
    merged,
)
from stitchproof.language.read.size_lists import number_at, ordinals_at
from stitchproof.language.read.size_names import NO_SIZES, SAYING, SizeNames
from stitchproof.language.read.spellings import STOPPED, word


class TokenKind(Enum):
    """What a token is."""

    WORD = "word"
    NUMBER = "number"
    ORDINAL = "ordinal"  # `3rd`, `third`; `number` says which; `first` and `last` are words
    MARK = "mark"

    __hash__ = object.__hash__  # there is one object of each; that of `Enum` takes a call


@dataclass(frozen=True, slots=True)
class Token:
    """A word, a number or a mark.

    Attributes
    ----------
    kind : TokenKind
        What it is.
    text : str
        Folded: lower case, plain quotes, `x` for `×`; en and em dashes stay apart from `-`.
    place : Span
        Its characters in the whole text.
    number : Number or None
        Of a NUMBER or an ORDINAL.
    written : str
        The author's characters.
    """

    kind: TokenKind
    text: str
    place: Span = field(default=NOWHERE, compare=False)
    number: Number | None = None
    written: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True)
class _Folded:
    """Folded text; character i of it stands for code point origins[i] of what is written."""

    text: str
    origins: tuple[int, ...] | range
    written: str
    at: Span

    def place(self, start: int, end: int) -> Span:
        """Give the place of some characters of it."""
        first, last = self.origins[start], self.origins[end - 1]
        return Span(self.at.source, self.at.start + first, self.at.start + last + 1)

    def spelling(self, start: int, end: int) -> str:
        """Give the author's characters for some of it."""
        return self.written[self.origins[start] : self.origins[end - 1] + 1]


_FOLDED: Final = {
    "“": '"', "”": '"', "„": '"', "‟": '"', "″": '"', "‶": '"', "«": '"', "»": '"',
    "‘": "'", "’": "'", "‚": "'", "‛": "'", "′": "'", "´": "'", "`": "'", "‵": "'",
    "‐": "-", "‑": "-", "‒": "–", "–": "–", "—": "—", "―": "—", "−": "–", "﹣": "-", "－": "-",
    "×": "x", "✕": "x", "✖": "x", "⨯": "x", "╳": "x",
    "~": "–", "∼": "–", "～": "–",
    "…": "…", "∗": "*", "＊": "*", "✱": "*", "⁎": "*", "✻": "*", "⁑": "**",
    "½": "½", "¼": "¼", "¾": "¾", "⅓": "⅓", "⅔": "⅔", "⅛": "⅛", "⅜": "⅜", "⅝": "⅝", "⅞": "⅞",
    "【": "[", "】": "]", "〔": "[", "〕": "]", "（": "(", "）": ")",
    "〈": "<", "〉": ">", "⟨": "<", "⟩": ">", "‹": "<", "›": ">", "《": "<", "》": ">",
    "\u00ad": "", "\u200b": "", "\u200c": "", "\u200d": "", "\u2060": "", "\ufeff": "",
}  # fmt: skip
_LIGHT: Final = {ord(key): value for key, value in _FOLDED.items()}

_SCANNER: Final = re.compile(
    r"""(?P<space>\s+)
    | (?P<ordinal>[0-9]{1,18}(?:st|nd|rd|th)(?![^\W\d_]))
    | (?P<number>[0-9]+(?:\.[0-9]+)?)
    | (?P<glyph>[½¼¾⅓⅔⅛⅜⅝⅞])
    | (?P<plural>[^\W\d_]{1,12}\(s\))
    | (?P<with>(?<![^\W_])w/(?=\s?[^\W_]))
    | (?P<possessive>(?<=\*)'s(?![^\W\d_]))
    | (?P<dash>-+>|=>|>>+|//+)
    | (?P<dotted>(?<![^\W_])(?:h\.d\.c|[sd]\.c|[hd]\.tr|s\.s|f\.o|t-chs?)(?![^\W\d_])\.?)
    | (?P<smile>(?<=\s)[:;]-?(?:\)+|d(?![^\W_]))(?=[\s.,;!]|$))
    | (?P<word>[^\W\d_]+(?:'[^\W\d_]+)*)
    | (?P<dots>\.{2,}|…)
    | (?P<mark>\*+|\#+|†+|‡+|\{\{|\}\}|.)""",
    re.VERBOSE | re.DOTALL,
)


def lex(
    text: str,
    at: Span,
    declared: frozenset[str],
    sizes: int | None = None,
    names: SizeNames = NO_SIZES,
) -> tuple[tuple[Token, ...], list[Diagnostic]]:
    """Cut a stretch of text into tokens.

    Parameters
    ----------
    text : str
        The stretch.
    at : Span
        Where it stands in the whole text.
    declared : frozenset of str
        Names that a formula between braces may use; empty without front matter.
    sizes : int or None
        How many sizes the manuscript has, where that is known; it decides what a bracket is.
    names : SizeNames
        What they are called, where that is known.

    Returns
    -------
    tokens, found
        Spaces are not kept; `found` says which names between braces nobody declared.
    """
    plain = _BRACED.sub(r"\1(\2)", text) if "{" in text and sizes != 1 else text
    folded = replace(_fold(plain, at), written=text)
    formulas, found = _formulas(plain, at, declared)
    raws = _scan(folded, _starts(folded, formulas))
    tokens: list[Token] = []
    i = 0
    sized = bool(names.names) or any(raw.text in SAYING for raw in raws)
    passed: dict[int, int] = {}  # words that only name the sizes, from where to where
    while i < len(raws):
        if i in passed:
            i = passed[i]
            continue
        named = named_list(raws, i, names) if names.names else None
        if named is not None:
            token, i = _number(folded, raws, (i, named.end), named.values)
            tokens.append(token)
            if named.rest > named.unit_end:
                passed[named.unit_end] = named.rest
            continue
        listed = number_at(raws, i, sizes)
        if listed is None:
            values, last = ordinals_at(raws, i, sizes)
            tokens.append(_single(folded, raws[i], raws[last - 1].end, values))
            i = last
            continue
        values, last = listed
        first = i
        token, i = _number(folded, raws, (i, last), values)
        tokens.append(token)
        if sized and (last > first + 1 or raws[first].kind == "number"):
            passed |= _names_behind(raws, i, names, listed=last > first + 1)
    return tuple(tokens), found


_BRACED: Final = re.compile(r"(?<=\d)(\s?)\{(\s*\d[\d\s,:;/-]*)\}")  # `94 {154}`: two sizes


def _names_behind(raws: list[Raw], i: int, names: SizeNames, *, listed: bool) -> dict[int, int]:
    """Find whom a number is for behind it: `40 (44, 48) sts for S (M, L)`, `6 for all sizes`."""
    for at in range(i, min(i + _UNIT_REACH, len(raws))):
        end = names_all(raws, at, names) if listed and names.names else at
        end = end if end > at else every_size(raws, at)
        if end > at:
            return {at: end}
        if raws[at].kind != "word" and raws[at].text not in {"-", "–"}:
            break
    return {}


_UNIT_REACH: Final = 4  # pieces of what a number counts


def _fold(text: str, at: Span) -> _Folded:
    if text.isascii():
        plain = text.lower().replace("`", "'").replace("~", "–")
        return _Folded(plain, range(len(text) + 1), text, at)
    out: list[str] = []
    origins: list[int] = []
    for i, char in enumerate(text):
        folded = char.lower() if char.isascii() and char != "`" else _fold_one(char)
        out.append(folded)
        origins += [i] * len(folded)
    origins.append(len(text))
    return _Folded("".join(out), tuple(origins), text, at)


def _fold_one(char: str) -> str:
    light = _LIGHT.get(ord(char))
    if light is not None:
        return light
    wide = unicodedata.normalize("NFKC", char)
    return wide.translate(_LIGHT).lower()


def _starts(
    folded: _Folded, formulas: list[tuple[int, int, Formula]]
) -> dict[int, tuple[int, Formula]]:
    """Map where each formula starts in the folded text to where it ends."""
    if not formulas:
        return {}
    at = folded.origins  # a character that folds to nothing has no place of its own here
    return {bisect_left(at, a): (bisect_left(at, b), formula) for a, b, formula in formulas}


def _scan(folded: _Folded, formulas: dict[int, tuple[int, Formula]]) -> list[Raw]:
    raws: list[Raw] = []
    text = folded.text
    i = 0
    while i < len(text):
        if i in formulas:
            end, formula = formulas[i]
            words = text[i:end]
            raws.append(Raw(kind="number", text=words, start=i, end=end, formula=formula))
            i = end
            continue
        for match in _SCANNER.finditer(text, i):
            i = match.end()
            kind, words = match.lastgroup, match[0]
            if kind == "word":
                raws += word(words, match.start(), i)
            elif kind == "smile":
                raws += _smile(raws, match, text)
            elif words in _PLAIN_MARKS:
                raws.append(Raw("mark", words, match.start(), i))
            elif kind not in {"space", "possessive"}:
                raws += _raw(match, text)
            if i in formulas:
                break
    return merged(raws, text)


def _smile(raws: list[Raw], match: re.Match[str], text: str) -> list[Raw]:
    """Take `:)` for the end of a sentence; a bracket that is open is closed by it as well."""
    start, end = match.span()
    depth = sum((raw.text in "([") - (raw.text in ")]") for raw in raws if raw.kind == "mark")
    closes = match[0].endswith(")") and depth > 0 and text[end : end + 2].strip() != ")"
    return [Raw("mark", ")", end - 1, end)] if closes else [Raw("mark", ".", start, end)]


_PLAIN_MARKS: Final = frozenset(",()[];:*")
_SIGNS: Final = {"dots": "…", "dash": "–"}


def _raw(match: re.Match[str], text: str) -> list[Raw]:
    kind, words, start, end = match.lastgroup or "mark", match[0], match.start(), match.end()
    match kind:
        case "number":
            if len(words) > LONGEST_NUMBER:
                return [Raw(kind="word", text=words, start=start, end=end)]
            return [Raw(kind="number", text=words, start=start, end=end, value=decimal(words))]
        case "glyph":
            return [Raw(kind="number", text=words, start=start, end=end, value=FRACTIONS[words])]
        case "ordinal":
            return [Raw(kind="ordinal", text=words, start=start, end=end, value=int(words[:-2]))]
        case "plural":
            return [Raw(kind="word", text=f"{words[:-3]}s", start=start, end=end)]
        case "with" | "dotted":
            return word(words.replace(".", "").replace("t-ch", "tch"), start, end)
        case "dots" | "dash":
            return [Raw(kind="mark", text=_SIGNS[kind], start=start, end=end)]
        case "mark" if words == "." and _is_abbreviation_stop(text, start):
            return []
        case "mark" if words in {"{{", "}}"}:
            return [Raw(kind="mark", text=words[0], start=start, end=end)]
        case _:
            return [Raw(kind=kind, text=words, start=start, end=end)]


def _is_abbreviation_stop(text: str, dot: int) -> bool:
    start = dot
    while start > 0 and dot - start < len("approx") and text[start - 1].isalpha():
        start -= 1
    if text[start:dot] not in STOPPED:
        return False
    return bool(_GOES_ON.match(text, dot + 1))


_GOES_ON: Final = re.compile(r"\s{0,2}(?:[,;):\]]|(?:in|into|of|from|to|across|around|on|over)\b)")


def _single(folded: _Folded, raw: Raw, end: int, values: tuple[Value, ...]) -> Token:
    place = folded.place(raw.start, end)
    spelling = folded.spelling(raw.start, end)
    if raw.kind == "ordinal":
        number = Number(value=values, spelling=spelling, place=place)
        return Token(TokenKind.ORDINAL, raw.text, place, number, spelling)
    kind = TokenKind.WORD if raw.kind == "word" else TokenKind.MARK
    return Token(kind, raw.text, place, None, spelling)


def _number(
    folded: _Folded,
    raws: list[Raw],
    within: tuple[int, int],
    values: tuple[Value, ...],
) -> tuple[Token, int]:
    """Make one token of raws, taking a unit of length behind them into it."""
    first, last = within
    formula = raws[first].formula
    kind = NumberKind.COUNT
    unit = _unit(raws, last)
    if unit == "cm" and folded.spelling(raws[last].start, raws[last].end) == "CM":
        unit = None  # `8 OM, 1 CM`: a closed mesh
    if unit is not None and formula is None:
        kind = NumberKind.LENGTH
        values = tuple(None if value is None else value * LENGTHS[unit] for value in values)
        last += 1
        if unit == "in" and last < len(raws) and raws[last].text == ".":
            last += 1
    start, end = raws[first].start, raws[last - 1].end
    place, spelling = folded.place(start, end), folded.spelling(start, end)
    number = Number(value=formula or values, kind=kind, spelling=spelling, place=place)
    return Token(TokenKind.NUMBER, folded.text[start:end], place, number, spelling), last


def _unit(raws: list[Raw], at: int) -> str | None:
    """Find a unit of length; a bare `in` is one only where no place can follow it."""
    if at >= len(raws) or raws[at].text not in LENGTHS:
        return None
    unit = raws[at].text
    if unit != "in" or at + 1 == len(raws):
        return unit
    after = raws[at + 1]
    if after.text == "(":
        return unit if at + 2 < len(raws) and raws[at + 2].kind == "number" else None
    return unit if after.text in _AFTER_INCHES else None


_AFTER_INCHES: Final = frozenset((".", ",", ";", ")", "]", "from", "long", "deep", "wide"))


_BRACES: Final = re.compile(r"\{\{|\{([^{}\n]{1,2000})\}")


def _formulas(
    text: str, at: Span, declared: frozenset[str]
) -> tuple[list[tuple[int, int, Formula]], list[Diagnostic]]:
    """Find the braces that hold a formula; without declared names, braces are prose."""
    if not declared or "{" not in text:
        return [], []
    from stitchproof.language.read.formula import braces

    formulas: list[tuple[int, int, Formula]] = []
    found: list[Diagnostic] = []
    for match in _BRACES.finditer(text):
        if match[1] is None:  # an escaped brace
            continue
        inside = Span(at.source, at.start + match.start(1), at.start + match.end(1))
        braced = braces(match[1], inside, declared)
        if braced is None:
            continue
        formulas.append((match.start(), match.end(), braced.formula))
        if braced.finding is not None:
            found.append(braced.finding)
    return formulas, found
