"""Dataclasses that take little time to define.

`dataclasses.dataclass` writes and compiles up to six methods for every class, which takes nearly a
millisecond; the command line loads three hundred classes, and one manuscript makes objects of less
than half of them. Here the methods are the same for all classes, but for `__init__`: objects are
made by the hundred thousand, so it is written for each class when its first object is made. To
whoever reads or checks a class, it is a dataclass like any other.
"""

import dataclasses
from collections.abc import Callable
from operator import attrgetter
from typing import TYPE_CHECKING, Any, Final, Never, TypeAlias, TypeVar

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

Kind: TypeAlias = type[Any]
Record = TypeVar("Record", bound="DataclassInstance")
_MADE_WITH: Final[dict[Kind, tuple[tuple[str, ...], Callable[[object], tuple[object, ...]]]]] = {}
_UNSET: Final = object()  # in place of what a factory makes


def _define(
    kind: Kind | None = None,
    *,
    frozen: bool = False,
    slots: bool = False,
    kw_only: bool = False,
    eq: bool = True,
) -> Kind | Callable[[Kind], Kind]:
    """Define a dataclass; what is given means what it means in the standard library."""

    def define(kind: Kind) -> Kind:
        own = vars(kind).keys()
        make = dataclasses.dataclass(init=False, repr=False, eq=False, slots=slots, kw_only=kw_only)
        made = make(kind)
        methods: dict[str, object] = {"__init__": _first_init, "__repr__": _repr}
        if eq:
            methods |= _comparing(made, frozen=frozen)
        if frozen:
            methods |= {"__setattr__": _refuse, "__delattr__": _refuse}
            methods |= {"__getstate__": _state, "__setstate__": _set_state}
        for name, method in methods.items():
            if name not in own:
                setattr(made, name, method)
        return made

    return define if kind is None else define(kind)


if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass  # noqa: PLC0414 - known to the checker so
else:
    dataclass = _define


def replace(one: Record, /, **changes: object) -> Record:
    """Give a copy of an object with other values in some fields, as `dataclasses.replace` does.

    It takes a third of the time, since the names of the fields are looked up once for each class.

    Raises
    ------
    TypeError
        When a change names no field that the class is made with.
    """
    kind: type[Record] = type(one)
    known = _MADE_WITH.get(kind)
    if known is None:
        names = tuple(field.name for field in dataclasses.fields(one) if field.init)
        known = _MADE_WITH[kind] = names, _getter(names)
    names, held = known
    values = dict(zip(names, held(one), strict=True))
    values.update(changes)
    return kind(**values)


def _getter(names: tuple[str, ...]) -> Callable[[object], tuple[object, ...]]:
    if len(names) > 1:
        return attrgetter(*names)
    return lambda one: tuple(getattr(one, name) for name in names)


def _first_init(self: object, *values: object, **named: object) -> None:
    kind: Kind = type(self)
    kind.__init__ = _written_init(kind)
    kind.__init__(self, *values, **named)


def _written_init(kind: Kind) -> Callable[..., None]:
    """Write the `__init__` of a class."""
    # no field has a name between such underscores
    known: dict[str, Any] = {"__unset__": _UNSET}
    lines: list[str] = []
    places, only_named = ["self"], list[str]()
    for one in dataclasses.fields(kind):
        name = one.name
        default = factory = ""
        if one.default is not dataclasses.MISSING:
            default = f"__default_{name}__"
            known[default] = one.default
        elif one.default_factory is not dataclasses.MISSING:
            default, factory = "__unset__", f"__make_{name}__()"
            known[f"__make_{name}__"] = one.default_factory
        value = f"{factory} if {name} is __unset__ else {name}" if factory else name
        value = value if one.init else factory or default
        if kind.__setattr__ is not _refuse:
            lines.append(f" self.{name} = {value}")
        elif "__slots__" in vars(kind):  # two thirds of the time that `object.__setattr__` takes
            known[f"__put_{name}__"] = vars(kind)[name].__set__
            lines.append(f" __put_{name}__(self, {value})")
        else:
            lines.append(f" self.__dict__[{name!r}] = {value}")
        if one.init:
            (only_named if one.kw_only else places).append(f"{name}={default}" if default else name)
    if hasattr(kind, "__post_init__"):
        lines.append(" self.__post_init__()")
    if only_named:
        places += ["*", *only_named]
    head = f"def __init__({', '.join(places)}) -> None:"
    exec("\n".join([head, *lines, " return"]), known)  # noqa: S102 - from names of fields alone
    written: Callable[..., None] = known["__init__"]
    written.__qualname__ = f"{kind.__qualname__}.__init__"
    return written


def _comparing(kind: Kind, *, frozen: bool) -> dict[str, object]:
    """Give the methods that compare objects by their fields."""
    names = [one.name for one in dataclasses.fields(kind) if one.compare]
    held: Callable[[object], object] = attrgetter(*names) if names else type

    def equal(self: object, other: object) -> object:
        if self is other:
            return True
        if self.__class__ is not other.__class__:
            return NotImplemented
        return held(self) == held(other)

    def number(self: object) -> int:
        return hash(held(self))

    return {"__eq__": equal, "__hash__": number if frozen else None}


def _fields(self: object) -> tuple["dataclasses.Field[Any]", ...]:
    kind: Kind = type(self)
    return dataclasses.fields(kind)


def _repr(self: object) -> str:
    shown = (one.name for one in _fields(self) if one.repr)
    words = ", ".join(f"{name}={getattr(self, name)!r}" for name in shown)
    return f"{type(self).__qualname__}({words})"


def _refuse(self: object, name: str, *_: object) -> Never:
    del self
    raise dataclasses.FrozenInstanceError(name)


def _state(self: object) -> list[object]:
    return [getattr(self, one.name) for one in _fields(self)]


def _set_state(self: object, state: list[object]) -> None:
    for one, value in zip(_fields(self), state, strict=True):
        object.__setattr__(self, one.name, value)
