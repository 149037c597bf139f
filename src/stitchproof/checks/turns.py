"""Where the work is turned: said twice, or left out where other rows say it."""

from collections.abc import Iterator
from itertools import pairwise
from typing import ClassVar, Final, NamedTuple

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.courses import (
    address,
    between,
    first_turn,
    is_row,
    last_turn,
    pieces,
    steps_of,
)
from stitchproof.checks.seen import Seen
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import Facing, FastenOff, Join, JoinYarn, MagicRing, Steps, Turn

_BREAKING_OFF: Final = frozenset((Join, JoinYarn, FastenOff, Facing, MagicRing))
_USUAL: Final = 3  # rows that say it, before one that does not is worth a word


@facts
class TurnedTwice:
    """The row before."""

    code: ClassVar[Code] = Code("C427", "turned-twice", Level.WARNING)
    before: str

    def message(self) -> str:
        """Say that two turns meet."""
        return f"begins with a turn, and `{self.before}` has just ended with one"

    def help(self) -> str:
        """Say what to do."""
        return "say it once, at the end of every row or at the beginning"


@facts
class TurnNotSaid:
    """The row that follows, and how many of the others say it."""

    code: ClassVar[Code] = Code("C428", "turn-not-said", Level.NOTE)
    after: str
    others: int

    def message(self) -> str:
        """Say where it is missing."""
        return f"nothing says to turn before `{self.after}`; {self.others} other rows say it"

    def help(self) -> str:
        """Say what to do."""
        return "add `turn`, or say that the work is not turned"


class _Row(NamedTuple):
    """How a row turns, and whether it is flat and whole: nothing in it breaks off."""

    first: Turn | None
    last: Turn | None
    flat: bool
    flat_to_end: bool  # but for the yarn cut at its end


_NO_ROW: Final = _Row(None, None, flat=False, flat_to_end=False)


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Look at every step from one flat row to the next."""
    looked: dict[int, _Row] = {}  # by identity of what is done: many rows are alike
    for courses in pieces(seen):
        rows = [_row(c, looked) for c in courses]
        steps = [
            (a, b, bool(one.last) + bool(other.first), other.first)
            for (a, b), (one, other) in zip(pairwise(courses), pairwise(rows), strict=True)
            if one.flat and other.flat_to_end and not _turned_between(a, b, seen)
        ]
        once = sum(times == 1 for _, _, times, _ in steps)
        for before, after, times, turn in steps:
            if times > 1 and turn is not None:
                yield Diagnostic(
                    finding=TurnedTwice(before.label),
                    place=after.at(turn.place),
                    address=address(after),
                )
                break
        missing = [(before, after) for before, after, times, _ in steps if times == 0]
        if len(missing) == 1 and once >= _USUAL:
            before, after = missing[0]
            yield Diagnostic(
                finding=TurnNotSaid(after.label, once),
                place=before.at(before.course.label.place),
                address=address(before),
            )


def _turned_between(before: WorkedCourse, after: WorkedCourse, seen: Seen) -> bool:
    """Whether the words between two lines speak of a turn."""
    return "turn" in between(before, after, seen).lower()


def _row(course: WorkedCourse, looked: dict[int, _Row]) -> _Row:
    if not course.read or course.course.label.round or not is_row(course):
        return _NO_ROW
    known = looked.get(id(course.course.does))
    if known is None:
        steps = steps_of(course)
        flat = _is_flat(steps)
        ends = flat or (isinstance(steps[-1], FastenOff) and _is_flat(steps[:-1]))
        known = _Row(first_turn(course), last_turn(course), flat, ends)
        looked[id(course.course.does)] = known
    return known


def _is_flat(steps: Steps) -> bool:
    kinds = set(map(type, steps))
    turned = Turn not in kinds or all(s.do for s in steps if isinstance(s, Turn))
    return turned and kinds.isdisjoint(_BREAKING_OFF)
