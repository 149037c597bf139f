"""What counts as a stitch in a piece: one record, some of it said, some of it open.

A turning chain counts or not for each pair (stitch that follows it, number of chains). What the
author says beside a chain or in the notes decides; what nobody says is an open switch, tried once
for the whole piece, the likelier way first (`settle`). The likelier way is common practice: a
chain as long as the turning chain of the stitch that follows counts for dc and taller stitches and
not for sc and hdc; a shorter one does not count; a longer one counts and leaves a space.
"""

from collections.abc import Iterable, Mapping
from dataclasses import field
from functools import cached_property
from types import MappingProxyType
from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.language.tree import Counts, Rule

NOT_A_STITCH: Final = Counts("")
_LOOP: Final = 3  # chains that begin an open row before a short stitch
_TALL: Final = frozenset({"dc", "tr", "dtr", "trtr", "edc"})
_SHORT: Final = MappingProxyType(
    {"sl_st": 0, "sc": 1, "esc": 1, "hdc": 2, "ehdc": 2, "dc": 3, "edc": 3, "tr": 4}
)

Switch = tuple[str, int, bool]  # stitch that follows, chains, in the foundation


@dataclass(frozen=True)
class Conventions:
    """The counting rules of one piece.

    Attributes
    ----------
    rules : tuple of Rule
        What the author said, in order; a later rule wins over an earlier one.
    taken : mapping of Switch to Counts
        How open switches are set for this try.
    chains : bool
        Each chain of a space is worked into like a stitch.
    under : bool or None
        "Skip 1 st" after a turning chain that counts means the stitch under it; None: where the
        row goes on solid.
    beside : mapping of (str, int) to bool
        Whether a chain before a stitch counts, as all remarks beside such chains of the piece
        agree: what is said of one holds for the next unless more is said.
    """

    rules: tuple[Rule, ...] = ()
    taken: Mapping[Switch, Counts] = field(default_factory=dict)
    chains: bool = False
    under: bool | None = None
    beside: Mapping[tuple[str, int], bool] = field(default_factory=dict)

    @cached_property
    def key(self) -> str:
        """Identity, for keeping what was worked under it."""
        taken = sorted(self.taken.items(), key=repr)
        return repr((self.rules, taken, self.chains, self.under, sorted(self.beside.items())))

    @cached_property
    def spaces_count(self) -> bool:
        """Whether chain spaces count as stitches, as the author says."""
        return any(rule.topic == "chain spaces" and rule.holds for rule in self.rules)

    @cached_property
    def slips_count(self) -> bool:
        """Whether slip stitches count, as the author says."""
        return any(rule.topic == "slip stitches" and rule.holds for rule in self.rules)

    def said(self, chains: int) -> Counts | None:
        """Give what a rule says of a turning chain; None when nothing is said."""
        for rule in reversed(self.rules):
            if rule.topic == "turning chain" and rule.chains in (None, chains):
                return rule.counts
        return None

    def with_rule(self, rule: Rule) -> "Conventions":
        """Add what the author says from here on."""
        return replace(self, rules=(*self.rules, rule))

    def turning(self, switch: Switch) -> Counts:
        """Settle what an unremarked turning chain counts as."""
        taken = self.taken.get(switch)
        if taken is not None:
            return taken
        kind, chains, in_foundation = switch
        said = self.said(chains)
        if said is not None:
            return said
        return self._usual(kind, chains, in_foundation=in_foundation)[0]

    def _usual(self, kind: str, chains: int, *, in_foundation: bool) -> tuple[Counts, ...]:
        """List the customary ways; where custom and what is said beside like chains agree, these.

        What is said of one chain and goes against custom is taken for that chain alone.
        """
        usual = customary(kind, chains, in_foundation=in_foundation)
        counts = bool(usual[0].stitch)
        if self.beside.get((kind, chains)) is not counts:
            return usual
        return tuple(way for way in usual if bool(way.stitch) is counts)

    def ways(self, switch: Switch) -> tuple[Counts, ...]:
        """List how an open switch may be set; one way where the author has said it."""
        kind, chains, in_foundation = switch
        said = self.said(chains)
        usual = self._usual(kind, chains, in_foundation=in_foundation)
        if said is None:
            return usual
        if not in_foundation:
            return (said,)
        if self._said_of(chains):
            usual = tuple(way for way in usual if not way.stitch and way.chains == chains)
        return (said, *(way for way in usual if way != said))

    def _said_of(self, chains: int) -> bool:
        return any(r.topic == "turning chain" and r.chains == chains for r in self.rules)


def customary(kind: str, chains: int, *, in_foundation: bool = False) -> tuple[Counts, ...]:
    """List the ways an unremarked turning chain may count, the likeliest first.

    Parameters
    ----------
    kind : str
        The stitch that follows it.
    chains : int
        Its length.
    in_foundation : bool
        The chains skipped at the end of a foundation ("dc in 4th ch from hook": 3).

    References
    ----------
    Turning chains by stitch: trade practice (sc 1, hdc 2, dc 3, tr 4); which of them count is
    common practice, no source.
    """
    usual = _SHORT.get(kind, 3)
    if chains == 0 or (usual <= 1 and chains <= 1):
        return (NOT_A_STITCH,)
    if usual <= 1 and in_foundation and chains < _LOOP:
        return (NOT_A_STITCH, Counts(kind))
    if usual <= 1:
        # a long chain before a short stitch is the first loop of an open row
        return (Counts("", chains=chains), NOT_A_STITCH, Counts("st", chains=chains - 1))
    if chains > usual:
        return (Counts(kind, chains=chains - usual), NOT_A_STITCH, Counts("", chains=chains))
    if chains == usual and kind in _TALL and in_foundation:
        # of a block worked on from its corner they are the space that the next one is worked in
        return (Counts(kind), NOT_A_STITCH, Counts("", chains=chains))
    if chains == usual and kind in _TALL:
        return (Counts(kind), NOT_A_STITCH)
    if chains == 1:
        return (NOT_A_STITCH, Counts(kind))
    return (NOT_A_STITCH, Counts(kind))


def gathered(rules: Iterable[Rule]) -> Conventions:
    """Begin a piece with the conventions said before it."""
    return Conventions(tuple(rules))
