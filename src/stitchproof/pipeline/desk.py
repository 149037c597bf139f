"""What reaches outside, as the pipeline sees it."""

from typing import Protocol

from stitchproof.fabric.memory import Memory
from stitchproof.language.read.kept import KeptLines


class Unusable(Exception):  # noqa: N818 - said to the author in one line
    """Raised when a file cannot be used at all; the message is one line for the author."""


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
        With the line and the column, in characters, of the first wrong byte.
    """
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as wrong:
        before = raw[: wrong.start].decode("utf-8")
        line = before.replace("\r\n", "\n").replace("\r", "\n")
        row, column = line.count("\n") + 1, len(line) - line.rfind("\n")
        msg = (
            f"{name} is not UTF-8 text: line {row}, column {column} holds the byte "
            f"0x{raw[wrong.start]:02X}; save it as UTF-8 and try again"
        )
        raise Unusable(msg) from None
