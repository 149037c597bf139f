"""Reading a whole manuscript: from text to blocks, sections, conventions and numbers.

The order of things: the front matter tells which names braces may hold and how many sizes there
are; Markdown cuts the body into stretches; lines are sorted into instructions and narrative; the words
of all of them tell US from UK terms; definitions of stitches are read; and only then the
instructions, each on its own. Reading never raises for what an author wrote, and what lies beyond
the limits stays in the document as prose.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.place import Span
from stitchproof.language.manuscript import Block, BlockKind, FrontMatter, Manuscript
from stitchproof.language.number import Number
from stitchproof.language.read.blocks import Line, Stretch, find_lines, find_stretches
from stitchproof.language.read.courses import LONGEST, Page, read_body, read_course
from stitchproof.language.read.front import declared_names, read_front
from stitchproof.language.read.labels import Source
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.read.openings import opens_with_a_label
from stitchproof.language.read.reading_findings import (
    FenceNotClosed,
    MixedTerms,
    TermsAssumed,
    TextTooLong,
)
from stitchproof.language.read.rules import Heard, find_rules, hear_terms, said_terms
from stitchproof.language.read.sections import (
    MAKE_LINE,
    ONE_PIECE,
    Heading,
    Region,
    read_sizes_line,
)
from stitchproof.language.read.sorting import Item, sort_stretches
from stitchproof.language.read.specials import is_definition, read_special
from stitchproof.language.tree import Course, Label, Rule, Section, Special, Steps
from stitchproof.trade.tables import Terms
from stitchproof.trade.terms import explain

MOST_LINES: Final = 100_000
MOST_CHARACTERS: Final = 4_000_000
MOST_INSTRUCTIONS: Final = 10_000
_WORK: Final = (Region.PIECE, Region.FINISHING, Region.INTRO)


def read_manuscript(text: str, source: str) -> tuple[Manuscript, list[Diagnostic]]:
    """Read a manuscript.

    Parameters
    ----------
    text : str
        The whole file.
    source : str
        Its name on the Desk.

    Returns
    -------
    (Manuscript, findings)
        Always a manuscript; what could not be read is in the findings.
    """
    front, start, found = read_front(text, source)
    found = list(found)
    lines, beyond = _lines(text, start, source, found)
    stretches = find_stretches(text, lines)
    _fences(text, stretches, source, found)
    sizes_line = _sizes_line(text, stretches)
    page = Page(
        source=source,
        text=text,
        declared=declared_names(front),
        sizes=_size_count(front) or len(sizes_line) or None,
    )
    items = sort_stretches(Source(source, text, page.number_at, page.sizes or 0), stretches)
    items = _bounded(items, source, found)
    words = _lex_all(page, items, found)
    terms = _terms(front, page, items, words, found)
    page = replace(page, terms=terms)
    specials = _specials(page, items)
    page = replace(page, specials={one.name: one for one in specials})
    build = _Build(page, found)
    for i, item in enumerate(items):
        build.add(item, words.get(i, ()))
    build.close_section()
    if beyond is not None:
        build.blocks.append(Block(BlockKind.PROSE, Span(source, beyond, len(text))))
    manuscript = Manuscript(
        source=source,
        text=text,
        front=front,
        terms=terms,
        blocks=tuple(build.blocks),
        sections=tuple(build.sections),
        rules=tuple(build.rules),
        specials=specials,
        numbers=_numbers(items, words, build.courses),
        sizes_line=sizes_line,
        words=_abbreviations(page, items, words),
    )
    return manuscript, found


# --------------------------------------------------------------------------- limits


def _lines(
    text: str, start: int, source: str, found: list[Diagnostic]
) -> tuple[tuple[Line, ...], int | None]:
    """Find the lines that are read, and where reading stops."""
    lines, beyond = find_lines(text, start, MOST_LINES)
    if beyond is not None:
        place = Span(source, beyond, min(beyond + 1, len(text)))
        found.append(Diagnostic(finding=TextTooLong("lines", MOST_LINES), place=place))
    if lines[-1].end - start > MOST_CHARACTERS:
        kept = tuple(line for line in lines if line.end - start <= MOST_CHARACTERS)
        beyond = lines[len(kept)].start
        place = Span(source, beyond, beyond + 1)
        found.append(Diagnostic(finding=TextTooLong("characters", MOST_CHARACTERS), place=place))
        lines = kept or (Line(start, start),)
    return lines, beyond


def _bounded(items: tuple[Item, ...], source: str, found: list[Diagnostic]) -> tuple[Item, ...]:
    """Take instructions beyond the limit for prose."""
    count = 0
    for i, item in enumerate(items):
        count += item.kind is BlockKind.INSTRUCTION
        if count > MOST_INSTRUCTIONS:
            place = Span(source, item.start, item.end)
            finding = TextTooLong("instructions", MOST_INSTRUCTIONS)
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


# --------------------------------------------------------------------------- sizes


def _sizes_line(text: str, stretches: tuple[Stretch, ...]) -> tuple[str, ...]:
    for stretch in stretches:
        if stretch.kind not in {BlockKind.PROSE, BlockKind.QUOTE}:
            continue
        for line in stretch.lines:
            words = line.of(text)
            if "size" in words[:60].lower():
                names = read_sizes_line(words.strip())
                if names:
                    return names
    return ()


def _size_count(front: FrontMatter | None) -> int:
    """Tell how many sizes the front matter names, as far as that is plain; 0: not known."""
    sizes = front.table.get("sizes") if front else None
    if not isinstance(sizes, Mapping):
        return 0
    for key in ("names", "make"):
        names = sizes.get(key)
        if isinstance(names, list):
            return len(names)
    groups = sizes.get("groups")
    if isinstance(groups, list) and all(isinstance(n, int) and 0 < n < 100 for n in groups):  # noqa: PLR2004
        return sum(groups)
    return 0


# --------------------------------------------------------------------------- words


def _lex_all(
    page: Page, items: tuple[Item, ...], found: list[Diagnostic]
) -> dict[int, tuple[Token, ...]]:
    """Cut into tokens every instruction, and narrative that may hold numbers."""
    words: dict[int, tuple[Token, ...]] = {}
    for i, item in enumerate(items):
        end = item.end
        if item.kind is BlockKind.INSTRUCTION:
            if end - item.rest > LONGEST:
                place = Span(page.source, item.rest + LONGEST, end)
                finding = TextTooLong("characters in one instruction", LONGEST)
                found.append(Diagnostic(finding=finding, place=place))
                end = item.rest + LONGEST
            words[i], more = page.lexed(item.rest, end)
            found += more
        elif item.kind not in {BlockKind.CODE, BlockKind.HTML, BlockKind.PICTURE, BlockKind.RULE}:
            if _may_hold_numbers(page.text[item.start : item.end]):
                end = min(end, item.start + LONGEST)
                words[i], more = page.lexed(item.start, end)
                found += more
    return words


def _may_hold_numbers(words: str) -> bool:
    return "{" in words or "(" in words or "[" in words


def _terms(
    front: FrontMatter | None,
    page: Page,
    items: tuple[Item, ...],
    words: Mapping[int, tuple[Token, ...]],
    found: list[Diagnostic],
) -> Terms:
    """Decide whose stitch names the text uses, and say what does not fit."""
    instructions = [i for i, item in enumerate(items) if item.kind is BlockKind.INSTRUCTION]
    tokens = (token for i in instructions for token in words.get(i, ()))
    own = {n.lower() for n in _defined_names(page, items)}
    heard = hear_terms(tokens, dict.fromkeys(own))
    told = front.table.get("terms") if front else None
    said: Terms | None = None
    if isinstance(told, str) and told.strip().upper() in {"US", "UK"}:
        said = "US" if told.strip().upper() == "US" else "UK"
    if said is None:
        narrative = (
            page.text[i.start : i.end] for i in items if i.kind is not BlockKind.INSTRUCTION
        )
        said = said_terms(narrative)
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


def _definitions(page: Page, items: tuple[Item, ...]) -> Iterator[Item]:
    for item in items:
        if item.kind in {BlockKind.PROSE, BlockKind.LIST, BlockKind.QUOTE}:
            sure = item.region is Region.SPECIAL
            if is_definition(page.text[item.start : item.end], sure=sure):
                yield item


def _defined_names(page: Page, items: tuple[Item, ...]) -> Iterator[str]:
    for item in _definitions(page, items):
        yield page.text[item.start : item.end][:60].split(":")[0].split("(")[0].strip(" *_-•")


def _specials(page: Page, items: tuple[Item, ...]) -> tuple[Special, ...]:
    known: dict[str, Special] = {}

    def body(start: int, end: int, before: Mapping[str, Special]) -> Steps:
        return read_body(replace(page, specials=before), start, end)

    for item in _definitions(page, items):
        place = Span(page.source, item.start, item.end)
        for one in read_special(page.text, place, page.terms, dict(known), body):
            known.setdefault(one.name, one)
    return tuple(known.values())


# --------------------------------------------------------------------------- sections


@dataclass(slots=True)
class _Build:
    """Sections and blocks in the making."""

    page: Page
    found: list[Diagnostic]
    blocks: list[Block] = field(default_factory=list)
    sections: list[Section] = field(default_factory=list)
    rules: list[Rule] = field(default_factory=list)
    courses: list[Course] = field(default_factory=list)
    _heading: Heading | None = None
    _level: int = 0
    _place: Span | None = None
    _held: list[Course] = field(default_factory=list)
    _stated: list[Rule] = field(default_factory=list)
    _copies: Number | None = None
    _titled: bool = False

    def add(self, item: Item, tokens: tuple[Token, ...]) -> None:
        """Take in the next part of the document."""
        place = Span(self.page.source, item.start, item.end)
        match item.kind:
            case BlockKind.HEADING:
                self._open(item, place)
            case BlockKind.INSTRUCTION:
                self._course(item, tokens, place)
            case BlockKind.CODE | BlockKind.HTML | BlockKind.PICTURE | BlockKind.RULE:
                self.blocks.append(Block(item.kind, place))
            case BlockKind.PROSE | BlockKind.LIST | BlockKind.QUOTE | BlockKind.TABLE:
                self.blocks.append(Block(item.kind, place))
                self._narrative(item)

    def _open(self, item: Item, place: Span) -> None:
        self.close_section()
        self.blocks.append(Block(BlockKind.HEADING, place, item.level))
        title = item.level == 1 and not self._titled
        self._titled = self._titled or item.level == 1
        self._heading = None if title else item.heading
        self._level = 0 if title else max(item.level, 2)
        self._place = place

    def _course(self, item: Item, tokens: tuple[Token, ...], place: Span) -> None:
        name = self._heading.name if self._heading else ""
        course, found = read_course(self.page, item, tokens, name)
        self.found += found
        self.blocks.append(
            Block(BlockKind.INSTRUCTION, place, course=(len(self.sections), len(self._held)))
        )
        self._held.append(course)
        self.courses.append(course)

    def _narrative(self, item: Item) -> None:
        page = self.page
        rules = find_rules(page.text, item.start, item.end, page.source, page.terms)
        local = item.region in {Region.PIECE, Region.FINISHING} and self._heading is not None
        (self._stated if local else self.rules).extend(rules)
        made = MAKE_LINE.fullmatch(page.text[item.start : item.end])
        if made and item.region is Region.PIECE:
            start = item.start + made.start("amount")
            self._copies = page.number_at(start, item.start + made.end("amount"))

    def close_section(self) -> None:
        """End the section that is open."""
        if self._held:
            heading = self._heading
            copies = heading.copies if heading else ONE_PIECE
            if self._copies is not None and copies is ONE_PIECE:
                copies = self._copies
            self.sections.append(
                Section(
                    heading.name if heading else "",
                    self._level,
                    heading.title if heading else "",
                    copies,
                    tuple(self._held),
                    tuple(self._stated),
                    self._place or self._held[0].place,
                )
            )
            self._stated = []
        self._held = []
        self._copies = None


# --------------------------------------------------------------------------- numbers and words


def _numbers(
    items: tuple[Item, ...], words: Mapping[int, tuple[Token, ...]], courses: list[Course]
) -> tuple[Number, ...]:
    """Give every formula and list of sizes, in the order of the text."""
    found: dict[tuple[int, int], Number] = {}
    for course in courses:
        for number in _of_label(course.label):
            found.setdefault((number.place.start, number.place.end), number)
    for i in range(len(items)):
        for token in words.get(i, ()):
            if token.number is not None:
                found.setdefault((token.number.place.start, token.number.place.end), token.number)
    listed = (n for n in found.values() if not isinstance(n.value, tuple) or len(n.value) > 1)
    return tuple(sorted(listed, key=lambda n: (n.place.start, n.place.end)))


def _of_label(label: Label) -> Iterator[Number]:
    for number in (label.first, label.last, label.span, *label.listed):
        if number is not None and number.place.end:
            yield number


def _abbreviations(
    page: Page, items: tuple[Item, ...], words: Mapping[int, tuple[Token, ...]]
) -> tuple[tuple[str, Span], ...]:
    """Give the abbreviations of the instructions, each with the place of its first use."""
    found: dict[str, Span] = {}
    known: dict[str, bool] = {}
    for i, item in enumerate(items):
        if item.kind is not BlockKind.INSTRUCTION:
            continue
        tokens = words.get(i, ())
        if item.label and item.label.side:
            tokens = (*page.lexed(item.start, item.rest)[0], *tokens)
        for word, place in _joined(tokens):
            if word not in known:
                known[word] = word in page.specials or explain(word, page.terms) is not None
            if known[word]:
                found.setdefault(word, place)
    return tuple(found.items())


def _joined(tokens: tuple[Token, ...]) -> Iterator[tuple[str, Span]]:
    """Give words, `dc2tog` and `v-st` put together again."""
    i = 0
    while i < len(tokens):
        token = tokens[i]
        if token.kind is not TokenKind.WORD:
            i += 1
            continue
        end = i + 1
        while end < len(tokens) and end - i < 5 and _glued(tokens[end - 1], tokens[end]):  # noqa: PLR2004
            end += 1
        if end - i > 1 and tokens[end - 1].kind is TokenKind.WORD:
            yield "".join(t.text for t in tokens[i:end]), token.place.to(tokens[end - 1].place)
        yield token.text, token.place
        if i + 1 < len(tokens) and tokens[i + 1].kind is TokenKind.WORD:
            yield f"{token.text} {tokens[i + 1].text}", token.place.to(tokens[i + 1].place)
        i += 1


def _glued(before: Token, token: Token) -> bool:
    joins = token.kind is not TokenKind.MARK or token.text == "-"
    return joins and token.place.start == before.place.end
