"""Desks in memory."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from stitchproof.fabric.memory import Memory
from stitchproof.language.read.kept import KeptLines
from stitchproof.pipeline.desk import Unusable


@dataclass
class Paper:
    """A Desk with one manuscript on it, and files beside it."""

    text: str | bytes
    beside: Mapping[str, str] = field(default_factory=dict)
    memory: Memory = field(default_factory=Memory)
    lines: KeptLines = field(default_factory=KeptLines)

    def read(self, name: str) -> bytes:
        if name in self.beside:
            return self.beside[name].encode()
        if name.endswith(".csv"):
            msg = f"{name}: no such file"
            raise Unusable(msg)
        return self.text.encode() if isinstance(self.text, str) else self.text
