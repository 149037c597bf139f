"""Numbers of a manuscript and what they come to in each size.

A number in the text is one token, whether it is written `12`, `70 (76, 84)` or `{panel_sts + 2}`.
The tree holds it as a `Number`; what it comes to is kept apart, in `Resolved`, which sizing fills
and the fabric receives as data.
"""

from collections.abc import Mapping
from dataclasses import field
from enum import Enum
from fractions import Fraction
from typing import TypeAlias

from stitchproof.base.place import NOWHERE, Span
from stitchproof.base.records import dataclass
from stitchproof.language.formula import Formula

Value: TypeAlias = int | Fraction | None  # None: not worked in this size, printed `-`


class NumberKind(Enum):
    """What a number counts."""

    COUNT = "count"  # whole things
    LENGTH = "length"  # [mm]
    TIME = "time"  # times a thing is done

    __hash__ = object.__hash__  # there is one object of each; that of `Enum` takes a call


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """A number of the text.

    Attributes
    ----------
    value : tuple of Value, or Formula
        Written out: one value for all sizes, or one for each size of the manuscript in order.
        Between braces: a formula. Lengths in mm, exact.
    kind : NumberKind
        What it counts.
    spelling : str
        The author's characters.
    place : Span
        Where they stand.
    """

    value: tuple[Value, ...] | Formula
    kind: NumberKind = NumberKind.COUNT
    spelling: str = field(default="", compare=False)
    place: Span = field(default=NOWHERE, compare=False, repr=False)

    @property
    def by_size(self) -> bool:
        """Whether it is a formula, or one number for each size."""
        return not isinstance(self.value, tuple) or len(self.value) > 1

    def further_on(self, by: int) -> "Number":
        """Give the same number so many code points further on."""
        place = self.place.shifted(by)
        return Number(value=self.value, kind=self.kind, spelling=self.spelling, place=place)


def plain(count: int) -> Number:
    """Make a number that is the same in every size and that nobody wrote."""
    return Number(value=(count,), spelling=str(count))


NONE = plain(0)
ONE = plain(1)


@dataclass(frozen=True, slots=True)
class Resolved:
    """What the numbers come to.

    Attributes
    ----------
    sizes : tuple of str
        All sizes of the manuscript, S of them.
    chosen : tuple of int
        Which of them are worked now, as indices into `sizes`, W of them, rising.
    formulas : mapping of Formula to tuple of Value
        (S,) value of every formula between braces that could be worked out.
    """

    sizes: tuple[str, ...]
    chosen: tuple[int, ...]
    formulas: Mapping[Formula, tuple[Value, ...]] = field(default_factory=dict)
    _looked_up: dict[int, tuple[Formula, tuple[Value, ...]]] = field(
        default_factory=dict, init=False, compare=False, repr=False
    )  # by identity of formulas, kept alive

    @property
    def names(self) -> tuple[str, ...]:
        """(W,) names of the sizes that are worked now."""
        return tuple(self.sizes[i] for i in self.chosen)

    def of(self, number: Number) -> tuple[Value, ...] | None:
        """Give a number's (W,) values; None when it has none that fits these sizes."""
        values = number.value
        if isinstance(values, tuple):
            if len(values) == 1:
                return values * len(self.chosen)
        else:
            values = self._worked_out(values)
        if len(values) != len(self.sizes):
            return None
        every = len(self.chosen) == len(self.sizes)
        return values if every else tuple(values[i] for i in self.chosen)

    def in_size(self, number: Number, size: int) -> Value:
        """Give a number's value in one of the sizes worked now, by its index into `chosen`.

        Raises
        ------
        LookupError
            When it has no values that fit these sizes.
        """
        values = number.value
        if isinstance(values, tuple):
            if len(values) == 1:
                return values[0]
        else:
            values = self._worked_out(values)
        if len(values) != len(self.sizes):
            raise LookupError
        return values[self.chosen[size]]

    def _worked_out(self, formula: Formula) -> tuple[Value, ...]:
        """Give the (S,) values of a formula; none when it could not be worked out."""
        known = self._looked_up.get(id(formula))
        if known is None:
            known = self._looked_up[id(formula)] = formula, self.formulas.get(formula, ())
        return known[1]
