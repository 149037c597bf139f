"""Two pieces that make a pair, alike but for one that is longer."""

import re
from collections.abc import Iterator, Sequence
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.courses import address, pieces
from stitchproof.checks.seen import Seen
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import Label, RepeatRows

_SIDES: Final = re.compile(r"\b(left|right|first|second|1st|2nd)\b")
_BY_DIRECTION: Final = 1  # rows that one side may have more: it is begun from the other side


@facts
class PairUnlike:
    """The rows of either piece, for each size in which they differ."""

    code: ClassVar[Code] = Code("C452", "pair-unlike", Level.WARNING)
    other: str
    rows: tuple[int, ...]
    others: tuple[int, ...]

    def message(self) -> str:
        """Both numbers."""
        return (
            f"belongs to a piece of {size_list(self.rows)} rows; {self.other} has "
            f"{size_list(self.others)}, and both end with as many stitches"
        )

    def help(self) -> str:
        """Say where to look."""
        return "count the rows of both, or say why one is longer"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Compare the rows of pieces whose headings differ in the side alone.

    Only pieces of as many lines, that end with as many stitches: others are not meant to be alike.
    """
    before: dict[str, Sequence[WorkedCourse]] = {}
    for courses in pieces(seen):
        title = courses[0].section.lower()
        pair = _SIDES.sub("", title)
        if pair == title:
            continue
        first = before.setdefault(pair, courses)
        if first is not courses and first[0].section.lower() != title:
            yield from _compared(seen, first, courses)


def _compared(
    seen: Seen, first: Sequence[WorkedCourse], second: Sequence[WorkedCourse]
) -> Iterator[Diagnostic]:
    theirs, mine = _numbered(first), _numbered(second)
    alike = len(theirs) == len(mine) > 0 and theirs[-1].worked == mine[-1].worked
    if not alike or not all(map(_is_known, (*theirs, *mine))):
        return
    wrong = [
        (name, rows, others)
        for name, rows, others in zip(seen.proof.sizes, _rows(mine), _rows(theirs), strict=True)
        if abs(rows - others) > _BY_DIRECTION
    ]
    if wrong:
        names, rows, others = zip(*wrong, strict=True)
        where = next(c for other, c in zip(theirs, mine, strict=True) if c.rows != other.rows)
        yield Diagnostic(
            finding=PairUnlike(first[0].section, rows, others),
            place=where.place,
            address=address(where),
            sizes=names if len(names) < len(seen.proof.sizes) else (),
        )


def _numbered(courses: Sequence[WorkedCourse]) -> list[WorkedCourse]:
    """Give the lines of rows: a foundation chain, or yarn that is joined, is none."""
    return [
        c for c in courses if _has_rows(c.course.label) or isinstance(c.course.does, RepeatRows)
    ]


def _has_rows(label: Label) -> bool:
    return label.first is not None or label.span is not None or bool(label.listed)


def _is_known(course: WorkedCourse) -> bool:
    unknown = None in course.worked or None in course.rows
    return course.read and not course.open and not unknown


def _rows(courses: Sequence[WorkedCourse]) -> tuple[int, ...]:
    """Add up the rows of a piece in every size."""
    return tuple(sum(n or 0 for n in rows) for rows in zip(*(c.rows for c in courses), strict=True))
