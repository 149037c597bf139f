"""Steps of an instruction: what is done, in the order of the words."""

from dataclasses import field
from typing import TypeAlias

from stitchproof.base.place import NOWHERE, Span
from stitchproof.base.records import dataclass
from stitchproof.language.number import ONE, Number
from stitchproof.language.stitch import STITCH, Noun, Stitch
from stitchproof.language.targets import Each, End, Next, Target, Until


@dataclass(frozen=True, slots=True)
class Times:
    """A number of times in all: "[…] 4 times", "*…; rep from * 3 more times" has 3 + 1.

    Attributes
    ----------
    number : Number
        The number written.
    more : bool
        The first working is not counted in it ("3 more times").
    """

    number: Number
    more: bool = False


@dataclass(frozen=True, slots=True)
class AsLong:
    """As often as whole repeats fit before `until`: "across", "around", "to last 4 sts"."""

    until: Until = field(default_factory=End)


Often: TypeAlias = Times | AsLong


@dataclass(frozen=True, slots=True)
class Counts:
    """What a chain stands for: "(counts as hdc and ch 1)", "(does not count as a st)".

    Attributes
    ----------
    stitch : str
        Stitch name it counts as; empty: it does not count; "st": as a stitch of the row's kind.
    chains : int
        Chains left over as a space ("counts as dc and ch 1": 1).
    throughout : bool
        It holds from here on ("here and throughout").
    """

    stitch: str
    chains: int = 0
    throughout: bool = False


@dataclass(frozen=True, slots=True)
class Make:
    """Make `each` stitches in every place of `at`.

    "Sc in next 3 sts" is Make(sc, 1, Next(3)); "3 dc in next st" is Make(dc, 3, Next(1)); "sc in
    each st across" is Make(sc, 1, Each()); "sc2tog" is Make(sc together 2, 1, Next(1)), the number
    of places being that of stitches made, each taking two. "Sc or hdc in each st" leaves the maker
    a `choice`: other stitches that serve as well; it is worked in the one named first.
    """

    stitch: Stitch
    each: Number = ONE
    at: Target = field(default_factory=Next)
    choice: tuple[Stitch, ...] = field(default=(), kw_only=True)
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Chain:
    """Chain `count`; what it is for (foundation, turning, space) the fabric knows.

    `counts` is the remark beside it, if any.
    """

    count: Number
    counts: Counts | None = None
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class MagicRing:
    """Make a ring to work into."""

    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Skip:
    """Leave places unworked and go on after them: "sk next 2 sts", "sk st behind FPtr"."""

    at: Target = field(default_factory=Next)
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Leave:
    """Leave the rest of the edge unworked, said by the author.

    `number` is how many places are left ("leave last 5 sts unworked"), None if not said; `noun` of
    what: "leave last 2 V-sts unworked".
    """

    number: Number | None = None
    noun: Noun = field(default=STITCH, kw_only=True)
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Group:
    """A sequence worked all in one place, for every place of `at`: "(2 dc, ch 2, 2 dc) in next sp".

    `name` is that of a special stitch it stands for ("shell"), else empty. Steps in `body` that
    make stitches have the target `Same`.
    """

    body: tuple["Step", ...]
    at: Target = field(default_factory=Next)
    name: str = ""
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class InPattern:
    """Work on as the stitches below stand: "work in patt to last 3 sts", "patt 12 (14, 16)"."""

    at: Next | Each = field(default_factory=Each)
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Repeat:
    """Do `body` as often as `often` says.

    Attributes
    ----------
    body : tuple of Step
        What is repeated.
    often : Often
        How often.
    mark : str
        `*`, `**`, `#` or a bracket, as written; decides nothing.
    cut : int or None
        Index into `body` where the last time stops ("ending last rep at **").
    """

    body: tuple["Step", ...]
    often: Often
    mark: str = ""
    cut: int | None = None
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Turn:
    """Turn the work; `do` False is "do not turn"."""

    do: bool = True
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Join:
    """Close the round; `do` False is "do not join".

    Attributes
    ----------
    at : Target or None
        Into what, where said ("in first sc", "in 2nd ch", "in top of beg ch-3").
    do : bool
        False for a spiral.
    ring : bool
        It closes a foundation chain into a ring.
    """

    at: Target | None = None
    do: bool = True
    ring: bool = False
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class FastenOff:
    """Fasten off; `do` False is "do not fasten off".

    `of` is the author's words for what is fastened off, and how: "the first leg", "leaving a tail".
    """

    do: bool = True
    of: str = ""
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class JoinYarn:
    """Begin again with the yarn in a named place: "join yarn in next unworked st".

    Attributes
    ----------
    at : Target or None
        Where; None if not said.
    facing : str
        "RS", "WS" or empty.
    of : str
        The author's words for the edge, where more is said than a stitch.
    """

    at: Target | None = None
    facing: str = ""
    of: str = ""
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Facing:
    """Which side faces the maker: "with RS facing"."""

    side: str
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Mark:
    """Place, move or remove a marker.

    Attributes
    ----------
    action : str
        "place", "move" or "remove"; "slip" and "between" where it hangs before the next stitch.
    at : Target or None
        Where; None: in the stitch made last.
    rows : Number or None
        For "mark both edges at the top of Row 42": the row.
    edges : int
        How many edges are marked at that row.
    """

    action: str
    at: Target | None = None
    name: str = ""
    rows: Number | None = None
    edges: int = 0
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Colour:
    """Work on with a colour, or a hook: "change to B", "with A", "with larger hook"."""

    name: str
    hook: bool = False
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class SeamTops:
    """Join the tops of two copies of a piece from each outer edge.

    "Whipstitch 20 (35) sts from each outer edge of the last row; the centre 55 (57) stay open."
    `count` is None where no number is said: "sl st shoulders together". `by` is the stitch that
    crochets them together ("sl_st", "sc"); empty: they are sewn.
    """

    count: Number | None
    open: Number | None = None
    name: str = "shoulder"
    by: str = field(default="", kw_only=True)
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class SeamSides:
    """Join row ends of two copies from the hem to the marker or over `rows` rows.

    `by` is the stitch that crochets them together; empty: they are sewn. `whole`: all along, and
    no marker is named ("sc side seams together through both layers").
    """

    rows: Number | None = None
    length: Number | None = None
    name: str = "side"
    by: str = field(default="", kw_only=True)
    whole: bool = field(default=False, kw_only=True)
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Shape:
    """Shape over several rows by a schedule, the fabric going on as it was.

    "Dec 1 st at each end of every 4th row 3 (3, 4) times, then every 2nd row twice" has two phases:
    (4, 3) and (2, 2). A schedule that follows another in a line begins when all before it are
    done, or beside the one before it: "AT THE SAME TIME dec 1 st at neck edge every row 6 times".

    Attributes
    ----------
    change : str
        "increased" or "decreased".
    stitches : Number
        Stitches at each end of one shaping row.
    phases : tuple of (Number, Number or None)
        Every so many rows, so many times; (1, n): on each of n rows; None, last: as often as it
        takes to come to `until`, or as the rows of the label allow.
    until : Number or None
        "until 40 (42) sts remain": the count at the end.
    at : str
        The author's words for the end, where it is one ("neck edge"), or both have a name
        ("armhole edge").
    ends : int
        At how many ends of a row: 1 or 2.
    beside : bool
        It begins on the same row as the schedule before it.
    way : str
        How stitches go where the words say it: "slip" (slipped across), "leave" (left unworked).
    """

    change: str
    stitches: Number
    phases: tuple[tuple[Number, Number | None], ...]
    until: Number | None = None
    at: str = ""
    ends: int = 1
    beside: bool = False
    way: str = ""
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Remark:
    """Words that change nothing that is counted: advice, pointers, "being careful not to twist"."""

    words: str
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Unread:
    """Words that could not be read; later layers keep quiet about whatever touches them."""

    words: str
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Either:
    """Words that can be read in several ways; the fabric takes one.

    `readings` are at most 8, the likeliest first; `why` names the doubt in a clause
    ("`4 times` may be the total or 4 more").
    """

    readings: tuple[tuple["Step", ...], ...]
    why: str
    names: tuple[str, ...] = ()  # a clause for each reading ("4 in all", "4 more")
    place: Span = field(default=NOWHERE, compare=False, repr=False)


Step: TypeAlias = (
    Make
    | Chain
    | MagicRing
    | Skip
    | Leave
    | Group
    | InPattern
    | Repeat
    | Turn
    | Join
    | FastenOff
    | JoinYarn
    | Facing
    | Mark
    | Colour
    | SeamTops
    | SeamSides
    | Shape
    | Remark
    | Unread
    | Either
)
Steps: TypeAlias = tuple[Step, ...]


def makes_stitches(steps: Steps) -> bool:
    """Whether steps make stitches or chains, or hold words that may."""
    made = (Make, Chain, Group, InPattern, Repeat, Either, Shape)
    return any(isinstance(s, made) for s in steps)
