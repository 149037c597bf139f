"""Stitches worked at both ends of a row: "sc2tog at beg and end of row, sc in all other sts"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE, plain
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import STOPS, Frame, Reader
from stitchproof.language.tree import (
    STITCH,
    Each,
    End,
    First,
    Last,
    Make,
    Next,
    Step,
    Steps,
    ToLast,
)

_STARTS: Final = word_set("beg beginning start")
_BOTH: Final = word_set("each both either")
_ENDS: Final = word_set("end ends side sides edge edges")
_ROWS: Final = word_set("row rnd round")


def at_both_ends(reader: Reader, here: int = 0) -> int:
    """Count the tokens of "at beg and end of row", "at each end"; 0 if they do not stand there."""
    if reader.text(here) not in {"at", "on"}:
        return 0
    ahead = here + (2 if reader.text(here + 1) == "the" else 1)
    if reader.text(ahead) in _STARTS and reader.text(ahead + 1) in {"and", "&"}:
        ahead += 2
        while reader.text(ahead) in {"the", "at"}:
            ahead += 1
    elif reader.text(ahead) in _BOTH:
        ahead += 1
    else:
        return 0
    if reader.text(ahead) not in _ENDS:
        return 0
    ahead += 1
    of = ahead
    if reader.text(of) == "of":
        of += 1
        while reader.text(of) in {"the", "this", "each"}:
            of += 1
        if reader.text(of) in _ROWS:
            ahead = of + 1
    return ahead - here


def at_one_end(reader: Reader) -> tuple[str, int]:
    """Read ahead "at beg of row", "at end of rnd": which end, and how many tokens; 0 if not."""
    if reader.text() not in {"at", "on"}:
        return "", 0
    ahead = 2 if reader.text(1) == "the" else 1
    end = reader.text(ahead)
    if end not in _STARTS | {"end"}:
        return "", 0
    if reader.text() == "at" and reader.text(ahead + 1) in STOPS | {""}:
        return "end" if end == "end" else "start", ahead + 1  # "dc2tog at the end"
    if reader.text(ahead + 1) != "of":
        return "", 0
    ahead += 2
    while reader.text(ahead) in {"the", "this", "each", "every"}:
        ahead += 1
    if reader.text(ahead) not in _ROWS:
        return "", 0
    return "end" if end == "end" else "start", ahead + 1


def worked_at_one(reader: Reader, frame: Frame, steps: Steps | None) -> Steps | None:
    """Read "sc2tog at beg of row" where the row begins, "sc2tog at end of row" behind a run."""
    step = steps[0] if steps else None
    end, length = at_one_end(reader)
    made = [other for other in frame.steps if isinstance(other, Make)]
    if not isinstance(step, Make) or steps is None or len(steps) > 1:
        return None
    if (end == "start") == bool(made):
        return None
    reader.take(length)
    step = replace(step, place=step.place.to(reader.span(reader.at - 1)))
    last = frame.steps[-1] if frame.steps else None
    if end == "end" and isinstance(last, Make) and _is_run(last):
        taken = plain(step.stitch.together)
        frame.steps[-1] = replace(last, at=Each(STITCH, ToLast(taken)))
    return (replace(step, at=Next()),)


def changed_at_both(reader: Reader, frame: Frame, change: str) -> Steps | None:
    """Read "increasing once at each end" behind "hdc in each st": the first and the last do."""
    last = frame.steps[-1] if frame.steps else None
    if not isinstance(last, Make) or not _is_run(last) or last.each != ONE:
        return None
    reader.take(at_both_ends(reader))
    if change == "increased":
        two = plain(2)
        run = replace(last, at=Each(STITCH, ToLast()))
        ends = replace(last, each=two, at=First()), replace(last, each=two, at=Last())
    else:
        stitch = replace(last.stitch, together=2)
        run = replace(last, at=Each(STITCH, ToLast(plain(2))))
        ends = replace(last, stitch=stitch, at=First()), replace(last, stitch=stitch, at=Last())
    frame.steps[-1:] = [ends[0], run, ends[1]]
    return ()


def worked_at_both(reader: Reader, frame: Frame, steps: Steps | None) -> Steps | None:
    """Take a stitch for the first of the row, and remember that it is the last as well."""
    step = steps[0] if steps else None
    if not isinstance(step, Make) or steps is None or len(steps) > 1:
        return None
    reader.take(at_both_ends(reader))
    first = replace(step, at=Next(), place=step.place.to(reader.span(reader.at - 1)))
    frame.ends.append(first)
    return (first,)


def settle_ends(frame: Frame) -> None:
    """Work what stands at both ends once more behind the run of plain stitches between them."""
    for step in reversed(frame.ends):
        i = next((i for i, other in enumerate(frame.steps) if other is step), None)
        if i is None:
            continue  # a repeat has taken it: its ends are not those of the row
        run = next((j for j in range(i + 1, len(frame.steps)) if _is_run(frame.steps[j])), None)
        if run is not None:
            between = frame.steps[run]
            assert isinstance(between, Make)
            taken = plain(step.stitch.together)
            until = Each(STITCH, ToLast(taken if step.stitch.together > 1 else ONE))
            frame.steps[run : run + 1] = [replace(between, at=until), step]


def _is_run(step: Step) -> bool:
    return (
        isinstance(step, Make)
        and isinstance(step.at, Each)
        and step.at.until == End()
        and step.at.apart == ONE
    )
