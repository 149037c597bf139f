"""A line names a place that is not there."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen, gathered, place_name, words
from stitchproof.fabric.trouble import Failing


@facts
class NoSuchPlace:
    """The place named, in the trade's words."""

    code: ClassVar[Code] = Code("C405", "no-such-place", Level.ERROR)
    noun: str
    rows_below: int
    words: str
    chains: int = 0

    def message(self) -> str:
        """Say what is missing."""
        article = "an" if self.noun[:1] in "aeiou" else "a"
        if self.chains:
            return (
                f"`{self.words}` looks for a chain that is not there: {self.noun} has {self.chains}"
            )
        if self.rows_below > 1:
            return f"`{self.words}`: {self.rows_below} rows below there is no {self.noun} here"
        return f"`{self.words}` looks for {article} {self.noun}, and there is none"

    def help(self) -> str:
        """Say where to look."""
        return "look at what the rows below have made here"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find places that do not exist."""
    for found in gathered(seen, Failing.NO_PLACE):
        first = found.troubles[0]
        noun, chains = place_name(seen, first.noun), max(first.had, 0)
        named = f"the {noun}" if chains else noun
        yield Diagnostic(
            finding=NoSuchPlace(named, first.wanted, words(seen, found.place), chains),
            place=found.place,
            address=found.address(),
            sizes=found.named_sizes(),
        )
