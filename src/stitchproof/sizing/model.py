"""What sizing gives: every measure and every count in every size, and where each came from.

S is the number of sizes of the manuscript. Every tuple marked (S,) has one entry a size, in the
order of `Sizing.sizes`, also for sizes that are not worked now; `chosen` picks those that are.
Lengths are exact fractions of a millimetre, so nothing is rounded before it is printed.
"""

from collections.abc import Mapping
from dataclasses import field
from enum import Enum
from fractions import Fraction
from types import MappingProxyType
from typing import Final, TypeAlias, TypeVar

from stitchproof.base.place import NOWHERE, Span
from stitchproof.base.records import dataclass
from stitchproof.language.number import Resolved

Lengths: TypeAlias = tuple[Fraction | None, ...]  # (S,) [mm]; None: could not be worked out
_T = TypeVar("_T")

_NOTHING: Final[Mapping[str, str]] = MappingProxyType({})


class Worked(Enum):
    """How a fabric is worked."""

    FLAT = "flat"
    ROUND = "round"


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """The gauge of one fabric, as `[swatch.<name>]` states it.

    Attributes
    ----------
    name : str
        Key of the table.
    stitch : str
        What it was worked in, in the author's words; empty when not said.
    hook : str
        Key of `[hooks]`, or a size in words; empty when not said.
    hook_mm : Fraction or None
        Size of that hook [mm].
    yarn : str
        Key of `[yarn.<key>]`; the first yarn when not said, empty when there is none.
    worked : Worked
        Flat or in the round; flat when not said.
    stitches, rows : Fraction or None
        How many of them are `over_mm` wide and high; None when not said.
    over_mm : Fraction
        The width and height they were counted over [mm].
    over : str
        The author's words for it ("10 cm").
    after : str
        "blocking" and the like; empty when not said.
    before_stitches, before_rows : Fraction or None
        The same counts before blocking, where said.
    mass_g, minutes : Fraction or None
        Mass of a square of `over_mm` a side [g], and the time it takes [min], where said.
    place : Span
        The table.
    """

    name: str
    stitch: str = ""
    hook: str = ""
    hook_mm: Fraction | None = None
    yarn: str = ""
    worked: Worked = Worked.FLAT
    stitches: Fraction | None = None
    rows: Fraction | None = None
    over_mm: Fraction = Fraction(100)
    over: str = "10 cm"
    after: str = ""
    before_stitches: Fraction | None = None
    before_rows: Fraction | None = None
    mass_g: Fraction | None = None
    minutes: Fraction | None = None
    place: Span = field(default=NOWHERE, compare=False, repr=False)

    @property
    def sts_per_mm(self) -> Fraction | None:
        """Stitches a millimetre, exact."""
        return None if self.stitches is None else self.stitches / self.over_mm

    @property
    def rows_per_mm(self) -> Fraction | None:
        """Rows a millimetre, exact."""
        return None if self.rows is None else self.rows / self.over_mm

    def per_mm(self, *, along: bool) -> Fraction | None:
        """Give rows a millimetre when `along`, else stitches a millimetre."""
        return self.rows_per_mm if along else self.sts_per_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Yarn:
    """One yarn of `[yarn.<key>]`; what is not said is None or empty.

    Attributes
    ----------
    key, name, fibre, colour : str
        Key of the table; its name, fibre and colour in the author's words.
    weight : int or None
        Weight class, 0 to 7.
    ball_g, ball_mm : Fraction or None
        Mass [g] and length [mm] of a ball.
    price : Fraction or None
        Price of a ball.
    currency : str
        Currency of the price as written.
    place : Span
        The table.
    """

    key: str
    name: str = ""
    fibre: str = ""
    colour: str = ""
    weight: int | None = None
    ball_g: Fraction | None = None
    ball_mm: Fraction | None = None
    price: Fraction | None = None
    currency: str = ""
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Hook:
    """One hook of `[hooks]`: its key, the author's words and its size [mm]."""

    key: str
    words: str
    mm: Fraction | None
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyPoint:
    """One body measure the sizing stands on.

    Attributes
    ----------
    name : str
        As formulas name it, without `body.` ("chest").
    values_mm : tuple of Fraction or None
        (S,) taken at `Sizing.point` of the published range; None where the table has none.
    low_mm, high_mm : tuple of Fraction or None
        (S,) the ends of the published range; equal where one figure is published.
    recalled : tuple of bool
        (S,) the figure was recalled, not read at its source.
    source : str
        Where it is published.
    used : bool
        A measure or count depends on it.
    joined : str
        Title of the other table it was taken from, empty when it is of the table itself.
    """

    name: str
    values_mm: Lengths
    low_mm: Lengths = ()
    high_mm: Lengths = ()
    recalled: tuple[bool, ...] = ()
    source: str = ""
    used: bool = False
    joined: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A length of the design.

    Attributes
    ----------
    name : str
        Its key.
    target_mm : tuple of Fraction or None
        (S,) what the rule asks for [mm].
    finished_mm : tuple of Fraction or None, or None
        (S,) what the counts make of it [mm]; None when no count is fitted to it.
    rule : str
        The rule in words, as written.
    place : Span
        The value.
    """

    name: str
    target_mm: Lengths
    finished_mm: Lengths | None = None
    rule: str = ""
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Count:
    """A whole number of the design.

    Attributes
    ----------
    name : str
        Its key.
    value : tuple of int or None
        (S,) what is worked; None: could not be worked out.
    wanted : tuple of Fraction or None
        (S,) before rounding to a legal value; equal to `value` for a derived count.
    rule : str
        What gave it, in words: "nearest multiple of 2 + 1, ties up".
    measure : str
        The measure it is fitted to; empty for a derived count.
    swatch : str
        The swatch it is counted on; empty for a derived count.
    along : bool
        Rows rather than stitches.
    pinned : tuple of int or None
        (S,) what is fixed by the author in this size, else None.
    place : Span
        The value.
    """

    name: str
    value: tuple[int | None, ...]
    wanted: tuple[Fraction | None, ...]
    rule: str = ""
    measure: str = ""
    swatch: str = ""
    along: bool = False
    pinned: tuple[int | None, ...] = ()
    place: Span = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizing:
    """Everything sizing knows of a manuscript.

    Attributes
    ----------
    sizes : tuple of str
        (S,) all sizes of the manuscript.
    chosen : tuple of int
        Which of them are worked now, as indices into `sizes`.
    resolved : Resolved
        The same, with the value of every formula between braces.
    groups : tuple of int
        How the numbers of all sizes are bracketed when printed, `1, 3, 3, 2`; empty: the first
        size outside, the others in one pair of parentheses.
    title : str
        Title of the design; empty when not said.
    plain : mapping of str to str
        The other plain keys of the front matter (designer, contact, version, date, terms, level,
        ...), as text.
    yarns, hooks : tuple
        In the order of the front matter.
    swatches : mapping of str to Swatch
        By key.
    piece_swatch : mapping of str to str
        Section heading, verbatim and also without "(make 2)", to the key of its swatch.
    body : str
        Title of the body table; empty when none is used.
    body_source : str
        Where that table is published.
    point : str
        "low", "middle" or "high": where in a published range the body is taken.
    points : tuple of BodyPoint
        Every point of that body, in the table's order.
    measures, counts, finished : tuple
        In the order of the front matter. `finished` are measures of the made garment.
    sample : str
        The size made first; empty when not said.
    place : Span
        The front matter.
    """

    sizes: tuple[str, ...]
    chosen: tuple[int, ...]
    resolved: Resolved
    groups: tuple[int, ...] = ()
    title: str = ""
    plain: Mapping[str, str] = field(default_factory=lambda: _NOTHING)
    yarns: tuple[Yarn, ...] = ()
    hooks: tuple[Hook, ...] = ()
    swatches: Mapping[str, Swatch] = field(default_factory=dict)
    piece_swatch: Mapping[str, str] = field(default_factory=lambda: _NOTHING)
    body: str = ""
    body_source: str = ""
    point: str = ""
    points: tuple[BodyPoint, ...] = ()
    measures: tuple[Measure, ...] = ()
    counts: tuple[Count, ...] = ()
    finished: tuple[Measure, ...] = ()
    sample: str = ""
    place: Span = field(default=NOWHERE, compare=False, repr=False)

    @property
    def names(self) -> tuple[str, ...]:
        """(W,) names of the sizes that are worked now."""
        return self.resolved.names

    def worked(self, per_size: tuple[_T, ...]) -> tuple[_T, ...]:
        """Pick the (W,) values worked now from (S,) values."""
        return tuple(per_size[i] for i in self.chosen)

    def swatch_of(self, heading: str, title: str = "") -> Swatch | None:
        """Give the swatch of a piece by its heading; the only one where just one is declared."""
        key = self.piece_swatch.get(heading) or self.piece_swatch.get(title)
        if key is not None:
            return self.swatches.get(key)
        return next(iter(self.swatches.values())) if len(self.swatches) == 1 else None
