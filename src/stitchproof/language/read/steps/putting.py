"""How a step is put behind those before it, which it may change."""

from stitchproof.base.records import replace
from stitchproof.language.number import NONE, ONE, plain
from stitchproof.language.read.steps.nouns import CORNER
from stitchproof.language.read.steps.reader import Frame
from stitchproof.language.tree import (
    STITCH,
    Each,
    End,
    Evenly,
    First,
    Group,
    Last,
    Make,
    Mark,
    Marked,
    Next,
    Remark,
    RowEnds,
    Same,
    Step,
    Steps,
    Thing,
    ToLast,
    ToMarked,
)


def _within_run(frame: Frame, step: Step) -> Step:
    """Read "sc in each dc and 3 sc in centre sp": that space lies within the run before it.

    So do corners that are counted: all there are.
    """
    last = frame.steps[-1] if frame.steps else None
    match last, step:
        case Make(at=Each(_, End())), Make(at=Next(number, noun)) | Group(
            at=Next(number, noun)
        ) if noun == CORNER and number != ONE:
            return replace(step, at=Each(noun))  # "sc around, 3 sc in each of the 4 corners"
        case Make(at=Each(_, End())), Make(at=Next(number, noun)) if frame.joined and number == ONE:
            if noun.thing in {Thing.SPACE, Thing.CHAIN_SPACE}:
                return replace(step, at=Each(noun))
        case _:
            pass
    return step


def _where_marked(frame: Frame, step: Step) -> Step:
    """Read "to next marker, remove marker, 3 hdc in same st": that one had the marker."""
    match frame.steps[-2:], step:
        case [Make(at=Each(until=ToMarked(name, before))), Mark("remove", None)], Make(
            at=Same(noun)
        ) | Group(at=Same(noun)) if before == NONE and noun == STITCH:
            return replace(step, at=Marked(name))
        case _:
            return step


def _leave_last(frame: Frame, step: Step) -> None:
    """Let "sc across" end before what goes into the last stitch: "sc across, 2 sc in last st"."""
    last = frame.steps[-1] if frame.steps else None
    if not isinstance(last, Make | Group) or not isinstance(step, Make | Group):
        return
    match last.at, step.at:
        case Each(noun, End(), apart), Last(number, of) if apart == ONE and (
            {noun.thing, of.thing} <= {Thing.STITCH, Thing.KIND}
        ):
            by = step.stitch.together if isinstance(step, Make) else 1
            if by == 1 or number == ONE:
                left = number if by == 1 else plain(by)
                frame.steps[-1] = replace(last, at=Each(noun, ToLast(left)))
        case _:
            pass


def add_steps(frame: Frame, steps: Steps) -> None:
    """Put steps behind those read so far."""
    for made in steps:
        step = _where_marked(frame, _within_run(frame, made))
        _leave_last(frame, step)
        swapped = _swapped(frame, step) or _at_first(frame, step) or _at_both(frame, step)
        if not swapped and not _merged(frame, step):
            frame.steps.append(step)
        if isinstance(step, Make | Group):
            frame.again = step
        elif not isinstance(step, Remark):
            frame.again = None


def _swapped(frame: Frame, step: Step) -> bool:
    """Read "2 sc in every 4th st, sc in all others" as "sc in each st, 2 sc in every 4th"."""
    last = frame.steps[-1] if frame.steps else None
    if not isinstance(step, Make) or step.at != Each() or not isinstance(last, Make):
        return False
    if not isinstance(last.at, Each) or last.at.apart == ONE or last.at.until != End():
        return False
    frame.steps[-1:] = [step, last]
    return True


def _at_first(frame: Frame, step: Step) -> bool:
    """Read "sc in each st, working 2 sc in first st" as "2 sc in first st, sc in each st"."""
    last = frame.steps[-1] if frame.steps else None
    match last, step:
        case Make(stitch, at=Each(noun, End(), apart)), Make(other, each, First(number, of)):
            plain_ones = {noun.thing, of.thing} <= {Thing.STITCH, Thing.KIND}
            more = stitch == other and each != ONE and apart == number == ONE
            if plain_ones and more:
                frame.steps[-1:] = [step, frame.steps[-1]]
            return plain_ones and more
        case _:
            return False


def _at_both(frame: Frame, step: Step) -> bool:
    """Read "2 sc in first and last st, sc in all others": those lie between the two."""
    before = frame.steps[-2:]
    match before, step:
        case [Make(at=First()), Make(at=Last(number))], Make(at=Each(noun, End())) if (
            number == ONE and step.at == Each()
        ):
            frame.steps[-1:] = [replace(step, at=Each(noun, ToLast(ONE))), before[1]]
            return True
        case _:
            return False


def _merged(frame: Frame, step: Step) -> bool:
    """Put a second rate of row ends to the first: both hold along one edge."""
    last = frame.steps[-1] if frame.steps else None
    if not isinstance(step, Make) or not isinstance(step.at, RowEnds):
        return False
    if isinstance(last, Make) and isinstance(last.at, Evenly) and step.stitch == last.stitch:
        # how it is even: "28 sc around the cuff, one sc in the end of each row"
        at = replace(step.at, stated=last.at.count)
        frame.steps[-1] = replace(step, at=at, place=last.place.to(step.place))
        return True
    if not isinstance(last, Make) or not isinstance(last.at, RowEnds) or step.stitch != last.stitch:
        return _with_edges(frame, step)
    rates = (*last.at.rates, *step.at.rates)
    at = RowEnds(rates, last.at.edges, last.at.stated)
    frame.steps[-1] = Make(last.stitch, last.each, at, last.place.to(step.place))
    return True


def _with_edges(frame: Frame, step: Make) -> bool:
    assert isinstance(step.at, RowEnds)
    at = replace(step.at, edges=frame.edges)
    frame.steps.append(replace(step, at=at))
    frame.edges = 1
    return True
