"""Every form of the tree, from its own types: what may stand in each field of each node.

A form is a node, one of its fields and what stands there: (`Join`, `do`, `no`), (`Make`, `at`,
`Below`), (`Next`, `noun`, `corner st`). What the trade has no words for is named with its reason.
"""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from enum import Enum
from types import NoneType, UnionType
from typing import Any, Final, TypeAlias, Union, get_args, get_origin, get_type_hints

from stitchproof.language import courses, steps, stitch, targets
from stitchproof.language.number import Number, NumberKind
from stitchproof.language.tree import (
    AsLong,
    Behind,
    Below,
    Between,
    Chain,
    Colour,
    Counts,
    Course,
    Each,
    Evenly,
    Facing,
    FastenOff,
    First,
    Group,
    InPattern,
    Join,
    JoinYarn,
    Label,
    Last,
    Leave,
    MagicRing,
    Make,
    Mark,
    Marked,
    Next,
    Noun,
    Nth,
    On,
    OppositeSide,
    Remark,
    Repeat,
    RepeatRows,
    RowEnds,
    Same,
    SeamPlace,
    SeamSides,
    SeamTops,
    Shape,
    Skip,
    Skipped,
    Stated,
    Statement,
    Stitch,
    Times,
    To,
    ToLast,
    ToMarked,
    Turn,
    Within,
)

Form: TypeAlias = tuple[str, str, str]

NODES: Final = (
    *(Course, Label, RepeatRows, Stated, Statement),
    *(Make, Chain, Counts, MagicRing, Skip, Leave, Group, Repeat, Times, AsLong, Turn, Join),
    *(FastenOff, JoinYarn, Facing, Mark, Colour, SeamTops, SeamSides, Shape, Remark),
    InPattern,
    *(Next, Each, Same, First, Last, Nth, Below, Between, Marked, Behind, Skipped, SeamPlace),
    *(Within, On, RowEnds, Evenly, OppositeSide, ToLast, To, ToMarked, Stitch, Noun),
)
# Fields of words that are one of a few.
CLOSED: Final[dict[tuple[str, str], tuple[str, ...]]] = {
    ("Counts", "stitch"): ("", "st", "words"),
    ("Facing", "side"): ("RS", "WS"),
    ("Label", "side"): ("", "RS", "WS"),
    ("RepeatRows", "ending"): ("", "RS", "WS"),
    ("Mark", "action"): ("place", "move", "slip", "remove", "between"),
    ("Shape", "change"): ("increased", "decreased"),
    ("Shape", "way"): ("", "slip", "leave"),
    ("Evenly", "change"): ("", "increased", "decreased", "in all"),
    ("Statement", "change"): ("", "increased", "decreased"),
    ("SeamPlace", "which"): ("", "shoulder", "side", "other", "next", "underarm"),
    ("Noun", "kind"): ("", "corner", "centre", "edge", "gap", "words"),
}
NEVER_EMPTY: Final = frozenset(
    (
        *(("Remark", "words"), ("Colour", "name"), ("Stitch", "kind"), ("SeamTops", "name")),
        *(("SeamSides", "name"), ("Repeat", "body"), ("Group", "body"), ("Nth", "ordinals")),
        *(("RowEnds", "rates"), ("Course", "does"), ("Stated", "statements")),
    )
)


def forms_of(tree: object) -> Iterator[Form]:
    """Give the forms that a tree holds."""
    if isinstance(tree, tuple):
        for one in tree:
            yield from forms_of(one)
    elif is_dataclass(tree) and not isinstance(tree, Number):
        kind = type(tree).__name__
        yield kind, "", ""
        for field in fields(tree):
            if field.name == "place":
                continue
            value = getattr(tree, field.name)
            for tag in _tags(kind, field.name, value):
                yield kind, field.name, tag
            yield from forms_of(value)


def _tags(kind: str, name: str, value: Any) -> Iterator[str]:  # noqa: ANN401 - of any field
    match value:
        case bool():
            yield "yes" if value else "no"
        case None:
            yield "none"
        case str():
            closed = CLOSED.get((kind, name), ("", "words"))
            yield value if value in closed else "words"
        case tuple():
            yield from [""] if not value else []
            for one in value:
                yield from _tags(kind, name, one)
        case Enum():
            yield value.name
        case Noun():
            yield _noun(value)
        case Number():
            yield _number(value)
        case _:
            yield type(value).__name__


def _noun(noun: Noun) -> str:
    special = noun.kind in {"corner", "centre", "gap"}
    return f"{noun.kind} {noun.thing.name}" if special else noun.thing.name


def _number(number: Number) -> str:
    """Tell how a number is written: once for all sizes, as a list, as a formula."""
    values = number.value
    if not isinstance(values, tuple):
        return "formula"
    what = "length" if number.kind is NumberKind.LENGTH else "number"
    if len(values) == 1:
        return {(0,): "0", (1,): "1"}.get(values, what)  # type: ignore[arg-type] # of any values
    holds = "-" if None in values else "0" if 0 in values else ""
    return f"list of {what}s {f'with {holds}' if holds else ''}".rstrip()


def needed_forms() -> Iterator[Form]:
    """Give the forms that the types of the tree allow: nodes, and what each field of one may be.

    Which node may stand in a field of another is not asked of the types, which allow far more than
    any words say, but of the texts that are read.
    """
    known = {**vars(steps), **vars(targets), **vars(stitch), **vars(courses)}
    for node in NODES:
        yield node.__name__, "", ""
        for name, hint in get_type_hints(node, known).items():
            if name != "place":
                for tag in dict.fromkeys(_needed(node.__name__, name, hint)):
                    yield node.__name__, name, tag


def _needed(kind: str, name: str, hint: Any) -> Iterator[str]:  # noqa: ANN401 - any type
    if hint is bool:
        yield from ("yes", "no")
    elif hint is NoneType:
        yield "none"
    elif hint is str:
        empty = ("words",) if (kind, name) in NEVER_EMPTY else ("", "words")
        yield from CLOSED.get((kind, name), empty)
    elif get_origin(hint) is tuple:
        yield from () if (kind, name) in NEVER_EMPTY else ("",)
    elif get_origin(hint) in {Union, UnionType}:
        for one in get_args(hint):
            yield from _needed(kind, name, one)
    elif issubclass(hint, Enum):
        yield from (member.name for member in hint)
