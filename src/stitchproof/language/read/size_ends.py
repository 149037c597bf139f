"""Where some sizes end before the others do."""

import re
from typing import Final

_DONE: Final = re.compile(
    r"(?:(?:fasten|finish|end|tie|bind) off|f/o|cut (?:the )?yarn|break (?:the )?yarn"
    r"|(?:end|stop|finish) here)\b",
    re.IGNORECASE,
)
_JOINED: Final = re.compile(r"\b(?:re)?(?:join|attach)(?:ing)?\b", re.IGNORECASE)
_END: Final = re.compile(r"\b(?:ends?|stops?|is complete|are complete)\b", re.IGNORECASE)


def is_an_end(words: str) -> bool:
    """Tell whether what a line for some sizes says is that they end: `fasten off here`."""
    return _DONE.match(words) is not None


def joins_again(words: str) -> bool:
    """Tell whether a line begins with new yarn, so that sizes which have ended go on with it."""
    return _JOINED.search(words[:120]) is not None


def where_it_ends(words: str) -> int:
    """Find `ends here` behind the names of the sizes."""
    found = _END.search(words)
    return 0 if found is None else found.start()
