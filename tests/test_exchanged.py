"""Sentences exchanged for others that say the same: the counts of the pattern stay as they are."""

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from tests.mini_patterns import Object, Pattern, compare, errors, pattern_of, proof, shown

EXCHANGED = Path(__file__).parent / "exchanged"


@dataclass(frozen=True, slots=True)
class Wording:
    """A pattern in one choice of words, and the name of that choice."""

    name: str
    text: str
    counts: str


def _base(base: Object, name: str, choice: dict[str, str]) -> Wording:
    text = base["text"].strip("\n") + "\n"
    for slot, words in choice.items():
        text = text.replace(f"{{{slot}}}", words)
    return Wording(name, text, base["counts"])


@cache
def wordings() -> tuple[Wording, ...]:
    """Give every pattern in every choice of words, in the order of files and of their text.

    The nth choice takes the nth wording of every place; where a place has fewer, it begins again.
    A wording that is not read yet stands apart, each in a choice of its own.
    """
    found: list[Wording] = []
    for path in sorted(EXCHANGED.glob("*.toml")):
        for base in tomllib.loads(path.read_text("utf-8"))["pattern"]:
            slots: dict[str, list[str]] = base["words"]
            for i in range(max(map(len, slots.values()))):
                choice = {slot: words[i % len(words)] for slot, words in slots.items()}
                found.append(_base(base, f"{base['name']}-{i + 1}", choice))
            first = {slot: words[0] for slot, words in slots.items()}
            for slot, later in base.get("later", {}).items():
                for i, words in enumerate(later, 1):
                    name = f"{base['name']}-{slot}-later-{i}"
                    found.append(_base(base, name, {**first, slot: words}))
    return tuple(found)


def faults(wording: Wording) -> list[str]:
    """Say what comes to another count, raises an error, or is not read."""
    pattern: Pattern = pattern_of(wording.name, wording.text, wording.counts)
    made = proof(wording.text, f"{wording.name}.md")
    unread = [
        f"`{course['label']}` is not read whole"
        for section in made["sections"]
        for course in section["courses"]
        if not course["read"]
    ]
    counts = [one for one in compare(pattern, made) if " line `" not in one]
    return counts + unread + [shown(finding) for finding in errors(made)]


@pytest.mark.parametrize("wording", wordings(), ids=lambda wording: wording.name)
def test_a_sentence_in_other_words_comes_to_the_same(wording: Wording) -> None:
    wrong = faults(wording)
    assert not wrong, "\n".join([wording.name, *wrong])


def test_the_figures_of_all_wordings(capsys: pytest.CaptureFixture[str]) -> None:
    slots = [
        (len(words), len(base.get("later", {}).get(slot, ())))
        for path in sorted(EXCHANGED.glob("*.toml"))
        for base in tomllib.loads(path.read_text("utf-8"))["pattern"]
        for slot, words in base["words"].items()
    ]
    right, later = (sum(column) for column in zip(*slots, strict=True))
    with capsys.disabled():
        print(  # noqa: T201 - the figures are what this test is for
            f"\n{right + later} wordings of {len(slots)} sentences: {later} are not read yet"
        )
    assert later <= 0.06 * (right + later)
