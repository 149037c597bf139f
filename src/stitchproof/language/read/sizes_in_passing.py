"""Names of sizes within a sentence: `Made flat. Sizes S/M (L/XL).`, `To fit bust 81 [86: 91] cm`.

A line that is a list of sizes says so at its beginning. Elsewhere only a list in brackets whose
every name can be a size is one, or the measure of the body that a pattern is sold by.
"""

import re
from collections.abc import Sequence
from typing import Final

_SIZE: Final = (
    r"(?:\d{0,2}[Xx]{0,4}[SMLsml]|[1-9][Xx]|[Ss]mall|[Mm]edium|[Ll]arge|[A-H]|\d{1,3}"
    r"|[A-Z][a-z]{2,9}(?:\s\d?[XSML]{1,3}\b)?"
    r"|\d{1,2}(?:[-–]\d{1,2})?\s?(?:mo?s?|y|yrs?|months?|years?))"
)
_NAME: Final = rf"{_SIZE}(?:[-–/]{_SIZE})?"
_PARTS: Final = r"\s*[,:;]\s*"
_DASHED: Final = rf"\s*[(\[]\s*{_SIZE}(?:\s?[-–]\s?{_SIZE}){{2,}}\s*[)\]]"
_MORE: Final = rf"(?:\s*[(\[{{]\s*{_NAME}(?:{_PARTS}{_NAME})*\s*[)\]}}]|{_DASHED})"
_AFTER: Final = r"(?=\s*(?:[.;,!]|$|\(|only\b|\s-\s|[–—]|(?:and|to|for|with|which)\b))"
_SAID: Final = re.compile(
    r"(?:\b[Ss]izes?|\bSIZES?|\b[Tt]o fit(?:\s+ages?)?)(?:\s+\((?:months|years|mths|yrs)\))?"
    rf"\s*[:=,–—-]?\s+(?:are\s+)?(?P<all>{_NAME}(?:{_MORE})+){_AFTER}"
)
_LISTED: Final = re.compile(  # `UK terms. Sizes: small, medium and large; the others follow.`
    rf"\b[Ss]izes?\s*[:=–—-]\s*(?P<all>{_NAME}(?:,\s*{_NAME})*,?\s+(?:and|&)\s+{_NAME})\s*(?=[.;]|$)"
)
_LETTERS: Final = r"(?:\d{0,2}X{0,4}[SML]|[1-9]X|NB|\d{1,2}(?:[-–]\d{1,2})?\s?(?:mo?s?|y|T))"
_OFFERED: Final = re.compile(  # `Available in NB (3m, 6m)`, `In S (M, L)`
    rf"\b[Ii]n\s+(?P<all>(?:{_LETTERS})\s*[(\[]\s*{_LETTERS}(?:{_PARTS}{_LETTERS})*\s*[)\]])"
    r"(?=\s*(?:[.;,!]|$))"
)
_AGES: Final = re.compile(
    r"\b[Tt]o fit\s+(?:ages?\s+)?(?P<all>\d{1,2}(?:[-–]\d{1,2})?(?:/\d{1,2}(?:[-–]\d{1,2})?)+)"
    r"\s+(?:years?|yrs?|months?|mths?)\b"
)
_SLASHED: Final = re.compile(
    r"\b(?:\d|two|three|four|five|six|several)\s+sizes\s*[:=–—-]\s*"
    rf"(?P<all>{_NAME}(?:\s*/\s*{_NAME})+|{_NAME}(?:,\s*{_NAME})*(?:,?\s*(?:and|&)\s*{_NAME}))\s*(?=[.;]|$)",
    re.IGNORECASE,
)
_BODY: Final = re.compile(
    r"\s*[*_]*(?:to fit\s+)?(?:bust|chest|hips?|waist|head|foot|hand)(?:\s*/\s*(?:bust|chest))?"
    r"(?:\s+(?:sizes?|circumference|measurements?))?[*_]*\s*[:=–—-]?[*_]*\s+(?P<all>\d{1,3}(?:\s*[(\[{]\s*\d{1,3}(?:\s*[-–,:;/]\s*\d{1,3})*\s*[)\]}])+)"
    r"\s*(?:cm|in|ins|inch|inches|\"|”)",
    re.IGNORECASE,
)
_OF_TOOLS: Final = re.compile(r"\b(?:hooks?|needles?|buttons?|balls?|beads?)\s+$", re.IGNORECASE)
_BETWEEN: Final = re.compile(r"\s*[,:;(){}\[\]]+\s*|\s+(?:and|&)\s+")
_NUMBERS: Final = re.compile(r"\d+")
_TO_FIT: Final = re.compile(r"\s*[*_]*to fit\b", re.IGNORECASE)
_FINISHED: Final = re.compile(
    r"\b(?:finished|measure(?:s|ments?)?|actual)\b(?=[^\n]*\d)", re.IGNORECASE
)


_NEAR_BY: Final = ("size", "fit", "in ")


def sizes_among(lines: Sequence[str]) -> tuple[str, ...]:
    """Find names of sizes in a sentence that says so."""
    for words in lines:
        if any(word in words.lower() for word in _NEAR_BY):
            names = _in_passing(words)
            if names:
                return names
    return ()


def sizes_by_body(lines: Sequence[str]) -> tuple[str, ...]:
    """Find the measures of the body that a pattern fits: those that it says `to fit` first."""
    for words in (*(words for words in lines if _TO_FIT.match(words)), *lines):
        told = _BODY.match(words)
        if _FINISHED.search(words) and (told is None or _FINISHED.search(words, told.end())):
            return ()
        names = _apart(tuple(_NUMBERS.findall(told["all"]))) if told is not None else ()
        if names:
            return names
    return ()


def _in_passing(line: str) -> tuple[str, ...]:
    """Read the names of sizes that a sentence gives; empty where it gives none."""
    told = _SAID.search(line) or _SLASHED.search(line) or _LISTED.search(line)
    told = told or _OFFERED.search(line) or _AGES.search(line)
    if told is None or _OF_TOOLS.search(line[: told.start()]):
        return ()
    words = told["all"]
    bare = not set(words) & set("([{,") and "/" in words
    parts = words.split("/") if bare else _BETWEEN.split(words)
    if len(parts) == 3 and re.fullmatch(r"\s*\w+(?:\s?[-–]\s?\w+){2,}\s*", parts[1]):  # noqa: PLR2004
        parts = [parts[0], *re.split(r"\s?[-–]\s?", parts[1])]  # `Toddler (Child-Teen-Adult)`
    return _apart(tuple(part.strip() for part in parts if part.strip()))


def _apart(names: tuple[str, ...]) -> tuple[str, ...]:
    """Give names of sizes where there are several, and no two alike."""
    return names if len(names) == len(set(names)) > 1 else ()
