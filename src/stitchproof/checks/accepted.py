"""Findings the author has looked at and accepts, with a reason.

`[[accepted]]` in the front matter names a finding by its slug and its address. An accepted finding
stays in the list and no longer counts; an entry that matches nothing is a warning, since what it
accepted has gone or was misspelt.
"""

import re
from collections.abc import Iterable
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.records import dataclass, replace
from stitchproof.language.manuscript import Manuscript

_REMARK: Final = re.compile(r"\s*\([^()]*\)")


@facts
class AcceptedUnmatched:
    """What the entry names."""

    code: ClassVar[Code] = Code("C418", "accepted-unmatched", Level.WARNING)
    finding: str
    at: str

    def message(self) -> str:
        """Say that nothing is there."""
        where = f" at `{self.at}`" if self.at else ""
        return f"accepts `{self.finding}`{where}, but there is no such finding"

    def help(self) -> str:
        """Say what to do."""
        return "take the entry out, or check the finding's name and its address"


@dataclass(frozen=True, slots=True)
class _Entry:
    index: int
    finding: str
    at: str
    sizes: tuple[str, ...]
    reason: str

    def fits(self, one: Diagnostic) -> bool:
        if one.finding.code.slug != self.finding:
            return False
        if self.at and _plain(self.at) != _plain(one.address.words()):
            return False
        return not self.sizes or (bool(one.sizes) and set(one.sizes) <= set(self.sizes))


def _plain(address: str) -> str:
    return " ".join(_REMARK.sub("", address).split()).lower()


def accept(found: Iterable[Diagnostic], manuscript: Manuscript) -> list[Diagnostic]:
    """Mark what the author accepts, and report entries that match nothing."""
    out = list(found)
    for entry in _entries(manuscript):
        hits = [i for i, one in enumerate(out) if entry.fits(one)]
        for i in hits:
            out[i] = replace(out[i], accepted=entry.reason or "accepted")
        if not hits and manuscript.front is not None:
            out.append(
                Diagnostic(
                    finding=AcceptedUnmatched(entry.finding, entry.at),
                    place=manuscript.front.at("accepted", entry.index),
                )
            )
    return out


def _entries(manuscript: Manuscript) -> Iterable[_Entry]:
    table = manuscript.front.table.get("accepted") if manuscript.front is not None else None
    if not isinstance(table, list):
        return
    for index, entry in enumerate(table):
        if isinstance(entry, dict):
            sizes = entry.get("sizes", [])
            told = all(isinstance(entry.get(key, ""), str) for key in ("finding", "at"))
            if not told or not isinstance(sizes, list):
                continue  # told where it is read
            yield _Entry(
                index,
                str(entry.get("finding", "")),
                str(entry.get("at", "")),
                tuple(map(str, sizes)),
                str(entry.get("reason", "")),
            )
