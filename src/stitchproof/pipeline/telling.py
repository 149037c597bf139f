"""One worked row in words: stitch by stitch where that is short, by groups where it is long."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from stitchproof.fabric.told import ToldRow
from stitchproof.language.tree import Below, Ring
from stitchproof.language.walk import nodes
from stitchproof.trade import stitches
from stitchproof.trade.tables import Terms

_LEGS: Final = re.compile(r"(\d+)tog$")
SHORT: Final = 24  # stitches that are told one by one
_LONGEST: Final = 16  # stitches of a group that is told as a repeat
_LINE_RUN: Final = 3  # equal neighbours that are told in one line
_WORTH: Final = 2  # repeats that are worth telling as such


@dataclass(frozen=True, slots=True)
class Made:
    """One stitch as it is told.

    Attributes
    ----------
    name : str
        In the terms of the text.
    way : str
        How it stands to the stitch before: "next", "same", "none" or "chain".
    passed : int
        Places passed over before it.
    into : str
        Name of what it is worked into.
    place : str
        The place by its number: "st 3", "ch 4", "the space after st 5".
    deep : bool
        It reaches into a row further down; the place is the one it covers.
    """

    name: str
    way: str
    passed: int
    into: str
    place: str
    deep: bool = False

    @property
    def alike(self) -> tuple[str, str, int, str]:
        """What two stitches of a repeat have alike."""
        return self.name, self.way, self.passed, self.into


def name_in(kind: str, terms: Terms) -> str:
    """Name a stitch of a tally in the terms of the text."""
    named = stitches.named(kind.replace("_", " "), "US")
    if named is None:
        return kind
    return stitches.abbreviation(named.kind, named.post, named.together, terms)


def takes(kind: str) -> int:
    """Give how many places a stitch takes: 2 for sc2tog."""
    named = stitches.named(kind.replace("_", " "), "US")
    return named.together if named is not None else 1


def made_in(row: ToldRow, terms: Terms) -> list[Made]:
    """Tell every stitch of a row, in the order made."""
    told: list[Made] = []
    after = 0  # the place that is next
    counts = _numbered(row)
    deep = any(isinstance(node, Below) for node in nodes(row.steps))
    ring = works_into_ring(row)
    for kind, role, place in zip(row.kinds, row.roles, row.places, strict=True):
        name = name_in(kind, terms)
        if ring and kind != "ch" and role != "K":
            told.append(Made(name, "ring", 0, "ring", ""))
            continue
        if place < 0 or role == "K":
            chain = role in "KT" or kind == "ch"
            where = counts[place] if place >= 0 and not ring else ""
            told.append(Made(_turning(role, name), "chain" if chain else "none", 0, "", where))
            after = max(after, place + 1)
            continue
        space = _space(row, place)
        into = "space" if space else name_in(row.into[place], terms)
        if place < after or (space and place == after and told and told[-1].into == "space"):
            same = bool(told) and place <= after
            told.append(Made(name, "same" if same else "next", 0, into, counts[place]))
        else:
            passed = _counted_between(row, after, place)
            down = deep and name[:2] in {"FP", "BP"}
            told.append(Made(name, "next", passed, into, counts[place], down))
        after = max(after, place + (space or takes(kind)))
    return told


def works_into_ring(row: ToldRow) -> bool:
    """Tell whether the stitches of a row go into a ring, and not into places one by one."""
    return any(isinstance(node, Ring) for node in nodes(row.steps))


def _turning(role: str, name: str) -> str:
    counted = f"beginning chain, counted as {name}"
    return {"T": "beginning chain, not counted", "K": counted}.get(role, name)


def _space(row: ToldRow, place: int) -> int:
    """Give how many chains the space at a place has; 0 where it is no space."""
    end = place
    while end < len(row.into) and row.into_roles[end] == "C":
        end += 1
    return end - place


def _counted_between(row: ToldRow, start: int, end: int) -> int:
    return sum(role in "SKFEM" for role in row.into_roles[start:end])


def _numbered(row: ToldRow) -> list[str]:
    """Name every place of the row below by its number."""
    noun = {"F": "ch", "E": "row end", "M": "the seam"}
    seen: Counter[str] = Counter()
    names: list[str] = []
    for role in row.into_roles:
        if role == "C":
            names.append(f"the space after st {seen['st']}" if seen["st"] else "the first space")
            continue
        word = noun.get(role, "st")
        seen[word] += role in "SKFE"
        names.append(word if role in "MTL" else f"{word} {seen[word]}")
    return names


# --------------------------------------------------------------------------- words


def stitch_lines(made: Sequence[Made]) -> Iterator[str]:
    """Tell a short row stitch by stitch, equal neighbours together, each with its place."""
    number = 0
    i = 0
    while i < len(made):
        one = made[i]
        run = 1
        while i + run < len(made) and made[i + run].alike == one.alike:
            run += 1
        if one.way == "chain":
            yield f"{_many(one, run)}{_where(one)}"
        elif run >= _LINE_RUN:
            places = f" ({one.place} to {made[i + run - 1].place})" if one.place else ""
            yield f"{number + 1} to {number + run}. {_many(one, run)}{places}"
            number += run
        else:
            run = 1
            number += 1
            yield f"{number}. {_one(one)}{_where(one)}"
        i += run


def _where(one: Made) -> str:
    if not one.place:
        return ""
    return f" ({one.place})"


def _one(one: Made) -> str:
    passed = f"past {one.passed}, " if one.passed else ""
    many = _legs(one.name)
    match one.way:
        case "ring":
            return f"{one.name} in the ring"
        case "next" if many > 1:
            return f"{passed}{one.name} over the next {many}"
        case "chain" | "none":
            return one.name
        case "same":
            return f"{one.name} in the same {one.into}"
        case _ if one.into == "seam":
            return f"{passed}{one.name} in the seam"
        case _:
            return f"{passed}{one.name} {_into(one)} the next {one.into}"


def _legs(name: str) -> int:
    """Give how many stitches below go into one of this name."""
    found = _LEGS.search(name)
    return int(found[1]) if found else 1


def _into(one: Made) -> str:
    """Give the preposition between a stitch and its place."""
    if one.deep:
        return "further down, covering"
    return "around" if one.name[:2] in {"FP", "BP"} else "in"


def group_lines(made: Sequence[Made]) -> Iterator[str]:
    """Tell a long row by groups: what is repeated is told once, with how often."""
    keys = [one.alike for one in made]
    i = 0
    single: list[Made] = []
    while i < len(made):
        period, times = _repeat_at(keys, i)
        if times < _WORTH or period * times <= period + 1:
            single.append(made[i])
            i += 1
            continue
        if single:
            yield _run(single)
            single = []
        body = _run(made[i : i + period])
        yield f"{times} times: {body}" if period > 1 else _many(made[i], times)
        i += period * times
    if single:
        yield _run(single)


def _many(one: Made, times: int) -> str:
    if one.way == "chain":
        return one.name if one.name.startswith("beginning") else f"ch {times}"
    if one.way == "ring":
        return f"{times} {one.name} in the ring"
    if one.way == "next" and _legs(one.name) > 1 and not one.passed:
        return f"{one.name} {times} times, each over the next {_legs(one.name)}"
    if one.way == "next" and not one.passed:
        many = f"{one.into}s" if one.into == "space" else one.into
        return f"{one.name} {_into(one)} each of the next {times} {many}"
    return f"{times} times: {_one(one)}"


def _run(made: Sequence[Made]) -> str:
    """Tell stitches one after another, chains and equal neighbours together."""
    parts: list[str] = []
    i = 0
    while i < len(made):
        run = 1
        while i + run < len(made) and made[i + run].alike == made[i].alike:
            run += 1
        parts.append(_many(made[i], run) if run > 1 or made[i].way == "chain" else _one(made[i]))
        i += run
    return ", ".join(parts)


def _repeat_at(keys: Sequence[object], i: int) -> tuple[int, int]:
    """Find the group at a place that covers most when repeated: its length, and how often."""
    best = (1, 1)
    for period in range(1, min(_LONGEST, (len(keys) - i) // _WORTH) + 1):
        times = 1
        end = i + period
        while keys[end : end + period] == keys[i : i + period] and end + period <= len(keys):
            times += 1
            end += period
        if times >= _WORTH and period * times > best[0] * best[1]:
            best = (period, times)
    return best


# --------------------------------------------------------------------------- why the count


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
    what = "chains" if of_chains else "places"
    changes = list(_changes(row))
    total = before + sum(change for change, _ in changes)
    yield f"There are {before} {what} to work into."
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
    standing = sum(
        place < 0 and role in "SK" for role, place in zip(row.roles, row.places, strict=True)
    )
    if standing:
        yield standing, "a chain that counts, or stitches worked into no place"
