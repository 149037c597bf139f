"""What reaches outside, as the pipeline sees it."""

from typing import Protocol

from stitchproof.base.diagnostics import Diagnostic, Finding
from stitchproof.base.place import NOWHERE, Span
from stitchproof.fabric.memory import Memory
from stitchproof.language.read.kept import KeptLines
from stitchproof.language.read.reading_findings import FileNotRead, NotUtf8


class Unusable(Exception):  # noqa: N818 - said to the author in one line
    """Raised when a file cannot be used at all; the message is one line for the author.

    Attributes
    ----------
    found : Diagnostic
        The same as a finding; its place is one of `text`.
    text : str
        What could be read of the file; empty when nothing could.
    """

    def __init__(
        self,
        words: str,
        finding: Finding | None = None,
        place: Span = NOWHERE,
        text: str = "",
    ) -> None:
        super().__init__(words)
        self.found = Diagnostic(finding=finding or FileNotRead(words), place=place)
        self.text = text


class Desk(Protocol):
    """Everything outside: files, and what was read and worked before. Tests pass one in memory."""

    memory: Memory
    lines: KeptLines

    def read(self, name: str) -> bytes:
        """Give the bytes of a file.

        Raises
        ------
        Unusable
            When there is no such file or it cannot be read.
        """
        ...


def decoded(raw: bytes, name: str) -> str:
    """Read UTF-8, and say where it is not.

    Raises
    ------
    Unusable
        With the line and the column, in characters, of the first wrong byte; the finding stands
        at that byte.
    """
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as wrong:
        before = raw[: wrong.start].decode("utf-8")
        line = before.replace("\r\n", "\n").replace("\r", "\n")
        row, column = line.count("\n") + 1, len(line) - line.rfind("\n")
        finding = NotUtf8(raw[wrong.start])
        msg = (
            f"{name} is not UTF-8 text: line {row}, column {column} holds the byte "
            f"0x{finding.byte:02X}; {finding.help()}"
        )
        # a wrong byte reads as one character, so that places after it can be told
        text = raw.decode("utf-8", "replace")
        place = Span(name, len(before), len(before) + 1)
        raise Unusable(msg, finding, place, text) from None
