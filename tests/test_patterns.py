"""Every small pattern is correct: no error, and every count as a maker has it."""

import pytest

from tests.mini_patterns import Pattern, compare, errors, patterns, proof, shown


@pytest.mark.parametrize("pattern", patterns(), ids=lambda p: f"{p.topic}-{p.name}")
def test_a_correct_pattern_has_its_counts_and_no_error(pattern: Pattern) -> None:
    made = proof(pattern.text, f"{pattern.name}.md")
    wrong = compare(pattern, made) + [shown(finding) for finding in errors(made)]
    assert not wrong, "\n".join([pattern.name, *wrong])


def test_the_figures_of_all_patterns(capsys: pytest.CaptureFixture[str]) -> None:
    rows = read = whole = clean = alarms = warnings = core = core_clean = 0
    for pattern in patterns():
        made = proof(pattern.text, f"{pattern.name}.md")
        courses = [course for section in made["sections"] for course in section["courses"]]
        rows += len(courses)
        read += sum(course["read"] for course in courses)
        found = errors(made)
        alarms += len(found)
        warnings += sum(f["level"] == "warning" for f in made["findings"])
        whole += not found
        right = not found and not compare(pattern, made)
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
