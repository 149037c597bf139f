"""Whether a piece may begin on the edge that the piece before was fastened off at.

"Back: skip first 20 sts for the belly, join yarn in next st" under a heading of its own names no
edge. It may well be that of the piece before, or of another one: it is taken for the former only
where all that is told then comes out right. So too of a border along the ends of its rows or the
other side of its foundation.
"""

from collections.abc import Sequence

from stitchproof.base.records import replace
from stitchproof.fabric.edge import foundation
from stitchproof.fabric.past import base_of
from stitchproof.fabric.rest import Rest, names_rest
from stitchproof.fabric.skipped_ahead import skips_alone
from stitchproof.fabric.state import Progress
from stitchproof.fabric.track import Track
from stitchproof.language.tree import (
    CHAIN,
    Course,
    Each,
    FastenOff,
    First,
    Group,
    JoinYarn,
    Make,
    Next,
    Nth,
    OppositeSide,
    Repeat,
    RepeatRows,
    RowEnds,
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
    cut = _cuts_first(courses[0])
    tracks = tuple(_taken_up(here.tracks, cut=cut) for here in before)
    found = tuple(track for track in tracks if track is not None)
    return found if len(found) == len(before) else ()


def along_sides(courses: Sequence[Course], before: Sequence[Progress]) -> tuple[Track, ...]:
    """Give the tracks of a piece that goes along the ends or the foundation of the one before.

    None where its first line works elsewhere, or where nobody tells what it comes to.
    """
    first = next((c for c in courses if _makes(c)), None)
    if first is None or first.stated is None:
        return ()
    below = _joins_below(courses[0]) or (_joins_in_chain(courses[0]) and _in_chains(first))
    if not _goes_along(first) and below:
        bases = tuple(base_of(here) for here in before)
        found = tuple(Track(edge=foundation(base), founded=True) for base in bases)
        return found if all(bases) else ()
    if not _goes_along(first):
        return ()
    tracks = tuple(here.tracks[0] for here in before)
    if any(track.edge is None or not track.edge.known for track in tracks):
        return ()
    return tuple(replace(track, rest=None, fastened=False) for track in tracks)


def joined_again(courses: Sequence[Course], before: Sequence[Progress]) -> tuple[Track, ...]:
    """Give the tracks of a piece whose yarn is joined to a stitch of the one before.

    "Skirt: join B in any hdc" names no edge. None where nobody tells what its first row comes to.
    """
    first = next((c for c in courses if _makes(c)), None)
    if first is None or first.stated is None or not _joins(courses[0]):
        return ()
    tracks = tuple(here.tracks[0] for here in before)
    whole = all(
        len(here.tracks) == 1
        and track.fastened
        and track.rest is None
        and track.edge is not None
        and track.edge.known
        and track.edge.count
        for here, track in zip(before, tracks, strict=True)
    )
    return tracks if whole else ()


def takes_up_rest(course: Course, track: Track) -> bool:
    """Whether a line takes up the stitches that the piece before left unworked.

    It joins yarn to them, or skips some of them for the line that does: `Skip the next 16 sts.`
    """
    if track.rest is None or track.rest[0] is None or course.label.round:
        return False
    if isinstance(course.does, RepeatRows):
        return False
    if skips_alone(course):
        return True
    join = next((s for s in course.does if isinstance(s, JoinYarn)), None)
    return join is not None and (isinstance(join.at, Next | First | Nth) or names_rest(join.of))


def _joins(course: Course) -> bool:
    """Whether a line joins yarn in a stitch and says of no edge whose."""
    if isinstance(course.does, RepeatRows):
        return False
    joined = next((s for s in course.does if isinstance(s, JoinYarn)), None)
    if joined is None or joined.of or not isinstance(joined.at, First | Next):
        return False
    return joined.at.noun.thing in {Thing.STITCH, Thing.KIND}


def joined_there(course: Course) -> Course:
    """Join yarn to the edge that is taken up, whatever the author calls it."""
    if isinstance(course.does, RepeatRows):
        return course
    does = tuple(_there(s) if isinstance(s, JoinYarn) else s for s in course.does)
    return replace(course, does=does)


def _there(step: JoinYarn) -> JoinYarn:
    at = First() if isinstance(step.at, OppositeSide) else step.at  # the side that is taken up
    return replace(step, at=at, of="")


def _makes(course: Course) -> bool:
    if isinstance(course.does, RepeatRows):
        return True
    return any(isinstance(step, Make | Group | Repeat) for step in course.does)


def _goes_along(course: Course) -> bool:
    """Whether the first stitches of a line go into row ends or below the foundation."""
    if isinstance(course.does, RepeatRows):
        return False
    made = next((s for s in course.does if isinstance(s, Make | Group | Repeat)), None)
    match made:
        case Make(at=RowEnds() | OppositeSide()) | Group(at=OppositeSide()):
            return True
        case Make(at=Each(noun) | Next(noun=noun)):
            return noun.thing is Thing.ROW_END
        case _:
            return False


def _joins_below(course: Course) -> bool:
    """Whether a line joins yarn below the foundation: "in the base of the first sc"."""
    if isinstance(course.does, RepeatRows):
        return False
    joined = next((s for s in course.does if isinstance(s, JoinYarn)), None)
    if joined is None:
        return False
    words = set(joined.of.lower().split())
    begun = bool(words & _BEGUN) and bool(words & _CHAINS)
    return isinstance(joined.at, OppositeSide) or begun or bool(_BELOW & words)


def _joins_in_chain(course: Course) -> bool:
    """Whether a line joins yarn in a chain: "in any ch at back neck"."""
    steps = () if isinstance(course.does, RepeatRows) else course.does
    joined = next((s for s in steps if isinstance(s, JoinYarn)), None)
    return joined is not None and isinstance(joined.at, Next | First) and joined.at.noun == CHAIN


def _in_chains(course: Course) -> bool:
    """Whether the first stitches of a line go into chains, one after another."""
    steps = () if isinstance(course.does, RepeatRows) else course.does
    made = next((s for s in steps if isinstance(s, Make | Group | Repeat)), None)
    at = made.at if isinstance(made, Make) else None
    return isinstance(at, Each | Next) and at.noun == CHAIN


_BELOW = frozenset(("base", "foundation", "underside"))
_BEGUN = frozenset(("starting", "beginning", "original", "beg"))
_CHAINS = frozenset(("chain", "ch", "chains"))


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


def _cuts_first(course: Course) -> bool:
    """Whether a line itself fastens off before it goes on: `Fasten off. Miss first 4 sts, …`."""
    steps = () if isinstance(course.does, RepeatRows) else course.does
    return bool(steps) and isinstance(steps[0], FastenOff) and steps[0].do


def _taken_up(tracks: Sequence[Track], *, cut: bool) -> Track | None:
    track = tracks[0]
    edge = track.edge
    fastened = track.fastened or cut
    if len(tracks) > 1 or edge is None or not edge.known or not edge.count or not fastened:
        return None
    if track.rest is not None:
        return None  # what was left for later is what is taken up
    return replace(track, rest=Rest(replace(edge, ring=False), 0, track.side))
