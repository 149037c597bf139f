"""Read what a design is made of: yarns, hooks, swatches, and the plain keys."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from stitchproof.base.units import parse_length, parse_mass, parse_minutes, parse_price
from stitchproof.language.manuscript import BlockKind, Manuscript
from stitchproof.sizing.findings import PieceWithoutHeading, UnknownEntry
from stitchproof.sizing.keys import A_LENGTH, Keys, near, one_of
from stitchproof.sizing.model import Hook, Swatch, Worked, Yarn
from stitchproof.trade.levels import level, levels

PLAIN: Final = (
    "title",
    "subtitle",
    "designer",
    "contact",
    "version",
    "date",
    "terms",
    "level",
    "language",
    "summary",
    "for",
    "made_for",
    "age",
    "care",
    "copyright",
    "licence",
    "license",
    "photo",
    "editor",
    "url",
    "dedication",
    "blocking",
)
_NUMBERED: Final = ("version", "date", "age", "copyright")  # a number says as much as words
TABLES: Final = (
    "yarn",
    "hooks",
    "swatch",
    "pieces",
    "sizes",
    "body",
    "sample",
    "measures",
    "counts",
    "rules",
    "finished",
    "accepted",
    "notions",
    "work",
    "edition",
    "errata",
    "credits",
    "testers",
    "price",
)
_YARN: Final = ("name", "weight", "fibre", "fiber", "colour", "color", "ball", "brand", "care")
_YARN_WORDS: Final = tuple(one for one in _YARN if one not in {"weight", "ball"})
_BALL: Final = ("mass", "length", "price")
_SWATCH: Final = (
    "stitch",
    "hook",
    "yarn",
    "worked",
    "stitches",
    "rows",
    "over",
    "after",
    "before",
    "mass",
    "minutes",
    "time",
    "note",
)
_TERMS: Final = ("US", "UK")
_NOTIONS: Final = 'a list of words, like `["stitch markers", "yarn needle"]`'
_HEAVIEST: Final = 7  # yarn weight class
_DEFAULT_OVER: Final = Fraction(100)  # mm; "10 cm / 4 in" is how the trade states a gauge


def read_plain(keys: Keys) -> Mapping[str, str]:
    """Read the plain keys, as text, and report keys that nothing reads."""
    keys.unknown((*PLAIN, *TABLES))
    found = {key: _words(keys, key) for key in PLAIN if keys.value(key) is not None}
    notions = [keys.text("notions", at) for at in range(len(keys.entries(_NOTIONS, "notions")))]
    if any(notions):
        found["notions"] = ", ".join(one for one in notions if one)
    return MappingProxyType(found)


def _words(keys: Keys, key: str) -> str:
    """Read one plain key."""
    words = keys.plain(key) if key in _NUMBERED else keys.text(key)
    if key == "terms" and words.strip().upper() not in _TERMS:  # as the reader takes it
        keys.wrong(one_of(_TERMS), key)
        return ""
    if key == "level" and words and level(words) is None:
        keys.wrong(one_of(one.id for one in levels()), key)
        return ""
    return words


def read_yarns(keys: Keys) -> tuple[Yarn, ...]:
    """Read `[yarn.<key>]`."""
    return tuple(_yarn(keys, key) for key in keys.table("yarn"))


def _yarn(keys: Keys, key: str) -> Yarn:
    keys.unknown(_YARN, "yarn", key)
    keys.unknown(_BALL, "yarn", key, "ball")
    said = {one: keys.text("yarn", key, one) for one in _YARN_WORDS}
    weight = keys.number("yarn", key, "weight")
    if weight is not None and not (weight.denominator == 1 and 0 <= weight <= _HEAVIEST):
        keys.wrong(f"a weight class from 0 to {_HEAVIEST}", "yarn", key, "weight")
        weight = None
    ball = ("yarn", key, "ball")
    price = keys.quantity(parse_price, "a price like `5.40 EUR`", *ball, "price")
    return Yarn(
        key=key,
        name=said["name"],
        fibre=said["fibre"] or said["fiber"],
        colour=said["colour"] or said["color"],
        weight=None if weight is None else int(weight),
        ball_g=keys.quantity(_positive(parse_mass), "a mass like `50 g`", *ball, "mass"),
        ball_mm=keys.quantity(_positive(parse_length), "a length like `135 m`", *ball, "length"),
        price=None if price is None else price.value,
        currency="" if price is None else price.unit,
        place=keys.at("yarn", key),
    )


def _positive(parse: Callable[[str], Fraction | None]) -> Callable[[str], Fraction | None]:
    """Let a parser take nothing at or below zero."""

    def read(text: str) -> Fraction | None:
        value = parse(text)
        return value if value is not None and value > 0 else None

    return read


def read_hooks(keys: Keys) -> tuple[Hook, ...]:
    """Read `[hooks]`."""
    wanted = "a size like `4.5 mm`"
    return tuple(
        Hook(
            key=key,
            words=keys.text("hooks", key),
            mm=keys.quantity(_positive(parse_length), wanted, "hooks", key),
            place=keys.at("hooks", key),
        )
        for key in keys.table("hooks")
    )


def read_swatches(
    keys: Keys, yarns: tuple[Yarn, ...], hooks: tuple[Hook, ...]
) -> Mapping[str, Swatch]:
    """Read `[swatch.<key>]`."""
    return MappingProxyType({key: _swatch(keys, key, yarns, hooks) for key in keys.table("swatch")})


def _swatch(keys: Keys, key: str, yarns: tuple[Yarn, ...], hooks: tuple[Hook, ...]) -> Swatch:
    at = ("swatch", key)
    keys.unknown(_SWATCH, *at)
    keys.unknown(("stitches", "rows"), *at, "before")
    hook = keys.text(*at, "hook")
    over = keys.quantity(_positive(parse_length), A_LENGTH, *at, "over")
    keys.alone("minutes", "time", *at)
    keys.text(*at, "note")
    minutes = "minutes" if keys.value(*at, "minutes") is not None else "time"
    yarn = keys.text(*at, "yarn")
    if yarn and yarn not in {one.key for one in yarns}:
        known = tuple(one.key for one in yarns)
        keys.report(UnknownEntry("yarn", yarn, known), *at, "yarn")
    worked = keys.choice(("flat", "round"), *at, "worked")
    return Swatch(
        name=key,
        stitch=keys.text(*at, "stitch"),
        hook=hook,
        hook_mm=_hook_size(keys, key, hook, hooks),
        yarn=yarn or (yarns[0].key if yarns else ""),
        worked=Worked(worked or "flat"),
        stitches=keys.positive(*at, "stitches"),
        rows=keys.positive(*at, "rows"),
        over_mm=over or _DEFAULT_OVER,
        over=keys.text(*at, "over") if over else "10 cm",
        after=keys.text(*at, "after"),
        before_stitches=keys.positive(*at, "before", "stitches"),
        before_rows=keys.positive(*at, "before", "rows"),
        mass_g=keys.quantity(_positive(parse_mass), "a mass like `6 g`", *at, "mass"),
        minutes=_minutes(keys, *at, minutes),
        place=keys.at(*at),
    )


def _minutes(keys: Keys, *path: str) -> Fraction | None:
    if isinstance(keys.value(*path), str):
        return keys.quantity(_positive(parse_minutes), "a time like `45 min`", *path)
    return keys.positive(*path)


def _hook_size(keys: Keys, key: str, hook: str, hooks: tuple[Hook, ...]) -> Fraction | None:
    """Give the size of the hook a swatch names, by its key or by its size."""
    if not hook:
        return None
    for one in hooks:
        if one.key == hook:
            return one.mm
    size = parse_length(hook)
    if size is None:
        known = tuple(one.key for one in hooks)
        keys.report(UnknownEntry("hook", hook, known), "swatch", key, "hook")
    return size


def read_pieces(
    keys: Keys, manuscript: Manuscript, swatches: Mapping[str, Swatch]
) -> Mapping[str, str]:
    """Read `[pieces]`: heading to swatch, also by the heading without "(make 2)"."""
    headings = _headings(manuscript)
    found: dict[str, str] = {}
    for name in keys.table("pieces"):
        path: tuple[str, ...] = ("pieces", name)
        if not isinstance(keys.value(*path), str):
            keys.unknown(("swatch",), *path)
            path = (*path, "swatch")
        swatch = keys.text(*path)
        if not swatch:
            if keys.value(*path) is None and not keys.lost(*path):
                keys.wrong('a swatch: { swatch = "…" }', "pieces", name)
            continue
        if swatch not in swatches:
            if not keys.lost("swatch", swatch):
                keys.report(UnknownEntry("swatch", swatch, tuple(swatches)), *path)
            continue
        found[name] = swatch
        if name not in headings:
            keys.report(PieceWithoutHeading(name, near(name, headings)), "pieces", name, "")
    titles = {s.name: s.title for s in manuscript.sections}
    titled = {titles[name]: swatch for name, swatch in found.items() if name in titles}
    named = {s.name: found[s.title] for s in manuscript.sections if s.title in found}
    return MappingProxyType({**titled, **named, **found})


def _headings(manuscript: Manuscript) -> frozenset[str]:
    """Every heading of the document, and every piece by its title."""
    blocks = (b.place for b in manuscript.blocks if b.kind is BlockKind.HEADING)
    found = {manuscript.text[place.start : place.end].strip() for place in blocks}
    found.update(name for s in manuscript.sections for name in (s.name, s.title))
    return frozenset(found)
