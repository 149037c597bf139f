"""Rows that a line stands for besides its own: `Row 2 and all even rows`, `Rows 2, 4 and 6`.

Such a row is worked again between the rows that follow it in the text. Where a later label leaves
a number out that an earlier line stands for, the row is put in before it, so that everybody below
finds the rows in the order in which they are worked. A row put in has its number in brackets,
`(Row 4)`, for a label: the author wrote none.
"""

import re
from collections.abc import Iterator
from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import plain
from stitchproof.language.tree import Course, Label

_ALL_OTHERS: Final = re.compile(
    r"\b(?:and|&)\s+(?:all|every|each)\s+(?:the\s+)?(?:other|following|foll|subsequent|remaining)?\.?\s*"
    r"(?:even|odd|other|alternate|alt|ws|rs|wrong|right|row|rnd|round)",
    re.IGNORECASE,
)
_SIDED: Final = re.compile(r"\b(?:even|odd|other|alternate|alt|ws|rs|wrong|right)\b", re.IGNORECASE)
_AND_SO_ON: Final = re.compile(r"(?:…|\.{3}|etc\.?|and so on)$", re.IGNORECASE)
_MOST: Final = 500  # rows put in for one line


@dataclass(slots=True)
class Standing:
    """A line that stands for later rows, and which is next."""

    course: Course
    rows: list[int]
    apart: int = 0  # 0: only `rows`
    put_in: int = 0

    def before(self, label: Label) -> Iterator[Course]:
        """Give the rows to be put in before a label, in order."""
        first, last = _value(label.first), _value(label.last)
        if first is None or last is None or label.listed:
            return
        while self.rows and self.rows[0] < first and self.put_in < _MOST:
            yield self._row()
        while self.rows and self.rows[0] <= last and self.put_in < _MOST:
            self._next()
            self.put_in += 1

    def rest(self) -> Iterator[Course]:
        """Give the rows that are named and were not put in yet."""
        while self.rows and not self.apart:
            yield self._row()

    def _row(self) -> Course:
        number = self._next()
        self.put_in += 1
        own = self.course.label
        word = "Rnd" if own.round else "Row"
        label = Label(
            f"({word} {number})",
            first=plain(number),
            last=plain(number),
            round=own.round,
            side=own.side,
            place=own.place,
        )
        return replace(self.course, label=label, stated=None)

    def _next(self) -> int:
        number = self.rows.pop(0)
        if self.apart and not self.rows:
            self.rows.append(number + self.apart)
        return number


def standing(course: Course, label: Label) -> tuple[Course, Standing] | None:
    """Tell which rows a line stands for among those that follow.

    Parameters
    ----------
    course : Course
        The line.
    label : Label
        Label of the line behind it.

    Returns
    -------
    (Course, Standing) or None
        The line for its first row alone, and the rest; None where it stands for no others.
    """
    own = course.label
    first, follows = _value(own.first), _value(label.first)
    if first is None or follows is None:
        return None
    if own.listed:
        return _listed(course, follows)
    told = _ALL_OTHERS.search(own.words)
    if told is None or not _SIDED.search(own.words, told.start()) or own.last != own.first:
        return None
    return course, Standing(course, [first + 2], 2)


def _listed(course: Course, follows: int) -> tuple[Course, Standing] | None:
    own = course.label
    rows = [_value(number) for number in own.listed]
    known = [row for row in rows if row is not None]
    if len(known) != len(rows) or known != sorted(set(known)) or len(known) < 2:  # noqa: PLR2004
        return None
    more = bool(_AND_SO_ON.search(own.words))
    apart = known[-1] - known[-2] if more else 0
    if not known[0] < follows < known[-1] or follows in known:
        return None
    alone = replace(own, first=own.listed[0], last=own.listed[0], listed=())
    return replace(course, label=alone), Standing(course, known[1:], apart)


def _value(number: object) -> int | None:
    value = getattr(number, "value", None)
    one = isinstance(value, tuple) and len(value) == 1 and isinstance(value[0], int)
    return int(value[0]) if one and value else None
