"""Characters that an edition cannot carry, and those that the printed sheet has no shape for.

Control characters, lone surrogates and noncharacters are forbidden in web pages and have no shape
on paper; each is shown as the replacement character, so that nothing vanishes without a trace. A
character that the fonts of the PDF lack is printed there by its name; the web page and the plain
text show it.
"""

import re
import unicodedata
from bisect import bisect_right
from functools import cache
from pathlib import Path
from typing import Final

REPLACEMENT: Final = "\N{REPLACEMENT CHARACTER}"
_PLANES: Final = "".join(
    f"{chr(plane * 0x10000 + 0xFFFE)}{chr(plane * 0x10000 + 0xFFFF)}" for plane in range(17)
)
_FORBIDDEN: Final = re.compile(
    f"[\x00-\x08\x0b-\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef{_PLANES}]"
)
# Soft hyphens, joiners, marks of direction, variation selectors: seen by no reader of print.
_UNSEEN: Final = re.compile("[\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufe00-\ufe0f\ufeff]")


def printable(words: str) -> str:
    """Show every forbidden character as the replacement character; other words stay."""
    return _FORBIDDEN.sub(REPLACEMENT, words.replace("\r", "\n"))


def shown(words: str) -> str:
    """Give words as the PDF prints them: a character its fonts lack by name, `[ball of yarn]`."""
    if words.isascii() and words.isprintable():
        return words
    seen = _UNSEEN.sub("", printable(words))
    return "".join(one if _covered(one) else f"[{name_of(one)}]" for one in seen)


def unshown(words: str) -> frozenset[str]:
    """Give the characters of some words that the PDF prints by name."""
    if words.isascii():
        return frozenset()
    return frozenset(one for one in set(_UNSEEN.sub("", words)) if not _covered(one))


def name_of(character: str) -> str:
    """Name a character: `ball of yarn`; by its number where it has no name."""
    return unicodedata.name(character, f"character {ord(character):04X}").lower()


def _covered(character: str) -> bool:
    starts, ends = _coverage()
    code = ord(character)
    index = bisect_right(starts, code) - 1
    return character in "\n\r\t" or (index >= 0 and code <= ends[index])


@cache
def _coverage() -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Read which characters the fonts can show: first and last of each range."""
    text = (Path(__file__).parent / "data" / "covered.txt").read_text("ascii")
    ranges = [line.partition("-") for line in text.splitlines() if not line.startswith("#")]
    starts = tuple(int(first, 16) for first, _, _ in ranges)
    return starts, tuple(int(last or first, 16) for first, _, last in ranges)
