"""Reading the packaged tables of the trade.

Every row of a table names its `source` and says in `confidence` whether the figure was read there
or recalled. Nothing is loaded before it is asked for, and each table is read once.
"""

import tomllib
from collections.abc import Iterable, Mapping
from decimal import Decimal
from fractions import Fraction
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Final, Literal, TypeAlias, cast

_DATA: Final = Path(__file__).parent / "data"

Terms: TypeAlias = Literal["US", "UK"]
Confidence: TypeAlias = Literal["read", "recalled"]
Row: TypeAlias = Mapping[str, object]


@cache
def table(name: str) -> Row:
    """Read a packaged table by name (`stitches`), decimals kept exact."""
    text = (_DATA / f"{name}.toml").read_text("utf-8")
    return MappingProxyType(tomllib.loads(text, parse_float=Decimal))


def rows(source: Row, key: str) -> tuple[Row, ...]:
    """Give the rows of an array of tables."""
    return tuple(cast("Iterable[Row]", source.get(key, ())))


def words(row: Row, key: str) -> tuple[str, ...]:
    """Give a list of strings; empty when the row has none."""
    return tuple(cast("Iterable[str]", row.get(key, ())))


def text(row: Row, key: str) -> str:
    """Give a string; empty when the row has none."""
    return str(row.get(key, ""))


def whole(row: Row, key: str) -> int | None:
    """Give a whole number; None when the row has none."""
    value = row.get(key)
    return value if isinstance(value, int) else None


def exact(value: object) -> Fraction:
    """Turn a number of a table into an exact fraction."""
    if isinstance(value, int | Decimal):
        return Fraction(value)
    message = f"not a number of a table: {value!r}"
    raise TypeError(message)


def span(value: object) -> tuple[Fraction, Fraction]:
    """Turn a number, or a pair of numbers, into a range; a single number is a range of itself."""
    if isinstance(value, list):
        low, high = value
        return exact(low), exact(high)
    return exact(value), exact(value)


def confidence(row: Row) -> Confidence:
    """Say whether the figures of a row were read or recalled."""
    return "read" if row["confidence"] == "read" else "recalled"
