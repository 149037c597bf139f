"""Loaders of the tables, and the names and definitions made from them."""

import tomllib
from fractions import Fraction
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchproof.trade import bodies, cautions, ease, hooks, levels, stitches, tables, terms, yarns
from stitchproof.trade.stitches import Named, PostSide, abbreviation, definition, long_name, named
from stitchproof.trade.tables import Terms

BOTH: tuple[Terms, ...] = ("US", "UK")
DATA = sorted(
    one.name.removesuffix(".toml")
    for one in files("stitchproof.trade").joinpath("data").iterdir()
    if one.name.endswith(".toml")
)


def sourced(value: object) -> list[dict[str, object]]:
    """Every table that holds a confidence, at any depth."""
    if isinstance(value, list):
        return [one for item in value for one in sourced(item)]
    if isinstance(value, dict):
        inner = [one for item in value.values() for one in sourced(item)]
        return [value, *inner] if "confidence" in value else inner
    return []


@pytest.mark.parametrize("name", DATA)
def test_every_row_says_where_it_comes_from(name: str) -> None:
    text = files("stitchproof.trade").joinpath("data", f"{name}.toml").read_text("utf-8")
    data = tomllib.loads(text)
    found = sourced(data)
    assert found
    for row in found:
        each = row["confidence"]
        assert set(each if isinstance(each, list) else [each]) <= {"read", "recalled"}
        assert row.get("source") or row.get("cite")
    loose = [
        (key, row)
        for key, rows in data.items()
        if isinstance(rows, list)
        for row in rows
        if "confidence" not in row
    ]
    assert loose == []


# --------------------------------------------------------------------------- stitches


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        # A UK shop's stitch conversions; funcrochetdesigns.com, Crochet Terms by Country;
        # okeydokeys.com, How to Read Crochet Abbreviations.
        ("sl st", "ss"),
        ("sc", "dc"),
        ("hdc", "htr"),
        ("dc", "tr"),
        ("tr", "dtr"),
        ("dtr", "trtr"),
    ],
)
def test_us_and_uk_name_one_stitch(us: str, uk: str) -> None:
    assert stitches.words("US")[us] == stitches.words("UK")[uk]
    kind = stitches.words("US")[us]
    assert abbreviation(kind, terms="US") == us
    assert abbreviation(kind, terms="UK") == uk


@pytest.mark.parametrize(
    ("name", "system", "meant"),
    [
        ("sc", "US", Named("sc")),
        ("Single Crochet", "US", Named("sc")),
        ("single crochets", "US", Named("sc")),
        ("double crochet", "US", Named("dc")),
        ("double crochet", "UK", Named("sc")),
        ("treble", "US", Named("tr")),
        ("treble", "UK", Named("dc")),
        ("slip stitches", "US", Named("sl_st")),
        ("slst", "UK", Named("sl_st")),
        ("chs", "US", Named("ch")),
        ("half treble crochet", "UK", Named("hdc")),
        ("FPdc", "US", Named("dc", "front")),
        ("bptr", "UK", Named("dc", "back")),
        ("front post double crochet", "US", Named("dc", "front")),
        ("RtrF", "UK", Named("dc", "front")),
        ("raised treble back", "UK", Named("dc", "back")),
        ("sc2tog", "US", Named("sc", "none", 2)),
        ("dc3tog", "UK", Named("sc", "none", 3)),
        ("single crochet 2 stitches together", "US", Named("sc", "none", 2)),
        ("FPdc2tog", "US", Named("dc", "front", 2)),
    ],
)
def test_a_name_is_read(name: str, system: Terms, meant: Named) -> None:
    assert named(name, system) == meant


@pytest.mark.parametrize("name", ["hdc", "sc2tog", "", "tog", "2tog", "fp", "sl st2tog", "dc1tog"])
def test_what_is_no_stitch_of_the_system_is_not_read(name: str) -> None:
    assert named(name, "UK") is None


@given(
    st.sampled_from(
        [k.id for k in stitches.stitches().values() if k.turning_chain and not k.group]
    ),
    st.sampled_from(["none", "front", "back"]),
    st.integers(1, 6),
    st.sampled_from(BOTH),
)
def test_names_are_read_again(kind: str, post: PostSide, together: int, system: Terms) -> None:
    meant = Named(kind, post, together)
    assert named(abbreviation(kind, post, together, system), system) == meant
    assert named(long_name(kind, post, together, system), system) == meant


@given(st.text(max_size=60), st.sampled_from(BOTH))
def test_any_text_may_be_asked_for(text: str, system: Terms) -> None:
    named(text, system)
    terms.explain(text, system)


@pytest.mark.parametrize("system", BOTH)
def test_every_stitch_has_a_name_and_a_definition_of_its_own_system(system: Terms) -> None:
    for kind in stitches.stitches().values():
        assert stitches.words(system)[abbreviation(kind.id, terms=system).lower()] == kind.id
        assert stitches.words(system)[long_name(kind.id, terms=system).lower()] == kind.id
        words = definition(kind.id, terms=system)
        assert words.endswith(".")
        assert "{" not in words
        wrong = "yarn round hook" if system == "US" else "yarn over"
        assert wrong not in words.lower()


def test_definitions_follow_the_movements() -> None:
    assert definition("dc") == (
        "Yarn over, insert hook, yarn over and draw up a loop, "
        "(yarn over, draw through 2 loops) 2 times."
    )
    assert "all 5 loops" in definition("hdc", together=2)
    assert "all 3 loops" in definition("dc", together=2)
    assert "both loops" in definition("sc")
    assert "around the post" in definition("tr", post="front")
    assert definition("an author's own") == ""


def test_plain_stitches_take_one_and_leave_one() -> None:
    kinds = stitches.stitches()
    for one in ("sl_st", "sc", "hdc", "dc", "tr", "dtr", "trtr", "esc", "crab", "bobble"):
        assert (kinds[one].consumes, kinds[one].leaves) == (1, 1)
    for one in ("ch", "fsc", "fhdc", "fdc"):
        assert (kinds[one].consumes, kinds[one].leaves) == (0, 1)
    assert kinds["shell"].group
    assert kinds["shell"].leaves is None
    heights = [kinds[one].height for one in ("sc", "hdc", "dc", "tr", "dtr", "trtr")]
    assert None not in heights
    assert heights == sorted(heights, key=lambda h: h or Fraction(0))


# --------------------------------------------------------------------------- terms


def test_abbreviations_of_both_systems() -> None:
    us, uk = terms.abbreviations("US"), terms.abbreviations("UK")
    assert us["rs"].abbr == "RS"
    assert us["rs"].meaning == "right side"
    assert us["mc"].meaning == "main color"
    assert uk["mc"].meaning == "main colour"
    assert us["dc"].meaning == "double crochet"
    assert uk["dc"].meaning == "double crochet"
    assert uk["htr"].meaning == "half treble crochet"
    assert "htr" not in us
    assert "sk" not in uk
    fptr = terms.explain("fptr", "US")
    assert fptr is not None
    assert (fptr.abbr, fptr.meaning) == ("FPtr", "front post treble crochet")
    assert terms.explain("qwerty", "US") is None
    assert {"in", "cm", "mm", "g", "yd"} <= terms.measures().keys()


def test_system_words_tell_the_systems_apart() -> None:
    us, uk = terms.system_words("US"), terms.system_words("UK")
    assert {"sc", "hdc", "single crochet", "sc2tog", "fpsc"} <= us.sure
    assert {"htr", "half treble", "htr2tog"} <= uk.sure
    assert {"skip", "gauge"} <= us.hints
    assert {"miss", "tension"} <= uk.hints
    assert not us.sure & uk.sure
    for both in ("dc", "tr", "dtr", "double crochet", "ch", "sl st", "fpdc", "dc2tog"):
        assert both not in us.sure | uk.sure | us.hints | uk.hints


# --------------------------------------------------------------------------- bodies


@pytest.mark.parametrize(
    ("name", "table_id"),
    [
        ("women", "women"),
        ("Men", "men"),
        ("child", "children"),
        ("baby", "babies"),
        ("hand", "hand"),
    ],
)
def test_a_body_table_is_found_by_name(name: str, table_id: str) -> None:
    found = bodies.body_table(name)
    assert found is not None
    assert found.id == table_id


def test_every_table_for_people_has_a_chest_and_a_head() -> None:
    for name in ("women", "men", "children", "babies"):
        table = bodies.body_table(name)
        assert table is not None
        assert {"chest", "head", "upper_arm", "cross_back"} <= table.rows.keys()
        head = table.rows["head"]
        assert head.joined
        for taken in head.taken_from:
            for one in taken.split(" to "):
                other, size = one.split(": ")
                assert size in bodies.body_tables()[other].sizes
    assert bodies.body_table("dogs") is None


@pytest.mark.parametrize(
    ("words", "made"),
    [
        ("XS-5X", "XS S M L 1X 2X 3X 4X 5X"),
        ("xs–m", "XS S M"),
        ("S to L", "S M L"),
        ("L, S", "S L"),
        ("S-M, XL", "S M 1X"),
        ("M", "M"),
        ("5X-XS", None),
        ("XS-9X", None),
        ("", None),
        ("-" * 100_000, None),
    ],
)
def test_sizes_are_read(words: str, made: str | None) -> None:
    table = bodies.body_table("women")
    assert table is not None
    assert table.made(words) == (tuple(made.split()) if made else None)


def test_sizes_with_a_hyphen_of_their_own() -> None:
    table = bodies.body_table("children_chest_by_age_uk")
    assert table is not None
    assert table.made("6-9mo") == ("6-9mo",)
    assert table.made("0-3mo-12-18mo") == ("0-3mo", "6-9mo", "12-18mo")


def test_a_range_is_taken_at_a_point() -> None:
    table = bodies.body_table("women")
    assert table is not None
    chest = table.rows["chest"]
    assert [chest.at(2, where) for where in ("low", "middle", "high")] == [915, 940, 965]


def test_measuring_points_are_explained() -> None:
    named_points = {p for name in ("women", "men", "children", "babies") for p in _rows(name)}
    assert named_points <= bodies.measuring_points().keys()


def _rows(name: str) -> set[str]:
    table = bodies.body_table(name)
    assert table is not None
    return set(table.rows)


# --------------------------------------------------------------------------- the rest


def test_hooks() -> None:
    one = hooks.hook(Fraction("4.5"))
    assert one is not None
    assert one.words() == "4.5 mm (US 7)"
    assert one.words("UK") == "4.5 mm (UK 7)"
    small = hooks.hook(Fraction("3.75"))
    assert small is not None
    assert small.words("UK") == "3.75 mm"
    assert hooks.hook(Fraction("4.6")) is None
    assert [h.mm for h in hooks.hooks_labelled("US H/8")] == [5]
    assert [h.mm for h in hooks.hooks_labelled("G")] == [4, Fraction("4.25")]
    assert hooks.hooks_labelled("") == ()


def test_yarn_weights_run_from_fine_to_thick() -> None:
    found = yarns.yarn_weights()
    assert [one.number for one in found] == list(range(8))
    assert yarns.yarn_weight(9) is None
    assert yarns.within(Fraction(300), found[2].m_per_100g)
    assert yarns.within(Fraction(2000), found[0].m_per_100g)
    assert not yarns.within(Fraction(100), found[2].m_per_100g)


@pytest.mark.parametrize(
    ("mm", "fit"),
    [(-1, "very close"), (0, "close"), (99, "classic"), (140, "loose"), (400, "oversized")],
)
def test_an_ease_has_a_name(mm: int, fit: str) -> None:
    assert ease.fit_of(Fraction(mm)).id == fit


def test_lengths_and_proportions() -> None:
    by_name = {(one.group, one.name): one.below_waist_mm for one in ease.garment_lengths()}
    assert by_name["women", "hip"] == 150
    assert all(0 < one.low <= one.high < 1 for one in ease.proportions())


def test_levels() -> None:
    assert [one.id for one in levels.levels()] == ["basic", "easy", "intermediate", "complex"]
    assert levels.level("Easy") == levels.levels()[1]
    assert levels.level("beginner") == levels.levels()[0]
    assert levels.level("expert") is None
    assert levels.pattern_parts()[0].id == "title"


def test_cautions_follow_audience_and_hazards() -> None:
    assert cautions.cautions("adult") == ()
    assert [one.id for one in cautions.cautions("baby")] == ["loose-ends"]
    assert [one.id for one in cautions.cautions("child", {"cords"})] == ["neck-cords", "hem-cords"]
    assert "sleep" in {one.id for one in cautions.cautions("baby", {"blanket"})}
    assert "local rules" in cautions.deference()
    assert "buttons" in cautions.hazards()
    assert "always" not in cautions.hazards()


def test_numbers_of_a_table_are_exact() -> None:
    one = stitches.stitches()["hdc"].height
    assert one == Fraction(3, 2)
    with pytest.raises(TypeError):
        tables.exact("3")
