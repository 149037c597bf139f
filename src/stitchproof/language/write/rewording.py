"""Findings of rewording: words that do not lead back, terms that are nowhere said."""

from typing import ClassVar

from stitchproof.base.diagnostics import Code, Level
from stitchproof.base.facts import facts


@facts
class NoWayBack:
    """A word that becomes another one on the way there and back."""

    words: str
    put: str
    terms: str
    code: ClassVar[Code] = Code("L193", "no-way-back", Level.NOTE)

    def message(self) -> str:
        """Say which word, and what it became."""
        return (
            f"`{self.words}` is `{self.put}` in {self.terms} terms, and the way back gives another "
            "word for it"
        )

    def help(self) -> str:
        """Say how to go on."""
        return "Keep this manuscript if the exact spelling matters"


@facts
class WordLeft:
    """A word of the other system that was there already."""

    words: str
    terms: str
    code: ClassVar[Code] = Code("L194", "word-of-other-terms", Level.NOTE)

    def message(self) -> str:
        """Say which word."""
        return f"`{self.words}` is a word of {self.terms} terms already and was left as it is"

    def help(self) -> str:
        """Say nothing: the word is right there."""
        return ""


@facts
class TermsUnsaid:
    """A text that does not say whose terms it uses, and would be read wrongly."""

    terms: str
    code: ClassVar[Code] = Code("L195", "terms-unsaid", Level.WARNING)

    def message(self) -> str:
        """Say what is missing."""
        return f"nothing in the text says that it is in {self.terms} terms once it is reworded"

    def help(self) -> str:
        """Say how to go on."""
        return f'Put `terms = "{self.terms}"` into the front matter of the reworded text'
