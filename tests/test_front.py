"""Front matter: values, places, and what is said when it is broken."""

from decimal import Decimal

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from stitchproof.language.manuscript import FrontMatter
from stitchproof.language.read.front import (
    FrontMatterSyntax,
    FrontMatterUnclosed,
    declared_names,
    read_front,
)

TEXT = """+++
title = "Dünen" # a comment
yarn.main = { ball = { mass = "50 g" }, "né e" = 1 }

[sizes]
body = "women"
make = [
  "S", # small
  "M",
]
[measures]
panel = "14 cm"
[counts]
panel_sts = { measure = "panel", multiple = 2.5 }
[finished]
bust = "2 * panel"
[[accepted]]
at = "Front"
[[accepted]]
at = "Back"
[accepted.more]
why = "so"
+++
# Dünen
"""


def words(text: str, front: FrontMatter, *path: str | int) -> str:
    span = front.places[path]
    return text[span.start : span.end]


def test_values_and_places() -> None:
    front, body, found = read_front(TEXT, "tee.md")
    assert front is not None
    assert found == []
    assert TEXT[body:] == "# Dünen\n"
    assert front.table["counts"] == {"panel_sts": {"measure": "panel", "multiple": Decimal("2.5")}}
    assert words(TEXT, front, "title") == '"Dünen"'
    assert words(TEXT, front, "title", "") == "title"
    assert words(TEXT, front, "yarn", "main", "ball", "mass") == '"50 g"'
    assert words(TEXT, front, "yarn", "main", "né e") == "1"
    assert words(TEXT, front, "sizes", "make", 1) == '"M"'
    assert words(TEXT, front, "counts", "panel_sts", "multiple") == "2.5"
    assert words(TEXT, front, "accepted", 0, "at") == '"Front"'
    assert words(TEXT, front, "accepted", 1, "at") == '"Back"'
    assert words(TEXT, front, "accepted", 1, "more", "why") == '"so"'
    assert words(TEXT, front, "measures") == '[measures]\npanel = "14 cm"'
    assert front.at("counts", "panel_sts", "nothing") == front.places["counts", "panel_sts"]


def test_declared_names() -> None:
    front, _, _ = read_front(TEXT, "tee.md")
    names = declared_names(front)
    assert {"panel", "panel_sts", "finished.bust", "body.chest"} <= names
    assert "bust" not in names
    assert declared_names(None) == frozenset()
    bare, _, _ = read_front("+++\n+++\n", "tee.md")
    assert declared_names(bare)


@pytest.mark.parametrize("end", ["\r\n", "\r"])
def test_line_ends(end: str) -> None:
    text = TEXT.replace("\n", end)
    front, body, found = read_front(text, "tee.md")
    assert front is not None
    assert found == []
    assert text[body:] == f"# Dünen{end}"
    assert words(text, front, "sizes", "make", 1) == '"M"'
    assert words(text, front, "finished", "bust") == '"2 * panel"'


def test_byte_order_mark() -> None:
    front, body, found = read_front("\ufeff" + TEXT, "tee.md")
    assert front is not None
    assert found == []
    assert ("\ufeff" + TEXT)[body:] == "# Dünen\n"
    assert read_front("\ufeffCh 4.", "tee.md")[:2] == (None, 1)


def test_no_front_matter() -> None:
    assert read_front("# Tee\n\n+++\n", "tee.md") == (None, 0, [])
    assert read_front("", "tee.md") == (None, 0, [])


def test_a_line_that_is_no_toml_is_left_out() -> None:
    above = '+++\ntitle = "Tee"\nlevel = easy\nterms = "US"\n'
    text = above + '[counts]\na = { formula = "1 }\nb = 2\n+++\nCh 4.\n'
    front, body, found = read_front(text, "tee.md")
    assert front is not None
    assert front.table == {"title": "Tee", "terms": "US", "counts": {"b": 2}}
    assert text[body:] == "Ch 4.\n"
    first, second = found
    assert isinstance(first.finding, FrontMatterSyntax)
    assert (first.finding.line, first.finding.column) == (3, 9)
    assert text[first.place.start : first.place.end] == "e"
    assert isinstance(second.finding, FrontMatterSyntax)
    assert second.finding.line == 6
    assert {"a", "b"} <= declared_names(front)


def test_a_broken_header_leaves_no_values() -> None:
    front, _, found = read_front("+++\n[counts\na = 1\n+++\n", "tee.md")
    assert front is not None
    assert front.table == {}
    assert len(found) == 1


def test_unclosed_front_matter_ends_where_the_words_begin() -> None:
    text = '+++\ntitle = "Tee"\n\n[counts]\nrows = 4\n\n# Tee\n\nRow 1: Ch 4.\n'
    front, body, found = read_front(text, "tee.md")
    assert front is not None
    assert front.table == {"title": "Tee", "counts": {"rows": 4}}
    assert text[body:] == "\n# Tee\n\nRow 1: Ch 4.\n"
    (unclosed,) = found
    assert isinstance(unclosed.finding, FrontMatterUnclosed)
    assert unclosed.finding.ends_before == 5
    assert text[unclosed.place.start : unclosed.place.end] == "+++"


def test_unclosed_and_nothing_else() -> None:
    front, body, found = read_front("+++\nRow 1: Ch 4.\n", "tee.md")
    assert (front, body) == (None, 0)
    assert isinstance(found[0].finding, FrontMatterUnclosed)
    assert read_front("+++", "tee.md")[1] == 0


@pytest.mark.parametrize(
    "toml",
    [
        "a = " + "[" * 5000,
        "a = " + "9" * 5000,
        "a = 1e999999999",
        "a = nan",
        "a." * 30000 + "b = 1",
        "[" + "a." * 30000 + "b]",
        "a = {" * 3000,
        'a = """' + "x\n" * 5000,
        "\n".join(f"k{i} = {i}" for i in range(20000)),
        "\n".join("= 3" for _ in range(20000)),
    ],
)
def test_hostile_front_matter(toml: str) -> None:
    text = f"+++\n{toml}\n+++\nCh 4.\n"
    _, body, _ = read_front(text, "tee.md")
    assert text[body:] == "Ch 4.\n"
    read_front(f"+++\n{toml}\nCh 4.\n", "tee.md")


@given(st.text(alphabet="+=\n\r[]{}\"'.#, aé1\ufeff", max_size=80))
@example("\r+++")
def test_reading_never_raises_and_loses_nothing(middle: str) -> None:
    text = f"+++\n{middle}\n+++\nCh 4.\n"
    front, body, found = read_front(text, "tee.md")
    assert front is not None or found
    assert 0 <= body <= len(text)
    for one in found:
        assert 0 <= one.place.start <= one.place.end <= len(text)
    read_front(f"+++\n{middle}", "tee.md")
