"""The author's own part of an edition: every block of the manuscript, in its order.

Nothing of the author's is left out but heading marks, bullets and rules; a row that a one-size
copy does not need is named, so that no maker wonders where it is.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Final

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.edition.matter import Matter, on_first, one_line
from stitchproof.edition.model import (
    Block,
    Figure,
    Heading,
    Ink,
    Items,
    Paragraph,
    Part,
    Quote,
    Row,
    Run,
    Table,
    Verbatim,
    Words,
    plain,
    read_out,
)
from stitchproof.edition.pieces import PICTURE, picture_target
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language import manuscript as source
from stitchproof.language.manuscript import BlockKind
from stitchproof.language.tree import Course, Label
from stitchproof.language.write.numbers import ABSENT, size_words

_BULLET: Final = re.compile(r"\s*(?:[-*+•]|(\d{1,9})[.)])\s+")
_QUOTED: Final = re.compile(r"\s{0,3}>\s?")
_FENCE: Final = re.compile(r"\s{0,3}(?:`{3,}|~{3,})")
_CELLS: Final = re.compile(r"(?<!\\)\|")
_DEEPEST: Final = 6


@dataclass(frozen=True, slots=True)
class Body:
    """The author's parts.

    Attributes
    ----------
    parts : tuple of Part
        The first without a title: what stands before the first heading.
    placed : frozenset of str
        Pieces whose schematic the author has put in.
    """

    parts: tuple[Part, ...]
    placed: frozenset[str]


def body(matter: Matter, title: str, schematics: Mapping[str, Figure]) -> Body:
    """Turn the blocks of a manuscript into parts.

    Parameters
    ----------
    matter : Matter
        What the edition is made from.
    title : str
        Title of the edition; a first heading that only repeats it is left out.
    schematics : mapping of str to Figure
        By the heading of the piece and by its title.
    """
    worked = {course.place.start: course for course in matter.proof.courses}
    parts: list[tuple[Words, list[Block]]] = [((), [])]
    placed: set[str] = set()
    depth = 2
    for block in matter.manuscript.blocks:
        if block.kind is BlockKind.HEADING:
            words = matter.words(block.place)
            if block.level == 1 and read_out(words) == title and len(parts) == 1:
                continue
            if block.level <= 2 or len(parts) == 1:  # noqa: PLR2004 - the level of parts
                parts.append((words, []))
                depth = 2
            else:
                depth = min(block.level, depth + 1, _DEEPEST)
                parts[-1][1].append(Heading(depth, words))
        elif block.kind is BlockKind.PICTURE:
            parts[-1][1].append(_picture(matter, block.place, schematics, placed))
        elif block.kind is BlockKind.INSTRUCTION:
            parts[-1][1].append(_row(matter, block, worked.get(block.place.start)))
        else:
            parts[-1][1].extend(_narrative(matter, block))
    made = tuple(Part(words, tuple(blocks)) for words, blocks in parts)
    return Body(made, frozenset(placed))


# --------------------------------------------------------------------------- instructions


def _row(matter: Matter, block: source.Block, worked: WorkedCourse | None) -> Row:
    course = _course(matter, block)
    words = matter.words(block.place)
    if course is not None and _is_labelled(course.label):
        words = _labelled(matter, block.place, course.label)
    if worked is None:
        return Row(words)
    if matter.names and set(worked.absent) >= set(matter.names):
        sizes = " or ".join(matter.names)
        label = words[0].words if words and words[0].ink is Ink.LABEL else worked.label
        said = Run(f" Not worked in size {sizes}." if sizes.strip() else " Not worked.")
        return Row((Run(f"{label.rstrip(' :.')}:", Ink.LABEL), said), worked=False)
    return Row(words, _count(matter, worked))


def _course(matter: Matter, block: source.Block) -> Course | None:
    if block.course is None:
        return None
    section, index = block.course
    return matter.manuscript.sections[section].courses[index]


def _is_labelled(label: Label) -> bool:
    return bool(label.first or label.last or label.listed or label.span)


def _labelled(matter: Matter, place: Span, label: Label) -> Words:
    """Give the words of a row with its label in its own ink."""
    text = matter.manuscript.text
    if not text.startswith(label.words, place.start):
        return matter.words(place)
    end = place.start + len(label.words)
    if text[end : end + 1] in {":", "."}:
        end += 1
    name = read_out(matter.words(Span(place.source, place.start, end)))
    return (Run(name, Ink.LABEL), *matter.words(Span(place.source, end, place.end)))


def _count(matter: Matter, worked: WorkedCourse) -> str:
    """Give the count of a row whose author gives none, where it is certain in every size."""
    stated = worked.course.stated
    silent = stated is None or all(one.change for one in stated.statements)
    certain = worked.read and not any(worked.troubles)
    if not (silent and certain and _is_labelled(worked.course.label)):
        return ""
    shown = [
        ABSENT if name in worked.absent else None if number is None else str(number)
        for name, number in zip(matter.names, worked.worked, strict=True)
    ]
    known = [word for word in shown if word is not None]
    if len(known) != len(shown) or set(known) == {ABSENT}:
        return ""
    return f"{size_words(known, matter.groups)} {'st' if set(known) == {'1'} else 'sts'}"


# --------------------------------------------------------------------------- narrative


def _narrative(  # noqa: C901 - one arm for each kind of block
    matter: Matter, block: source.Block
) -> Iterator[Block]:
    match block.kind:
        case BlockKind.LIST:
            yield _items(matter.lines(block.place))
        case BlockKind.QUOTE:
            lines = matter.lines(block.place)
            words = one_line(on_first(line, _without(_QUOTED)) for line in lines)
            if words:
                yield Quote(words)
        case BlockKind.TABLE:
            yield from _table(matter.lines(block.place))
        case BlockKind.CODE:
            yield Verbatim(_unfenced(read_out(matter.kept(block.place))))
        case BlockKind.HTML:
            yield Verbatim(read_out(matter.kept(block.place)))
        case BlockKind.RULE:
            return
        case BlockKind.PROSE:
            words = one_line(matter.lines(block.place))
            if words:
                yield Paragraph(words)
        case BlockKind.HEADING | BlockKind.INSTRUCTION | BlockKind.PICTURE:
            raise AssertionError(block.kind)  # handled by the caller


def _without(mark: re.Pattern[str]) -> Callable[[str], str]:
    return lambda words: mark.sub("", words, count=1) if mark.match(words) else words


def _items(lines: tuple[Words, ...]) -> Items:
    """Gather lines into list items: a line without a bullet goes on with the one above."""
    items: list[list[Words]] = []
    marks = [_BULLET.match(read_out(line[:1])) for line in lines]
    for line, mark in zip(lines, marks, strict=True):
        if mark or not items:
            items.append([])
        items[-1].append(on_first(line, _without(_BULLET)) if mark else line)
    found = [mark for mark in marks if mark]
    numbered = bool(found) and all(
        mark[1] is not None and int(mark[1]) == number for number, mark in enumerate(found, start=1)
    )
    if found and any(mark[1] for mark in found) and not numbered:
        # Numbers that do not count up from 1 are the author's words.
        return Items(tuple(one_line([line]) for line in lines))
    return Items(tuple(one_line(item) for item in items), numbered=numbered)


def _table(lines: tuple[Words, ...]) -> Iterator[Table]:
    rows = [_cells(read_out(line)) for line in lines]
    rows = [row for row in rows if row]
    if not rows:
        return
    head, *rest = rows
    if rest and all(re.fullmatch(r":?-+:?", cell) for cell in rest[0]):
        rest = rest[1:]
    width = max(len(row) for row in [head, *rest])
    padded = [(*row, *[""] * (width - len(row))) for row in [head, *rest]]
    yield Table("Table", padded[0], tuple(padded[1:]))


def _cells(line: str) -> tuple[str, ...]:
    bare = line.strip()
    if not bare:
        return ()
    bare = bare.removeprefix("|")
    bare = bare[:-1] if bare.endswith("|") and not bare.endswith("\\|") else bare
    return tuple(cell.strip().replace("\\|", "|") for cell in _CELLS.split(bare))


def _unfenced(text: str) -> str:
    lines = text.splitlines()
    if lines and _FENCE.match(lines[0]):
        lines = lines[1:]
        if lines and _FENCE.match(lines[-1]):
            lines = lines[:-1]
    return "\n".join(lines)


def _picture(
    matter: Matter, place: Span, schematics: Mapping[str, Figure], placed: set[str]
) -> Block:
    """Put in a schematic the author asks for; of any other picture its words."""
    markup = matter.manuscript.text[place.start : place.end]
    target, piece = picture_target(markup)
    found = PICTURE.search(markup)
    words = found["words"].strip() if found else ""
    figure = schematics.get(piece)
    if figure is None:
        return Paragraph(plain(f"[Picture: {words or target}]"))
    placed.add(figure.caption)
    return Figure(words or figure.caption, figure.svg, figure.alt, figure.table)
