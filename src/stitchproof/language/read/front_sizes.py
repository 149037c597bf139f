"""The sizes that the front matter names."""

from collections.abc import Mapping
from typing import Final

from stitchproof.language.manuscript import FrontMatter
from stitchproof.trade.bodies import body_table

_MOST: Final = 100  # sizes


def size_count(front: FrontMatter | None) -> int:
    """Tell how many sizes the front matter names, as far as that is plain; 0: not known."""
    sizes = front.table.get("sizes") if front else None
    if not isinstance(sizes, Mapping):
        return 0
    for key in ("names", "make"):
        names = sizes.get(key)
        if isinstance(names, list):
            return len(names)
    groups = sizes.get("groups")
    if isinstance(groups, list) and all(isinstance(n, int) and 0 < n < _MOST for n in groups):
        return sum(groups)
    return 0


def size_names(front: FrontMatter | None) -> tuple[str, ...]:
    """Give the names of `make`: a list of them, or `XS-5X` of a published table; else empty."""
    sizes = front.table.get("sizes") if front else None
    if not isinstance(sizes, Mapping):
        return ()
    made, body = sizes.get("make"), sizes.get("body")
    if isinstance(made, list):
        plain = all(isinstance(name, str | int) and not isinstance(name, bool) for name in made)
        return tuple(dict.fromkeys(map(str, made))) if plain else ()
    table = body_table(body) if isinstance(body, str) and "table" not in sizes else None
    return (table.made(made) or ()) if table is not None and isinstance(made, str) else ()
