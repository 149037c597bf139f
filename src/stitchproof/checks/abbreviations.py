"""Abbreviations of the author's own list: used and not in it, in it and not used."""

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level, listed
from stitchproof.base.facts import facts
from stitchproof.checks import glossary
from stitchproof.checks.glossary import Entry, key_of, terms_of
from stitchproof.checks.narrative import MOST_SEARCHED, without
from stitchproof.checks.seen import Seen
from stitchproof.language.manuscript import Manuscript
from stitchproof.trade import stitches
from stitchproof.trade.tables import Terms
from stitchproof.trade.terms import explain, measures

if TYPE_CHECKING:
    from stitchproof.base.place import Span

_FEWEST: Final = 3  # entries that make a list, and no remark about one stitch
_PLAIN: Final = frozenset(("rep", "cont", "approx"))  # short for everyday words, as everybody reads
_PARTS: Final = re.compile(r"(?P<post>fp|bp)?(?P<stitch>[a-z]+?)(?:\d+(?P<tog>tog))?")


@facts
class AbbreviationNotDefined:
    """The words, and for one of them the name under which the list has it."""

    code: ClassVar[Code] = Code("C420", "abbreviation-not-defined", Level.WARNING)
    words: tuple[str, ...]
    other: str = ""

    def message(self) -> str:
        """Name what is missing."""
        names = listed(tuple(f"`{word}`" for word in self.words))
        verb, it = ("is", "it") if len(self.words) == 1 else ("are", "them")
        called = f"; the list calls `{self.words[0]}` `{self.other}`" if self.other else ""
        return f"{names} {verb} used, and the list of abbreviations does not explain {it}{called}"

    def help(self) -> str:
        """Say what to do."""
        return "add it to the list, or use the list's own word"


@facts
class AbbreviationNotUsed:
    """The words."""

    code: ClassVar[Code] = Code("C421", "abbreviation-not-used", Level.NOTE)
    words: tuple[str, ...]

    def message(self) -> str:
        """Name what is left over."""
        names = listed(tuple(f"`{word}`" for word in self.words))
        verb, it = ("is", "it") if len(self.words) == 1 else ("are", "them")
        return f"{names} {verb} explained in the list of abbreviations, and nothing uses {it}"

    def help(self) -> str:
        """Say what to do."""
        return "take it out of the list, unless a chart needs it"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Hold the author's list against the instructions."""
    entries = glossary.listed(seen.manuscript)
    if len(entries) >= _FEWEST:
        yield from _not_defined(seen.manuscript, entries)
        if len(entries) * len(seen.manuscript.text) <= MOST_SEARCHED:
            yield from _not_used(seen.manuscript, entries)


# --------------------------------------------------------------------------- used


def _not_defined(manuscript: Manuscript, entries: tuple[Entry, ...]) -> Iterator[Diagnostic]:
    keys = frozenset(key for entry in entries for key in entry.keys)
    own = {key_of(special.name) for special in manuscript.specials}
    terms = terms_of(manuscript)
    missing: dict[str, tuple[str, Span]] = {}
    for word, place in manuscript.words:
        if _is_short(word, terms) and not _explained(word, keys | own):
            written = manuscript.text[place.start : place.end]
            missing.setdefault(key_of(word), (" ".join(written.split()), place))
    if not missing:
        return
    (word, first), *rest = missing.values()
    yield Diagnostic(
        finding=AbbreviationNotDefined(
            tuple(w for w, _ in missing.values()), _called(word, entries, terms)
        ),
        place=first,
        also=tuple((place, f"`{w}` is used here") for w, place in rest),
    )


def _is_short(word: str, terms: Terms) -> bool:
    """Whether a word is an abbreviation: no unit, and no part of what it stands for."""
    known = explain(word, terms)
    if known is None or word in measures() or word in _PLAIN:
        return False
    meaning = known.meaning.lower()
    return all(re.search(rf"\b{re.escape(part)}s?\b", meaning) is None for part in _stems(word))


def _stems(word: str) -> Iterator[str]:
    """Give a word, and without its plural ending."""
    yield word
    yield word.removesuffix("s") or word


def _explained(word: str, keys: frozenset[str]) -> bool:
    if key_of(word) in keys or (word == "tog" and any(key.endswith(word) for key in keys)):
        return True
    if any(key.startswith(word) and key[len(word) :].isdigit() for key in keys):  # `CC1`
        return True
    parts = re.split(r"[\s-]+", word)
    if len(parts) > 1 and all(key_of(part) in keys for part in parts):
        return True
    made = _PARTS.fullmatch(word)
    if made is None or not (made["post"] or made["tog"]):
        return False
    wanted = {part for part in (made["post"], made["tog"]) if part}
    return wanted <= keys and made["stitch"] in keys


def _called(word: str, entries: tuple[Entry, ...], terms: Terms) -> str:
    """Give the name the list has for what a word stands for, if it has another."""
    known = explain(word, terms)
    meaning = key_of(known.meaning) if known else ""
    return next((e.names[0] for e in entries if key_of(e.meaning) == meaning), "")


# --------------------------------------------------------------------------- not used


def _not_used(manuscript: Manuscript, entries: tuple[Entry, ...]) -> Iterator[Diagnostic]:
    rest = without(manuscript.text.lower(), tuple(entry.place for entry in entries))
    keys = {key_of(word) for word, _ in manuscript.words}
    known = (explain(word, terms_of(manuscript)) for word, _ in manuscript.words)
    meant = {key_of(one.meaning) for one in known if one}  # used under another name
    idle = [
        e
        for e in entries
        if e.keys and not e.keys & keys and key_of(e.meaning) not in meant and not _stands(e, rest)
    ]
    if idle:
        yield Diagnostic(
            finding=AbbreviationNotUsed(tuple(entry.names[0] for entry in idle)),
            place=idle[0].place,
            also=tuple((e.place, f"`{e.names[0]}` is explained here") for e in idle[1:]),
        )


def _stands(entry: Entry, text: str) -> bool:
    """Whether one of the names stands anywhere; `tog` in `sc2tog`, `FP` in `FPdc` do."""
    for name in entry.names:
        shape = re.escape(name.lower()).replace(r"\ ", r"[\s-]+").replace(r"\-", r"[\s-]?")
        behind = "" if name.lower() in {"fp", "bp"} else r"(?![a-z])"
        if re.search(rf"(?<![a-z]){shape}(?:s|es)?{behind}", text):
            return True
        if not re.search(r"[a-z]", name.lower()):
            return True
        named = stitches.named(name, "US")
        if named is None and len(name.split()) > 2:  # noqa: PLR2004 - a sentence, no abbreviation
            return True
    return False
