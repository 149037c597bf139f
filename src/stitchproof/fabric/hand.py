"""The hand that works one course in one size: what it holds while it works.

It walks along the edge with a cursor, which only moves forward; skipped anchors stay reachable by
name. Everything made is appended to flat lists, so a state can be kept and taken back by a few
integers, and a repeat that meets the same edge again is laid down as a tile instead of being
worked stitch by stitch (`tile`).
"""

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import Final, NamedTuple

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.fabric.conventions import Conventions, Switch
from stitchproof.fabric.edge import CENTRE_STITCH, GAP, Edge, Interval
from stitchproof.fabric.looks import Looks
from stitchproof.fabric.trouble import Failing, Stuck, Trouble
from stitchproof.language.number import Number
from stitchproof.language.tree import (
    SPACE,
    STITCH,
    Colour,
    Either,
    Last,
    Noun,
    Remark,
    Skip,
    Step,
    Thing,
)

MOST_ANCHORS: Final = 1_000_000
ValueOf = Callable[[Number], int | None]


class Moment(NamedTuple):
    """A state of the hand that can be taken back."""

    cursor: int
    made: int
    groups: int
    marks: int
    last: Interval | None
    covered: tuple[Interval, ...]
    noun: Noun
    left: bool

    def later(self, cursor: int, made: int) -> "Moment":
        """Give the state some anchors further on."""
        last = (self.last[0] + cursor, self.last[1] + cursor) if self.last else None
        return Moment(
            self.cursor + cursor,
            self.made + made,
            self.groups,
            self.marks,
            last,
            tuple((a + cursor, b + cursor) for a, b in self.covered),
            self.noun,
            self.left,
        )


def _alike_in(rows: Sequence[Sequence[str]], start: int, stride: int, end: int) -> int:
    """Count the anchors before `end` that equal, in all rows, the one a stride before them.

    What is compared at once doubles: the time grows in a line with what is found, however long
    the rows are.
    """
    found, width, differs = 0, 2 * stride, False
    while not differs and start + stride + found < end:
        first = start + found
        width = min(width, end - first - stride)
        for row in rows:
            one, other = row[first : first + width], row[first + stride : first + stride + width]
            if one != other:
                pairs = zip(one, other, strict=True)
                width, differs = next(i for i, (a, b) in enumerate(pairs) if a != b), True
        found += width
        width *= 2
    return found


@dataclass(frozen=True, slots=True)
class Move:
    """What one shaping row of a schedule does to the ends of the fabric.

    Attributes
    ----------
    row : int
        Which row of its line, from 1.
    by : int
        Stitches added at each end that moves; taken away: less than 0.
    at : str
        The author's words for the end.
    ends : int
        How many ends move: 1 or 2.
    """

    row: int
    by: int
    at: str
    ends: int


@dataclass(frozen=True, slots=True)
class Shaped:
    """What the schedules of a line have come to so far.

    Attributes
    ----------
    since : Moment
        Before the first of them.
    count : int
        Stitches after the last.
    start, rows : int
        After which row of the line the last began, and rows of the line so far.
    moves : tuple of Move or None
        What every shaping row so far does; None where the rows are not told.
    """

    since: Moment
    count: int
    start: int
    rows: int
    moves: tuple[Move, ...] | None = ()


class Hand:
    """Works one course, once, in one size, on one edge."""

    earlier: Mapping[int, Edge] = MappingProxyType({})  # earlier rows by number, where one is named
    first_kind = ""  # stitch of the course's first Make: what its chain stands for
    row: int | None = None  # the earlier row that it works on
    space_next = False  # the step behind this one goes into a space
    again = False  # the course is an earlier row, worked again
    flat = True  # a row, also one that begins on a round and turns back
    slips_stand = False  # slip stitches are stitches of the row, worked into later
    centres_only = False  # the course works the middle of groups and passes what lies between
    back = 0  # chains of one just made that are still to be worked back along
    gaps_named = False  # the course speaks of spaces between groups
    begun_in_gap = False  # the round began between its last group and its first
    from_join = True  # the round before was joined: the hook stands in its first stitch
    from_space = False  # ... into a space
    in_space = False  # this round is joined into a space
    beside_chain: Last | None = None  # a last stitch that is named beside the turning chain
    spent = False  # nothing may be left to work into, as the author's numbers go by size
    shaped: Shaped | None = None  # by schedules of this line
    elsewhere = False  # on edges that nothing but their names is known of
    reached = -1  # the anchor up to which the step before was said to go
    course: tuple[Step, ...] = ()  # all that it works
    slid = 0  # stitches of a round slipped over before it begins
    looped = False  # a repeat has begun
    unmarked = False  # markers are taken out
    around_opening = False  # the round goes around stitches that an earlier row skipped

    def __init__(
        self,
        edge: Edge | None,
        conventions: Conventions,
        value_of: ValueOf,
        choices: Mapping[Either, int],
        looks: Looks,
    ) -> None:
        self.edge = edge if edge is not None else Edge((), "", ())
        self.founded = edge is not None  # False until there is a foundation or a ring
        self.conventions = conventions
        self.value_of = value_of
        self.choices = choices
        self.looks = looks  # what was seen of steps before
        self.cursor = 0
        self.limit = len(self.edge)
        self.kinds: list[str] = []
        self.roles: list[str] = []
        self.parents: list[int] = []
        self.groups: list[tuple[str, int, int]] = []
        self.marks: list[tuple[str, int]] = []
        self.last: Interval | None = None  # the place worked last
        self.covered: tuple[Interval, ...] = ()  # stitches behind a post stitch, not yet passed
        self.skipped: list[Interval] = []  # places skipped by the step before
        self.most_skipped = 0  # stitches passed by one skip of this course
        self.just_skipped: list[Interval] = []  # the same, for the step that is worked now
        self.noun: Noun = STITCH  # what was last worked into
        self.begun = False  # a turning chain or a stitch stands
        self.turning = 0
        self.swept = False  # every place of the kind named has been worked, to the end
        self.ends: tuple[str, ...] = ()  # the stitch each row of the piece ends with
        self.base = 0  # stitches along the foundation of the piece
        self.colours: list[tuple[int, str]] = []  # from which stitch on which colour is worked
        self.rows = 1  # how many rows the course comes to
        self.guessed = False  # what is made is known by its count alone
        self.left = False  # the author leaves the rest unworked
        self.joined = False
        self.spiral = False
        self.turned = False
        self.fastened = False
        self.centre = False
        self.extends = False  # its first chain lengthens the edge, to be worked into
        self.live: Edge | None = None  # the live edge, left for later
        self.astray = False  # along an edge of which only the count told is known
        self.other_side = self.on_base = False  # on another side of the piece; its foundation
        self.troubles: list[Trouble] = []
        self.tries = 0
        self.asked: list[Switch] = []  # open switches that were looked at

    # ------------------------------------------------------------------ states

    def moment(self) -> Moment:
        """Keep the present state."""
        return Moment(
            self.cursor,
            len(self.kinds),
            len(self.groups),
            len(self.marks),
            self.last,
            self.covered,
            self.noun,
            self.left,
        )

    def back_to(self, then: Moment) -> None:
        """Take back everything since a state."""
        self.cursor = then.cursor
        del self.kinds[then.made :]
        del self.roles[then.made :]
        del self.parents[then.made :]
        del self.groups[then.groups :]
        del self.marks[then.marks :]
        self.last, self.covered = then.last, then.covered
        self.noun, self.left = then.noun, then.left
        while self.colours and self.colours[-1][0] > then.made:
            self.colours.pop()

    # ------------------------------------------------------------------ making

    def put(self, kind: str, role: str, parents: list[int], place: Span) -> None:
        """Append stitches or chains of one kind, one for each parent."""
        if len(self.kinds) + len(parents) > MOST_ANCHORS:
            raise Stuck(Trouble(Failing.LIMIT, place, MOST_ANCHORS, MOST_ANCHORS))
        self.kinds += [kind] * len(parents)
        self.roles += [role] * len(parents)
        self.parents += parents

    def number(self, number: Number, place: Span) -> int:
        """Give a number's value here; 0 where it is not worked in this size."""
        value = self.value_of(number) or 0
        if value > MOST_ANCHORS:
            raise Stuck(Trouble(Failing.LIMIT, place, value, MOST_ANCHORS))
        return value

    def pass_covered(self) -> None:
        """Go past the stitches that a post stitch stands before."""
        if self.covered:
            self.cursor = max(self.cursor, self.covered[-1][1])
            self.covered = ()

    def note_skipped(self, step: Step) -> None:
        """Remember, for this step alone, what the step before skipped."""
        if not isinstance(step, Skip | Remark | Colour):
            self.just_skipped, self.skipped = self.skipped, []

    def places(self, noun: Noun) -> list[Interval]:
        """List all places of a noun on the edge, but for a gap that the round began in."""
        chains = self.conventions.chains and noun.thing is Thing.STITCH
        noun = Noun(Thing.SPACE, GAP) if self.gaps_named and noun == SPACE else noun
        places = self.edge.places(noun, chains=chains) or self._where_a_chain_stood(noun)
        if not self.begun_in_gap or noun.thing is not Thing.SPACE:
            return places
        last = (len(self.edge) - 1, len(self.edge))
        begun = self.edge.roles[-1:] != "C"
        return places[:-1] if begun and places and places[-1] == last else places

    def _where_a_chain_stood(self, noun: Noun) -> list[Interval]:
        """Give the last stitch of a row for the turning chain that another row had there.

        "Rep Row 3" names its turning chain also where the row below begins with sc.
        """
        named = noun.thing is Thing.TURNING_CHAIN and self.again
        return [] if not named or self.edge.ring else self.edge.places(STITCH)[-1:]

    def remaining(self) -> int:
        """Count the places not yet reached, in the things that were worked into last."""
        if self.centres_only and self.noun.kind == CENTRE_STITCH:
            return sum(a >= self._after_covered() for a, _ in self.places(self.noun))
        if self.noun.thing.value in ("sp", "ch-sp", "group", "kind"):
            if self.noun.thing.value == "kind" and not self._other_kinds_passed():
                return self.edge.stitches_between(self._after_covered(), self.limit)
            return sum(
                self._after_covered() <= a and b <= self.limit for a, b in self.places(self.noun)
            )
        return self.edge.stitches_between(self._after_covered(), self.limit)

    def left_behind(self) -> int:
        """Count the places left at the end of a course; a last loop of chains spans some."""
        if self.swept or self.elsewhere:
            return 0
        over = self.remaining()
        if self.other_side and (over == 1 or "E" in self.edge.roles):
            return 0  # the chain at the end, worked into at the beginning; ends left at a corner
        if self.on_base and over > self.base // 2 > 0:
            return 0  # so few chains are those over a gap, and not the foundation's
        if self.joined and self.edge.ring and self.roles and self.roles[-1] == "C":
            loop = 0
            while loop < len(self.roles) and self.roles[-1 - loop] == "C":
                loop += 1
            return over if over > max(loop, self.most_skipped) else 0
        return 0 if self._of_last_group() else over

    def _of_last_group(self) -> bool:
        """Whether all that is left was made in the place of the group worked into last."""
        if self.noun.thing is not Thing.GROUP or self.last is None:
            return False
        parents = self.edge.parents
        left = range(self.cursor, len(self.edge))
        made_in = {parents[i] for i in left if self.edge.roles[i] in "SK"}
        return made_in == {parents[self.last[0]]} != {-1}

    def slipped_over(self) -> int:
        """Count the places passed over at the beginning: as many may be left at the end."""
        if self.edge.ring:
            return self.slid
        if self.roles[:1] == ["K"]:
            return 0
        first = next((i for i, role in enumerate(self.roles) if role in "SK"), 0)
        return self.edge.stitches_between(0, max(self.parents[first], 0))

    def _after_covered(self) -> int:
        return max(self.cursor, self.covered[-1][1]) if self.covered else self.cursor

    def _other_kinds_passed(self) -> bool:
        """Whether the edge holds other stitches than the kind worked into, passed on purpose."""
        before = self.edge.stitches_between(0, self.cursor)
        return before > sum(b <= self.cursor for _, b in self.edge.places(self.noun))

    # ------------------------------------------------------------------ tiles

    def tile(self, since: Moment, most: int, *, under: bool) -> int:
        """Lay down again what was made since a state, where the same edge follows.

        Parameters
        ----------
        since : Moment
            State before the first working.
        most : int
            How many more at most.
        under : bool
            The stitches below the edge matter too.

        Returns
        -------
        int
            How many tiles were laid; the last possible one is left to be worked, since it may
            look beyond its end.
        """
        stride, made = self.cursor - since.cursor, len(self.kinds) - since.made
        if bool(since.covered) != bool(self.covered):
            return 0  # the first time passes more, or fewer, than the next will
        if stride <= 0 or most <= 0 or len(self.groups) != since.groups or self.marks:
            return 0
        alike = self._alike(since.cursor, stride, under=under)
        times = min(most, alike // stride - 1)
        if times <= 0:
            return 0
        if len(self.kinds) + made * times > MOST_ANCHORS:
            raise Stuck(Trouble(Failing.LIMIT, wanted=MOST_ANCHORS, had=MOST_ANCHORS))
        block = self.parents[since.made :]
        self.kinds += self.kinds[since.made :] * times
        self.roles += self.roles[since.made :] * times
        for k in range(1, times + 1):
            by = k * stride
            apart = k * made  # places of their own on a side that is no edge below
            self.parents += [p + by if p >= 0 else p - apart if p < -1 else p for p in block]
        moved = self.moment().later(stride * times, 0)
        self.cursor, self.last, self.covered = moved.cursor, moved.last, moved.covered
        return times

    def _alike(self, start: int, stride: int, *, under: bool) -> int:
        """Count the anchors after the first tile that repeat it, before the limit."""
        rows: list[Sequence[str]] = [self.edge.kinds, self.edge.roles]
        if under:
            rows.append(self.edge.under)
        return _alike_in(rows, start, stride, self.limit)
