"""Dataclasses that write their `__init__` late are dataclasses like any other."""

import dataclasses
import pickle
from dataclasses import FrozenInstanceError, field, fields

import pytest

from stitchproof.base.records import dataclass, replace


@dataclass(frozen=True, slots=True)
class Knot:
    """Frozen, with every kind of field."""

    put: str
    turns: int = 1
    loops: list[int] = field(default_factory=list)
    place: int = field(default=0, compare=False, repr=False)
    tight: bool = field(default=False, kw_only=True)


@dataclass(slots=True)
class Ball:
    """Not frozen."""

    grams: int
    left: int = field(default=0, init=False)

    def __post_init__(self) -> None:
        self.left = self.grams


@dataclass(frozen=True, eq=False)
class Hank:
    """Frozen, with an ordinary dictionary, equal to itself alone."""

    grams: int
    wound: bool = False


@dataclass(frozen=True, slots=True)
class Nothing:
    """No fields at all."""


def test_fields_have_their_values_and_defaults() -> None:
    knot = Knot("under", tight=True)
    assert (knot.put, knot.turns, knot.loops, knot.place, knot.tight) == ("under", 1, [], 0, True)
    assert knot.loops is not Knot("under").loops
    assert Ball(50).left == 50
    assert (Hank(50).wound, Hank(50, wound=True).grams) == (False, 50)
    assert [one.name for one in fields(Knot)] == ["put", "turns", "loops", "place", "tight"]


def test_what_does_not_fit_is_refused() -> None:
    with pytest.raises(TypeError):
        Knot()  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        Knot("a", 1, [], 0, "tight")  # type: ignore[call-arg, arg-type]
    with pytest.raises(TypeError):
        Knot("a", of=2)  # type: ignore[call-arg]


def test_equal_fields_are_equal_and_have_one_hash() -> None:
    assert Knot("a", 2, place=1) == Knot("a", 2, place=3)
    assert Knot("a", 2) != Knot("a", 3)
    assert Nothing() == Nothing()
    assert Hank(5) != Hank(5)
    assert hash(Nothing()) == hash(Nothing())
    assert hash(Knot("a", loops=())) == hash(Knot("a", loops=(), place=4))  # type: ignore[arg-type]
    with pytest.raises(TypeError):
        hash(Ball(1))


def test_what_is_frozen_stays_as_it_is() -> None:
    knot = Knot("a")
    with pytest.raises(FrozenInstanceError):
        knot.put = "b"  # type: ignore[misc]
    with pytest.raises(FrozenInstanceError):
        del knot.put
    ball = Ball(50)
    ball.left = 20
    assert ball.left == 20
    assert replace(knot, put="b") == Knot("b")
    assert pickle.loads(pickle.dumps(knot)) == knot  # noqa: S301 - made here


def test_it_can_be_shown_and_matched() -> None:
    assert repr(Knot("a")) == "Knot(put='a', turns=1, loops=[], tight=False)"
    match Knot("a", 3):
        case Knot(put, turns):
            assert (put, turns) == ("a", 3)


@pytest.mark.parametrize(
    "one", [Knot("under", 2, [3], 4, tight=True), Ball(50), Hank(7), Nothing()]
)
def test_a_copy_with_changes_is_that_of_the_standard_library(one: Knot | Ball | Hank) -> None:
    assert fields(replace(one)) == fields(dataclasses.replace(one))
    for changed in fields(one):
        if not changed.init:
            continue
        mine, theirs = (how(one, **{changed.name: 9}) for how in (replace, dataclasses.replace))
        for kept in fields(one):
            assert getattr(mine, kept.name) == getattr(theirs, kept.name)
    with pytest.raises(TypeError):
        replace(one, colour=1)
