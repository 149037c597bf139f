"""Courses worked before, and what is known of their steps from reading them once."""

from collections.abc import Hashable, Iterator
from dataclasses import field
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.fabric.founding import founds, joins_yarn, on_named_edge
from stitchproof.fabric.looks import Looks
from stitchproof.fabric.meter import A_ROW, Meter
from stitchproof.fabric.spread import is_spread, spread_as_told
from stitchproof.fabric.tally import smallest_held
from stitchproof.fabric.work import Made
from stitchproof.language.number import Number
from stitchproof.language.tree import (
    Chain,
    Colour,
    Course,
    Either,
    Facing,
    FastenOff,
    Group,
    Join,
    JoinYarn,
    Make,
    Mark,
    Remark,
    Repeat,
    RepeatRows,
    SeamPlace,
    SeamSides,
    SeamTops,
    Skip,
    Stated,
    Step,
    Steps,
    Turn,
)
from stitchproof.language.walk import is_read, look_at

_SAID: Final = (Mark, Remark, Colour, Facing)
MOST_KEPT: Final = 4_000_000  # anchors kept from one proof to the next


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What is known of some steps from reading them once.

    Attributes
    ----------
    steps : Steps
        The steps.
    serial : int
        Equal for equal steps.
    numbers : tuple of Number
        The numbers in them.
    reach : int
        How many edges below the live one they look at.
    doubts : tuple of Either
        Readings in them.
    turn : bool or None
        A turn before the first stitch, done or forbidden; None: none is said.
    rest : Steps
        The steps without that turn.
    facing : str
        Side they say faces the maker.
    closes : bool
        They close a round.
    keeps, cuts, idle : bool
        They say not to turn; they cut the yarn; they only say how the work goes.
    sews, at_seam : bool
        They sew or mark edges of finished pieces; they join yarn where edges were sewn.
    throughout : tuple of Chain
        Turning chains of which they say how they count from here on.
    along : bool
        They work along row ends or the other side of a foundation.
    elsewhere : bool
        They name an earlier row to work into.
    founds, joins, on_named : bool
        They begin a fabric of their own, with yarn joined, on an edge that is only named.
    read : bool
        Every word of them was understood.
    spread : bool
        They spread stitches evenly and do not say how many.
    parts : tuple of Steps
        The steps parted where the work is turned or the round joined and then worked on.
    """

    steps: Steps
    serial: int
    numbers: tuple[Number, ...]
    reach: int
    doubts: tuple[Either, ...]
    turn: bool | None
    rest: Steps
    facing: str
    closes: bool
    keeps: bool
    cuts: bool
    idle: bool
    sews: bool
    at_seam: bool
    throughout: tuple[Chain, ...]
    along: bool
    elsewhere: bool
    founds: bool
    joins: bool
    on_named: bool
    read: bool
    spread: bool
    parts: tuple[Steps, ...]


@dataclass(frozen=True, slots=True)
class Units:
    """What is known of the counts of a line from reading them once.

    Attributes
    ----------
    stated : Stated
        The counts.
    totals : bool
        They count the whole edge, and none is a change.
    alone : bool
        One of them alone counts the whole edge.
    held : int
        Stitches from which those in one place are a group that is counted apart.
    """

    stated: Stated
    totals: bool
    alone: bool
    held: int


@dataclass(slots=True)
class Memory:
    """Courses worked before; belongs to the Desk and may be kept from one proof to the next."""

    made: dict[Hashable, Made] = field(default_factory=dict)
    _facts: dict[int, Facts] = field(default_factory=dict)  # by identity of the steps, kept alive
    _serials: dict[Steps, int] = field(default_factory=dict)
    _told: dict[tuple[int, int], tuple[Steps, Stated, Steps]] = field(default_factory=dict)
    _units: dict[int, Units] = field(default_factory=dict)  # by identity, kept alive
    _anchors: int = 0  # of the edges that were made
    looks: Looks = field(default_factory=Looks)
    meter: Meter = field(default_factory=Meter)  # of the proof at hand
    kept: dict[Hashable, object] = field(default_factory=dict)  # whole pieces of this proof
    kept_before: dict[Hashable, object] = field(default_factory=dict)  # and of the one before
    lines: dict[Hashable, object] = field(default_factory=dict)  # single lines of this proof
    lines_before: dict[Hashable, object] = field(default_factory=dict)  # and of the one before
    deepest: int = 0  # how many edges below the live one any row of the proof at hand looks at
    _numbers: Hashable = None  # what all numbers of the proof at hand come to

    def begin(self, numbers: Hashable, deepest: int) -> None:
        """Begin a proof; forget what earlier ones left when it has become too much.

        Parameters
        ----------
        numbers : hashable
            Stands for what all numbers come to.
        deepest : int
            How many edges below the live one any row looks at.
        """
        self.meter = Meter()
        self.kept_before, self.kept = self.kept, {}
        same = numbers == self._numbers and deepest == self.deepest
        self.lines_before, self.lines = self.lines if same else {}, {}
        self._numbers, self.deepest = numbers, deepest
        if self._anchors + A_ROW * (len(self._facts) + len(self.looks)) > MOST_KEPT:
            self.made.clear()
            self._anchors = 0
            self._facts.clear()
            self._serials.clear()
            self._told.clear()
            self._units.clear()
            self.looks.clear()
            self.kept_before.clear()
            self.lines_before.clear()

    def made_before(self, key: Hashable, steps: Steps) -> Made | None:
        """Give what equal steps have made where all else was equal too, if they were worked."""
        return self.made.get(key) or self.made.get((key, id(steps)))

    def keep_made(self, key: Hashable, steps: Steps, made: Made) -> None:
        """Keep what steps have made, under all that decides it."""
        # what fails points at its words: equal steps elsewhere have words of their own
        self.made[(key, id(steps)) if made.troubles else key] = made
        self._anchors += len(made.edge) if made.edge is not None else 0

    def facts(self, steps: Steps) -> Facts:
        """Look at steps once, however often they are worked."""
        known = self._facts.get(id(steps))
        if known is None:
            turn, rest = _turn_before(steps)
            seen = look_at(rest)
            known = Facts(
                steps=steps,
                serial=self._serials.setdefault(rest, len(self._serials)),
                numbers=seen.numbers,
                reach=seen.reach,
                doubts=seen.doubts,
                turn=turn,
                rest=rest,
                facing=_facing(rest),
                closes=any(isinstance(s, Join) and s.do for s in rest),
                keeps=any(isinstance(s, Turn) and not s.do for s in rest),
                cuts=any(isinstance(s, FastenOff) and s.do for s in rest),
                idle=_is_idle(rest),
                sews=any(map(_sews, steps)),
                at_seam=any(isinstance(s, JoinYarn) and isinstance(s.at, SeamPlace) for s in steps),
                throughout=tuple(filter(_holds_on, _chains(steps))),
                along=seen.along,
                elsewhere=seen.elsewhere,
                founds=founds(rest),
                joins=joins_yarn(rest),
                on_named=on_named_edge(rest),
                read=seen.read,
                spread=is_spread(steps),
                parts=_parts(steps),
            )
            self._facts[id(steps)] = known
        return known

    def reads(self, course: Course) -> bool:
        """Whether every word of a line was understood."""
        does = course.does
        return is_read(does) if isinstance(does, RepeatRows) else self.facts(does).read

    def units(self, stated: Stated) -> Units:
        """Look at what a line states once, in however many sizes it is counted."""
        known = self._units.get(id(stated))
        if known is None:
            statements = stated.statements
            totals = any(s.total for s in statements) and not any(s.change for s in statements)
            alone = sum(not s.each for s in statements) == 1
            known = Units(stated, totals=totals, alone=alone, held=smallest_held(stated))
            self._units[id(stated)] = known
        return known

    def told(self, steps: Steps, stated: Stated) -> Steps:
        """Give stitches that are spread evenly the number that their line states, once."""
        key = (id(steps), id(stated))
        if key not in self._told:
            self._told[key] = steps, stated, spread_as_told(steps, stated)
        return self._told[key][-1]


def _turn_before(steps: Steps) -> tuple[bool | None, Steps]:
    """Take a turn that stands before the first stitch out of the steps."""
    for i, step in enumerate(steps):
        if isinstance(step, Turn):
            if any(isinstance(s, Make | Group | Repeat | Skip | Join) for s in steps[i + 1 :]):
                return step.do, (*steps[:i], *steps[i + 1 :])
            break
        if isinstance(step, Make | Group | Repeat | Skip | Either):
            break
    return None, steps


def _parts(steps: Steps) -> tuple[Steps, ...]:
    """Part steps where a row is turned, or a round joined, and then worked on."""
    parts: list[Steps] = []
    start, works = 0, False
    for i, step in enumerate(steps):
        if isinstance(step, Make | Group | Repeat | Skip | Either):
            works = True
        ends = (isinstance(step, Turn) and step.do) or (
            isinstance(step, Join) and step.do and not step.ring
        )
        if ends and works and _works_on(steps[i + 1 :]):
            after = i + 1
            if isinstance(step, Join) and after < len(steps) and isinstance(steps[after], Turn):
                after += 1
            parts.append(steps[start:after])
            start, works = after, False
    return (*parts, steps[start:]) if parts else (steps,)


def _works_on(steps: Steps) -> bool:
    return any(isinstance(s, Make | Group | Repeat | Either) for s in steps)


def _sews(step: Step) -> bool:
    marks = isinstance(step, Mark) and step.rows is not None
    return marks or isinstance(step, SeamTops | SeamSides)


def _chains(steps: Steps) -> Iterator[Chain]:
    return (step for step in steps if isinstance(step, Chain))


def _holds_on(chain: Chain) -> bool:
    return chain.counts is not None and chain.counts.throughout


def _is_idle(steps: Steps) -> bool:
    """Whether steps only say how the work goes: `Do not join; move the marker up`."""
    return all(
        isinstance(s, _SAID) or (isinstance(s, Join | Turn | FastenOff) and not s.do) for s in steps
    )


def _facing(steps: Steps) -> str:
    for step in steps:
        if isinstance(step, Facing):
            return step.side
        if isinstance(step, JoinYarn) and step.facing:
            return step.facing
    return ""
