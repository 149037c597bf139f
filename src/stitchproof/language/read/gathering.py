"""Numbers and abbreviations of a whole manuscript."""

from collections.abc import Iterator, Mapping
from functools import lru_cache, partial

from stitchproof.base.place import Span
from stitchproof.language.manuscript import BlockKind
from stitchproof.language.number import Number
from stitchproof.language.read.courses import Page
from stitchproof.language.read.items import Item
from stitchproof.language.read.kept import Cut, Named
from stitchproof.language.read.lex import Token, TokenKind
from stitchproof.language.tree import Course, Label
from stitchproof.trade.tables import Terms
from stitchproof.trade.terms import explain


def gather_numbers(
    items: tuple[Item, ...], cuts: Mapping[int, Cut], courses: list[Course]
) -> tuple[Number, ...]:
    """Give every formula and list of sizes, in the order of the text."""
    found: dict[tuple[int, int], Number] = {}
    for course in courses:
        for number in (*_of_label(course.label), *_of_count(course)):
            if number.by_size and not _for_unknown(number, course.only):
                there = number.further_on(course.place.start)
                found.setdefault((there.place.start, there.place.end), there)
    row_by_row = {course.place.start: course for course in courses if _counts_each_row(course)}
    for i, cut in cuts.items():
        line = line_of(items[i])
        apart = row_by_row.get(items[i].start)
        for number in cut.numbers:
            if _for_unknown(number, items[i].only):
                continue
            there = number.further_on(line)
            if apart is None or not _within_count(there.place, apart):
                found.setdefault((there.place.start, there.place.end), there)
    return tuple(sorted(found.values(), key=lambda n: (n.place.start, n.place.end)))


def _counts_each_row(course: Course) -> bool:
    """Whether a line counts each of its rows with one number: `(22, 20)` are no two sizes."""
    rowwise = course.stated.rowwise if course.stated is not None else ()
    return bool(rowwise) and not any(one.number.by_size for row in rowwise for one in row)


def _within_count(place: Span, course: Course) -> bool:
    assert course.stated is not None
    counted = course.at(course.stated.place)
    return counted.start <= place.start < counted.end


def line_of(item: Item) -> int:
    """Give from where the words of an item are placed: an instruction from where it begins."""
    return item.start if item.kind is BlockKind.INSTRUCTION else 0


def _for_unknown(number: Number, only: tuple[str, ...]) -> bool:
    """Whether a number has a value for each size of a line, which the pattern does not have."""
    return isinstance(number.value, tuple) and 1 < len(number.value) == len(only)


def _of_label(label: Label) -> Iterator[Number]:
    for number in (label.first, label.last, label.span, *label.listed):
        if number is not None and number.place.end:
            yield number


def _of_count(course: Course) -> Iterator[Number]:
    statements = course.stated.statements if course.stated is not None else ()
    return (one.number for one in statements)


def gather_abbreviations(
    page: Page, items: tuple[Item, ...], cuts: Mapping[int, Cut]
) -> tuple[tuple[str, Span], ...]:
    """Give the abbreviations of the instructions, each with the place of its first use."""
    found: dict[str, Span] = {}
    for i, item in enumerate(items):
        if item.kind is BlockKind.INSTRUCTION:
            side = page.text[item.start : item.rest] if item.label and item.label.side else ""
            named = page.kept.named.get(
                *page.line(item, page.context, side), partial(_named, page, item, cuts[i].words)
            )
            for word, place in named:
                if word not in found:
                    found[word] = place.shifted(item.start)
    return tuple(found.items())


def _named(page: Page, item: Item, tokens: tuple[Token, ...]) -> Named:
    """Give the abbreviations of a line, each with the place in it of its first use."""
    if item.label and item.label.side:
        tokens = (*page.lexed(item.start, item.rest, line=item.start)[0], *tokens)
    if page.shorthand:  # what a letter of the author's stands for is not what is written
        line = page.text[item.start : item.end]
        tokens = tuple(t for t in tokens if line[t.place.start : t.place.end] not in page.shorthand)
    found: dict[str, Span] = {}
    for word, first, last in _joined(tokens):
        if word not in found and (word in page.specials or _explained(word, page.terms)):
            found[word] = tokens[first].place.to(tokens[last].place)
    return tuple(found.items())


@lru_cache(maxsize=4096)
def _explained(word: str, terms: Terms) -> bool:
    return explain(word, terms) is not None


def _joined(tokens: tuple[Token, ...]) -> Iterator[tuple[str, int, int]]:
    """Give words, each with its first and last token; `dc2tog` and `v-st` put together again."""
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
            yield "".join(t.text for t in tokens[i:end]), i, end - 1
        yield token.text, i, i
        if i + 1 < len(tokens) and tokens[i + 1].kind is TokenKind.WORD:
            yield f"{token.text} {tokens[i + 1].text}", i, i + 1
        i += 1


def _glued(before: Token, token: Token) -> bool:
    joins = token.kind is not TokenKind.MARK or token.text == "-"
    return joins and token.place.start == before.place.end
