"""Instruction lines with their labels and counts, and the sections that hold them."""

from dataclasses import field

from stitchproof.base.place import NOWHERE, Span
from stitchproof.base.records import dataclass
from stitchproof.language.number import ONE, Number
from stitchproof.language.steps import Counts, Steps, Times
from stitchproof.language.stitch import STITCH, Noun, Stitch


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

    @property
    def several(self) -> bool:
        """Whether it covers more rows than one."""
        one = self.first is self.last or self.first == self.last
        return bool(self.listed) or not one or (self.span is not None and self.span != ONE)


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
    each : str
        The part of the edge that holds so many, where every such part does: "9 dc per side"
        ("side"); empty for a count of the whole edge.
    """

    number: Number
    noun: Noun = STITCH
    unit: str = ""
    change: str = ""
    each: str = ""
    place: Span = field(default=NOWHERE, compare=False, repr=False)

    @property
    def total(self) -> bool:
        """Whether it counts the whole edge."""
        return not self.change and not self.each


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

    With no row, no number of rows and no piece named, the fabric goes on as it was ("work even",
    "in patt as established"): the rows worked before in their turn, the count staying as it is.

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
    until_count : Number or None
        "until 12 (14) sts rem": the count at the end.
    until_length : Number or None
        "until piece measures 28 cm" [mm].
    until_words : str
        The author's words of another end ("to desired length"), also of a length that is not that
        of the piece from where it begins ("armhole measures 18 cm"), else empty.
    ending : str
        "RS", "WS" or empty ("ending with a WS row").
    ending_row : Number or None
        "ending with Row 4".
    then_to : Number or None
        The last row of one turn more, begun and not ended: "then Rows 2 and 3 once more".
    piece : str
        The piece the rows are of, if not this one ("same as Back").
    extra : tuple of Step
        What is changed or added ("with B").
    between : int
        How many plain stitches more each row has between its shaping than the row before it
        ("working 1 more sc between increases"); below 0: fewer.
    chainless : bool
        Without the turning chain of those rows ("omitting turning ch").
    groups : bool
        It is groups along each side that each round has more ("adding 1 more group on each side").
    phases : tuple of (Number, Number or None)
        The rows are worked again on every so many rows, so often, and rows between them are worked
        even ("Rep Row 7 every 6th row 4 times"); None, last: until `until_count`. Empty: the rows
        follow each other.
    leading : bool
        Each turn begins with them, and its even rows come after ("[Row 7, 5 rows even] 4 times").
    """

    first: Number | None = None
    last: Number | None = None
    listed: tuple[Number, ...] = ()
    back: Number | None = None
    often: Times | None = None
    until_rows: Number | None = None
    until_count: Number | None = None
    until_length: Number | None = None
    until_words: str = ""
    ending: str = ""
    ending_row: Number | None = None
    then_to: Number | None = None
    piece: str = ""
    extra: Steps = ()
    between: int = 0
    chainless: bool = False
    groups: bool = False
    phases: tuple[tuple[Number, Number | None], ...] = ()
    leading: bool = False
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
        The whole line. Every place inside it, of its label, steps, numbers and counts, is told
        from its start; `at` gives it in the whole text.
    """

    label: Label
    does: Steps | RepeatRows
    stated: Stated | None = None
    only: tuple[str, ...] = ()
    place: Span = field(default=NOWHERE, compare=False, repr=False)

    def at(self, place: Span) -> Span:
        """Give a place inside this line as one in the whole text."""
        return place.shifted(self.place.start)


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
