"""The stitch multiple the notes state, and a foundation that does not keep it."""

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.base.records import dataclass
from stitchproof.checks import narrative
from stitchproof.checks.courses import address, is_row, pieces, steps_of
from stitchproof.checks.seen import Seen
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import Chain, Join, makes_stitches

_UNIT: Final = r"(?:\s*(?:sts?|stitches|chs?|chains)\b)?"
_MULTIPLE: Final = re.compile(
    rf"\bmultiples?\s+of\s+(?P<of>\d{{1,3}}){_UNIT}(?:\s*(?:\+|plus|and)\s*(?P<over>\d{{1,3}}){_UNIT})?"
    rf"(?:[\s,;(]{{0,3}}(?:\+|plus|add)\s*(?P<base>\d{{1,2}})(?=[^).\n]{{0,40}}\b(?:ch|chain)s?\b))?",
    re.IGNORECASE,
)


@facts
class FoundationMultiple:
    """The chains of the wrong sizes, and what the author says."""

    code: ClassVar[Code] = Code("C431", "foundation-multiple", Level.WARNING)
    chains: tuple[int, ...]
    words: str

    def message(self) -> str:
        """Give both."""
        return f"begins with {size_list(self.chains)} chs, which is no `{self.words}`"

    def help(self) -> str:
        """Say where to look."""
        return "check the chain against the multiple"


@dataclass(frozen=True, slots=True)
class _Stated:
    """A multiple as stated; `base` is None where no chains for the first row are named."""

    of: int
    over: int
    base: int | None
    words: str


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Hold the foundation chain of the first piece against the one multiple that is stated."""
    stated = _stated(seen)
    found = _foundation(seen) if stated is not None else None
    if stated is None or found is None:
        return
    chain, first, alone = found
    ways = _ways(stated, chain, first)
    kept = max(ways, key=sum)
    wrong = [i for i, holds in enumerate(kept) if not holds]
    some = 0 < len(wrong) <= sum(kept)
    surely = stated.base is not None and alone and not any(map(any, ways))
    if some or surely:
        names = tuple(seen.proof.sizes[i] for i in wrong)
        yield Diagnostic(
            finding=FoundationMultiple(tuple(chain.worked[i] or 0 for i in wrong), stated.words),
            place=chain.place,
            address=address(chain),
            sizes=() if len(wrong) == len(kept) else names,
        )


def _stated(seen: Seen) -> _Stated | None:
    """Find the multiple; None where none or several are stated."""
    found: set[_Stated] = set()
    if "ultiple" not in seen.manuscript.text and "ULTIPLE" not in seen.manuscript.text:
        return None
    for line in narrative.lines(seen.manuscript):
        for m in _MULTIPLE.finditer(seen.manuscript.text, line.start, line.end):
            base = int(m["base"]) if m["base"] else None
            told = " ".join(m.group().split())
            told += ")" if told.count("(") > told.count(")") else ""
            found.add(_Stated(int(m["of"]), int(m["over"] or 0), base, told))
    one = found.pop() if len(found) == 1 else None
    return one if one is not None and one.of > 1 else None


def _foundation(seen: Seen) -> tuple[WorkedCourse, WorkedCourse, bool] | None:
    """Give the first piece's foundation chain, its first row, and whether it is the only piece.

    A piece in which anything is wrong already has no say.
    """
    every = list(pieces(seen))
    courses = every[0] if every else []
    if any(t is not None for c in courses for t in c.troubles):
        return None
    for before, after in pairwise(courses):
        steps = steps_of(before)
        chained = len([s for s in steps if isinstance(s, Chain)]) == 1
        plain = chained and not any(
            makes_stitches((s,)) for s in steps if not isinstance(s, Chain | Join)
        )
        known = all(n is not None for n in (*before.worked, *after.worked))
        if plain and is_row(after) and after.read and known:
            return before, after, len(every) == 1
        if is_row(before):
            return None
    return None


def _ways(stated: _Stated, chain: WorkedCourse, first: WorkedCourse) -> list[tuple[bool, ...]]:
    """Say for each way to count the multiple in which sizes it holds: chains, or first row."""

    def holds(course: WorkedCourse, over: int) -> tuple[bool, ...]:
        return tuple(n is not None and (n - over) % stated.of == 0 for n in course.worked)

    ways = [holds(chain, stated.over), holds(first, stated.over)]
    if stated.base is not None:
        ways.append(holds(chain, stated.over + stated.base))
    return ways
