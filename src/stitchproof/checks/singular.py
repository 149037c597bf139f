"""`In next 3 st`, in a text that elsewhere writes `sts`."""

import re
from collections.abc import Iterator
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.place import Span
from stitchproof.checks.courses import address
from stitchproof.checks.seen import Seen
from stitchproof.fabric.proof import WorkedCourse

_ONE: Final = re.compile(
    r"\b(?:next|first|last|remaining|other)\s+(?P<many>[2-9]|[1-9]\d{1,3})\s+(?P<noun>st|ch|sp|stitch)\b(?!\s?-?\s?(?:sp|sps|lp|lps|ch)\b|[-’'(/])",
    re.IGNORECASE,
)
_ONE_AT_ALL: Final = re.compile(r"\d\s+(?:st|ch|sp|stitch)\b", re.IGNORECASE)
_MANY: Final = re.compile(r"\b(?:[2-9]|[1-9]\d{1,3})\s+(?:sts|chs|sps|stitches)\b", re.IGNORECASE)


@facts
class SingularForSeveral:
    """The words, the noun in them, and the plural used elsewhere."""

    code: ClassVar[Code] = Code("C439", "singular-for-several", Level.NOTE)
    words: str
    plural: str

    def message(self) -> str:
        """Say what does not agree."""
        return f"`{self.words}` names several with a word for one; elsewhere it is `{self.plural}`"

    def help(self) -> str:
        """Say what to do."""
        return "check the number, or write the plural"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find a singular behind a number where the text knows the plural of the same noun."""
    text = seen.manuscript.text
    if _ONE_AT_ALL.search(text) is None:
        return
    found = [(c, m) for c in seen.proof.courses for m in _ONE.finditer(text, *_of(c))]
    if not found:
        return
    several = [
        " ".join(m.group().split())
        for c in seen.proof.courses
        for m in _MANY.finditer(text, *_of(c))
    ]
    for plural in ("sts", "chs", "sps", "stitches"):
        noun = plural.removesuffix("es") if plural == "stitches" else plural.removesuffix("s")
        known = next((one for one in several if one.lower().endswith(f" {plural}")), None)
        wrong = [(c, m) for c, m in found if m["noun"].lower() == noun]
        if known is None or not wrong:
            continue
        course, first = wrong[0]
        source = course.place.source
        yield Diagnostic(
            finding=SingularForSeveral(" ".join(first.group().split()), known),
            place=Span(source, first.start(), first.end()),
            also=tuple((Span(source, m.start(), m.end()), "and here") for _, m in wrong[1:]),
            address=address(course),
        )


def _of(course: WorkedCourse) -> tuple[int, int]:
    return course.place.start, course.place.end
