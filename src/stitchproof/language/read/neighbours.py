"""Whether a line stands on its own or goes on with the one above."""

import re
from typing import Final

from stitchproof.language.read.asides import is_aside
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.openings import opens_strongly, opens_with_a_verb
from stitchproof.language.tree import Label

SHORT: Final = 40  # characters of a line that may be a title rather than a sentence

_BARE_NUMBER: Final = re.compile(r"\s*(\d{1,4})\s*[.:)]\s")


def follows(above: Label | None, words: str) -> bool:
    """Whether `2.` at the start of a line is the number after that of the row above."""
    number = _BARE_NUMBER.match(words)
    last = above.last if above else None
    return number is not None and last is not None and last.value == (int(number[1]) - 1,)


_FIRST: Final = re.compile(r"\s*1\s*[.:)]\s")


def begins_rows(above: str, words: str) -> bool:
    """Whether `1.` at the start of a line is the first row on the chain that stands above."""
    return bool(_FIRST.match(words)) and len(above) <= SHORT and bool(FOUNDATION.match(above))


_UNFINISHED: Final = word_set(
    "rep repeat of as and to from in into with same work until row rows rnd rnds round rounds"
    " through after before at for the every each on or than next last a an like see under over"
    " sk skip miss by between end ending plus"
)


_MANY_ROWS: Final = word_set("rows rnds rounds")  # `work along the long edge, in rounds`
_AT_AN_END: Final = word_set("to the each other one either this next")


def goes_on(text: str, above: tuple[int, int], label: Label) -> bool:
    """Whether `Row 2.` at the start of a line ends the sentence above: `… Rep` / `Row 2.`."""
    words = text[max(above[0], above[1] - 40) : above[1]].split()
    last = words[-1] if words else ""
    ends = last.lower() == "end" and words[-2:-1] and words[-2].lower() in _AT_AN_END
    ends = ends or (last.lower() in _MANY_ROWS and words[-2:-1] == ["in"])
    if last.lower().strip("(*_") in _UNFINISHED and not ends:
        return True
    closed = text[label.place.end : label.place.end + 4].lstrip(" *_")[:1] == ":"
    return not closed and last[-1:] in {",", "-", "–", "—", "(", "/"}


FOUNDATION: Final = re.compile(
    r"\s*(?:(?:with|using)\b(?:[^.,]|\.\d){1,60}?(?:,\s*|\s(?=ch\b|chain\b|make\b|work\b)))?(?:(?:(?:very|fairly)\s+)?loosely,?\s+)?"
    r"(?:(?:make|work)\s+)?(?:(?:ch|chain|f(?:sc|hdc|dc|htr|tr))\s*(?:loosely\s*)?[\d{(\[]"
    r"|\d+(?:/\d+)*\s*(?:[(\[][\d\s,:;/-]+[)\]]\s*)?(?:ch|f(?:sc|hdc|dc|htr|tr))\b|an?\s+ch"
    r"|(?:an?\s*)?(?:magic|adjustable|sliding)\s+(?:ring|circle|loop))",
    re.IGNORECASE,
)


_LED: Final = re.compile(
    r"\s*(?:with|using)\b(?:[^.]|\.\d){1,60}?,?\s+(?:make\s+)?"
    r"(?:(?:ch|chain)\s*\d+(?:\s*[(\[][\d\s,:;/-]+[)\]])*"
    r"|\d+(?:/\d+)*\s*(?:[(\[][\d\s,:;/-]+[)\]]\s*)*ch(?:s|ain|ains)?)"
    r"\s*(?:$|[.;,]\s*(?:$|join|ss\b|sl\b|slip|turn|do not|don['’]t|being))",
    re.IGNORECASE,
)


def founds(words: str) -> bool:
    """Whether a line makes a foundation chain and nothing on it: `With A, ch 128.`, `Ch 12.`."""
    if FOUNDATION.match(words) and opens_with_a_verb(words):
        return True
    return bool(_LED.match(words))


def closed(text: str, start: int, end: int) -> bool:
    """Whether what stands above ends as a sentence or a title does."""
    return text[end - 1] in ".:!?)]}" or end - start <= SHORT


_COUNTED: Final = re.compile(
    r"\d[\s)\]}]*(?:sts?|(?:slip )?stitches|e?h?dc|sc|d?tr|htr|sps?"
    r"|(?:half |double |extended )?(?:single|double|treble|triple) crochets?)\.?\s*[)\]}>]?\.?$"
    r"|[(\[{]\s*\d[\d\s,:;()\[\]-]*[)\]}]\.?$",
    re.IGNORECASE,
)


def ends_with_a_count(text: str, start: int, end: int) -> bool:
    """Whether what stands above ends with the stitches after it: `turn. 24 sts`."""
    return bool(_COUNTED.search(text, max(start, end - SHORT), end))


_TOLD: Final = re.compile(
    r"(?:=|[–—]|\s-)\s*\d[\d\s,:(\[)\]-]*(?:sts?|stitches|e?h?dc|sc|d?tr|htr)?$", re.IGNORECASE
)


_BRACKETED: Final = re.compile(
    r"[(\[]\s*\d[\d\s,:/-]*(?:sts?|stitches|e?h?dc|sc|d?tr|htr)?\s*[)\]]\.?$", re.IGNORECASE
)
_ENDS_A_ROW: Final = re.compile(
    r"\s*(?:sl|slip|ss|\d*\s*ch|chain|turn|join|fasten|finish|f/?o|end|tie|cut|break|rep|repeat|sk|skip"
    r"|miss|do|don['’]t|change|switch|rotate|[*(\[#†‡])(?![a-z])",
    re.IGNORECASE,
)


def another_row(text: str, above: tuple[int, int], words: str) -> bool:
    """Whether a line of work stands below a row that is told whole: `… x 3 (9)`, `… = 48 sts`."""
    start, end = above
    told = _TOLD.search(text, max(start, end - SHORT), end)
    if not told and not _BRACKETED.search(text, max(start, end - SHORT), end):
        return False
    return opens_strongly(words) and not _ENDS_A_ROW.match(words)


_FASTENED: Final = re.compile(
    r"\b(?:fasten(?:ed)?|finish|end|tie) off\b[^.;:]{0,60}[.!]?\s*"
    r"(?:weave in (?:all |the |your )?ends?\.?\s*)?(?:[(\[{]\s*\d[^\n]{0,80}[)\]}]\s*)?$",
    re.IGNORECASE,
)


def fastened(text: str, start: int, end: int) -> bool:
    """Whether what stands above ends with the yarn fastened off: nothing goes on from there."""
    return bool(_FASTENED.search(text[max(start, end - 160) : end]))


_COUNTED_FIRST: Final = (  # `54 (58: 66) ch`, and nothing that a chain counts as or is beside
    r"\d+(?:/\d+)*\s*(?:[(\[][\d\s,:;/-]+[)\]]\s*)?ch(?:ains?)?\b"
    r"(?![\s-]*(?:sps?|spaces?|lps?|loops?|counts?|at|is|are|does|do|=|stands?|never|always|not|will|here))"
)
FOUNDED: Final = re.compile(
    r"[.]\s+(?=(?:(?:with|using)\b[^.]{1,40},\s*)?(?:make\s+)?"
    rf"(?:(?:ch|chain|f(?:sc|hdc|dc|htr|tr))\s+[\d{{(\[]|{_COUNTED_FIRST}))",
    re.IGNORECASE,
)
_TITLE: Final = re.compile(r"\s*(?:\*\*)?[A-Z][A-Z '&/()-]{2,40}(?:\*\*)?[:.]?\s*$")
_EMPHATIC: Final = re.compile(
    r"\s*(?P<marks>\*{1,3}|_{1,3})(?=[A-Z])[^*_:.;,\d]{2,40}(?P=marks)[:.]?\s*$"
)
_NAME: Final = re.compile(  # `Cap`, `Left strap`, `Neck and collar`
    r"\s*(?!(?:across|around|turn|join|fasten|finish|end|repeat|rep|then|and|both|twice|once)\b)"
    r"[A-Z][a-z’'-]{2,14}(?:\s+(?:and\s+|&\s+)?[A-Za-z][a-z’'-]{2,14}){0,2}\s*$"
)
_SEAMED: Final = re.compile(  # `Sl st the first and last rows together into a band.`
    r"\s*(?:join|sew|seam|graft|sl st|ss|slip stitch|sc|dc|whip ?stitch)\s+"
    r"(?:the\s+|both\s+|two\s+)*"
    r"(?:(?:short|long|narrow)\s+)?(?:ends?(?:\s+of\s+(?:the\s+)?(?:strip|band|rib|ribbing|cuff))?"
    r"|(?:first\s+and\s+last|last\s+and\s+first)\s+rows?|(?:side|short)\s+edges?)"
    r"(?:\s+(?:together|to\s+(?:each\s+other|form|make))\b|\s*[,.;]|\s*$)",
    re.IGNORECASE,
)
_OF_PARTS: Final = re.compile(  # `You now have 48 dc on back and front and 38 dc on each sleeve.`
    r"\s*(?:you(?:\s+should|\s+will)?(?:\s+now)?\s+have|you['’]ll(?:\s+now)?\s+have|there\s+are(?:\s+now)?)"
    r"\s+\d[^.;:]{0,60}?\b(?:on|for|at)\s+(?:the\s+|each\s+|both\s+)*(?:back|front|body|sleeve)s?\b",
    re.IGNORECASE,
)
_FORMS: Final = re.compile(
    r"\s*(?:these|the last|rows?|rnds?|rounds?)\b[^.:;*]{0,40}?"
    r"\b(?:forms?|sets?|establish(?:es)?|makes?)"
    r"\s+(?:the\s+|your\s+|one\s+)?(?:\w+\s+){0,2}?(?:patt(?:ern)?|repeat)\b",
    re.IGNORECASE,
)
_AGAIN: Final = re.compile(r"\brep(?:eat)?\s+(?:them|these|rows?|rnds?|rounds?)\b", re.IGNORECASE)
_ADVICE: Final = re.compile(
    r"\s*(?:[-–•*]\s+)?(?:(?:lightly|firmly|now|then|begin|start|continue|finish|do not|don['’]t"
    r"|you can|(?:it(?:'s|’s| is) )?time to)\s+)*"
    r"(?:stuff(?:ing)?|fold|sew|flatten|weave|embroider|pin|press|steam"
    r"|glue|(?:insert|put|pop|add|fix|secure|position|install|snap|set)"
    r" (?:in )?(?:the |your |both )?(?:safety |plastic )?eyes"
    r"|insert (?:the )?(?:safety|wire|cushion|pillow)|attach (?:the )?"
    r"(?:safety|eyes|arms?|legs?|ears?"
    r"|head|tail|button|handle)"
    r"|turn (?:the )?(?:work|piece|bag|hat|it)? ?(?:inside|right side) out"
    r"|leave (?:a|an) (?:long|\d|yarn|end)|use (?:the|a) (?:yarn|tail|long)|thread (?:the|a)"
    r"|place (?:the )?(?:safety )?eyes|add (?:the )?stuffing)\b",
    re.IGNORECASE,
)


def stands_apart(words: str, *, whole: bool) -> bool:
    """Whether a line is a title (`SIDES`), advice (`Stuff firmly.`) or tells of a pattern.

    Such a line never goes on with the row above it; `whole`: what stands above ends as a sentence.
    """
    words = words[:200]
    forms = _FORMS.match(words)
    if forms:
        return not _AGAIN.search(words, forms.end())
    title = _TITLE.match(words) or _EMPHATIC.match(words) or (whole and _NAME.match(words))
    titled = bool(title) and not opens_with_a_verb(words.strip(" *_"))
    if titled or _OF_PARTS.match(words) or (_ADVICE.match(words) and not opens_strongly(words)):
        return True
    if whole and _SEAMED.match(words):
        return True
    return whole and capital(words) and not opens_strongly(words) and is_aside(words)


_ON_ITS_OWN: Final = re.compile(
    r"\s*(?:cont(?:inue)?\b|work\s+(?!in\b|into\b)|(?:fasten|finish) off\b(?:\s+and\b|[.,;]\s*\w))",
    re.IGNORECASE,
)


def starts_on_its_own(words: str) -> bool:
    """Whether a line behind a row that ends with its count is none of its words: `Continue …`."""
    return capital(words) and bool(_ON_ITS_OWN.match(words))


def forms_a_pattern(words: str) -> bool:
    """Whether a line says which rows form the pattern and to work them again."""
    forms = _FORMS.match(words[:200])
    return bool(forms and _AGAIN.search(words[:200], forms.end()))


def capital(words: str) -> bool:
    """Whether a line begins as a sentence does."""
    head = words.lstrip(" \t*_([-–•")
    return head[:1].isupper() or head[:1].isdigit()
