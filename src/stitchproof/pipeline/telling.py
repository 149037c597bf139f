"""One worked row in words: stitch by stitch where that is short, by groups where it is long."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Final

from stitchproof.base.records import dataclass, replace
from stitchproof.fabric.told import ToldRow
from stitchproof.language.tree import Below, OppositeSide, Ring
from stitchproof.language.walk import nodes
from stitchproof.trade import stitches
from stitchproof.trade.tables import Terms

_LEGS: Final = re.compile(r"(\d+)tog$")
_SHORT: Final = 12  # lines that a row is told in stitch by stitch
_LONGEST: Final = 16  # stitches of a group that is told as a repeat
_LINE_RUN: Final = 3  # equal neighbours that are told in one line
_WORTH: Final = 2  # repeats that are worth telling as such
_PLURALS: Final = frozenset({"st", "ch", "space", "row end"})


@dataclass(frozen=True, slots=True)
class Made:
    """Stitches of one kind in one place, as they are told.

    Attributes
    ----------
    name : str
        In the terms of the text.
    way : str
        How they stand to the place before: "next", "same", "back" to one passed over, "ring",
        "along" the other side of the foundation, "none" or "chain".
    passed : int
        Places passed over before them.
    into : str
        Name of what they are worked into.
    place : str
        The place by its number: "st 3", "ch 4", "the space after st 5".
    deep : bool
        They reach into a row further down; the place is the one they cover.
    many : int
        How many.
    end : str
        The last place that one of them takes, by its number.
    seam : bool
        What is passed over before them is a seam.
    """

    name: str
    way: str
    passed: int
    into: str
    place: str
    deep: bool = False
    many: int = 1
    end: str = ""
    seam: bool = False

    @property
    def alike(self) -> tuple[str, str, int, str, int]:
        """What two stitches of a repeat have alike."""
        return self.name, self.way, self.passed, self.into, self.many


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


def told_lines(row: ToldRow, terms: Terms) -> list[str]:
    """Tell a row: stitch by stitch where that is short, by groups where it is long."""
    made = made_in(row, terms)
    if not row.into:
        return [", ".join(_group_lines(made, terms))]
    one_by_one = list(_stitch_lines(made, terms))
    short = 1 < len(one_by_one) <= _SHORT
    return one_by_one if short else list(_group_lines(made, terms))


def made_in(row: ToldRow, terms: Terms) -> list[Made]:
    """Tell every stitch of a row in the order made, those of one kind in one place together."""
    told: list[Made] = []
    after = 0  # the place that is next
    before = -1  # the place worked last
    counts = _numbered(row)
    deep = any(isinstance(node, Below) for node in nodes(row.steps))
    aside = "along" if works_along(row) else "none"
    ring = works_into_ring(row)
    for kind, role, place in zip(row.kinds, row.roles, row.places, strict=True):
        name = name_in(kind, terms)
        if ring and kind != "ch" and role != "K":
            told.append(Made(name, "ring", 0, "ring", ""))
            continue
        if place < 0 or role == "K":
            chain = role in "KT" or kind == "ch"
            where = counts[place] if place >= 0 and not ring else ""
            told.append(Made(_turning(role, name), "chain" if chain else aside, 0, "", where))
            before, after = (place, max(after, place + 1)) if place >= 0 else (before, after)
            continue
        space = _space(row, place)
        into = "space" if space else _below(row, place, terms)
        down = deep and name[:2] in {"FP", "BP"}
        again = place == before or (space and place == after and told and told[-1].into == "space")
        way = "same" if again else "back" if place < after else "next"
        passed = _counted_between(row, after, place) if way == "next" else 0
        end = counts[min(place + takes(kind), len(counts)) - 1]
        seam = bool(passed) and set(row.into_roles[after:place]) == {"M"}
        one = Made(name, way, passed, into, counts[place], down, end=end, seam=seam)
        _add(told, one)
        before = place
        after = max(after, place + (space or takes(kind)))
    return _into_any(told)


def _below(row: ToldRow, place: int, terms: Terms) -> str:
    """Name a stitch of the row below; a maker looks for chains where a chain stands for it."""
    name = name_in(row.into[place], terms)
    match row.into_roles[place]:
        case "K":
            return f"ch that counts as {name}"
        case "E":
            return f"{name} row end"
        case _:
            return name


def _add(told: list[Made], one: Made) -> None:
    """Put a stitch to those before it, where it goes into their place and is of their kind."""
    last = told[-1] if told else None
    stands = last is not None and last.way not in {"chain", "ring", "none"}
    if last is not None and stands and one.way == "same" and _twins(last, one):
        told[-1] = replace(last, many=last.many + 1)
    else:
        told.append(one)


def _twins(one: Made, other: Made) -> bool:
    return (one.name, one.place) == (other.name, other.place)


def _into_any(told: list[Made]) -> list[Made]:
    """Tell a run of one kind over stitches of several kinds as a run over stitches."""
    out: list[Made] = []
    for _, same in groupby(told, key=_run_of):
        run = list(same)
        kinds = {one.into for one in run}
        mixed = len(run) >= _LINE_RUN and len(kinds) > 1 and _run_of(run[0]) is not None
        out += (replace(one, into="st") for one in run) if mixed else run
    return out


def _run_of(one: Made) -> tuple[str, int, int] | None:
    plain = one.way == "next" and one.passed == 0 and one.into not in {"space", "seam"}
    around = one.deep or one.name[:2] in {"FP", "BP"}
    return (one.name, one.passed, one.many) if plain and not around else None


def works_into_ring(row: ToldRow) -> bool:
    """Tell whether the stitches of a row go into a ring, and not into places one by one."""
    return any(isinstance(node, Ring) for node in nodes(row.steps))


def works_along(row: ToldRow) -> bool:
    """Tell whether some of the row goes along the other side of the foundation."""
    return any(isinstance(node, OppositeSide) for node in nodes(row.steps))


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


def _stitch_lines(made: Sequence[Made], terms: Terms) -> Iterator[str]:
    """Tell a short row stitch by stitch, equal neighbours together, each with its place."""
    number = 0
    i = 0
    while i < len(made):
        one = made[i]
        run = 1
        while i + run < len(made) and made[i + run].alike == one.alike:
            run += 1
        if one.way == "chain":
            yield f"{_many(one, run, terms)}{_where(one)}"
        else:
            first, number = number + 1, number + run * one.many
            numbers = f"{first}" if number == first else f"{first} to {number}"
            last = made[i + run - 1].end if _legs(one.name) > 1 else made[i + run - 1].place
            places = f" ({one.place} to {last})" if last != one.place else _where(one)
            words = _many(one, run, terms) if run > 1 else _one(one, terms)
            yield f"{numbers}. {words}{places}"
        i += run


def _where(one: Made) -> str:
    if not one.place or one.way == "back" or one.into == "seam":
        return ""
    return f" ({one.place})"


def _one(one: Made, terms: Terms) -> str:
    skip = f"{'miss' if terms == 'UK' else 'skip'} {one.passed}, " if one.passed else ""
    skip = "pass over the seam, " if one.seam and one.passed == 1 else skip
    legs = _legs(one.name)
    made = f"{one.many} {one.name}" if one.many > 1 else one.name
    match one.way:
        case "ring":
            return f"{made} in the ring"
        case "along":
            return f"{made} along the other side of the chain"
        case "next" if legs > 1:
            return f"{skip}{made} over the next {legs}"
        case "chain" | "none":
            return made
        case "same":
            return f"{made} in the same {one.into}"
        case "back":
            return f"{made} {_into(one)} the {one.into} passed over before ({one.place})"
        case _ if one.into == "seam":
            return f"{skip}{made} in the seam"
        case _:
            return f"{skip}{made} {_into(one)} the next {one.into}"


def _legs(name: str) -> int:
    """Give how many stitches below go into one of this name."""
    found = _LEGS.search(name)
    return int(found[1]) if found else 1


def _into(one: Made) -> str:
    """Give the preposition between a stitch and its place."""
    if one.deep:
        return "further down, covering"
    return "around" if one.name[:2] in {"FP", "BP"} else "in"


def _group_lines(made: Sequence[Made], terms: Terms) -> Iterator[str]:
    """Tell a long row by groups: what is repeated is told once, with how often."""
    keys = [one.alike for one in made]
    i = 0
    single: list[Made] = []
    while i < len(made):
        start, period, times = _best_repeat(made, keys, i, terms)
        if times < _WORTH or period * times <= period + 1:
            single.append(made[i])
            i += 1
            continue
        single += made[i:start]
        if single:
            yield _run(single, terms)
            single = []
        body = _run(made[start : start + period], terms)
        yield f"{times} times: {body}" if period > 1 else _many(made[start], times, terms)
        i = start + period * times
    if single:
        yield _run(single, terms)


def _best_repeat(
    made: Sequence[Made], keys: Sequence[object], i: int, terms: Terms
) -> tuple[int, int, int]:
    """Find the repeat at a place; begin it a little later where it is then told more simply."""
    period, times = _repeat_at(keys, i)
    best = i, period, times
    for start in range(i + 1, i + period if times >= _WORTH else i):
        later, often = _repeat_at(keys, start)
        shorter = _run(made[start : start + later], terms)
        simpler = shorter.count(", ") < _run(made[best[0] : best[0] + best[1]], terms).count(", ")
        if later * often >= period * times and simpler:
            best = start, later, often
    return best


def _many(one: Made, times: int, terms: Terms) -> str:
    if one.way == "chain":
        return one.name if one.name.startswith("beginning") else f"ch {times}"
    if one.way in {"ring", "along", "none"}:
        return _one(replace(one, many=times), terms)
    if one.way == "next" and _legs(one.name) > 1 and not one.passed:
        return f"{one.name} {times} times, each over the next {_legs(one.name)}"
    if times > 1 and times % _wide(one.name) == 0 and _wide(one.name) > 1 and _goes_on(one):
        over = f"over the next {_wide(one.name)}"
        often = times // _wide(one.name)
        return f"{one.name} {over if often == 1 else f'{often} times, each {over}'}"
    if one.way == "next" and not one.passed:
        ends = one.into in _PLURALS or one.into.endswith("row end")
        many = f"{one.into}s" if ends else one.into
        made = f"{one.many} {one.name}" if one.many > 1 else one.name
        return f"{made} {_into(one)} each of the next {times} {many}"
    return f"{times} times: {_one(one, terms)}"


def _wide(name: str) -> int:
    """Give how many places below one of this name takes and covers: 2 for a crossed stitch."""
    named = stitches.named(name, "US")
    row = None if named is None else stitches.stitches()[named.kind]
    both = row is not None and row.consumes == row.leaves
    return (row.consumes or 1) if row is not None and both else 1


def _goes_on(one: Made) -> bool:
    return one.way == "next" and not one.passed and one.many == 1


def _run(made: Sequence[Made], terms: Terms) -> str:
    """Tell stitches one after another, chains and equal neighbours together."""
    parts: list[str] = []
    i = 0
    while i < len(made):
        run = 1
        while i + run < len(made) and made[i + run].alike == made[i].alike:
            run += 1
        alone = run == 1 and made[i].way != "chain"
        parts.append(_one(made[i], terms) if alone else _many(made[i], run, terms))
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
