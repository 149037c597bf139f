"""A chain drawn in with the stitches behind it: "ch 2, dc in next st (counts as dc2tog)"."""

from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import ONE
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.steps.reader import Frame, Reader
from stitchproof.language.read.steps.stitches import longest, read_stitch, starts_stitch
from stitchproof.language.tree import (
    Chain,
    Colour,
    Counts,
    Group,
    JoinYarn,
    Make,
    Next,
    Remark,
    Same,
    Skip,
    Step,
    Target,
    Turn,
)


def drawn_with_chain(reader: Reader, frame: Frame, close: int) -> bool:
    """Read "(counts as dc2tog)" behind "ch 2, dc in next st": the chain is drawn in with it."""
    _pass_what_counts(reader)
    reader.pass_over(_COUNTING_AS)
    if _begins_cluster(reader, frame, close):
        return True
    named = read_stitch(reader) if starts_stitch(reader) else None
    reader.accept("made")
    if named is None or named.stitch.together < 2 or reader.at != close:  # noqa: PLR2004
        return False
    begun = next((i for i, step in enumerate(frame.steps) if not _comes_before(step)), 0)
    steps = [step for step in frame.steps[begun:] if not isinstance(step, Turn | Skip)]
    match steps:
        case [Chain(count=count, place=place), Make(stitch, each, at) as last] if (
            each == ONE and stitch.kind == named.stitch.kind and _is_one_place(at)
        ):
            taken = replace(last, stitch=named.stitch, place=place.to(last.place))
            kept = [step for step in frame.steps[begun:] if isinstance(step, Turn)]
            frame.steps[begun:] = [*kept, Chain(count, Counts(""), place), taken]
            return True
        case _:
            return False


def _comes_before(step: Step) -> bool:
    """Whether a step only brings the yarn to where the row begins."""
    if isinstance(step, Make):
        return step.stitch.kind == "sl_st"
    return isinstance(step, JoinYarn | Remark | Colour)


def _is_one_place(at: Target) -> bool:
    """Whether one place is named: `in next dc`, `in same gap`."""
    return isinstance(at, Same) or (isinstance(at, Next) and at.number == ONE)


_COUNTING_AS: Final = word_set(
    "counts count counting as first beg beginning 1st a the - = equals makes make forms form this"
    " these they together is are"
)


def _pass_what_counts(reader: Reader) -> None:
    """Go past "ch 2 and dc", "ch-2 and first dc" before "count as dc2tog"."""
    start = reader.at
    if reader.accept_any(word_set("ch chain")):
        reader.accept("-")
        reader.take(reader.number() is not None)
        joined = reader.accept_any(word_set("and & +"))
        reader.pass_over(word_set("the next first"))
        if joined and starts_stitch(reader) and read_stitch(reader) and reader.text() == "count":
            return
    reader.at = start


def _begins_cluster(reader: Reader, frame: Frame, close: int) -> bool:
    """Read "(counts as first cluster)" behind "ch 3, tr2tog in same st": with the chain."""
    reader_ends = reader.text() in _CLUSTERS and reader.at + 1 == close
    match frame.steps[-2:]:
        case [Chain(count, None, place), Make(stitch, _, Same()) as last] if (
            reader_ends and stitch.together > 1
        ):
            own = longest(reader.special, reader)
            special = own[0].special if own is not None else None
            if special is not None and special.body is not None:
                body = (replace(last, at=Same()),)
                frame.steps[-1] = Group(body, last.at, special.name, last.place)
            frame.steps[-2] = Chain(count, Counts(""), place)
            return True
        case _:
            return False


_CLUSTERS: Final = word_set("cluster cl bobble puff popcorn")
