"""Sections that are one piece, and pieces that go on with the one before."""

from collections.abc import Iterable, Iterator
from typing import Final

from stitchproof.fabric.conclude import Piece
from stitchproof.fabric.founding import founds
from stitchproof.fabric.resumed import takes_up_rest
from stitchproof.fabric.track import Track
from stitchproof.language.tree import (
    Chain,
    Course,
    Each,
    JoinYarn,
    Make,
    Next,
    Nth,
    RepeatRows,
    Section,
    Thing,
    Turn,
)

PIECE_LEVEL: Final = 2  # a heading of this level begins a piece


def groups(sections: Iterable[Section]) -> Iterator[list[Section]]:
    """Gather sections into pieces."""
    group: list[Section] = []
    for section in sections:
        if group and section.level <= PIECE_LEVEL:
            yield group
            group = []
        group.append(section)
    if group:
        yield group


def takes_up(group: list[Section], previous: Piece) -> bool:
    """Whether a group of sections begins with yarn joined to what was left before."""
    first = next((c for s in group for c in s.courses), None)
    track = previous.progress[0].tracks[0] if previous.progress else Track()
    return first is not None and takes_up_rest(first, track)


def begins(group: list[Section], previous: Piece) -> bool:
    """Whether a group of sections stands on its own rather than going on with the piece before."""
    track = previous.progress[0].tracks[0] if previous.progress else Track()
    first = next((c for s in group for c in s.courses), None)
    if first is None:
        return True
    if isinstance(first.does, RepeatRows):  # `Rnds 7-11: Rep Rnd 2`
        goes_on = counts_on(group) and not first.does.piece and not track.fastened
        return not goes_on or track.edge is None
    if takes_up(group, previous):
        return False
    if counts_on(group) and not track.fastened and track.edge is not None and _lengthens(first):
        return False
    return track.fastened or track.edge is None or _founds_or_joins(first)


def _lengthens(course: Course) -> bool:
    """Whether a row works chains at its beginning, and then stitches: `Ch 13, turn, …`.

    Without a turn that is plain only from the hook: `22 ch, 1 htr in 3rd ch from hook, …`.
    """
    assert not isinstance(course.does, RepeatRows)
    match course.does:
        case (Chain(), *rest):
            places = [step.at for step in rest if isinstance(step, Make)]
            nouns = [at.noun.thing for at in places if isinstance(at, Each | Next)]
            turned = isinstance(rest[0], Turn) if rest else False
            hooked = bool(places) and isinstance(places[0], Nth)
            chains = Thing.CHAIN in nouns and (turned or hooked)
            return chains and nouns[-1] in {Thing.STITCH, Thing.KIND}
        case _:
            return False


def counts_on(group: list[Section]) -> bool:
    """Whether the rows of a group are counted on from those of the piece before."""
    first = next(
        (c.label.first for s in group for c in s.courses if c.label.first is not None), None
    )
    return first is not None and isinstance(first.value, tuple) and 1 not in first.value


def _founds_or_joins(course: Course) -> bool:
    assert not isinstance(course.does, RepeatRows)
    return founds(course.does) or any(isinstance(s, JoinYarn) for s in course.does)
