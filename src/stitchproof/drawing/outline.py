"""From the rows of a piece to its outline in millimetres.

A row's ends are known in stitches; the outline wants a line. Ends that move little by little are a
slope, drawn as a line from change to change. Ends that move by more than a few stitches at once are
a step: stitches left unworked or chained on, drawn as a horizontal edge between the two rows.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from math import isfinite, pi
from typing import Final, TypeAlias

from stitchproof.fabric.proof import Shape

Point: TypeAlias = tuple[float, float]

_STEP_ROWS: Final = 2.0  # an end that moves by more than this many row heights is a step
_SPREAD_ROWS: Final = 12  # a change is drawn over no more rows than this
_STRAIGHT_MM: Final = 0.005  # a point nearer to the line through its neighbours is left out
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


def outline(shape: Shape, gauge: Gauge) -> Outline | None:
    """Lay a piece down flat, to scale; None where there is nothing to draw."""
    rows = min(len(shape.left), len(shape.right))
    height_mm = rows * gauge.row_mm
    if not (isfinite(height_mm) and height_mm >= _LEAST_MM and gauge.stitch_mm > 0):
        return None
    widths_mm = [(shape.right[i] - shape.left[i]) * gauge.stitch_mm for i in range(rows)]
    if not (all(map(isfinite, widths_mm)) and max(widths_mm) >= _LEAST_MM):
        return None
    if shape.round and shape.flat:
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
        centre = (shape.left[0] + shape.right[0]) / 2
        left = [(end - centre) * gauge.stitch_mm for end in shape.left[:rows]]
        right = [(end - centre) * gauge.stitch_mm for end in shape.right[:rows]]
    up = _straightened(list(_edge(right, gauge.row_mm)))
    down = _straightened(list(_edge(left, gauge.row_mm)))[::-1]
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


def _edge(ends_mm: list[float], row_mm: float) -> Iterator[Point]:
    """Follow one edge from the first row to the last.

    A change spreads over half the rows to its neighbours, so that regular shaping is one line.
    """
    rows = len(ends_mm)
    changes = [row for row in range(1, rows) if ends_mm[row] != ends_mm[row - 1]]
    yield ends_mm[0], 0.0
    for index, row in enumerate(changes):
        before, here = ends_mm[row - 1], ends_mm[row]
        if abs(here - before) > _STEP_ROWS * row_mm:
            yield before, row * row_mm
            yield here, row * row_mm
            continue
        since = row - (changes[index - 1] if index else 0)
        until = (changes[index + 1] if index + 1 < len(changes) else rows) - row
        spread = min(since, until, _SPREAD_ROWS) / 2
        yield before, (row - spread) * row_mm
        yield here, (row + spread) * row_mm
    yield ends_mm[-1], rows * row_mm


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
