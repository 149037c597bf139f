"""What working a manuscript gives: every course in every size, and the shape of every piece."""

from typing import TypeAlias

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.fabric.conventions import Switch
from stitchproof.fabric.pairs import Pair
from stitchproof.fabric.trouble import Trouble
from stitchproof.language.tree import Counts, Course, Either, Statement

PerSize: TypeAlias = tuple[int | None, ...]  # (W,) one a worked size; None: unknown or absent


@dataclass(frozen=True, slots=True)
class CountLine:
    """One kind of thing counted on the live edge after a course.

    Attributes
    ----------
    kind : str
        As the author names it where stated ("dc", "ch-1 sp", "shell"), else the stitch name.
    worked : tuple of int or None
        (W,) how many there are.
    stated : tuple of int or None, or None
        (W,) how many the author says; None where nothing is said.
    """

    kind: str
    worked: PerSize
    stated: PerSize | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedCourse:
    """One instruction line, worked in every size.

    Attributes
    ----------
    course : Course
        The settled instruction.
    section : str
        Heading it stands under, verbatim.
    label : str
        The author's label, or first words.
    place : Span
        The whole line.
    read : bool
        Every word was understood.
    reading : str or None
        Which reading was taken where the words allowed several.
    side : str or None
        "RS", "WS" or None: the side that faces the maker.
    worked : tuple of int or None
        (W,) stitches on the live edge after its last row, by the conventions.
    stated : tuple of int or None, or None
        (W,) what the author says, where it is in stitches.
    absent : tuple of str
        Sizes in which it is not worked.
    counts : tuple of CountLine
        Every kind that was stated.
    troubles : tuple of Trouble or None
        (W,) what is wrong with it, placed in the whole text.
    doubts : tuple of Trouble
        Stitches named that the edge does not hold.
    open : tuple of Either
        Readings that nothing decides.
    taken : tuple of (Either, str)
        Each doubt in the words, and the reading that was taken.
    units : tuple of Statement
        Statements in a unit that nothing made.
    rows : tuple of int or None
        (W,) how many rows it comes to.
    meant : tuple of bool or None
        (W,) of a wrong count: whether the rows after it fit what is said, or what is made.
    left : tuple of int or None
        (W,) stitches below that its last row leaves unworked, as it says.
    pairs : tuple of (int, int) or None
        (W,) of a row that is shaped twice: stitches before the first and behind the last shaping.
    """

    course: Course
    section: str
    label: str
    place: Span
    read: bool
    reading: str | None
    side: str | None
    worked: PerSize
    stated: PerSize | None
    absent: tuple[str, ...]
    counts: tuple[CountLine, ...]
    troubles: tuple[Trouble | None, ...] = ()
    doubts: tuple[Trouble, ...] = ()
    open: tuple[Either, ...] = ()
    taken: tuple[tuple[Either, str], ...] = ()
    units: tuple[Statement, ...] = ()
    rows: PerSize = ()
    meant: tuple[bool | None, ...] = ()
    left: PerSize = ()
    pairs: tuple[Pair | None, ...] = ()

    def at(self, place: Span) -> Span:
        """Give a place of the instruction, told from where it begins, as one in the text."""
        return self.course.at(place)


@dataclass(frozen=True, slots=True)
class Shape:
    """Outline of a piece in one size, in stitches and rows, before seaming.

    Attributes
    ----------
    round : bool
        Worked round: the widths are circumferences.
    left, right : tuple of float
        (R,) where each row begins and ends, in stitches from the left end of the first row as
        seen from the RS; right - left is the row's stitch count.
    flat : bool
        A round piece that lies flat from its centre (rows are rings) rather than a tube or cup.
    """

    round: bool
    left: tuple[float, ...]
    right: tuple[float, ...]
    flat: bool = False


@dataclass(frozen=True, slots=True)
class PieceShape:
    """A piece and its outline in every worked size.

    Attributes
    ----------
    name : str
        Heading of the section that begins it, verbatim; `title` without "(make 2)".
    shapes : tuple of Shape or None
        (W,) None where it is not made or not known.
    """

    name: str
    title: str
    shapes: tuple[Shape | None, ...]


@dataclass(frozen=True, slots=True)
class Assumed:
    """A turning chain whose counting nobody said, and how it was taken in a piece."""

    section: str
    place: Span
    switch: Switch
    counts: Counts
    by_count: bool  # the stated counts decided; else common practice did


@dataclass(frozen=True, slots=True)
class Proof:
    """Everything the fabric tells.

    Attributes
    ----------
    sizes : tuple of str
        (W,) names of the worked sizes.
    courses : tuple of WorkedCourse
        In the order of the text.
    pieces : tuple of PieceShape
        In the order of the text; pieces that only edge another (picked up from its edges) have
        no shape of their own and are left out.
    used : frozenset of str
        Stitch names that were made.
    assumed : tuple of Assumed
        Turning chains whose counting the author does not say.
    """

    sizes: tuple[str, ...]
    courses: tuple[WorkedCourse, ...]
    pieces: tuple[PieceShape, ...]
    used: frozenset[str]
    assumed: tuple[Assumed, ...] = ()
