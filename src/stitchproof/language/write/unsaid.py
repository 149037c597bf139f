"""Findings of writing: what the words of the trade cannot say."""

from typing import ClassVar

from stitchproof.base.diagnostics import Code, Level
from stitchproof.base.facts import facts


@facts
class NoWordsFor:
    """A step that has no exact words in these terms."""

    words: str
    terms: str
    code: ClassVar[Code] = Code("L191", "no-words-for", Level.WARNING)

    def message(self) -> str:
        """Say which step."""
        return f"where `{self.words}` goes cannot be said exactly in {self.terms} terms"

    def help(self) -> str:
        """Say how to go on."""
        return "Write this step by hand"


@facts
class WordsKept:
    """Words that were not understood, and so not put into other words."""

    words: str
    code: ClassVar[Code] = Code("L192", "words-kept", Level.WARNING)

    def message(self) -> str:
        """Say which words."""
        if not self.words:
            return "a part of this line was understood but cannot be put into other words"
        return f"`{self.words}` was not understood and stands as it was written"

    def help(self) -> str:
        """Say how to go on."""
        return "Read these words over by hand"
