"""The grade of a design: every measure and count in every size, as data and as a page to read.

On the page each measure and each count is a block, with a line for what it should be, what it
comes to and how far that is off, and a column a size, so that nine sizes fit into 100 columns.
Everything printed is rounded from the unrounded value.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final

from stitchproof.base.diagnostics import listed
from stitchproof.base.units import (
    SIXTEENTH,
    TENTH,
    decimal_words,
    inches,
    round_half_away,
)
from stitchproof.sizing.model import BodyPoint, Count, Measure, Sizing, Swatch

WIDTH: Final = 100  # columns
_HEAD: Final = 15  # columns of what stands before the numbers
_RECALLED: Final = "*"
_HUNDREDTH: Final = Fraction(1, 100)
_ABSENT: Final = "-"


def grade_json(sizing: Sizing, findings_json: list[dict[str, object]]) -> dict[str, object]:
    """Give the grade as plain data; sizes that are not worked now appear nowhere.

    Parameters
    ----------
    sizing : Sizing
        As worked out.
    findings_json : list of dict
        The findings, already plain data.
    """
    return {
        "sizes": list(sizing.names),
        "measures": [_measure_json(sizing, one) for one in _all_measures(sizing)],
        "counts": [
            {
                "name": one.name,
                "value": list(sizing.worked(one.value)),
                "wanted": _floats(sizing.worked(one.wanted)),
                "rule": one.rule,
            }
            for one in sizing.counts
        ],
        "findings": findings_json,
    }


def _all_measures(sizing: Sizing) -> tuple[Measure, ...]:
    """Give measures of the design, then those of the made garment that are not the same again."""
    known = {one.name for one in sizing.measures}
    return (*sizing.measures, *(one for one in sizing.finished if one.name not in known))


def _measure_json(sizing: Sizing, measure: Measure) -> dict[str, object]:
    """Give one measure; where the made garment is measured there too, by that measure."""
    finished = measure.finished_mm
    for one in sizing.finished:
        if one.name == measure.name:
            finished = one.finished_mm
    return {
        "name": measure.name,
        "target_mm": _floats(sizing.worked(measure.target_mm)),
        "finished_mm": None if finished is None else _floats(sizing.worked(finished)),
    }


def _floats(values: Sequence[Fraction | None]) -> list[float | None]:
    return [None if value is None else float(value) for value in values]


# --------------------------------------------------------------------------- to read


def grade_text(sizing: Sizing) -> str:
    """Write the grade as a page for the terminal."""
    lines = [
        *_opening(sizing),
        *_body_block(sizing),
        *_swatch_block(sizing),
        *_part(sizing, "Measures", [_measure_lines(sizing, one) for one in sizing.measures]),
        *_part(sizing, "Counts", [_count_lines(sizing, one) for one in sizing.counts]),
        *_part(sizing, "Finished", [_measure_lines(sizing, one) for one in sizing.finished]),
    ]
    return "\n".join(line.rstrip() for line in lines).rstrip() + "\n"


def _opening(sizing: Sizing) -> Iterator[str]:
    names = sizing.names
    yield sizing.title or "Untitled"
    yield ""
    yield f"Sizes: {', '.join(names)}"
    if sizing.sample:
        yield f"Sample: {sizing.sample}"
    yield ""


def _swatch_block(sizing: Sizing) -> Iterator[str]:
    if not sizing.swatches:
        return
    yield "Gauge"
    for one in sizing.swatches.values():
        yield f"  {one.name}: {_gauge_words(one)}"
    yield ""


def _gauge_words(swatch: Swatch) -> str:
    counted = []
    if swatch.stitches is not None:
        counted.append(f"{decimal_words(swatch.stitches, _HUNDREDTH)} sts")
    if swatch.rows is not None:
        counted.append(f"{decimal_words(swatch.rows, _HUNDREDTH)} rows")
    words = " x ".join(counted) or "no gauge"
    after = f" after {swatch.after}" if swatch.after else ", not said whether blocked"
    return f"{words} = {swatch.over}, worked {swatch.worked.value}{after}"


def _body_block(sizing: Sizing) -> Iterator[str]:
    used = [one for one in sizing.points if one.used]
    if not used:
        return
    lines = [_point_lines(sizing, one) for one in used]
    ranged = any(sizing.worked(one.low_mm) != sizing.worked(one.high_mm) for one in used)
    where = f", {sizing.point} of each published range" if ranged else ""
    yield from _part(sizing, f"Body: {sizing.body}{where}", lines)
    if any(any(sizing.worked(one.recalled)) for one in used):
        yield f"  {_RECALLED} recalled, not read at its source: compare before publishing."
    for one in used:
        if one.joined:
            yield from _wrapped(f"{one.name}: not in this table; from {one.joined}")
    if sizing.body_source:
        yield from _wrapped(f"Source: {sizing.body_source}")
    yield ""


def _part(sizing: Sizing, title: str, blocks: Sequence[Sequence[tuple[str, ...]]]) -> Iterator[str]:
    """Lay blocks out below a title; many sizes are broken into several rows of columns."""
    if not blocks:
        return
    yield title
    names = sizing.names
    lines = [line for block in blocks for line in block]
    width = max(5, *(len(cell) for line in lines for cell in line[1:]), *map(len, names)) + 2
    across = max(1, (WIDTH - _HEAD) // width)
    for start in range(0, len(names), across):
        shown = slice(start, start + across)
        yield " " * _HEAD + "".join(name.rjust(width) for name in names[shown])
        for block in blocks:
            for label, *cells in block:
                if not cells:  # a line of its own: the name and the rule
                    yield from _wrapped(label)
                    continue
                yield f"    {label}".ljust(_HEAD) + "".join(c.rjust(width) for c in cells[shown])
    yield ""


def _wrapped(words: str) -> Iterator[str]:
    """Break a line of words at spaces."""
    import textwrap  # only for the page

    yield from textwrap.wrap(words, WIDTH - 2, initial_indent="  ", subsequent_indent="      ")


def _point_lines(sizing: Sizing, point: BodyPoint) -> list[tuple[str, ...]]:
    values = sizing.worked(point.values_mm)
    marks = sizing.worked(point.recalled) if point.recalled else (False,) * len(values)
    cm = [
        f"{_cm(value)}{_RECALLED if mark else ''}"
        for value, mark in zip(values, marks, strict=True)
    ]
    return [(point.name,), ("cm", *cm), ("in", *map(_inches, values))]


def _measure_lines(sizing: Sizing, measure: Measure) -> list[tuple[str, ...]]:
    target = sizing.worked(measure.target_mm)
    lines: list[tuple[str, ...]] = [(f"{measure.name} = {measure.rule}",)]
    lines.append(("target cm", *map(_cm, target)))
    if measure.finished_mm is None:
        return [*lines, ("in", *map(_inches, target))]
    made = sizing.worked(measure.finished_mm)
    off = [None if a is None or b is None else b - a for a, b in zip(target, made, strict=True)]
    return [
        *lines,
        ("in", *map(_inches, target)),
        ("made cm", *map(_cm, made)),
        ("in", *map(_inches, made)),
        ("off cm", *map(_off, off)),
        ("in", *map(_off_inches, off)),
    ]


def _count_lines(sizing: Sizing, count: Count) -> list[tuple[str, ...]]:
    value = sizing.worked(count.value)
    wanted = sizing.worked(count.wanted)
    fitted = f"{count.measure} {'along' if count.along else 'across'} {count.swatch}: "
    source = fitted if count.swatch and count.measure else ""
    lines: list[tuple[str, ...]] = [(f"{count.name} = {source}{count.rule}",)]
    lines.append(("count", *(_ABSENT if v is None else str(v) for v in value)))
    if any(w is not None and w != v for w, v in zip(wanted, value, strict=True)):
        shown = (_ABSENT if w is None else decimal_words(w, _HUNDREDTH) for w in wanted)
        lines.append(("wanted", *shown))
    pinned = [i for i in sizing.chosen if count.pinned and count.pinned[i] is not None]
    if pinned:
        sizes = listed(tuple(sizing.sizes[i] for i in pinned))
        lines.append((f"  {sizes}: as the sample was made",))
    return lines


def _cm(mm: Fraction | None) -> str:
    """Write centimetres with one decimal, always, so that the columns stand in line."""
    if mm is None:
        return _ABSENT
    words = decimal_words(mm / 10, TENTH)
    return words if "." in words else f"{words}.0"


def _off(mm: Fraction | None) -> str:
    if mm is None:
        return _ABSENT
    return f"{'+' if round_half_away(mm / 10, TENTH) > 0 else ''}{_cm(mm)}"


def _off_inches(mm: Fraction | None) -> str:
    """Write a deviation to the quarter inch, and finer where that would be nothing."""
    if mm is None:
        return _ABSENT
    words = inches(mm, SIXTEENTH)
    return words if mm <= 0 or words == "0" else f"+{words}"


def _inches(mm: Fraction | None) -> str:
    return _ABSENT if mm is None else inches(mm)
