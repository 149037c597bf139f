"""Lists of sizes that are put in brackets otherwise than the sizes themselves."""

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks import narrative
from stitchproof.checks.seen import Seen
from stitchproof.language.manuscript import BlockKind, Manuscript
from stitchproof.language.read.sections import read_sizes_line

_SIZES: Final = re.compile(r"sizes?\b", re.IGNORECASE)
_SENTENCE: Final = re.compile(r"[.;]\s+(?=[A-Z])")  # what follows on the line is no size
_PART: Final = re.compile(r"(?P<open>[(\[{])|(?P<close>[)\]}])|(?P<item>[^\s,;:/()\[\]{}]+)")
_NUMBERS: Final = re.compile(
    r"(?P<open>[(\[{])|(?P<close>[)\]}])"
    r"|(?P<item>\d+(?:[.]\d+)?|[–—-](?=\s*(?:[,;)\]}(\[{]|$)))"
)


@facts
class GroupedOtherwise:
    """The list, and how many numbers stand in each bracket, here and in the sizes."""

    code: ClassVar[Code] = Code("C432", "grouped-otherwise", Level.WARNING)
    words: str
    here: tuple[int, ...]
    sizes: tuple[int, ...]

    def message(self) -> str:
        """Give both."""
        return f"`{self.words}` is bracketed {_shown(self.here)}, the sizes {_shown(self.sizes)}"

    def help(self) -> str:
        """Say what to do."""
        return "bracket every list as the sizes are, so that a maker finds her number"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Compare the brackets of every list that has as many numbers as there are sizes."""
    total = len(seen.resolved.sizes)
    if total < 4:  # noqa: PLR2004 - three numbers cannot be mistaken
        return
    sizes = _sizes(seen.manuscript)
    if sum(sizes) != total or len(sizes) < 2:  # noqa: PLR2004 - one bracket for all is no grouping
        return
    other = [
        (number, groups)
        for number in seen.manuscript.numbers
        if isinstance(number.value, tuple) and len(number.value) == total
        for groups in (_groups(number.spelling),)
        if len(groups) > 1 and sum(groups) == total and groups != sizes
    ]
    if other:
        number, groups = other[0]
        yield Diagnostic(
            finding=GroupedOtherwise(" ".join(number.spelling.split()), groups, sizes),
            place=number.place,
            also=tuple((n.place, f"`{n.spelling}`") for n, _ in other[1:]),
        )


def _sizes(manuscript: Manuscript) -> tuple[int, ...]:
    """Give how the sizes are bracketed, in the text's own line or in the front matter."""
    for line in narrative.lines(manuscript, BlockKind.PROSE, BlockKind.QUOTE):
        words = manuscript.text[line.start : line.end].strip()
        said = _SIZES.search(words[:60])
        if said and read_sizes_line(words):
            return _brackets(_SENTENCE.split(words[said.end() :], maxsplit=1)[0], _PART)
    table = manuscript.front.table.get("sizes") if manuscript.front is not None else None
    groups = table.get("groups") if isinstance(table, Mapping) else None
    if isinstance(groups, list) and all(isinstance(n, int) for n in groups):
        return tuple(groups)
    return ()


@lru_cache(maxsize=256)
def _groups(spelling: str) -> tuple[int, ...]:
    return _brackets(spelling, _NUMBERS)


def _brackets(words: str, parts: re.Pattern[str]) -> tuple[int, ...]:
    """Count the items before the first bracket, in it, behind it, and so on."""
    groups = [0]
    for part in parts.finditer(words):
        if part["item"] is None:
            groups.append(0)
        elif re.search(r"[\w–—-]", part["item"]):
            groups[-1] += 1
    return tuple(n for n in groups if n)


def _shown(groups: tuple[int, ...]) -> str:
    return " + ".join(map(str, groups))
