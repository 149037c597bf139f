"""Puts pieces together as plainly as they are worked: what is sewn, and what stays open.

Two copies of a piece are sewn at the shoulders, from each outer edge of the last row, and at the
sides, from the hem up. A neck edging goes from one shoulder seam along the open stitches of one
copy, over the other seam and along those of the other copy; an armhole edging goes from the side
seam up the open row ends, over the shoulder seam and down again.
"""

from dataclasses import dataclass, field

from stitchproof.language.tree import (
    Course,
    JoinYarn,
    SeamPlace,
    SeamSides,
    SeamTops,
    Section,
)
from tests.second_opinion.loops import Fabric, Loop, counts, plain_kind
from tests.second_opinion.plain_worker import PieceMaker


@dataclass
class Garment:
    """A garment in one size: its finished pieces, and how far the last of them is sewn."""

    pieces: list[PieceMaker] = field(default_factory=list)
    tops: int = 0  # stitches sewn from each outer edge
    sides: int = 0  # rows sewn from the hem

    def work(self, sections: list[Section], maker: PieceMaker) -> None:
        """Work or sew a piece."""
        courses = [course for section in sections for course in section.courses]
        sewn = [self.sew(course, maker) for course in courses]
        if any(sewn):
            return
        edging = self.join(courses[0], maker) if courses else None
        if edging is not None:
            maker.fabric = Fabric(edging, ring=True)
        for section in sections:
            maker.work(section)
        if edging is None:
            self.pieces.append(maker)

    def sew(self, course: Course, maker: PieceMaker) -> bool:
        """Sew what a line says; False when it says nothing of sewing."""
        if not isinstance(course.does, tuple):
            return False
        sewn = False
        for step in course.does:
            if isinstance(step, SeamTops) and step.count is not None:
                self.tops = maker.value(step.count)
                assert step.open is not None
                last = self.pieces[-1].fabric
                assert last is not None
                assert sum(map(counts, last.loops)) == 2 * self.tops + maker.value(step.open)
                sewn = True
            elif isinstance(step, SeamSides):
                if not step.whole:
                    assert step.rows is not None
                    self.sides = maker.value(step.rows)
                sewn = True
            elif isinstance(step, SeamTops):
                sewn = True
        return sewn

    def join(self, course: Course, maker: PieceMaker) -> list[Loop] | None:
        """Lay out the edge of a round that is joined at a seam; None for any other line."""
        del maker
        steps = course.does if isinstance(course.does, tuple) else ()
        for step in steps:
            if isinstance(step, JoinYarn) and isinstance(step.at, SeamPlace):
                return self.neck() if step.at.which == "shoulder" else self.armhole()
        return None

    def neck(self) -> list[Loop]:
        """Seam, open stitches of one copy, seam, open stitches of the other."""
        last = self.pieces[-1].fabric
        assert last is not None
        kinds = [x.kind for x in last.loops if counts(x)]
        edge: list[Loop] = []
        for _ in range(2):
            edge.append(Loop("seam", "seam"))
            edge += [Loop(kind, "stitch") for kind in kinds[self.tops : len(kinds) - self.tops]]
        return edge

    def armhole(self) -> list[Loop]:
        """Seam, open row ends going up, shoulder seam, open row ends going down."""
        ends = [
            plain_kind([x for x in row.made if counts(x)][-1].kind)
            for row in self.pieces[-1].rows[self.sides :]
        ]
        up = [Loop(kind, "row end") for kind in ends]
        down = [Loop(kind, "row end") for kind in reversed(ends)]
        return [Loop("seam", "seam"), *up, Loop("seam", "seam"), *down]
