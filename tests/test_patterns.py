"""Every small pattern is correct: no error, and every count as a maker has it."""

from dataclasses import dataclass
from functools import cache

import pytest

from tests.mini_patterns import Pattern, compare, errors, patterns, proof, shown


@dataclass(frozen=True, slots=True)
class Result:
    """What the program makes of a pattern: its lines, those read whole, and what is wrong."""

    lines: int
    read: int
    errors: tuple[str, ...]
    warnings: int
    counts: tuple[str, ...]


@cache
def result(pattern: Pattern) -> Result:
    """Prove a pattern, once in each process."""
    made = proof(pattern.text, f"{pattern.name}.md")
    courses = [course for section in made["sections"] for course in section["courses"]]
    return Result(
        lines=len(courses),
        read=sum(course["read"] for course in courses),
        errors=tuple(shown(finding) for finding in errors(made)),
        warnings=sum(finding["level"] == "warning" for finding in made["findings"]),
        counts=tuple(compare(pattern, made)),
    )


@pytest.mark.parametrize("pattern", patterns(), ids=lambda p: f"{p.topic}-{p.name}")
def test_a_correct_pattern_has_its_counts_and_no_error(pattern: Pattern) -> None:
    made = result(pattern)
    wrong = made.counts + made.errors
    assert not wrong, "\n".join([pattern.name, *wrong])


def test_the_figures_of_all_patterns(capsys: pytest.CaptureFixture[str]) -> None:
    rows = read = whole = clean = alarms = warnings = core = core_clean = 0
    for pattern in patterns():
        made = result(pattern)
        rows += made.lines
        read += made.read
        alarms += len(made.errors)
        warnings += made.warnings
        whole += not made.errors
        right = not made.errors and not made.counts
        clean += right
        core += not pattern.wide
        core_clean += right and not pattern.wide
    with capsys.disabled():
        print(  # noqa: T201 - the figures are what this test is for
            f"\n{len(patterns())} patterns: {read} of {rows} lines read whole; {whole} without an"
            f" error; {clean} with every count right too ({core_clean} of {core} of the plain"
            f" forms); {alarms} errors and {warnings} warnings on {rows} correct lines"
        )
    assert read >= 0.95 * rows
    assert whole >= 0.95 * len(patterns())
    assert clean >= 0.9 * len(patterns())
    assert alarms <= 0.01 * rows
