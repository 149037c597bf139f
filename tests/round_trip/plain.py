"""What two trees that mean the same have alike, and how a text is read for a test."""

from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from functools import cache
from types import MappingProxyType
from typing import Any, Final

from stitchproof.base.diagnostics import Diagnostic, Level
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.number import Number, NumberKind
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.language.tree import (
    Course,
    Evenly,
    FastenOff,
    JoinYarn,
    Remark,
    Repeat,
    RepeatRows,
    Special,
    Statement,
    Thing,
    Times,
)
from stitchproof.language.write.unfold import in_full
from stitchproof.trade.tables import Terms

OWN_WORDS: Final[Mapping[Any, str]] = MappingProxyType(
    {Remark: "words", FastenOff: "of", JoinYarn: "of", RepeatRows: "until_words"}
)


def meaning(tree: Any) -> Any:  # noqa: ANN401 - any node of the tree
    """Take out of a tree what decides nothing: marks of repeats, the author's word for a unit.

    Remarks are the author's words, also where their abbreviations are told in full.
    """
    if isinstance(tree, tuple):
        return tuple(meaning(one) for one in tree)
    if isinstance(tree, Number) or not is_dataclass(tree) or isinstance(tree, type):
        return tree
    if isinstance(tree, Repeat):
        tree = replace(tree, mark="")
    if isinstance(tree, Statement) and tree.noun.thing in {Thing.KIND, Thing.CHAIN_SPACE}:
        tree = replace(tree, unit="")
    if isinstance(tree, Times):
        tree = replace(tree, number=replace(tree.number, kind=NumberKind.COUNT))
    for kind, name in OWN_WORDS.items():
        if isinstance(tree, kind):
            words = in_full(in_full(getattr(tree, name), "US"), "UK").lower()
            tree = replace(tree, **{name: words})
    if isinstance(tree, Evenly) and tree.change:
        tree = replace(tree, along="")
    held = {f.name: getattr(tree, f.name) for f in fields(tree) if f.name != "place"}
    return replace(tree, **{name: meaning(value) for name, value in held.items()})


_HEAD: Final = """+++
terms = "{terms}"
[sizes]
make = ["S", "M", "L"]
[counts]
panel_sts = [40, 44, 48]
neck_sts = [20, 22, 24]
+++

## Special Stitches

Shell: 5 {dc} in indicated st.

V-st: ({dc}, ch 1, {dc}) in indicated st.

Knot: Insert hook in st, draw up a loop twice, {yo}, draw through all loops on hook.

## Back

Ch 9.

## Left Front

Ch 9.

## Front

"""
_WORDS: Final[Mapping[Terms, Mapping[str, str]]] = {
    "US": {"dc": "dc", "yo": "yo"},
    "UK": {"dc": "tr", "yo": "yrh"},
}


def manuscript_with(line: str, terms: Terms) -> tuple[Manuscript, list[Diagnostic]]:
    """Read a line in a manuscript of three sizes with stitches of its own."""
    head = _HEAD.format(terms=terms, **_WORDS[terms])
    manuscript, found = read_manuscript(f"{head}{line}\n", "sentence.md")
    return manuscript, [one for one in found if one.place.start >= len(head)]


@cache
def specials(terms: Terms) -> Mapping[str, Special]:
    """Give the stitches of that manuscript."""
    return {one.name: one for one in manuscript_with("", terms)[0].specials}


def read_line(line: str, terms: Terms) -> Course:
    """Read the one line that a manuscript of three sizes has, without anything being found."""
    manuscript, found = manuscript_with(line, terms)
    assert not [one.finding.code.slug for one in found if one.finding.code.level is not Level.NOTE]
    (course,) = manuscript.sections[-1].courses
    return course
