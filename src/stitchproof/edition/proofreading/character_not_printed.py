"""A character that the PDF has no shape for."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.place import Span
from stitchproof.edition.characters import name_of, unshown
from stitchproof.language.manuscript import Manuscript


@facts
class CharacterNotPrinted:
    """A character of the author's, and how often it stands in the manuscript."""

    code: ClassVar[Code] = Code("E501", "character-not-printed", Level.WARNING)

    character: str
    often: int

    def message(self) -> str:
        """Say what the PDF prints instead."""
        times = "" if self.often == 1 else f", {self.often} times"
        name = name_of(self.character)
        return f"the PDF has no shape for `{self.character}` and prints `[{name}]`{times}"

    def help(self) -> str:
        """Name the way out."""
        return "write it in words, or take it out; the web page and the plain text show it"


def find(manuscript: Manuscript) -> Iterator[Diagnostic]:
    """Look through the title and the body."""
    start = manuscript.front.place.end if manuscript.front else 0
    body = manuscript.text[start:]
    # What nobody could read is told as a finding of its own and not again here.
    for character in sorted(unshown(body) - {"\ufffd"}):
        at = start + body.index(character)
        yield Diagnostic(
            finding=CharacterNotPrinted(character, body.count(character)),
            place=Span(manuscript.source, at, at + 1),
        )
