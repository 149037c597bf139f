"""Values that were read before, by the words they were read from."""

from collections.abc import Callable, Hashable
from dataclasses import field
from typing import Generic, TypeVar

from stitchproof.base.records import dataclass

Kind = TypeVar("Kind")


@dataclass(slots=True)
class Shelf(Generic[Kind]):
    """Values by the words they were read from, and by all else that decides them."""

    held: dict[tuple[str, Hashable], Kind] = field(default_factory=dict)
    size: int = 0  # [characters]

    def get(self, words: str, beside: Hashable, read: Callable[[], Kind]) -> Kind:
        """Give what words were read as, or read them now."""
        key = (words, beside)
        value = self.held.get(key)
        if value is None:
            value = self.held[key] = read()
            self.size += len(words)
        return value

    def clear(self) -> None:
        """Forget all of them."""
        self.held.clear()
        self.size = 0
