"""A sheet to draw on: lines, words and arrows, given out as one SVG.

Every coordinate is rounded to 0.01 units where it is written, so that a drawing is the same bytes
on every machine. Only black lines and words: what is told is told in greyscale.
"""

from collections.abc import Sequence
from dataclasses import field
from typing import Final, Literal, TypeAlias

from stitchproof.base.records import dataclass

Point: TypeAlias = tuple[float, float]
Anchor: TypeAlias = Literal["start", "middle", "end"]

_FACE: Final = "Libertinus Serif, Georgia, serif"
_SIZE: Final = 11.0
_THIN: Final = 0.6
_LINE: Final = 1.1
_HEAD: Final = 4.0  # length of an arrow head
_WIDTH_OF_CHARACTER: Final = 0.56  # of the size; measured on digits and capitals of the face


@dataclass(slots=True)
class Sheet:
    """A sheet of a given width that grows downwards."""

    width: float
    marks: list[str] = field(default_factory=list)

    def polygon(self, points: Sequence[Point], dash: str = "") -> None:
        """Draw a closed outline."""
        way = " ".join(f"{place(x)},{place(y)}" for x, y in points)
        self._mark(f'<polygon points="{way}"{_stroke(_LINE, dash)}/>')

    def circle(self, x: float, y: float, radius: float, dash: str = "") -> None:
        """Draw a circle."""
        centre = f'cx="{place(x)}" cy="{place(y)}" r="{place(radius)}"'
        self._mark(f"<circle {centre}{_stroke(_LINE, dash)}/>")

    def line(
        self, start: Point, end: Point, weight: float = _THIN, dash: str | None = None
    ) -> None:
        """Draw a straight line."""
        ends = " ".join(
            f'{name}="{place(value)}"'
            for name, value in zip(("x1", "y1", "x2", "y2"), (*start, *end), strict=True)
        )
        stroke = _stroke(weight) if dash is None else _stroke(_LINE, dash)
        self._mark(f"<line {ends}{stroke}/>")

    def arrow(self, start: Point, end: Point) -> None:
        """Draw a line with a head at its end; it runs along an axis."""
        self.line(start, end, _LINE)
        self._head(end, start)

    def across(self, left: float, right: float, y: float, words: str) -> None:
        """Draw a level dimension line with its words above or, where it is short, beside it."""
        self.line((left, y), (right, y))
        self._head((left, y), (right, y))
        self._head((right, y), (left, y))
        middle = min(max((left + right) / 2, self.width_of(words) / 2 + 2), self.width - 2)
        self.text(middle, y - 3, words, plate=True)

    def upright(self, x: float, top: float, foot: float, words: str) -> None:
        """Draw a dimension line from top to foot with its words on the right."""
        self.line((x, top), (x, foot))
        self._head((x, top), (x, foot))
        self._head((x, foot), (x, top))
        middle = (top + foot) / 2
        for index, line in enumerate(words.split(" / ")):
            self.text(x + 5, middle + 4 + 13 * index, line, anchor="start")

    def bar(self, left: float, right: float, y: float) -> None:
        """Draw a scale bar."""
        self.line((left, y), (right, y), 2.0)
        self.line((left, y - 4), (left, y + 4))
        self.line((right, y - 4), (right, y + 4))

    def text(  # noqa: PLR0913 - how words are set has this many sides
        self,
        x: float,
        y: float,
        words: str,
        *,
        anchor: Anchor = "middle",
        size: float = _SIZE,
        bold: bool = False,
        plate: bool = False,
    ) -> None:
        """Write words; on a white plate where lines would run through them."""
        from html import escape

        if plate:
            wide = self.width_of(words, size)
            at = f'x="{place(x - wide / 2)}" y="{place(y - size + 2)}"'
            self._mark(f'<rect {at} width="{place(wide)}" height="{place(size)}" fill="#fff"/>')
        weight = ' font-weight="bold"' if bold else ""
        at = f'x="{place(x)}" y="{place(y)}" font-size="{place(size)}" text-anchor="{anchor}"'
        self._mark(f"<text {at}{weight}>{escape(words, quote=False)}</text>")

    @staticmethod
    def width_of(words: str, size: float = _SIZE) -> float:
        """Estimate how wide words are."""
        return len(words) * size * _WIDTH_OF_CHARACTER

    def svg(self, height: float, title: str, description: str) -> str:
        """Give the whole drawing, with what it shows for those who do not see it."""
        from html import escape

        box = f'viewBox="0 0 {place(self.width)} {place(height)}"'
        lines = [
            f'<svg xmlns="http://www.w3.org/2000/svg" {box} role="img" font-family="{_FACE}">',
            f"<title>{escape(title, quote=False)}</title>",
            f"<desc>{escape(description, quote=False)}</desc>",
            *self.marks,
            "</svg>",
        ]
        return "\n".join(lines) + "\n"

    def _mark(self, mark: str) -> None:
        self.marks.append(mark)

    def _head(self, tip: Point, tail: Point) -> None:
        """Draw an arrow head that points away from the tail."""
        (x, y), (tail_x, tail_y) = tip, tail
        along_x = (x > tail_x) - (x < tail_x)
        along_y = (y > tail_y) - (y < tail_y)
        back = x - along_x * _HEAD, y - along_y * _HEAD
        half = _HEAD / 2.5
        corners = (
            tip,
            (back[0] + along_y * half, back[1] + along_x * half),
            (back[0] - along_y * half, back[1] - along_x * half),
        )
        way = " ".join(f"{place(cx)},{place(cy)}" for cx, cy in corners)
        self._mark(f'<polygon points="{way}" fill="#000"/>')


def place(value: float) -> str:
    """Write a coordinate to 0.01 units, without needless digits."""
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


def _stroke(weight: float, dash: str = "") -> str:
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return f' fill="none" stroke="#000" stroke-width="{place(weight)}"{dashes}'
