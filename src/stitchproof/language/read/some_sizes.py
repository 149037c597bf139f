"""Numbers of a line that is for some sizes and gives values for these alone.

Below `Sizes L and XL only` a list may hold a value for every size of the pattern, with dashes, or
two values: `38 (42)`, `(38, 42 sts)`. Told apart by their number, all are the same.
"""

import re
from collections.abc import Iterator
from typing import Final

from stitchproof.base.records import replace
from stitchproof.language.number import Number
from stitchproof.language.read.lex import Token
from stitchproof.language.tree import Label


def for_these(
    tokens: tuple[Token, ...], only: tuple[str, ...], names: tuple[str, ...]
) -> tuple[Token, ...]:
    """Spread the lists of a line for some sizes over all sizes.

    Parameters
    ----------
    tokens : tuple of Token
        The words of the line.
    only : tuple of str
        The sizes it is for; empty for all.
    names : tuple of str
        All sizes.
    """
    if not _spreads(only, names):
        return tokens
    return tuple(
        token if token.number is None else replace(token, number=_spread(token.number, only, names))
        for token in _with_lists(tokens, len(only))
    )


def _with_lists(tokens: tuple[Token, ...], many: int) -> Iterator[Token]:
    """Take `44, 48` at the beginning of a bracket for one number, if there are so many sizes."""
    reach = 2 * many - 1
    i = 0
    while i < len(tokens):
        listed = tokens[i : i + reach] if i and tokens[i - 1].text in _OPENING else ()
        if len(listed) == reach and _is_list(listed, tokens[i + reach : i + reach + 2]):
            yield _one(listed)
            i += reach
        else:
            yield tokens[i]
            i += 1


_OPENING: Final = frozenset(("(", "[", "{"))
_CLOSING: Final = frozenset((")", "]", "}"))


def _is_list(listed: tuple[Token, ...], behind: tuple[Token, ...]) -> bool:
    numbers, marks = listed[::2], listed[1::2]
    plain = all(
        t.number is not None and isinstance(t.number.value, tuple) and len(t.number.value) == 1
        for t in numbers
    )
    parted = len({t.text for t in marks}) == 1 and marks[0].text in {",", ":", "/", ";"}
    return plain and parted and any(t.text in _CLOSING for t in behind)


def _one(listed: tuple[Token, ...]) -> Token:
    numbers = [token.number for token in listed[::2] if token.number is not None]
    values = tuple(value for n in numbers if isinstance(n.value, tuple) for value in n.value)
    place = listed[0].place.to(listed[-1].place)
    spelling = f"{values[0]} ({', '.join(str(value) for value in values[1:])})"
    number = replace(numbers[0], value=values, spelling=spelling, place=place)
    return replace(listed[0], text=spelling, place=place, number=number)


def label_for_these(label: Label, only: tuple[str, ...], names: tuple[str, ...]) -> Label:
    """Spread the row numbers of a line for some sizes over all sizes: `Rnd 6 (7)`."""
    if not _spreads(only, names):
        return label
    first = label.first and _spread(label.first, only, names)
    return replace(
        label,
        first=first,
        last=first
        if label.last is label.first
        else label.last and _spread(label.last, only, names),
        listed=tuple(_spread(number, only, names) for number in label.listed),
        span=label.span and _spread(label.span, only, names),
    )


def slashed(words: str, sizes: int) -> bool:
    """Whether a line for so many sizes gives its numbers as `48/52/56`."""
    return sizes > 1 and any(
        one.group().count("/") + 1 == sizes for one in _SLASHES.finditer(words)
    )


def listed_for(words: str, sizes: int) -> bool:
    """Whether a line for so many sizes gives each of its lists a value for each of them."""
    lists = [len(_VALUES.findall(one.group())) for one in _LISTS.finditer(words)]
    return sizes > 1 and bool(lists) and set(lists) == {sizes}


_LISTS: Final = re.compile(
    r"(?<![\d-])(?:\d+|[-–—])\s?[(\[](?:\d+|[-–—])(?:\s?[,:;/]\s?(?:\d+|[-–—]))*[)\]]"
)
_VALUES: Final = re.compile(r"\d+|[-–—]")
_SLASHES: Final = re.compile(r"(?<![\d/])\d+(?:/\d+)+(?![\d/])")


def _spreads(only: tuple[str, ...], names: tuple[str, ...]) -> bool:
    return 1 < len(only) < len(names) and set(only) <= set(names)


def _spread(number: Number, only: tuple[str, ...], names: tuple[str, ...]) -> Number:
    values = number.value
    if not isinstance(values, tuple) or len(values) != len(only):
        return number
    given = dict(zip((name for name in names if name in only), values, strict=True))
    return replace(number, value=tuple(given.get(name) for name in names))
