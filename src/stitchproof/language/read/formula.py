"""Read formulas: a small arithmetic, parsed by hand and never run as code.

A formula stands in the front matter or between braces. Braces are also prose (`{24}`,
`{2 dc, ch 1} 4 times`), so they are a formula only if all of it reads as one, names something, and
every name is declared. Words that look like a name of the author's but are none are a finding;
everything else stays prose.

Hostile text is harmless: length, nesting and the number of terms are bounded, and reading is one
pass over the characters.
"""

import re
from collections.abc import Iterator
from fractions import Fraction
from types import MappingProxyType
from typing import ClassVar, Final, Literal, TypeAlias, cast

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.base.units import MM_PER_INCH
from stitchproof.language.formula import (
    Arithmetic,
    Call,
    Constant,
    Formula,
    Name,
    Negative,
    Unit,
)

LONGEST: Final = 2000  # code points
DEEPEST: Final = 32  # brackets, signs and calls inside one another
_MOST_TERMS: Final = 100  # also bounds the depth of the tree

Function: TypeAlias = Literal["min", "max", "abs", "round", "floor", "ceil"]
FUNCTIONS: Final = frozenset(("min", "max", "abs", "round", "floor", "ceil"))
UNITS: Final = MappingProxyType({"mm": Fraction(1), "cm": Fraction(10), "in": MM_PER_INCH})
RESERVED: Final = FUNCTIONS | frozenset(UNITS)

_GLYPHS: Final = MappingProxyType(
    {
        "½": Fraction(1, 2),
        "¼": Fraction(1, 4),
        "¾": Fraction(3, 4),
        "⅓": Fraction(1, 3),
        "⅔": Fraction(2, 3),
        "⅛": Fraction(1, 8),
        "⅜": Fraction(3, 8),
        "⅝": Fraction(5, 8),
        "⅞": Fraction(7, 8),
    }
)
# A text processor's own dashes and signs mean the same.
_SIGNS: Final = MappingProxyType({"−": "-", "–": "-", "×": "*", "·": "*", "÷": "/"})
_INCH_MARKS: Final = frozenset('"″”')
_TOKEN: Final = re.compile(
    r"\s*(?:"
    rf"(?P<number>\d+[{''.join(_GLYPHS)}]|[{''.join(_GLYPHS)}]|\d+(?:\.\d+)?|\.\d+)"
    r"|(?P<name>[^\W\d]\w*(?:\.[^\W\d]\w*)*)"
    r"|(?P<mark>[-+*/(),\"″”−–×·÷]))"
)
_OPERATORS: Final = MappingProxyType({"+": 1, "-": 1, "*": 2, "/": 2})
_NAME: Final = re.compile(r"[^\W\d]\w*")


@dataclass(frozen=True, slots=True)
class FormulaFault:
    """Why a text is no formula: in words, and the words that are wrong."""

    words: str
    place: Span


@facts
class UnknownName:
    """A formula names something that is not declared."""

    code: ClassVar[Code] = Code("L162", "unknown-name", Level.ERROR)
    name: str
    nearest: str = ""

    def message(self) -> str:
        """Say which name."""
        return f"`{self.name}` is not declared in the front matter"

    def help(self) -> str:
        """Offer the nearest declared name."""
        if self.nearest:
            return f"write `{self.nearest}` if that is what is meant"
        return "declare it under [counts] or [measures], or write braces meant as such double: {{"


@facts
class FormulaSyntax:
    """Words that should be a formula do not read as one."""

    code: ClassVar[Code] = Code("L163", "formula-syntax", Level.ERROR)
    text: str
    why: str

    def message(self) -> str:
        """Say what is wrong with it."""
        shown = self.text if len(self.text) <= 60 else self.text[:59] + "…"  # noqa: PLR2004
        return f"`{shown}` is no formula: {self.why}"

    def help(self) -> str:
        """Say what a formula is made of."""
        return (
            "use + - * / and brackets on names and numbers, with min, max, abs, round, floor, ceil"
        )


@dataclass(frozen=True, slots=True)
class Braced:
    """What stands between braces, when it is no prose.

    Attributes
    ----------
    formula : Formula
        What was read; where it could not be, a name nobody can declare, so that it has no value.
    finding : Diagnostic or None
        What is wrong with it.
    """

    formula: Formula
    finding: Diagnostic | None = None


class _NoFormulaError(Exception):
    """Leaves the parser at the first fault; never leaves this module."""

    def __init__(self, words: str, start: int, end: int) -> None:
        super().__init__(words)
        self.words = words
        self.start = start
        self.end = end


@dataclass(frozen=True, slots=True)
class _Token:
    kind: str  # "number", "name", "mark" or "end"
    text: str
    start: int
    end: int


def parse_formula(text: str, at: Span) -> Formula | FormulaFault:
    """Read a formula.

    Parameters
    ----------
    text : str
        The formula and nothing else.
    at : Span
        Where it stands, for the place of a fault.
    """
    if len(text) > LONGEST:
        return FormulaFault(f"it is longer than {LONGEST} characters", at)
    try:
        return _Parser(tuple(_tokens(text))).whole()
    except _NoFormulaError as fault:
        # In TOML a string may be written with escapes; then only the whole of it has a place.
        exact = at.end - at.start == len(text)
        place = Span(at.source, at.start + fault.start, at.start + fault.end) if exact else at
        return FormulaFault(fault.words, place)


def _tokens(text: str) -> Iterator[_Token]:
    at = 0
    end = len(text.rstrip())
    while at < end:
        match = _TOKEN.match(text, at)
        if match is None:
            start = at + len(text[at:]) - len(text[at:].lstrip())
            words = f"`{text[start]}` has no meaning in a formula"
            raise _NoFormulaError(words, start, start + 1)
        kind = match.lastgroup or ""
        yield _Token(kind, match[kind], match.start(kind), match.end())
        at = match.end()
    yield _Token("end", "", end, end)


class _Parser:
    """One pass over the tokens, two precedences."""

    def __init__(self, tokens: tuple[_Token, ...]) -> None:
        self._tokens = tokens
        self._at = 0
        self._terms = 0

    def whole(self) -> Formula:
        """Read all tokens as one formula."""
        formula = self._sum(0)
        if self._next.kind != "end":
            self._fail(f"`{self._next.text}` stands where an operator should")
        return formula

    @property
    def _next(self) -> _Token:
        return self._tokens[self._at]

    def _fail(self, words: str) -> None:
        token = self._next
        raise _NoFormulaError(words, token.start, token.end)

    def _mark(self) -> str:
        """Give the sign that comes next, in its plain form; empty when none does."""
        token = self._next
        return _SIGNS.get(token.text, token.text) if token.kind == "mark" else ""

    def _sum(self, depth: int) -> Formula:
        if depth > DEEPEST:
            self._fail(f"brackets stand more than {DEEPEST} deep in one another")
        return self._chain(depth, 1)

    def _chain(self, depth: int, precedence: int) -> Formula:
        """Read operands joined by the operators of one precedence, from the left."""
        left = self._operand(depth, precedence)
        while _OPERATORS.get(self._mark()) == precedence:
            operator = cast("Literal['+', '-', '*', '/']", self._mark())
            self._at += 1
            left = Arithmetic(operator, left, self._operand(depth, precedence))
        return left

    def _operand(self, depth: int, precedence: int) -> Formula:
        return self._chain(depth, 2) if precedence == 1 else self._signed(depth)

    def _signed(self, depth: int) -> Formula:
        self._terms += 1
        if self._terms > _MOST_TERMS:
            self._fail(f"it has more than {_MOST_TERMS} terms")
        if depth > DEEPEST:
            self._fail(f"signs and brackets stand more than {DEEPEST} deep in one another")
        if self._mark() == "-":
            self._at += 1
            return Negative(self._signed(depth + 1))
        if self._mark() == "+":
            self._at += 1
            return self._signed(depth + 1)
        return self._atom(depth)

    def _atom(self, depth: int) -> Formula:
        token = self._next
        if token.kind == "number":
            return self._constant()
        if token.kind == "name":
            self._at += 1
            if token.text in FUNCTIONS:
                return self._call(cast("Function", token.text), depth)
            if token.text in UNITS:
                self._at -= 1
                self._fail(f"`{token.text}` is a unit and has no number before it")
            return Name(token.text)
        if self._mark() == "(":
            self._at += 1
            inside = self._sum(depth + 1)
            self._close()
            return inside
        self._fail(
            f"`{token.text}` stands where a name or number should"
            if token.text
            else "it ends too early"
        )
        raise AssertionError

    def _close(self) -> None:
        if self._mark() != ")":
            self._fail("a bracket is not closed")
        self._at += 1

    def _call(self, function: Function, depth: int) -> Formula:
        if self._mark() != "(":
            self._fail(f"`{function}` needs brackets after it")
        self._at += 1
        arguments = [self._sum(depth + 1)]
        while self._mark() == ",":
            self._at += 1
            arguments.append(self._sum(depth + 1))
        if len(arguments) > 1 and function not in {"min", "max"}:
            self._fail(f"`{function}` takes one number, not {len(arguments)}")
        self._close()
        return Call(function, tuple(arguments))

    def _constant(self) -> Formula:
        text = self._next.text
        self._at += 1
        glyph = _GLYPHS.get(text[-1])
        value = Fraction(text) if glyph is None else Fraction(text[:-1] or 0) + glyph
        unit = "in" if self._next.text in _INCH_MARKS else self._next.text
        if unit in UNITS:
            self._at += 1
            return Constant(value * UNITS[unit], cast("Unit", unit))
        return Constant(value)


def names_in(formula: Formula) -> tuple[str, ...]:
    """Give the names a formula uses, each once, in the order of the text."""
    found: dict[str, None] = {}
    stack = [formula]
    while stack:
        one = stack.pop()
        match one:
            case Name(name):
                found[name] = None
            case Negative(of):
                stack.append(of)
            case Arithmetic(_, left, right):
                stack += (right, left)
            case Call(_, arguments):
                stack += reversed(arguments)
            case Constant():
                pass
    return tuple(found)


def is_name(text: str) -> bool:
    """Tell whether a formula can name this: a word that is no unit and no function."""
    return _NAME.fullmatch(text) is not None and text not in RESERVED


def braces(content: str, at: Span, declared: frozenset[str]) -> Braced | None:
    """Read what stands between braces; None when it is prose.

    Parameters
    ----------
    content : str
        The words between the braces.
    at : Span
        Where they stand.
    declared : frozenset of str
        What `declared_names` of the front matter gives; empty without front matter.
    """
    if not declared or not content.strip():
        return None
    read = parse_formula(content, at)
    if isinstance(read, FormulaFault):
        return _broken(content, read, declared)
    names = names_in(read)
    unknown = [name for name in names if not _is_declared(name, declared)]
    if not unknown:
        return Braced(read) if names else None
    near = _nearest(unknown[0], declared)
    meant = near or len(unknown) < len(names) or any("_" in n or "." in n for n in names)
    if not meant:
        return None
    start = at.start + re.search(rf"(?<!\w){re.escape(unknown[0])}(?!\w)", content).start()  # type: ignore[union-attr]  # it was read there
    place = Span(at.source, start, start + len(unknown[0]))
    return Braced(read, Diagnostic(finding=UnknownName(unknown[0], near), place=place))


def _is_declared(name: str, declared: frozenset[str]) -> bool:
    return name in declared or (name.startswith("body.") and "body.*" in declared)


def _broken(content: str, fault: FormulaFault, declared: frozenset[str]) -> Braced | None:
    """Take broken words for a formula only if they hold a declared name that no prose holds."""
    if len(content) > LONGEST:
        return None
    words = re.findall(r"[^\W\d][\w.]*", content)
    if not any(("_" in word or "." in word) and word in declared for word in words):
        return None
    finding = FormulaSyntax(content.strip(), fault.words)
    return Braced(Name("{" + content.strip()), Diagnostic(finding=finding, place=fault.place))


def _nearest(name: str, declared: frozenset[str]) -> str:
    """Give the declared name that was most likely meant; empty when none is near."""
    import difflib  # only for a mistake, and it costs a millisecond

    shortest = 4  # letters; shorter words are near to too many
    if len(name) < shortest:
        return ""
    folded = {one.casefold(): one for one in sorted(declared) if one}
    near = difflib.get_close_matches(name.casefold(), sorted(folded), n=1, cutoff=0.8)
    return folded[near[0]] if near else ""
