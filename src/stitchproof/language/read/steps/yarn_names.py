"""Names of yarns that have a short form: the main colour is MC, a contrasting colour CC."""

import re
from typing import Final

_MAIN: Final = re.compile(r"(?:the )?main colou?r", re.IGNORECASE)
_CONTRAST: Final = re.compile(
    r"(?:the )?contrast(?:ing)? colou?r(?: (?P<which>\d))?", re.IGNORECASE
)


def yarn_name(words: str) -> str:
    """Give the short form of `main color`, `contrasting colour 2`; other names as they are."""
    plain = " ".join(words.split())
    if _MAIN.fullmatch(plain):
        return "MC"
    contrast = _CONTRAST.fullmatch(plain)
    return words if contrast is None else f"CC{contrast['which'] or ''}"
