"""Repeated rows end on another side than the line says."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen, gathered
from stitchproof.fabric.trouble import Failing


@facts
class WrongSide:
    """The side said, and how many rows are worked, for each wrong size."""

    code: ClassVar[Code] = Code("C410", "wrong-side", Level.ERROR)
    said: str
    rows: tuple[int, ...]

    def message(self) -> str:
        """Say where it ends."""
        other = "RS" if self.said == "WS" else "WS"
        return (
            f"says it ends with a {self.said} row, "
            f"but {size_list(self.rows)} rows end with a {other} row"
        )

    def help(self) -> str:
        """Say where to look."""
        return "work one row more or fewer, or change the side"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Find repeats of rows that end on the wrong side."""
    for found in gathered(seen, Failing.SIDE):
        yield Diagnostic(
            finding=WrongSide(found.troubles[0].what, found.had),
            place=found.place,
            address=found.address(),
            sizes=found.named_sizes(),
        )
