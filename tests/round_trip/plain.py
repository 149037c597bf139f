"""What two trees that mean the same have alike, and how a text is read for a test."""

from dataclasses import fields, is_dataclass, replace
from typing import Any

from stitchproof.base.place import Span
from stitchproof.language.number import Number, NumberKind
from stitchproof.language.read.lex import lex
from stitchproof.language.read.steps.line import read_steps
from stitchproof.language.read.steps.reader import Context
from stitchproof.language.tree import Evenly, Repeat, Special, Statement, Steps, Thing, Times
from stitchproof.language.write.steps import write_steps
from stitchproof.language.write.wording import Wording
from stitchproof.trade.tables import Terms

DECLARED = frozenset({"panel_sts", "neck_sts"})


def meaning(tree: Any) -> Any:  # noqa: ANN401 - any node of the tree
    """Take out of a tree what decides nothing: marks of repeats, the author's word for a unit."""
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
    if isinstance(tree, Evenly) and tree.change:
        tree = replace(tree, along="")
    held = {f.name: getattr(tree, f.name) for f in fields(tree) if f.name != "place"}
    return replace(tree, **{name: meaning(value) for name, value in held.items()})


def read(text: str, terms: Terms, specials: dict[str, Special] | None = None) -> Steps:
    """Read a sentence."""
    tokens, found = lex(text, Span("sentence", 0, len(text)), DECLARED, 3)
    steps, more = read_steps(tokens, Context(terms=terms, specials=specials or {}))
    assert not [one.finding.code.slug for one in (*found, *more)], text
    return steps


def written(steps: Steps, wording: Wording, *, rounds: bool = False) -> str:
    """Write a sentence, which must be possible."""
    words, found = write_steps(steps, wording, rounds=rounds)
    assert not found, words
    return words
