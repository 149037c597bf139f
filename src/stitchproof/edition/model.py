"""The format-neutral edition: what a maker gets, before it is a page, a sheet or plain text.

Everything in it is finished words; the writers decide how they look and nothing else. Nothing here
is markup: what an author typed is shown as typed.
"""

from enum import Enum
from typing import Final, TypeAlias

from stitchproof.base.records import dataclass, replace

SIZE: Final = "Size"  # head of the first column of a table that has a row for each size


class Ink(Enum):
    """What a run of words is."""

    PLAIN = "plain"
    NUMBER = "number"  # one number a size
    LABEL = "label"  # "Row 3 (WS):"


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of words of one kind."""

    words: str
    ink: Ink = Ink.PLAIN


Words: TypeAlias = tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading below that of its part; `level` from 3, never more than one deeper than before."""

    level: int
    words: Words


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph."""

    words: Words


@dataclass(frozen=True, slots=True)
class Quote:
    """A paragraph set apart."""

    words: Words


@dataclass(frozen=True, slots=True)
class Items:
    """A list whose order matters only when `numbered`."""

    items: tuple[Words, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True)
class Facts:
    """Names with what there is to say about each: hooks, abbreviations."""

    facts: tuple[tuple[str, Words], ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One instruction line.

    Attributes
    ----------
    words : Words
        The author's words, every number filled in; the label in its own ink.
    count : str
        What it comes to where the author does not say it; empty else.
    worked : bool
        False for a line that this size does not work; `words` say so then.
    """

    words: Words
    count: str = ""
    worked: bool = True


@dataclass(frozen=True, slots=True)
class Table:
    """A table; the first cell of each row names it.

    Attributes
    ----------
    caption : str
        What the table tells.
    head : tuple of str
        Names of the columns.
    rows : tuple of tuple of str
        Each as long as the head.
    """

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing with all it tells in words.

    Attributes
    ----------
    caption : str
        Its name.
    svg : str
        The drawing, from its `<svg` on.
    alt : str
        In place of the picture.
    table : Table or None
        The figures in it.
    letters : tuple of str
        What each column of the table is called in the drawing, the first column left out; empty
        where the drawing has no letters.
    told : bool
        The drawing itself says every figure of the table: only where no drawing is shown the table
        is.
    """

    caption: str
    svg: str
    alt: str
    table: Table | None = None
    letters: tuple[str, ...] = ()
    told: bool = False

    def lettered(self) -> Table | None:
        """Give the table that stands below the drawing, with the letters of the drawing."""
        if self.table is None or self.told:
            return None
        first, *names = self.table.head
        letters = (*self.letters, *("",) * (len(names) - len(self.letters)))
        head = (
            f"{letter}: {name}" if letter else name
            for letter, name in zip(letters, names, strict=True)
        )
        return replace(self.table, head=(first, *head))


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution for the one who makes or wears it."""

    words: Words


@dataclass(frozen=True, slots=True)
class Verbatim:
    """Lines whose breaks and spaces are kept."""

    text: str


Block: TypeAlias = (
    Heading | Paragraph | Quote | Items | Facts | Row | Table | Figure | Caution | Verbatim
)


@dataclass(frozen=True, slots=True)
class Part:
    """A heading and what stands under it; without a title: what opens the edition."""

    title: Words
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """A pattern as it is published.

    Attributes
    ----------
    title : str
        Title of the design.
    language : str
        Language tag of the words.
    designer, version, date : str
        As the author gives them; empty where not said.
    size : str
        The one size of a one-size copy; empty for all sizes.
    draft : bool
        Not proved: every page says so.
    notice : str
        What a draft says on every page; empty else.
    facts : tuple of (str, Words)
        Designer, contact, version, date, level, terms.
    parts : tuple of Part
        In reading order.
    """

    title: str
    language: str
    designer: str
    version: str
    date: str
    size: str
    draft: bool
    notice: str
    facts: tuple[tuple[str, Words], ...]
    parts: tuple[Part, ...]


def plain(words: str, ink: Ink = Ink.PLAIN) -> Words:
    """Make one run of words; nothing where there are none."""
    return (Run(words, ink),) if words else ()


def read_out(words: Words) -> str:
    """Give the bare characters of some words."""
    return "".join(run.words for run in words)


def said(block: Block) -> str:
    """Give all the words of a block, drawings by what stands in their place."""
    match block:
        case Heading(_, words) | Paragraph(words) | Quote(words) | Caution(words):
            return read_out(words)
        case Items(items):
            return "\n".join(map(read_out, items))
        case Facts(facts):
            return "\n".join(f"{name} {read_out(words)}" for name, words in facts)
        case Row(words, count):
            return f"{read_out(words)} {count}"
        case Table(caption, head, rows):
            return "\n".join((caption, *map(" ".join, (head, *rows))))
        case Figure(caption, _, alt):
            return f"{caption}\n{alt}"
        case Verbatim(text):
            return text
