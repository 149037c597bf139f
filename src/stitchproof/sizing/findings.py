"""What sizing finds in the keys of the front matter, the sizes and the body."""

from fractions import Fraction
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Level, listed
from stitchproof.base.facts import facts
from stitchproof.language.write.numbers import length_words

_MANY = 30  # names; more help nobody


def _named(names: tuple[str, ...], last: str = "and") -> str:
    shown = tuple(f"`{name}`" for name in names[:_MANY])
    return listed((*shown, "others") if len(names) > _MANY else shown, last)


@facts
class WrongType:
    """A value is not of the kind its key needs."""

    code: ClassVar[Code] = Code("S201", "wrong-type", Level.ERROR)
    key: str
    wanted: str  # "a number", "a length like `10 cm`"
    words: str  # as written

    def message(self) -> str:
        """Say what it is and what it should be."""
        return f"`{self.key}` needs {self.wanted}, not `{self.words}`"

    def help(self) -> str:
        """Nothing more than the message."""
        return ""


@facts
class UnknownKey:
    """A key of the front matter that nothing reads."""

    code: ClassVar[Code] = Code("S202", "unknown-key", Level.WARNING)
    key: str
    table: str  # "[sizes]", "the front matter"
    nearest: str

    def message(self) -> str:
        """Say which."""
        return f"`{self.key}` means nothing in {self.table}"

    def help(self) -> str:
        """Offer the nearest known key."""
        return f"write `{self.nearest}` if that is what is meant" if self.nearest else ""


@facts
class UnknownEntry:
    """Something is named that the front matter does not hold."""

    code: ClassVar[Code] = Code("S203", "unknown-entry", Level.ERROR)
    kind: str  # "swatch", "hook", "size", "body table"
    name: str
    known: tuple[str, ...]

    def message(self) -> str:
        """Say which, and what there is."""
        there = f"there is {_named(self.known)}" if self.known else "there is none"
        return f"no {self.kind} is called `{self.name}`; {there}"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class SizeNotThere:
    """Sizes are asked for that the manuscript does not have; or none."""

    code: ClassVar[Code] = Code("S226", "size-not-there", Level.ERROR)
    asked: tuple[str, ...]
    known: tuple[str, ...]

    def message(self) -> str:
        """Say which, and which there are."""
        there = f"{'the sizes are' if len(self.known) > 1 else 'there is'} {_named(self.known)}"
        if not self.asked:
            return f"no size is asked for; {there}"
        return f"no size is called {_named(self.asked, 'or')}; {there}"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class UnknownBodyTable:
    """The body table named is not one of those published here."""

    code: ClassVar[Code] = Code("S204", "unknown-body-table", Level.ERROR)
    name: str
    known: tuple[str, ...]

    def message(self) -> str:
        """Say which, and which there are."""
        return f"no body table is called `{self.name}`; there are {_named(self.known)}"

    def help(self) -> str:
        """Point at a table of one's own."""
        return "name one of these, or give your own figures under [body]"


@facts
class BodyTableUnreadable:
    """A table of one's own could not be read."""

    code: ClassVar[Code] = Code("S205", "body-table-unreadable", Level.ERROR)
    name: str
    why: str

    def message(self) -> str:
        """Say what is wrong with it."""
        return f"the body table `{self.name}` cannot be read: {self.why}"

    def help(self) -> str:
        """Say what it looks like."""
        return "put the size names in the first row, then a point a row: `chest, 86 cm, 94 cm`"


@facts
class SizeListLength:
    """A list has not one value a size."""

    code: ClassVar[Code] = Code("S206", "size-list-length", Level.ERROR)
    words: str
    has: int
    sizes: int

    def message(self) -> str:
        """Give both numbers."""
        values = "1 value" if self.has == 1 else f"{self.has} values"
        sizes = "1 size" if self.sizes == 1 else f"{self.sizes} sizes"
        return f"`{self.words}` has {values} for {sizes}"

    def help(self) -> str:
        """Say how to leave a size out."""
        return "give one value a size, `-` where a size has none"


@facts
class SizesAssumed:
    """Nobody names the sizes."""

    code: ClassVar[Code] = Code("S207", "sizes-assumed", Level.NOTE)
    names: tuple[str, ...]

    def message(self) -> str:
        """Say how they were named."""
        return (
            f"no sizes are named; the lists hold {len(self.names)}, taken as {listed(self.names)}"
        )

    def help(self) -> str:
        """Say where to name them."""
        return 'name them: [sizes] make = ["S", "M", "L"]'


@facts
class GroupsDoNotAddUp:
    """The groups hold more or fewer sizes than there are."""

    code: ClassVar[Code] = Code("S208", "groups-do-not-add-up", Level.ERROR)
    total: int
    sizes: int

    def message(self) -> str:
        """Give both numbers."""
        return f"`groups` holds {self.total} sizes, the design has {self.sizes}"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class PointAssumed:
    """Bodies are published as ranges, and nobody says where in them the design stands."""

    code: ClassVar[Code] = Code("S209", "point-assumed", Level.NOTE)
    points: tuple[str, ...]

    def message(self) -> str:
        """Say where they were taken."""
        return f"{_named(self.points)} of the body: taken at the middle of each published range"

    def help(self) -> str:
        """Say how to choose."""
        return 'write point = "low", "middle" or "high" under [sizes]'


@facts
class BodyJoined:
    """A body measure comes from another table than the rest."""

    code: ClassVar[Code] = Code("S210", "body-joined", Level.NOTE)
    point: str
    table: str
    lengths_mm: tuple[Fraction | None, ...]  # (W,) what is taken [mm]

    def message(self) -> str:
        """Say which, from where, and what it is."""
        taken = length_words(self.lengths_mm)
        return f"`body.{self.point}` is not in the body table: {taken}, taken from {self.table}"

    def help(self) -> str:
        """Say how to choose."""
        return f"give your own under [body] {self.point} if this one does not suit"


@facts
class NameNotUsable:
    """A measure or count is called something no formula can name."""

    code: ClassVar[Code] = Code("S211", "name-not-usable", Level.ERROR)
    name: str
    why: str

    def message(self) -> str:
        """Say why."""
        return f"no formula can name `{self.name}`: {self.why}"

    def help(self) -> str:
        """Say what a name is."""
        return "use letters, digits and underscores, a letter first"


@facts
class PieceWithoutHeading:
    """A swatch is given for a piece that no heading names."""

    code: ClassVar[Code] = Code("S225", "piece-without-heading", Level.WARNING)
    name: str
    nearest: str

    def message(self) -> str:
        """Say which."""
        return f"no heading is called `{self.name}`"

    def help(self) -> str:
        """Offer the nearest heading."""
        return f"write `{self.nearest}` if that is what is meant" if self.nearest else ""
