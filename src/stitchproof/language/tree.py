"""Meaning of instruction lines: no words, no layout.

The tree says what the author's words mean, in US stitches, before anything is worked. Words that
could mean two things are an `Either`; the fabric settles it. Spans are those of the words, and do
not take part in equality. A place ("in next st") is a `Target`; what is named in it is a `Noun`.
"""

from dataclasses import dataclass, field
from enum import Enum
from typing import TypeAlias

from stitchproof.base.place import NOWHERE, Span
from stitchproof.language.number import ONE, Number


class Loop(Enum):
    """Which loops of the stitch below the hook takes."""

    BOTH = "both"
    BACK = "back"
    FRONT = "front"
    THIRD = "third"


class Post(Enum):
    """Around which side of a post the hook goes."""

    NONE = "none"
    FRONT = "front"
    BACK = "back"


@dataclass(frozen=True, slots=True)
class Stitch:
    """A stitch as it is made.

    Attributes
    ----------
    kind : str
        Key of `trade.stitches` ("sc", "hdc", "dc", "tr", "sl_st" ...), or the name of a stitch the
        author defined, lower case.
    loop : Loop
        Loops taken.
    post : Post
        Post side, for FPdc and BPdc; `kind` stays the plain stitch.
    together : int
        How many stitches below are drawn together into one (dc2tog: 2); 1 for a plain stitch.
    """

    kind: str
    loop: Loop = Loop.BOTH
    post: Post = Post.NONE
    together: int = 1

    @property
    def name(self) -> str:
        """Name on the edge and in tallies: `dc`, `fpdc`, `dc2tog`; loops make no other stitch."""
        post = {Post.NONE: "", Post.FRONT: "fp", Post.BACK: "bp"}[self.post]
        return f"{post}{self.kind}{f'{self.together}tog' if self.together > 1 else ''}"


class Thing(Enum):
    """What kind of place a noun names."""

    STITCH = "st"  # any stitch: "st"
    KIND = "kind"  # stitches of one kind: "dc", "FPtr"; `kind` says which
    CHAIN = "ch"  # single chains: "each ch"
    STITCH_OR_CHAIN = "st or ch"  # "each st and ch"
    SPACE = "sp"  # any space: "next sp", "next lp"
    CHAIN_SPACE = "ch-sp"  # "ch-2 sp", `chains` says how many; None: "ch-sp"
    GROUP = "group"  # a named group of the author's: "shell", "V-st"; `kind` says which
    RING = "ring"  # the centre ring, or a space used as one
    TURNING_CHAIN = "tch"  # "top of turning ch", "top of beg ch-3"
    ROW_END = "row end"
    SEAM = "seam"
    MARKED = "marked st"


@dataclass(frozen=True, slots=True)
class Noun:
    """The things a place is counted in.

    Attributes
    ----------
    thing : Thing
        What it is.
    kind : str
        Stitch name for KIND ("dc", "fptr"), group name for GROUP ("shell"), else empty.
    chains : int or None
        Number of chains of a CHAIN_SPACE, where said.
    """

    thing: Thing
    kind: str = ""
    chains: int | None = None


STITCH = Noun(Thing.STITCH)
CHAIN = Noun(Thing.CHAIN)
SPACE = Noun(Thing.SPACE)


# --------------------------------------------------------------------------- targets


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
    """

    noun: Noun = STITCH
    until: "Until" = field(default_factory=lambda: End())


@dataclass(frozen=True, slots=True)
class Same:
    """The place worked last, or that of the join: "in same st", "in same sp as joining"."""

    noun: Noun = STITCH


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
    origin: "Origin" = field(default_factory=lambda: Origin.HOOK)


class Origin(Enum):
    """From where an ordinal counts."""

    HOOK = "from hook"
    HERE = "next"  # "in next 4th st": the fourth from here
    EDGE = "of the edge"
    TURNING_CHAIN = "of the turning chain"  # "in 2nd ch" of a beginning ch-3


@dataclass(frozen=True, slots=True)
class Ring:
    """Into the centre ring (magic ring, or a ring of chains)."""


@dataclass(frozen=True, slots=True)
class Below:
    """Around or into a stitch `rows` rows below a place: "around dc 2 rows below next st".

    One row below is the stitch on the edge itself.
    """

    rows: Number
    at: "Next | Each | Same | First | Last"
    noun: Noun = STITCH  # what must stand there ("dc")


@dataclass(frozen=True, slots=True)
class Between:
    """Between stitches, into the gap: "between next 2 sts"."""

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
    """

    rates: tuple[tuple[Noun, Number], ...]
    edges: int = 1
    stated: Number | None = None


@dataclass(frozen=True, slots=True)
class Evenly:
    """A target count with free spacing: "sc 42 (46) evenly along lower edge".

    Attributes
    ----------
    count : Number or None
        How many stitches; None if the author gives none.
    along : str
        The author's words for where.
    """

    count: Number | None
    along: str = ""


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
    | SeamPlace
    | RowEnds
    | Evenly
    | OppositeSide
)


# --------------------------------------------------------------------------- where a thing ends


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
    """To the next place of a kind, which stays unworked: "to next ch-2 sp", "to corner"."""

    noun: Noun


@dataclass(frozen=True, slots=True)
class ToMarked:
    """To the marked stitch."""

    name: str = ""


Until: TypeAlias = End | ToLast | To | ToMarked


# --------------------------------------------------------------------------- how often


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


# --------------------------------------------------------------------------- counting


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


# --------------------------------------------------------------------------- steps


@dataclass(frozen=True, slots=True)
class Make:
    """Make `each` stitches in every place of `at`.

    "Sc in next 3 sts" is Make(sc, 1, Next(3)); "3 dc in next st" is Make(dc, 3, Next(1)); "sc in
    each st across" is Make(sc, 1, Each()); "sc2tog" is Make(sc together 2, 1, Next(1)), the number
    of places being that of stitches made, each taking two.
    """

    stitch: Stitch
    each: Number = ONE
    at: Target = field(default_factory=Next)
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

    `number` is how many places are left ("leave last 5 sts unworked"), None if not said.
    """

    number: Number | None = None
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
    """Fasten off; `do` False is "do not fasten off"."""

    do: bool = True
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
        "place", "move" or "remove".
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
    """Sew the tops of two copies of a piece together from each outer edge.

    "Whipstitch 20 (35) sts from each outer edge of the last row; the centre 55 (57) stay open."
    """

    count: Number
    open: Number | None = None
    name: str = "shoulder"
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class SeamSides:
    """Sew row ends of two copies together from the hem to the marker or over `rows` rows."""

    rows: Number | None = None
    length: Number | None = None
    name: str = "side"
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
    | Remark
    | Unread
    | Either
)
Steps: TypeAlias = tuple[Step, ...]


# --------------------------------------------------------------------------- courses


@dataclass(frozen=True, slots=True)
class Label:
    """What stands before an instruction.

    Attributes
    ----------
    words : str
        The author's text without its closing colon, stop or dash; for a line without a label, its
        first words.
    first, last : Number or None
        Numbers of the rows it covers; both the same for one row; None for "Next row" and for lines
        without a label.
    listed : tuple of Number
        Rows named one by one ("Rows 3, 5 and 7"), else empty.
    span : Number or None
        How many rows from here ("Next 8 (8, 10) rows"); 1 for "Next row".
    round : bool
        "Rnd" rather than "Row".
    side : str
        "RS", "WS" or empty.
    """

    words: str
    first: Number | None = None
    last: Number | None = None
    listed: tuple[Number, ...] = ()
    span: Number | None = None
    round: bool = False
    side: str = ""
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Statement:
    """One stated count: "95 (127) sts", "40 dc", "4 ch-2 sps", "2 sts increased".

    Attributes
    ----------
    number : Number
        How many.
    noun : Noun
        Of what; STITCH for "sts" and for a bare number.
    unit : str
        The author's unit in singular, lower case ("st", "dc", "ch-2 sp", "shell"); empty if bare.
    change : str
        "", "increased" or "decreased": a change, not a total.
    """

    number: Number
    noun: Noun = STITCH
    unit: str = ""
    change: str = ""
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Stated:
    """Everything an instruction says it comes to.

    `statements` hold for the last row of the line; `rowwise`, if not empty, gives one group a row
    ("(30 sts)(28 sts)(26 sts)"). `excluding` are kinds the author leaves out ("not counting sl
    sts"), `including` those taken in ("counting each ch-1 sp as a st").
    """

    statements: tuple[Statement, ...]
    rowwise: tuple[tuple[Statement, ...], ...] = ()
    excluding: tuple[str, ...] = ()
    including: tuple[str, ...] = ()
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class RepeatRows:
    """Work earlier rows again instead of giving steps.

    Attributes
    ----------
    first, last : Number or None
        The rows named ("Rep Rows 3-6"); both None for "rep last N rows".
    listed : tuple of Number
        Rows named one by one ("Rep Rows 2 and 5"), else empty.
    back : Number or None
        N of "rep last N rows" (1 for "rep last row").
    often : Times or None
        How many times, where said.
    until_rows : Number or None
        "until you have 18 (20) rows in all".
    until_length : Number or None
        "until piece measures 28 cm" [mm].
    until_words : str
        The author's words of another end ("to desired length"), else empty.
    ending : str
        "RS", "WS" or empty ("ending with a WS row").
    ending_row : Number or None
        "ending with Row 4".
    piece : str
        The piece the rows are of, if not this one ("same as Back").
    extra : tuple of Step
        What is changed or added ("with B", "omitting turning ch" is unread).
    """

    first: Number | None = None
    last: Number | None = None
    listed: tuple[Number, ...] = ()
    back: Number | None = None
    often: Times | None = None
    until_rows: Number | None = None
    until_length: Number | None = None
    until_words: str = ""
    ending: str = ""
    ending_row: Number | None = None
    piece: str = ""
    extra: Steps = ()
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Course:
    """One instruction line: a row, a round, a range of them, a set-up or finishing line.

    Attributes
    ----------
    label : Label
        Its label; `Label("Ch")` for a foundation line.
    does : tuple of Step, or RepeatRows
        What is done.
    stated : Stated or None
        What it says it comes to.
    only : tuple of str
        Sizes it is for ("Sizes L and XL only"); empty: all.
    place : Span
        The whole line.
    """

    label: Label
    does: Steps | RepeatRows
    stated: Stated | None = None
    only: tuple[str, ...] = ()
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Rule:
    """A convention stated outside the rows: "The ch-1 and ch-2 at the start of rows never count".

    Attributes
    ----------
    topic : str
        "turning chain", "chain spaces", "slip stitches" or "repeats".
    counts : Counts or None
        For a turning chain: what it counts as.
    chains : int or None
        For a turning chain: of how many chains; None: any.
    holds : bool
        For "chain spaces" and "slip stitches": they count as stitches; for "repeats": `N times`
        means N more.
    """

    topic: str
    counts: Counts | None = None
    chains: int | None = None
    holds: bool = True
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Special:
    """A stitch the author defined: "Shell: (2 dc, ch 1, 2 dc) in indicated st".

    Attributes
    ----------
    name : str
        Its name or abbreviation, lower case.
    written : str
        The author's spelling of it.
    body : tuple of Step or None
        The group it stands for, when it is one ("5 dc in same st"); None for a movement described
        in words (yo, insert, draw up).
    stitch : Stitch or None
        The stitch it makes, for a movement ("FPtr: yo twice, insert hook ... around the post").
    words : str
        The definition as written.
    """

    name: str
    written: str
    body: Steps | None = None
    stitch: Stitch | None = None
    words: str = ""
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and the instruction lines below it.

    Attributes
    ----------
    name : str
        The heading, verbatim; empty for a file without headings.
    level : int
        2 begins a piece on a new edge; deeper ones go on with the same piece; 0: no heading.
    title : str
        The name without "(make 2)" and the like.
    copies : Number
        How many are made.
    courses : tuple of Course
        In the order of the text.
    rules : tuple of Rule
        Conventions stated in this section.
    """

    name: str
    level: int
    title: str
    copies: Number
    courses: tuple[Course, ...]
    rules: tuple[Rule, ...] = ()
    place: Span = field(default=NOWHERE, compare=False, repr=False)


def makes_stitches(steps: Steps) -> bool:
    """Whether steps make stitches or chains, or hold words that may."""
    return any(isinstance(s, Make | Chain | Group | Repeat | Either) for s in steps)
