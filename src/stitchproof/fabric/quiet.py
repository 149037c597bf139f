"""What fails in a row and is not objected to: the words tell that it is meant so, or not enough.

Short rows leave stitches and come back to them later; a row may work a part of an edge; a row that
is guessed, or whose beginning the text does not hold, is no ground to object.
"""

from collections.abc import Sequence

from stitchproof.base.records import replace
from stitchproof.fabric.phrases import is_slip
from stitchproof.fabric.planned import PlannedRow
from stitchproof.fabric.track import Track, Went
from stitchproof.fabric.trouble import Failing, Trouble
from stitchproof.language.tree import (
    TURNING_CHAIN,
    Either,
    FastenOff,
    First,
    Group,
    InPattern,
    JoinYarn,
    Make,
    Next,
    Repeat,
    Same,
    Skip,
    Step,
    Steps,
    Times,
    Turn,
)


def as_meant(went: Went, before: Track, row: PlannedRow, steps: Steps) -> Went:
    """Give what a failing row comes to, without what is not objected to."""
    if before.short:
        return _among_short_rows(went, steps)
    if before.edge is not None and before.edge.ring and row.number is None and _levels(went, steps):
        made = replace(went.made, troubles=(), edge=before.edge, moved=True)
        return Went(made, replace(went.track, edge=before.edge), went.consumed)
    begins_later = not before.founded and row.number is not None and row.number > 1
    return _of_rows_untold(went) if begins_later else went


def _levels(went: Went, steps: Steps) -> bool:
    """Whether a line only ends a spiral: "sc in next st, sl st in next st", and its round is whole.

    What it works lies on the first stitches of the last round, where that steps down.
    """
    worked = [step for step in steps if isinstance(step, Make | Group | Repeat | Either | Skip)]
    if not 1 < len(worked) <= _MOST_LEVELLING or not is_slip(worked[-1]):
        return False
    counted = all(isinstance(s, Make) and isinstance(s.at, Next) for s in worked)
    return counted and all(t.failing is Failing.LEFT_OVER for t in went.made.troubles)


_MOST_LEVELLING = 4  # steps down from the last round, each lower than the one before


def _of_rows_untold(went: Went) -> Went:
    """Stay quiet where a row that cannot be the first of a piece stands first: "Row 2: Ch 6, …".

    It works a chain of its own and then into rows that the text does not hold.
    """
    made, track, consumed = went
    return Went(replace(made, troubles=(), edge=None), replace(track, edge=None), consumed)


_OF_SHORT_ROWS = (Failing.TOO_FEW, Failing.LEFT_OVER)


def _among_short_rows(went: Went, steps: Steps) -> Went:
    """Stay quiet among short rows, which leave stitches and come back to them later."""
    made, track, consumed = went
    failing = any(t.failing in _OF_SHORT_ROWS for t in made.troubles)
    if not failing or not is_short(steps):
        return went
    over = all(t.failing is Failing.LEFT_OVER for t in made.troubles)
    troubles = tuple(t for t in made.troubles if t.failing not in _OF_SHORT_ROWS)
    edge = made.edge if over else None
    kept = replace(made, troubles=troubles, edge=edge)
    return Went(kept, replace(track, edge=edge, short=True), consumed)


def of_a_guess(troubles: Sequence[Trouble]) -> list[Trouble]:
    """Leave out what fails where the row that is meant was guessed."""
    return [trouble for trouble in troubles if trouble.failing is Failing.LIMIT]


def of_a_part(
    troubles: list[Trouble], rows: Sequence[PlannedRow], *, told: bool, agrees: bool
) -> list[Trouble]:
    """Leave out what a row that works a part of the edge leaves over, its count being right.

    The count of a short row tells of what is wrong with it.
    """
    steps = rows[-1].steps if rows else ()
    part = _is_part(steps) or _is_cut_short(steps)
    if not (told and is_short(steps)) and not (agrees and part):
        return troubles
    return [t for t in troubles if t.failing is not Failing.LEFT_OVER or t.wanted]


def _is_part(steps: Steps) -> bool:
    """Whether a row works a part of the edge, begun with new yarn behind stitches left out."""
    skipped = False
    for step in steps:
        if isinstance(step, JoinYarn):
            return skipped or (step.at is not None and step.at != First())
        if isinstance(step, Make | Group | Repeat):
            return False
        skipped = skipped or isinstance(step, Skip)
    return False


def begins_short(rows: Sequence[PlannedRow], troubles: list[Trouble], kept: list[Trouble]) -> bool:
    """Whether a line left stitches without saying so, and rightly: more short rows may follow."""
    return len(kept) < len(troubles) and is_short(rows[-1].steps)


def is_short(steps: Steps) -> bool:
    """Whether a row counts all it works, and then turns: a short row may leave the rest unsaid."""
    return _counts_all(steps) and any(isinstance(s, Turn) and s.do for s in steps)


def _is_cut_short(steps: Steps) -> bool:
    """Whether a row counts all it works, and the yarn is cut then: the rest is for later."""
    return _counts_all(steps) and any(isinstance(s, FastenOff) for s in steps)


def _counts_all(steps: Steps) -> bool:
    made = [s for s in steps if isinstance(s, Make | Group | Repeat | Either | Skip | InPattern)]
    counted = bool(made) and all(map(_is_counted, made)) and not isinstance(made[-1], Skip)
    return counted and not _reaches_the_end(made[-1])


def _reaches_the_end(step: Step) -> bool:
    """Whether a step goes into the turning chain of the row below, with which that ends."""
    at = step.at if isinstance(step, Make) else None
    return isinstance(at, Next) and at.noun == TURNING_CHAIN


def _is_counted(step: Step) -> bool:
    """Whether a number tells how far a step goes."""
    match step:
        case Make(at=at) | Skip(at=at):
            return isinstance(at, Next | First | Same)
        case Repeat(body, often):
            return isinstance(often, Times) and all(map(_is_counted, body))
        case _:
            return False
