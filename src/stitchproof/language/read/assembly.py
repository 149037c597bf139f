"""Putting sections and blocks together, in the order of the text."""

from dataclasses import field
from typing import Final

from stitchproof.base.diagnostics import Address, Diagnostic
from stitchproof.base.place import Span
from stitchproof.base.records import dataclass, replace
from stitchproof.language.manuscript import Block, BlockKind
from stitchproof.language.number import Number
from stitchproof.language.read.between_told import with_difference
from stitchproof.language.read.courses import Page, main_stitch, read_course
from stitchproof.language.read.even_told import with_even_rows
from stitchproof.language.read.items import Item
from stitchproof.language.read.kept import Cut
from stitchproof.language.read.lex import Token
from stitchproof.language.read.named_rows import (
    again_by_name,
    begins_at,
    row_names,
    with_row_numbers,
)
from stitchproof.language.read.named_run import as_last_rows
from stitchproof.language.read.numerals import word_set
from stitchproof.language.read.recalled import recalled
from stitchproof.language.read.rules import find_rules
from stitchproof.language.read.sections import MAKE_LINE, ONE_PIECE, Heading, Region
from stitchproof.language.read.standing import Standing, standing
from stitchproof.language.read.steps.findings import DigitsTooMany, UnreadWords
from stitchproof.language.tree import Course, RepeatRows, Rule, Section, Unread

_PIECES: Final = word_set("back front sleeve sleeves body yoke hood collar pocket gusset")


@dataclass(slots=True)
class Assembly:
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
    _standing: Standing | None = None
    _named: dict[str, Course] = field(default_factory=dict)
    _words: dict[str, tuple[Token, ...]] = field(default_factory=dict)
    _mains: dict[int, tuple[Course, str | None]] = field(default_factory=dict)  # kept alive
    _pages: dict[str, Page] = field(default_factory=dict)  # by their main stitch

    def add(self, item: Item, cut: Cut) -> None:
        """Take in the next part of the document."""
        match item.kind:
            case BlockKind.HEADING:
                self._open(item)
            case BlockKind.INSTRUCTION:
                self._course(item, cut)
            case BlockKind.CODE | BlockKind.HTML | BlockKind.PICTURE | BlockKind.RULE:
                self.blocks.append(Block(item.kind, self._place_of(item)))
            case BlockKind.PROSE | BlockKind.LIST | BlockKind.QUOTE | BlockKind.TABLE:
                self.blocks.append(Block(item.kind, self._place_of(item)))
                self._narrative(item)

    def _place_of(self, item: Item) -> Span:
        return Span(self.page.source, item.start, item.end)

    def _open(self, item: Item) -> None:
        self.close_section()
        place = self._place_of(item)
        self.blocks.append(Block(BlockKind.HEADING, place, item.level))
        title = item.level == 1 and not self._titled
        self._titled = self._titled or item.level == 1
        self._heading = None if title else item.heading
        self._level = 0 if title else max(item.level, 2)
        self._place = place

    def _course(self, item: Item, cut: Cut) -> None:
        name = self._heading.name if self._heading else ""
        tokens = cut.words
        page, told = self.page, recalled(tokens, self._words)
        told = told or as_last_rows(tokens, self._named, self._held)
        told = told or with_difference(tokens, self._held) or with_even_rows(tokens, self._held)
        told = told or with_row_numbers(tokens, self._named, self._held)
        if told is not None:  # the line says more than its words do
            said = tuple(token.text for token in told)
            page = replace(page, context=page.kept.context(page.context, said))
        follows = begins_at(self._held[-1].label, last=True) if self._held else 0
        course, more = read_course(page, item, told or tokens, follows)
        if any(isinstance(one.finding, DigitsTooMany) for one in cut.found):
            more = tuple(one for one in more if not isinstance(one.finding, UnreadWords))
        found = [one.shifted(item.start) for one in (*cut.found, *more)]
        again = again_by_name(course, tokens, self._named)
        if again is not None:
            course, found = again, found[: len(cut.found)]
        course = self._of_a_piece(course)
        main = self._main_stitch(course)
        if main is not None and main != self.page.main:
            self.page = self._pages.get(main) or replace(self.page, main=main)
            self._pages[main] = self.page
        if found:
            address = Address(name or None, course.label.words or None)
            self.found += (replace(one, address=address) for one in found)
        self._put_in(course)
        for named in row_names(course.label):
            self._named[named] = course
        if item.label is not None and item.label.first is not None:
            self._words[item.label.first.spelling] = tokens
        place = course.place
        self.blocks.append(
            Block(BlockKind.INSTRUCTION, place, course=(len(self.sections), len(self._held)))
        )
        self._held.append(course)
        self.courses.append(course)

    def _main_stitch(self, course: Course) -> str | None:
        """Give the stitch that a line is made of; many lines say the same."""
        known = self._mains.get(id(course.does))
        if known is None:
            known = self._mains[id(course.does)] = course, main_stitch(course.does)
        return known[1]

    def _of_a_piece(self, course: Course) -> Course:
        """Leave unread what refers to a part that no heading names: `work as for first side`."""
        does = course.does
        if not isinstance(does, RepeatRows) or not does.piece:
            return course
        name = does.piece.lower()
        titles = [section.title.lower() for section in self.sections]
        if any(name in title for title in titles):
            return course
        if does.first is not None and not does.extra and name in _PIECES and self._heading:
            return course  # `Row 3 of Back`, where no part is called so: said of the row
        return replace(course, does=(Unread("", does.place),))

    def _put_in(self, course: Course) -> None:
        """Put in the rows that an earlier line stands for and that come before this one."""
        told = standing(self._held[-1], course.label) if self._held else None
        if told is not None:
            self._held[-1], self._standing = told
        if self._standing is not None:
            self._held += self._standing.before(course.label)

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
            self._held += self._standing.rest() if self._standing else ()
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
        self._standing = None
        self._copies = None
