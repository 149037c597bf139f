"""A line asks for more than any fabric made by hand."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen, gathered, words
from stitchproof.fabric.trouble import Failing


@facts
class TooLarge:
    """The words, and the most that is worked."""

    code: ClassVar[Code] = Code("C411", "too-large", Level.ERROR)
    most: int
    words: str
    of: str = ""

    def message(self) -> str:
        """Say the limit."""
        if self.of:
            return (
                f"the work ends at `{self.words}`: with it the manuscript comes to more than "
                f"{self.most:,} {self.of}"
            )
        return f"`{self.words}` asks for more than {self.most:,} at once, and is not worked"

    def help(self) -> str:
        """Say where to look."""
        return "check the numbers up to here" if self.of else "check the number"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find numbers beyond every limit."""
    for found in gathered(seen, Failing.LIMIT):
        lead = found.troubles[0]
        yield Diagnostic(
            finding=TooLarge(lead.had, words(seen, found.place), lead.what),
            place=found.place,
            address=found.address(),
            sizes=found.named_sizes(),
        )
