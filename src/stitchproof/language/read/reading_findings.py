"""What is found wrong with a manuscript as a whole."""

from typing import ClassVar

from stitchproof.base.diagnostics import Code, Level
from stitchproof.base.facts import facts


@facts
class MixedTerms:
    """Words of both systems of stitch names in one text.

    Attributes
    ----------
    terms : str
        The system the text is read in.
    word, other : str
        A word of the other system, and one of its own (empty where the front matter decides).
    """

    code: ClassVar[Code] = Code("L150", "mixed-terms", Level.WARNING)
    terms: str
    word: str
    other: str = ""

    def message(self) -> str:
        """Say which word does not belong."""
        beside = f", beside `{self.other}`" if self.other else ""
        foreign = "UK" if self.terms == "US" else "US"
        return f"`{self.word}` is a {foreign} term{beside}; the text is read in {self.terms} terms"

    def help(self) -> str:
        """Say what to do."""
        return "use one system throughout, and name it as `terms` in the front matter"


@facts
class TermsAssumed:
    """Nothing says whose stitch names a text uses, and it uses some that differ."""

    code: ClassVar[Code] = Code("L151", "terms-assumed", Level.NOTE)
    word: str
    terms: str = "US"

    def message(self) -> str:
        """Say what is taken for granted."""
        return (
            f"`{self.word}` is one stitch in US terms and another in UK terms, and nothing says"
            f" which is meant; it is read in {self.terms} terms"
        )

    def help(self) -> str:
        """Say where to decide it."""
        return 'write terms = "US" or terms = "UK" in the front matter'


@facts
class TextTooLong:
    """A text or a line beyond what is read.

    Attributes
    ----------
    what : str
        "lines", "characters", "instructions" or "characters in one instruction".
    limit : int
        How many are read.
    """

    code: ClassVar[Code] = Code("L152", "text-too-long", Level.ERROR)
    what: str
    limit: int

    def message(self) -> str:
        """Say where reading stops."""
        return f"only the first {self.limit:,} {self.what} are read; what follows from here is not"

    def help(self) -> str:
        """Say what to do."""
        return (
            "split it into several manuscripts, or name repeated rows once: `Rows 3-40: Rep Row 2`"
        )


@facts
class FenceNotClosed:
    """A code fence without its end, which hides the rows below it."""

    code: ClassVar[Code] = Code("L153", "fence-not-closed", Level.WARNING)
    label: str

    def message(self) -> str:
        """Say what is hidden."""
        return f"this fence is never closed, so `{self.label}` and all below it is not read"

    def help(self) -> str:
        """Say what to do."""
        return "close the fence with a line of the same marks, or remove it"


@facts
class FileNotRead:
    """The manuscript is not there, or cannot be read."""

    code: ClassVar[Code] = Code("L154", "file-not-read", Level.ERROR)
    words: str  # the file and what is wrong with it

    def message(self) -> str:
        """Say what is wrong."""
        return self.words

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class NotUtf8:
    """A byte that is no UTF-8 text."""

    code: ClassVar[Code] = Code("L155", "not-unicode", Level.ERROR)
    byte: int

    def message(self) -> str:
        """Say which."""
        return f"the file is not UTF-8 text: the byte 0x{self.byte:02X} stands here"

    def help(self) -> str:
        """Say what to do."""
        return "save it as UTF-8 and try again"
