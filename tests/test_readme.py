"""The README's claims, by the command a reader would type."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
MAIN = "import sys; from stitchproof.cli import main; sys.exit(main())"


def stitchproof(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", MAIN, *arguments],
        capture_output=True,
        check=False,
        cwd=folder,
        encoding="utf-8",
        timeout=120,
    )


@pytest.fixture
def vest(tmp_path: Path) -> Path:
    """Save the manuscript that the README shows."""
    readme = (ROOT / "README.md").read_text("utf-8")
    (text,) = re.findall(r"^```\n(\+\+\+\n.*?)^```$", readme, re.DOTALL | re.MULTILINE)
    path = tmp_path / "vest.md"
    path.write_text(text, "utf-8")
    return path


def test_the_manuscript_of_the_readme_is_proved(vest: Path) -> None:
    ran = stitchproof(vest.parent, "proof", vest.name)
    assert (ran.returncode, ran.stderr) == (0, "")


def test_its_counts_are_those_the_readme_prints(vest: Path) -> None:
    # By hand: (83.5, 94, 104 cm + 10 cm) / 2 at 14 sts to 10 cm is 65.45, 72.8, 79.8 sts.
    ran = stitchproof(vest.parent, "grade", vest.name)
    assert ran.returncode == 0
    assert re.search(r"\b66\b.*\b72\b.*\b80\b", ran.stdout)
    assert "67 (73, 81)" in (ROOT / "README.md").read_text("utf-8")


def test_a_wrong_count_is_told_with_both_numbers(vest: Path) -> None:
    text = vest.read_text("utf-8")
    wrong = text.replace("across, turn. {back_sts} sts", "across, turn. {back_sts + 1} sts")
    assert wrong != text
    vest.write_text(wrong, "utf-8")
    ran = stitchproof(vest.parent, "proof", vest.name)
    assert ran.returncode == 1
    assert "Row 2" in ran.stdout
    assert "66 (72, 80)" in ran.stdout
    assert "67 (73, 81)" in ran.stdout


def test_a_file_that_is_not_there_ends_with_2(tmp_path: Path) -> None:
    ran = stitchproof(tmp_path, "proof", "nowhere.md")
    assert ran.returncode == 2
    assert "nowhere.md" in ran.stderr
    assert "Traceback" not in ran.stderr


@pytest.mark.slow
def test_publishing_the_example_writes_every_edition(tmp_path: Path) -> None:
    shutil.copy(ROOT / "examples/marram-tee.md", tmp_path)
    ran = stitchproof(tmp_path, "publish", "marram-tee.md")
    assert ran.returncode == 0, ran.stdout + ran.stderr
    for kind in ("*.pdf", "*.html", "*.txt"):
        made = list(tmp_path.rglob(kind))
        assert made
        for one in made:
            assert one.stat().st_size > 1000
            assert one.name in ran.stdout
