"""Each case file is documentation, test and golden at once: prose, manuscripts, their findings."""

import re
from pathlib import Path

import pytest

from stitchproof.base.diagnostics import Level
from stitchproof.base.place import Lines
from stitchproof.pipeline.press import press
from tests.conftest import Golden
from tests.desks import Paper

CASES = sorted((Path(__file__).parent / "cases").glob("*.md"))
_BLOCK = re.compile(r"^(`{3,})manuscript\n(.*?)^\1$", re.DOTALL | re.MULTILINE)


def report(text: str) -> str:
    """List what is found in a manuscript, each with its line and the exact words."""
    pressed = press(Paper(text), "case.md")
    lines = Lines.of(text)
    out: list[str] = []
    for one in pressed.found:
        code = one.finding.code
        line, column = lines.line_column(one.place.start)
        row = text.splitlines()[line - 1] if text.splitlines() else ""
        width = max(min(one.place.end, one.place.start + len(row) - column + 1), one.place.start)
        out += [
            f"{code.level.value} {code.number} {code.slug}, line {line}: {one.message()}",
            f"  {row}",
            "  " + " " * (column - 1) + "^" * max(width - one.place.start, 1),
        ]
        if one.finding.help():
            out.append(f"  what to do: {one.finding.help()}")
    return "\n".join(out) + "\n"


def manuscripts(path: Path) -> list[str]:
    return [block for _, block in _BLOCK.findall(path.read_text("utf-8"))]


@pytest.mark.parametrize("path", CASES, ids=lambda p: p.stem)
def test_case(path: Path, golden: Golden) -> None:
    golden(f"cases/{path.stem}.txt", "\n".join(report(text) for text in manuscripts(path)))


@pytest.mark.parametrize("path", CASES, ids=lambda p: p.stem)
def test_the_first_manuscript_of_a_case_shows_its_finding_once(path: Path) -> None:
    first = manuscripts(path)[0]
    found = press(Paper(first), "case.md").found
    slugs = [one.finding.code.slug for one in found]
    assert slugs.count(path.stem) == 1
    grave = [one for one in found if one.finding.code.level is Level.ERROR]
    assert len(grave) <= 1
