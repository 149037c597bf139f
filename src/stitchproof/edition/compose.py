"""From a manuscript and all that was worked out to the edition.

What is computed comes first (sizes, materials, gauge, abbreviations, cautions), then the author's
own parts in the author's order, then the schematics. Where the author has written a part of the
same name, the two are one: the computed figures, then the author's words.
"""

import re
from collections.abc import Collection, Iterable, Iterator
from typing import Final

from stitchproof.base.diagnostics import Diagnostic, Level
from stitchproof.edition.abbreviations import abbreviations
from stitchproof.edition.absent import absent_sign
from stitchproof.edition.body import Body, body
from stitchproof.edition.caution import caution
from stitchproof.edition.matter import Matter
from stitchproof.edition.model import (
    Block,
    Edition,
    Facts,
    Figure,
    Items,
    Paragraph,
    Part,
    Words,
    plain,
    read_out,
    said,
)
from stitchproof.edition.opening import gauge, materials, measurements, size_line
from stitchproof.edition.schematics import named_schematics, schematics
from stitchproof.fabric.proof import Proof
from stitchproof.language.manuscript import BlockKind, Manuscript
from stitchproof.sizing.model import Sizing

DRAFT_NOTICE: Final = "Draft: not proved"
_LANGUAGE: Final = re.compile(r"[A-Za-z]{2,3}(?:-[A-Za-z0-9]{2,8})*")
_FACTS: Final = ("designer", "contact", "version", "date", "level", "copyright")
_SIZES: Final = frozenset(("size", "sizes", "measurements", "finished measurements", "sizing"))
_MATERIALS: Final = frozenset(("materials", "yarn", "supplies", "you will need"))
_GAUGE: Final = frozenset(("gauge", "tension"))
_ABBREVIATIONS: Final = frozenset(("abbreviations", "stitch abbreviations", "stitch key"))


def compose(
    manuscript: Manuscript,
    sizing: Sizing,
    proof: Proof,
    diagnostics: Iterable[Diagnostic] = (),
    *,
    draft: bool = False,
    date: str = "",
) -> Edition:
    """Make the edition of the sizes worked now.

    Parameters
    ----------
    manuscript, sizing, proof
        What was read, sized and worked.
    diagnostics : iterable of Diagnostic
        What was found; a draft lists the errors that were not accepted.
    draft : bool
        It is not proved, and every page must say so.
    date : str
        Day of publishing, for a manuscript that gives none.

    Returns
    -------
    Edition
        The same for all writers.
    """
    matter = Matter(manuscript, sizing, proof)
    title = _title(matter)
    figures = schematics(matter)
    written = body(matter, title, named_schematics(matter))
    opening, *own = written.parts
    plain_keys = sizing.plain
    found = plain_keys.get("date", "") or date
    computed = [*_computed(matter, own)]  # takes parts of the author's in, and out of `own`
    parts = [*computed, *own, *_drawn(figures.values(), written)]
    line = size_line(matter, absent_sign((opening, *parts)))
    parts = [_opening(opening, line, tuple(diagnostics) if draft else ()), *parts]
    language = plain_keys.get("language", "")
    return Edition(
        title=title,
        language=language if _LANGUAGE.fullmatch(language) else "en",
        designer=plain_keys.get("designer", ""),
        version=plain_keys.get("version", ""),
        date=found,
        size=matter.one_size,
        draft=draft,
        notice=DRAFT_NOTICE if draft else "",
        facts=_facts(matter, found),
        parts=tuple(part for part in parts if part.title or part.blocks),
    )


def _title(matter: Matter) -> str:
    """Give the title of the front matter, else the first heading, else the file's name."""
    if matter.sizing.title:
        return matter.sizing.title
    headings = (b for b in matter.manuscript.blocks if b.kind is BlockKind.HEADING)
    first = next(headings, None)
    words = read_out(matter.words(first.place)) if first and first.level == 1 else ""
    if words:
        return words
    name = matter.manuscript.source.rsplit("/", 1)[-1].removesuffix(".md")
    return name.replace("-", " ").strip() or "Untitled"


def _facts(matter: Matter, date: str) -> tuple[tuple[str, Words], ...]:
    told = {**matter.sizing.plain, "date": date}
    return tuple((key.capitalize(), plain(told[key])) for key in _FACTS if told.get(key))


def _opening(written: Part, line: str, found: tuple[Diagnostic, ...]) -> Part:
    wrong = tuple(
        plain(f"{one.message()}.")
        for one in found
        if one.finding.code.level is Level.ERROR and one.accepted is None
    )
    blocks: tuple[Block, ...] = ()
    if wrong:
        blocks = (Paragraph(plain("This draft is not to be worked from yet:")), Items(wrong))
    if line:
        blocks = (*blocks, Paragraph(plain(line)))
    return Part((), (*written.blocks, *blocks))


def _computed(matter: Matter, own: list[Part]) -> Iterator[Part]:
    """Give the computed parts; a part of the author's with the same name is taken in."""
    yield from _joined("Sizes and finished measurements", measurements(matter), own, _SIZES)
    yield from _joined("Materials", materials(matter), own, _MATERIALS)
    yield from _joined("Gauge", gauge(matter), own, _GAUGE)
    author = next((p for p in own if _name(p) in _ABBREVIATIONS), None)
    explained = abbreviations(matter)
    if author is not None:
        explained = _also_used(explained, author)
    yield from _joined("Abbreviations", explained, own, _ABBREVIATIONS)
    yield from _joined("Cautions", caution(matter), own, frozenset(("cautions", "safety")))


def _joined(
    title: str, computed: Iterable[Block], own: list[Part], names: Collection[str]
) -> Iterator[Part]:
    blocks = tuple(computed)
    if not blocks:
        return
    same = next((part for part in own if _name(part) in names), None)
    if same is None:
        yield Part(plain(title), blocks)
        return
    own.remove(same)
    yield Part(same.title, (*blocks, *same.blocks))


def _name(part: Part) -> str:
    return read_out(part.title).strip(" :").casefold()


def _also_used(explained: Iterable[Block], author: Part) -> Iterator[Block]:
    """Leave out what the author explains already."""
    told = " ".join(said(block) for block in author.blocks).casefold()
    for block in explained:
        if isinstance(block, Facts):
            missing = tuple(
                fact
                for fact in block.facts
                if not re.search(rf"(?<!\w){re.escape(fact[0].casefold())}(?!\w)", told)
            )
            if missing:
                yield Facts(missing)


def _drawn(figures: Iterable[Figure], written: Body) -> Iterator[Part]:
    left = tuple(figure for figure in figures if figure.caption not in written.placed)
    if left:
        yield Part(plain("Schematics"), left)
