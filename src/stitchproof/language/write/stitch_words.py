"""Names of stitches, and of the things that places are counted in."""

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from stitchproof.language.tree import Loop, Noun, Post, Special, Stitch, Thing
from stitchproof.language.write.wording import Wording
from stitchproof.trade import stitches
from stitchproof.trade.stitches import PostSide

_SIDES: Final[Mapping[Post, PostSide]] = MappingProxyType(
    {Post.NONE: "none", Post.FRONT: "front", Post.BACK: "back"}
)
_SHORT_LOOPS: Final = MappingProxyType(
    {Loop.BOTH: "", Loop.BACK: " BLO", Loop.FRONT: " FLO", Loop.THIRD: ""}
)

_HELD: Final = re.compile(r"(?P<size>\d+)-(?P<kind>\w+) group")  # `3-dc group`


def is_held(noun: Noun) -> bool:
    """Whether a group is named by what it holds."""
    return noun.thing is Thing.GROUP and _HELD.fullmatch(noun.kind) is not None


_PLURALS: Final = MappingProxyType({"x": "xes", "ch": "ches", "sh": "shes", "ss": "sses"})


def plural(unit: str) -> str:
    """Give the word for many: `shells`, `bunches`."""
    if unit.endswith("ed") or unit == "plain":
        return unit  # "12 raised, 12 plain"
    for tail, put in _PLURALS.items():
        if unit.endswith(tail):
            return f"{unit.removesuffix(tail)}{put}"
    return unit if unit.endswith("s") else f"{unit}s"


def group_name(name: str) -> str:
    """Give the name of a group as it is printed: `V-st`, but `shell`."""
    return f"V{name[1:]}" if name[:2] == "v-" else name


def held_words(noun: Noun, wording: Wording, *, many: bool) -> str:
    """Name counted groups by what they hold: `groups of 3 dc`, where a number stands before it."""
    held = _HELD.fullmatch(noun.kind)
    assert held is not None
    group = "groups" if many else "group"
    kind = wording.word("sts") if held["kind"] == "st" else kind_name(held["kind"], wording)
    return f"{group} of {held['size']} {kind}"


def stitch_name(stitch: Stitch, wording: Wording) -> str:
    """Name a stitch without its loops: `FPdc`, `sc2tog`, `half double crochet`.

    Groups ("bobble", "cluster") are named in full always: few agree on how they are shortened.
    """
    own = _special_name(stitch, wording)
    if own:
        return own
    side = _SIDES[stitch.post]
    row = stitches.stitches().get(stitch.kind)
    in_full = wording.full or (row is not None and row.group)
    name = stitches.long_name if in_full else stitches.abbreviation
    return name(stitch.kind, side, stitch.together, wording.terms)


def _special_name(stitch: Stitch, wording: Wording) -> str:
    """Give the author's spelling of a stitch that only the author names."""
    special = own_stitch(stitch.kind, wording)
    if special is None or stitch.post is not Post.NONE or stitch.together > 1:
        return ""
    return said_name(special)


def said_name(special: Special) -> str:
    """Give the author's name as it stands within a sentence: `shell`, but `V-st` and `CL`."""
    name = special.written
    return name.lower() if name[:2].isalpha() and name[1:].islower() else name


def own_stitch(kind: str, wording: Wording) -> Special | None:
    """Give the author's definition of a stitch, where the author's name of it is written.

    An author's `dc2tog` may be another stitch in these terms; and a stitch of the trade that the
    author shortens has its long name in full, and the name of the other terms in those.
    """
    special = wording.specials.get(kind)
    made = None if special is None else special.stitch
    row = None if made is None else stitches.stitches().get(made.kind)
    if made is None or row is None:
        return special
    reworded = wording.written_in not in {None, wording.terms}
    other = made.name != kind or ((wording.full or reworded) and not row.group)
    return None if other else special


def loop_behind(stitch: Stitch, wording: Wording) -> str:
    """Give the loop as it stands behind the name: ` BLO`; empty where the place names it."""
    return "" if wording.full else _SHORT_LOOPS[stitch.loop]


def loop_before_place(stitch: Stitch, wording: Wording) -> str:
    """Give the loop as it stands before the place: `3rd loop of `."""
    if stitch.loop is Loop.BOTH:
        return ""
    if stitch.loop is Loop.THIRD:
        return "3rd loop of "
    return f"{stitch.loop.value} loop only of " if wording.full else ""


def kind_name(kind: str, wording: Wording) -> str:
    """Name stitches of a kind as a tally names them: `fptr`, `sc2tog`, `sl_st`, `shell`."""
    special = own_stitch(kind, wording)
    if special is not None:
        return said_name(special)
    if kind in stitches.stitches():
        return stitch_name(Stitch(kind), wording)
    named = stitches.named(kind.replace("_", " "), "US")
    if named is None:
        return kind
    post = {"none": Post.NONE, "front": Post.FRONT, "back": Post.BACK}[named.post]
    return stitch_name(Stitch(named.kind, post=post, together=named.together), wording)


def noun_words(  # noqa: C901, PLR0911, PLR0912 - a line a kind of thing
    noun: Noun, wording: Wording, *, many: bool = False
) -> str:
    """Name a thing, one of it or many: `ch-2 sp`, `sts`, `FPtr`."""
    word = wording.word
    corner = {"corner": "corner ", "centre": f"{word('center')} "}.get(noun.kind, "")
    if wording.centred and noun.thing is Thing.SPACE and corner:
        corner = f"{word('center')} "
    match noun.thing:
        case Thing.SPACE if corner == "corner ":
            return "corners" if many else "corner"  # where there is no space, it is a stitch
        case Thing.SPACE if noun.kind == "gap":
            return "gaps" if many else "gap"
        case Thing.STITCH if noun.kind == "edge":
            return f"{word('sts' if many else 'st')} of edge"
        case Thing.STITCH:
            return f"{corner}{word('sts' if many else 'st')}"
        case Thing.GROUP if not noun.kind:
            return "groups" if many else "group"
        case Thing.GROUP if held := _HELD.fullmatch(noun.kind):
            group = "groups" if many else "group"
            return f"{held['size']}-{kind_name(held['kind'], wording)} {group}"
        case Thing.GROUP:
            name = group_name(kind_name(noun.kind, wording))
            return plural(name) if many else name
        case Thing.KIND if noun.kind == "post":
            return f"post {word('sts' if many else 'st')}"
        case Thing.KIND:
            row = stitches.stitches().get(noun.kind)
            name = kind_name(noun.kind, wording)
            return plural(name) if many and row is not None and row.group else name
        case Thing.CHAIN:
            return word("chs" if many else "ch")
        case Thing.STITCH_OR_CHAIN:
            first = kind_name(noun.kind, wording) if noun.kind else word("st")
            if noun.chains is not None:
                return f"{first} and {_chain_space(noun.chains, wording, many=False)}"
            space = f" {word('sp')}" if noun.kind else ""
            return f"{first} and {word('ch')}{space}"
        case Thing.SPACE:
            return f"{corner}{word('sps' if many else 'sp')}"
        case Thing.CHAIN_SPACE:
            return _chain_space(noun.chains, wording, many=many)
        case Thing.RING:
            return "ring"
        case Thing.TURNING_CHAIN:
            return f"turning {word('ch')}"
        case Thing.ROW_END:
            end = "row ends" if many else "row end"
            return f"{kind_name(noun.kind, wording)} {end}" if noun.kind else end
        case Thing.SEAM:
            return "seam"
        case Thing.MARKED:
            return f"marked {word('st')}"


def _chain_space(chains: int | None, wording: Wording, *, many: bool) -> str:
    length = "" if chains is None else f"-{chains}"
    return f"{wording.word('ch')}{length} {wording.word('sps' if many else 'sp')}"
