"""What is wrong with the words of an instruction."""

from typing import ClassVar

from stitchproof.base.diagnostics import Code, Level
from stitchproof.base.facts import facts
from stitchproof.language.read.numerals import LONGEST_NUMBER


@facts
class UnknownAbbreviation:
    """A word that stands where a stitch stands and that no table knows.

    Attributes
    ----------
    word : str
        As written.
    terms : str
        The system that the text is written in.
    near : str
        A name that looks much like it, or empty.
    """

    code: ClassVar[Code] = Code("L110", "unknown-abbreviation", Level.ERROR)
    word: str
    terms: str
    near: str = ""

    def message(self) -> str:
        """Say which word."""
        hint = f"; `{self.near}` looks much like it" if self.near else ""
        return f"`{self.word}` is no stitch or abbreviation in {self.terms} terms{hint}"

    def help(self) -> str:
        """Say how to make it known."""
        return "define it under the special stitches, or correct its spelling"


@facts
class UnreadWords:
    """Words of an instruction whose meaning is not known.

    A warning and no error: that the words are wrong is not known either. What depends on them is
    not proved, and the proof says so.
    """

    code: ClassVar[Code] = Code("L111", "unread-words", Level.WARNING)
    words: str

    def message(self) -> str:
        """Say which words."""
        return f"`{self.words}` could not be read, so what it makes is not proved"

    def help(self) -> str:
        """Say what may help."""
        return "put it in the usual words, or between brackets if it is only advice"


@facts
class DigitsTooMany:
    """A number beyond all sense; an error, since whatever was meant it is not this.

    Attributes
    ----------
    digits : str
        As written.
    """

    code: ClassVar[Code] = Code("L116", "digits-too-many", Level.ERROR)
    digits: str

    def message(self) -> str:
        """Say the limit; how many there are in all may not be known."""
        return f"`{self.digits}` has more than {LONGEST_NUMBER} digits, and is not worked"

    def help(self) -> str:
        """Say where to look."""
        return "check the number"


@facts
class GroupNotDefined:
    """A named group of stitches that nothing defines."""

    code: ClassVar[Code] = Code("L115", "group-not-defined", Level.WARNING)
    name: str

    def message(self) -> str:
        """Say which group."""
        return f"nothing says of which stitches a `{self.name}` is made, so it is not counted"

    def help(self) -> str:
        """Say how to define it."""
        return f"add a line to the special stitches, such as `{self.name}: 5 dc in indicated st`"


@facts
class BracketsTooDeep:
    """Brackets within brackets beyond every use."""

    code: ClassVar[Code] = Code("L112", "brackets-too-deep", Level.ERROR)
    depth: int

    def message(self) -> str:
        """Say how deep they may be."""
        return f"brackets stand more than {self.depth} deep here, and were not read"

    def help(self) -> str:
        """Say what to do."""
        return "write the inner part as a row or a special stitch of its own"


@facts
class BracketNotClosed:
    """A bracket without its partner."""

    code: ClassVar[Code] = Code("L113", "bracket-not-closed", Level.ERROR)
    bracket: str

    def message(self) -> str:
        """Say which."""
        side = "closes" if self.bracket in "([{" else "opens"
        return f"nothing {side} the `{self.bracket}`"

    def help(self) -> str:
        """Say nothing: where the partner belongs is not known."""
        return ""


@facts
class RepeatMarkMissing:
    """A repeat from a mark that does not stand before it."""

    code: ClassVar[Code] = Code("L114", "repeat-mark-missing", Level.ERROR)
    mark: str

    def message(self) -> str:
        """Say which mark."""
        return f"it repeats from `{self.mark}`, but no `{self.mark}` stands before it"

    def help(self) -> str:
        """Say what to do."""
        return f"put a `{self.mark}` where the repeat begins"
