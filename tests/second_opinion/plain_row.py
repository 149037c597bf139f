"""Works the steps of one row, one stitch after another."""

# ruff: noqa: EM101, TRY003 - what the maker says when stopped is short and said once

from typing import Protocol

from stitchproof.language.number import Number
from stitchproof.language.tree import (
    AsLong,
    Behind,
    Below,
    Chain,
    Each,
    End,
    First,
    Group,
    Last,
    Leave,
    Make,
    Next,
    Noun,
    Nth,
    Origin,
    Repeat,
    Ring,
    RowEnds,
    Same,
    SeamPlace,
    Skip,
    Steps,
    Thing,
    Times,
    ToLast,
)
from stitchproof.language.tree import To as ToNext
from tests.second_opinion.loops import (
    NOTHING_BETWEEN,
    STITCH,
    Loop,
    Maker,
    NotMine,
    PastTheEnd,
    counts,
    names_stitches,
    open_to_stitches,
    places,
    plain_kind,
)


class Size(Protocol):
    """What a row has to know of the size that it is worked in."""

    chains_too: bool
    slips_count: bool

    def value(self, number: Number) -> int:
        """Give a number in this size."""


class RowWorker:
    """Works one row. `at` is the index in `into` before which the hook stands."""

    def __init__(self, into: list[Loop], maker: Size, *, centre: bool) -> None:
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
            if there:
                return there[0][0]
            if self.made and self.every(until.noun):
                raise NotMine("round to where it began")
            raise Maker("no place")
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
            self.draw_all(step, step.at, together, each)
        elif isinstance(step.at, First | Last):
            self.draw_at_an_end(step, step.at, together, each)
        elif isinstance(step.at, Same) and step.at.begins:
            self.draw_on(step, step.at.noun, together, each)
        else:
            raise NotMine("together elsewhere")

    def apart(self, at: Each) -> int:
        """Give how far apart the places are that are worked into."""
        return max(self.maker.value(at.apart), 1)

    def draw_all(self, step: Make, at: Each, together: int, each: int) -> None:
        """Draw all stitches up to a place together, so many in each."""
        if self.apart(at) > 1:
            raise NotMine("drawn together, some left out")
        stop = self.stop_before(at.until)
        if not self.inside(at.noun) and isinstance(at.until, End):
            raise Maker("too few")
        self.fence.append(stop)
        while self.inside(at.noun):
            self.draw_once(step, at.noun, together, each)
        self.fence.pop()

    def draw_at_an_end(self, step: Make, at: First | Last, together: int, each: int) -> None:
        """Draw the first or the last stitches into one."""
        whole = [i for place in self.places_of(at) for i in place]
        if len(whole) != together:
            raise NotMine("together over a named number")
        for _ in range(each):
            self.put(step, [self.into[i] for i in whole])

    def draw_on(self, step: Make, noun: Noun, together: int, each: int) -> None:
        """Draw the stitch worked last and those behind it into one."""
        if not self.same:
            raise Maker("no place")
        took = [self.same[-1]]
        for _ in range(together - 1):
            took += self.take(noun)
        for _ in range(each):
            self.put(step, [self.into[i] for i in took])
        self.same = [took[-1]]

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

    def places_of(  # noqa: C901, PLR0912, PLR0915 - one arm a target
        self, at: object
    ) -> list[list[int]]:
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
            return [place for i, place in enumerate(out) if i % self.apart(at) == 0]
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
            there = self.ahead(Noun(Thing.TURNING_CHAIN))
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
