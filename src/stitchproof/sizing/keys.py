"""Read keys of the front matter, each as the kind it should be.

A value of the wrong kind is a finding at exactly that value, said once, and reads as absent. What
was lost with a line that is no TOML was reported where it was read, and is absent here in silence.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, time
from decimal import Decimal
from fractions import Fraction
from typing import Final, TypeAlias, TypeVar

from stitchproof.base.diagnostics import Diagnostic, Finding
from stitchproof.base.place import Span
from stitchproof.base.units import parse_quantity
from stitchproof.language.manuscript import FrontMatter, Manuscript
from stitchproof.sizing.findings import UnknownKey, WrongType

Path: TypeAlias = tuple[str | int, ...]
_T = TypeVar("_T")

_LARGEST: Final = 10**12  # no number of the trade is larger
_LONGEST: Final = 60  # characters of a value shown in a finding

A_TEXT: Final = "words in quotes"
A_NUMBER: Final = "a number"
A_LENGTH: Final = "a length with its unit, like `10 cm`"


class Keys:
    """The front matter of one manuscript, and what is found wrong in it."""

    def __init__(self, manuscript: Manuscript) -> None:
        self.front = manuscript.front or FrontMatter({}, {}, Span(manuscript.source, 0, 0))
        self.found: list[Diagnostic] = []
        self._text = manuscript.text
        self._said: set[Path] = set()

    # ----------------------------------------------------------------- places and findings

    def at(self, *path: str | int) -> Span:
        """Give the place of a value, or of what stands around it."""
        return self.front.at(*path)

    def text_at(self, place: Span) -> str:
        """Give the author's own words."""
        return self._text[place.start : place.end]

    def words(self, *path: str | int) -> str:
        """Give a value as written, shortened."""
        span = self.at(*path)
        words = " ".join(self._text[span.start : span.end].split())
        return words if len(words) <= _LONGEST else words[: _LONGEST - 1] + "…"

    def report(self, finding: Finding, *path: str | int, sizes: tuple[str, ...] = ()) -> None:
        """Report something about a value."""
        self.found.append(Diagnostic(finding=finding, place=self.at(*path), sizes=sizes))

    def wrong(self, wanted: str, *path: str | int) -> None:
        """Report a value of the wrong kind, once."""
        if path not in self._said:
            self._said.add(path)
            name = next(str(part) for part in reversed(path) if isinstance(part, str))
            self.report(WrongType(name, wanted, self.words(*path)), *path)

    def lost(self, *path: str | int) -> bool:
        """Tell whether a key is written but its value was lost with a line that is no TOML."""
        return path in self.front.places and self.value(*path) is None

    def unknown(self, known: Iterable[str], *path: str | int) -> None:
        """Report the keys of a table that nothing reads."""
        table = self.table(*path)
        known = tuple(known)
        named = ".".join(part for part in path if isinstance(part, str))
        where = f"[{named}]" if path else "the front matter"
        for key in table:
            if key not in known:
                place = self.front.places.get((*path, key, ""), self.at(*path, key))
                finding = UnknownKey(key, where, near(key, known))
                self.found.append(Diagnostic(finding=finding, place=place))

    # ----------------------------------------------------------------- values

    def value(self, *path: str | int) -> object:
        """Give a value as it stands; None where there is none."""
        value: object = self.front.table
        for part in path:
            if isinstance(part, str) and isinstance(value, Mapping):
                value = value.get(part)
            elif isinstance(part, int) and isinstance(value, list) and part < len(value):
                value = value[part]
            else:
                return None
        return value

    def table(self, *path: str | int) -> Mapping[str, object]:
        """Give a table; empty where there is none."""
        value = self.value(*path)
        if isinstance(value, Mapping):
            return value
        if value is not None:
            self.wrong("a table", *path)
        return {}

    def entries(self, wanted: str, *path: str | int) -> Sequence[object]:
        """Give a list; empty where there is none."""
        value = self.value(*path)
        if isinstance(value, list):
            return value
        if value is not None:
            self.wrong(wanted, *path)
        return ()

    def text(self, *path: str | int) -> str:
        """Give words; empty where there are none."""
        value = self.value(*path)
        if isinstance(value, str):
            return value
        if value is not None:
            self.wrong(A_TEXT, *path)
        return ""

    def plain(self, *path: str | int) -> str:
        """Give words, a number or a date as words."""
        value = self.value(*path)
        if isinstance(value, (int, Decimal, date, time)) and not isinstance(value, bool):
            return str(value)
        return self.text(*path)

    def number(self, *path: str | int) -> Fraction | None:
        """Give a number, `17.5` or `"17½"`."""
        value = self.value(*path)
        if value is None:
            return None
        exact = _exact(value)
        if exact is None:
            self.wrong(A_NUMBER, *path)
        return exact

    def positive(self, *path: str | int) -> Fraction | None:
        """Give a number more than zero."""
        value = self.number(*path)
        if value is not None and value <= 0:
            self.wrong("a number more than zero", *path)
            return None
        return value

    def quantity(
        self, parse: Callable[[str], _T | None], wanted: str, *path: str | int
    ) -> _T | None:
        """Give what a parser makes of words."""
        value = self.value(*path)
        if value is None:
            return None
        read = parse(value) if isinstance(value, str) else None
        if read is None:
            self.wrong(wanted, *path)
        return read

    def choice(self, known: tuple[str, ...], *path: str | int) -> str:
        """Give one of a few words; empty where there is none."""
        value = self.value(*path)
        if value is None:
            return ""
        if isinstance(value, str) and value in known:
            return value
        self.wrong(one_of(known), *path)
        return ""

    def alone(self, first: str, second: str, *path: str | int) -> None:
        """Report the second of two keys that say the same where both are written."""
        if self.value(*path, first) is not None and self.value(*path, second) is not None:
            self.wrong(f"to stand without `{first}`", *path, second)


def one_of(known: Iterable[str]) -> str:
    """Say that one of a few words is wanted."""
    return "one of " + ", ".join(f"`{one}`" for one in known)


def _exact(value: object) -> Fraction | None:
    """Give a number of TOML exactly; None for anything else, and for one beyond all sense."""
    if isinstance(value, bool):
        return None
    if isinstance(value, int):
        return Fraction(value) if abs(value) < _LARGEST else None
    if isinstance(value, Decimal):
        return Fraction(value) if value.is_finite() and abs(value) < _LARGEST else None
    if isinstance(value, str):
        quantity = parse_quantity(value)
        return quantity.value if quantity is not None and not quantity.unit else None
    return None


def near(word: str, known: Iterable[str]) -> str:
    """Give the known word that was most likely meant; empty when none is near."""
    import difflib  # only for a mistake

    folded = {one.casefold(): one for one in known}
    found = difflib.get_close_matches(word[:_LONGEST].casefold(), folded, n=1, cutoff=0.7)
    return folded[found[0]] if found else ""
