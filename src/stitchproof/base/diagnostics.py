"""What the program tells the author of a manuscript.

A finding holds facts; its words are made from them at the edge. Facts that differ by size hold a
value per size, so one mistake at one place is one finding whatever the numbers.
"""

import re
from enum import Enum
from typing import ClassVar, Final, Protocol

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass, replace

_LONGEST_WORD: Final = 60  # characters
_ENDLESS: Final = re.compile(rf"[^\s`]{{{_LONGEST_WORD + 1},}}")


class Level(Enum):
    """How much a finding matters."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


class Safety(Enum):
    """How sure a fix is."""

    SAFE = "safe"
    UNSURE = "unsure"
    SHOW = "show"


@dataclass(frozen=True)
class Code:
    """The lasting identity of a kind of finding: number for searching, slug for reading."""

    number: str
    slug: str
    level: Level


class Finding(Protocol):
    """Facts of one kind of finding.

    The kinds are frozen dataclasses, made by `facts` because there are more than a hundred of them
    and the command line loads them all.

    Facts that differ by size are tuples, one entry a worked size.
    """

    code: ClassVar[Code]

    def message(self) -> str:
        """One clause without a closing stop; the address is put before it."""
        ...

    def help(self) -> str:
        """Say what to do next, in the imperative; empty when nothing is certain."""
        ...


@dataclass(frozen=True, slots=True)
class Edit:
    """Replace a stretch of the author's text by other words."""

    place: Span
    words: str


@dataclass(frozen=True, slots=True)
class Fix:
    """A way to mend a finding: edits of the text and how sure they are."""

    edits: tuple[Edit, ...]
    safety: Safety


@dataclass(frozen=True, slots=True)
class Address:
    """Where a maker would look: the heading and the label, in the author's words."""

    section: str | None = None
    label: str | None = None

    def words(self) -> str:
        """Give `Front, Row 12`; empty when neither is known."""
        return ", ".join(part for part in (self.section, self.label) if part)


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnostic:
    """One finding at one place.

    Attributes
    ----------
    finding : Finding
        The facts.
    place : Span
        Exactly the wrong words.
    address : Address
        The piece and the row as a maker would name them.
    sizes : tuple of str
        Exactly the sizes that are wrong; empty means every size.
    also : tuple of (Span, str)
        Other places that belong to it, each with a note.
    fix : Fix or None
        How to mend it.
    accepted : str or None
        The reason the author gave for accepting it.
    """

    finding: Finding
    place: Span
    address: Address = Address()
    sizes: tuple[str, ...] = ()
    also: tuple[tuple[Span, str], ...] = ()
    fix: Fix | None = None
    accepted: str | None = None

    def shifted(self, by: int) -> "Diagnostic":
        """Give the same finding `by` code points further on."""
        fix = self.fix
        if fix is not None:
            edits = tuple(replace(edit, place=edit.place.shifted(by)) for edit in fix.edits)
            fix = replace(fix, edits=edits)
        also = tuple((place.shifted(by), note) for place, note in self.also)
        return replace(self, place=self.place.shifted(by), also=also, fix=fix)

    def message(self) -> str:
        """One sentence that stands alone: where, in which sizes, and what; no word without end."""
        where = self.address.words()
        if self.sizes:
            noun = "size" if len(self.sizes) == 1 else "sizes"
            in_sizes = f"in {noun} {listed(self.sizes)}"
            where = f"{where}, {in_sizes}" if where else in_sizes
        told = self.finding.message()
        return shortened(f"{where}: {told}" if where else told)

    def help(self) -> str:
        """Say what to do next; empty when nothing is certain."""
        return shortened(self.finding.help())


def listed(words: tuple[str, ...], joined: str = "and") -> str:
    """Join words as a sentence does: `S`, `S and M`, `S, M and L`."""
    *most, last = words
    return f"{', '.join(most)} {joined} {last}" if most else last


def shortened(message: str) -> str:
    """Cut words of a message that no reader needs whole, such as a number of 6,000 digits."""
    return _ENDLESS.sub(lambda word: f"{word[0][: _LONGEST_WORD - 1]}…", message)


def size_list(numbers: tuple[object, ...]) -> str:
    """Write one number per size the way patterns do: 70 (76, 84); `-` where there is none.

    Numbers that are the same in every size are written once.
    """
    shown = ["-" if n is None else str(n) for n in numbers]
    if len(set(shown)) == 1:
        return shown[0]
    first, *rest = shown
    return f"{first} ({', '.join(rest)})"
