"""`Rep from *` and nothing behind it."""

import re
from collections.abc import Iterator
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.place import Span
from stitchproof.checks.courses import address
from stitchproof.checks.seen import Seen

_BARE: Final = re.compile(
    r"\brep(?:eat)?\s+(?:from\s+)?(?:\*{1,2}|[#†])\s{0,3}(?=[.;]|,\s{0,3}(?:turn|join)\b|\n|$)",
    re.IGNORECASE,
)
_MARK_ALONE: Final = re.compile(
    r"[*#†]\s{0,3}(?=[.;]|,\s{0,3}(?:turn|join)\b|\n|$)", re.IGNORECASE
)  # in every repeat left open, and found in a fifth of the time


@facts
class RepeatWithoutEnd:
    """The words."""

    code: ClassVar[Code] = Code("C441", "repeat-without-end", Level.NOTE)
    words: str

    def message(self) -> str:
        """Say how it was taken."""
        return f"`{self.words}` does not say how often; it is taken to go on to the end of the row"

    def help(self) -> str:
        """Say what to do."""
        return "add `across`, `around`, `to last 2 sts` or the number of times"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find the first repeat of a manuscript that is left open, and the others with it."""
    text = seen.manuscript.text
    found = [
        (course, Span(course.place.source, m.start(), m.end()))
        for course in seen.proof.courses
        if course.read and _MARK_ALONE.search(text, course.place.start, course.place.end)
        for m in _BARE.finditer(text, course.place.start, course.place.end)
    ]
    if found:
        course, place = found[0]
        yield Diagnostic(
            finding=RepeatWithoutEnd(" ".join(text[place.start : place.end].split())),
            place=place,
            also=tuple((other, "and here") for _, other in found[1:]),
            address=address(course),
        )
