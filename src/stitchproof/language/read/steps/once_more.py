"""The step before once more, in another place: "and in each ch across"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.ends import ACROSS, read_until
from stitchproof.language.read.steps.made import including
from stitchproof.language.read.steps.nouns import STITCHES
from stitchproof.language.read.steps.places import (
    IN,
    Place,
    read_in,
    read_target,
)
from stitchproof.language.read.steps.posts import read_around
from stitchproof.language.read.steps.reader import CLOSING, STOPS, Frame, Reader
from stitchproof.language.read.steps.remaining import REMAIN
from stitchproof.language.read.steps.stitches import read_stitch, starts_stitch
from stitchproof.language.tree import (
    CHAIN,
    STITCH,
    Each,
    Group,
    Last,
    Make,
    Next,
    Noun,
    Same,
    Steps,
    Thing,
)


def once_more(reader: Reader, step: Make | Group, start: int) -> Steps | None:
    """Read "and in each ch across" behind a step: the same again in another place."""
    if reader.text() in ACROSS and ends_after(reader):
        until = read_until(reader)
        place = None if until is None else Place(Each(STITCH, until))
    elif reader.text() in IN:
        reader.take()
        place = read_in(reader)
    elif reader.text() == "around":
        reader.take()
        place = read_around(reader)
    else:
        target = read_target(reader)
        place = None if target is None else Place(target)
    if place is None:
        return None
    span = reader.span(start)
    if isinstance(step.at, Each) and isinstance(place.at, Each) and not _apart(step.at, place.at):
        return None
    if isinstance(step, Group):
        return (replace(step, at=place.at, place=span),)
    stitch = replace(step.stitch, loop=place.loop or step.stitch.loop)
    at = place.at
    legs = isinstance(step.at, Same) and at == Next(plain(stitch.together - 1))
    if stitch.together > 1 and isinstance(at, Next) and at.number != ONE and not legs:
        return None
    last, work = including(reader, start, at), Make(stitch, step.each, at, span)
    return (work,) if last is None else (work, replace(work, at=last))


def more_in_last(reader: Reader, start: int) -> Steps | None:
    """Read "1 more tr in last st", "an extra dc in last st" behind "working"."""
    ahead = _more_told(reader)
    if not ahead or not starts_stitch(reader, ahead):
        return None
    here = reader.at
    each = reader.number() or ONE
    reader.take(ahead)
    named = read_stitch(reader)
    at = read_target(reader) if named is not None and reader.accept_any(IN) else None
    if named is None or not (isinstance(at, Same) or (isinstance(at, Last) and at.number == ONE)):
        reader.at = here
        return None
    return (Make(named.stitch, each, Same(), reader.span(start)),)


def _more_told(reader: Reader) -> int:
    """Count the tokens of "1 more", "an extra", "another"; 0 where none stand there."""
    if reader.text() == "another":
        return 1
    counted = reader.number() is not None or reader.text() in {"a", "an", "one"}
    return 2 if counted and reader.text(1) in _MORE else 0


_MORE: Final = word_set("more extra additional further")


def legs_of_one(frame: Frame, more: Steps) -> Steps:
    """Take "sc2tog in same st and next st" for one stitch that begins in the same one."""
    last = frame.steps[-1] if frame.steps else None
    if len(more) != 1 or not isinstance(last, Make) or not isinstance(more[0], Make):
        return more
    if last.at == Each(CHAIN) and more[0].at == Each(STITCH) and last.stitch == more[0].stitch:
        # "in each ch over the opening and in each st to end"
        frame.steps[-1] = replace(last, at=Each(Noun(Thing.STITCH_OR_CHAIN)))
        return ()
    rest = last.stitch.together - 1
    legs = rest > 0 and more[0].stitch == last.stitch and isinstance(last.at, Same)
    if not legs or more[0].at != Next(plain(rest)):
        return more
    assert isinstance(last.at, Same)
    frame.steps[-1] = replace(last, at=replace(last.at, begins=True))
    return ()


def ends_after(reader: Reader) -> bool:
    """Tell whether nothing of the step comes behind the next word."""
    ahead = 3 if reader.text(1) in REMAIN and reader.text(2) in STITCHES else 1
    return not reader.text(ahead) or reader.text(ahead) in STOPS | CLOSING


def _apart(one: Each, other: Each) -> bool:
    """Tell whether two runs share one edge without meeting: "each dc and each ch-1 sp"."""
    spaces = {Thing.SPACE, Thing.CHAIN_SPACE}
    kinds = (one.noun.thing, other.noun.thing)
    in_spaces = [thing in spaces for thing in kinds]
    kind = {Thing.KIND, Thing.GROUP}  # "each popcorn and in each tr around"
    alike = all(in_spaces) or (set(kinds) <= kind and Thing.KIND in kinds)
    beside = set(kinds) == {Thing.CHAIN, Thing.STITCH}  # "each ch over the opening, each st"
    return one.noun != other.noun and (alike or beside or any(in_spaces))


def past_same(reader: Reader) -> str:
    """Go past "the same" of "and the same in every ch-1 sp around"; give the word that is next."""
    the = int(reader.text() == "the")
    joined = reader.at > 0 and reader.tokens[reader.at - 1].text in {"and", "&"}
    again = reader.text(the) == "same" and reader.text(the + 1) in {"in", "into"}
    reader.take(the + 1 if again and joined else 0)
    counted = reader.number(the + 1) is not None or reader.text(the + 1) in STITCHES
    if the and joined and reader.text(the) in {"next", "first", "last"} and counted:
        reader.take()  # "in the joining st and the next 11 sts"
    return reader.text()
