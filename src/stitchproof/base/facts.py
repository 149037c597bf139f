"""Facts of a finding: frozen dataclasses that take little time to make.

`dataclass(frozen=True)` writes and compiles six methods for every class, which takes half a
millisecond; there are more than a hundred kinds of findings, and the command line loads them all.
The methods of `facts` are the same for all kinds; what they take longer does not matter for the few
findings of a manuscript.
"""

from dataclasses import MISSING, FrozenInstanceError, dataclass, fields
from typing import TypeVar, dataclass_transform

Kind = TypeVar("Kind")


@dataclass_transform(frozen_default=True)
def facts(kind: type[Kind]) -> type[Kind]:
    """Make a frozen dataclass of a kind of finding."""
    made = dataclass(init=False, repr=False, eq=False)(kind)
    for name in ("__init__", "__repr__", "__eq__", "__hash__", "__setattr__", "__delattr__"):
        setattr(made, name, vars(_Methods)[name])
    return made


class _Methods:
    """What a frozen dataclass can do, whatever its fields are."""

    def __init__(self, *values: object, **named: object) -> None:
        places = fields(self)  # type: ignore[arg-type] # it is one, where this is put
        given = {one.name: value for one, value in zip(places, values, strict=False)} | named
        if len(given) < len(values) + len(named):
            message = f"too many facts for {type(self).__name__}"
            raise TypeError(message)
        for one in places:
            value = given.pop(one.name, one.default)
            if value is MISSING:
                message = f"{type(self).__name__} needs `{one.name}`"
                raise TypeError(message)
            object.__setattr__(self, one.name, value)
        if given:
            message = f"{type(self).__name__} has no {', '.join(given)}"
            raise TypeError(message)

    def __repr__(self) -> str:
        words = ", ".join(f"{name}={value!r}" for name, value in vars(self).items())
        return f"{type(self).__qualname__}({words})"

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and vars(self) == vars(other)

    def __hash__(self) -> int:
        return hash(tuple(vars(self).values()))

    def __setattr__(self, name: str, value: object) -> None:
        raise FrozenInstanceError(name)

    def __delattr__(self, name: str) -> None:
        raise FrozenInstanceError(name)
