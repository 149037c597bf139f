"""Lines read before: an instruction that says the same reads the same, wherever it stands.

Places inside a line are told from where it begins, so what was read can be used again further down,
in another piece, or in the next version of the manuscript.
"""

from collections.abc import Hashable, Sequence
from dataclasses import field
from typing import Final, TypeAlias

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.language.courses import RepeatRows, Stated
from stitchproof.language.number import Number
from stitchproof.language.read.heard_terms import HeardLine
from stitchproof.language.read.lex import Token
from stitchproof.language.read.shelf import Shelf
from stitchproof.language.read.sorting import Sorted
from stitchproof.language.steps import Steps

MOST_KEPT: Final = 4_000_000  # characters of lines kept from one reading to the next

Named: TypeAlias = tuple[tuple[str, Span], ...]  # abbreviations, and their places in the line


@dataclass(frozen=True, slots=True)
class Cut:
    """The words of a part of the document; those of an instruction without its label.

    Attributes
    ----------
    words : tuple of Token
        The words.
    found : sequence of Diagnostic
        What is wrong with how they are written.
    numbers : tuple of Number
        The formulas among them, and the lists of a number for each size.
    """

    words: tuple[Token, ...] = ()
    found: Sequence[Diagnostic] = ()
    numbers: tuple[Number, ...] = ()

    @classmethod
    def of(cls, words: tuple[Token, ...], found: Sequence[Diagnostic]) -> "Cut":
        """Look for the numbers among some words."""
        numbers = (word.number for word in words if word.number is not None)
        return cls(words, found, tuple(number for number in numbers if number.by_size))


NO_WORDS: Final = Cut()


@dataclass(frozen=True, slots=True)
class Told:
    """What an instruction says, without its label.

    Attributes
    ----------
    words : tuple of Token
        Its words without the stated count.
    does : Steps or RepeatRows
        What is done.
    stated : Stated or None
        What it says it comes to.
    found : tuple of Diagnostic
        What is wrong with the words; placed from where the line begins.
    """

    words: tuple[Token, ...]
    does: Steps | RepeatRows
    stated: Stated | None
    found: tuple[Diagnostic, ...]


@dataclass(frozen=True, slots=True)
class Done:
    """What an instruction does, without its stated count.

    Attributes
    ----------
    words : tuple of Token
        Its words.
    does : Steps or RepeatRows
        What is done.
    found : sequence of Diagnostic
        What is wrong with the words; placed from where the line begins.
    """

    words: tuple[Token, ...]
    does: Steps | RepeatRows
    found: Sequence[Diagnostic]


@dataclass(slots=True)
class KeptLines:
    """Lines read before; belongs to the Desk and may be kept from one reading to the next."""

    sorted: Shelf[Sorted] = field(default_factory=Shelf)
    cut: Shelf[Cut] = field(default_factory=Shelf)
    heard: Shelf[HeardLine] = field(default_factory=Shelf)
    done: Shelf[Done] = field(default_factory=Shelf)
    told: Shelf[Told] = field(default_factory=Shelf)
    named: Shelf[Named] = field(default_factory=Shelf)
    _contexts: dict[Hashable, int] = field(default_factory=dict)

    def begin(self) -> None:
        """Begin a reading; forget what earlier ones left when it has become too much."""
        shelves = (self.sorted, self.cut, self.heard, self.done, self.told, self.named)
        if sum(shelf.size for shelf in shelves) > MOST_KEPT:
            for shelf in shelves:
                shelf.clear()
            self._contexts.clear()

    def context(self, *what: Hashable) -> int:
        """Give a number to what lines are read with, the same to equals."""
        return self._contexts.setdefault(what, len(self._contexts))
