"""The live edge: an ordered array of anchors that stitches can be worked into.

An anchor is a stitch top or a single chain. Its role is one letter, so that spaces, counts and
tiles are found by string search instead of a loop:

====  =======================================================================
role  anchor
====  =======================================================================
S     a stitch that counts
K     a turning chain that counts as a stitch
T     a turning chain that does not count
C     a chain of a space
F     a chain of the foundation, worked into like a stitch
L     a slip stitch: not counted, not worked into
E     the end of a row, on an edge picked up along row ends
M     a seam, on an edge picked up across it
====  =======================================================================

Spaces are maximal runs of C; nothing else is stored for them. `parents` says where each anchor
was worked, as an index into `below`, the edge in the direction in which it was worked into.
"""

import re
from array import array
from collections import Counter
from collections.abc import Iterator
from dataclasses import field
from functools import cached_property, lru_cache
from hashlib import blake2b
from itertools import chain, compress
from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.fabric.groups import (
    centres,
    flat_ends,
    gaps,
    of_name,
    unnamed,
    with_chains,
)
from stitchproof.fabric.marks import moved_marks, turned_marks
from stitchproof.fabric.spaces import at_seam, chains_in, each_anchor, runs_of
from stitchproof.language.tree import Noun, Thing

COUNTED: Final = "SK"
CORNER: Final = "corner"  # kind of a noun for spaces or stitches at the corners
BODY: Final = "edge"  # of a noun for stitches of the edge that a rib is joined to
GAP: Final = "gap"  # of a noun for the spaces between groups made in one place
POST: Final = "post"  # kind of a noun for post stitches, front or back
CENTRE_STITCH: Final = "centre"  # of a noun for the middle stitch of groups
_MOST_CORNERS: Final = 8
_STITCHES: Final = "SKF"
_ROLES: Final = {
    Thing.STITCH: "SKFEM",
    Thing.STITCH_OR_CHAIN: "SKFC",
    Thing.CHAIN: "CF",
    Thing.ROW_END: "E",
    Thing.SEAM: "M",
    Thing.TURNING_CHAIN: "KT",
}
_POST_OR_TOGETHER: Final = re.compile(r"^(?:fp|bp)|^f(?=(?:sc|hdc|dc)$)|\d+tog$")

Interval = tuple[int, int]


@lru_cache(maxsize=4096)
def base_kind(name: str) -> str:
    """Give the plain stitch of a stitch name: `fpdc`, `dc3tog` and `dc` are all `dc`."""
    return _POST_OR_TOGETHER.sub("", name)


@dataclass(frozen=True, eq=False)
class Edge:
    """An edge, in the direction in which it was made.

    Attributes
    ----------
    kinds : tuple of str
        (A,) stitch name of each anchor, "ch" for chains.
    roles : str
        (A,) one letter each.
    parents : tuple of int
        (A,) index into `below` of the place it was worked in; -1: none.
    ring : bool
        The last anchor stands beside the first.
    below : Edge or None
        The edge it was worked into, in the direction of working.
    groups : tuple of (str, int, int)
        Named groups: name, first anchor, anchor after the last.
    marks : tuple of (str, int)
        Markers and the anchors they are in.
    turning : int
        Chains in the turning chain at its beginning.
    centre : bool
        It can be worked into as a ring.
    colours : tuple of str
        (A,) colour of each anchor in the author's word; empty when no colour was ever named.
    known : bool
        False for an edge made up from a stated count alone: its kinds and places are guesses.
    part : bool
        It is what a row or round before has left of its edge.
    """

    kinds: tuple[str, ...]
    roles: str
    parents: tuple[int, ...]
    ring: bool = False
    below: "Edge | None" = None
    groups: tuple[tuple[str, int, int], ...] = ()
    marks: tuple[tuple[str, int], ...] = ()
    turning: int = 0
    centre: bool = False
    colours: tuple[str, ...] = ()
    known: bool = True
    part: bool = False
    _positions: dict[tuple[Noun, bool], list[Interval]] = field(
        default_factory=dict, repr=False, init=False
    )

    def __post_init__(self) -> None:
        assert len(self.kinds) == len(self.roles) == len(self.parents)
        assert len(self.colours) in (0, len(self.roles))

    def __len__(self) -> int:
        return len(self.roles)

    @cached_property
    def count(self) -> int:
        """Number of stitches that count."""
        return self.roles.count("S") + self.roles.count("K")

    @cached_property
    def end(self) -> str:
        """Plain name of the stitch it ends with; empty when there is none."""
        last = max(self.roles.rfind("S"), self.roles.rfind("K"))
        return base_kind(self.kinds[last]) if last >= 0 else ""

    @cached_property
    def names(self) -> frozenset[str]:
        """Every stitch name on it."""
        return frozenset(self.kinds)

    @cached_property
    def made(self) -> Counter[str]:
        """How many stitches of each name count."""
        if not self.roles.strip(COUNTED):
            return Counter(self.kinds)
        return Counter(k for k, role in zip(self.kinds, self.roles, strict=True) if role in COUNTED)

    @cached_property
    def turned(self) -> "Edge":
        """The same edge, to be worked from its other end."""
        n = len(self)
        return Edge(
            kinds=self.kinds[::-1],
            roles=self.roles[::-1],
            parents=self.parents[::-1],
            ring=self.ring,
            below=self.below,
            groups=tuple((g, n - b, n - a) for g, a, b in reversed(self.groups)),
            marks=turned_marks(self.marks, n),
            turning=self.turning,
            centre=self.centre,
            colours=self.colours[::-1],
            known=self.known,
            part=self.part,
        )

    def rotated(self, by: int) -> "Edge":
        """Give a ring that begins `by` anchors further on."""
        n = len(self)
        return Edge(
            kinds=self.kinds[by:] + self.kinds[:by],
            roles=self.roles[by:] + self.roles[:by],
            parents=self.parents[by:] + self.parents[:by],
            ring=self.ring,
            below=self.below,
            groups=tuple(
                ((g, a - by, b - by) if a >= by else (g, a - by + n, b - by + n))
                for g, a, b in self.groups
            ),
            marks=moved_marks(self.marks, lambda at: (at - by) % n),
            turning=self.turning,
            centre=self.centre,
            colours=self.colours[by:] + self.colours[:by],
            known=self.known,
        )

    def from_anchor(self, start: int) -> "Edge":
        """Give the rest of a row from an anchor on; its centre is that of the whole row."""
        middle = tuple((CENTRE_STITCH, a - start, b - start) for a, b in self._middle())
        groups = tuple((g, a - start, b - start) for g, a, b in self.groups if a >= start)
        return Edge(
            kinds=self.kinds[start:],
            roles=self.roles[start:],
            parents=self.parents[start:],
            below=self.below,
            groups=(*groups, *(one for one in middle if one[1] >= 0)),
            marks=moved_marks(self.marks, lambda at: at - start),
            colours=self.colours[start:],
            known=self.known,
            part=True,
        )

    def cut(self, by: int) -> "Edge":
        """Give the same edge `by` stitches shorter at its end."""
        return self._guessed(self.kinds[:-by], self.roles[:-by], self.parents[:-by])

    def padded(self, by: int) -> "Edge":
        """Give the same edge `by` stitches longer, its last stitch repeated."""
        at = max(self.roles.rfind("S"), self.roles.rfind("K"))
        return self._guessed(
            self.kinds[: at + 1] + (self.kinds[at],) * by + self.kinds[at + 1 :],
            self.roles[: at + 1] + "S" * by + self.roles[at + 1 :],
            self.parents[: at + 1] + (self.parents[at],) * by + self.parents[at + 1 :],
        )

    def _guessed(self, kinds: tuple[str, ...], roles: str, parents: tuple[int, ...]) -> "Edge":
        made = replace(self, kinds=kinds, roles=roles, parents=parents, colours=())
        return replace(made, groups=(), marks=(), known=False)

    @cached_property
    def digest(self) -> bytes:
        """Identity of what this edge itself holds, without the edges below."""
        made = blake2b(digest_size=16)
        made.update("\0".join(self.kinds).encode())
        made.update(self.roles.encode())
        made.update(array("i", self.parents).tobytes())
        made.update(repr((len(self), self.groups, self.marks)).encode())
        made.update(bytes((self.ring, self.centre, self.known, self.part, self.turning % 256)))
        return made.digest()

    def reach(self, depth: int) -> tuple[bytes, ...]:
        """Identity of this edge and of `depth` edges below it."""
        out = [self.digest]
        edge = self.below
        while edge is not None and len(out) <= depth:
            out.append(edge.digest)
            edge = edge.below
        return tuple(out)

    @cached_property
    def under(self) -> tuple[str, ...]:
        """(A,) kind of the stitch each anchor was worked in; empty where there is none."""
        if self.below is None:
            return ("",) * len(self)
        return tuple(self.below.kinds[p] if p >= 0 else "" for p in self.parents)

    def places(self, noun: Noun, *, chains: bool = False) -> list[Interval]:
        """List the places a noun names, in order, as intervals of anchors.

        Parameters
        ----------
        noun : Noun
            What is counted.
        chains : bool
            Each chain of a space is a stitch too (a convention of some lace patterns).
        """
        key = (noun, chains)
        found = self._positions.get(key)
        if found is None:
            whole = noun.thing is Thing.STITCH and not noun.kind and self._solid
            found = each_anchor(len(self)) if whole else list(self._find(noun, chains=chains))
            self._positions[key] = found
        return found

    @property
    def _ends_in_loop(self) -> bool:
        """A loop of chains at the far end is its turning chain: skipped chains before a sc."""
        stands = set(self.roles) & set("KT")
        return not self.ring and not stands and self.roles.endswith("C") and "S" in self.roles

    @cached_property
    def _solid(self) -> bool:
        """Every anchor is worked into like a stitch."""
        return not self.roles.strip(_ROLES[Thing.STITCH])

    def _find(self, noun: Noun, *, chains: bool) -> Iterator[Interval]:  # noqa: C901, PLR0912 - one arm a thing
        match noun.thing:
            case Thing.SPACE | Thing.STITCH if noun.kind == CORNER:
                yield from self._corners(stitches=noun.thing is Thing.STITCH)
            case Thing.STITCH if noun.kind == CENTRE_STITCH:
                of_row = [(a, b) for name, a, b in self.groups if name == CENTRE_STITCH]
                yield from of_row or centres(self.parents, ring=self.ring) or self._middle()
            case Thing.SPACE if noun.kind == GAP or (not noun.kind and "C" not in self.roles):
                yield from gaps(self.roles, self.parents, self._made_in_one(), ring=self.ring)
            case Thing.SPACE | Thing.CHAIN_SPACE | Thing.RING:
                runs, n = runs_of(self.roles), noun.chains
                exact = [r for r in runs if n is None or chains_in(self.kinds, r) == n]
                yield from exact or [run for run in runs if self._of_turning_chain(noun, run)]
            case Thing.KIND:
                anchors = each_anchor(len(self))
                yield from (anchors[i] for i in self._of_kind(noun.kind))
            case Thing.GROUP if not noun.kind:
                yield from self._made_in_one()
            case Thing.GROUP:
                together = chain(self._made_in_one(), with_chains(self.roles, self.parents))
                yield from of_name(noun.kind, (self.kinds, self.roles), self.groups, together)
            case Thing.MARKED:
                for at in sorted(at for _, at in self.marks if at >= 0):
                    yield (at, at + 1)
            case (
                Thing.STITCH
                | Thing.STITCH_OR_CHAIN
                | Thing.CHAIN
                | Thing.TURNING_CHAIN
                | Thing.ROW_END
                | Thing.SEAM
            ):
                if noun.thing is Thing.TURNING_CHAIN and not self.known and self.roles:
                    yield (len(self) - 1, len(self))  # it stands at the far end, as always
                    return
                if noun.thing is Thing.TURNING_CHAIN and self._ends_in_loop:
                    yield (len(self.roles.rstrip("C")), len(self))
                    return
                wanted = _ROLES[noun.thing] + ("C" if chains else "")
                anchors = each_anchor(len(self))
                if not self.roles.strip(wanted):
                    yield from anchors
                    return
                yield from compress(anchors, map(wanted.__contains__, self.roles))
                if noun.thing is Thing.CHAIN and self.roles.endswith("CK"):
                    yield (len(self) - 1, len(self))  # a chain of the turning chain

    def _of_turning_chain(self, noun: Noun, space: Interval) -> bool:
        """Whether a space is that of a turning chain, named by all its chains: "ch-4 sp"."""
        beside = (self.roles[max(space[0] - 1, 0)], self.roles[min(space[1], len(self) - 1)])
        return noun.chains == self.turning and "K" in beside

    def _corners(self, *, stitches: bool) -> list[Interval]:
        """Find the corners: spaces with stitches of one place on both sides, else the longest.

        Where the edge has no spaces, a corner is the middle of an odd group worked in one place.
        """
        runs, n = [] if stitches else runs_of(self.roles), len(self)
        inside = [
            (a, b)
            for a, b in runs
            if (self.ring or 0 < a < b < n) and self.in_one_place(a - 1, b % n)
        ]
        longest = max((b - a for a, b in runs), default=0)
        inside = at_seam(inside, runs, self.roles) if self.ring else inside
        if inside and all(self.parents[a - 1] == -1 for a, _ in inside):  # of sides worked evenly
            alike = [(a, b) for a, b in runs if b - a == longest]
            inside = alike if len(alike) <= _MOST_CORNERS else inside
        found = inside or [(a, b) for a, b in runs if b - a == longest]
        found = found or centres(self.parents, ring=self.ring)
        many = not inside and len(found) > _MOST_CORNERS  # a mesh, whose spaces are no corners
        if (many or not found) and not self.ring and self.known:
            return flat_ends(self.roles)
        return found if inside or len(found) <= _MOST_CORNERS else []

    def in_one_place(self, i: int, j: int) -> bool:
        """Tell whether two stitches were worked in one place; a chain stands on the ring too."""
        one, other = self.parents[i], self.parents[j]
        return one == other or ("K" in (self.roles[i], self.roles[j]) and -1 in (one, other))

    def _middle(self) -> list[Interval]:
        """Find the middle stitch of a row that has one."""
        live = [i for i, role in enumerate(self.roles) if role in COUNTED]
        middle = live[len(live) // 2 :][:1] if len(live) % 2 and not self.ring else []
        return [(at, at + 1) for at in middle]

    def _made_in_one(self) -> list[Interval]:
        """Find the groups without a name; none where the edge was made up from a count alone."""
        on = self.below is not None and "F" in self.below.roles
        return list(unnamed(self.roles, self.parents, founded=on))

    def _of_kind(self, kind: str) -> list[int]:
        if kind == POST:
            return [i for i, k in enumerate(self.kinds) if k[:2] in {"fp", "bp"}]
        exact = [i for i, k in enumerate(self.kinds) if k == kind and self.roles[i] in _STITCHES]
        if exact and base_kind(kind) != kind:
            return exact
        return [
            i
            for i, k in enumerate(self.kinds)
            if self.roles[i] in _STITCHES and (k in (kind, "st") or base_kind(k) == kind)
        ]

    def stitches_between(self, start: int, end: int) -> int:
        """Count the stitches, foundation chains and row ends from `start` up to `end`."""
        part = self.roles[start:end]
        return len(part) - sum(map(part.count, "TCL"))


def foundation(chains: int) -> Edge:
    """Give the edge of a foundation chain."""
    return Edge(kinds=("ch",) * chains, roles="F" * chains, parents=(-1,) * chains)


def supposed(count: int, kind: str, *, ring: bool) -> Edge:
    """Give an edge of which only the stated count is known."""
    return Edge(
        kinds=(kind,) * count, roles="S" * count, parents=(-1,) * count, ring=ring, known=False
    )


CENTRE: Final = Edge(kinds=(), roles="", parents=(), ring=True, centre=True)
