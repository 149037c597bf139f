"""From a manuscript to all that is known of it: read, size, work, check.

It always gives something, also beside errors. The editions are made from what it gives.
"""

import gc
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from functools import partial
from typing import Final

from stitchproof.base.diagnostics import Address, Diagnostic, shortened
from stitchproof.base.records import dataclass, replace
from stitchproof.checks import nothing_to_prove
from stitchproof.checks.accepted import accept
from stitchproof.checks.seen import Seen
from stitchproof.checks.table import look
from stitchproof.edition.proofread import proofread
from stitchproof.fabric.proof import Proof
from stitchproof.fabric.prove import prove
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.pipeline.desk import Desk, Unusable, decoded
from stitchproof.sizing.findings import SizeNotThere
from stitchproof.sizing.model import Sizing
from stitchproof.sizing.size import size_manuscript

_GARBAGE: Final = 200_000  # objects made between two searches; a small manuscript makes no more


@dataclass(frozen=True, slots=True)
class Pressed:
    """What came out.

    Attributes
    ----------
    manuscript : Manuscript
        What was read.
    sizing : Sizing
        What the numbers come to.
    proof : Proof
        Every course, worked in every chosen size.
    found : tuple of Diagnostic
        Every finding, in the order of the text.
    """

    manuscript: Manuscript
    sizing: Sizing
    proof: Proof
    found: tuple[Diagnostic, ...]


def press(
    desk: Desk, name: str, sizes: tuple[str, ...] | None = None, *, shapes: bool = False
) -> Pressed:
    """Read, size, work and check a manuscript.

    Parameters
    ----------
    desk : Desk
        Everything outside.
    name : str
        The manuscript, as the Desk knows it.
    sizes : tuple of str, optional
        Sizes to work; all when not given.
    shapes : bool
        Lay down the outlines of the pieces too; only the editions need them.

    Raises
    ------
    Unusable
        When the file cannot be read as text, or has not the sizes asked for.
    """
    text = decoded(desk.read(name), name)
    with rarely_collected():
        return _press(desk, name, text, sizes, shapes=shapes)


@contextmanager
def rarely_collected() -> Iterator[None]:
    """Let the interpreter look for garbage less often: what is made here is kept, all of it.

    On a garment in ten sizes the search took an eighth of the time, and found nothing. At the end
    all of it is given to the oldest generation, which the next full search looks through.
    """
    before = gc.get_threshold()
    gc.set_threshold(max(before[0], _GARBAGE), *before[1:])
    try:
        yield
    finally:
        if not gc.get_freeze_count():  # else somebody else keeps things apart
            gc.freeze()
            gc.unfreeze()
        gc.set_threshold(*before)


def _press(
    desk: Desk, name: str, text: str, sizes: tuple[str, ...] | None, *, shapes: bool
) -> Pressed:
    manuscript, found = read_manuscript(text, name, desk.lines)
    sizing, more = size_manuscript(manuscript, partial(_fetch, desk), sizes)
    found = [*found, *more]
    _check_asked(sizes, sizing.sizes)
    proof = prove(
        manuscript, sizing.resolved, desk.memory, row_gauges(manuscript, sizing), shapes=shapes
    )
    seen = Seen(manuscript, sizing.resolved, proof)
    found += look(seen)
    found += nothing_to_prove.find(seen, found)
    found += proofread(manuscript, sizing, proof.pieces if shapes else ())
    found = [_addressed(one, proof) for one in found]
    accepted = accept(found, manuscript)
    return Pressed(manuscript, sizing, proof, tuple(_in_order(accepted)))


def _check_asked(asked: tuple[str, ...] | None, sizes: tuple[str, ...]) -> None:
    """Refuse sizes that the manuscript does not have, and none at all."""
    known = {size.casefold() for size in sizes}
    unknown = tuple(one for one in asked or () if one.strip().casefold() not in known)
    if unknown or asked == ():
        finding = SizeNotThere(unknown, sizes)
        raise Unusable(shortened(finding.message()), finding)


def _fetch(desk: Desk, name: str) -> str:
    """Give a file beside the manuscript; one that cannot be used is a finding, not the end."""
    try:
        return decoded(desk.read(name), name)
    except Unusable as wrong:
        raise LookupError(str(wrong)) from None


def row_gauges(manuscript: Manuscript, sizing: Sizing) -> dict[str, float]:
    """Give the row gauge [1/mm] of each section whose swatch is known."""
    gauges = {}
    for section in manuscript.sections:
        swatch = sizing.swatch_of(section.name, section.title)
        if swatch is not None and swatch.rows_per_mm:
            gauges[section.name] = float(swatch.rows_per_mm)
    return gauges


def _addressed(one: Diagnostic, proof: Proof) -> Diagnostic:
    """Name the row a finding stands in, where the finder did not know it."""
    if one.address.words():
        return one
    for course in proof.courses:
        if course.place.start <= one.place.start < course.place.end:
            return replace(one, address=Address(course.section or None, course.label or None))
    return one


def _in_order(found: Iterable[Diagnostic]) -> list[Diagnostic]:
    return sorted(
        found, key=lambda d: (d.place.source, d.place.start, d.place.end, d.finding.code.number)
    )
