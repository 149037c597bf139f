"""Stitches as objects, rows as lists of them, and looking along such a list."""

from dataclasses import dataclass, field

from stitchproof.language.tree import (
    Chain,
    Group,
    Make,
    Next,
    Noun,
    Repeat,
    Skip,
    Steps,
    Thing,
)

STITCH = Noun(Thing.STITCH)


WIDEST = 600
NOTHING_BETWEEN = (Thing.STITCH, Thing.CHAIN)  # who works each of these leaves none behind


class Maker(Exception):  # noqa: N818 - not an error of ours: the words lead nowhere
    """The maker cannot do what is said."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


class PastTheEnd(Maker):
    """The maker ran past where a repeat has to end."""


class NotMine(Exception):  # noqa: N818 - as above
    """Words that this worker does not know; the rest of the piece is not compared."""


@dataclass(eq=False)
class Loop:
    """One stitch or single chain, as it stands on the fabric.

    `role` is "stitch", "slip", "chain" (of a space), "foundation", "counted chain" or
    "uncounted chain" (both: the turning chain), "row end" or "seam" (of an edge picked up).
    `into` holds what it was worked in: one stitch, the chains of a space, the stitches drawn
    together; nothing for a chain.
    """

    kind: str
    role: str
    into: list["Loop"] = field(default_factory=list)
    over: "Loop | None" = None  # the stitch on the edge that a stitch some rows below stands before
    chains: int = 0  # of a turning chain


@dataclass
class Fabric:
    """The row made last, in the order in which it was made, and what may be done with it."""

    loops: list[Loop]
    ring: bool = False
    centre: bool = False
    foundation: bool = False
    turned: bool = False
    ahead: Chain | None = None  # turning chain made before the row was ended


@dataclass
class MadeRow:
    """A row that was worked, with the row it was worked into in the direction of working."""

    number: int | None
    course: int
    made: list[Loop]
    into: list[Loop]
    trouble: str = ""
    none_of_them: bool = False
    scheduled: bool = False  # one of many rows of which only the count is told


def open_to_stitches(loop: Loop) -> bool:
    """Whether "next st" may mean it."""
    return loop.role in ("stitch", "counted chain", "foundation", "row end", "seam")


def counts(loop: Loop) -> bool:
    """Whether it is a stitch of the row."""
    return loop.role in ("stitch", "counted chain")


def plain_kind(kind: str) -> str:
    """Name of the stitch without its post or how many are drawn together."""
    for post in ("fp", "bp"):
        if kind.startswith(post):
            kind = kind[2:]
    if kind.endswith("tog"):
        kind = kind[:-3].rstrip("0123456789")
    return kind


def spaces(row: list[Loop], chains: int | None) -> list[list[int]]:
    """Find every run of chains, as lists of indices."""
    found: list[list[int]] = []
    run: list[int] = []
    for i, loop in enumerate(row):
        if loop.role == "chain":
            run.append(i)
        elif run:
            found.append(run)
            run = []
    if run:
        found.append(run)
    return [r for r in found if chains is None or len(r) == chains]


def places(  # noqa: C901 - one arm a thing
    row: list[Loop], noun: Noun, *, chains_too: bool
) -> list[list[int]]:
    """Find every place a noun can mean, in order: lists of indices into the row."""
    if noun.thing in (Thing.SPACE, Thing.CHAIN_SPACE):
        return spaces(row, noun.chains)
    found: list[list[int]] = []
    for i, loop in enumerate(row):
        if noun.thing is Thing.STITCH:
            fits = open_to_stitches(loop) or (chains_too and loop.role == "chain")
        elif noun.thing is Thing.STITCH_OR_CHAIN:
            fits = open_to_stitches(loop) or loop.role == "chain"
        elif noun.thing is Thing.CHAIN:
            fits = loop.role in ("chain", "foundation")
        elif noun.thing is Thing.KIND:
            fits = open_to_stitches(loop) and (
                loop.kind == noun.kind or plain_kind(loop.kind) == noun.kind
            )
        elif noun.thing is Thing.SEAM:
            fits = loop.role == "seam"
        elif noun.thing is Thing.ROW_END:
            fits = loop.role == "row end"
        elif noun.thing is Thing.TURNING_CHAIN:
            fits = loop.role in ("counted chain", "uncounted chain")
        else:
            raise NotMine(noun.thing.value)
        if fits:
            found.append([i])
    return found


def around_and_back(loops: list[Loop]) -> list[Loop]:
    """Turn a joined round: the hook stands in its first stitch, then come the last ones."""
    first = next((i for i, x in enumerate(loops) if open_to_stitches(x)), 0)
    return [loops[(first - i) % len(loops)] for i in range(len(loops))]


def loop_at_the_end(row: list[Loop]) -> int:
    """How many chains end a row."""
    chains = 0
    for loop in reversed(row):
        if loop.role != "chain":
            break
        chains += 1
    return chains


def names_stitches(steps: Steps) -> bool:
    """Whether steps work or skip stitches, not only spaces."""
    for step in steps:
        if isinstance(step, Repeat) and names_stitches(step.body):
            return True
        named = step.at if isinstance(step, Make | Skip | Group) else None
        if isinstance(named, Next) and named.noun.thing not in (Thing.SPACE, Thing.CHAIN_SPACE):
            return True
    return False
