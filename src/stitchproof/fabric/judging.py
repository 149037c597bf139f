"""Holds what a line came to against what it says, in one size and over all of them.

A count is wrong only where no fair way of counting fits; the way is taken once for all sizes. Where
it is a guess what the author counts, the guess has to fit some size before it may blame another.
"""

from collections.abc import Sequence
from typing import Final

from stitchproof.base.records import replace
from stitchproof.fabric.attempt import Attempt
from stitchproof.fabric.state import Outcome
from stitchproof.fabric.trouble import NONE_OF_THEM, Failing, Trouble
from stitchproof.language.tree import Course, RepeatRows

UNPROVEN: Final = -1  # a way to count that fits no size, where what is counted is a guess


def ways_of(course: Course, outcomes: Sequence[Outcome]) -> tuple[int, ...]:
    """Choose for each statement the strictest way of counting that fits the most sizes.

    Where none fits any, the author counts in the way that comes nearest.
    """
    if course.stated is None:
        return ()
    chosen: list[int] = []
    for i in range(len(course.stated.statements)):
        known = [
            (a.ways[i].numbers, said)
            for o in outcomes
            for a in o.attempts
            if a.ways is not None and a.ways[i].numbers and (said := a.values[i]) is not None
        ]
        most = max((len(n) for n, _ in known), default=1)
        fits = [sum(w < len(n) and n[w] == v for n, v in known) for w in range(most)]
        far = [sum(abs(n[min(w, len(n) - 1)] - v) for n, v in known) for w in range(most)]
        best = max(range(most), key=lambda w: (fits[w], -far[w], -w))
        chosen.append(best if fits[best] or _sure(outcomes, i) else UNPROVEN)
    return tuple(chosen)


def _sure(outcomes: Sequence[Outcome], statement: int) -> bool:
    """Whether it is known what a statement counts."""
    return all(a.ways is None or a.ways[statement].sure for o in outcomes for a in o.attempts)


def counted(found: Attempt, statement: int, way: int) -> int | None:
    """Give what there is of a statement's unit, by the way of counting that was taken."""
    if found.ways is None or way == UNPROVEN:
        return None
    numbers = found.ways[statement].numbers
    return numbers[min(way, len(numbers) - 1)] if numbers else None


def trouble_of(course: Course, outcome: Outcome, ways: tuple[int, ...]) -> Trouble | None:
    """Give what is wrong in one size: what fails on every track; counts come last."""
    if outcome.absent:
        return None
    if outcome.troubles:
        return outcome.troubles[0]
    if outcome.echo:
        return None
    wrongs = [wrong_of(course, a, ways) for a in outcome.attempts]
    if not outcome.open:
        sides = [_wrong_side(course, a) for a in outcome.attempts]
        wrongs = [wrong or side for wrong, side in zip(wrongs, sides, strict=True)]
    if not wrongs or None in wrongs:
        return None
    return wrongs[0]


def wrong_of(course: Course, found: Attempt, ways: tuple[int, ...]) -> Trouble | None:
    """Give the first thing wrong with one attempt."""
    empty: list[Trouble] = []
    for trouble in found.troubles:
        if trouble.had == NONE_OF_THEM:
            empty.append(trouble)
        elif not mild(trouble):
            return trouble
    if course.stated is None or found.ways is None:
        return empty[0] if empty else None
    if empty and _makes_nothing(found):
        return empty[0]
    for i, statement in enumerate(course.stated.statements):
        said, made = found.values[i], counted(found, i, ways[i])
        if said is not None and made is not None and said != made:
            if empty:
                return empty[0]  # what is not there is why so few are made
            place = course.at(statement.place)
            return Trouble(Failing.COUNT, place, said, made, what=statement.unit)
    for trouble in found.between:
        return replace(trouble, place=course.at(trouble.place))
    return None


def _makes_nothing(found: Attempt) -> bool:
    """Whether the last row makes no stitch: the edge is that of the row below, or empty."""
    last = found.rows[-1] if found.rows else None
    if last is None or last.edge is None:
        return False
    return last.edge.count == 0 or last.edge is last.consumed


def _wrong_side(course: Course, found: Attempt) -> Trouble | None:
    """Tell when repeated rows end on another side than the author says."""
    does = course.does
    if not isinstance(does, RepeatRows) or not does.ending or not found.rows:
        return None
    side = found.rows[-1].side
    if side and side != does.ending:
        return Trouble(Failing.SIDE, course.at(does.place), 0, len(found.rows), what=does.ending)
    return None


def mild(trouble: Trouble) -> bool:
    """Whether a trouble is only a doubtful noun: the number is trusted over it."""
    return trouble.failing is Failing.NO_PLACE and trouble.wanted == 0 and trouble.had == 0
