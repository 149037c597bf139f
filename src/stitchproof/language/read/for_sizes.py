"""For which sizes lines are: `Sizes L and XL only:`, `Rnd 6 (M and L)`, `Size S ends here`.

Names that the pattern does not have are kept as they are: nobody knows then whom a line is for.
"""

import re
from typing import Final

from stitchproof.language.read.names_listed import LIST, cut_names
from stitchproof.language.read.size_ranks import size_rank
from stitchproof.language.read.which_sizes import named_sizes

_REACH: Final = 160  # characters of a line that are looked at
_FOR: Final = r"(?:(?:continue|work(?:ed)?)\s+)?(?:for\s+)?(?:the\s+)?"
_ONLY: Final = re.compile(
    rf"{_FOR}sizes?\s+(?P<list>{LIST})\s+only\b\s*[:.,]?\s*"
    rf"|only\s+(?:for\s+)?(?:the\s+)?sizes?\s+(?P<after>{LIST})\s*:\s*"
    rf"|{_FOR}(?P<other>{LIST})\s+sizes?\s+only\b\s*[:.,]?\s*",
    re.IGNORECASE,
)
_EXCEPT: Final = r"(?:except|but|apart\s+from|other\s+than|excluding)\b"
ALL_SIZES: Final = re.compile(
    rf"(?:for\s+)?(?:all|both|every|each)\s+(?:the\s+)?sizes?\b(?!\s+{_EXCEPT})\s*[:.,]?\s*",
    re.IGNORECASE,
)
_ALL_BUT: Final = re.compile(
    rf"(?:for\s+)?(?:all|every)\s+(?:the\s+)?sizes?\s+{_EXCEPT}\s+(?:for\s+)?(?:the\s+)?"
    rf"(?:sizes?\s+)?(?P<list>{LIST})(?:\s+sizes?)?(?:\s+only)?\s*(?:[:.,]|$)\s*",
    re.IGNORECASE,
)
_OTHERS: Final = re.compile(
    r"(?:for\s+)?(?:all\s+)?(?:the\s+)?(?:other|remaining)\s+sizes(?:\s+only|\s+continue\b[^:.]{0,40})?"
    r"\s*[:.,]\s*",
    re.IGNORECASE,
)
_ENDS_HERE: Final = re.compile(
    rf"(?:for\s+)?(?:the\s+)?sizes?\s+(?P<list>{LIST})(?:\s+only)?\s*[:,]?\s*"
    rf"(?:ends?|stops?|is complete|are complete)(?:\s+here)?\b"
    rf"|(?:end|stop)\s+here\s+for\s+(?:the\s+)?(?:sizes?\s+)?(?P<for>{LIST})(?:\s+sizes?)?(?=\s*[.;:,]|\s*$)"
    rf"|(?:for\s+)?(?:the\s+)?(?P<bare>{LIST})(?:\s+sizes?)?\s*[:,]?\s*(?:ends?|stops?)\s+here\b",
    re.IGNORECASE,
)


def read_only(
    text: str, start: int, end: int, sizes: tuple[str, ...] = (), before: tuple[str, ...] = ()
) -> tuple[tuple[str, ...], int] | None:
    """Read `Sizes L and XL only:` at the start of a line: the sizes, and where the rest begins.

    Parameters
    ----------
    text : str
        The whole text.
    start, end : int
        The line.
    sizes : tuple of str
        All sizes, where they are known.
    before : tuple of str
        The sizes that the lines before were for ("All other sizes:").
    """
    end = min(end, start + _REACH)
    others = _OTHERS.match(text, start, end)
    if others and before and sizes:
        return tuple(s for s in sizes if s not in before), others.end()
    but = _ALL_BUT.match(text, start, end) if sizes else None
    if but is not None:
        left_out = named_sizes(cut_names(but["list"]), sizes)
        return (tuple(s for s in sizes if s not in left_out), but.end()) if left_out else None
    match = _ONLY.match(text, start, end)
    if match is not None:
        names = cut_names(match["list"] or match["after"] or match["other"])
        told = named_sizes(names, sizes) or names
        return (told, match.end()) if names else None
    return _known_only(text, start, end, sizes)


_BARE_ONLY: Final = re.compile(
    rf"(?:for\s+)?(?:the\s+)?(?P<word>sizes?\s+)?(?P<list>{LIST})(?P<after>\s+sizes?)?"
    r"(?P<only>\s+(?:only|continues?)\b[^:.,]{0,30}(?:[:.,]|$)|\s*:)\s*",
    re.IGNORECASE,
)


_NAMED_ONLY: Final = re.compile(  # `Place Mat and Centerpiece only:`, names of several words
    r"(?:for\s+)?(?:the\s+)?(?:sizes?\s+)?(?P<list>[^()\[\]:.;\n]{2,60}?)(?:\s+sizes?)?\s+only\s*:\s*",
    re.IGNORECASE,
)
_FOR_ENDED: Final = re.compile(
    rf"for\s+(?:the\s+)?sizes?\s+(?P<list>{LIST})\s*,\s+(?=(?:fasten|finish|end|tie)\s+(?:off|here))",
    re.IGNORECASE,
)


def _known_only(
    text: str, start: int, end: int, sizes: tuple[str, ...]
) -> tuple[tuple[str, ...], int] | None:
    """Read `Large only:`, `Sizes L and XL:`, `Small:` where these are names of sizes."""
    ended = _FOR_ENDED.match(text, start, end) if sizes else None
    if ended is not None and named_sizes(cut_names(ended["list"]), sizes):
        return named_sizes(cut_names(ended["list"]), sizes), ended.end()
    match = _BARE_ONLY.match(text, start, end)
    if match is None:
        named = _NAMED_ONLY.match(text, start, end) if sizes else None
        some = named_sizes(cut_names(named["list"]), sizes) if named is not None else ()
        return (some, named.end()) if named is not None and 0 < len(some) < len(sizes) else None
    told = cut_names(match["list"])
    names = named_sizes(told, sizes)
    if not names and match["only"].strip() != ":" and _can_be_sizes(told):
        return told, match.end()
    if not names or len(names) == len(sizes) > 1:
        return None
    sure = match["word"] or match["after"] or match["only"].strip() != ":"
    if not sure and any(n[:1].isdigit() for n in (*told, *names)):
        return None
    return names, match.end()


_LABEL_ONLY: Final = re.compile(
    r"(?:[(\[,]\s*|[–—-](?!\d)\s*|\bfor\s+)(?P<told>(?:for\s+)?(?:the\s+)?[^()\[\]:]{1,60}?)\s*[)\]]?$",
    re.IGNORECASE,
)


_BARE_IN_LABEL: Final = re.compile(  # `Rnd 3 newborn only`
    r"^[A-Za-z]{1,6}\.?\s?\d[\d–-]*\s+(?P<told>[^()\[\]:]{1,60}?\s+only)$", re.IGNORECASE
)
_SAYS_SIZES: Final = re.compile(r"\bonly$|^(?:for\s+)?(?:the\s+)?sizes?\b|\bsizes?$", re.IGNORECASE)
_SIZE_WORDS: Final = re.compile(
    r"^(?:for\s+)?(?:the\s+)?(?:sizes?\s+)?|\s+(?:sizes?\s+)?only$|\s+sizes?$", re.IGNORECASE
)


_NOT_FOR: Final = re.compile(
    rf"(?:not|never|(?:(?:for\s+)?(?:all|every)\s+(?:sizes?\s+)?)?{_EXCEPT})\s+(?=\S)",
    re.IGNORECASE,
)


def label_only(label: str, sizes: tuple[str, ...]) -> tuple[str, ...]:
    """Read the sizes of `Rnd 6 (M and L only)`, `Row 9 - sizes L, XL`; empty for all sizes."""
    for told in (*_LABEL_ONLY.finditer(label), *_BARE_IN_LABEL.finditer(label)):
        words = told["told"].strip()
        sized = _SAYS_SIZES.search(words)
        apart = told.group()[:1] in "([" and label[: told.start()][-1:].isspace()  # no `row(s)`
        alone = apart and not any(character.isdigit() for character in words)  # `(M, L)`
        if not (sized or alone):
            continue
        but = _NOT_FOR.match(words) if alone or sized else None
        words = words[but.end() :] if but is not None else words
        names = cut_names(_SIZE_WORDS.sub("", words))
        found = named_sizes(names, sizes)
        if found and but is not None:
            return tuple(size for size in sizes if size not in found)
        if found or _can_be_sizes(names, sure=sized is not None):
            return found or names
    return ()


_ONLY_BEHIND: Final = re.compile(
    r"\s+(?:for\s+)?(?:sizes?\s+)?(?P<names>[^()\[\]:.;\n]{1,40}?)\s+only(?=\s*[:.–—-])",
    re.IGNORECASE,
)


def past_only(text: str, at: int, end: int, sizes: tuple[str, ...]) -> int:
    """Go past `newborn only` behind the number of a label, where that closes there."""
    words = _ONLY_BEHIND.match(text, at, end) if sizes else None
    told = words and named_sizes(cut_names(words["names"]), sizes)
    return words.end() if words and told else at


def names_sizes(words: str, sizes: tuple[str, ...]) -> bool:
    """Tell whether words are names of sizes: `Small`, `Teen and Adult only`, `Adult size only`."""
    return bool(named_sizes(cut_names(_BESIDE_SIZES.sub("", words).strip()), sizes))


_BESIDE_SIZES: Final = re.compile(r"\b(?:sizes?|only)\b", re.IGNORECASE)


def _can_be_sizes(names: tuple[str, ...], *, sure: bool = True) -> bool:
    """Whether names are such as sizes have, though the pattern has others; a letter may be any."""
    plain = bool(names) and all(size_rank(name) is not None for name in names)
    return plain and (sure or len(names) > 1 or len(names[0]) > len("3XL"))


_LEADING: Final = re.compile(r"\s*[(\[](?P<told>[^()\[\]:;.]{1,60})[)\]]\s*[:,]?\s*")


def leading_sizes(
    text: str, start: int, end: int, sizes: tuple[str, ...]
) -> tuple[tuple[str, ...], int] | None:
    """Read `(medium and large)` that the words behind a label begin with, and where it ends."""
    match = _LEADING.match(text, start, end)
    if match is None:
        told = read_only(text, start, end, sizes)  # `Rnd 6 - 3rd size only: ch 1`
        some = told is not None and set(told[0]) != set(sizes)
        if told is None or not some:
            return None
        only = "only" in text[start : told[1]].lower()
        return told if only or _alone(text[told[1] : end], sizes) else None
    if any(character.isdigit() for character in match["told"]) and not _SAYS_SIZES.search(
        match["told"].strip()
    ):
        return None
    names = cut_names(_SIZE_WORDS.sub("", match["told"]))
    found = named_sizes(names, sizes)
    if not found and _can_be_sizes(names, sure=False):
        return names, match.end()
    return (found, match.end()) if found and len(found) < len(sizes) else None


def _alone(rest: str, sizes: tuple[str, ...]) -> bool:
    """Whether nothing behind `Woman and man: …` is said of other sizes: it is for these then."""
    words = rest.lower()
    return not any(f"{size.lower()}:" in words or "other" in words for size in sizes)


def read_ends_here(line: str, sizes: tuple[str, ...]) -> tuple[str, ...]:
    """Read `Size S ends here`, `End here for S`: the sizes that go on."""
    match = _ENDS_HERE.match(line.strip(" *_")[:_REACH])
    if match is None:
        return ()
    ended = named_sizes(cut_names(match["list"] or match["for"] or match["bare"]), sizes)
    return tuple(s for s in sizes if s not in ended) if ended else ()
