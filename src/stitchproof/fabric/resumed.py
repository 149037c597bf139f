"""Whether a piece may begin on the edge that the piece before was fastened off at.

"Back: skip first 20 sts for the belly, join yarn in next st" under a heading of its own names no
edge. It may well be that of the piece before, or of another one: it is taken for the former only
where all that is told then comes out right.
"""

from collections.abc import Sequence
from dataclasses import replace

from stitchproof.fabric.state import Progress
from stitchproof.fabric.track import Track
from stitchproof.language.tree import (
    Course,
    First,
    JoinYarn,
    Make,
    Next,
    RepeatRows,
    Skip,
    Thing,
)


def resumed(courses: Sequence[Course], before: Sequence[Progress]) -> tuple[Track, ...]:
    """Give the tracks of a piece that takes up stitches of the one before; none where it cannot.

    Parameters
    ----------
    courses : sequence of Course
        The lines of the piece.
    before : sequence of Progress
        (W,) the piece before, in every size.
    """
    if not courses or not _skips_to_yarn(courses[0]) or not _tells(courses):
        return ()
    tracks = tuple(_taken_up(here.tracks) for here in before)
    found = tuple(track for track in tracks if track is not None)
    return found if len(found) == len(before) else ()


def _skips_to_yarn(course: Course) -> bool:
    """Whether a line skips stitches by number and joins yarn in the one behind them."""
    if isinstance(course.does, RepeatRows):
        return False
    skipped = False
    for step in course.does:
        match step:
            case Skip(at=First(_, noun) | Next(_, noun)):
                skipped = noun.thing in {Thing.STITCH, Thing.KIND}
            case JoinYarn(at=First() | Next(), of=""):
                return skipped
            case Make():
                return False
            case _:
                pass
    return False


def _tells(courses: Sequence[Course]) -> bool:
    """Whether one of the first two lines says how many stitches there are."""
    return any(course.stated is not None for course in courses[:2])


def _taken_up(tracks: Sequence[Track]) -> Track | None:
    track = tracks[0]
    edge = track.edge
    if len(tracks) > 1 or edge is None or not edge.known or not edge.count or not track.fastened:
        return None
    if track.rest is not None:
        return None  # what was left for later is what is taken up
    return replace(track, rest=(replace(edge, ring=False), 0, track.side))
