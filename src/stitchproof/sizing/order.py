"""Put definitions in the order they need one another, and find those that need themselves."""

from collections import deque
from collections.abc import Collection, Mapping

from stitchproof.base.records import dataclass
from stitchproof.sizing.definitions import Definition


@dataclass(frozen=True, slots=True)
class Order:
    """Definitions in an order in which each can be worked out, and the circles among the others.

    Attributes
    ----------
    ready : tuple of Definition
        Each stands behind all it needs.
    circles : tuple of tuple of Definition
        Each needs the next, and the last the first. What only stands on a circle is in neither.
    """

    ready: tuple[Definition, ...]
    circles: tuple[tuple[Definition, ...], ...]


def ordered(definitions: tuple[Definition, ...]) -> Order:
    """Order definitions by what they need, the author's order where it does not matter."""
    by_name = {one.name: one for one in definitions}
    waits = {one.name: {n for n in one.needs() if n in by_name} for one in definitions}
    needed: dict[str, list[str]] = {}
    for name, others in waits.items():
        for other in others:
            needed.setdefault(other, []).append(name)
    line = deque(one.name for one in definitions if not waits[one.name])
    ready = []
    while line:
        name = line.popleft()
        ready.append(by_name[name])
        for other in needed.get(name, ()):
            waits[other].discard(name)
            if not waits[other]:
                line.append(other)
    left = dict.fromkeys(name for name, others in waits.items() if others)
    return Order(tuple(ready), tuple(_circles(left, by_name)))


def _circles(
    left: Collection[str], by_name: Mapping[str, Definition]
) -> list[tuple[Definition, ...]]:
    """Walk from each definition to the first one it still waits for, until a way closes."""
    found = []
    seen: set[str] = set()
    for start in left:
        way: dict[str, int] = {}
        name = start
        while name not in seen and name not in way:
            way[name] = len(way)
            name = next(one for one in by_name[name].needs() if one in left)
        if name in way:
            found.append(tuple(by_name[one] for one in list(way)[way[name] :]))
        seen.update(way)
    return found
