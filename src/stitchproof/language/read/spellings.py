"""Words as they are meant: `accross`, `scblo`, `dc's`, `nextst`."""

import re
from typing import Final

from stitchproof.language.read.numerals import (
    ORDINALS,
    WORDS,
    Raw,
    word_set,
)

# Abbreviations whose stop is no end of a sentence when the sentence goes on.
STOPPED: Final = word_set(
    "ch chs st sts sc dc hdc tr htr dtr sl sp sps rep beg sk ss lp lps rem ea rnd bet inc dec"
    " fol foll patt tog yo approx cont alt"
)


_MEANT: Final = {
    "hk": "hook", "stich": "stitch", "stiches": "stitches", "stitchs": "stitches",
    "accross": "across", "acros": "across", "repeaet": "repeat", "repaet": "repeat",
    "evry": "every", "nxt": "next", "prev": "previous", "w/": "with",
    "rd": "rnd", "rds": "rnds", "acts": "counts", "btw": "between", "btwn": "between",
    "thru": "through", "bet": "between",
}  # fmt: skip


_PLAIN: Final = "sc|hdc|dc|htr|tr|dtr"


_LOOPED: Final = re.compile(  # a loop written as one word with its stitch: `scblo`, `blhdc`
    rf"(?P<after>{_PLAIN})(?:[bf]lo|[bf]l)|(?:[bf]lo|[bf]l)(?P<before>{_PLAIN})"
)


_GLUED: Final = {
    f"{first}{second}": (first, second)
    for first, seconds in (
        ("in", ("last", "next", "each", "first", "same", "every")),
        ("next", ("st", "sts", "sc", "dc", "hdc", "tr", "htr", "ch")),
        ("each", ("st", "sc", "dc", "hdc", "tr", "htr", "ch")),
        ("last", ("st", "sts")),
        ("first", ("st", "sc", "dc", "hdc", "tr", "htr")),
        ("to", ("last", "next", "end")),
    )
    for second in seconds
}


_OTHERWISE: Final = frozenset((*WORDS, *ORDINALS, *_MEANT, *_GLUED))


def word(words: str, start: int, end: int) -> list[Raw]:
    """Give the words that a run of letters stands for."""
    if words not in _OTHERWISE and "'" not in words and "fl" not in words and "bl" not in words:
        return [Raw("word", words, start, end)]  # as most are
    if words in WORDS:
        return [
            Raw(kind="number", text=words, start=start, end=end, value=WORDS[words], spelled=True)
        ]
    if words in ORDINALS:
        return [Raw(kind="ordinal", text=words, start=start, end=end, value=ORDINALS[words])]
    if words.endswith("'s") and words[:-2] in STOPPED:  # `between dc's`
        return [Raw(kind="word", text=f"{words[:-2]}s", start=start, end=end)]
    if words == "v's":
        cut = start + 1
        return [
            Raw(kind="word", text="v", start=start, end=cut),
            Raw(kind="word", text="sts", start=cut, end=end),
        ]
    if words in _MEANT:
        return [Raw(kind="word", text=_MEANT[words], start=start, end=end)]
    glued = _GLUED.get(words) or _looped(words)
    if glued is not None:
        first, second = glued
        cut = start + len(first)
        return [
            Raw(kind="word", text=first, start=start, end=cut),
            Raw(kind="word", text=second, start=cut, end=end),
        ]
    return [Raw(kind="word", text=words, start=start, end=end)]


def _looped(words: str) -> tuple[str, str] | None:
    """Cut `scblo`, `blhdc` into the stitch and its loop."""
    looped = _LOOPED.fullmatch(words)
    if looped is None:
        return None
    cut = looped.end("after") if looped["after"] else looped.start("before")
    return words[:cut], words[cut:]
