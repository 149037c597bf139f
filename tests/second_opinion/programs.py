"""Makes patterns as trees: workable ones by choice after choice, and the same with a mistake.

A designer is asked for rows one after another. It knows what lies on the edge because the plain
worker works every row as soon as it is designed, so that the next one can be made to come out.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, fields, is_dataclass, replace
from typing import TypeVar, cast

from stitchproof.language.manuscript import Manuscript
from stitchproof.language.number import ONE, Number, NumberKind, Resolved
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
    Label,
    Last,
    Leave,
    Loop,
    MagicRing,
    Make,
    Next,
    Noun,
    Nth,
    Origin,
    Post,
    Repeat,
    RepeatRows,
    Ring,
    Rule,
    Same,
    Section,
    Shape,
    Skip,
    Stated,
    Statement,
    Step,
    Steps,
    Stitch,
    Thing,
    Times,
    ToLast,
    Turn,
)
from tests.second_opinion.loops import Loop as Made
from tests.second_opinion.loops import counts, open_to_stitches
from tests.second_opinion.plain_row import RowWorker
from tests.second_opinion.plain_worker import PieceMaker

Tree = TypeVar("Tree")
Roll = Callable[[int], int]  # gives a number from 0 up to below what it is given

CHAIN = Noun(Thing.CHAIN)
STITCH = Noun(Thing.STITCH)
SPACE = Noun(Thing.SPACE)
HEIGHTS = {"sc": 1, "hdc": 2, "dc": 3}


@dataclass
class Program:
    """A pattern of one piece."""

    section: Section
    resolved: Resolved
    rules: tuple[Rule, ...] = ()

    @property
    def manuscript(self) -> Manuscript:
        """The pattern as a manuscript that was read."""
        return Manuscript(
            source="program",
            text="",
            front=None,
            terms="US",
            blocks=(),
            sections=(self.section,),
            rules=self.rules,
        )


def per_size(*values: int, times: bool = False) -> Number:
    """A number of the pattern, one for all sizes where it is the same in all."""
    kind = NumberKind.TIME if times else NumberKind.COUNT
    if len(set(values)) == 1:
        return Number(value=(values[0],), kind=kind, spelling=str(values[0]))
    return Number(value=values, kind=kind, spelling=str(values))


def plain(value: int) -> Number:
    """A number that is the same in all sizes."""
    return per_size(value)


@dataclass(frozen=True)
class Unit:
    """Part of a row: its steps, and what it takes of the edge."""

    steps: Steps
    takes: int


@dataclass
class Opening:
    """How a row begins."""

    kind: str
    chain: Chain | None
    stands: bool  # the chain counts, and takes the first stitch


@dataclass
class Designer:
    """Designs a piece, row by row."""

    roll: Roll
    stated_openwork: bool = True
    unsaid: bool = True  # turning chains may go without a remark
    sizes: int = 1
    round: bool = False
    spiral: bool = False
    style: str = "end"
    number: list[int] = field(default_factory=list)  # of the row worked last, in each size
    courses: list[Course] = field(default_factory=list)
    makers: list[PieceMaker] = field(default_factory=list)
    again: list[tuple[list[int], bool]] = field(default_factory=list)  # rows that fit any edge
    ahead: Opening | None = None
    rules: tuple[Rule, ...] = ()

    # ------------------------------------------------------------------ a piece

    def design(self) -> Program:
        """Design a piece."""
        self.sizes = 1 + self.roll(3)
        names = tuple("ABC"[: self.sizes])
        resolved = Resolved(sizes=names, chosen=tuple(range(self.sizes)))
        self.round = bool(self.roll(2))
        self.spiral = self.round and not self.roll(4)
        self.style = ("end", "start", "unsaid", "ahead")[self.roll(4)]
        if not self.roll(4):
            self.rules = (Rule("turning chain", counts=Counts(""), chains=2),)
        self.number = [0] * self.sizes
        self.makers = [PieceMaker(resolved, i, self.rules) for i in range(self.sizes)]
        self.begin()
        for _ in range(1 + self.roll(5)):
            if min(maker.count() for maker in self.makers) < 3:
                break
            self.add_row()
        section = Section("Piece", 2, "Piece", ONE, tuple(self.courses))
        return Program(section, resolved, self.rules)

    def add(self, course: Course, *, fits_any: bool = False) -> None:
        """Put a line into the piece and work it."""
        i = len(self.courses)
        for maker in self.makers:
            assert maker.line(i, course), (maker.rows[-1].trouble, maker.size, self.courses, course)
        self.courses.append(course)
        rows = [maker.rows[-1].number or 0 for maker in self.makers if maker.rows]
        if rows and course.label.first is not None:
            self.number = rows
            scheduled = self.makers[0].rows[-1].scheduled
            if not isinstance(course.does, RepeatRows) and not scheduled:
                self.again.append((rows, fits_any))

    def label(self, rows: list[int] | None = None) -> Label:
        """Label the next row, or the next few."""
        first = [n + 1 for n in self.number]
        last = [a + r - 1 for a, r in zip(first, rows or [1] * self.sizes, strict=True)]
        return Label("Row", per_size(*first), per_size(*last), round=self.round)

    def begin(self) -> None:
        """Begin with a chain and a row into it, or with a ring and a round into it."""
        count = [4 + self.roll(24) for _ in range(self.sizes)]
        kind = ("sc", "hdc", "dc")[self.roll(3)]
        stitch = Stitch(kind)
        if self.round and self.roll(2):
            self.add(Course(Label("Ring"), (MagicRing(),)))
            opening = self.opening(kind)
            into = [n - opening.stands for n in count]
            steps = (*self.opened(opening), Make(stitch, per_size(*into), Ring()))
            self.close(steps, fits_any=False)
            return
        nth = {"sc": 2, "hdc": 3, "dc": 4}[kind]
        if self.round:
            self.add(Course(Label("Ch"), (Chain(per_size(*count)), Join(First(noun=CHAIN)))))
            opening = self.opening("sc")
            steps = (*self.opened(opening), Make(Stitch("sc"), ONE, Each(CHAIN)))
            self.close(steps, fits_any=False)
            return
        self.add(Course(Label("Ch"), (Chain(per_size(*(n + nth for n in count))),)))
        first = Make(stitch, ONE, Nth((plain(nth),)))
        self.close((first, Make(stitch, ONE, Each(CHAIN))), fits_any=False)

    # ------------------------------------------------------------------ a row

    def opening(self, kind: str) -> Opening:
        """Choose a turning chain for a row of a stitch."""
        if self.spiral:
            return Opening(kind, None, stands=False)
        if kind == "sc":
            return Opening(kind, Chain(ONE), stands=False)
        height = HEIGHTS[kind]
        way = self.roll(4 if self.unsaid else 3)
        if way == 0:
            return Opening(kind, Chain(plain(height), Counts(kind)), stands=True)
        if way == 1:
            return Opening(kind, Chain(plain(2), Counts("")), stands=False)
        if way == 2:
            return Opening(kind, Chain(plain(height + 1), Counts(kind, chains=1)), stands=True)
        return Opening(kind, Chain(plain(height)), stands=kind == "dc")

    def opened(self, opening: Opening) -> Steps:
        """Give the steps that a row begins with."""
        if self.ahead is not None or opening.chain is None:
            return ()
        if self.style == "start" and not self.round:
            turn = Turn()
            return (opening.chain, turn) if self.roll(2) else (turn, opening.chain)
        return (opening.chain,)

    def close(  # noqa: C901 - one arm a way to end
        self, steps: Steps, *, fits_any: bool
    ) -> None:
        """End a row and add it."""
        end: list[Step] = []
        ahead: Opening | None = None
        if self.spiral:
            if not self.roll(3):
                end.append(Join(do=False))
        elif self.round:
            end.append(Join() if self.roll(3) else Join(First()))
            if not self.roll(5):
                end.append(Turn())
        elif self.style == "end":
            end.append(Turn())
        elif self.style == "ahead":
            ahead = self.opening(("sc", "hdc", "dc")[self.roll(3)])
            assert ahead.chain is not None
            end += [ahead.chain, Turn()]
        fits_any = fits_any and self.style != "ahead"
        rows = None
        if fits_any and not self.roll(3):
            rows = [1 + self.roll(3) for _ in range(self.sizes)]
        course = Course(self.label(rows), (*steps, *end))
        self.ahead = ahead
        # the count is what the plain worker makes; the fabric has to come to the same
        before = [m.fabric for m in self.makers]
        kept = [(list(m.rows), list(m.worked), dict(m.steps_of)) for m in self.makers]
        for maker in self.makers:
            worked = maker.line(len(self.courses), course)
            assert worked, (maker.rows[-1].trouble, maker.size, self.courses, course)
        stated = [maker.count() for maker in self.makers]
        openwork = any(x.role == "chain" for m in self.makers if m.fabric for x in m.fabric.loops)
        for maker, fabric, (r, w, s) in zip(self.makers, before, kept, strict=True):
            maker.fabric, maker.rows, maker.worked, maker.steps_of = fabric, r, w, s
        if self.roll(4) and (self.stated_openwork or not openwork):
            said = Statement(per_size(*stated), unit="st")
            course = replace(course, stated=Stated((said,)))
        self.add(course, fits_any=fits_any)

    def add_row(self) -> None:
        """Design one more row."""
        if self.again and self.ahead is None and not self.roll(6) and self.repeat_rows():
            return
        held = [self.held(maker) for maker in self.makers]
        solid = not any(x.role == "chain" for row in held for x in row)
        if solid and self.ahead is None and not self.round and not self.roll(6):
            self.add_schedules()
            return
        opening = self.ahead or self.opening(("sc", "hdc", "dc")[self.roll(3)])
        steps = self.opened(opening)
        if not solid:
            body, fits_any = self.openwork(opening, held)
        else:
            body, fits_any = self.solid(opening, held)
        self.ahead = None
        self.close((*steps, *body), fits_any=fits_any)

    def add_schedules(self) -> None:
        """Shape over many rows by schedules, one after another or side by side."""
        shapes: list[Shape] = []
        least = min(maker.count() for maker in self.makers)
        for _ in range(1 + self.roll(3)):
            ends = 1 + self.roll(2)
            often = [1 + self.roll(3) for _ in range(self.sizes)]
            falls = least > ends * max(often) + 2 and not self.roll(2)
            least -= ends * max(often) if falls else 0
            phases = ((plain(1 + self.roll(5)), per_size(*often)), (plain(2), ONE))
            shape = Shape(
                "decreased" if falls else "increased",
                ONE,
                phases[: 1 + (not falls and self.roll(2))],
                ends=ends,
                beside=bool(shapes) and bool(self.roll(2)),
            )
            shapes.append(shape)
        if len(shapes) == 1 and not self.roll(2):
            shapes = [self.to_a_count(shapes[0])]
        label = Label("Shape")
        if self.roll(2):
            label, shapes = self.over_rows(shapes)
        course = Course(label, tuple(shapes))
        if self.roll(2):
            by = [
                sum(maker.changes(shapes, maker.count(), maker.covered(label)))
                for maker in self.makers
            ]
            there = [m.count() + change for m, change in zip(self.makers, by, strict=True)]
            said = Statement(per_size(*there), unit="st")
            course = replace(course, stated=Stated((said,)))
        self.add(course)

    def over_rows(self, shapes: list[Shape]) -> tuple[Label, list[Shape]]:
        """Label all the rows of schedules, and maybe some that are worked even behind them."""
        rows = [len(maker.changes(shapes, maker.count())) for maker in self.makers]
        if min(rows) < 2:
            return Label("Shape"), shapes
        more = self.roll(4)
        single = len(shapes) == 1 and shapes[0].until is None
        if single and not more and self.roll(2):  # as often as the rows allow
            ((*earlier, (every, _)),) = (shapes[0].phases,)
            shapes = [replace(shapes[0], phases=(*earlier, (every, None)))]
        return self.label([many + more for many in rows]), shapes

    def to_a_count(self, shape: Shape) -> Shape:
        """Let a schedule go on until a count instead of so many times."""
        ends = [m.count() + sum(m.changes([shape], m.count())) for m in self.makers]
        (every, _), *_ = reversed(shape.phases)
        return replace(shape, phases=(*shape.phases[:-1], (every, None)), until=per_size(*ends))

    def held(self, maker: PieceMaker) -> list[Made]:
        """The edge that the next row meets."""
        flat = self.style == "start" and not self.round
        return maker.held((Turn(),) if flat else (), is_round=self.round)

    def repeat_rows(self) -> bool:
        """Work a row again that fits any edge; False when there is none."""
        fit = [rows for rows, fits in self.again if fits and len(set(rows)) == 1]
        if not fit:
            return False
        n = fit[self.roll(len(fit))][0]
        rows = [1 + self.roll(3) for _ in range(self.sizes)]
        label = self.label(rows)
        does = RepeatRows(first=plain(n), last=plain(n))
        if self.roll(2):
            does = replace(does, often=Times(per_size(*rows, times=True)))
        scheduled = self.makers[0].rows[-1].scheduled
        last = not scheduled and all(self.number[i] == n for i in range(self.sizes))
        if last and self.roll(2):
            does = RepeatRows(back=ONE, often=Times(per_size(*rows, times=True), more=True))
        self.add(Course(label, does))
        return True

    # ------------------------------------------------------------------ rows on stitches alone

    def solid(self, opening: Opening, held: list[list[Made]]) -> tuple[Steps, bool]:
        """Design a row on an edge without spaces."""
        there = [sum(open_to_stitches(x) for x in row) - opening.stands for row in held]
        stitch = Stitch(opening.kind)
        way = self.roll(8)
        least = min(there)
        if way == 1 and least >= 5:
            return self.shaped(stitch, at_first=not opening.stands), False
        if way == 2 and least >= 4 and not self.round:
            leave = 1 + self.roll(2)
            makes = Make(stitch, ONE, Next(per_size(*(n - leave for n in there))))
            return (makes, Leave(plain(leave) if self.roll(2) else None)), False
        if way == 3 and all(n % 2 == 0 and n > 2 for n in there):
            return (Make(replace(stitch, together=2), ONE, Each()),), False
        if way >= 4 and least >= 3:
            row = self.repeated(opening.kind, there, self.may_look_below(held))
            if row is not None:
                return row, False
        loops = (Loop.BOTH, Loop.BACK, Loop.FRONT)[self.roll(3)]
        kinds = {x.kind for row in held for x in row if open_to_stitches(x)}
        noun = STITCH
        if len(kinds) == 1 and not self.roll(3):
            noun = Noun(Thing.KIND, next(iter(kinds)))
        apart = plain(2 + self.roll(2)) if way == 0 and self.roll(2) else ONE
        each = Make(replace(stitch, loop=loops), ONE, Each(noun, apart=apart))
        if opening.stands and not self.roll(3):
            return (Skip(First()), each), noun == STITCH
        if way == 0 and not self.roll(3):
            inner = (Make(stitch, ONE, Same()), Chain(ONE), Make(stitch, ONE, Same()))
            return (Group(inner, Each()),), False
        return (each,), noun == STITCH

    def shaped(self, stitch: Stitch, *, at_first: bool) -> Steps:
        """Increase or decrease at both ends."""
        together = replace(stitch, together=2)
        first: Step = Make(stitch, plain(2), Next())
        last: Step = Make(stitch, plain(2), Last())
        over = 1
        if self.roll(2):
            first = Make(together, ONE, Next())
        elif at_first and self.roll(2):
            first = Make(stitch, plain(3), First())
        if self.roll(2):
            last, over = Make(together, ONE, Next()), 2
        return (first, Make(stitch, ONE, Each(until=ToLast(plain(over)))), last)

    def may_look_below(self, held: list[list[Made]]) -> int:
        """How many rows down there is one stitch below another everywhere, 3 at most; 0: none."""
        deep = 0
        rows = held
        for rows_down in (2, 3):
            every = [x for row in rows for x in row]
            if not all(
                len(x.into) == 1 and counts(x.into[0]) and x.over is None and counts(x)
                for x in every
            ):
                break
            deep = rows_down
            rows = [[x.into[0] for x in row] for row in rows]
        return deep

    def drawn_together(self, stitch: Stitch) -> Unit:
        """Draw stitches into one, and maybe the last of them again with those behind it."""
        together = 2 + self.roll(2)
        drawn = Make(replace(stitch, together=together), ONE, Next())
        if self.roll(3):
            return Unit((drawn,), together)
        return Unit((drawn, replace(drawn, at=Same(begins=True))), 2 * together - 1)

    def unit(  # noqa: C901 - one arm a unit
        self, kind: str, *, below: int, deep: int = 0
    ) -> Unit:
        """Design a small part of a row."""
        stitch = Stitch(kind)
        way = self.roll(12)
        if way == 1:
            return Unit((Make(stitch, plain(2 + self.roll(2)), Next()),), 1)
        if way == 2:
            return self.drawn_together(stitch)
        if way == 3:
            gap = 1 + self.roll(3)
            skip = Skip(Next(plain(gap)))
            return Unit((Chain(plain(1 + self.roll(3))), skip, Make(stitch, ONE, Next())), gap + 1)
        if way == 4:
            inner = (
                Make(stitch, plain(1 + self.roll(2)), Same()),
                Chain(plain(1 + self.roll(2))),
                Make(stitch, ONE, Same()),
            )
            return Unit((Group(inner, Next()),), 1)
        if way == 5:
            steps = (
                Skip(Next(plain(2))),
                Make(Stitch("dc"), plain(5), Next()),
                Skip(Next(plain(2))),
                Make(Stitch("sc"), ONE, Next()),
            )
            return Unit(steps, 6)
        if way == 6:
            n = 1 + self.roll(3)
            return Unit((Make(replace(stitch, loop=Loop.BACK), ONE, Next(plain(n))),), n)
        if way == 7:
            post = Stitch("dc", post=(Post.FRONT, Post.BACK)[self.roll(2)])
            at = Below(ONE, Next()) if self.roll(2) else Next()
            return Unit((Make(post, ONE, at),), 1)
        if way == 8 and below:
            rows = plain(2 + self.roll(below - 1))
            around = Make(Stitch("tr", post=Post.FRONT), ONE, Below(rows, Next()))
            skip = Skip(Behind()) if self.roll(2) else Skip(Next())
            return Unit((around, skip), 1)
        if way == 9 and deep < 2:
            units = [self.unit(kind, below=below, deep=deep + 1) for _ in range(1 + self.roll(2))]
            times = 1 + self.roll(3)
            more = bool(self.roll(2))
            body = tuple(s for u in units for s in u.steps)
            often = Times(per_size(times - more, times=True), more=more)
            return Unit((Repeat(body, often, "["),), times * sum(u.takes for u in units))
        if way == 10:
            n = 2 + self.roll(2)
            nth = Nth((plain(n),), STITCH, Origin.HERE)
            return Unit((Make(stitch, ONE, nth),), n)
        if way == 11:
            return Unit((Chain(ONE), Make(stitch, ONE, Next())), 1)
        n = 1 + self.roll(3)
        return Unit((Make(stitch, ONE, Next(plain(n))),), n)

    def repeated(self, kind: str, there: list[int], below: int) -> Steps | None:
        """Design a repeat that comes out in every size; None when it cannot."""
        units = [self.unit(kind, below=below) for _ in range(1 + self.roll(3))]
        takes = sum(u.takes for u in units)
        cut = 1 + self.roll(len(units) - 1) if len(units) > 1 and not self.roll(3) else None
        partly = sum(u.takes for u in units[:cut]) if cut is not None else 0
        last = 0 if cut is not None else self.roll(3)
        before = [1 + (n - 1 - last - partly) % takes for n in there]
        times = [(n - p - last - partly) // takes for n, p in zip(there, before, strict=True)]
        if min(times) < 1:
            return None
        body = tuple(s for u in units for s in u.steps)
        steps = sum(len(u.steps) for u in units[:cut]) if cut is not None else None
        often: AsLong | Times
        way = self.roll(3)
        if cut is not None:
            times = [t + 1 for t in times]
        if way == 0:
            often = Times(per_size(*times, times=True))
        elif way == 1:
            often = Times(per_size(*(t - 1 for t in times), times=True), more=True)
        else:
            often = AsLong(ToLast(plain(last)) if last else End())
        stitch = Stitch(kind)
        row: list[Step] = [
            Make(stitch, ONE, Next(per_size(*before))),
            Repeat(body, often, "*", steps),
        ]
        if last:
            row.append(Make(stitch, ONE, (Next, Last)[self.roll(2)](plain(last))))
        return tuple(row)

    # ------------------------------------------------------------------ rows on spaces

    def openwork(self, opening: Opening, held: list[list[Made]]) -> tuple[Steps, bool]:
        """Design a row on an edge with spaces."""
        stitch = Stitch(opening.kind)
        way = self.roll(5)
        things = [self.things(opening, row) for row in held]
        if way == 0 and all("P" in t for t in things):
            return (Make(stitch, plain(1 + self.roll(3)), Each(SPACE)),), False
        if way == 1 and all("P" in t[:-1] and t[-1] == "s" for t in things):
            inner = (Make(stitch, ONE, Same()), Chain(plain(2)), Make(stitch, ONE, Same()))
            group = Group(inner, Each(SPACE, ToLast()))
            return (group, Make(stitch, ONE, Last())), False
        if way == 2:
            noun = Noun(Thing.STITCH_OR_CHAIN)
            if all(t for t in things):
                return (Make(stitch, ONE, Each(noun)),), False
        if way >= 3:
            row = self.patterned(stitch, things)
            if row is not None:
                return row, False
        if all("s" in t for t in things):
            return (Make(stitch, ONE, Each()),), True
        return (), False

    def things(self, opening: Opening, row: list[Made]) -> str:
        """Spell what lies before the hook: s for a stitch, P for a space."""
        worker = RowWorker(row, self.makers[0], centre=False)
        if opening.stands:
            first = worker.inside(STITCH)
            if first:
                worker.pass_to(first[0])
        out = ""
        for i in range(worker.at, len(row)):
            if open_to_stitches(row[i]):
                out += "s"
            elif row[i].role == "chain" and (
                i == 0 or row[i - 1].role != "chain" or i == worker.at
            ):
                out += "P"
        return out

    def patterned(self, stitch: Stitch, things: list[str]) -> Steps | None:
        """Find a repeat in what lies there and follow it; None when there is none."""
        for before in range(4):
            for after in range(3):
                for long in range(1, 7):
                    one = things[0][before : before + long]
                    if "P" not in one or len(one) < long:
                        continue
                    if all(_fits(t, before, one, after) for t in things):
                        return self.following(stitch, things, before, one, after)
        return None

    def following(
        self, stitch: Stitch, things: list[str], before: int, one: str, after: int
    ) -> Steps:
        """Give steps that follow a repeat of stitches and spaces."""
        body: list[Step] = []
        for i, thing in enumerate(one):
            if thing == "P":
                way = self.roll(2 if self.spiral and not body else 3)
                if way == 0:
                    body.append(Make(stitch, plain(1 + self.roll(4)), Next(noun=SPACE)))
                elif way == 1:
                    inner = (
                        Make(stitch, plain(2), Same()),
                        Chain(plain(1 + self.roll(3))),
                        Make(stitch, plain(2), Same()),
                    )
                    body.append(Group(inner, Next(noun=SPACE)))
                else:
                    body += [Chain(plain(2)), Skip(Next(noun=SPACE))]
            elif self.roll(3) or i == 0:
                body.append(Make(stitch, ONE, Next()))
            else:
                body += [Chain(ONE), Skip(Next())]
        steps: list[Step] = []
        if before:
            steps.append(Make(stitch, ONE, Next(plain(before))))
        times = [(len(t) - before - after) // len(one) for t in things]
        often: AsLong | Times = Times(per_size(*times, times=True))
        if self.roll(2):
            often = AsLong(ToLast(plain(after)) if after else End())
        steps.append(Repeat(tuple(body), often, "*"))
        if after:
            steps.append(Make(stitch, ONE, Next(plain(after))))
        return tuple(steps)


def _fits(things: str, before: int, one: str, after: int) -> bool:
    middle = things[before : len(things) - after]
    return (
        len(things) >= before + after + len(one)
        and set(things[:before]) <= {"s"}
        and set(things[len(things) - after :]) <= {"s"}
        and len(middle) % len(one) == 0
        and middle == one * (len(middle) // len(one))
    )


# --------------------------------------------------------------------------- mistakes


def many_meanings(node: object) -> bool:
    """Whether it is a chain of which nothing is said: a longer one could mean several things."""
    return isinstance(node, Chain) and node.counts is None and node.count.value == (1,)


def numbers_in(node: object) -> Iterator[Number]:
    """Every number of a tree that can be wrong, in order."""
    if many_meanings(node):
        return
    if isinstance(node, Number):
        yield node
    elif isinstance(node, tuple):
        for part in node:
            yield from numbers_in(part)
    elif is_dataclass(node):
        for f in fields(node):
            yield from numbers_in(getattr(node, f.name))


def with_number(node: object, at: list[int], new: Callable[[Number], Number]) -> object:
    """Give a tree with the number at a count-down changed."""
    if many_meanings(node):
        return node
    if isinstance(node, Number):
        at[0] -= 1
        return new(node) if at[0] == -1 else node
    if isinstance(node, tuple):
        return tuple(with_number(part, at, new) for part in node)
    if is_dataclass(node) and not isinstance(node, type):
        changes = {f.name: with_number(getattr(node, f.name), at, new) for f in fields(node)}
        return replace(node, **changes)
    return node


def damaged(program: Program, roll: Roll) -> Program:
    """Put one small mistake into one line of a program."""
    courses = list(program.section.courses)
    i = 1 + roll(len(courses) - 1) if len(courses) > 1 else 0
    course = courses[i]
    sizes = len(program.resolved.sizes)
    way = roll(3)
    if way == 0 and isinstance(course.does, tuple):
        makes = [k for k, s in enumerate(course.does) if isinstance(s, Make | Skip | Group)]
        if len(makes) > 1:
            k = makes[roll(len(makes))]
            courses[i] = replace(course, does=(*course.does[:k], *course.does[k + 1 :]))
    elif way == 1 and isinstance(course.does, tuple):
        makes = [k for k, s in enumerate(course.does) if isinstance(s, Make | Skip | Group)]
        if makes:
            k = makes[roll(len(makes))]
            courses[i] = replace(course, does=(*course.does[: k + 1], *course.does[k:]))
    elif course.stated is not None and roll(2):
        courses[i] = replace(course, stated=_changed(course.stated, roll, sizes))
    else:
        courses[i] = replace(course, does=_changed(course.does, roll, sizes))
    section = replace(program.section, courses=tuple(courses))
    return replace(program, section=section)


def _changed(node: Tree, roll: Roll, sizes: int) -> Tree:
    """Change one number of a tree by a little, in one size or in all."""
    there = len(list(numbers_in(node)))
    if there == 0:
        return node
    at, by = roll(there), (1, -1, 2)[roll(3)]
    one = roll(sizes + 1)

    def new(number: Number) -> Number:
        assert isinstance(number.value, tuple)
        least = 0 if number.kind is NumberKind.TIME else 1
        values = number.value if len(number.value) == sizes else number.value * sizes
        changed = [
            max(int(v or 0) + by, least) if one in (k, sizes) else int(v or 0)
            for k, v in enumerate(values)
        ]
        return per_size(*changed, times=number.kind is NumberKind.TIME)

    return cast("Tree", with_number(node, [at], new))
