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
- Of the rows of a schedule ("dec 1 st at each end of every 4th row 3 times") only counts are told.
- A single chain that does not count is too short to be worked into.
- Nothing is known after the first thing that goes wrong, so the work ends there.
"""

# ruff: noqa: EM101, TRY003 - what the maker says when stopped is short and said once

from collections import Counter
from collections.abc import Mapping

from stitchproof.fabric.conventions import Switch, customary
from stitchproof.language.number import Number, Resolved
from stitchproof.language.tree import (
    Chain,
    Counts,
    Course,
    Each,
    End,
    Group,
    Join,
    JoinYarn,
    Label,
    Leave,
    MagicRing,
    Make,
    Noun,
    Nth,
    Repeat,
    RepeatRows,
    Rule,
    SeamPlace,
    Section,
    Shape,
    Skip,
    Statement,
    Step,
    Steps,
    Thing,
    Turn,
)
from tests.second_opinion.loops import (
    STITCH,
    WIDEST,
    Fabric,
    Loop,
    MadeRow,
    Maker,
    NotMine,
    around_and_back,
    counts,
    loop_at_the_end,
    plain_kind,
    spaces,
)
from tests.second_opinion.plain_row import RowWorker


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
        if not isinstance(course.does, RepeatRows):
            shapes = [step for step in course.does if isinstance(step, Shape)]
            if shapes and len(shapes) == len(course.does):
                good = self.scheduled(i, shapes, course.label)
                return good and self.stated(course, before)
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
        return not planned or self.stated(course, before)

    def stated(self, course: Course, before: int) -> bool:
        """Whether a line comes to what it says."""
        if course.stated is not None and self.fabric is not None:
            for statement in course.stated.statements:
                if not self.right(statement, before):
                    self.rows[-1].trouble = "count"
                    return False
        return True

    def covered(self, label: Label) -> int:
        """How many rows a label covers; 0 where it does not say."""
        if label.span is not None:
            return self.value(label.span)
        if label.first is None or label.last is None:
            return 0
        return self.value(label.last) - self.value(label.first) + 1

    def scheduled(self, i: int, shapes: list[Shape], label: Label) -> bool:
        """Work the rows of a line that only tells how the count changes, one after another.

        Where its label covers more rows than one, those behind the last change are worked even.
        """
        assert self.fabric is not None
        kinds = Counter(x.kind for x in self.fabric.loops if counts(x))
        kind = plain_kind(max(kinds, key=lambda name: (kinds[name], name)))
        many = self.covered(label)
        first = self.value(label.first) if label.first is not None else None
        try:
            changes = self.changes(shapes, self.count(), many)
            changes = self.over_all(changes, shapes, many)
        except Maker as stopped:
            self.rows.append(MadeRow(None, i, [], [], stopped.why))
            return False
        count = self.count()
        for k, change in enumerate(changes):
            number = None if first is None else first + k
            count += change
            if count <= 0:
                self.rows.append(MadeRow(None, i, [], [], "too few"))
                return False
            made = [Loop(kind, "stitch") for _ in range(count)]
            self.rows.append(MadeRow(number, i, made, self.fabric.loops, scheduled=True))
            self.fabric = Fabric(made, ring=self.fabric.ring)
        return True

    def over_all(self, changes: list[int], shapes: list[Shape], many: int) -> list[int]:
        """Lay changes over the rows of a label; the first may be in its first row."""
        before_the_first = next((k for k, change in enumerate(changes) if change), 0)
        counted = all(shape.until is None for shape in shapes)
        if counted and 1 < many < len(changes) - before_the_first:
            raise Maker("range")
        return [*changes, *[0] * (max(many, 1) - len(changes))]

    def changes(self, shapes: list[Shape], there: int, many: int = 0) -> list[int]:
        """List by how much each row of the line changes the count, of `many` rows in all."""
        rows: list[int] = []
        begins = 0
        for shape in shapes:
            begins = begins if shape.beside else len(rows)
            sign = 1 if shape.change == "increased" else -1
            at = begins
            for every, times in shape.phases:
                done = 0
                while (
                    done < self.value(times)
                    if times is not None
                    else self.goes_on(shape, there)
                    if shape.until is not None
                    else at + self.value(every) <= many
                ):
                    at += self.value(every)
                    rows += [0] * (at - len(rows))
                    rows[at - 1] += sign * shape.ends * self.value(shape.stitches)
                    there += sign * shape.ends * self.value(shape.stitches)
                    done += 1
            if shape.until is not None and there != self.value(shape.until):
                raise Maker("until")
        return rows

    def goes_on(self, shape: Shape, there: int) -> bool:
        """Whether the stitches are not yet as many, or as few, as a schedule goes on to."""
        assert shape.until is not None
        until = self.value(shape.until)
        return there < until if shape.change == "increased" else there > until

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
        return self.again(course.does, numbers, is_round=label.round)

    def again(  # noqa: C901, PLR0912 - one arm a way of telling how often
        self, does: RepeatRows, numbers: list[int | None], *, is_round: bool
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
            if self.rows[-1].scheduled:
                raise NotMine("rows of a schedule again")
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

    def work_row(  # noqa: C901 - beginning, middle and end
        self, row: RowWorker, steps: Steps
    ) -> tuple[bool, bool, Chain | None]:
        """Work the steps of a row; tell whether it was joined, turned, and chained on."""
        assert self.fabric is not None
        inner, joined, turned, ahead = self.part_off_the_end(steps)
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
        inside = body[0].body[0] if body and isinstance(body[0], Repeat) else None
        if opening is None and isinstance(inside, Chain):
            raise NotMine("a chain that may begin the row, or stand in a repeat")
        first = self.first_stitch(body)
        if self.fabric.foundation and isinstance(first, Make) and isinstance(first.at, Nth):
            body = self.into_foundation(row, body, first)
        elif opening is not None:
            self.turning_chain(row, opening, first)
        row.do(body)
        row.pass_behind()
        where = body[-1].at if body and isinstance(body[-1], Make) else None
        if isinstance(where, Each) and not isinstance(where.until, End):
            row.left = None  # "sc in each st to last 3 sts, turn" says what it leaves
        left = row.left_before(len(row.into))
        if self.fabric.centre or row.swept:
            left = 0
        closed = any(isinstance(step, Join) and step.do for step in steps)
        if closed and self.fabric.ring and left <= loop_at_the_end(row.made):
            left = 0
        if row.left is not None and left != row.left:
            raise Maker("left over")
        return joined, turned, ahead

    def part_off_the_end(self, steps: Steps) -> tuple[list[Step], bool, bool, Chain | None]:
        """Take join, turn and the chain for the next row off the end of a row."""
        inner = list(steps)
        turned = False
        joined = False
        ahead: Chain | None = None
        while inner and not isinstance(inner[-1], Make | Group | Repeat | Skip | Leave):
            last = inner.pop()
            if isinstance(last, Turn):
                turned = last.do
            elif isinstance(last, Join):
                joined = True  # a spiral is a ring too
            elif isinstance(last, Chain):
                if turned or (inner and isinstance(inner[-1], Join)):
                    ahead = last
                else:
                    inner.append(last)
                    break
        return inner, joined, turned, ahead

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
