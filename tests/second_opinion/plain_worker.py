"""Works instruction trees as a maker would: one stitch after another, in one size.

This is the second opinion on the fabric. It shares nothing with it but the tree, the numbers and
what an unremarked turning chain is taken to count as. A row is a list of stitch objects, the hook
stands before one of them, and everything is found by looking along the list. Nothing is kept,
nothing is clever; it is meant to be checked by reading.

What it takes for granted, from `prose-forms` and common practice (no source):

- Flat rows are turned, said or not; rounds are not turned unless said.
- A turning chain that counts stands in the first stitch of the row, which is thereby used up.
- Chain spaces are passed over without a word; stitches are not.
- A stitch two or more rows below takes no place on the edge; the stitch behind it is skipped, said
  or not. `over` remembers that stitch, `into` the one below that the hook went around.
- Who works into spaces passes over the stitches between them; such a row is over when no space is
  left. "In each sp" where there is none may be meant, if the count says so.
- A loop of chains that closes a round spans as many stitches as it has chains.
- A row that ends with "to last 3 sts" says that it leaves them.
- A single chain that does not count is too short to be worked into.
- Nothing is known after the first thing that goes wrong, so the work ends there.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from stitchproof.fabric.conventions import Switch, customary
from stitchproof.language.number import Number, Resolved
from stitchproof.language.tree import (
    AsLong,
    Behind,
    Below,
    Chain,
    Counts,
    Course,
    Each,
    End,
    First,
    Group,
    Join,
    JoinYarn,
    Last,
    Leave,
    MagicRing,
    Make,
    Next,
    Noun,
    Nth,
    Origin,
    Repeat,
    RepeatRows,
    Ring,
    RowEnds,
    Rule,
    Same,
    SeamPlace,
    Section,
    Skip,
    Statement,
    Steps,
    Thing,
    Times,
    ToLast,
    Turn,
)
from stitchproof.language.tree import To as ToNext

STITCH = Noun(Thing.STITCH)


WIDEST = 600
NOTHING_BETWEEN = (Thing.STITCH, Thing.CHAIN)  # who works each of these leaves none behind


class Maker(Exception):
    """The maker cannot do what is said."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


class PastTheEnd(Maker):
    """The maker ran past where a repeat has to end."""


class NotMine(Exception):
    """Words that this worker does not know; the rest of the piece is not compared."""


@dataclass(eq=False)
class Loop:
    """One stitch or single chain, as it stands on the fabric.

    `role` is "stitch", "slip", "chain" (of a space), "foundation", "counted chain" or
    "uncounted chain" (both: the turning chain), "row end" or "seam" (of an edge picked up). `into` holds what it was worked in: one stitch,
    the chains of a space, the stitches drawn together; nothing for a chain.
    """

    kind: str
    role: str
    into: list["Loop"] = field(default_factory=list)
    over: "Loop | None" = None  # the stitch on the edge that a stitch some rows below stands before
    chains: int = 0  # of a turning chain


@dataclass
class Fabric:
    """The row made last, in the order in which it was made, and what may be done with it."""

    loops: list[Loop]
    ring: bool = False
    centre: bool = False
    foundation: bool = False
    turned: bool = False
    ahead: Chain | None = None  # turning chain made before the row was ended


@dataclass
class MadeRow:
    """A row that was worked, with the row it was worked into in the direction of working."""

    number: int | None
    course: int
    made: list[Loop]
    into: list[Loop]
    trouble: str = ""
    none_of_them: bool = False


def open_to_stitches(loop: Loop) -> bool:
    """Whether "next st" may mean it."""
    return loop.role in ("stitch", "counted chain", "foundation", "row end", "seam")


def counts(loop: Loop) -> bool:
    """Whether it is a stitch of the row."""
    return loop.role in ("stitch", "counted chain")


def plain_kind(kind: str) -> str:
    """Name of the stitch without its post or how many are drawn together."""
    for post in ("fp", "bp"):
        if kind.startswith(post):
            kind = kind[2:]
    if kind.endswith("tog"):
        kind = kind[:-3].rstrip("0123456789")
    return kind


def spaces(row: list[Loop], chains: int | None) -> list[list[int]]:
    """Find every run of chains, as lists of indices."""
    found: list[list[int]] = []
    run: list[int] = []
    for i, loop in enumerate(row):
        if loop.role == "chain":
            run.append(i)
        elif run:
            found.append(run)
            run = []
    if run:
        found.append(run)
    return [r for r in found if chains is None or len(r) == chains]


def places(row: list[Loop], noun: Noun, *, chains_too: bool) -> list[list[int]]:
    """Find every place a noun can mean, in order: lists of indices into the row."""
    if noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE):
        return spaces(row, noun.chains)
    found: list[list[int]] = []
    for i, loop in enumerate(row):
        if noun.thing is Thing.STITCH:
            fits = open_to_stitches(loop) or (chains_too and loop.role == "chain")
        elif noun.thing is Thing.STITCH_OR_CHAIN:
            fits = open_to_stitches(loop) or loop.role == "chain"
        elif noun.thing is Thing.CHAIN:
            fits = loop.role in ("chain", "foundation")
        elif noun.thing is Thing.KIND:
            fits = open_to_stitches(loop) and (
                loop.kind == noun.kind or plain_kind(loop.kind) == noun.kind
            )
        elif noun.thing is Thing.SEAM:
            fits = loop.role == "seam"
        elif noun.thing is Thing.ROW_END:
            fits = loop.role == "row end"
        elif noun.thing is Thing.TURNING_CHAIN:
            fits = loop.role in ("counted chain", "uncounted chain")
        else:
            raise NotMine(noun.thing.value)
        if fits:
            found.append([i])
    return found


def around_and_back(loops: list[Loop]) -> list[Loop]:
    """Turn a joined round: the hook stands in its first stitch, then come the last ones."""
    first = next((i for i, x in enumerate(loops) if open_to_stitches(x)), 0)
    return [loops[(first - i) % len(loops)] for i in range(len(loops))]


def loop_at_the_end(row: list[Loop]) -> int:
    """How many chains end a row."""
    chains = 0
    for loop in reversed(row):
        if loop.role != "chain":
            break
        chains += 1
    return chains


def names_stitches(steps: Steps) -> bool:
    """Whether steps work or skip stitches, not only spaces."""
    for step in steps:
        if isinstance(step, Repeat) and names_stitches(step.body):
            return True
        if isinstance(step, Make | Skip | Group) and isinstance(step.at, Next):
            if step.at.noun.thing not in (Thing.SPACE, Thing.CHAIN_SPACE):
                return True
    return False


class RowWorker:
    """Works one row. `at` is the index in `into` before which the hook stands."""

    def __init__(self, into: list[Loop], maker: "PieceMaker", *, centre: bool) -> None:
        self.into = into
        self.maker = maker
        self.centre = centre
        self.at = 0
        self.made: list[Loop] = []
        self.same: list[int] = [0] if into else []  # the place worked last, or that of the join
        self.fence: list[int] = []  # where the repeats around have to end
        self.noun = STITCH  # what was worked into last
        self.behind: list[int] = []  # stitches behind posts, still to be skipped
        self.swept = False  # every place of a kind has been worked, to the end
        self.none_of_them = False  # every space was asked for, and there was none
        self.left: int | None = 0  # how many may stay unworked at the end; None: any number

    # ------------------------------------------------------------------ looking along the row

    def ahead(self, noun: Noun) -> list[list[int]]:
        """Places of a noun that lie before the hook."""
        return [p for p in self.every(noun) if p[0] >= self.at]

    def every(self, noun: Noun) -> list[list[int]]:
        """All places of a noun."""
        if noun.thing is Thing.SPACE and not any(x.role == "chain" for x in self.into):
            raise NotMine("spaces that are not of chains")
        return places(self.into, noun, chains_too=self.maker.chains_too)

    def limit(self) -> int:
        """Index that may not be worked."""
        return min([len(self.into), *self.fence])

    def inside(self, noun: Noun) -> list[list[int]]:
        """Places before the hook and before the limit."""
        return [p for p in self.ahead(noun) if p[-1] < self.limit()]

    def take(self, noun: Noun) -> list[int]:
        """Move the hook over the next place of a noun."""
        self.pass_behind()
        there = self.ahead(noun)
        if not there:
            raise PastTheEnd("too few")
        if there[0][-1] >= self.limit():
            raise PastTheEnd("uneven")
        self.pass_to(there[0])
        self.noun = noun
        return there[0]

    def pass_behind(self) -> None:
        """Go past the stitches that posts stand before."""
        for i in self.behind:
            self.at = max(self.at, i + 1)
        self.behind = []

    def pass_to(self, place: list[int]) -> None:
        """Move the hook behind a place."""
        self.at = place[-1] + 1
        self.same = place

    def stop_before(self, until: object) -> int:
        """Index at which a run has to end."""
        if isinstance(until, End):
            return self.limit()
        if isinstance(until, ToLast):
            number = self.maker.value(until.number)
            every = [p for p in self.every(until.noun) if p[-1] < self.limit()]
            if number == 0:
                return self.limit()
            if len(every) < number:
                raise Maker("too few")
            stop = every[-number][0]
            if stop < self.at:
                raise Maker("too few")
            return stop
        if isinstance(until, ToNext):
            there = self.inside(until.noun)
            if not there:
                raise Maker("no place")
            return there[0][0]
        raise NotMine(type(until).__name__)

    def stitches_before(self, stop: int) -> int:
        """How many stitches lie between the hook and an index."""
        return sum(open_to_stitches(loop) for loop in self.into[self.at : stop])

    def left_before(self, stop: int) -> int:
        """How many places lie between the hook and an index, in what was worked into last."""
        if self.noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE):
            return sum(p[0] >= self.at and p[-1] < stop for p in self.every(self.noun))
        return self.stitches_before(stop)

    # ------------------------------------------------------------------ steps

    def do(self, steps: Steps) -> None:
        """Do steps one after another."""
        for step in steps:
            self.do_one(step)

    def do_one(self, step: object) -> None:
        """Do one step."""
        if isinstance(step, Make):
            self.make(step)
        elif isinstance(step, Chain):
            for _ in range(self.maker.value(step.count)):
                self.made.append(Loop("ch", "chain"))
        elif isinstance(step, Skip):
            self.skip(step.at)
        elif isinstance(step, Group):
            self.group(step)
        elif isinstance(step, Repeat):
            self.repeat(step)
        elif isinstance(step, Leave):
            self.left = None if step.number is None else self.maker.value(step.number)
        elif type(step).__name__ in ("Colour", "Remark", "Facing"):
            pass
        else:
            raise NotMine(type(step).__name__)

    def make(self, step: Make) -> None:
        """Make stitches in the places of a target."""
        each = self.maker.value(step.each)
        if each == 0:
            return
        together = step.stitch.together
        if together > 1:
            self.draw_together(step, together, each)
            return
        if isinstance(step.at, Below):
            self.make_below(step, step.at, each)
            return
        if isinstance(step.at, RowEnds):
            self.along_row_ends(step, step.at)
            return
        if isinstance(step.at, Ring):
            if not self.centre:
                raise Maker("no place")
            for _ in range(each):
                self.put(step, [])
            return
        for place in self.places_of(step.at):
            for _ in range(each):
                self.put(step, [self.into[i] for i in place])

    def along_row_ends(self, step: Make, at: RowEnds) -> None:
        """Make stitches along the ends of rows, as many as each kind of row is said to get."""
        made_on_edge = 0
        for loop in [*self.into[self.at :], None]:
            if loop is None or loop.role != "row end":
                if at.stated is not None and made_on_edge not in (
                    0,
                    self.maker.value(at.stated),
                ):
                    raise Maker("count")
                made_on_edge = 0
                continue
            rate = [self.maker.value(n) for noun, n in at.rates if noun.kind in ("", loop.kind)]
            if not rate:
                raise Maker("no place")
            for _ in range(rate[0]):
                self.put(step, [loop])
                made_on_edge += 1
        self.at = len(self.into)

    def slip_to_start(self, step: Make) -> None:
        """Slip to where a round begins: from now on the round begins there."""
        place = self.places_of(step.at)[-1]
        start = place[0]
        self.into[:] = self.into[start:] + self.into[:start]
        self.at = 0
        self.same = [i - start for i in place]

    def put(self, step: Make, into: list[Loop]) -> None:
        """Put one stitch on the row."""
        slips = step.stitch.kind == "sl_st" and not self.maker.slips_count
        self.made.append(Loop(step.stitch.name, "slip" if slips else "stitch", into))

    def draw_together(self, step: Make, together: int, each: int) -> None:
        """Draw neighbouring stitches into one, as often as said."""
        if isinstance(step.at, Next):
            for _ in range(self.maker.value(step.at.number)):
                self.draw_once(step, step.at.noun, together, each)
        elif isinstance(step.at, Each):
            stop = self.stop_before(step.at.until)
            if not self.inside(step.at.noun) and isinstance(step.at.until, End):
                raise Maker("too few")
            self.fence.append(stop)
            while self.inside(step.at.noun):
                self.draw_once(step, step.at.noun, together, each)
            self.fence.pop()
        elif isinstance(step.at, First | Last):
            whole = [i for place in self.places_of(step.at) for i in place]
            if len(whole) != together:
                raise NotMine("together over a named number")
            for _ in range(each):
                self.put(step, [self.into[i] for i in whole])
        else:
            raise NotMine("together elsewhere")

    def draw_once(self, step: Make, noun: Noun, together: int, each: int) -> None:
        """Draw the next few stitches into one."""
        took: list[int] = []
        for _ in range(together):
            took += self.take(noun)
        for _ in range(each):
            self.put(step, [self.into[i] for i in took])
        self.same = [took[-1]]

    def make_below(self, step: Make, at: Below, each: int) -> None:
        """Make stitches around or in what lies rows below a place."""
        down = self.maker.value(at.rows) - 1
        if down == 0:
            for place in self.places_of(at.at):
                for _ in range(each):
                    self.put(step, [self.into[i] for i in place])
            return
        before = self.at
        covered = self.places_of(at.at)
        for place in covered:
            over = self.into[place[0]]
            loop = over
            for _ in range(down):
                if not loop.into:
                    raise Maker("no place")
                loop = loop.over or loop.into[0]
            if not counts(loop):
                raise Maker("no place")
            if at.noun.thing is Thing.KIND and plain_kind(loop.kind) != at.noun.kind:
                raise Maker("no place")
            for _ in range(each):
                self.put(step, [loop])
                self.made[-1].over = over
        self.at = before  # the stitch behind it is still to be skipped
        self.behind = [place[0] for place in covered]

    def places_of(self, at: object) -> list[list[int]]:
        """Move the hook over a target and give the places that it names, in order."""
        self.swept = False
        if isinstance(at, Next):
            return [self.take(at.noun) for _ in range(self.maker.value(at.number))]
        if isinstance(at, Each):
            self.pass_behind()
            stop = self.stop_before(at.until)
            out = []
            self.fence.append(stop)
            while self.inside(at.noun):
                out.append(self.take(at.noun))
            self.fence.pop()
            if not out and at.noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE):
                if isinstance(at.until, End) and not self.stitches_before(stop):
                    raise Maker("no place")
                self.none_of_them = True
            if not out and isinstance(at.until, End) and not self.stitches_before(stop):
                raise Maker("too few")
            self.noun = at.noun
            if out and isinstance(at.until, End) and at.noun.thing not in NOTHING_BETWEEN:
                self.swept = True  # what lies behind the last of them may still be worked
            else:
                self.at = max(self.at, stop)
            return out
        if isinstance(at, Same):
            if not self.same:
                raise Maker("no place")
            self.at = max(self.at, self.same[-1] + 1)
            if at.noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE):
                self.noun = at.noun
            return [self.same]
        if isinstance(at, First):
            self.pass_behind()
            number = self.maker.value(at.number)
            there = self.every(at.noun)[:number]
            if len(there) < number:
                raise Maker("too few")
            if there:
                self.at = max(self.at, there[-1][-1] + 1)
                self.same, self.noun = there[-1], at.noun
            return there
        if isinstance(at, SeamPlace):
            return [self.take(Noun(Thing.SEAM))]
        if isinstance(at, Last):
            return self.last(at)
        if isinstance(at, Nth):
            return self.nth(at)
        raise NotMine(type(at).__name__)

    def last(self, at: Last) -> list[list[int]]:
        """Take the last places of the row; what lies before them must have been dealt with."""
        self.pass_behind()
        number = self.maker.value(at.number)
        if number == 0:
            return []
        there = self.every(at.noun)[-number:]
        if len(there) < number or there[0][0] < self.at:
            raise Maker("too few")
        strict = (Thing.STITCH, Thing.KIND, Thing.CHAIN)
        both = at.noun.thing in strict and self.noun.thing in strict
        if self.stitches_before(there[0][0]) and both:
            raise Maker("left over")
        self.pass_to(there[-1])
        self.noun = at.noun
        return there

    def nth(self, at: Nth) -> list[list[int]]:
        """Take places by their ordinal."""
        self.pass_behind()
        ordinals = [self.maker.value(n) for n in at.ordinals]
        if at.origin is Origin.TURNING_CHAIN:
            there = [p for p in self.ahead(Noun(Thing.TURNING_CHAIN))]
            if not there or ordinals[0] > self.into[there[0][0]].chains:
                raise Maker("no place")
            self.pass_to(there[0])
            return [there[0]]
        if at.origin is Origin.HERE:
            start = self.ahead(at.noun)
        elif at.origin is Origin.EDGE:
            start = self.every(at.noun)
        else:
            raise NotMine("from hook in a row")
        out = []
        for n in ordinals:
            if n < 1:
                raise NotMine("the 0th stitch")
            if n > len(start) or start[n - 1][-1] >= self.limit():
                raise PastTheEnd("too few")
            out.append(start[n - 1])
        self.pass_to(out[-1])
        self.noun = at.noun
        return out

    def skip(self, at: object) -> None:
        """Leave places and go on after them."""
        if isinstance(at, Behind):
            self.pass_behind()
            return
        if isinstance(at, Next) and self.behind and self.maker.value(at.number) == len(self.behind):
            self.pass_behind()  # "sk next st" is the one behind
            return
        same = self.same
        if isinstance(at, First):
            there = self.every(at.noun)[: self.maker.value(at.number)]
            if len(there) < self.maker.value(at.number):
                raise Maker("too few")
            for place in there:
                self.at = max(self.at, place[-1] + 1)
        elif isinstance(at, Same):
            pass
        else:
            self.places_of(at)
        self.same = same

    def group(self, step: Group) -> None:
        """Do a sequence in one place, for every place of its target."""
        if isinstance(step.at, Ring):
            raise NotMine("a group in a ring")
        for place in self.places_of(step.at):
            self.same = place
            after = self.at
            self.do(step.body)
            self.at = after

    def repeat(self, step: Repeat) -> None:
        """Do steps several times."""
        if isinstance(step.often, Times):
            times = self.maker.value(step.often.number) + (1 if step.often.more else 0)
            for i in range(times):
                if i == times - 1 and step.cut is not None:
                    self.do(step.body[: step.cut])
                else:
                    self.do(step.body)
            return
        assert isinstance(step.often, AsLong)
        stop = self.stop_before(step.often.until)
        self.fence.append(stop)
        at_the_mark = step.cut is None
        while any(open_to_stitches(x) or x.role == "chain" for x in self.into[self.at : stop]):
            how = self.once_more(step)
            at_the_mark = at_the_mark or how == "at the mark"
            if how != "whole":
                break
        self.fence.pop()
        over = self.left_before(stop)
        if names_stitches(step.body):
            over = self.stitches_before(stop)  # such a repeat does not pass over stitches
        if over or not at_the_mark:
            raise Maker("uneven")
        if not isinstance(step.often.until, End):
            self.at = stop

    def once_more(self, step: Repeat) -> str:
        """Work a repeat once; tell whether it was worked whole, or only up to the mark."""
        stop = self.fence[-1]
        at, made, same, noun = self.at, list(self.made), self.same, self.noun
        try:
            self.do(step.body if step.cut is None else step.body[: step.cut])
            self.pass_behind()
            if step.cut is not None:
                if not self.left_before(stop):
                    return "at the mark"
                self.do(step.body[step.cut :])
                self.pass_behind()
        except PastTheEnd:
            self.at, self.made[:], self.same, self.noun = at, made, same, noun
            self.behind = []
            return "not at all"
        if self.at == at:
            raise Maker("a repeat that never ends")
        return "whole"


class PieceMaker:
    """Works the lines of one piece in one size, until something is wrong."""

    def __init__(
        self,
        resolved: Resolved,
        size: int,
        rules: tuple[Rule, ...],
        *,
        chains_too: bool = False,
        taken: Mapping[Switch, Counts] | None = None,
    ) -> None:
        self.resolved = resolved
        self.size = size
        self.rules = list(rules)
        self.chains_too = chains_too
        self.taken = taken or {}  # how chains are taken to count of which nothing is said
        self.slips_count = any(r.topic == "slip stitches" and r.holds for r in rules)
        self.fabric: Fabric | None = None
        self.rows: list[MadeRow] = []
        self.steps_of: dict[int, Steps] = {}
        self.worked: list[tuple[Steps, bool]] = []
        self.lines = 0

    def value(self, number: Number) -> int:
        """Give a number in this size; not in this size is none."""
        values = self.resolved.of(number)
        if values is None:
            raise NotMine("a number that is not known")
        return int(values[self.size] or 0)

    # ------------------------------------------------------------------ lines

    def work(self, section: Section) -> None:
        """Work a section, line by line."""
        self.rules += section.rules
        for course in section.courses:
            i = self.lines
            self.lines += 1
            if course.only and self.resolved.names[self.size] not in course.only:
                continue
            if not self.line(i, course):
                return

    def line(self, i: int, course: Course) -> bool:
        """Work a line; False when something is wrong with it."""
        before = self.count()
        try:
            planned = self.plan(course)
        except Maker as stopped:
            self.rows.append(MadeRow(None, i, [], [], stopped.why))
            return False
        for k, (number, steps, is_round) in enumerate(planned):
            before = self.count()
            start = k == 0 or number is not None
            if not self.row(i, number, steps, is_round=is_round):
                return False
            if start and number is not None:
                self.steps_of[number] = steps
        made = [row for row in self.rows if row.course == i]
        if course.stated is None and any(row.none_of_them for row in made):
            self.rows[-1].trouble = "no place"
            return False
        if planned and course.stated is not None and self.fabric is not None:
            for statement in course.stated.statements:
                if not self.right(statement, before):
                    self.rows[-1].trouble = "count"
                    return False
        return True

    def plan(self, course: Course) -> list[tuple[int | None, Steps, bool]]:
        """List the rows of a line: their numbers and steps."""
        label = course.label
        numbers: list[int | None]
        if label.listed:
            numbers = [self.value(n) for n in label.listed]
        elif label.first is not None and label.last is not None:
            numbers = list(range(self.value(label.first), self.value(label.last) + 1))
        elif label.span is not None:
            last = self.rows[-1].number if self.rows else None
            start = (last or 0) + 1
            numbers = list(range(start, start + self.value(label.span)))
        else:
            numbers = []
        if not isinstance(course.does, RepeatRows):
            if not numbers and label.first is None and label.span is None and not label.listed:
                numbers = [None]
            return [(n, course.does, label.round) for n in numbers]
        return self.again(course.does, numbers, label.round)

    def again(
        self, does: RepeatRows, numbers: list[int | None], is_round: bool
    ) -> list[tuple[int | None, Steps, bool]]:
        """List the rows of a line that works earlier rows again."""
        if does.piece or does.extra or does.until_length is not None or does.until_words:
            raise NotMine("rows of another piece, or to a length")
        cycle: list[Steps] = []
        if does.listed:
            wanted = [self.value(n) for n in does.listed]
        elif does.first is not None and does.last is not None:
            wanted = list(range(self.value(does.first), self.value(does.last) + 1))
        else:
            wanted = []
            assert does.back is not None
            back = self.value(does.back)
            if back > len(self.worked):
                raise Maker("no row")
            cycle = [steps for steps, _ in self.worked[len(self.worked) - back :]]
        for n in wanted:
            if n not in self.steps_of:
                raise Maker("no row")
            cycle.append(self.steps_of[n])
        if not cycle:
            raise Maker("no row")
        if does.often is not None:
            rows = self.value(does.often.number) * len(cycle)
            if numbers and len(numbers) != rows:
                raise Maker("range")
        elif does.until_rows is not None:
            rows = self.value(does.until_rows) - len(self.worked)
        else:
            rows = len(numbers) or len(cycle)
            if rows > len(cycle) and rows % len(cycle):
                raise NotMine("rows that end within their repeat, unsaid")
        last = self.rows[-1].number or 0
        out: list[tuple[int | None, Steps, bool]] = []
        for k in range(rows):
            number = numbers[k] if numbers else last + 1 + k
            out.append((number, cycle[k % len(cycle)], is_round))
        return out

    # ------------------------------------------------------------------ counts

    def count(self) -> int:
        """How many stitches the row made last has."""
        return sum(counts(x) for x in self.fabric.loops) if self.fabric is not None else 0

    def right(self, statement: Statement, before: int) -> bool:
        """Whether a stated count is so."""
        assert self.fabric is not None
        said = self.value(statement.number)
        noun = statement.noun
        row = self.fabric.loops
        if statement.change == "increased":
            return self.count() - before == said
        if statement.change == "decreased":
            return before - self.count() == said
        if noun.thing is Thing.STITCH:
            return said == self.count()
        if noun.thing is Thing.KIND:
            return said == sum(
                counts(x) and (x.kind == noun.kind or plain_kind(x.kind) == noun.kind) for x in row
            )
        if noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE):
            return said == len(spaces(row, noun.chains))
        if noun.thing is Thing.GROUP:  # a stitch that the author defined
            return said == sum(x.kind == noun.kind for x in row)
        raise NotMine("a count of " + noun.thing.value)

    # ------------------------------------------------------------------ rows

    def row(self, course: int, number: int | None, steps: Steps, *, is_round: bool) -> bool:
        """Work one row; False when something is wrong with it."""
        if self.founds(steps):
            return True
        if not any(isinstance(s, Make | Group | Repeat) for s in steps):
            for step in steps:
                if isinstance(step, JoinYarn) and isinstance(step.at, SeamPlace):
                    continue  # the edge was laid out for it
                if type(step).__name__ not in (
                    "FastenOff",
                    "Mark",
                    "Colour",
                    "Remark",
                    "Facing",
                ):
                    raise NotMine(type(step).__name__)
            return True
        self.worked.append((steps, is_round))
        into = self.held(steps, is_round=is_round)
        if len(into) > WIDEST:
            raise NotMine("a row that is too wide for slow work")
        assert self.fabric is not None
        row = RowWorker(into, self, centre=self.fabric.centre)
        done = MadeRow(number, course, row.made, into)
        self.rows.append(done)
        try:
            ring, turned, ahead = self.work_row(row, steps)
        except Maker as stopped:
            done.trouble = stopped.why
            return False
        done.none_of_them = row.none_of_them
        ring = ring or (self.fabric.ring and is_round)
        self.fabric = Fabric(row.made, ring=ring, turned=turned, ahead=ahead)
        return True

    def founds(self, steps: Steps) -> bool:
        """Begin a piece: a chain, a ring of chains or a magic ring on a line of its own."""
        if self.fabric is not None:
            return False
        rest = [s for s in steps if type(s).__name__ not in ("Colour", "Remark", "Facing")]
        if len(rest) == 1 and isinstance(rest[0], MagicRing):
            self.fabric = Fabric([], ring=True, centre=True)
            return True
        if rest and isinstance(rest[0], Chain):
            chain = [Loop("ch", "foundation") for _ in range(self.value(rest[0].count))]
            if len(rest) == 1:
                self.fabric = Fabric(chain, foundation=True)
                return True
            if len(rest) == 2 and isinstance(rest[1], Join):
                self.fabric = Fabric(chain, ring=True, centre=rest[1].ring, foundation=True)
                return True
        raise NotMine("another beginning")

    def held(self, steps: Steps, *, is_round: bool) -> list[Loop]:
        """Give the row below as it is held: its loops in the direction of working."""
        assert self.fabric is not None
        fabric = self.fabric
        said = fabric.turned
        unsaid = True
        for step in steps:
            if isinstance(step, Turn):
                said = said or step.do
                unsaid = step.do
                break
            if isinstance(step, Make | Group | Repeat | Skip | Join):
                break
        loops = fabric.loops
        if fabric.ring:
            return around_and_back(loops) if said else list(loops)
        if fabric.foundation:
            return list(reversed(loops))
        if said or (unsaid and not is_round):
            return list(reversed(loops))
        return list(loops)

    def work_row(self, row: RowWorker, steps: Steps) -> tuple[bool, bool, Chain | None]:
        """Work the steps of a row; tell whether it was joined, turned, and chained on."""
        assert self.fabric is not None
        inner = list(steps)
        turned = False
        joined = False
        ahead: Chain | None = None
        # the end of the row: join, turn and the chain for the next row
        while inner and not isinstance(inner[-1], Make | Group | Repeat | Skip | Leave):
            last = inner.pop()
            if isinstance(last, Turn):
                turned = last.do
            elif isinstance(last, Join):
                joined = True  # a spiral is a ring too
            elif isinstance(last, Chain):
                rest = [s for s in inner if isinstance(s, Join)]
                if turned or (rest and inner[-1] is rest[-1]):
                    ahead = last
                else:
                    inner.append(last)
                    break
        # the beginning of the row
        opening: Chain | None = self.fabric.ahead
        i = 0
        while i < len(inner):
            step = inner[i]
            if isinstance(step, Chain):
                if opening is not None:
                    raise NotMine("two turning chains")
                opening = step
            elif isinstance(step, Make) and step.stitch.kind == "sl_st" and self.fabric.ring:
                row.slip_to_start(step)
            elif not (isinstance(step, Turn) or type(step).__name__ in ("Colour", "Remark")):
                break
            i += 1
        body = tuple(inner[i:])
        if opening is None and body and isinstance(body[0], Repeat):
            if isinstance(body[0].body[0], Chain):
                raise NotMine("a chain that may begin the row, or stand in a repeat")
        first = self.first_stitch(body)
        if self.fabric.foundation and isinstance(first, Make) and isinstance(first.at, Nth):
            body = self.into_foundation(row, body, first)
        elif opening is not None:
            self.turning_chain(row, opening, first)
        row.do(body)
        row.pass_behind()
        if body and isinstance(body[-1], Make) and isinstance(body[-1].at, Each):
            if not isinstance(body[-1].at.until, End):
                row.left = None  # "sc in each st to last 3 sts, turn" says what it leaves
        left = row.left_before(len(row.into))
        if self.fabric.centre or row.swept:
            left = 0
        if joined and self.fabric.ring and left <= loop_at_the_end(row.made):
            left = 0
        if row.left is not None and left != row.left:
            raise Maker("left over")
        return joined, turned, ahead

    def first_stitch(self, steps: Steps) -> Make | None:
        """Give the first stitch of a row."""
        for step in steps:
            if isinstance(step, Make):
                return step
            if isinstance(step, Group | Repeat):
                first = self.first_stitch(step.body)
                if first is not None:
                    return first
        return None

    def into_foundation(self, row: RowWorker, body: Steps, first: Make) -> Steps:
        """Work the first stitch of a foundation: "dc in 4th ch from hook"."""
        assert isinstance(first.at, Nth)
        assert body[0] is first
        nth = self.value(first.at.ordinals[0])
        if nth > len(row.into):
            raise Maker("too few")
        skipped = nth - 1
        counted = self.meaning(first.stitch.kind, skipped, in_foundation=True)
        if counted.stitch:
            if counted.chains > 0:
                raise NotMine("a foundation with a space")
            stands = row.into[:skipped]  # it is made of these chains
            row.made.append(Loop(counted.stitch, "counted chain", stands, chains=skipped))
        row.made += [Loop("ch", "chain") for _ in range(counted.chains)]
        row.at = skipped
        place = row.take(Noun(Thing.CHAIN))
        for _ in range(self.value(first.each)):
            row.put(first, [row.into[i] for i in place])
        return body[1:]

    def turning_chain(self, row: RowWorker, chain: Chain, first: Make | None) -> None:
        """Put the turning chain at the beginning of a row."""
        length = self.value(chain.count)
        kind = first.stitch.kind if first is not None else "sc"
        counted = chain.counts or self.meaning(kind, length, in_foundation=False)
        if counted.stitch:
            base = row.inside(STITCH)
            stands: list[Loop] = []
            if base:
                row.pass_to(base[0])
                stands = [row.into[base[0][0]]]
            elif not row.centre:
                raise Maker("too few")
            name = kind if counted.stitch == "st" else counted.stitch
            row.made.append(Loop(name, "counted chain", stands, chains=length))
        elif length > 1 and not counted.chains:
            row.made.append(Loop("ch", "uncounted chain", chains=length))
        for _ in range(counted.chains):
            row.made.append(Loop("ch", "chain"))

    def meaning(self, kind: str, chains: int, *, in_foundation: bool) -> Counts:
        """Tell what a turning chain counts as that has no remark beside it."""
        if (kind, chains, in_foundation) in self.taken:
            return self.taken[(kind, chains, in_foundation)]
        for rule in reversed(self.rules):
            if rule.topic == "turning chain" and rule.chains in (None, chains):
                assert rule.counts is not None
                return rule.counts
        return customary(kind, chains, in_foundation=in_foundation)[0]
