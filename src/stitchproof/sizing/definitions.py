"""Read what `[measures]`, `[counts]` and `[finished]` define, before anything is worked out."""

from collections.abc import Mapping
from dataclasses import field
from types import MappingProxyType
from typing import Final, TypeAlias

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.language.formula import Constant, Formula, Name
from stitchproof.language.read.formula import (
    FormulaFault,
    FormulaSyntax,
    is_name,
    names_in,
    parse_formula,
)
from stitchproof.sizing.findings import NameNotUsable, SizeListLength, UnknownEntry
from stitchproof.sizing.fit import ANY, Multiple, Rounding, parse_multiple
from stitchproof.sizing.keys import Keys, Path
from stitchproof.sizing.model import Swatch

Formulas: TypeAlias = tuple[Formula | None, ...]  # one for all sizes, or (S,); None: not made

_COUNT: Final = (
    "measure",
    "across",
    "along",
    "multiple",
    "parity",
    "round",
    "formula",
    "fixed",
    "is",
    "note",
)
_FINISHED: Final = ("formula", "across", "along", "note")
_USES: Final = ("opening", "neck width")
_ABSENT: Final = "-"


@dataclass(frozen=True, slots=True)
class Fit:
    """How a count is fitted to what is wanted.

    Attributes
    ----------
    multiple : Multiple
        Of what it has to be a multiple.
    parity : str
        "odd", "even", the name of a count it is as odd as, or empty.
    rounding : Rounding
        Which legal number is taken.
    opening : bool
        A part of the body has to pass, and nobody chose another rounding than up.
    """

    multiple: Multiple = ANY
    parity: str = ""
    rounding: Rounding = Rounding.NEAREST
    opening: bool = False

    def words(self) -> str:
        """Say the rule."""
        kind = f"multiple of {self.multiple.words()}" if self.multiple != ANY else ""
        if self.parity in {"odd", "even"}:
            kind = f"{self.parity} {kind or 'number'}"
        elif self.parity:
            kind = f"{kind or 'number'} that is odd or even as {self.parity} is"
        kind = kind or "whole number"
        match self.rounding:
            case Rounding.NEAREST:
                return f"nearest {kind}, ties up"
            case Rounding.UP:
                why = ", as it is an opening" if self.opening else ""
                return f"rounded up to a {kind}{why}"
            case Rounding.DOWN:
                return f"rounded down to a {kind}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Definition:
    """One measure, count or finished measure.

    Attributes
    ----------
    name : str
        Its key.
    path : tuple
        Where it stands in the front matter; `formula_path` is that of its formula.
    formulas : tuple of Formula
        What it is, or what it is fitted to.
    is_count : bool
        A count rather than a length.
    swatch : str
        The swatch it is counted on; empty where none is needed.
    along : bool
        Rows of that swatch, not stitches.
    fit : Fit or None
        How it is fitted; None where it has to come out whole by itself.
    use : str
        "opening", "neck width" or empty.
    fixed : mapping of str to int
        By size, what was really made.
    """

    name: str
    path: Path
    formula_path: Path
    formulas: Formulas
    is_count: bool = False
    swatch: str = ""
    along: bool = False
    fit: Fit | None = None
    use: str = ""
    fixed: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))

    def measure(self) -> str:
        """Give the name of the measure it is fitted to; empty where it is not one measure."""
        first = self.formulas[0]
        fitted = self.is_count and self.swatch and len(self.formulas) == 1
        return first.name if fitted and isinstance(first, Name) else ""

    def needs(self) -> tuple[str, ...]:
        """Give the names that have to be worked out before it."""
        found = {n: None for one in self.formulas if one is not None for n in names_in(one)}
        if self.fit is not None and self.fit.parity not in {"", "odd", "even"}:
            found[self.fit.parity] = None
        return tuple(found)


# --------------------------------------------------------------------------- formulas


def read_formula(keys: Keys, *path: str | int) -> Formula | None:
    """Read one formula of the front matter; None, with a finding, where it is none."""
    text = keys.text(*path)
    if keys.value(*path) is not None and isinstance(keys.value(*path), str):
        read = parse_formula(text, inside(keys, text, *path))
        if not isinstance(read, FormulaFault):
            return read
        finding = FormulaSyntax(text, read.words)
        keys.found.append(Diagnostic(finding=finding, place=read.place))
    return None


def inside(keys: Keys, text: str, *path: str | int) -> Span:
    """Give the place of words without their quotes, where they are written as they read."""
    span = keys.at(*path)
    bare = Span(span.source, span.start + 1, span.end - 1)
    return bare if bare.end - bare.start == len(text) else span


def _read_formulas(keys: Keys, size_count: int, *path: str, count: bool) -> Formulas | None:
    """Read a formula, or a list with one a size."""
    value = keys.value(*path)
    if not isinstance(value, list):
        one = _read_one(keys, *path, count=count)
        return None if one is None else (one,)
    if len(value) not in {1, size_count}:
        keys.report(SizeListLength(keys.words(*path), len(value), size_count), *path)
        return None
    found: list[Formula | None] = []
    for at, entry in enumerate(value):
        one = None if entry == _ABSENT else _read_one(keys, *path, at, count=count)
        if one is None and entry != _ABSENT:
            return None
        found.append(one)
    return tuple(found)


def _read_one(keys: Keys, *path: str | int, count: bool) -> Formula | None:
    value = keys.value(*path)
    if isinstance(value, str):
        return read_formula(keys, *path)
    if count:
        number = keys.number(*path)
        return None if number is None else Constant(number)
    keys.wrong("a length with its unit, or a formula, in quotes", *path)
    return None


# --------------------------------------------------------------------------- measures and counts


def read_measures(keys: Keys, size_count: int) -> tuple[Definition, ...]:
    """Read `[measures]`."""
    found = []
    for name in keys.table("measures"):
        formulas = _read_formulas(keys, size_count, "measures", name, count=False)
        if formulas is not None and _usable(keys, "measures", name):
            path = ("measures", name)
            found.append(Definition(name=name, path=path, formula_path=path, formulas=formulas))
    return tuple(found)


def _usable(keys: Keys, table: str, name: str) -> bool:
    """Report a name that formulas cannot use."""
    if not is_name(name):
        why = "it is not one plain word, or a unit or a function"
        keys.report(NameNotUsable(name, why), table, name, "")
        return False
    if table == "counts" and name in keys.table("measures"):
        keys.report(NameNotUsable(name, "a measure is called so too"), table, name, "")
        return False
    return True


def read_counts(
    keys: Keys, sizes: tuple[str, ...], swatches: Mapping[str, Swatch]
) -> tuple[Definition, ...]:
    """Read `[counts]`."""
    found = []
    for name in keys.table("counts"):
        if not _usable(keys, "counts", name):
            continue
        one = _count(keys, name, sizes, swatches)
        if one is not None:
            found.append(one)
    return tuple(found)


def _count(
    keys: Keys, name: str, sizes: tuple[str, ...], swatches: Mapping[str, Swatch]
) -> Definition | None:
    path: Path = ("counts", name)
    value = keys.value(*path)
    if not isinstance(value, Mapping):
        formulas = _read_formulas(keys, len(sizes), "counts", name, count=True)
        if formulas is None:
            return None
        return Definition(name=name, path=path, formula_path=path, formulas=formulas, is_count=True)
    keys.unknown(_COUNT, "counts", name)
    keys.alone("measure", "formula", *path)
    keys.text(*path, "note")
    source = "measure" if "measure" in value else "formula"
    if source not in value:
        if not keys.lost("counts", name, source):
            keys.wrong("a `measure` with a gauge, or a `formula`", *path)
        return None
    formulas = _read_formulas(keys, len(sizes), "counts", name, source, count=source == "formula")
    swatch = _swatch(keys, swatches, "counts", name)
    if formulas is None or swatch is None:
        return None
    if source == "measure" and not swatch:
        keys.wrong("`across` or `along` with a swatch", *path)
        return None
    use = keys.choice(_USES, *path, "is")
    return Definition(
        name=name,
        path=path,
        formula_path=(*path, source),
        formulas=formulas,
        is_count=True,
        swatch=swatch,
        along="across" not in value,
        fit=_fit(keys, name, use, fitted=bool(swatch)),
        use=use,
        fixed=_fixed(keys, sizes, *path, "fixed"),
    )


def _swatch(keys: Keys, swatches: Mapping[str, Swatch], *path: str) -> str | None:
    """Read `across` or `along`; empty where neither is said, None after a finding."""
    keys.alone("across", "along", *path)
    for key in ("across", "along"):
        if keys.value(*path, key) is None:
            continue
        name = keys.text(*path, key)
        if not name or name in swatches:
            return name or None
        if not keys.lost("swatch", name):
            keys.report(UnknownEntry("swatch", name, tuple(swatches)), *path, key)
        return None
    return ""


def _fit(keys: Keys, name: str, use: str, *, fitted: bool) -> Fit | None:
    """Read how a count is fitted; None for a formula that is not rounded."""
    path = ("counts", name)
    asked = [key for key in ("multiple", "parity", "round") if keys.value(*path, key) is not None]
    if not fitted and not asked:
        return None
    rounding = keys.choice(tuple(one.value for one in Rounding), *path, "round")
    up = use == "opening"
    return Fit(
        multiple=_multiple(keys, *path, "multiple"),
        parity=_parity(keys, name),
        rounding=Rounding(rounding or ("up" if up else "nearest")),
        opening=up and not rounding,
    )


def _multiple(keys: Keys, *path: str) -> Multiple:
    value = keys.value(*path)
    if isinstance(value, int) and not isinstance(value, bool):
        read = parse_multiple(str(value))
        if read is None:
            keys.wrong("a multiple like `2 + 1`", *path)
    else:
        read = keys.quantity(parse_multiple, "a multiple like `2 + 1`", *path)
    return read or ANY


def _parity(keys: Keys, name: str) -> str:
    parity = keys.text("counts", name, "parity")
    counts = keys.table("counts")
    if parity in {"", "odd", "even"} or (parity in counts and parity != name):
        return parity
    if not keys.lost("counts", parity):
        known = ("odd", "even", *(one for one in counts if one != name))
        keys.report(UnknownEntry("count", parity, known), "counts", name, "parity")
    return ""


def _fixed(keys: Keys, sizes: tuple[str, ...], *path: str | int) -> Mapping[str, int]:
    """Read `fixed = { M = 95 }`."""
    found = {}
    for size in keys.table(*path):
        if size not in sizes:
            keys.report(UnknownEntry("size", size, sizes), *path, size, "")
            continue
        number = whole(keys, *path, size)
        if number is not None:
            found[size] = number
    return MappingProxyType(found)


def whole(keys: Keys, *path: str | int) -> int | None:
    """Read a whole number, zero or more, written as a number."""
    if isinstance(keys.value(*path), str):
        keys.wrong("a whole number, without quotes", *path)
        return None
    number = keys.number(*path)
    if number is not None and (number.denominator != 1 or number < 0):
        keys.wrong("a whole number", *path)
        return None
    return None if number is None else int(number)


def read_finished(
    keys: Keys, size_count: int, swatches: Mapping[str, Swatch]
) -> tuple[Definition, ...]:
    """Read `[finished]`: measures of the made garment."""
    found = []
    for name in keys.table("finished"):
        path: tuple[str, ...] = ("finished", name)
        swatch: str | None = ""
        formula_path = path
        if isinstance(keys.value(*path), Mapping):
            keys.unknown(_FINISHED, *path)
            keys.text(*path, "note")
            swatch = _swatch(keys, swatches, *path)
            formula_path = (*path, "formula")
            if keys.value(*formula_path) is None and not keys.lost(*formula_path):
                keys.wrong("a `formula`", *path)
        formulas = (
            _read_formulas(keys, size_count, *formula_path, count=bool(swatch))
            if keys.value(*formula_path) is not None
            else None
        )
        if formulas is None or swatch is None:
            continue
        along = keys.value(*path, "across") is None
        found.append(
            Definition(
                name=name,
                path=path,
                formula_path=formula_path,
                formulas=formulas,
                swatch=swatch,
                along=along,
            )
        )
    return tuple(found)
