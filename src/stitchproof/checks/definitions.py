"""Abbreviations and stitches explained twice, or otherwise than the trade does."""

import re
from collections.abc import Iterator
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.base.place import Span
from stitchproof.checks import glossary
from stitchproof.checks.glossary import Entry, key_of, terms_of
from stitchproof.checks.seen import Seen
from stitchproof.language.manuscript import BlockKind, Manuscript
from stitchproof.language.read.specials import is_definition
from stitchproof.trade import stitches
from stitchproof.trade.tables import Terms

_HEAD: Final = re.compile(
    r"[-•*_\s]{0,6}(?P<name>[A-Za-z][^:=\n]{0,60}?)\s*[:=]\s*(?P<body>\S.*)", re.DOTALL
)
_NARRATIVE: Final = (BlockKind.PROSE, BlockKind.LIST, BlockKind.QUOTE)
_SHOWN: Final = 60  # characters of a definition that are quoted
_BEFORE: Final = 20  # of them before two definitions part


@facts
class DefinedTwice:
    """The name, and what it is said to be each time."""

    code: ClassVar[Code] = Code("C422", "defined-twice", Level.WARNING)
    name: str
    first: str
    second: str

    def message(self) -> str:
        """Give both."""
        return f"`{self.name}` is explained as `{self.second}`, and before as `{self.first}`"

    def help(self) -> str:
        """Say what to do."""
        return "keep one of them, or give the other a name of its own"


@facts
class DefinitionDiffers:
    """The stitch, what the author calls it, and what the trade does."""

    code: ClassVar[Code] = Code("C423", "definition-differs", Level.WARNING)
    name: str
    said: str
    known: str
    terms: str

    def message(self) -> str:
        """Give both."""
        return (
            f"`{self.name}` is explained as `{self.said}`; in {self.terms} terms it is {self.known}"
        )

    def help(self) -> str:
        """Say what to do."""
        return "check the list against the terms the pattern is written in"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Compare definitions with one another and with the trade's tables."""
    entries = glossary.listed(seen.manuscript)
    terms = terms_of(seen.manuscript)
    twice: set[str] = set()
    for name, first, second, place in _doubled(entries):
        twice.add(key_of(name))
        yield Diagnostic(
            finding=DefinedTwice(name, *_short(first.meaning, second.meaning)),
            place=place,
            also=((first.place, "explained here before"),),
        )
    for entry in entries:
        yield from _differing(entry, terms)
    for name, before, after in _specials(seen.manuscript):
        if key_of(name) not in twice:
            yield _special(seen.manuscript, name, before, after)


# --------------------------------------------------------------------------- the list


def _doubled(entries: tuple[Entry, ...]) -> Iterator[tuple[str, Entry, Entry, Span]]:
    known: dict[str, Entry] = {}
    for entry in entries:
        for name in entry.names[:1]:
            before = known.setdefault(key_of(name), entry)
            if before is not entry and _plain(before.meaning) != _plain(entry.meaning):
                yield name, before, entry, entry.place


def _differing(entry: Entry, terms: Terms) -> Iterator[Diagnostic]:
    said = re.split(r"[(;,:.–—]", entry.meaning, maxsplit=1)[0].strip()
    meant = stitches.named(" ".join(said.split()), terms)
    for name in entry.names:
        named = stitches.named(name, terms)
        if named is None or meant is None or key_of(name) == key_of(said):
            continue
        if named != meant:
            known = stitches.long_name(named.kind, named.post, named.together, terms)
            yield Diagnostic(finding=DefinitionDiffers(name, said, known, terms), place=entry.place)
            return


def _plain(words: str) -> str:
    """Give a definition without what does not change it."""
    return re.sub(r"[^a-z0-9]", "", re.sub(r"\((?:e?s)\)", "", words.lower())).removesuffix("s")


def _short(first: str, second: str) -> tuple[str, str]:
    """Quote two explanations, long ones from a little before they part."""
    if max(len(first), len(second)) <= _SHOWN:
        return first, second
    pairs = enumerate(zip(first, second, strict=False))
    alike = next((i for i, (a, b) in pairs if a != b), min(len(first), len(second)))
    start = first.rfind(" ", 0, max(alike - _BEFORE, 0)) + 1
    return _from(first, start), _from(second, start)


def _from(words: str, start: int) -> str:
    shown = words[start : start + _SHOWN].rstrip()
    return f"{'…' if start else ''}{shown}{'…' if start + _SHOWN < len(words) else ''}"


# --------------------------------------------------------------------------- special stitches


def _specials(manuscript: Manuscript) -> Iterator[tuple[str, Span, Span]]:
    """Find stitches that two paragraphs define in different words."""
    if not manuscript.specials:
        return
    names = {key_of(special.name) for special in manuscript.specials}
    known: dict[str, tuple[str, Span]] = {}
    for block in manuscript.blocks:
        if block.kind not in _NARRATIVE:
            continue
        words = manuscript.text[block.place.start : min(block.place.end, block.place.start + 600)]
        found = _HEAD.match(words) if is_definition(words) else None
        name = _own_name(found["name"]) if found else ""
        if found is None or key_of(name) not in names:
            continue
        before, place = known.setdefault(key_of(name), (found["body"], block.place))
        if place != block.place and _plain(before) != _plain(found["body"]):
            yield name, place, block.place


def _own_name(words: str) -> str:
    return words.split("(", maxsplit=1)[0].strip(" *_-•")


def _special(manuscript: Manuscript, name: str, before: Span, after: Span) -> Diagnostic:
    first, second = (
        " ".join(manuscript.text[p.start : p.end].split(":", maxsplit=1)[-1].split())
        for p in (before, after)
    )
    return Diagnostic(
        finding=DefinedTwice(name, *_short(first, second)),
        place=after,
        also=((before, "explained here before"),),
    )
