"""What stands before the author's pieces: sizes, measurements, materials and gauge."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Final

from stitchproof.base.diagnostics import listed
from stitchproof.base.units import MM_PER_INCH, centimetres, inches
from stitchproof.edition.matter import Matter
from stitchproof.edition.model import SIZE, Block, Facts, Ink, Paragraph, Run, Table, Words, plain
from stitchproof.language.write.numbers import (
    ABSENT,
    length_words,
    number_words,
)
from stitchproof.sizing.model import BodyPoint, Measure, Swatch, Worked, Yarn
from stitchproof.trade.bodies import Range, body_tables
from stitchproof.trade.hooks import hook, millimetres
from stitchproof.trade.yarns import yarn_weight

_TO_FIT: Final = ("chest", "bust", "waist", "hip", "head", "foot_length", "hand")
_SIGNS: Final = ("(\u00a0)", "[\u00a0]", "{\u00a0}")  # never at the end of a line and the next
_LABELS_MM: Final = (  # the trade's pairs for gauge lines; no conversions
    (Fraction(100), Fraction(508, 5), "10 cm / 4 in"),
    (Fraction(50), Fraction(254, 5), "5 cm / 2 in"),
    (Fraction(25), Fraction(127, 5), "2.5 cm / 1 in"),
)
_YARD_MM: Final = Fraction(9144, 10)


# --------------------------------------------------------------------------- sizes


def size_line(matter: Matter, absent: str = "") -> str:
    """Say how the numbers are read; empty for a pattern in one size.

    Parameters
    ----------
    matter : Matter
        What the edition is made from.
    absent : str
        The sign that stands where a size has no number; empty where none does.
    """
    names, groups = matter.names, matter.groups
    if matter.one_size:
        return f"This copy is for size {matter.one_size} only; every number in it is for that size."
    if len(names) <= 1:
        return ""
    if sum(groups) != len(names) or min(groups) < 1:
        groups = (1, len(names) - 1)
    ends = [sum(groups[:index]) for index in range(len(groups) + 1)]
    stretches = [names[a:b] for a, b in pairwise(ends)]
    first, *rest = stretches
    inside = tuple(
        f"{', '.join(stretch)} in {_SIGNS[index % len(_SIGNS)]}"
        for index, stretch in enumerate(rest)
    )
    noun = "size" if len(first) == 1 else "sizes"
    with_rest = f", with {listed(inside)}" if inside else ""
    without = f"; {absent} means that this size has none" if absent else ""
    return (
        f"Numbers are for {noun} {', '.join(first)}{with_rest}. Where there is only one number, it "
        f"is for every size{without}."
    )


def measurements(matter: Matter) -> Iterator[Block]:
    """Give the body each size is for and what the finished piece measures."""
    columns = [
        *((f"To fit {_named(p.name)}", _ranges(matter, p)) for p in _to_fit(matter)),
        *((f"Finished {_named(m.name)}", _finished(matter, m)) for m in matter.sizing.finished),
    ]
    if not columns:
        return
    head = (SIZE, *(name for name, _ in columns))
    cells = zip(*(column for _, column in columns), strict=True)
    rows = tuple((name, *row) for name, row in zip(matter.names, cells, strict=True))
    yield Table("Measurements by size", head, rows)
    told = ["Finished measurements are of the finished piece."] if matter.sizing.finished else []
    if matter.sizing.body and _to_fit(matter):
        told.append("To-fit figures are those of the body the size is made for.")
    yield Paragraph(plain(" ".join(told)))


def _to_fit(matter: Matter) -> tuple[BodyPoint, ...]:
    used = {point.name: point for point in matter.sizing.points if point.used}
    main = tuple(used[name] for name in _TO_FIT[:4] if name in used)
    other = tuple(used[name] for name in _TO_FIT[4:] if name in used)
    return main or other[:1] or tuple(used.values())[:1]


def _named(key: str) -> str:
    return key.replace("_", " ")


def _ranges(matter: Matter, point: BodyPoint) -> tuple[str, ...]:
    low = matter.sizing.worked(point.low_mm or point.values_mm)
    high = matter.sizing.worked(point.high_mm or point.values_mm)
    return tuple(
        ABSENT if a is None or b is None else _range_words((a, b), _published(matter, point, name))
        for name, a, b in zip(matter.names, low, high, strict=True)
    )


def _published(matter: Matter, point: BodyPoint, size: str) -> Range | None:
    """Give the range as its table prints it in inches, where it does. [in]."""
    table = next((one for one in body_tables().values() if one.title == matter.sizing.body), None)
    row = table.rows.get(point.name) if table else None
    known = table.size(size) if table else None
    if table is None or row is None or known is None or not row.inches:
        return None
    return row.inches[table.sizes.index(known)]


def _range_words(range_mm: Range, published: Range | None) -> str:
    """Write a range in both units; a figure that is published in both is not converted."""
    in_inches = [end * MM_PER_INCH for end in published] if published else range_mm
    cm, inch = (
        "–".join(dict.fromkeys((words(low), words(high))))
        for words, (low, high) in ((centimetres, range_mm), (inches, in_inches))
    )
    return f"{cm} cm / {inch} in"


def _finished(matter: Matter, measure: Measure) -> tuple[str, ...]:
    lengths = measure.target_mm if measure.finished_mm is None else measure.finished_mm
    return tuple(length_words((length,)) for length in matter.sizing.worked(lengths))


# --------------------------------------------------------------------------- materials


def materials(matter: Matter) -> Iterator[Block]:
    """Give yarns, hooks and notions."""
    facts = [
        *((_yarn_name(yarn), _yarn(yarn)) for yarn in matter.sizing.yarns),
        *((_hook_name(one.key), _hook(one.mm, one.words)) for one in matter.sizing.hooks),
    ]
    notions = matter.sizing.plain.get("notions", "")
    if notions:
        facts.append(("Notions", plain(notions)))
    if facts:
        yield Facts(tuple(facts))


def _yarn_name(yarn: Yarn) -> str:
    return "Yarn" if yarn.key in {"main", "yarn", ""} else f"Yarn {_named(yarn.key)}"


def _yarn(yarn: Yarn) -> Words:
    told = [yarn.name, yarn.colour and f"colour {yarn.colour}", yarn.fibre]
    if yarn.weight is not None:
        known = yarn_weight(yarn.weight)
        told.append(f"weight {yarn.weight}{f' ({known.name})' if known else ''}")
    ball = " / ".join(
        part
        for part in (
            f"{_short(yarn.ball_g)} g" if yarn.ball_g else "",
            f"{_short(yarn.ball_mm / 1000)} m" if yarn.ball_mm else "",
            f"{round(yarn.ball_mm / _YARD_MM)} yd" if yarn.ball_mm else "",
        )
        if part
    )
    told.append(f"{ball} a ball" if ball else "")
    return plain("; ".join(part for part in told if part) or "as you like")


def _short(number: Fraction) -> str:
    return number_words((round(number, 1),))


def _hook_name(key: str) -> str:
    return "Hook" if key in {"main", "hook", ""} else f"Hook, {_named(key)}"


def _hook(mm: Fraction | None, words: str) -> Words:
    return plain(f"{hook_size(mm) or words}, or the size that gives the gauge")


def hook_size(mm: Fraction | None) -> str:
    """Write a hook with its labels in both countries: `4.5 mm (US 7, UK 7)`."""
    if mm is None:
        return ""
    known = hook(mm)
    systems = (("US", known.us), ("UK", known.uk)) if known else ()
    labels = ", ".join(f"{system} {label}" for system, label in systems if label)
    return f"{millimetres(mm)} ({labels})" if labels else millimetres(mm)


# --------------------------------------------------------------------------- gauge


def gauge(matter: Matter) -> Iterator[Block]:
    """Give a gauge line for each swatch."""
    lines = tuple(
        (_swatch_name(name), words)
        for name, swatch in matter.sizing.swatches.items()
        if (words := _gauge_line(matter, swatch))
    )
    if lines:
        yield Facts(lines)


def _swatch_name(key: str) -> str:
    return _named(key).capitalize()


def _gauge_line(matter: Matter, swatch: Swatch) -> Words:
    numbers = " and ".join(
        f"{number_words((number,))} {noun}"
        for number, noun in ((swatch.stitches, "sts"), (swatch.rows, _courses(swatch)))
        if number is not None
    )
    if not numbers:
        return ()
    size = next((one.mm for one in matter.sizing.hooks if one.key == swatch.hook), swatch.hook_mm)
    with_hook = hook_size(size) or swatch.hook
    told = (
        f" in {swatch.stitch}" if swatch.stitch else "",
        f" with {with_hook} hook" if with_hook else "",
        ", worked in the round" if swatch.worked is Worked.ROUND else ", worked flat",
        f", after {swatch.after}" if swatch.after else "",
    )
    return (
        Run(f"{numbers} = {_over(swatch.over_mm)}", Ink.NUMBER),
        Run(f"{''.join(told)}."),
    )


def _courses(swatch: Swatch) -> str:
    return "rnds" if swatch.worked is Worked.ROUND else "rows"


def _over(over_mm: Fraction) -> str:
    label = next((words for cm, inch, words in _LABELS_MM if over_mm in (cm, inch)), "")
    return label or length_words((over_mm,))
