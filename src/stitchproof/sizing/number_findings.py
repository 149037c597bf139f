"""What sizing finds in measures, counts and rules."""

from fractions import Fraction
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.base.units import TENTH, centimetres, decimal_words


def _exact(values: tuple[Fraction | None, ...]) -> str:
    """Write numbers to the hundredth, one per size."""
    hundredth = Fraction(1, 100)
    return size_list(tuple(None if v is None else decimal_words(v, hundredth) for v in values))


@facts
class FormulasInCircle:
    """Measures or counts that need one another."""

    code: ClassVar[Code] = Code("S212", "formulas-in-circle", Level.ERROR)
    names: tuple[str, ...]

    def message(self) -> str:
        """Name the circle."""
        way = " needs ".join(f"`{name}`" for name in (*self.names, self.names[0]))
        return f"{way}, so none of them can be worked out"

    def help(self) -> str:
        """Say what breaks it."""
        return "give one of them a value of its own"


@facts
class WrongDimension:
    """Lengths and plain numbers are mixed up."""

    code: ClassVar[Code] = Code("S213", "wrong-dimension", Level.ERROR)
    words: str
    why: str

    def message(self) -> str:
        """Say what is mixed up."""
        return f"`{self.words}` {self.why}"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class DivisionByZero:
    """A formula divides by nothing."""

    code: ClassVar[Code] = Code("S214", "division-by-zero", Level.ERROR)
    words: str

    def message(self) -> str:
        """Say which formula."""
        return f"`{self.words}` divides by zero"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class NumberTooLarge:
    """A formula comes to a number with more digits than any garment needs."""

    code: ClassVar[Code] = Code("S215", "number-too-large", Level.ERROR)
    words: str

    def message(self) -> str:
        """Say which formula."""
        return f"`{self.words}` comes to a number too large to work with"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class MeasureNotPositive:
    """A count is to be fitted to no length at all."""

    code: ClassVar[Code] = Code("S216", "measure-not-positive", Level.ERROR)
    name: str
    wanted: tuple[Fraction | None, ...]

    def message(self) -> str:
        """Give what it comes to."""
        return f"`{self.name}` would have to be {_exact(self.wanted)}"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class CountNotWhole:
    """A count comes to no whole number."""

    code: ClassVar[Code] = Code("S217", "count-not-whole", Level.ERROR)
    words: str
    values: tuple[Fraction | None, ...]

    def message(self) -> str:
        """Give what it comes to."""
        return f"`{self.words}` comes to {_exact(self.values)}, which is no whole number"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class CountNegative:
    """A count comes to less than nothing."""

    code: ClassVar[Code] = Code("S218", "count-negative", Level.ERROR)
    words: str
    values: tuple[Fraction | None, ...]

    def message(self) -> str:
        """Give what it comes to."""
        return f"`{self.words}` comes to {_exact(self.values)}, less than nothing"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class NoLegalCount:
    """No number can keep all that is asked of a count."""

    code: ClassVar[Code] = Code("S219", "no-legal-count", Level.ERROR)
    name: str
    multiple: str
    parity: str

    def message(self) -> str:
        """Say what contradicts."""
        return f"no multiple of {self.multiple} is {self.parity}, so `{self.name}` has no value"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class GaugeMissing:
    """A count needs a gauge that its swatch does not state."""

    code: ClassVar[Code] = Code("S220", "gauge-missing", Level.ERROR)
    name: str
    swatch: str
    wanted: str  # "stitches" or "rows"

    def message(self) -> str:
        """Say what is missing."""
        return f"`{self.name}` needs the {self.wanted} of swatch `{self.swatch}`, which states none"

    def help(self) -> str:
        """Say where they go."""
        return f"add {self.wanted} = … under [swatch.{self.swatch}]"


@facts
class PinNotReproduced:
    """The rules give another count than the one really made."""

    code: ClassVar[Code] = Code("S221", "pin-not-reproduced", Level.ERROR)
    name: str
    rule: str
    fitted: tuple[int | None, ...]
    pinned: tuple[int | None, ...]

    def message(self) -> str:
        """Give both numbers and the rule."""
        fitted, pinned = size_list(self.fitted), size_list(self.pinned)
        return f"`{self.name}` was made with {pinned}, its rule ({self.rule}) gives {fitted}"

    def help(self) -> str:
        """Say that the made number stands."""
        return "change the rule until it gives what was made; until then, what was made is used"


@facts
class RelationFails:
    """A relation between counts does not hold."""

    code: ClassVar[Code] = Code("S222", "relation-fails", Level.ERROR)
    name: str
    words: str
    left: tuple[Fraction | None, ...]
    right: tuple[Fraction | None, ...]

    def message(self) -> str:
        """Give both sides."""
        left, right = _exact(self.left), _exact(self.right)
        return f"rule `{self.name}` fails: `{self.words}`, but left is {left} and right is {right}"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class NoRelation:
    """A rule states no relation."""

    code: ClassVar[Code] = Code("S223", "no-relation", Level.ERROR)
    name: str
    words: str

    def message(self) -> str:
        """Say what a rule is."""
        return f"rule `{self.name}` needs two sides joined by one of = <= >=, not `{self.words}`"

    def help(self) -> str:
        """Nothing is certain."""
        return ""


@facts
class WideNeck:
    """A neck leaves little of the back beside it, so that it may slide off the shoulder."""

    code: ClassVar[Code] = Code("S224", "wide-neck", Level.WARNING)
    name: str
    left_mm: tuple[Fraction, ...]

    def message(self) -> str:
        """Give what is left on each side."""
        left = size_list(tuple(centimetres(mm, TENTH) for mm in self.left_mm))
        return f"`{self.name}` leaves {left} cm of the cross-back on each side: it may slide off"

    def help(self) -> str:
        """Say what is usual."""
        return "leave at least 2.5 cm on each side, or accept a wide neck"
