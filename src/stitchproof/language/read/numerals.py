"""Numbers as they are written: digits, words, fractions and units of length."""

from fractions import Fraction
from functools import cache
from types import MappingProxyType
from typing import Final, NamedTuple

from stitchproof.language.formula import Formula


class Raw(NamedTuple):
    """A piece of folded text before numbers are put together.

    Attributes
    ----------
    kind : str
        "number", "ordinal", "word" or "mark".
    text : str
        Folded characters.
    start, end : int
        Where they stand in the folded text.
    value : int or Fraction or None
        Of a number or an ordinal.
    spelled : bool
        A number in words.
    formula : Formula or None
        Of a number between braces.
    """

    kind: str
    text: str
    start: int
    end: int
    value: int | Fraction | None = None
    spelled: bool = False
    formula: Formula | None = None


@cache
def word_set(words: str) -> frozenset[str]:
    """Make a set of words that are written one after another."""
    return frozenset(words.split())


_UNITS_AND_TEENS: Final = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen"),
    *("eighteen", "nineteen"),
)
TENS: Final = MappingProxyType(
    {
        word: 10 * i
        for i, word in enumerate(
            ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"), start=2
        )
    }
)
TIMES: Final = MappingProxyType({"once": 1, "twice": 2, "thrice": 3})
WORDS: Final = MappingProxyType(
    {word: i for i, word in enumerate(_UNITS_AND_TEENS)} | dict(TENS) | dict(TIMES)
)
ORDINALS: Final = MappingProxyType(
    {
        word: i
        for i, word in enumerate(
            (
                *("second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"),
                *("tenth", "eleventh", "twelfth"),
            ),
            start=2,
        )
    }
)
FRACTIONS: Final = MappingProxyType(
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
_DENOMINATORS: Final = frozenset((2, 3, 4, 8, 16))
LONGEST_NUMBER: Final = 18  # digits; a longer run is no count of anything
_INCH: Final = Fraction(254, 10)
LENGTHS: Final = MappingProxyType(
    {
        "mm": Fraction(1),
        "cm": Fraction(10),
        "cms": Fraction(10),
        "in": _INCH,
        "ins": _INCH,
        "inch": _INCH,
        "inches": _INCH,
        '"': _INCH,
    }
)  # [mm]


def decimal(words: str) -> int | Fraction:
    """Give the value of digits with or without a point."""
    if "." not in words:
        return int(words)
    value = Fraction(words)
    return int(value) if value.denominator == 1 else value


def join_parts(raws: list[Raw], i: int, text: str) -> tuple[Raw, int] | None:
    """Join `21 ½`, `1 1/2`, `3/4` or `twenty-four`, which begin at `i`; None if none does."""
    raw = raws[i]
    if raw.kind != "number" or not isinstance(raw.value, int):
        return None
    if raw.text in TENS:
        return _tens(raws, i, text)
    whole = _fraction(raws, i, 0)
    if whole is not None:
        return whole
    if i + 1 >= len(raws) or raws[i + 1].start - raw.end > 1:
        return None
    after = raws[i + 1]
    if after.kind == "number" and after.text in FRACTIONS:
        assert after.value is not None
        return _one(raw, after, raw.value + after.value, text), i + 2
    return _fraction(raws, i + 1, raw.value, raw)


def _tens(raws: list[Raw], i: int, text: str) -> tuple[Raw, int] | None:
    raw, rest = raws[i], raws[i + 1 : i + 3]
    if rest and rest[0].text == "-":
        rest = rest[1:]
    if not rest or rest[0].text not in _UNITS_AND_TEENS[1:10]:
        return None
    unit = rest[0]
    assert raw.value is not None
    assert unit.value is not None
    if text[raw.end : unit.start] not in {"-", " ", ""}:
        return None
    return _one(raw, unit, raw.value + unit.value, text), raws.index(unit, i) + 1


def _fraction(
    raws: list[Raw], i: int, whole: int, first: Raw | None = None
) -> tuple[Raw, int] | None:
    """Read `3/4` written with figures and no spaces."""
    if i + 2 >= len(raws):
        return None
    over, slash, under = raws[i : i + 3]
    touching = over.end == slash.start and slash.end == under.start
    if not touching or slash.text not in {"/", "⁄"}:
        return None
    if not isinstance(over.value, int) or not isinstance(under.value, int):
        return None
    if under.value not in _DENOMINATORS or not 0 < over.value < under.value:
        return None
    last = raws[i + 3 : i + 4]
    if last and last[0].text == "/" and last[0].start == under.end:
        return None  # `6/7/7/8`: one number a size
    if i and not whole and raws[i - 1].text == "/" and raws[i - 1].end == over.start:
        return None
    value = whole + Fraction(over.value, under.value)
    start = first or over
    words = f"{start.text} {over.text}/{under.text}" if first else f"{over.text}/{under.text}"
    return Raw(kind="number", text=words, start=start.start, end=under.end, value=value), i + 3


def _one(first: Raw, last: Raw, value: int | Fraction, text: str) -> Raw:
    return Raw(
        kind="number",
        text=text[first.start : last.end],
        start=first.start,
        end=last.end,
        value=int(value) if value == int(value) else value,
        spelled=first.spelled,
    )


def merged(raws: list[Raw], text: str) -> list[Raw]:
    """Join `21 ½`, `1 1/2` and `twenty-four` into one number each."""
    out: list[Raw] = []
    i = 0
    while i < len(raws):
        listed = _is_in_list(raws, i)
        joined = join_parts(raws, i, text) if raws[i].kind == "number" and not listed else None
        if joined is None:
            out.append(raws[i])
            i += 1
        else:
            raw, i = joined
            out.append(raw)
    return out


def _is_in_list(raws: list[Raw], i: int) -> bool:
    """Tell whether the `3/4` of `3 (3/4) more times` begins there: two more sizes, no fraction."""
    if i < 2 or raws[i - 1].text not in "([" or raws[i - 2].kind != "number":  # noqa: PLR2004
        return False
    return [raw.text for raw in raws[i + 1 : i + 4 : 2]] in (["/", ")"], ["/", "]"])
