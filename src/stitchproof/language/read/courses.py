"""From an instruction line to a course: label, steps or repeated rows, and stated count."""

import re
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import field
from functools import partial
from typing import Final, TypeAlias

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.place import Span
from stitchproof.base.records import dataclass, replace
from stitchproof.language.number import Number, NumberKind
from stitchproof.language.read.count_words import CLOSING, Counting
from stitchproof.language.read.even_between import read_even_between
from stitchproof.language.read.even_told import spelled_out_even, works_whole_row
from stitchproof.language.read.growing import read_growing
from stitchproof.language.read.items import Item
from stitchproof.language.read.kept import Done, KeptLines, Told
from stitchproof.language.read.lex import Token, TokenKind, lex
from stitchproof.language.read.named_rows import begins_at
from stitchproof.language.read.numerals import LONGEST_NUMBER, word_set
from stitchproof.language.read.openings import first_words
from stitchproof.language.read.row_manner import spoken
from stitchproof.language.read.row_names import Cursor
from stitchproof.language.read.row_often import change_behind
from stitchproof.language.read.row_repeats import read_row_repeat
from stitchproof.language.read.rows_counted import of_sizes, row_by_row
from stitchproof.language.read.shaping import read_shaping
from stitchproof.language.read.shorthand import NO_SHORTHAND, Shorthand, spelled_out
from stitchproof.language.read.size_names import NO_SIZES, SizeNames
from stitchproof.language.read.some_sizes import for_these, label_for_these, listed_for, slashed
from stitchproof.language.read.stated import take_stated
from stitchproof.language.read.steps.findings import DigitsTooMany
from stitchproof.language.read.steps.line import read_steps
from stitchproof.language.read.steps.reader import Context
from stitchproof.language.read.stripes import read_stripes
from stitchproof.language.tree import (
    Chain,
    Colour,
    Course,
    Facing,
    Group,
    Join,
    Label,
    Make,
    Remark,
    Repeat,
    RepeatRows,
    Special,
    Steps,
    Turn,
    Unread,
)
from stitchproof.trade.tables import Terms

How: TypeAlias = tuple[bool | None, bool, int]
"""Of a label: rounds, where known; several rows; its first row, where the line names rows."""
LONGEST: Final = 5_000  # characters of one instruction; the longest in print has some hundreds
_LEADS: Final = word_set(
    "with using change changing switch in join joining working work pick drop attach"
)
_AGAIN: Final = frozenset(("rep", "repeat", "same", "as", "work"))
_FOR: Final = frozenset(("as", "for", "the"))
_PARTING: Final = frozenset((",", ".", ";", "and", "then"))
_BEHIND: Final = word_set("until till x for with using ending end alternately another . : ;")
_ROWS: Final = frozenset(("row", "rows", "rnd", "rnds", "round", "rounds", "last", "previous"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """What every line of a manuscript is read with.

    Attributes
    ----------
    source, text : str
        Its name, and the whole text.
    declared : frozenset of str
        Names that formulas may use.
    sizes : int or None
        How many sizes there are, where that is known.
    names : SizeNames
        What they are called, where that is known.
    terms : Terms
        Whose stitch names it uses.
    specials : mapping of str to Special
        Stitches the author defined.
    main : str
        Stitch of a bare "inc" or "dec" in a line that names no other: that of the line above.
    shorthand : mapping of str to str
        Letters that stand for stitches, and the words they stand for.
    kept : KeptLines
        Lines read before.
    context : int
        Stands there for all of the above that decides how a line is read, but for `main`.
    """

    source: str
    text: str
    declared: frozenset[str] = frozenset()
    sizes: int | None = None
    names: SizeNames = NO_SIZES
    terms: Terms = "US"
    specials: Mapping[str, Special] = field(default_factory=dict)
    main: str = "sc"
    shorthand: Shorthand = field(default_factory=lambda: NO_SHORTHAND)
    kept: KeptLines = field(default_factory=KeptLines)
    context: int = 0

    def lexed(
        self, start: int, end: int, *, line: int = 0
    ) -> tuple[tuple[Token, ...], list[Diagnostic]]:
        """Cut the words between two offsets into tokens, placed from where their line begins."""
        return self._cut(self.text[start:end], start - line)

    def worked(
        self, start: int, end: int, *, line: int, only: tuple[str, ...] = ()
    ) -> tuple[tuple[Token, ...], list[Diagnostic]]:
        """Cut the words of an instruction, with what the author's letters stand for."""
        words = self.text[start:end]
        place = Span(self.source, start - line, end - line)
        told = slashed(words, len(only)) or listed_for(words, len(only))
        sizes = len(only) if told else self.sizes  # `48/52/56`, `17 (19)` of six sizes
        tokens, found = lex(words, place, self.declared, sizes, self.names)
        found += [
            Diagnostic(finding=DigitsTooMany(one.written), place=one.place)
            for one in tokens
            if one.kind is TokenKind.WORD
            and len(one.text) > LONGEST_NUMBER
            and one.text[0].isdigit()
        ]
        return spelled_out(for_these(tokens, only, self.names.names), self.shorthand), found

    def _cut(self, words: str, start: int) -> tuple[tuple[Token, ...], list[Diagnostic]]:
        place = Span(self.source, start, start + len(words))
        return lex(words, place, self.declared, self.sizes, self.names)

    def number_at(self, start: int, end: int) -> Number | None:
        """Read the words between two offsets as one number."""
        return self.number_in(self.text[start:end], start)

    def number_in(self, words: str, start: int) -> Number | None:
        """Read words as one number, placed from an offset on."""
        tokens, _ = self._cut(words, start)
        one = len(tokens) == 1 and tokens[0].kind is TokenKind.NUMBER
        number = tokens[0].number if one else None
        return number if number is not None and number.kind is NumberKind.COUNT else None

    def line(self, item: Item, *beside: Hashable) -> tuple[str, Hashable]:
        """Give the words of an instruction behind its label, and all that decides what they say.

        Their places are told from where the instruction begins, so how far that is decides too.
        """
        return self.text[item.rest : item.end], (item.rest - item.start, item.only, *beside)

    def steps(
        self,
        tokens: tuple[Token, ...],
        *,
        rounds: bool | None = None,
        several: bool = False,
        behind: bool = False,
    ) -> tuple[Steps, list[Diagnostic]]:
        """Read tokens as steps."""
        context = Context(
            terms=self.terms,
            specials=self.specials,
            rounds=rounds,
            main=self.main,
            several=several,
            sizes=self.names,
            behind=behind,
        )
        return read_steps(tokens, context)


def whole_clauses(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Leave out the last clause of words that were cut off in the middle of one."""
    for end in range(len(tokens), 0, -1):
        if tokens[end - 1].text in {",", ";", "."}:
            return tokens[:end]
    return tokens


def read_body(page: Page, start: int, end: int) -> Steps:
    """Read the group that a special stitch stands for: steps in one place."""
    tokens, _ = page.lexed(start, end)
    if not tokens:
        return ()
    at = Span(page.source, end, end)
    around = [Token(TokenKind.MARK, text, at) for text in ("(", ")")]
    place = [Token(TokenKind.WORD, text, at) for text in ("in", "same", "st")]
    steps, _ = page.steps((around[0], *tokens, around[1], *place))
    match steps:
        case (Group(body=body),):
            return body
        case (Make() | Unread(),):
            return steps
        case _:
            return tuple(steps)


def read_course(
    page: Page, item: Item, tokens: tuple[Token, ...], follows: int = 0
) -> tuple[Course, tuple[Diagnostic, ...]]:
    """Read one instruction line.

    Parameters
    ----------
    page : Page
        What the line is read with.
    item : Item
        The line.
    tokens : tuple of Token
        Its words without the label, placed from where the line begins.
    follows : int
        Number of the row before it, alike in all sizes; 0: not known.

    Returns
    -------
    course, found
        The findings are placed from where the line begins too.
    """
    rounds = item.label.round or None if item.label else None
    several = item.label is not None and item.label.several
    words = page.text[item.start : item.end]
    goes_on = item.label is None and follows > 0
    names_rows = (several or goes_on) and _NAMES_ROWS.search(words, item.rest - item.start)
    begins = (follows + 1 if goes_on else begins_at(item.label)) if names_rows else 0
    how = (rounds, several, begins)
    told = page.kept.told.get(
        *page.line(item, page.context, *how, page.main), lambda: _tell(page, item, tokens, how)
    )
    label = item.label or _unlabelled(words, page.source, told)
    label = label_for_these(label, item.only, page.names.names)
    if isinstance(told.does, RepeatRows) and _numbers_a_step(label, told.does):
        label = replace(label, first=None, last=None)
    place = Span(page.source, item.start, item.end)
    stated = told.stated
    if several and stated is not None and page.sizes is None:
        stated = row_by_row(stated, label)
    elif not several and stated is not None and page.sizes is not None:
        told_at = stated.place.shifted(item.start)
        stated = of_sizes(stated, page.sizes, page.text[told_at.start : told_at.end])
    return Course(label, told.does, stated, item.only, place), told.found


_NAMES_ROWS: Final = re.compile(r"\b(?:rows?|rn?ds?|rounds?)\s+\d", re.IGNORECASE)


def _tell(page: Page, item: Item, tokens: tuple[Token, ...], how: How) -> Told:
    """Read what a line says behind its label."""
    left, stated = take_stated(tokens, Counting(page.terms, page.specials))
    does, found = _done(page, item, tokens, left, how)
    if item.end - item.rest > LONGEST and not isinstance(does, RepeatRows):
        start = tokens[-1].place.end if tokens else item.rest - item.start
        rest = Span(page.source, start, item.end - item.start)
        does = (*does, Unread(page.text[item.start + start : item.end].strip(), rest))
    return Told(left, does, stated, tuple(found))


def _done(
    page: Page,
    item: Item,
    tokens: tuple[Token, ...],
    left: tuple[Token, ...],
    how: How,
) -> tuple[Steps | RepeatRows, Sequence[Diagnostic]]:
    """Read what a line does: mostly its words up to the count, which other lines have as well."""
    if not left or left != tokens[: len(left)]:
        return _does(page, left, how)
    end = item.start + left[-1].place.end
    _, beside = page.line(item, page.context, *how, page.main)
    done = page.kept.done.get(
        page.text[item.rest : end],
        beside,
        lambda: Done(left, *_does(page, left, how)),
    )
    if done.words != left:  # what follows has changed how they are cut
        return _does(page, left, how)
    return done.does, done.found


def _numbers_a_step(label: Label, does: RepeatRows) -> bool:
    """Whether the number of `10. Rep Rows 5 and 6 until …` is one of steps, not of rows."""
    until = does.until_rows or does.until_count or does.until_length or does.until_words
    many = does.often or until
    return bool(many) and label.words.isdigit()


def main_stitch(does: Steps | RepeatRows) -> str | None:
    """Give the stitch a line is made of: its last plain one; None where it names none."""
    if isinstance(does, RepeatRows):
        return None
    made: str | None = None
    for step in does:
        inner = step.body if isinstance(step, Repeat | Group) else (step,)
        for one in inner:
            if isinstance(one, Make) and one.stitch.kind != "sl_st":
                made = one.stitch.kind
    return made


def _does(
    page: Page, tokens: tuple[Token, ...], how: How
) -> tuple[Steps | RepeatRows, list[Diagnostic]]:
    rounds, several, begins = how
    growing = read_growing(tokens)
    if growing is not None:
        return growing, []
    striped = read_stripes(tokens, several=several)
    if striped is not None:
        return striped, []
    changed = _again_with_a_change(page, tokens)
    if changed is not None:
        return changed, []
    even = spelled_out_even(tokens)
    if even and read_row_repeat(tokens[even:], partial(page.steps, behind=True)) is None:
        steps, found = page.steps(tokens[even:], rounds=rounds, several=several)
        if tokens[even - 1].text == ":" or works_whole_row(steps):
            told = Remark(spoken(tokens[: even - 1]), tokens[0].place.to(tokens[even - 2].place))
            return (told, *steps), found
    shaped = read_shaping(tokens, page.steps, several=several, begins=begins)
    if shaped is not None:
        return shaped
    cut = 0 if read_even_between(Cursor(tokens)) else _repeat_behind_a_lead(tokens)
    repeated = read_row_repeat(tokens[cut:], partial(page.steps, behind=True))
    if repeated is None:
        return page.steps(tokens, rounds=rounds, several=several)
    made, found = repeated
    if cut:
        lead, more = page.steps(tokens[:cut])
        if not lead:  # the loop worked in: the stitches are those of the row all the same
            words = spoken(tokens[: cut - 1])
            lead = (Remark(words, tokens[0].place.to(tokens[cut - 2].place)),)
        made = replace(made, extra=(*lead, *made.extra), place=tokens[0].place.to(made.place))
        found = [*more, *found]
    return made, found


def _again_with_a_change(page: Page, tokens: tuple[Token, ...]) -> RepeatRows | None:
    """Read `Rep Row 2, increasing 8 sts each row`: what the row comes to, or one more thing."""
    at = change_behind(tokens)
    again = read_row_repeat(tokens[:at], partial(page.steps, behind=True)) if at else None
    shaped = read_shaping(tokens[at:], page.steps, several=True) if again is not None else None
    if again is None or shaped is None or again[1] or again[0].first is None or again[0].piece:
        return None
    place = tokens[0].place.to(tokens[-1].place)
    return replace(again[0], extra=(*again[0].extra, *shaped[0]), place=place)


def _repeat_behind_a_lead(tokens: tuple[Token, ...]) -> int:
    """Find `rep Row 2`, `same as Row 2` behind `With B,`, `Join C and`; 0: it begins otherwise."""
    closing = CLOSING.get(tokens[0].text) if tokens else None  # `(B) rep Row 2`
    if not tokens or (closing is None and tokens[0].text not in _LEADS):
        return 0
    parting = _PARTING if closing is None else {closing}
    for i in range(1, min(12, len(tokens) - 1)):
        if tokens[i - 1].text not in parting or tokens[i].text not in _AGAIN:
            continue
        named = i + 1
        while named < len(tokens) and tokens[named].text in _AGAIN | _FOR:
            named += 1
        ordinal = tokens[named : named + 1] and tokens[named].kind is TokenKind.ORDINAL
        ahead = named + 1 if ordinal else named
        if ahead < len(tokens) and tokens[ahead].text in _ROWS:
            return i
    return 0


def _unlabelled(words: str, source: str, told: Told) -> Label:
    """Name a line without a label: `Ch` for a foundation, else by its first words."""
    place = Span(source, 0, len(words))
    if isinstance(told.does, RepeatRows):
        return Label(_repeated_rows(words, told.words, told.does), place=place)
    if _is_foundation(told.does):
        return Label("Ch", place=place)
    return Label(first_words(words), place=place)


def _repeated_rows(words: str, tokens: tuple[Token, ...], does: RepeatRows) -> str:
    """Name a line by the rows it repeats: `Rep Rows 2 and 3`."""
    often = does.often.number.place if does.often else None
    end = 1
    while end < len(tokens) and tokens[end].text not in _BEHIND and tokens[end].place != often:
        end += 1
    start, stop = tokens[0].place.start, tokens[end - 1].place.end
    return first_words(words[start:stop].lstrip("*[( "), most=8)


def _is_foundation(steps: Steps) -> bool:
    others = [
        s
        for s in steps
        if not isinstance(s, Chain | Colour | Facing | Remark | Turn | Join | Unread)
    ]
    return any(isinstance(s, Chain) for s in steps) and not others
