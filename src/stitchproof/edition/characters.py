"""Characters no edition can carry.

Control characters, lone surrogates and noncharacters are forbidden in web pages and have no shape
on paper; each is shown as the replacement character, so that nothing vanishes without a trace.
"""

import re
from typing import Final

REPLACEMENT: Final = "\N{REPLACEMENT CHARACTER}"
_FORBIDDEN: Final = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff"
    + "".join(
        f"{chr(plane * 0x10000 + 0xFFFE)}{chr(plane * 0x10000 + 0xFFFF)}" for plane in range(1, 17)
    )
    + "]"
)


def printable(words: str) -> str:
    """Show every forbidden character as the replacement character; other words stay."""
    return _FORBIDDEN.sub(REPLACEMENT, words)
