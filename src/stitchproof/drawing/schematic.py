"""The schematic of a piece: its outline to scale, with the lengths that matter.

All sizes are drawn nested on the centre line, the first row at the same height. Each figure is said
once: those of a single size stand beside its dimension lines, or below the drawing where a length
has no line in it; several sizes have letters at the lines and their figures in a table, because
nine numbers fit no dimension line. Line patterns and names tell the sizes apart, not colours.
"""

from collections.abc import Sequence
from enum import Enum
from fractions import Fraction
from typing import Final

from stitchproof.base.records import dataclass
from stitchproof.drawing.outline import Gauge, Gauges, Lie, Outline, around_mm, outline
from stitchproof.drawing.strokes import Sheet
from stitchproof.fabric.proof import PieceShape
from stitchproof.language.write.numbers import length_words, size_words

_WIDE: Final = 360.0  # drawing units; one unit is about a point on paper
_ROOM: Final = 238.0  # width and height left for the outline itself
_TOP: Final = 8.0
_TOP_MEASURED: Final = 28.0  # room for a dimension line above the outline
_LINE: Final = 14.0
_DASHES: Final = (
    *("", "7 2.5", "2 2", "9 2 2 2", "4 4", "12 3"),
    *("1 3", "12 3 2 3 2 3", "5 2 1 2", "3 6", "15 2 5 2", "1 1"),
)
_ROOM_FOR_SIGNS: Final = 64.0
_DIRECTION: Final = "direction of work"
_SAME_MM: Final = 1e-6
_KEY_COLUMNS: Final = 5
_LEAST_SHARE: Final = 0.3  # a first round narrower than this share of the widest is a centre
_SCALE_BARS_MM: Final = (500, 200, 100, 50, 20, 10)
_BAR_ROOM: Final = 120.0


class Where(Enum):
    """Where a length is taken."""

    FIRST = "first"
    LAST = "last"
    WIDEST = "widest"
    HEIGHT = "height"
    AROUND = "around"  # told, not drawn


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """One labelled length of a piece.

    Attributes
    ----------
    where : Where
        Where it is taken.
    letter : str
        Its letter in a drawing of several sizes; empty where it has no line there.
    name : str
        What is measured.
    lengths_mm : tuple of Fraction or None
        (W,) per size. [mm]
    """

    where: Where
    letter: str
    name: str
    lengths_mm: tuple[Fraction | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Schematic:
    """A drawn piece.

    Attributes
    ----------
    name : str
        The piece's heading.
    svg : str
        The drawing; coordinates rounded to 0.01 units.
    alt : str
        One sentence in place of the picture.
    sizes : tuple of str
        (W,) size names.
    measures : tuple of Measure
        Every length that is told.
    told : bool
        The drawing says every figure itself, as that of a single size does.
    """

    name: str
    svg: str
    alt: str
    sizes: tuple[str, ...]
    measures: tuple[Measure, ...]
    told: bool


def schematic(
    piece: PieceShape,
    gauge: Gauge | tuple[Gauges | None, ...],
    sizes: tuple[str, ...],
    groups: tuple[int, ...] = (),
    *,
    sewn: bool = True,
) -> Schematic | None:
    """Draw a piece in every size worked; None where no size has an outline.

    Parameters
    ----------
    piece : PieceShape
        Outline in stitches and rows.
    gauge : Gauge, or tuple of Gauge, tuple of Gauge or None
        Of the fabric it is made in; (W,) per size where the rows of a piece differ in fabric. A
        size whose gauge is None is not drawn.
    sizes : tuple of str
        (W,) names of the sizes.
    groups : tuple of int
        How many sizes stand together in labels.
    sewn : bool
        It is sewn to another later: the drawing is of it before that.
    """
    gauges = (gauge,) * len(piece.shapes) if isinstance(gauge, Gauge) else gauge
    outlines = tuple(
        None if shape is None or of_size is None else outline(shape, of_size)
        for shape, of_size in zip(piece.shapes, gauges, strict=True)
    )
    drawn = [made for made in outlines if made]
    if not drawn:
        return None
    measures = _measures(outlines)
    alt = _alt(piece.name, drawn[0].lie, size_words(sizes, groups), sizes, sewn=sewn)
    told = "; ".join(f"{m.name} {length_words(m.lengths_mm, groups)}" for m in measures)
    sheet = Sheet(_WIDE)
    scale = _ROOM / max(max(_reach(made), made.height_mm) for made in drawn)
    above = any(measure.where is Where.LAST for measure in measures)
    ceiling = _TOP_MEASURED if above else _TOP
    foot = ceiling + max(made.height_mm for made in drawn) * scale
    several = len(sizes) > 1
    _draw_outlines(sheet, outlines, sizes, scale, foot)
    widest = max(drawn, key=lambda made: made.widest_mm)
    low = foot + (24 if several else 8)
    low = _dimensions(sheet, widest, measures, scale, (ceiling, foot, low), several=several)
    narrow = min(min(made.first_mm, made.last_mm) for made in drawn) * scale < _ROOM_FOR_SIGNS
    _signs(sheet, widest, scale, foot, narrow=narrow)
    low = _scale_bar(sheet, scale, low + 12, "direction of work, RS" if narrow else _DIRECTION)
    if several:
        low = _key(sheet, [sizes[i] for i, made in enumerate(outlines) if made], outlines, low + 20)
        low -= _LINE
    else:
        low = _legend(sheet, measures, low)
    title = f"Schematic: {piece.title or piece.name or 'piece'}"
    return Schematic(
        name=piece.name,
        svg=sheet.svg(low + 6, title, f"{alt} {_sentence(told)}."),
        alt=alt,
        sizes=sizes,
        measures=measures,
        told=not several,
    )


# --------------------------------------------------------------------------- what is measured


def _measures(outlines: Sequence[Outline | None]) -> tuple[Measure, ...]:
    lie = next(made.lie for made in outlines if made)
    first = [None if made is None else made.first_mm for made in outlines]
    last = [None if made is None else made.last_mm for made in outlines]
    widest = [None if made is None else made.widest_mm for made in outlines]
    height = [None if made is None else made.height_mm for made in outlines]
    taken: list[tuple[Where, str, list[float | None]]] = []
    laid = ", laid flat" if lie is Lie.TUBE else ""
    course = "round" if lie is Lie.TUBE else "row"
    if lie is Lie.DISC:
        taken.append((Where.WIDEST, "across", widest))
    elif first == last == widest:
        taken.append((Where.FIRST, f"width{laid}", first))
    else:
        if any(made and made.first_mm > _LEAST_SHARE * made.widest_mm for made in outlines):
            taken.append((Where.FIRST, f"width at the first {course}{laid}", first))
        if last != first:
            taken.append((Where.LAST, f"width at the last {course}{laid}", last))
        if widest not in (first, last):
            taken.append((Where.WIDEST, f"widest{laid}", widest))
    if lie is not Lie.DISC:
        taken.append((Where.HEIGHT, "height", height))
    if lie is Lie.TUBE:
        around = [None if made is None else around_mm(made.widest_mm, lie) for made in outlines]
        taken.append((Where.AROUND, "around the widest round", around))
    return tuple(
        Measure(
            where=where,
            letter="" if where is Where.AROUND else chr(ord("A") + index),
            name=name,
            lengths_mm=tuple(_exact(length) for length in lengths),
        )
        for index, (where, name, lengths) in enumerate(taken)
    )


def _exact(length_mm: float | None) -> Fraction | None:
    """Take a computed length as the fraction meant: floats of 54.2857… cm tie nowhere."""
    return None if length_mm is None else Fraction(length_mm).limit_denominator(10**6)


def _alt(name: str, lie: Lie, listed: str, sizes: tuple[str, ...], *, sewn: bool) -> str:
    upwards = "worked from the bottom of the drawing to the top"
    before = "before seaming, " if sewn else ""
    form = {
        Lie.FLAT: f"{before}seen from the right side, {upwards}",
        Lie.TUBE: f"in the round and laid flat, {upwards}",
        Lie.DISC: "worked in the round from the centre",
    }[lie]
    in_sizes = f" in {'size' if len(sizes) == 1 else 'sizes'} {listed}"
    return f"Outline of {name or 'the piece'}{in_sizes if any(sizes) else ''}, {form}."


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"


# --------------------------------------------------------------------------- the drawing


def _draw_outlines(
    sheet: Sheet,
    outlines: Sequence[Outline | None],
    sizes: tuple[str, ...],
    scale: float,
    foot: float,
) -> None:
    several = len(sizes) > 1
    middle_y = foot - max(made.height_mm for made in outlines if made) / 2 * scale
    corners: list[tuple[str, float]] = []
    for index, made in enumerate(outlines):
        if made is None:
            continue
        dash = _DASHES[index % len(_DASHES)] if several else ""
        if made.lie is Lie.DISC:
            sheet.circle(_WIDE / 2, middle_y, made.widest_mm / 2 * scale, dash)
        else:
            sheet.polygon([(_WIDE / 2 + x * scale, foot - y * scale) for x, y in made.points], dash)
            corners.append((sizes[index], _WIDE / 2 + made.first_mm / 2 * scale))
    if several:
        _name_sizes(sheet, corners, foot)


def _name_sizes(sheet: Sheet, corners: list[tuple[str, float]], foot: float) -> None:
    """Write each size below its lower right corner, if there is room for all of them."""
    ends = [0.0, 0.0]
    placed = []
    for name, x in corners:
        half = sheet.width_of(name, 8) / 2
        line = 0 if x - half > ends[0] + 1 else 1
        if x - half <= ends[line] + 1:
            return
        ends[line] = x + half
        placed.append((name, x, foot + 9 + 9 * line))
    for name, x, low in placed:
        sheet.text(x, low, name, size=8)


def _dimensions(
    sheet: Sheet,
    made: Outline,
    measures: tuple[Measure, ...],
    scale: float,
    levels: tuple[float, float, float],
    *,
    several: bool,
) -> float:
    """Draw dimension lines around the largest outline; give the lowest line used."""
    ceiling, foot, low = levels  # the ceiling is that of the highest outline
    middle = _WIDE / 2
    widest = min((x for x, _ in made.points), default=-made.widest_mm / 2) * scale
    right = max((x for x, _ in made.points), default=made.widest_mm / 2) * scale
    top = foot - made.height_mm * scale
    for measure in measures:
        words = measure.letter if several else length_words(measure.lengths_mm)
        match measure.where:
            case Where.HEIGHT:
                sheet.upright(middle + right + 16, top, foot, words)
            case Where.LAST:
                ends = _row_ends(made, scale, last=True)
                sheet.across(middle + ends[0], middle + ends[1], ceiling - 10, words)
            case Where.FIRST:
                low += 16
                ends = _row_ends(made, scale, last=False)
                sheet.across(middle + ends[0], middle + ends[1], low, words)
            case Where.WIDEST:
                low += 20
                sheet.across(middle + widest, middle + right, low, words)
            case Where.AROUND:
                pass
    return low


def _row_ends(made: Outline, scale: float, *, last: bool) -> tuple[float, float]:
    """Give the left and the right end of the first or last row, in drawing units."""
    level = made.height_mm if last else 0.0
    ends = [x * scale for x, y in made.points if abs(y - level) < _SAME_MM]
    return min(ends), max(ends)


def _reach(made: Outline) -> float:
    """Give the width an outline needs about the middle of its first row, in mm."""
    return 2 * max((abs(x) for x, _ in made.points), default=made.widest_mm / 2)


def _signs(sheet: Sheet, made: Outline, scale: float, foot: float, *, narrow: bool) -> None:
    """Say which side is seen and which way the rows grow."""
    middle, height = _WIDE / 2, made.height_mm * scale
    if made.lie is Lie.DISC:
        sheet.text(middle, foot - height / 2 - 4, "RS")
        sheet.arrow(
            (middle + 2, foot - height / 2 + 4), (middle + height / 2 * 0.75, foot - height / 2 + 4)
        )
        return
    if narrow:
        sheet.arrow((middle, foot - height * 0.25), (middle, foot - height * 0.75))
        return
    sheet.text(middle + 14, foot - height / 2 + 4, "RS")
    sheet.arrow((middle - 8, foot - height * 0.25), (middle - 8, foot - height * 0.75))


def _scale_bar(sheet: Sheet, scale: float, low: float, told: str) -> float:
    length = next((mm for mm in _SCALE_BARS_MM if mm * scale <= _BAR_ROOM), _SCALE_BARS_MM[-1])
    left = 12.0
    sheet.bar(left, left + length * scale, low + 6)
    words = f"{length // 10} cm"
    sheet.text(left + length * scale + 6, low + 9, words, anchor="start", size=9)
    arrow = 12 + length * scale + 6 + sheet.width_of(words, 9) + 18
    sheet.arrow((arrow, low + 11), (arrow, low - 3))
    sheet.text(arrow + 7, low + 9, told, anchor="start", size=9)
    return low + 12


def _key(sheet: Sheet, names: list[str], outlines: Sequence[Outline | None], low: float) -> float:
    """Show which line pattern is which size."""
    patterns = [_DASHES[i % len(_DASHES)] for i, made in enumerate(outlines) if made]
    column = (_WIDE - 24) / _KEY_COLUMNS
    for index, (name, dash) in enumerate(zip(names, patterns, strict=True)):
        left = 12 + column * (index % _KEY_COLUMNS)
        if index and index % _KEY_COLUMNS == 0:
            low += _LINE
        sheet.line((left, low - 3), (left + 32, low - 3), dash=dash)
        sheet.text(left + 36, low, name, anchor="start", size=9)
    return low + _LINE


def _legend(sheet: Sheet, measures: tuple[Measure, ...], low: float) -> float:
    """Say the figures of a single size that have no line in the drawing."""
    for measure in measures:
        if not measure.letter:
            low += _LINE + 6
            words = f"{_sentence(measure.name)}: {length_words(measure.lengths_mm)}"
            sheet.text(12, low, words, anchor="start", size=10)
    return low
