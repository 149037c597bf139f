"""Where things stand in a manuscript."""

import re
from bisect import bisect_right
from typing import Final

from stitchproof.base.records import dataclass

_LINE_END: Final = re.compile(r"\r\n|\n|\r")


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of one source text.

    Attributes
    ----------
    source : str
        Name of the text, as the Desk knows it.
    start, end : int
        Code-point offsets into the whole text, end excluded. Places inside an instruction line
        are told from where the line begins: the line reads the same wherever it stands.
    """

    source: str
    start: int
    end: int

    def shifted(self, by: int) -> "Span":
        """Give the same stretch `by` code points further on; no place stays no place."""
        return self if self == NOWHERE else Span(self.source, self.start + by, self.end + by)

    def to(self, other: "Span") -> "Span":
        """Give the stretch from the start of this one to the end of `other`."""
        return Span(self.source, self.start, other.end)


NOWHERE: Final = Span("", 0, 0)


@dataclass(frozen=True, slots=True)
class Lines:
    """Line starts of one text; lines end at LF, CRLF or CR and at nothing else.

    Attributes
    ----------
    starts : tuple of int
        Offset of the first code point of each line.
    """

    starts: tuple[int, ...]

    @classmethod
    def of(cls, text: str) -> "Lines":
        """Find the lines of a text."""
        return cls((0, *(m.end() for m in _LINE_END.finditer(text))))

    def line_column(self, offset: int) -> tuple[int, int]:
        """Give the line and the column of an offset, both from 1, in code points."""
        line = bisect_right(self.starts, offset)
        return line, offset - self.starts[line - 1] + 1
