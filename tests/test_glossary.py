"""Lists of abbreviations in every form that designers write.

The forms are common practice, no source.
"""

import pytest

from stitchproof.checks.glossary import key_of, listed
from stitchproof.language.read.manuscript import read_manuscript

ROWS = "\n\n## Cloth\n\nCh 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. 10 sc\n"

LISTS: tuple[tuple[str, list[str]], ...] = (
    ("## Abbreviations\n\nch = chain\nsc = single crochet", ["ch", "sc"]),
    ("## Abbreviations\n\n- ch: chain\n- sc: single crochet", ["ch", "sc"]),
    ("## Abbreviations (US terms)\n\n**ch** – chain\n**sc** – single crochet", ["ch", "sc"]),
    ("Abbreviations: ch = chain; sc = single crochet.", ["ch", "sc"]),
    ("Abbreviations used: ch - chain, sc - single crochet", ["ch", "sc"]),
    ("**Abbreviations**\nch (chain), sc (single crochet)", ["ch", "sc"]),
    ("ABBREVIATIONS\n\nch – chain • sc – single crochet", ["ch", "sc"]),
    ("## Glossary\n\n| ch | chain |\n|---|---|\n| sc | single crochet |", ["ch", "sc"]),
    (
        """## Abbreviations

| Term | Meaning | Term | Meaning |
|---|---|---|---|
| ch | chain | sc | single crochet |""",
        ["ch", "sc"],
    ),
    ("## Abbreviations\n\nst(s) = stitch(es)\nsl st/ss = slip stitch", ["st", "sl st", "ss"]),
    ("## Abbreviations\n\nch = chain\n\nMaterials\n\nYarn: wool", ["ch"]),
    ("## Abbreviations\n\nch = chain\n\n## Materials\n\nYarn: wool", ["ch"]),
    ("## Materials\n\nYarn: wool", []),
)


@pytest.mark.parametrize(("text", "names"), LISTS)
def test_names_of_a_list(text: str, names: list[str]) -> None:
    manuscript, _ = read_manuscript(text + ROWS, "list.md")
    found = [name for entry in listed(manuscript) for name in entry.names]
    assert found == names


@pytest.mark.parametrize(("text", "names"), LISTS)
def test_entries_stand_where_they_are_written(text: str, names: list[str]) -> None:
    manuscript, _ = read_manuscript(text + ROWS, "list.md")
    for entry in listed(manuscript):
        words = manuscript.text[entry.place.start : entry.place.end]
        assert entry.names[0] in words
        assert entry.meaning in words
    assert len(names) == sum(len(entry.names) for entry in listed(manuscript))


def test_spellings_that_are_one_name() -> None:
    assert key_of("Sl st") == key_of("sl-st") == key_of("slst") == key_of("sl. sts")
    assert key_of("WS") != key_of("W")
    assert key_of("ss") == "ss"
