"""From the rows of a piece to its outline in millimetres.

A row's ends are known in stitches; the outline wants a line. Ends that move little by little are a
slope, drawn as a line from change to change. Ends that move by more than a few stitches at once are
a step: stitches left unworked or chained on, drawn as a horizontal edge between the two rows.

Rows of openwork hold fewer stitches than the fabric is wide, because spaces do not count. A row
that is far narrower than rows before and after it is therefore drawn as wide as those, and where
such a row stands above the one below is not known: a piece with openwork is drawn about its middle.
"""

from collections.abc import Iterator
from enum import Enum
from itertools import accumulate
from math import isfinite, pi
from typing import Final, TypeAlias

from stitchproof.base.records import dataclass
from stitchproof.fabric.proof import Shape

Point: TypeAlias = tuple[float, float]
Ends: TypeAlias = tuple[float, float]  # left and right end of a row, in stitches

_STEP_ROWS: Final = 2.0  # an end that moves by more than this many row heights is a step
_SPREAD_ROWS: Final = 12  # a change is drawn over no more rows than this
_STRAIGHT_MM: Final = 0.005  # a point nearer to the line through its neighbours is left out
_OPEN: Final = 0.8  # a row below this share of the rows around it is openwork
_AROUND_ROWS: Final = 12  # more rows than this between two full ones are no openwork
_END_ROWS: Final = 2  # so many open rows may end a piece of openwork
_DISC: Final = 0.7  # rounds that come to less than this share of a circle's edge lie as a cup
_LEAST_MM: Final = 1.0  # nothing smaller is drawn


class Lie(Enum):
    """How a piece lies on the table."""

    FLAT = "flat"
    TUBE = "tube"  # worked round, pressed flat: half of it is seen
    DISC = "disc"  # worked round from the centre


@dataclass(frozen=True, slots=True)
class Gauge:
    """Width of a stitch and height of a row, in mm."""

    stitch_mm: float
    row_mm: float


Gauges: TypeAlias = Gauge | tuple[Gauge, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A piece in one size, before seaming.

    Attributes
    ----------
    lie : Lie
        How it lies.
    points : tuple of Point
        Corners, anticlockwise from the first row's left end; x = 0 is the middle of the first row
        and y grows from the first row to the last. For a disc: none. [mm]
    first_mm, last_mm, widest_mm : float
        Width of the first row, of the last, and of the widest, as it lies. [mm]
    height_mm : float
        From the first row to the last; for a disc its diameter. [mm]
    """

    lie: Lie
    points: tuple[Point, ...]
    first_mm: float
    last_mm: float
    widest_mm: float
    height_mm: float


def outline(shape: Shape, gauge: Gauges) -> Outline | None:
    """Lay a piece down flat, to scale; None where there is nothing to draw.

    Parameters
    ----------
    shape : Shape
        R rows in stitches.
    gauge : Gauge, or tuple of Gauge
        Of the fabric; (R,) one a row where a piece is made of several.
    """
    ends = list(zip(shape.left, shape.right, strict=False))
    gauges = (gauge,) * len(ends) if isinstance(gauge, Gauge) else gauge
    if not ends or len(gauges) != len(ends) or any(one.stitch_mm <= 0 for one in gauges):
        return None
    levels = (0.0, *accumulate(one.row_mm for one in gauges))
    height_mm = levels[-1]
    if not (isfinite(height_mm) and height_mm >= _LEAST_MM):
        return None
    if not all(isfinite(end) for pair in ends for end in pair):
        return None
    sharp = max(_STEP_ROWS * one.row_mm / one.stitch_mm for one in gauges)
    ends = _filled(ends, sharp)
    widths_mm = [
        (right - left) * one.stitch_mm for (left, right), one in zip(ends, gauges, strict=True)
    ]
    if not all(map(isfinite, widths_mm)) or max(widths_mm) < _LEAST_MM:
        return None
    if shape.round and shape.flat and widths_mm[-1] >= _DISC * 2 * pi * height_mm:
        across = 2 * height_mm
        return Outline(
            lie=Lie.DISC,
            points=(),
            first_mm=across,
            last_mm=across,
            widest_mm=across,
            height_mm=across,
        )
    if shape.round:
        widths_mm = [width / 2 for width in widths_mm]
        left = [-width / 2 for width in widths_mm]
        right = [width / 2 for width in widths_mm]
    else:
        centre = sum(ends[0]) / 2
        left = [(end - centre) * g.stitch_mm for (end, _), g in zip(ends, gauges, strict=True)]
        right = [(end - centre) * g.stitch_mm for (_, end), g in zip(ends, gauges, strict=True)]
    up = _straightened(list(_edge(right, levels)))
    down = _straightened(list(_edge(left, levels)))[::-1]
    return Outline(
        lie=Lie.TUBE if shape.round else Lie.FLAT,
        points=(*down[-1:], *up, *down[:-1]),
        first_mm=widths_mm[0],
        last_mm=widths_mm[-1],
        widest_mm=max(widths_mm),
        height_mm=height_mm,
    )


def around_mm(lying_mm: float, lie: Lie) -> float:
    """Give the way around a piece worked round from its width as it lies, in mm."""
    match lie:
        case Lie.FLAT:
            return lying_mm
        case Lie.TUBE:
            return 2 * lying_mm
        case Lie.DISC:
            return pi * lying_mm


def _filled(ends: list[Ends], sharp: float) -> list[Ends]:
    """Draw rows of openwork as wide as the full rows before and after them.

    Parameters
    ----------
    ends : list of Ends
        Of every row.
    sharp : float
        A row that is narrower by more than this may be openwork. [stitches]
    """
    width = [right - left for left, right in ends]
    filled = list(ends)
    full, opened = 0, False
    for row in range(1, len(ends)):
        if width[row] < _OPEN * width[full] and width[full] - width[row] > sharp:
            if row - full <= _AROUND_ROWS:
                continue
        elif row > full + 1 and width[row - 1] < _OPEN * width[row]:
            filled[full + 1 : row] = [ends[full]] * (row - full - 1)
            opened = True
        full = row
    if opened and 0 < len(ends) - 1 - full <= _END_ROWS:
        filled[full + 1 :] = [ends[full]] * (len(ends) - 1 - full)
    if not opened:
        return ends
    middle = sum(ends[0]) / 2
    halves = [(right - left) / 2 for left, right in filled]
    return [(middle - half, middle + half) for half in halves]


def _edge(ends_mm: list[float], levels: tuple[float, ...]) -> Iterator[Point]:
    """Follow one edge from the first row to the last.

    A change spreads over half the rows to its neighbours, so that regular shaping is one line.

    Parameters
    ----------
    ends_mm : list of float
        (R,) where each row ends.
    levels : tuple of float
        (R + 1,) height of the foot of each row, and of the top of the last.
    """
    rows = len(ends_mm)
    changes = [row for row in range(1, rows) if ends_mm[row] != ends_mm[row - 1]]
    yield ends_mm[0], 0.0
    for index, row in enumerate(changes):
        before, here = ends_mm[row - 1], ends_mm[row]
        if abs(here - before) > _STEP_ROWS * (levels[row + 1] - levels[row]):
            yield before, levels[row]
            yield here, levels[row]
            continue
        since = row - (changes[index - 1] if index else 0)
        until = (changes[index + 1] if index + 1 < len(changes) else rows) - row
        spread = min(since, until, _SPREAD_ROWS) / 2
        yield before, _level(levels, row - spread)
        yield here, _level(levels, row + spread)
    yield ends_mm[-1], levels[-1]


def _level(levels: tuple[float, ...], row: float) -> float:
    """Give the height of a place within a row."""
    foot = int(row)
    rest = row - foot
    return levels[foot] + (rest * (levels[foot + 1] - levels[foot]) if rest else 0.0)


def _straightened(points: list[Point]) -> list[Point]:
    """Leave out points that lie on the line from the last kept one to the next."""
    kept = points[:1]
    for index in range(1, len(points) - 1):
        (ax, ay), (bx, by), (cx, cy) = kept[-1], points[index], points[index + 1]
        off = abs((cx - ax) * (by - ay) - (bx - ax) * (cy - ay))
        length = abs(cx - ax) + abs(cy - ay)
        if off > _STRAIGHT_MM * length:
            kept.append(points[index])
    return [*kept, points[-1]]
