"""The abbreviations an author lists and explains in the manuscript itself.

Lists are written in many ways: a line for each (`sc = single crochet`), several on one line, a
table, or a sentence (`Abbreviations: ch (chain), sc (single crochet)`). A list stands below a
heading or a line that says so, and ends with the next heading or the first instruction.
"""

import re
from collections.abc import Iterator
from itertools import islice
from typing import Final

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.language.manuscript import Block, BlockKind, Manuscript
from stitchproof.trade.tables import Terms

_TITLE: Final = re.compile(
    r"[*_#\s]{0,8}(?:(?:list of|crochet|stitch|pattern|special|u\.?[sk]\.?)\s+){0,3}"
    r"(?:abbreviations?|glossary)\b[^:=\n]{0,40}(?::|$)[*_\s]{0,4}",
    re.IGNORECASE,
)
_OTHER_TITLE: Final = re.compile(r"[*_\s]{0,4}[A-Z][A-Za-z ]{2,30}:?[*_\s]{0,4}")
_BREAK: Final = re.compile(
    r"\s{0,4}[;•·|]\s{0,4}|\.\s+(?=\S)|,\s{1,4}(?=[^,;()=:]{1,20}?\s{0,3}(?:[=:–—(]|\s-\s))"
)
_ENTRY: Final = re.compile(
    r"[*_\s–-]{0,6}(?P<names>[A-Za-z0-9][\w/.,' ()-]{0,40}?)[*_]{0,3}"
    r"\s{0,4}(?:[=:–—]|\s-\s|\t|\*\*|\s{3})[*_\s]{0,6}(?P<meaning>[A-Za-z0-9].{0,400})"
)
_BRACKETED: Final = re.compile(
    r"[*_\s]{0,4}(?P<names>[A-Za-z0-9][\w/.' -]{0,14}?)[*_\s]{0,4}\((?P<meaning>[^()]{3,80})\)\W*"
)
_INSIDE: Final = re.compile(r"\(([^()]{1,30})\)")
_HEADER: Final = re.compile(
    r"(?:full )?(?:names?|terms?|meanings?|definitions?|descriptions?|explanations?|stitch(?:es)?)"
    r"|stands? for|abbreviations?|what it means|in full",
    re.IGNORECASE,
)
_REMARK: Final = re.compile(r"notes?|tips?|hints?|please note|important", re.IGNORECASE)
_LONGEST: Final = 4_000  # characters of one line of a list
_MOST: Final = 300  # entries
_READ: Final = (BlockKind.PROSE, BlockKind.LIST, BlockKind.QUOTE, BlockKind.TABLE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of the list.

    Attributes
    ----------
    names : tuple of str
        The abbreviation as written, and others given with it (`sl st/ss`).
    meaning : str
        What the author says it stands for.
    keys : frozenset of str
        The names as they are compared: see `key_of`.
    place : Span
        The entry.
    """

    names: tuple[str, ...]
    meaning: str
    keys: frozenset[str]
    place: Span


def key_of(name: str) -> str:
    """Give a name without what spellings differ in: case, spaces, hyphens, stops, plural."""
    key = re.sub(r"[\s._-]", "", name.lower())
    return key[:-1] if len(key) > 2 and key.endswith("s") else key  # noqa: PLR2004 - `RS`, `ss`


def terms_of(manuscript: Manuscript) -> Terms:
    """Give the system of stitch names a manuscript is read in."""
    return "UK" if manuscript.terms == "UK" else "US"


def has_list(manuscript: Manuscript) -> bool:
    """Tell quickly whether there may be a list at all."""
    text = manuscript.text.lower()
    return "abbreviation" in text or "glossary" in text


def listed(manuscript: Manuscript) -> tuple[Entry, ...]:
    """Give the abbreviations the author lists, in the order of the text."""
    if not has_list(manuscript):
        return ()
    every = (e for place in _stretches(manuscript) for e in _entries(manuscript, place))
    return tuple(islice(every, _MOST))


def _stretches(manuscript: Manuscript) -> Iterator[Span]:
    """Give the lines that belong to a list."""
    inside = False
    for block in manuscript.blocks:
        if block.kind is BlockKind.HEADING:
            words = manuscript.text[block.place.start : block.place.end]
            inside = _TITLE.fullmatch(words) is not None
        elif block.kind not in _READ:
            inside = inside and block.kind is not BlockKind.INSTRUCTION
        else:
            for line in _lines(manuscript, block):
                words = manuscript.text[line.start : line.end]
                title = _TITLE.match(words)
                if title:
                    inside = True
                    yield Span(line.source, line.start + title.end(), line.end)
                elif inside and _OTHER_TITLE.fullmatch(words):
                    inside = False
                elif inside:
                    yield line


def _lines(manuscript: Manuscript, block: Block) -> Iterator[Span]:
    start = block.place.start
    for line in manuscript.text[start : block.place.end].splitlines(keepends=True):
        yield Span(block.place.source, start, start + min(len(line.rstrip()), _LONGEST))
        start += len(line)


def _entries(manuscript: Manuscript, line: Span) -> Iterator[Entry]:
    words = manuscript.text[line.start : line.end]
    if words.lstrip().startswith("|"):
        yield from _row(words, line)
        return
    start = 0
    for stop in (*_BREAK.finditer(words), None):
        end = stop.start() if stop else len(words)
        part = words[start:end]
        found = _BRACKETED.fullmatch(part) or _ENTRY.fullmatch(part.rstrip(" .*_"))
        if found and not _REMARK.fullmatch(found["names"].strip()):
            place = Span(line.source, line.start + start + found.start("names"), line.start + end)
            yield _entry(found["names"], found["meaning"], place)
        start = stop.end() if stop else end


def _row(words: str, line: Span) -> Iterator[Entry]:
    """Read a line of a table: abbreviation and meaning, once or twice."""
    cells = [cell.strip(" *_") for cell in words.strip().strip("|").split("|")]
    for name, meaning in zip(cells[::2], cells[1::2], strict=False):
        rule = not re.search(r"[A-Za-z]", meaning)
        if name and not rule and not _HEADER.fullmatch(meaning):
            yield _entry(name, meaning, line)


def _entry(words: str, meaning: str, place: Span) -> Entry:
    plain = re.sub(r"\((?:e?s)\)", "", words)
    inside = _INSIDE.findall(plain)
    outside = _INSIDE.sub(" ", plain)
    parts = [p for w in (outside, *inside) for p in re.split(r"\s*[/,]\s*|\s+or\s+", w)]
    names = tuple(p.strip(" *_.") for p in parts if p.strip(" *_."))
    keys = frozenset(map(key_of, names))
    return Entry(
        names=names, meaning=" ".join(meaning.split()).strip(" *_."), keys=keys, place=place
    )
