"""Letters that the author lets stand for stitches: `X = sc, V = inc, A = dec`.

Common in patterns for toys, no source. A letter is read so only where the text says what it is;
its words then stand in the line instead of it.
"""

import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final, TypeAlias

from stitchproof.base.records import replace
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.trade import stitches

Shorthand: TypeAlias = Mapping[str, str]
NO_SHORTHAND: Final[Shorthand] = MappingProxyType({})

_CHANGES: Final = frozenset(("inc", "dec", "increase", "decrease"))
_PLAINLY: Final = re.compile(
    r"(?:work |make )?(?:2|two) (?:sts?|stitches) (?:in(?:to)? (?:the )?(?:one|1|same|next|a)"
    r"|tog(?:ether)?)\b",
    re.IGNORECASE,
)


def says_the_same(names: tuple[str, ...], body: str) -> bool:
    """Tell whether `inc = 2 sts in one` gives a word of the trade the sense that it has anyway."""
    plainly = _PLAINLY.match(body.strip()) is not None
    return plainly and all(name.lower() in _CHANGES for name in names)


_SAID: Final = re.compile(
    r"(?<![\w-])(?P<letter>[A-Z]{1,2}\d?)\s{0,3}(?:=|:|\s[-–—]\s)\s{0,3}(?P<words>[A-Za-z0-9][^\n,;.=|]{0,40})"
)
_KIND: Final = r"(?:(?P<kind>sc|dc|hdc|htr|tr)|(?P<full>single crochets?|double crochets?))"
_INCREASE: Final = re.compile(
    rf"(?:an? )?(?:{_KIND} )?inc(?:rease)?\b"
    rf"|2 {_KIND.replace('kind', 'kinds').replace('full', 'fulls')}"
    r" in(?:to)? (?:the )?(?:same|one|next|1) (?:st|stitch)\b",
    re.IGNORECASE,
)
_DECREASE: Final = re.compile(
    rf"(?:an? )?(?:inv(?:isible)? )?(?:{_KIND} )?dec(?:rease)?\b", re.IGNORECASE
)
_NOT_ONE: Final = frozenset(("MR", "MC", "CC", "RS", "WS", "US", "UK", "PM", "SM", "YO", "FO"))
_CLOSING: Final = frozenset((")", "]", "}"))


def read_shorthand(stretches: Iterable[str]) -> Shorthand:
    """Find what the narrative says that letters stand for."""
    found: dict[str, str] = {}
    for words in stretches:
        for said in _SAID.finditer(words):
            meaning = _meaning(said["words"].strip())
            if meaning and said["letter"] not in _NOT_ONE:
                found.setdefault(said["letter"], meaning)
    return MappingProxyType(found) if found else NO_SHORTHAND


def _meaning(words: str) -> str:
    """Give the words that a line can have for it: `sc`, `dc inc`, `dec`; empty for no stitch."""
    for change, told in (("inc", _INCREASE.match(words)), ("dec", _DECREASE.match(words))):
        if told is not None:
            named = [kind.rstrip("s").lower() for kind in told.groups() if kind]
            return " ".join((*named, change))
    plain = re.split(r"\s*[(\[]|\s+(?:in|into|st|sts|stitch)\b", words)[0].strip().lower()
    named_as = stitches.named(plain, "US") or stitches.named(plain, "UK")
    return plain if named_as is not None and not stitches.stitches()[named_as.kind].group else ""


def spelled_out(tokens: tuple[Token, ...], shorthand: Shorthand) -> tuple[Token, ...]:
    """Put the words into a line that its letters stand for; `(…) X 6` is still so many times."""
    if not shorthand:
        return tokens
    out: list[Token] = []
    for i, token in enumerate(tokens):
        meaning = shorthand.get(token.written) if token.kind is TokenKind.WORD else None
        times = token.text == "x" and i > 0 and tokens[i - 1].text in _CLOSING
        if meaning is None or times:
            out.append(token)
        else:
            words = meaning.split()
            out += (replace(token, text=word, written=word) for word in words)
    return tuple(out)
