"""Facts of a finding: frozen dataclasses, one for each kind of finding."""

from typing import TypeVar, dataclass_transform

from stitchproof.base.records import dataclass

Kind = TypeVar("Kind")


@dataclass_transform(frozen_default=True)
def facts(kind: type[Kind]) -> type[Kind]:
    """Make a frozen dataclass of a kind of finding."""
    return dataclass(frozen=True)(kind)
