"""An edition that does not say who made it, whom to ask or which version it is."""

from collections.abc import Iterator
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level, listed
from stitchproof.base.facts import facts
from stitchproof.language.manuscript import Manuscript
from stitchproof.sizing.model import Sizing

_SIGNED: Final = ("designer", "contact", "version", "date")
_WANTED: Final = ("title", *_SIGNED)


@facts
class UnsignedEdition:
    """What the front matter does not say."""

    code: ClassVar[Code] = Code("E504", "unsigned-edition", Level.NOTE)

    missing: tuple[str, ...]

    def message(self) -> str:
        """Say what a maker will look for."""
        *most, last = self.missing
        missing = f"{', '.join(most)} or {last}" if most else last
        return f"the edition names no {missing}"

    def help(self) -> str:
        """Say where it is written."""
        return f"add {listed(tuple(f'`{key}`' for key in self.missing))} to the front matter"


def find(manuscript: Manuscript, sizing: Sizing) -> Iterator[Diagnostic]:
    """Look at a front matter that is signed in part; one that is not yet signed is at work."""
    if manuscript.front is None or not any(map(sizing.plain.get, _SIGNED)):
        return
    told = {**sizing.plain, "title": sizing.title}
    missing = tuple(key for key in _WANTED if not told.get(key))
    if missing:
        yield Diagnostic(finding=UnsignedEdition(missing), place=manuscript.front.place)
