"""A line needs more places than the row below has."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen, gathered, place_name, words
from stitchproof.fabric.trouble import Failing


@facts
class TooFewStitches:
    """Places needed and places left, for each wrong size."""

    code: ClassVar[Code] = Code("C403", "too-few-stitches", Level.ERROR)
    needed: tuple[int, ...]
    had: tuple[int, ...]
    places: str
    words: str

    def message(self) -> str:
        """Both numbers."""
        return (
            f"`{self.words}` needs {size_list(self.needed)} {self.places}, "
            f"but {size_list(self.had)} {'is' if set(self.had) == {1} else 'are'} left"
        )

    def help(self) -> str:
        """Say where to look."""
        return "check the count of the row below, or work fewer here"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find lines that run out of stitches."""
    for found in gathered(seen, Failing.TOO_FEW):
        facts = TooFewStitches(
            found.wanted,
            found.had,
            place_name(seen, found.troubles[0].noun, plural=set(found.wanted) != {1}),
            words(seen, found.place),
        )
        yield Diagnostic(
            finding=facts,
            place=found.place,
            address=found.address(),
            sizes=found.named_sizes(),
        )
