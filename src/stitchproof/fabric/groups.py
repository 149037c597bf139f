"""Groups without a name on an edge, by where their stitches were made, and gaps between them."""

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import groupby, pairwise
from typing import Final, TypeAlias

Stretch: TypeAlias = tuple[int, int]
_COUNTED: Final = "SK"
_SHELL: Final = 3  # stitches in one place, from which they are surely a group


_BEGUN: Final = re.compile(r"(?:beg(?:inning)?|start(?:ing)?)[\s-]+")


@cache
def counted_as(name: str) -> str:
    """Name the group that a group is counted as: the block a row begins with is a block too."""
    return _BEGUN.sub("", name, count=1)


def unnamed(roles: str, parents: Sequence[int], *, founded: bool) -> Iterator[Stretch]:
    """Find the groups without a name: neighbouring stitches made in one place.

    Parameters
    ----------
    roles : str
        (A,) roles of the anchors.
    parents : sequence of int
        (A,) where each was worked.
    founded : bool
        The edge stands on a foundation, whose skipped chains go with the stitches beside them.
    """
    start = 0
    for i in range(1, len(roles) + 1):
        if i < len(roles) and roles[i] in _COUNTED and roles[start] in _COUNTED:
            chain = "K" in (roles[i], roles[i - 1])
            if parents[i] == parents[i - 1] != -1 or (founded and chain):
                continue
        if i - start > 1:
            yield (start, i)
        start = i


def with_chains(roles: str, parents: Sequence[int]) -> Iterator[Stretch]:
    """Find stitches made in one place with whatever chains lie between them: (dc, ch 1, dc)."""
    live = [i for i, role in enumerate(roles) if role in _COUNTED and parents[i] != -1]
    for _, together in groupby(live, key=lambda i: parents[i]):
        made = list(together)
        if len(made) > 1:
            yield (made[0], made[-1] + 1)


def of_name(
    name: str,
    made: tuple[Sequence[str], str],
    groups: Sequence[tuple[str, int, int]],
    together: Iterable[Stretch],
) -> list[Stretch]:
    """Find the groups of a name, and what is made as they are.

    Parameters
    ----------
    name : str
        What the author calls them.
    made : (sequence of str, str)
        (A,) the kinds and the roles of the anchors.
    groups : sequence of (str, int, int)
        The groups that were named when they were made.
    together : iterable of (int, int)
        All that was made in one place.
    """
    kinds, roles = made
    named = [(a, b) for one, a, b in groups if one == name]
    named = named or [(a, b) for one, a, b in groups if one.endswith(f" {name}")]
    named += begun(kinds, roles, named)
    named += alike(kinds, named, dict.fromkeys(together) if named else ())
    if not named and name == "block":
        named = leaning(kinds, roles)
    return sorted(named or [(i, i + 1) for i, kind in enumerate(kinds) if kind == name])


def begun(kinds: Sequence[str], roles: str, named: Sequence[Stretch]) -> list[Stretch]:
    """Give the group at a turning chain that the chain is part of ("beg shell")."""
    if not named:
        return []
    start, end = named[0]
    whole, n = kinds[start:end], end - start
    taken = _taken(named)
    first, last = len(roles) - len(roles.lstrip("L")), len(roles.rstrip("L"))  # slipped along
    ends = ((first, roles[first : first + 1]), (last - n, roles[last - 1 : last]))
    found = [
        (a, a + n)
        for a, role in ends
        if role == "K" and a >= 0 and n > 1 and kinds[a : a + n] == whole
    ]
    return [(a, b) for a, b in found if not taken & set(range(a, b))]


def alike(
    kinds: Sequence[str], named: Sequence[Stretch], others: Iterable[Stretch]
) -> list[Stretch]:
    """Give what is made as a named group is: "5 dc in next dc (shell made), … 5 dc in next dc".

    Two stitches in one place may as well be an increase.
    """
    if not named or named[0][1] - named[0][0] < _SHELL:
        return []
    start, end = named[0]
    taken = _taken(named)
    return [(a, b) for a, b in others if a not in taken and kinds[a:b] == kinds[start:end]]


def leaning(kinds: Sequence[str], roles: str) -> list[Stretch]:
    """Find the blocks that lean over, of corner-to-corner work, by how they are made.

    Each is a space of chains and as many stitches as every other; between them is slipped. Nothing
    is found where the edge holds anything else.
    """
    live = [i for i, kind in enumerate(kinds) if kind != "sl_st"]
    shape = "".join(roles[i] for i in live)
    block = _BLOCK.match(shape)
    whole = len(block[0]) if block else 0
    if block is None or len(shape) % whole or block[0] * (len(shape) // whole) != shape:
        return []
    return [(live[i], live[i + whole - 1] + 1) for i in range(0, len(shape), whole)]


_BLOCK: Final = re.compile(r"CC+SS+|SS+CC+")


def _taken(groups: Sequence[Stretch]) -> set[int]:
    return {i for a, b in groups for i in range(a, b)}


def centres(parents: Sequence[int], *, ring: bool) -> list[Stretch]:
    """Find the middle of every odd group of three or more worked in one place.

    On a ring the group at the seam goes on behind it.
    """
    n = len(parents)
    first = next((i for i in range(n) if parents[i] != parents[i - 1]), 0) if ring else 0
    found: list[Stretch] = []
    start = first
    for i in range(first + 1, first + n + 1):
        if i < first + n and parents[i % n] == parents[start % n] != -1:
            continue
        if i - start > 2 and (i - start) % 2:  # noqa: PLR2004 - three in one place
            at = (i + start) // 2 % n
            found.append((at, at + 1))
        start = i
    return sorted(found)


def flat_ends(roles: str) -> list[Stretch]:
    """Give the first and the last stitch of a row, which are the corners of a flat piece.

    A point of one stitch is one corner.
    """
    live = [i for i, role in enumerate(roles) if role in _COUNTED]
    return [(i, i + 1) for i in sorted({live[0], live[-1]})] if live else []


def gaps(
    roles: str, parents: Sequence[int], groups: Sequence[Stretch], *, ring: bool
) -> Iterator[Stretch]:
    """Find the spaces between groups made in one place, and those of chains between them.

    Only where the edge is made of such groups, but for a stitch at either end, is it clear what
    "sp between groups" are.
    """
    groups = _with_like_ends(roles, groups)
    inside = sum(b - a for a, b in groups)
    counted = sum(roles.count(role) for role in _COUNTED)
    if len(groups) < 2 or counted - inside > (0 if ring else 2):  # noqa: PLR2004 - an end each
        return
    for (_, end), (start, _) in pairwise(groups):
        if end == start:
            yield (end - 1, end)
        elif set(roles[end:start]) == {"C"} and parents[end - 1] != parents[start]:
            yield (end, start)
    if ring and groups[0][0] == 0 and groups[-1][1] == len(roles):
        yield (len(roles) - 1, len(roles))


def _with_like_ends(roles: str, groups: Sequence[Stretch]) -> Sequence[Stretch]:
    """Add the pair at one end of a row where the turning chain makes a pair at the other."""
    live = [i for i, role in enumerate(roles) if role in _COUNTED]
    if len(groups) < 2 or len(live) < _PAIRS:  # noqa: PLR2004 - a group and the pair
        return groups
    first, last = groups[0], groups[-1]
    begins = first == (live[0], live[1] + 1) and "K" in roles[first[0] : first[1]]
    ends = last == (live[-2], live[-1] + 1) and "K" in roles[last[0] : last[1]]
    if begins and not ends and last[1] == live[-2]:
        return [*groups, (live[-2], live[-1] + 1)]
    if ends and not begins and first[0] == live[1] + 1:
        return [(live[0], live[1] + 1), *groups]
    return groups


_PAIRS: Final = 4  # stitches of two pairs
