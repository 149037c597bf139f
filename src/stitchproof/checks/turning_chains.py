"""Whether a turning chain counts, where the author does not say."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Address, Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen, place_name
from stitchproof.fabric.proof import Assumed
from stitchproof.language.tree import Counts, Noun, Thing


@facts
class TurningChainAssumed:
    """The chain, and what it was taken to count as."""

    code: ClassVar[Code] = Code("C416", "turning-chain-assumed", Level.NOTE)
    chains: int
    stitch: str
    foundation: bool
    counts_as: str
    spaces: int
    by_count: bool
    too: bool = False

    def message(self) -> str:
        """Say how it was taken."""
        what = (
            f"whether the {self.chains} chs skipped at the foundation count"
            if self.foundation
            else f"whether the ch-{self.chains} before {self.stitch} counts"
        )
        what += ", as also the chs skipped at the foundation," if self.too else ""
        if self.counts_as:
            taken = f"it is taken to count as {self.counts_as}"
            taken += f" and ch {self.spaces}" if self.spaces else ""
        else:
            taken = "it is taken not to count"
        return f"{what} is not said; {taken}"

    def help(self) -> str:
        """Say how to leave no doubt."""
        return "say it in the notes, or beside the chain"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Say each assumption once a piece; the foundation with the rows, where both are alike."""
    rows = {_key(one): one for one in seen.proof.assumed if not one.switch[2]}
    first = {_key(one) for one in seen.proof.assumed if one.switch[2]}
    for one in seen.proof.assumed:
        kind, chains, foundation = one.switch
        if (chains <= 1 and not one.counts.stitch) or (foundation and _key(one) in rows):
            continue
        stitch = kind if one.counts.stitch == "st" else one.counts.stitch
        yield Diagnostic(
            finding=TurningChainAssumed(
                chains,
                _named(kind, seen),
                foundation,
                _named(stitch, seen),
                one.counts.chains,
                one.by_count,
                not foundation and _key(one) in first,
            ),
            place=one.place,
            address=Address(one.section or None, None),
        )


def _named(kind: str, seen: Seen) -> str:
    """Name a stitch in the manuscript's own terms."""
    return place_name(seen, Noun(Thing.KIND, kind)) if kind else ""


def _key(one: Assumed) -> tuple[str, str, int, Counts]:
    """Give what is assumed, the same for the foundation as for a row."""
    return one.section, one.switch[0], one.switch[1], one.counts
