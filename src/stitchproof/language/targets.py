"""Places that instructions name, and where a run of stitches ends."""

from dataclasses import field
from enum import Enum
from typing import TypeAlias

from stitchproof.base.records import dataclass
from stitchproof.language.number import NONE, ONE, Number
from stitchproof.language.stitch import CHAIN, STITCH, Noun


@dataclass(frozen=True, slots=True)
class End:
    """To the end of the edge: "across", "around", "to end"."""


@dataclass(frozen=True, slots=True)
class ToLast:
    """To the last n places: "to last 3 sts", "to last ch-2 sp"."""

    number: Number = ONE
    noun: Noun = STITCH


@dataclass(frozen=True, slots=True)
class To:
    """To the next place of a kind, which stays unworked: "to next ch-2 sp", "to corner".

    `before` stitches before it stay unworked too: "to 1 st before next ch-2 sp"; `nth` is which of
    them from here: "to 3rd ch-1 sp".
    """

    noun: Noun
    before: Number = NONE
    nth: Number = ONE


@dataclass(frozen=True, slots=True)
class ToMarked:
    """To the marked stitch, or to `before` stitches before it: "to 2 sts before marker"."""

    name: str = ""
    before: Number = NONE


Until: TypeAlias = End | ToLast | To | ToMarked


class Origin(Enum):
    """From where an ordinal counts."""

    HOOK = "from hook"
    HERE = "next"  # "in next 4th st": the fourth from here
    EDGE = "of the edge"
    TURNING_CHAIN = "of the turning chain"  # "in 2nd ch" of a beginning ch-3

    __hash__ = object.__hash__  # there is one object of each; that of `Enum` takes a call


@dataclass(frozen=True, slots=True)
class Next:
    """The next `number` places, one after another: "in next 3 sts", "sc 12"."""

    number: Number = ONE
    noun: Noun = STITCH


@dataclass(frozen=True, slots=True)
class Each:
    """Every place from here on: "in each st across", "to last 3 sts", "around".

    Attributes
    ----------
    noun : Noun
        What is worked into.
    until : Until
        Where it ends.
    apart : Number
        Only every so many of them, from the first on: "in every other st" (2).
    """

    noun: Noun = STITCH
    until: Until = field(default_factory=End)
    apart: Number = ONE


@dataclass(frozen=True, slots=True)
class Same:
    """The place worked last, or that of the join: "in same st", "in same sp as joining".

    `first`: the words say that it is the one the row began in ("as beg ch-3"). `begins`: stitches
    are drawn together from there on: "sc2tog beginning in same st" takes it and the one behind it.
    """

    noun: Noun = STITCH
    first: bool = field(default=False, compare=False)
    begins: bool = False


@dataclass(frozen=True, slots=True)
class First:
    """The first place of the edge, or the nth of it: "in first st", "in first 2 sts"."""

    number: Number = ONE
    noun: Noun = STITCH


@dataclass(frozen=True, slots=True)
class Last:
    """The last place of the edge, or the last n: "in last st", "in last 3 sts"."""

    number: Number = ONE
    noun: Noun = STITCH


@dataclass(frozen=True, slots=True)
class Nth:
    """A place by ordinal: "in 4th ch from hook", "in the 6th and 12th st", "in 2nd ch".

    Attributes
    ----------
    ordinals : tuple of Number
        Which ones, from 1.
    noun : Noun
        Of what.
    origin : Origin
        From where they are counted.
    """

    ordinals: tuple[Number, ...]
    noun: Noun = CHAIN
    origin: Origin = Origin.HOOK


@dataclass(frozen=True, slots=True)
class Ring:
    """Into the centre ring (magic ring, or a ring of chains).

    `magic`: the author calls it a magic ring here, where it may not be told that one is made.
    """

    magic: bool = field(default=False, compare=False)


@dataclass(frozen=True, slots=True)
class Below:
    """Around or into a stitch `rows` rows below a place: "around dc 2 rows below next st".

    One row below is the stitch on the edge itself.
    """

    rows: Number
    at: Next | Each | Same | First | Last
    noun: Noun = STITCH  # what must stand there ("dc")


@dataclass(frozen=True, slots=True)
class Between:
    """Between stitches, into the gap: "between next 2 sts"; before a next one, "before next dc"."""

    at: Next | First | Last | Each


@dataclass(frozen=True, slots=True)
class Marked:
    """The marked stitch."""

    name: str = ""


@dataclass(frozen=True, slots=True)
class Behind:
    """The stitch or stitches that a post or long stitch covers: "sk st behind FPtr"."""

    number: Number = ONE


@dataclass(frozen=True, slots=True)
class Skipped:
    """The stitches skipped last, worked after those behind them: "in skipped st".

    "Around each of 3 skipped sts" takes the first `number` of the nearest stretch left unworked,
    "in 2nd skipped st" the one that stands there as the `nth`; `row` is the row that they are of
    ("in next skipped sc of Rnd 1").
    """

    number: Number = ONE
    noun: Noun = STITCH
    nth: Number = ONE
    row: Number | None = None


@dataclass(frozen=True, slots=True)
class Within:
    """A stitch or space of a group: "in 3rd dc of next shell", "in center of last fan".

    Attributes
    ----------
    ordinal : Number or None
        Which of them, from 1; None: the one in the middle.
    noun : Noun
        Of what: "dc", "st", "ch-2 sp".
    of : Next, First, Last, Each, Same or Nth
        The groups; their noun is the name, or that of groups without one.
    """

    ordinal: Number | None
    noun: Noun
    of: Next | First | Last | Each | Same | Nth


@dataclass(frozen=True, slots=True)
class On:
    """Places on another edge that is named: "in next sl st of Rnd 2", "in 8 sts of first leg".

    Attributes
    ----------
    at : Next, Each, Same, First or Last
        The places.
    row : Number or None
        The row of this piece that they are of.
    piece : str
        Else the author's words for the other piece.
    """

    at: Next | Each | Same | First | Last
    row: Number | None = None
    piece: str = ""


@dataclass(frozen=True, slots=True)
class SeamPlace:
    """A seam: "in seam", "at a shoulder seam", "in other seam"; `which` in the author's word."""

    which: str = ""  # "", "shoulder", "side", "other"


@dataclass(frozen=True, slots=True)
class RowEnds:
    """Along row ends: "2 sc in each dc row end and 1 sc in each sc row end", "sc evenly".

    Attributes
    ----------
    rates : tuple of (Noun, Number)
        How many in each row end of a row of that stitch; an ANY noun (STITCH) for all rows.
    edges : int
        How many edges one after another ("up one edge and down the other": 2).
    stated : Number or None
        What the author says one edge makes ("36 (48) sc per edge").
    over : Number
        Rows that a rate is for: "3 sc for every 2 rows" (2).
    """

    rates: tuple[tuple[Noun, Number], ...]
    edges: int = 1
    stated: Number | None = None
    over: Number = ONE


@dataclass(frozen=True, slots=True)
class Evenly:
    """A target count with free spacing: "sc 42 (46) evenly along lower edge".

    Attributes
    ----------
    count : Number or None
        How many stitches; None if the author gives none.
    along : str
        The author's words for where.
    change : str
        "increased" or "decreased": `count` is how many more or fewer than there are ("increasing 6
        sts evenly"); "in all": with what the row has made before; empty: it is the target itself.
    parts : tuple of (Number, str)
        How a count is made up: (24, "up right front"), (18, "across back neck") ...
    """

    count: Number | None
    along: str = ""
    change: str = ""
    parts: tuple[tuple[Number, str], ...] = ()


@dataclass(frozen=True, slots=True)
class OppositeSide:
    """The other side of the foundation chain, from here: "along opposite side of ch"."""

    at: Next | Each


Target: TypeAlias = (
    Next
    | Each
    | Same
    | First
    | Last
    | Nth
    | Ring
    | Below
    | Between
    | Marked
    | Behind
    | Skipped
    | Within
    | On
    | SeamPlace
    | RowEnds
    | Evenly
    | OppositeSide
)
