"""A manuscript as it was read: text, front matter, blocks, sections, conventions.

`Manuscript` is what the reader gives to everybody below it. Blocks keep the order of the document
for the editions; sections hold the instruction lines for the fabric.
"""

from collections.abc import Mapping
from dataclasses import field
from enum import Enum

from stitchproof.base.place import NOWHERE, Span
from stitchproof.base.records import dataclass
from stitchproof.language.number import Number
from stitchproof.language.tree import Rule, Section, Special
from stitchproof.trade.tables import Terms


class BlockKind(Enum):
    """What a block of the document is."""

    HEADING = "heading"
    INSTRUCTION = "instruction"
    PROSE = "prose"  # a paragraph
    LIST = "list"  # lines that begin with a bullet or number, outside pieces
    QUOTE = "quote"
    TABLE = "table"
    CODE = "code"
    PICTURE = "picture"
    RULE = "rule"  # a thematic break
    HTML = "html"  # printed as plain text, never as markup

    __hash__ = object.__hash__  # there is one object of each; that of `Enum` takes a call


@dataclass(frozen=True, slots=True)
class Block:
    """A block of the body, in document order.

    Attributes
    ----------
    kind : BlockKind
        What it is.
    place : Span
        Its text, without heading marks or bullets of its own; lines may be wrapped.
    level : int
        Of a heading; 0 else.
    course : (int, int) or None
        For an instruction: index of the section and of the course in it.
    """

    kind: BlockKind
    place: Span
    level: int = 0
    course: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class FrontMatter:
    """The TOML between the `+++` lines.

    Attributes
    ----------
    table : mapping
        Values as `tomllib` gives them, numbers as Decimal.
    places : mapping of key path to Span
        Where each key's value stands; key paths are tuples of str (and of int in arrays). The
        place of a key itself is under the path followed by "" .
    place : Span
        The whole front matter without the `+++` lines.
    """

    table: Mapping[str, object]
    places: Mapping[tuple[str | int, ...], Span] = field(repr=False)
    place: Span = NOWHERE

    def at(self, *path: str | int) -> Span:
        """Give the place of a value, or of the nearest table around it."""
        for end in range(len(path), 0, -1):
            if path[:end] in self.places:
                return self.places[path[:end]]
        return self.place


@dataclass(frozen=True, slots=True, kw_only=True)
class Manuscript:
    """A manuscript, read.

    Attributes
    ----------
    source, text : str
        Its name on the Desk, and the whole text.
    front : FrontMatter or None
        None when the file has none.
    terms : "US" or "UK"
        Whose stitch names the body uses.
    blocks : tuple of Block
        The document in order.
    sections : tuple of Section
        Headings that hold courses.
    rules : tuple of Rule
        Conventions stated before the first section, or in the notes.
    specials : tuple of Special
        Stitches the author defined.
    numbers : tuple of Number
        Every number token that is a formula or a list of sizes, in the text's order, in
        instructions and in narrative.
    sizes_line : tuple of str
        Size names from the text's own line ("Sizes: S (M, L)"), where there is one.
    words : tuple of (str, Span)
        Abbreviations used in instructions, lower case, each with the place of its first use.
    """

    source: str
    text: str
    front: FrontMatter | None
    terms: Terms
    blocks: tuple[Block, ...]
    sections: tuple[Section, ...]
    rules: tuple[Rule, ...] = ()
    specials: tuple[Special, ...] = ()
    numbers: tuple[Number, ...] = ()
    sizes_line: tuple[str, ...] = ()
    words: tuple[tuple[str, Span], ...] = ()
