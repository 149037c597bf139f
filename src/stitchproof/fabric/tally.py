"""Counts what lies on an edge in the units an author may state.

A statement is compared kind by kind. Some units can fairly be counted in more than one way: the
stitches of an open row with or without its spaces, "dc" with or without post stitches. The ways
stand in a fixed order, the strictest first, so that one way can be asked of all sizes at once.
Where the unit is one that nothing made ("20 sc" after a row of hdc), the number is trusted over
the noun and compared as stitches.
"""

import re
from collections import Counter
from typing import Final, NamedTuple

from stitchproof.fabric.conventions import Conventions
from stitchproof.fabric.edge import Edge, base_kind
from stitchproof.fabric.sides import per_side
from stitchproof.fabric.spaces import runs_of
from stitchproof.language.tree import Stated, Statement, Thing

_HOLDS: Final = re.compile(r"(?P<size>\d+)-(?P<kind>\w+) group")
SCALLOPS: Final = frozenset(("shell", "fan", "scallop", "petal"))
_SHELL: Final = 3  # stitches in one place, from which they may have a name together


class Beside(NamedTuple):
    """What a count depends on beside the edge.

    Attributes
    ----------
    before, first : int
        Stitches on the edge before the last row, and before the first of the course: a change is
        counted from either.
    ahead : int
        Chains made at the end for the next course.
    alone : bool
        It is the only statement of the course that counts the whole edge.
    held : int
        Stitches from which those in one place are groups that are counted apart.
    """

    before: int = 0
    first: int = 0
    ahead: int = 0
    alone: bool = True
    held: int = _SHELL


class Ways(NamedTuple):
    """The ways to count a statement's unit on an edge, in one size.

    Attributes
    ----------
    numbers : tuple of int
        One for each way, the strictest first.
    made : bool
        False when nothing of the unit is there and stitches are counted instead.
    sure : bool
        False when it is a guess what the author counts: only another size can prove it right.
    """

    numbers: tuple[int, ...]
    made: bool = True
    sure: bool = True


def stitches(edge: Edge, conventions: Conventions) -> int:
    """Count the stitches on an edge by the conventions; a foundation counts its chains."""
    total = edge.count
    if total == 0 and "F" in edge.roles:
        return edge.roles.count("F")
    if conventions.spaces_count:
        total += len(runs_of(edge.roles))
    return total


def ways_to_count(  # noqa: C901, PLR0911, PLR0912 - one arm a thing
    edge: Edge, statement: Statement, beside: Beside, conventions: Conventions
) -> Ways:
    """Count the unit of a statement on an edge.

    Parameters
    ----------
    edge : Edge
        The live edge after the course.
    statement : Statement
        What is said; its number takes no part.
    beside : Beside
        What stands beside the statement.
    conventions : Conventions
        What counts as a stitch.
    """
    total = stitches(edge, conventions)
    if statement.each:
        return Ways(per_side(edge, statement.noun) if statement.each == "side" else ())
    if statement.change:
        sign = 1 if statement.change == "increased" else -1
        return Ways(tuple(sign * (total - had) for had in (beside.before, beside.first)))
    noun = statement.noun
    match noun.thing:
        case Thing.STITCH:
            return Ways((total, *open_row(edge), *_without_slips(edge)))
        case Thing.KIND:
            exact, wide = _of_kind(edge, noun.kind)
            slips = edge.kinds.count("sl_st") if noun.kind == "sl_st" else 0
            if slips and not beside.alone:
                return Ways((slips,))
            if wide == 0:
                return Ways((total, *open_row(edge)), made=slips > 0)
            rest = (wide, total, _beside_groups(edge, noun.kind))
            if beside.alone:
                return Ways(rest)
            # a decrease is a stitch of its kind, unless decreases are counted apart
            apart = _outside_groups(edge, noun.kind, beside.held)
            return Ways((exact or wide, *rest, apart))
        case Thing.CHAIN_SPACE | Thing.SPACE if not edge.known and "C" not in edge.roles:
            return Ways(())  # nor of spaces
        case Thing.CHAIN_SPACE | Thing.SPACE | Thing.RING:
            found = len(edge.places(noun))
            if "C" in edge.roles:
                return Ways((found,))
            return Ways((found, total), made=False)
        case Thing.CHAIN if not edge.known:
            return Ways(())  # a count alone does not tell of chains
        case Thing.CHAIN:
            chains = edge.roles.count("C") + edge.roles.count("F")
            bridges = (len(runs_of(edge.roles)),) if noun.kind else ()
            return Ways((chains, chains + beside.ahead, *bridges))  # `8`, or `two underarm chains`
        case Thing.STITCH_OR_CHAIN:
            return Ways((edge.count + edge.roles.count("C") + edge.roles.count("F"),))
        case Thing.GROUP if (told := _HOLDS.fullmatch(noun.kind)) is not None:
            groups = _holding(edge, int(told["size"]), told["kind"])
            return Ways(groups if any(groups) else ())
        case Thing.GROUP:
            found = len(edge.places(noun))
            if found:
                whole = {end - start for start, end in edge.places(noun)}
                parted = _parted(edge)
                return Ways((found, found + 1) if parted and parted in whole else (found,))
            return Ways(_in_one_place(edge), sure=noun.kind in SCALLOPS and _only_scallops(edge))
        case Thing.TURNING_CHAIN | Thing.ROW_END | Thing.SEAM | Thing.MARKED:
            pass
    return Ways((total, *open_row(edge)), made=False)


def _holding(edge: Edge, size: int, kind: str) -> tuple[int, ...]:
    """Count the groups of so many of a stitch; one may be begun by the turning chain.

    A group is what one place holds, or what it holds without chains between: a corner has two.
    """
    held = Counter(
        place
        for place, made, role in zip(edge.parents, edge.kinds, edge.roles, strict=True)
        if role == "S" and kind in (made, base_kind(made), "st")
    )
    groups = sum(n == size for place, n in held.items() if place >= 0)
    begun = "K" in edge.roles and size - 1 in held.values()
    apart = _apart(edge, size, kind)
    return groups, groups + begun, apart, apart + (len(_begun(edge, size)) > 0)


def _apart(edge: Edge, size: int, kind: str) -> int:
    """Count the runs of so many of a stitch in one place, with nothing else between them."""
    found = run = 0
    before = -1
    for place, made, role in zip(edge.parents, edge.kinds, edge.roles, strict=True):
        same = role == "S" and kind in (made, base_kind(made), "st")
        if not same or (place != before and run):
            found += run == size
            run = 0
        run += same
        before = place
    return found + (run == size)


def _in_one_place(edge: Edge) -> tuple[int, ...]:
    """Count the places that hold several stitches: what an undefined "shell" may well be."""
    held = Counter(p for p, role in zip(edge.parents, edge.roles, strict=True) if role == "S")
    del held[-1]
    groups = sum(stitches >= _SHELL for stitches in held.values())
    return (groups,) if groups else ()


def _parted(edge: Edge) -> int:
    """Count the stitches of a group that a round begins and ends with; 0 where none is parted."""
    first = edge.roles.find("K") + 1
    if not edge.ring or not first or edge.roles[first : first + 1] != "S":
        return 0
    place, kind = edge.parents[first], edge.kinds[first]
    begun = next((i for i in range(first, len(edge)) if edge.parents[i] != place), len(edge))
    ended = next((i for i in range(len(edge) - 1, -1, -1) if edge.kinds[i] != kind), -1) + 1
    return begun - first + 1 + len(edge) - ended if begun < ended < len(edge) else 0


def _only_scallops(edge: Edge) -> bool:
    """Whether a ring is made of groups of one size and of single stitches between them.

    A group that rises or falls, such as (sc, hdc, dc), may be half of a petal.
    """
    held: dict[int, list[str]] = {}
    for place, kind, role in zip(edge.parents, edge.kinds, edge.roles, strict=True):
        if role == "S":
            held.setdefault(place, []).append(kind)
    begun = edge.roles.find("K") + 1
    if begun and edge.roles[begun : begun + 1] == "S":
        held[edge.parents[begun]].append("")  # the turning chain is the first of that group
    groups = [kinds for place, kinds in held.items() if place >= 0 and len(kinds) > 1]
    even = all(kinds == kinds[::-1] or "" in kinds for kinds in groups)
    return edge.ring and edge.known and even and len({len(kinds) for kinds in groups}) == 1


def _beside_groups(edge: Edge, kind: str) -> int:
    """Count a kind outside the named groups: "6 V-sts, 2 dc"."""
    if not edge.groups:
        return sum(n for k, n in edge.made.items() if kind in (k, base_kind(k)))
    inside = {i for _, start, end in edge.groups for i in range(start, end)}
    return sum(
        role in "SK" and kind in (k, base_kind(k)) and i not in inside
        for i, (k, role) in enumerate(zip(edge.kinds, edge.roles, strict=True))
    )


def smallest_held(stated: Stated | None) -> int:
    """Tell from how many stitches in one place on a group is counted apart: "12 2-dc groups"."""
    sizes = [
        int(told["size"])
        for s in (stated.statements if stated is not None else ())
        if s.noun.thing is Thing.GROUP and (told := _HOLDS.fullmatch(s.noun.kind)) is not None
    ]
    return min(sizes, default=_SHELL)


def _outside_groups(edge: Edge, kind: str, size: int) -> int:
    """Count a kind outside the places that hold several stitches: "7 3-dc groups, 2 dc"."""
    if len(set(edge.parents)) == len(edge):  # every stitch in a place of its own
        return sum(n for k, n in edge.made.items() if kind in (k, base_kind(k)))
    held = Counter(p for p, role in zip(edge.parents, edge.roles, strict=True) if role in "SK")
    begun = _begun(edge, size)
    names = {k for k in edge.names if kind in (k, base_kind(k))}
    return sum(
        k in names and role in "SK" and (p < 0 or held[p] < size) and i not in begun
        for i, (p, k, role) in enumerate(zip(edge.parents, edge.kinds, edge.roles, strict=True))
    )


def stands_alone(edge: Edge, kind: str) -> bool:
    """Whether every stitch of a kind has a place of its own: no shell or fan can hold it."""
    made = sum(n for k, n in edge.made.items() if kind in (k, base_kind(k)))
    return edge.known and made > 0 and _outside_groups(edge, kind, 2) == made


def _begun(edge: Edge, size: int) -> range:
    """Give the group that a turning chain begins, with stitches in the place it stands on."""
    start = edge.roles.find("K")
    end = start + 1
    while 0 < end < len(edge) and edge.roles[end] == "S":
        if edge.parents[end] != edge.parents[start + 1]:
            break
        end += 1
    return range(start, end) if start >= 0 and end - start == size else range(0)


def open_row(edge: Edge) -> tuple[int, int]:
    """Other fair totals of an open row: each space, or each chain, as a stitch."""
    chains = edge.roles.count("C")
    return (edge.count + (len(runs_of(edge.roles)) if chains else 0), edge.count + chains)


def _without_slips(edge: Edge) -> tuple[int, ...]:
    """Leave out slip stitches beside others: many work into them and do not count them."""
    if "sl_st" not in edge.names:
        return ()
    slips = sum(k == "sl_st" for k, role in zip(edge.kinds, edge.roles, strict=True) if role == "S")
    return (edge.count - slips,) if 0 < slips < edge.count else ()


def _of_kind(edge: Edge, kind: str) -> tuple[int, int]:
    made = edge.made
    if "st" in made:
        return edge.count, edge.count
    wide = sum(n for k, n in made.items() if kind in (k, base_kind(k)))
    return made.get(kind, 0), wide


def in_stitches(stated: Stated) -> Statement | None:
    """Give the statement that tells the stitches of the whole edge, if one alone does."""
    plain = [s for s in stated.statements if s.noun.thing is Thing.STITCH and s.total]
    if plain:
        return plain[0]
    totals = [s for s in stated.statements if not s.each]
    if len(totals) == 1 and totals[0].noun.thing is Thing.KIND and not totals[0].change:
        return totals[0]
    return None


def stated_total(stated: Stated, values: tuple[int | None, ...]) -> int | None:
    """Add up what the author states in stitches; None when it is not in stitches.

    Parameters
    ----------
    stated : Stated
        What is said.
    values : tuple of int or None
        The numbers of `stated.statements` in this size.
    """
    one = in_stitches(stated)
    if one is not None:
        return values[stated.statements.index(one)]
    kinds = [
        value
        for statement, value in zip(stated.statements, values, strict=True)
        if statement.noun.thing is Thing.KIND and statement.total
    ]
    groups = any(s.noun.thing is Thing.GROUP and s.total for s in stated.statements)
    if not kinds or None in kinds or groups:
        return None
    return sum(value for value in kinds if value is not None)
