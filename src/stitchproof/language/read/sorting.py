"""Sort the lines of the body into instructions and narrative.

A line is an instruction if it opens with a row label or a verb of the grammar; a line without a
label goes on with the one above unless a blank line lies between. Below a heading such as "Notes"
everything is prose, whatever verb a sentence there begins with.
"""

import re
from collections.abc import Hashable
from typing import Final, TypeAlias

from stitchproof.base.records import dataclass, replace
from stitchproof.language.manuscript import BlockKind
from stitchproof.language.read.blocks import Line, Stretch
from stitchproof.language.read.cutting import cut_lines
from stitchproof.language.read.for_sizes import (
    label_only,
    leading_sizes,
    read_ends_here,
    read_only,
)
from stitchproof.language.read.items import Item, with_own_label
from stitchproof.language.read.label_numbers import Source
from stitchproof.language.read.labels import read_label
from stitchproof.language.read.neighbours import (
    SHORT,
    another_row,
    begins_rows,
    capital,
    closed,
    ends_with_a_count,
    fastened,
    follows,
    forms_a_pattern,
    founds,
    goes_on,
    stands_apart,
    starts_on_its_own,
)
from stitchproof.language.read.openings import (
    BULLET,
    explains_a_term,
    is_convention,
    opens_strongly,
    opens_weakly,
    skip_marks,
    works_rows_again,
)
from stitchproof.language.read.other_sizes import with_other_sizes
from stitchproof.language.read.sections import (
    Region,
    heading_region,
    read_heading,
)
from stitchproof.language.read.shelf import Shelf
from stitchproof.language.read.size_ends import where_it_ends
from stitchproof.language.read.sorter import (
    WORKED,
    Sorter,
    begins,
    ends_some,
    go_on,
    leaves_out,
    sizes_of,
    titled_for_all,
)
from stitchproof.language.read.specials import is_definition
from stitchproof.language.tree import Label

_LISTED: Final = re.compile(r"\s{0,8}(?:[-–•·◦▪*+]\s+|\d{1,3}[.)]\s+)")
_STRUCTURED: Final = (Region.NARRATIVE, Region.SPECIAL)

Sorted: TypeAlias = tuple[tuple[Item, ...], Region | None, tuple[str, ...], bool, int | str]
Kept: TypeAlias = tuple[Shelf[Sorted], Hashable]


def sort_stretches(
    source: Source,
    stretches: tuple[Stretch, ...],
    sizes: tuple[str, ...] = (),
    kept: Kept | None = None,
) -> tuple[Item, ...]:
    """Sort stretches into headings, instructions, narrative and the rest.

    Parameters
    ----------
    source : Source
        The text.
    stretches : tuple of Stretch
        Its stretches.
    sizes : tuple of str
        Names of the sizes, where they are known.
    kept : (Shelf, hashable), optional
        Runs of lines that were sorted before, and what all of these were sorted with.
    """
    shelf, beside = kept or (Shelf(), None)
    pieces = _piece_levels(source, stretches)
    sorter = Sorter(source, Region.INTRO if pieces else Region.PIECE, sizes=sizes)
    items: list[Item] = []
    titled = False
    for stretch in stretches:
        if stretch.kind is BlockKind.HEADING:
            items.append(_heading(sorter, stretch, title=stretch.level == 1 and not titled))
            titled = titled or stretch.level == 1
        elif stretch.kind is BlockKind.PROSE:
            items += _run(sorter, stretch, shelf, beside)
        else:
            items.append(_item(stretch.kind, stretch.start, stretch.end, sorter))
    return with_other_sizes(items, sizes)


def _piece_levels(source: Source, stretches: tuple[Stretch, ...]) -> bool:
    """Whether any heading begins a piece, so that what stands before it is an introduction."""
    headings = [s for s in stretches if s.kind is BlockKind.HEADING]
    ones = [s for s in headings if s.level == 1]
    below = [s for s in headings if s.level > 1] + ones[1:]
    return any(
        heading_region(source.text[s.start : s.end]) in {Region.PIECE, Region.FINISHING}
        for s in below
    )


def _heading(sorter: Sorter, stretch: Stretch, *, title: bool) -> Item:
    heading = read_heading(sorter.source, stretch.start, stretch.end)
    sorter.soft, sorter.ended, sorter.until = None, False, 0
    if title:
        if heading.region in _STRUCTURED:
            sorter.region = heading.region
        sorter.level = 1
    else:
        # Below "Notes" deeper headings hold notes as well; below a piece or "Finishing", work.
        inside = sorter.region in _STRUCTURED and stretch.level > sorter.level > 1
        if not inside:
            sorter.region, sorter.level = heading.region, stretch.level
    rest, only = sizes_of(sorter, Line(stretch.start, stretch.end))
    sorter.only = only or () if rest >= stretch.end else ()  # `### Sizes L and XL only`
    item = _item(BlockKind.HEADING, stretch.start, stretch.end, sorter)
    return replace(item, level=stretch.level, heading=heading)


def _item(kind: BlockKind, start: int, end: int, sorter: Sorter) -> Item:
    text = sorter.source.text
    while end > start and text[end - 1].isspace():
        end -= 1
    return Item(kind=kind, start=start, end=end, region=sorter.where())


@dataclass(slots=True)
class _Open:
    """The instruction or the narrative that the next line may go on with."""

    item: Item
    bullet: str = ""
    bare: bool = False


def _works(opened: _Open | None) -> bool:
    return opened is not None and opened.item.kind is BlockKind.INSTRUCTION


def _run(sorter: Sorter, stretch: Stretch, shelf: Shelf[Sorted], beside: Hashable) -> list[Item]:
    """Sort a run of raw lines: its words and the state before it tell all that it comes to."""
    start = stretch.lines[0].start
    words = sorter.source.text[start : stretch.lines[-1].end]

    def read() -> Sorted:
        here = replace(sorter, source=replace(sorter.source, text=words))
        lines = tuple(Line(line.start - start, line.end - start) for line in stretch.lines)
        items = tuple(with_own_label(item) for item in _lines(here, lines))
        return items, here.soft, here.only, here.ended, here.until

    state = (beside, sorter.region, sorter.soft, sorter.only, sorter.ended, sorter.until)
    items, sorter.soft, sorter.only, sorter.ended, sorter.until = shelf.get(words, state, read)
    return [item.further_down(start) for item in items]


def _lines(sorter: Sorter, lines: tuple[Line, ...]) -> list[Item]:
    """Sort raw lines."""
    _soften(sorter, lines)
    items: list[Item] = []
    current: _Open | None = None
    for line in cut_lines(sorter.source, lines):
        opened = _opened(sorter, line, current)
        if opened is None and current is not None:
            current.item = _longer(sorter, current.item, line)
            continue
        if current is not None:
            items.append(current.item)
        current = opened or _narrative(sorter, line)
        if current.item.kind is BlockKind.INSTRUCTION:
            sorter.soft = None
    if current is not None:
        items.append(current.item)
    return items


def _soften(sorter: Sorter, lines: tuple[Line, ...]) -> None:
    """Take a line such as "Notes:" or "Materials" for the heading it is meant to be."""
    first = lines[0].of(sorter.source.text).strip()
    words = first.strip("*_ :")
    if not words or len(words) > SHORT or first[-1:] in ".;," or ":" in words:
        return
    few = len(words.split()) <= 2  # noqa: PLR2004 - `Special stitches`
    shouted = first.partition("(")[0].isupper()  # `SLEEVES (both alike)`
    alone = few or len(lines) == 1 or first.endswith((":", "**", "_")) or shouted
    if not alone or read_only(first, 0, len(first)) or opens_strongly(first):
        return
    region = heading_region(words)
    if region in _STRUCTURED:
        sorter.soft = region
    elif sorter.soft is not None and len(words.split()) < 5:  # noqa: PLR2004 - a title, no sentence
        sorter.soft = None


def _longer(sorter: Sorter, item: Item, line: Line) -> Item:
    text = sorter.source.text
    end = line.end
    while end > line.start and text[end - 1].isspace():
        end -= 1
    return replace(item, end=max(end, item.end))


def _narrative(sorter: Sorter, line: Line) -> _Open:
    text = sorter.source.text
    start = line.start
    while start < line.end and text[start].isspace():
        start += 1
    item = _item(BlockKind.PROSE, start, line.end, sorter)
    bullet = _LISTED.match(text, line.start, line.end)
    if bullet and bullet.end() < item.end and sorter.where() is not Region.PIECE:
        item = replace(item, kind=BlockKind.LIST, start=bullet.end())
    return _Open(item)


def _opened(sorter: Sorter, line: Line, current: _Open | None) -> _Open | None:
    """Open an instruction or another narrative at this line; None: it goes on with the above."""
    text = sorter.source.text
    words = line.of(text)
    ended = read_ends_here(words, sorter.sizes)
    if ended:
        return _ending(sorter, line, ended)
    if leaves_out(sorter, words, worked=_works(current)):
        return _narrative(sorter, line)
    start, only = sizes_of(sorter, line)
    if start >= line.end and only is not None:  # `Sizes L and XL only:` alone
        begins(sorter, only)
        return _narrative(sorter, line)
    instruction = _instruction(sorter, Line(start, line.end), current if only is None else None)
    if instruction is not None:
        ends_some(sorter, text[start : line.end], only)
        go_on(sorter, instruction.item.label)
        sizes = sorter.only if only is None else only
        own = instruction.item.label
        sizes = (label_only(own.words, sorter.sizes) if own is not None else ()) or sizes
        instruction, sizes = _for_some(instruction, sizes, sorter)
        start = instruction.item.start
        if only is not None:
            start = min(line_start(text, line), start)
        instruction.item = replace(instruction.item, start=start, only=sizes)
        return instruction
    if only is not None and (not only or "only" in text[line.start : start].lower()):
        begins(sorter, only)
    elif current is None and titled_for_all(sorter, words):
        begins(sorter, ())
    return None if current is None else _parted(sorter, line, current)


def _for_some(
    opened: _Open, sizes: tuple[str, ...], sorter: Sorter
) -> tuple[_Open, tuple[str, ...]]:
    """Take `(medium and large)` behind a label for the sizes that work the row."""
    item = opened.item
    if item.label is None or item.label.first is None:
        return opened, sizes
    told = leading_sizes(sorter.source.text, item.rest, item.end, sorter.sizes)
    if told is None:
        return opened, sizes
    return replace(opened, item=replace(item, rest=told[1])), told[0]


def _parted(sorter: Sorter, line: Line, current: _Open) -> _Open | None:
    """Part a line that opens no instruction from what it stands below; None: it goes on with it."""
    text = sorter.source.text
    words = line.of(text)
    worked = _works(current)
    whole = closed(text, current.item.start, current.item.end)
    explains = is_convention(words.strip(), 0) or explains_a_term(words, 0)
    if worked and whole and (explains or is_definition(words)):
        return _narrative(sorter, line)
    counted = ends_with_a_count(text, current.item.start, current.item.end)
    if worked and counted and starts_on_its_own(words):
        item = _item(BlockKind.INSTRUCTION, line_start(text, line), line.end, sorter)
        return _Open(replace(item, rest=item.start))
    if worked and stands_apart(words, whole=whole or counted):
        return _narrative(sorter, line)
    if not worked and _LISTED.match(words) and sorter.where() is not Region.PIECE:
        return _narrative(sorter, line)
    if not worked and is_definition(words, sure=sorter.where() is Region.SPECIAL):
        return _narrative(sorter, line)
    return None


def _ending(sorter: Sorter, line: Line, others: tuple[str, ...]) -> _Open:
    """Take `Size S ends here` for what those sizes do last, where rows stand."""
    go_on = tuple(size for size in others if size in sorter.only)
    sorter.only, sorter.ended = go_on or others, False
    if sorter.where() not in WORKED:
        return _narrative(sorter, line)
    start = line_start(sorter.source.text, line)
    item = _item(BlockKind.INSTRUCTION, start, line.end, sorter)
    ended = tuple(size for size in sorter.sizes if size not in others)
    rest = start + where_it_ends(sorter.source.text[start : item.end])
    return _Open(replace(item, rest=rest, only=ended))


def line_start(text: str, line: Line) -> int:
    """Give the first character of a line that is no space."""
    start = line.start
    while start < line.end and text[start].isspace():
        start += 1
    return start


def _instruction(sorter: Sorter, line: Line, current: _Open | None) -> _Open | None:
    """Open an instruction at this line, if it is one."""
    if sorter.region in _STRUCTURED:
        return None
    text = sorter.source.text
    words = line.of(text)
    bullet = (BULLET.match(words) or [""])[0].strip()
    worked = _works(current)
    bare = sorter.where() is Region.PIECE and (
        current is None or not worked or (current.bare and current.bullet == bullet)
    )
    next_one = current is not None and worked and sorter.where() is Region.PIECE
    if next_one and current is not None and not follows(current.item.label, words):
        next_one = begins_rows(text[current.item.start : current.item.end], words)
    labelled = read_label(sorter.source, line.start, line.end, bare=bare or next_one)
    if (
        labelled is not None
        and current is not None
        and goes_on(text, (current.item.start, current.item.end), labelled[0])
    ):
        labelled = None
    if labelled is not None and not _is_a_name(sorter, labelled[0], words):
        label, rest = labelled
        item = _item(BlockKind.INSTRUCTION, label.place.start, line.end, sorter)
        numbered = label.first is not None or label.span is not None
        if numbered or sorter.soft is None:
            return _Open(
                replace(item, label=label, rest=min(rest, item.end)), bullet, _is_bare(label)
            )
    if is_definition(words) and not worked:
        return None
    if not _may_open(sorter, words, current, bullet):
        return None
    start = line.start + skip_marks(words)
    if bullet == "*":  # no bullet but the mark of a repeat
        start = line.start + words.index("*")
    item = _item(BlockKind.INSTRUCTION, start, line.end, sorter)
    return _Open(replace(item, rest=start), bullet if bullet != "*" else "")


def _is_a_name(sorter: Sorter, label: Label, words: str) -> bool:
    """Whether a word label defines a stitch: `Shell: 5 dc in same st`, `US terms. V-st: …`."""
    if label.first is not None or label.span is not None:
        return False
    if is_definition(words, sure=sorter.where() is Region.SPECIAL):
        return True
    sentence = words.rfind(". ", 0, len(label.words) + _MARKS)
    return sentence > 0 and is_definition(words[sentence + 2 :])


_MARKS: Final = 6  # characters of a bullet and of emphasis before a label


def _is_bare(label: Label) -> bool:
    return label.words[:1].isdigit()


def _may_open(sorter: Sorter, words: str, current: _Open | None, bullet: str) -> bool:
    """Whether a line without a label may begin an instruction here, and does."""
    if current is not None and current.item.kind is BlockKind.INSTRUCTION:
        again = works_rows_again(words) or forms_a_pattern(words)
        if again and capital(words):
            return True  # rows worked again are a line of their own, wherever they stand
        above = (current.item.start, current.item.end)
        if fastened(sorter.source.text, *above) and capital(words):
            return opens_strongly(words) or opens_weakly(words)
        if capital(words) and another_row(sorter.source.text, above, words):
            return True
        same_bullet = bullet and bullet == current.bullet
        return bool(same_bullet and (opens_strongly(words) or opens_weakly(words)))
    text = sorter.source.text
    if current and not (closed(text, current.item.start, current.item.end) and capital(words)):
        return False
    if sorter.soft is not None or sorter.where() is Region.INTRO:
        return founds(words)
    again = works_rows_again(words) or forms_a_pattern(words)
    return again or opens_strongly(words) or opens_weakly(words)
