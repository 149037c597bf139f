"""Rules of the house that no linter checks."""

import ast
import importlib
import pkgutil
import re
import subprocess
import sys
from pathlib import Path

import pytest

import stitchproof
from stitchproof.base.diagnostics import Code

ROOT = Path(__file__).parents[1]
MODULES = sorted((ROOT / "src").rglob("*.py"))
DOCS = (ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md")))
HEAVY = ("typst", "numpy", "tree_sitter", "tree_sitter_toml", "markdown_it")
# The number of a code begins with the letter and the digit of its layer.
LETTERS = {
    "language": "L1",
    "sizing": "S2",
    "fabric": "F3",
    "checks": "C4",
    "edition": "E5",
    "trade": "T6",
}
README_TEST = "pip install -e '.[dev]' && just check"


def name(path: Path) -> str:
    return str(path.relative_to(ROOT))


@pytest.mark.parametrize("path", MODULES, ids=name)
def test_no_module_is_longer_than_400_lines(path: Path) -> None:
    lines = len(path.read_text("utf-8").splitlines())
    assert lines <= 400


@pytest.mark.parametrize("path", [p for p in MODULES if p.name == "__init__.py"], ids=name)
def test_packages_hold_a_docstring_and_no_code(path: Path) -> None:
    body = ast.parse(path.read_text("utf-8")).body
    assert len(body) == 1
    assert isinstance(body[0], ast.Expr)


def test_the_command_line_starts_without_the_heavy_libraries() -> None:
    code = f"import sys, stitchproof.cli; print([m for m in {HEAVY!r} if m in sys.modules])"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.strip() == "[]"


# --------------------------------------------------------------------------- codes


def codes() -> list[tuple[str, Code]]:
    """Every code with the layer of the module that defines it."""
    found: dict[type, str] = {}
    for module in pkgutil.walk_packages(stitchproof.__path__, "stitchproof."):
        for cls in vars(importlib.import_module(module.name)).values():
            if isinstance(cls, type) and isinstance(vars(cls).get("code"), Code):
                found[cls] = cls.__module__.split(".")[1]
    return [(layer, vars(cls)["code"]) for cls, layer in found.items()]


def test_codes_are_unique_and_each_has_a_case_file() -> None:
    found = [code for _, code in codes()]
    assert len({c.number for c in found}) == len({c.slug for c in found}) == len(found) > 0
    assert {c.slug for c in found} == {p.stem for p in (ROOT / "tests/cases").glob("*.md")}


def test_codes_are_numbered_by_their_layer() -> None:
    for layer, code in codes():
        assert re.fullmatch(rf"{LETTERS.get(layer, 'no letter for ' + layer)}\d\d", code.number), (
            code
        )
        assert re.fullmatch(r"[a-z]+(-[a-z]+)*", code.slug), code


# --------------------------------------------------------------------------- documents


@pytest.mark.parametrize("path", DOCS, ids=name)
def test_paths_named_in_documents_exist(path: Path) -> None:
    text = path.read_text("utf-8")
    outside_fences = re.sub(r"^```.*?^```", "", text, flags=re.DOTALL | re.MULTILINE)
    named = re.findall(r"`((?:\.ci|src|tests|docs|examples|bench)/[\w./-]*)`", outside_fences)
    named += re.findall(r"`([\w.-]+\.(?:md|toml|txt)|justfile|LICENSE)`", outside_fences)
    missing = [one for one in named if not (ROOT / one).exists()]
    linked = re.findall(r"\]\(([^)#:\s]+)(?:#[^)]*)?\)", outside_fences)
    missing += [one for one in linked if not (path.parent / one).exists()]
    assert missing == []
    if path.parent.name == "docs":
        assert named


@pytest.mark.parametrize("path", sorted((ROOT / "docs").glob("add-a-*.md")), ids=name)
def test_recipes_stay_short(path: Path) -> None:
    assert len(path.read_text("utf-8").splitlines()) <= 15


def test_ci_runs_what_the_readme_says() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    assert README_TEST in readme
    assert README_TEST in (ROOT / ".ci/run").read_text("utf-8")


def test_pinned_requirements_are_those_of_the_project() -> None:
    project = (ROOT / "pyproject.toml").read_text("utf-8")
    pinned = (ROOT / "requirements-dev.txt").read_text("utf-8")
    wanted = re.findall(r'^  "([\w-]+==[\w.]+)",$', project, re.MULTILINE)
    assert wanted
    for one in wanted:
        assert re.search(rf"^{re.escape(one)} \\$", pinned, re.MULTILINE), one
    assert "://" not in pinned
