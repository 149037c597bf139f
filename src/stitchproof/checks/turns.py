"""Where the work is turned: said twice, or left out where other rows say it."""

from collections.abc import Iterator
from itertools import pairwise
from typing import ClassVar, Final

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
from stitchproof.language.tree import Facing, FastenOff, Join, JoinYarn, MagicRing, Turn

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


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Look at every step from one flat row to the next."""
    for courses in pieces(seen):
        plain = [_plain(c) for c in courses]
        steps = [
            (a, b)
            for (a, b), (one, other) in zip(pairwise(courses), pairwise(plain), strict=True)
            if one and (other or _plain(b, ends=True)) and not _turned_between(a, b, seen)
        ]
        turns = [bool(last_turn(a)) + bool(first_turn(b)) for a, b in steps]
        once = sum(n == 1 for n in turns)
        for (before, after), times in zip(steps, turns, strict=True):
            turn = first_turn(after)
            if times > 1 and turn is not None:
                yield Diagnostic(
                    finding=TurnedTwice(before.label),
                    place=after.at(turn.place),
                    address=address(after),
                )
                break
        missing = [pair for pair, times in zip(steps, turns, strict=True) if times == 0]
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


def _plain(course: WorkedCourse, *, ends: bool = False) -> bool:
    """Whether a line is a flat row, whole, with nothing that breaks off, or nothing behind it."""
    if not is_row(course) or not course.read or course.course.label.round:
        return False
    steps = steps_of(course)
    if ends and isinstance(steps[-1], FastenOff):
        steps = steps[:-1]
    kinds = set(map(type, steps))
    turned = Turn not in kinds or all(s.do for s in steps if isinstance(s, Turn))
    return turned and kinds.isdisjoint(_BREAKING_OFF)
