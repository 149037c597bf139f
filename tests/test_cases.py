"""Each case file is documentation, test and golden at once: prose, manuscripts, their findings."""

import re
from pathlib import Path
from typing import TypeAlias

import pytest

from stitchproof.base.diagnostics import Diagnostic, Level
from stitchproof.base.place import Lines
from stitchproof.language.write.courses import write_course
from stitchproof.language.write.wording import Wording
from stitchproof.pipeline.desk import Unusable
from stitchproof.pipeline.press import press
from stitchproof.pipeline.reword import reword
from stitchproof.trade.tables import Terms
from tests.conftest import Golden
from tests.desks import Paper

CASES = sorted((Path(__file__).parent / "cases").glob("*.md"))
# A manuscript is pressed; "manuscript reword UK" is put into those terms instead, and "manuscript
# written UK" written anew in them. Files that cannot be used: "absent" is not there, "latin-1" is
# saved in that encoding, in "byte" a bracket stands for a byte that is no text; of the last, sizes
# are asked for that it has not.
_BLOCK = re.compile(
    r"^(`{3,})manuscript( reword| written| absent| latin-1| byte| asked)?( US| UK| Q)?\n(.*?)^\1$",
    re.DOTALL | re.MULTILINE,
)
SYSTEMS: dict[str, Terms] = {"": "US", "US": "US", "UK": "UK"}
Case: TypeAlias = tuple[str, str, str]  # what is done, in which terms, the manuscript


def found_in(case: Case) -> tuple[Diagnostic, ...]:
    """Find what a case is to show."""
    what, system, text = case
    if what == "asked":
        with pytest.raises(Unusable) as told:
            press(Paper(text), "case.md", (system,))
        return (told.value.found,)
    terms = SYSTEMS[system]
    if what == "reword":
        return reword(text, "case.md", terms).found
    if what in {"absent", "latin-1", "byte"}:
        return (unusable(what, text),)
    pressed = press(Paper(text), "case.md")
    if what == "written":
        wording = Wording(terms=terms)
        return tuple(
            one for c in pressed.proof.courses for one in write_course(c.course, wording)[1]
        )
    return pressed.found


def unusable(what: str, text: str) -> Diagnostic:
    """Give why a file cannot be used."""
    raw = text.encode("latin-1") if what == "latin-1" else text.encode().replace(b"[", b"\xff")
    with pytest.raises(Unusable) as told:
        press(Paper(raw), "case.csv" if what == "absent" else "case.md")
    return told.value.found


def report(case: Case) -> str:
    """List what is found in a manuscript, each with its line and the exact words."""
    text = case[-1]
    lines = Lines.of(text)
    out: list[str] = []
    for one in found_in(case):
        code = one.finding.code
        line, column = lines.line_column(one.place.start)
        row = text.splitlines()[line - 1] if text.splitlines() else ""
        width = max(min(one.place.end, one.place.start + len(row) - column + 1), one.place.start)
        out += [
            f"{code.level.value} {code.number} {code.slug}, line {line}: {one.message()}",
            f"  {row}",
            "  " + " " * (column - 1) + "^" * max(width - one.place.start, 1),
        ]
        if one.help():
            out.append(f"  what to do: {one.help()}")
    return "\n".join(out) + "\n"


def manuscripts(path: Path) -> list[Case]:
    found = _BLOCK.findall(path.read_text("utf-8"))
    return [(what.strip(), terms.strip(), text) for _, what, terms, text in found]


@pytest.mark.parametrize("path", CASES, ids=lambda p: p.stem)
def test_case(path: Path, golden: Golden) -> None:
    golden(f"cases/{path.stem}.txt", "\n".join(report(case) for case in manuscripts(path)))


@pytest.mark.parametrize("path", CASES, ids=lambda p: p.stem)
def test_the_first_manuscript_of_a_case_shows_its_finding_once(path: Path) -> None:
    first = manuscripts(path)[0]
    found = found_in(first)
    slugs = [one.finding.code.slug for one in found]
    assert slugs.count(path.stem) == 1
    grave = [one for one in found if one.finding.code.level is Level.ERROR]
    assert len(grave) <= 1
