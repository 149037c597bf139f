"""Single rows as designers write them: each is read whole and gives the count a maker has."""

import json
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from tests.mini_patterns import Object, errors, proof, shown

ROWS = Path(__file__).parent / "rows"


@dataclass(frozen=True, slots=True)
class Single:
    """A row, what lies below it, and the stitches after it; none where a count tells nothing."""

    name: str
    below: str
    row: str
    told: tuple[int, ...]


@cache
def singles() -> tuple[Single, ...]:
    """Give every single row, in the order of files and of their text."""
    found: list[Single] = []
    for path in sorted(ROWS.glob("*.toml")):
        table = tomllib.loads(path.read_text("utf-8"))
        if "group" not in table:
            found += _of_group(table, path.stem)
        for number, group in enumerate(table.get("group", ()), 1):
            found += _of_group(group, f"{path.stem}-{number}")
    return tuple(found)


def _of_group(group: Object, name: str) -> Iterator[Single]:
    below = _front(group) + group["below"]
    for number, (row, *told) in enumerate(group["rows"], 1):
        counts = () if told == ["*"] else tuple(told)
        yield Single(f"{name}-{number}", below, row, counts)


def _front(group: Object) -> str:
    """Write the front matter of a group that names its terms."""
    if "terms" not in group:
        return ""
    lines = [f'terms = "{group["terms"]}"']
    if group.get("sizes"):
        lines += ["[sizes]", f"make = {json.dumps(group['sizes'])}"]
    return "\n".join(["+++", *lines, "+++", ""])


@cache
def faults(single: Single) -> tuple[list[str], list[str]]:
    """Say what of a row is not read, and what of it is worked wrongly."""
    made = proof(f"{single.below}{single.row}\n", f"{single.name}.md")
    line = single.below.count("\n") + 1
    courses = [c for s in made["sections"] for c in s["courses"] if c["line"] >= line]
    if not courses:
        return [f"no line is read in `{single.row}`"], []
    unread = [f"`{c['label']}` is not read whole" for c in courses if not c["read"]]
    wrong = [shown(finding) for finding in errors(made)]
    worked = tuple(courses[-1]["worked"])
    if single.told and worked != single.told:
        wrong.append(f"comes to {worked}, not {single.told}")
    return unread, wrong


def lines_below(single: Single) -> Object:
    """Prove what lies below a row alone."""
    return proof(single.below, f"{single.name}.md")


@pytest.mark.parametrize("single", singles(), ids=lambda single: single.name)
def test_a_row_is_read_whole_and_right(single: Single) -> None:
    unread, wrong = faults(single)
    assert not unread + wrong, "\n".join([single.row, *unread, *wrong])


def test_what_lies_below_is_right() -> None:
    for single in {single.below: single for single in singles() if single.below}.values():
        made = lines_below(single)
        assert not errors(made), "\n".join(map(shown, errors(made)))


def test_the_figures_of_all_rows(capsys: pytest.CaptureFixture[str]) -> None:
    results = [faults(single) for single in singles()]
    read = sum(not unread for unread, _ in results)
    right = sum(not unread and not wrong for unread, wrong in results)
    assert len(results) >= 400
    with capsys.disabled():
        print(  # noqa: T201 - the figures are what this test is for
            f"\n{len(results)} single rows: {read} read whole, {right} of them with the count right"
        )
    assert read >= 0.95 * len(results)
    assert right >= 0.93 * len(results)
