"""Numbers as patterns print them, and the author's words with every number filled in.

A number token of the manuscript is replaced by what it comes to; every other character stays as
the author wrote it. What a hand-written list says in one size is cut out of the author's own
spelling, so that `7½ (8, 8¼) in` gives `8 in` and not a rounding of it.
"""

import re
from bisect import bisect_left
from collections.abc import Collection, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Final

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.base.units import centimetres, inches
from stitchproof.language.formula import Arithmetic, Call, Constant, Formula, Name, Negative
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.number import Number, NumberKind, Resolved, Value

ABSENT: Final = "-"
_BRACKETS: Final = (("(", ")"), ("[", "]"), ("{", "}"))
_SEPARATORS: Final = r"[\s,;:()\[\]{}]+"
_LIST_ENTRY: Final = re.compile(r"[^\s,;:()\[\]{}]+(?:\s\d+/\d+)?")


@dataclass(frozen=True, slots=True)
class Written:
    """A stretch of finished text.

    Attributes
    ----------
    words : str
        What is printed.
    number : Number or None
        The token it stands for; None for the author's own words.
    """

    words: str
    number: Number | None = None


# --------------------------------------------------------------------------- one number per size


def size_words(shown: Sequence[str], groups: tuple[int, ...] = ()) -> str:
    """Print one entry per size the way patterns do: `77 (85, 95) [103, 111]`.

    Parameters
    ----------
    shown : sequence of str
        (W,) what is printed in each size; at least one.
    groups : tuple of int
        How many sizes stand together; used only where they add up to W, else `77 (85, 95, ...)`.

    Returns
    -------
    str
        Entries that are the same in every size are printed once.
    """
    if len(set(shown)) == 1:
        return shown[0]
    if sum(groups) != len(shown) or min(groups) < 1:
        groups = (1, len(shown) - 1)
    ends = [sum(groups[: i + 1]) for i in range(len(groups))]
    first, *rest = (", ".join(shown[a:b]) for a, b in pairwise([0, *ends]))
    bracketed = []
    for index, entries in enumerate(rest):
        opening, closing = _BRACKETS[index % len(_BRACKETS)]
        bracketed.append(f"{opening}{entries}{closing}")
    return " ".join([first, *bracketed])


def number_words(values: Sequence[Value], groups: tuple[int, ...] = ()) -> str:
    """Print whole or broken numbers, one a size; `-` in a size that has none."""
    return size_words([_plain_words(value) for value in values], groups)


def length_words(values_mm: Sequence[Value], groups: tuple[int, ...] = ()) -> str:
    """Print lengths as `20 cm / 8 in`, each rounded from the unrounded length.

    Parameters
    ----------
    values_mm : sequence of int, Fraction or None
        (W,) lengths, exact. [mm]
    groups : tuple of int
        How many sizes stand together.
    """
    exact = [None if value is None else Fraction(value) for value in values_mm]
    in_cm = size_words([ABSENT if mm is None else centimetres(mm) for mm in exact], groups)
    in_inches = size_words([ABSENT if mm is None else inches(mm) for mm in exact], groups)
    return ABSENT if in_cm == ABSENT else f"{in_cm} cm / {in_inches} in"


def _plain_words(value: Value) -> str:
    if value is None:
        return ABSENT
    exact = Fraction(value)
    if exact.denominator == 1:
        return str(exact.numerator)
    thousandths = exact * 1000
    if thousandths.denominator == 1:
        return f"{float(exact):.3f}".rstrip("0")
    whole, rest = divmod(abs(exact.numerator), exact.denominator)
    words = f"{whole or ''} {rest}/{exact.denominator}".strip()
    return f"-{words}" if exact < 0 else words


# --------------------------------------------------------------------------- the author's text


def written_text(
    manuscript: Manuscript,
    span: Span,
    resolved: Resolved,
    groups: tuple[int, ...] = (),
    lengths: Collection[str] = (),
) -> tuple[Written, ...]:
    """Give the author's words of a span with every number token filled in.

    Parameters
    ----------
    manuscript : Manuscript
        The manuscript the span is of.
    span : Span
        Which words.
    resolved : Resolved
        What the numbers come to; the sizes worked now decide how many are printed.
    groups : tuple of int
        How many sizes stand together.
    lengths : collection of str
        Names whose values are lengths, for formulas; body measures are lengths anyway.

    Returns
    -------
    tuple of Written
        The words in order; a token that has no value keeps the author's spelling.
    """
    numbers = manuscript.numbers
    runs: list[Written] = []
    at = span.start
    for index in range(bisect_left(numbers, span.start, key=_start), len(numbers)):
        number = numbers[index]
        if number.place.start >= span.end:
            break
        if number.place.start < at or number.place.end > span.end:
            continue
        runs.extend(_own_words(manuscript, manuscript.text[at : number.place.start], resolved))
        spelling = manuscript.text[number.place.start : number.place.end]
        runs.append(Written(token_words(number, spelling, resolved, groups, lengths), number))
        at = number.place.end
    runs.extend(_own_words(manuscript, manuscript.text[at : span.end], resolved))
    return tuple(run for run in runs if run.words)


def token_words(
    number: Number,
    spelling: str,
    resolved: Resolved,
    groups: tuple[int, ...] = (),
    lengths: Collection[str] = (),
) -> str:
    """Print one number token in the sizes worked now; its spelling where it has no value."""
    values = resolved.of(number)
    if values is None:
        return spelling
    if not isinstance(number.value, tuple):
        if is_length(number.value, lengths) or number.kind is NumberKind.LENGTH:
            return length_words(values, groups)
        return number_words(values, groups)
    if len(number.value) == 1 or len(resolved.chosen) == len(resolved.sizes) > 1:
        return spelling
    return _cut(number, spelling, values, resolved, groups)


def is_length(formula: Formula, lengths: Collection[str] = ()) -> bool:
    """Tell whether a formula comes to a length, given the names that are lengths."""
    match formula:
        case Constant(unit=unit):
            return unit != ""
        case Name(name):
            return name in lengths or name.startswith("body.")
        case Negative(of):
            return is_length(of, lengths)
        case Arithmetic(operator, left, right):
            sides = is_length(left, lengths), is_length(right, lengths)
            return any(sides) and not (operator == "/" and sides[1])
        case Call(arguments=arguments):
            return any(is_length(argument, lengths) for argument in arguments)


def _start(number: Number) -> int:
    return number.place.start


def _cut(
    number: Number,
    spelling: str,
    values: tuple[Value, ...],
    resolved: Resolved,
    groups: tuple[int, ...],
) -> str:
    """Take the entries of the sizes worked now out of a hand-written list."""
    opened = min((i for i in map(spelling.find, "([{") if i >= 0), default=0)
    closed = max(map(spelling.rfind, ")]}")) + 1
    head, tail = spelling[:closed], spelling[closed:]
    entries = _LIST_ENTRY.findall(head[:opened]) + _LIST_ENTRY.findall(head[opened:])
    if len(entries) != len(resolved.sizes):
        if number.kind is NumberKind.LENGTH:
            return length_words(values, groups)
        times = " times" if "time" in head.lower() else ""  # "twice [3 times]{4 times}"
        return f"{number_words(values, groups)}{times}"
    return size_words([entries[i] for i in resolved.chosen], groups) + tail


def _own_words(manuscript: Manuscript, words: str, resolved: Resolved) -> Iterator[Written]:
    """Give the author's words; a list of size names keeps the sizes worked now only."""
    names = manuscript.sizes_line
    if len(names) != len(resolved.sizes) or len(resolved.chosen) == len(names):
        yield Written(words)
        return
    at = 0
    pattern = _SEPARATORS.join(map(re.escape, names)) + r"\s*[)\]}]*"
    for found in re.finditer(rf"(?<!\w){pattern}", words):
        yield Written(words[at : found.start()])
        yield Written(size_words([names[i] for i in resolved.chosen]))
        at = found.end()
    yield Written(words[at:])
