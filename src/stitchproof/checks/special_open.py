"""A stitch described as far as the loop drawn up, and no further."""

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen

if TYPE_CHECKING:
    from stitchproof.base.place import Span

_UP: Final = re.compile(
    r"\b(?:draw|pull)(?:ing)?\s+(?:up\b|(?:the\s+)?(?:a\s+)?(?:long\s+)?(?:loop|lp)\s+up\b)",
    re.IGNORECASE,
)
_ENDS: Final = re.compile(
    r"\bthrough\b|\bthru\b|\bcomplet|\bfinish|\bas (?:for|usual|normal)|\bwork(?:ed|ing)? off\b"
    r"|\bclose|\bjoin|\bsl st\b|\bss\b|\brep",
    re.IGNORECASE,
)
_IN: Final = re.compile(r"\binsert(?:ing)?\b", re.IGNORECASE)
_WHOLE: Final = 580  # characters; a longer description is known only in part


@facts
class SpecialNotFinished:
    """The stitch, and the words after which nothing closes it."""

    code: ClassVar[Code] = Code("C438", "special-not-finished", Level.NOTE)
    name: str
    words: str

    def message(self) -> str:
        """Say what is missing."""
        return f"`{self.name}` ends with `{self.words}`; nothing says how the loops are worked off"

    def help(self) -> str:
        """Say what to do."""
        return "go on to the last `yo and draw through`"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Read every description to its end."""
    told: set[Span] = set()
    for special in seen.manuscript.specials:
        ups = tuple(_UP.finditer(special.words))
        if not ups or special.place in told or len(special.words) > _WHOLE:
            continue
        if not _IN.search(special.words, 0, ups[-1].start()):
            continue
        rest = f"{special.words[ups[-1].end() :]} {_behind(seen, special.place.end)}"
        if _ENDS.search(rest) is None:
            told.add(special.place)
            words = special.words[ups[-1].start() : ups[-1].start() + 60].rstrip(" .)")
            yield Diagnostic(
                finding=SpecialNotFinished(special.written, words), place=special.place
            )


def _behind(seen: Seen, end: int) -> str:
    """Give what follows a description below the same heading: it may go on in a list."""
    return seen.manuscript.text[end : end + 300].split("\n#", maxsplit=1)[0]
