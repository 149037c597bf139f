"""Reading a whole manuscript: from text to blocks, sections, conventions and numbers.

The order of things: the front matter tells which names braces may hold and how many sizes there
are; Markdown cuts the body into stretches; lines are sorted into instructions and narrative; the
words of all of them tell US from UK terms; definitions of stitches are read; and only then the
instructions, each on its own. Reading never raises for what an author wrote, and what lies beyond
the limits stays in the document as prose.
"""

import re
from collections.abc import Iterator, Mapping
from functools import partial
from itertools import islice, zip_longest
from typing import Final, TypeAlias

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.place import Span
from stitchproof.base.records import replace
from stitchproof.language.manuscript import Block, BlockKind, FrontMatter, Manuscript
from stitchproof.language.read.assembly import Assembly
from stitchproof.language.read.blocks import Line, Stretch, find_lines, find_stretches
from stitchproof.language.read.courses import LONGEST, Page, read_body, whole_clauses
from stitchproof.language.read.front import declared_names, read_front
from stitchproof.language.read.front_sizes import size_count, size_names
from stitchproof.language.read.gathering import gather_abbreviations, gather_numbers
from stitchproof.language.read.heard_terms import Heard, hear_line, hear_terms
from stitchproof.language.read.items import Item
from stitchproof.language.read.kept import NO_WORDS, Cut, KeptLines
from stitchproof.language.read.label_numbers import Source
from stitchproof.language.read.markers_between import with_markers_between
from stitchproof.language.read.meshes import with_meshes
from stitchproof.language.read.named_in_passing import may_name_in_passing, named_in_passing
from stitchproof.language.read.openings import opens_with_a_label
from stitchproof.language.read.plain_headings import with_plain_headings
from stitchproof.language.read.reading_findings import (
    FenceNotClosed,
    MixedTerms,
    TermsAssumed,
    TextTooLong,
)
from stitchproof.language.read.said_terms import said_terms
from stitchproof.language.read.sections import (
    Region,
    heading_region,
    read_sizes_line,
)
from stitchproof.language.read.shorthand import read_shorthand
from stitchproof.language.read.size_names import SizeNames, listed_in
from stitchproof.language.read.sizes_by_rank import how_many_sizes
from stitchproof.language.read.sizes_line import SIZES_REACH, find_sizes_line
from stitchproof.language.read.sorting import sort_stretches
from stitchproof.language.read.specials import (
    ANOTHER,
    is_definition,
    read_special,
    read_titled,
)
from stitchproof.language.tree import Special, Steps
from stitchproof.trade.tables import Terms

MOST_LINES: Final = 20_000
MOST_CHARACTERS: Final = 2_000_000
MOST_INSTRUCTIONS: Final = 5_000
MOST_SPECIALS: Final = 200
_MAY_SAY_SHORTHAND: Final = (BlockKind.PROSE, BlockKind.LIST, BlockKind.QUOTE, BlockKind.TABLE)
_NOT_READ: Final = (BlockKind.CODE, BlockKind.HTML, BlockKind.PICTURE, BlockKind.RULE)


def read_manuscript(
    text: str, source: str, kept: KeptLines | None = None
) -> tuple[Manuscript, list[Diagnostic]]:
    """Read a manuscript.

    Parameters
    ----------
    text : str
        The whole file.
    source : str
        Its name on the Desk.
    kept : KeptLines, optional
        Lines read before; may be kept for the next reading.

    Returns
    -------
    (Manuscript, findings)
        Always a manuscript; what could not be read is in the findings.
    """
    front, start, found = read_front(text, source)
    found = list(found)
    lines, beyond = _lines(text, start, source, found)
    stretches = with_plain_headings(text, find_stretches(text, lines))
    _fences(text, stretches, source, found)
    sizes_line = find_sizes_line(text, stretches)
    kept = kept or KeptLines()
    kept.begin()
    told = size_count(front) or len(sizes_line)
    declared, sizes = declared_names(front), told or how_many_sizes(text)
    names = size_names(front) or sizes_line
    counted = () if names or sizes is None else tuple(str(n + 1) for n in range(sizes))
    page = Page(
        source=source,
        text=text,
        declared=declared,
        sizes=sizes,
        names=SizeNames.of(names) if names else SizeNames(counted),
        kept=kept,
        context=kept.context(source, declared, sizes, names),
    )
    items = sort_stretches(
        Source(source, text, page.number_in, page.sizes or 0, names),
        stretches,
        names or counted,
        (kept.sorted, (page.context, names)),
    )
    items = _bounded(items, source, found)
    shorthand = read_shorthand(
        text[item.start : item.end] for item in items if item.kind in _MAY_SAY_SHORTHAND
    )
    said = tuple(shorthand.items())
    context = kept.context(source, declared, sizes, names, said)
    page = replace(page, shorthand=shorthand, context=context)
    cuts = _cut_all(page, items, found)
    defined = tuple(_definitions(page, items))
    terms = _terms(front, page, items, (cuts, _names_of(defined, text)), found)
    page = replace(page, terms=terms)
    specials = _specials(page, items, defined)
    page = replace(
        page,
        specials={one.name: one for one in specials},
        context=kept.context(source, declared, sizes, names, said, terms, specials),
    )
    build = Assembly(page, found)
    for i, item in enumerate(items):
        build.add(item, cuts.get(i, NO_WORDS))
    build.close_section()
    if beyond is not None:
        build.blocks.append(Block(BlockKind.PROSE, Span(source, beyond, len(text))))
    manuscript = Manuscript(
        source=source,
        text=text,
        front=front,
        terms=terms,
        blocks=tuple(build.blocks),
        sections=with_markers_between(build.sections),
        rules=tuple(build.rules),
        specials=specials,
        numbers=gather_numbers(items, cuts, build.courses),
        sizes_line=sizes_line,
        words=gather_abbreviations(page, items, cuts),
    )
    return manuscript, found


# --------------------------------------------------------------------------- limits


def _lines(
    text: str, start: int, source: str, found: list[Diagnostic]
) -> tuple[tuple[Line, ...], int | None]:
    """Find the lines that are read, and where reading stops."""
    lines, beyond = find_lines(text, start, MOST_LINES)
    finding = TextTooLong("lines", MOST_LINES)
    if lines[-1].end - start > MOST_CHARACTERS:
        kept = tuple(line for line in lines if line.end - start <= MOST_CHARACTERS)
        beyond = lines[len(kept)].start
        finding = TextTooLong("characters", MOST_CHARACTERS)
        lines = kept or (Line(start, start),)
    if beyond is not None:
        place = Span(source, beyond, min(beyond + 1, len(text)))
        found.append(Diagnostic(finding=finding, place=place))
    return lines, beyond


def _bounded(items: tuple[Item, ...], source: str, found: list[Diagnostic]) -> tuple[Item, ...]:
    """Take instructions beyond the limit for prose."""
    count = 0
    for i, item in enumerate(items):
        count += item.kind is BlockKind.INSTRUCTION
        if count > MOST_INSTRUCTIONS:
            place = Span(source, item.start, item.end)
            finding = TextTooLong("instructions", MOST_INSTRUCTIONS)
            # It comes before the end of what is read: one mistake, one finding.
            found[:] = [one for one in found if not isinstance(one.finding, TextTooLong)]
            found.append(Diagnostic(finding=finding, place=place))
            return (*items[:i], *(_as_prose(one) for one in items[i:]))
    return items


def _as_prose(item: Item) -> Item:
    if item.kind is not BlockKind.INSTRUCTION:
        return item
    return Item(kind=BlockKind.PROSE, start=item.start, end=item.end, region=Region.NARRATIVE)


def _fences(
    text: str, stretches: tuple[Stretch, ...], source: str, found: list[Diagnostic]
) -> None:
    """Report a fence that swallows rows because it is never closed."""
    last = stretches[-1] if stretches else None
    if last is None or last.kind is not BlockKind.CODE:
        return
    mark = last.lines[0].of(text).strip()[:3]
    if len(last.lines) > 1 and last.lines[-1].of(text).strip().startswith(mark):
        return
    for line in last.lines[1:]:
        words = line.of(text).strip()
        if opens_with_a_label(words) and ":" in words:
            fence = last.lines[0]
            label = words.split(":", maxsplit=1)[0][:40]
            place = Span(source, fence.start, fence.end)
            found.append(Diagnostic(finding=FenceNotClosed(label), place=place))
            return


# --------------------------------------------------------------------------- words


Cuts: TypeAlias = Mapping[int, Cut]  # by item


def _cut_all(page: Page, items: tuple[Item, ...], found: list[Diagnostic]) -> Cuts:
    """Cut into tokens every instruction, and narrative that may hold numbers.

    Words of an instruction are placed from where it begins, others from the start of the text;
    what is found in an instruction waits for its address.
    """
    cuts: dict[int, Cut] = {}
    for i, item in enumerate(items):
        if item.kind is BlockKind.INSTRUCTION:
            cuts[i] = _cut_instruction(page, item)
        elif item.kind not in _NOT_READ and _may_hold_numbers(page.text[item.start : item.end]):
            if read_sizes_line(page.text[item.start : item.end].strip()[:SIZES_REACH]):
                continue  # `0-3 (3-6, 6-12) months` are names, no numbers
            cut = Cut.of(*page.lexed(item.start, min(item.end, item.start + LONGEST)))
            names = listed_in(page.names.names, page.text, item.start, item.end)
            numbers = tuple(n for n in cut.numbers if n.place.start not in names)
            cuts[i] = replace(cut, numbers=numbers)
            found += cuts[i].found
    return cuts


def _cut_instruction(page: Page, item: Item) -> Cut:
    end = item.rest + LONGEST
    if item.end <= end:
        return page.kept.cut.get(
            *page.line(item, page.context),
            lambda: Cut.of(*page.worked(item.rest, item.end, line=item.start, only=item.only)),
        )
    finding = TextTooLong("characters in one instruction", LONGEST)
    place = Span(page.source, end, end + 1).shifted(-item.start)
    tokens, found = page.worked(item.rest, end, line=item.start, only=item.only)
    return Cut.of(whole_clauses(tokens), [Diagnostic(finding=finding, place=place), *found])


def _may_hold_numbers(words: str) -> bool:
    return "{" in words or "(" in words or "[" in words


def _terms(
    front: FrontMatter | None,
    page: Page,
    items: tuple[Item, ...],
    told: tuple[Cuts, frozenset[str]],
    found: list[Diagnostic],
) -> Terms:
    """Decide whose stitch names the text uses, and say what does not fit."""
    instructions = [i for i, item in enumerate(items) if item.kind is BlockKind.INSTRUCTION]
    cuts, own = told
    beside = page.kept.context(page.context, own)
    heard = hear_terms(
        (
            items[i].start,
            page.kept.heard.get(
                *page.line(items[i], beside), partial(hear_line, cuts[i].words, own)
            ),
        )
        for i in instructions
    )
    wanted = front.table.get("terms") if front else None
    said: Terms | None = None
    if isinstance(wanted, str) and wanted.strip().upper() in {"US", "UK"}:
        said = "US" if wanted.strip().upper() == "US" else "UK"
    if said is None:
        narrative = (
            page.text[i.start : i.end] for i in items if i.kind is not BlockKind.INSTRUCTION
        )
        said = said_terms(narrative) or said_terms(
            page.text[items[i].start : items[i].end] for i in instructions
        )
    terms = said or _by_words(heard)
    other = heard.uk if terms == "US" else heard.us
    own_word = heard.us if terms == "US" else heard.uk
    if other is not None:
        also = ((own_word[1], f"`{own_word[0]}` is a {terms} term"),) if own_word else ()
        finding = MixedTerms(terms, other[0], own_word[0] if own_word else "")
        found.append(Diagnostic(finding=finding, place=other[1], also=also))
    elif said is None and own_word is None and heard.hint is None and heard.open is not None:
        found.append(Diagnostic(finding=TermsAssumed(heard.open[0]), place=heard.open[1]))
    return terms


def _by_words(heard: Heard) -> Terms:
    if heard.us is not None:
        return "US"
    if heard.uk is not None:
        return "UK"
    return heard.hint or "US"


# --------------------------------------------------------------------------- special stitches


def _definitions(page: Page, items: tuple[Item, ...]) -> Iterator[tuple[Item, str]]:
    """Find the definitions, each with the heading that names it, if one does."""
    title = ""
    for item in items:
        if item.kind in {BlockKind.PROSE, BlockKind.LIST, BlockKind.QUOTE}:
            sure = item.region is Region.SPECIAL
            if is_definition(page.text[item.start : item.end], sure=sure):
                yield from ((one, "") for one in _one_by_one(page.text, item))
            elif sure and title:
                yield item, title
            else:
                yield from ((one, "") for one in _defined_inside(page.text, item))
        own = item.heading is not None and item.region is Region.SPECIAL
        words = page.text[item.start : item.end] if own else ""
        title = words if words and heading_region(words) is Region.PIECE else ""


_DEFINING: Final = re.compile(
    r"(?<=[.;])\s+(?=[^.;:=()\s][^.;:=()]{0,30}\s*(?:[=:]|\([^()]{1,12}\)\s*[=:]"
    r"|(?:\([^()]{1,12}\)\s*)?\b(?:is|are|means?|consists?|stands?)\b))"
    rf"|{ANOTHER}"
)


def _defined_inside(text: str, item: Item) -> Iterator[Item]:
    """Find the sentences of a paragraph that define a stitch: `… V-st = (dc, ch 1, dc)`."""
    for sentence in islice(_DEFINING.finditer(text, item.start, item.end), MOST_SPECIALS):
        if is_definition(text[sentence.end() : item.end]):
            yield replace(item, start=sentence.end())


def _one_by_one(text: str, item: Item) -> Iterator[Item]:
    """Part `Open mesh (OM): … Closed mesh (CM): …`, which defines two stitches."""
    starts = [item.start, *(one.start for one in _defined_inside(text, item))]
    for start, end in zip_longest(starts, starts[1:], fillvalue=item.end):
        yield replace(item, start=start, end=end)


def _names_of(defined: tuple[tuple[Item, str], ...], text: str) -> frozenset[str]:
    """Give the names that definitions begin with, in lower case."""
    return frozenset(
        (title.strip() or _first_words(text[item.start : item.end])).lower()
        for item, title in defined
    )


def _first_words(words: str) -> str:
    return words[:60].split(":", maxsplit=1)[0].split("(", maxsplit=1)[0].strip(" *_-•")


def _specials(
    page: Page, items: tuple[Item, ...], defined: tuple[tuple[Item, str], ...]
) -> tuple[Special, ...]:
    known: dict[str, Special] = {}

    def body(start: int, end: int, before: Mapping[str, Special]) -> Steps:
        return read_body(replace(page, specials=before), start, end)

    for item, title in defined[:MOST_SPECIALS]:
        place = Span(page.source, item.start, item.end)
        if title:
            made = read_titled(title, page.text, place, page.terms, (known, body))
        else:
            made = read_special(page.text, place, page.terms, known, body)
        for one in made:
            known.setdefault(one.name, one)
    for item in items if may_name_in_passing(page.text) else ():
        if item.kind is BlockKind.INSTRUCTION:
            place = Span(page.source, item.rest, min(item.end, item.rest + LONGEST))
            for one in named_in_passing(page.text, place, page.terms, known, body):
                known.setdefault(one.name, one)
    return tuple(with_meshes(known).values())
