"""Why a row has the stitches it has."""

from collections import Counter
from collections.abc import Iterator

from stitchproof.fabric.told import ToldRow
from stitchproof.pipeline.telling import takes, works_along, works_into_ring


def count_lines(row: ToldRow) -> Iterator[str]:
    """Say why a row has the stitches it has, from those of the row below."""
    before = sum(role in "SKFEM" for role in row.into_roles)
    of_chains = "F" in row.into_roles
    if works_into_ring(row):
        standing = sum(role == "K" for role in row.roles)
        chain = ", the chain at the beginning with them" if standing else ""
        yield f"All {row.count} go into the ring{chain}."
        return
    if not row.into:
        yield f"It begins on nothing and makes {row.count or len(row.kinds)}."
        return
    what = "chain" if of_chains else "place"
    changes = list(_changes(row))
    total = before + sum(change for change, _ in changes)
    are = f"is 1 {what}" if before == 1 else f"are {before} {what}s"
    each = "" if changes else ", and one stitch goes into each"
    yield f"There {are} to work into{each}."
    for change, why in changes:
        yield f"{change:+d}: {why}".replace("-", "−", 1)
    if total == row.count:
        yield f"That makes {row.count}."
    else:
        yield f"It makes {row.count}."


def _changes(row: ToldRow) -> Iterator[tuple[int, str]]:
    used: Counter[int] = Counter()
    taken: set[int] = set()
    in_spaces = gathered = 0
    for kind, role, place in zip(row.kinds, row.roles, row.places, strict=True):
        if place < 0 or role not in "SK":
            continue
        if row.into_roles[place] == "C":
            in_spaces += 1
            continue
        used[place] += 1
        many = takes(kind)
        gathered += many - 1
        taken.update(range(place, place + many))
    more = sum(count - 1 for count in used.values())
    crowded = sum(count > 1 for count in used.values())
    if more:
        places = "1 place takes" if crowded == 1 else f"{crowded} places take"
        yield more, f"{places} more than one stitch"
    if gathered:
        yield -gathered, "stitches worked together"
    if in_spaces:
        yield in_spaces, "stitches worked into spaces"
    free = sum(role in "SKFEM" and i not in taken for i, role in enumerate(row.into_roles))
    if free:
        yield -free, "places passed over or left"
    aside = [role for role, place in zip(row.roles, row.places, strict=True) if place < 0]
    if "K" in aside:
        yield aside.count("K"), "the chain at the beginning, which counts"
    if "S" in aside:
        along = "worked along the other side of the chain"
        yield aside.count("S"), along if works_along(row) else "worked into no place"
