"""Lines read before: an instruction that says the same reads the same, wherever it stands.

Places inside a line are told from where it begins, so what was read can be used again further down,
in another piece, or in the next version of the manuscript.
"""

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Final, Generic, TypeVar

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.language.courses import RepeatRows, Stated
from stitchproof.language.read.lex import Token
from stitchproof.language.steps import Steps

MOST_KEPT: Final = 4_000_000  # characters of lines kept from one reading to the next

Lexed = tuple[tuple[Token, ...], list[Diagnostic]]
Kind = TypeVar("Kind")


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


@dataclass(slots=True)
class _Shelf(Generic[Kind]):
    """Values by the words they were read from, and by all else that decides them."""

    held: dict[tuple[str, Hashable], Kind] = field(default_factory=dict)
    size: int = 0  # [characters]

    def get(self, words: str, beside: Hashable, read: Callable[[], Kind]) -> Kind:
        key = (words, beside)
        value = self.held.get(key)
        if value is None:
            value = self.held[key] = read()
            self.size += len(words)
        return value


@dataclass(slots=True)
class KeptLines:
    """Lines read before; belongs to the Desk and may be kept from one reading to the next."""

    lexed: _Shelf[Lexed] = field(default_factory=_Shelf)
    told: _Shelf[Told] = field(default_factory=_Shelf)
    _contexts: dict[Hashable, int] = field(default_factory=dict)

    def begin(self) -> None:
        """Begin a reading; forget what earlier ones left when it has become too much."""
        if self.lexed.size + self.told.size > MOST_KEPT:
            self.lexed, self.told = _Shelf(), _Shelf()
            self._contexts.clear()

    def context(self, *what: Hashable) -> int:
        """Give a number to what lines are read with, the same to equals."""
        return self._contexts.setdefault(what, len(self._contexts))
