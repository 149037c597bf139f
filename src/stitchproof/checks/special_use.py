"""Stitches the author defines and never works."""

import re
from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.place import Span
from stitchproof.checks import glossary, narrative
from stitchproof.checks.narrative import MOST_SEARCHED
from stitchproof.checks.seen import Seen
from stitchproof.language.tree import Special


@facts
class SpecialNotUsed:
    """The stitch."""

    code: ClassVar[Code] = Code("C434", "special-not-used", Level.NOTE)
    name: str

    def message(self) -> str:
        """Say what is left over."""
        return f"`{self.name}` is described, and nothing works it"

    def help(self) -> str:
        """Say what to do."""
        return "leave the description out, unless a chart needs it"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Look for every special stitch outside its own description."""
    by_place: dict[Span, list[Special]] = {}
    for special in seen.manuscript.specials:
        by_place.setdefault(special.place, []).append(special)
    if not by_place or len(by_place) * len(seen.manuscript.text) > MOST_SEARCHED:
        return
    lists = glossary.listed(seen.manuscript)
    for place, specials in by_place.items():
        inside = any(place.start <= entry.place.start < place.end for entry in lists)
        if not inside and not any(_stands(one, place, seen) for one in specials):
            yield Diagnostic(finding=SpecialNotUsed(specials[0].written), place=place)


def _stands(special: Special, place: Span, seen: Seen) -> bool:
    if special.stitch is not None and special.stitch.name in seen.proof.used:
        return True
    text = narrative.without(seen.manuscript.text, (place,)).lower()
    shape = r"[\s-]*".join(map(re.escape, re.split(r"[\s-]+", special.name)))
    return re.search(rf"(?<![a-z]){shape}", text) is not None
