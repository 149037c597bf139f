"""Size a manuscript: from the body, the ease and the gauge to whole numbers in every size.

Everything is worked out in all sizes, in exact fractions; what is found is said of the sizes that
are worked now. Counts are fitted one by one, and the rules between them are checked, not solved.
"""

from collections.abc import Callable, Mapping

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.records import replace
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.number import Resolved
from stitchproof.language.read.formula import names_in
from stitchproof.sizing.arithmetic import Quantity
from stitchproof.sizing.definitions import (
    Definition,
    read_counts,
    read_finished,
    read_measures,
    whole,
)
from stitchproof.sizing.findings import BodyJoined, PointAssumed, UnknownEntry
from stitchproof.sizing.keys import Keys
from stitchproof.sizing.materials import (
    read_hooks,
    read_pieces,
    read_plain,
    read_swatches,
    read_yarns,
)
from stitchproof.sizing.model import BodyPoint, Measure, Sizing, Swatch
from stitchproof.sizing.people import People, read_people
from stitchproof.sizing.rules import check_necks, check_rules, finished_measures, resolve
from stitchproof.sizing.workings import Workings


def size_manuscript(
    manuscript: Manuscript, fetch: Callable[[str], str], chosen: tuple[str, ...] | None
) -> tuple[Sizing, list[Diagnostic]]:
    """Work out every measure and count of a manuscript.

    Parameters
    ----------
    manuscript : Manuscript
        As it was read.
    fetch : callable
        Gives the text of a file the front matter names; raises OSError or LookupError if there
        is none.
    chosen : tuple of str or None
        Names of the sizes to work now; None for all. One that is not there is passed over, and
        where none is there all are worked.

    Returns
    -------
    sizing, findings
    """
    keys = Keys(manuscript)
    plain = read_plain(keys)
    yarns = read_yarns(keys)
    hooks = read_hooks(keys)
    swatches = read_swatches(keys, yarns, hooks)
    people = read_people(keys, manuscript, fetch)
    sizes = people.sizes
    worked = _chosen(sizes, chosen)
    sample = _sample(keys, sizes)
    definitions = (*read_measures(keys, len(sizes)), *read_counts(keys, sizes, swatches))
    _check_pins(keys, definitions)
    _check_accepted(keys)
    workings = Workings(keys, sizes, worked, swatches)
    for point in people.points:
        workings.set(f"body.{point.name}", Quantity(point.values_mm, 1))
    workings.work_all(definitions)
    ends = read_finished(keys, len(sizes), swatches)
    finished = finished_measures(workings, ends)
    check_rules(keys, workings)
    check_necks(workings, definitions)
    formulas = resolve(workings, manuscript.numbers)
    points = _used(people, (*definitions, *ends), manuscript)
    _say_defaults(keys, people, points, worked)
    sizing = Sizing(
        sizes=sizes,
        chosen=worked,
        resolved=Resolved(sizes, worked, formulas),
        groups=people.groups,
        title=plain.get("title", ""),
        plain={key: words for key, words in plain.items() if key != "title"},
        yarns=yarns,
        hooks=hooks,
        swatches=swatches,
        piece_swatch=read_pieces(keys, manuscript, swatches),
        body=people.body,
        body_source=people.source,
        point=people.point if people.points else "",
        points=points,
        measures=_measures(workings, definitions, swatches),
        counts=tuple(workings.counts[d.name] for d in definitions if d.name in workings.counts),
        finished=tuple(finished),
        sample=sample,
        place=keys.front.place,
    )
    return sizing, keys.found


def _chosen(sizes: tuple[str, ...], chosen: tuple[str, ...] | None) -> tuple[int, ...]:
    """Find the sizes asked for, in the manuscript's order; all where none of them is there."""
    folded = {size.casefold(): i for i, size in enumerate(sizes)}
    asked = {name.strip().casefold() for name in chosen or ()}
    found = {folded[name] for name in asked if name in folded}
    return tuple(sorted(found)) or tuple(range(len(sizes)))


def _sample(keys: Keys, sizes: tuple[str, ...]) -> str:
    keys.unknown(("size", "fixed", "note", "worn_by", "photo"), "sample")
    for key in ("note", "worn_by", "photo"):
        keys.text("sample", key)
    sample = keys.plain("sample", "size")
    unsized = keys.value("sample", "size") is None and not keys.lost("sample", "size")
    if unsized and keys.value("sample", "fixed") is not None:
        keys.wrong("`size` beside it, the size that was made", "sample", "fixed")
    if sample and sample not in sizes:
        keys.report(UnknownEntry("size", sample, sizes), "sample", "size")
        return ""
    return sample


def _check_pins(keys: Keys, definitions: tuple[Definition, ...]) -> None:
    """Report pins of counts that are not declared."""
    counts = tuple(one.name for one in definitions if one.is_count)
    for name in keys.table("sample", "fixed"):
        whole(keys, "sample", "fixed", name)
        if name not in counts and not keys.lost("counts", name):
            keys.report(UnknownEntry("count", name, counts), "sample", "fixed", name, "")


def _check_accepted(keys: Keys) -> None:
    """Report what is of the wrong kind in `[[accepted]]`, which is read with the findings."""
    entries = keys.entries("entries that each begin with `[[accepted]]`", "accepted")
    for at in range(len(entries)):
        path = ("accepted", at)
        keys.unknown(("finding", "at", "sizes", "reason"), *path)
        for key in ("finding", "at", "reason"):
            keys.text(*path, key)
        for i in range(len(keys.entries('a list of sizes like `["M"]`', *path, "sizes"))):
            keys.plain(*path, "sizes", i)


def _used(
    people: People, definitions: tuple[Definition, ...], manuscript: Manuscript
) -> tuple[BodyPoint, ...]:
    """Mark the points of the body that a definition or the text names."""
    named = {n for one in definitions for n in one.needs()}
    formulas = {n.value for n in manuscript.numbers if not isinstance(n.value, tuple)}
    named.update(n for one in formulas for n in names_in(one))
    necks = {"cross_back"} if any(one.use == "neck width" for one in definitions) else set()
    return tuple(
        replace(one, used=f"body.{one.name}" in named or one.name in necks) for one in people.points
    )


def _say_defaults(
    keys: Keys, people: People, points: tuple[BodyPoint, ...], worked: tuple[int, ...]
) -> None:
    """Say what was chosen for the author and changes a number."""
    ranged = tuple(f"body.{p.name}" for p in points if p.used and p.low_mm != p.high_mm)
    if ranged and not people.said:
        keys.report(PointAssumed(ranged), "sizes", "body")
    for point in points:
        if point.used and point.joined:
            lengths = tuple(point.values_mm[i] for i in worked)
            keys.report(BodyJoined(point.name, point.joined, lengths), "sizes", "body")


def _measures(
    workings: Workings, definitions: tuple[Definition, ...], swatches: Mapping[str, Swatch]
) -> tuple[Measure, ...]:
    """Give the measures that could be worked out."""
    fitted = {c.measure for c in workings.counts.values() if c.swatch in swatches}
    return tuple(
        Measure(
            name=one.name,
            target_mm=workings.target[one.name].values,
            finished_mm=workings.made[one.name].values if one.name in fitted else None,
            rule=workings.rule(one),
            place=workings.keys.at(*one.path),
        )
        for one in definitions
        if not one.is_count and one.name in workings.target
    )
