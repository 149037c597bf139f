"""The plain worker and the fabric agree on every stitch."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stitchproof.fabric.conventions import Conventions
from stitchproof.fabric.laid import LaidPiece, LaidRow, lay_down
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.language.tree import Section
from stitchproof.sizing.size import size_manuscript
from tests.second_opinion.garment import Garment
from tests.second_opinion.loops import Loop, MadeRow, NotMine
from tests.second_opinion.plain_worker import PieceMaker
from tests.second_opinion.programs import Designer, Program, damaged

ROLES = {
    "stitch": "S",
    "slip": "L",
    "chain": "C",
    "foundation": "F",
    "counted chain": "K",
    "uncounted chain": "T",
    "row end": "E",
    "seam": "M",
}
Flat = list[tuple[str, str, int]]

BOUNDED = settings(
    deadline=None,
    derandomize=True,
    max_examples=200,
    suppress_health_check=list(HealthCheck),
    database=None,
)


def flat_plain(row: MadeRow) -> Flat:
    """Kind, role and place of every stitch the plain worker made."""
    out: Flat = []
    for loop in row.made:
        place = loop.over or (loop.into[0] if loop.into else None)
        index = -1 if place is None else index_of(row.into, place)
        out.append((loop.kind, ROLES[loop.role], index))
    return out


def index_of(row: list[Loop], loop: Loop) -> int:
    """Where a stitch stands in a row."""
    return next(i for i, x in enumerate(row) if x is loop)


def flat_fabric(row: LaidRow) -> Flat:
    """Kind, role and place of every stitch the fabric made."""
    return list(zip(row.kinds, row.roles, row.places, strict=True))


def plain_work(program: Program, size: int, taken: Conventions | None = None) -> PieceMaker:
    """Work a program in one size with the plain worker, what is left open set as told."""
    taken = taken or Conventions()
    maker = PieceMaker(
        program.resolved, size, program.rules, chains_too=taken.chains, taken=taken.taken
    )
    maker.work(program.section)
    return maker


def groups(sections: tuple[Section, ...]) -> list[list[Section]]:
    """The sections of each piece: a heading of the second level begins one."""
    out: list[list[Section]] = []
    for section in sections:
        if section.level <= 2 or not out:
            out.append([])
        out[-1].append(section)
    return out


def wrong_line(maker: PieceMaker) -> int | None:
    """Index of the line at which the plain worker stopped."""
    last = maker.rows[-1] if maker.rows else None
    return last.course if last is not None and last.trouble else None


def agree(piece: LaidPiece, size: int, maker: PieceMaker) -> None:
    """Compare both workings of a piece in one size, up to the first mistake."""
    wrong = wrong_line(maker)
    assert piece.wrong[size] == wrong, maker.rows[-1].trouble if maker.rows else ""
    mine = [r for r in maker.rows if r.trouble in ("", "count")]
    theirs = [r for r in piece.rows[size] if r.into or r.roles.strip("F")]
    for k, row in enumerate(mine):
        if row.scheduled:
            assert theirs[k].course == row.course
            if mine[k + 1 : k + 2] and mine[k + 1].course == row.course:
                continue  # only the last row of a schedule is laid down
            assert theirs[k].kinds == tuple(x.kind for x in row.made)
            continue
        assert flat_fabric(theirs[k]) == flat_plain(row), (row.number, row.course)
        assert theirs[k].into == tuple(x.kind for x in row.into)
        assert theirs[k].course == row.course
    if wrong is None:
        assert len(theirs) == len(mine)


@BOUNDED
@given(st.data())
def test_workable_programs(data: st.DataObject) -> None:
    program = Designer(lambda n: data.draw(st.integers(0, n - 1))).design()
    (piece,) = lay_down(program.manuscript, program.resolved)
    for size in range(len(program.resolved.sizes)):
        maker = plain_work(program, size)
        assert wrong_line(maker) is None
        agree(piece, size, maker)


@BOUNDED
@given(st.data())
def test_damaged_programs(data: st.DataObject) -> None:
    def roll(n: int) -> int:
        return data.draw(st.integers(0, n - 1))

    whole = Designer(roll, stated_openwork=False, unsaid=False).design()
    program = damaged(whole, roll)
    (piece,) = lay_down(program.manuscript, program.resolved)
    for size in range(len(program.resolved.sizes)):
        try:
            maker = plain_work(program, size, piece.conventions)
        except NotMine:
            continue
        agree(piece, size, maker)
    if piece.conventions.taken or piece.conventions.chains:
        # what is left open is set otherwise only where something is wrong without it
        assert any(
            wrong_line(plain_work(program, size)) is not None
            for size in range(len(program.resolved.sizes))
        )


EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.md"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_examples(path: Path) -> None:
    manuscript, _ = read_manuscript(path.read_text("utf-8"), path.name)
    sizing, _ = size_manuscript(manuscript, str, None)
    pieces = lay_down(manuscript, sizing.resolved)
    worked = groups(manuscript.sections)
    assert len(worked) == len(pieces)
    for size in range(len(sizing.resolved.names)):
        garment = Garment()
        for group, piece in zip(worked, pieces, strict=True):
            maker = PieceMaker(sizing.resolved, size, manuscript.rules)
            garment.work(group, maker)
            assert wrong_line(maker) is None
            agree(piece, size, maker)
        assert garment.pieces
