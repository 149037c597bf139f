"""Cut the body into stretches: headings, fences, HTML, tables, quotes, and runs of raw lines.

Markdown finds what is surely Markdown; everything else stays a run of raw lines, because in a
pattern `5. Ch 1` is no list, `* Sc in next st` no bullet, `Row 3` above `---` no heading and a line
set in by four spaces no code. Lines end at LF, CRLF or CR only, so the lines are cut here and the
block parser never sees an end of line that is not one.
"""

import re
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from stitchproof.base.records import dataclass
from stitchproof.language.manuscript import BlockKind
from stitchproof.language.read.openings import opens_with_a_label, opens_with_a_verb

if TYPE_CHECKING:
    from markdown_it.token import Token

_LINE_END: Final = re.compile(r"\r\n|\n|\r")
_TITLE_LENGTH: Final = 60  # a longer line above a rule is a sentence, not a heading
_PICTURE: Final = re.compile(r"\s{0,3}!\[[^\]]*\]\([^)]*\)\s*$")
_QUOTED: Final = re.compile(r"\s{0,3}>")
_REPEAT_MARK: Final = re.compile(r"\s*#[^#]*#")
_KINDS: Final = (
    ("heading_open", BlockKind.HEADING),
    ("fence", BlockKind.CODE),
    ("html_block", BlockKind.HTML),
    ("table_open", BlockKind.TABLE),
    ("blockquote_open", BlockKind.QUOTE),
    ("hr", BlockKind.RULE),
)


@dataclass(frozen=True, slots=True)
class Line:
    """A line without its end, as offsets into the whole text."""

    start: int
    end: int

    def of(self, text: str) -> str:
        """Give its characters."""
        return text[self.start : self.end]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Neighbouring lines that belong together.

    Attributes
    ----------
    kind : BlockKind
        PROSE for a run of raw lines without a blank one between them, whatever they hold.
    lines : tuple of Line
        Its lines, whole.
    level : int
        Of a heading.
    start, end : int
        The text of it: of a heading without its marks.
    """

    kind: BlockKind
    lines: tuple[Line, ...]
    level: int = 0
    start: int
    end: int


def find_lines(text: str, start: int, limit: int) -> tuple[tuple[Line, ...], int | None]:
    """Find the lines from an offset on, and where the first line beyond `limit` starts."""
    lines: list[Line] = []
    for end in _LINE_END.finditer(text, start):
        lines.append(Line(start, end.start()))
        start = end.end()
        if len(lines) == limit:
            return tuple(lines), start if start < len(text) else None
    lines.append(Line(start, len(text)))
    return tuple(lines), None


def find_stretches(text: str, lines: tuple[Line, ...]) -> tuple[Stretch, ...]:
    """Cut lines into stretches, in the order of the text, blank lines left out."""
    marked = _marked(text, lines)
    stretches: list[Stretch] = []
    at = 0
    for first, last, kind, level in marked:
        stretches += _raw(text, lines[at:first])
        stretches.append(_stretch(text, kind, lines[first:last], level))
        at = last
    stretches += _raw(text, lines[at:])
    return tuple(stretches)


Marked = tuple[int, int, BlockKind, int]


def _marked(text: str, lines: tuple[Line, ...]) -> list[Marked]:
    """Find what Markdown is sure of: first line, line after the last, kind and level."""
    words = [line.of(text) for line in lines]
    if any(map(_MARKS.match, words)):
        return _parsed(text, lines)
    # of what Markdown knows there are at most headings
    found: list[Marked] = []
    for i, heading in enumerate(map(_HEADING.match, words)):
        if heading is not None and not _is_a_repeat(words[i]):
            found.append((i, i + 1, BlockKind.HEADING, len(heading["marks"])))
    return found


# what only a parser of Markdown can tell: a fence, a quote, HTML, a rule, a table, a heading set in
_MARKS: Final = re.compile(
    r"[\s\ufeff]*(?:```|~~~|[<>]|[-_*=|:][-_*=|:\s\ufeff]*$)|(?![ \ufeff]{0,3}#)[\s\ufeff\0]*#"
)
_HEADING: Final = re.compile(r"[ \ufeff]{0,3}(?P<marks>#{1,6})(?:[ \t]|$)")


def _parsed(text: str, lines: tuple[Line, ...]) -> list[Marked]:
    """Let a parser of Markdown find what it is sure of."""
    from markdown_it import MarkdownIt  # costs 50 ms

    markdown = MarkdownIt("commonmark").enable("table").disable(["code", "list", "reference"])
    markdown.core.ruler.enableOnly(["normalize", "block"])
    # A form feed, a no-break space or a byte-order mark keeps its column: one character for one.
    tokens = markdown.parse("\n".join(line.of(text).replace("\ufeff", " ") for line in lines))
    kinds = dict(_KINDS)
    found: list[Marked] = []
    for token in tokens:
        kind = kinds.get(token.type) if token.level == 0 else None
        if kind is not None and token.map is not None:
            found += _judged(text, lines, token, kind)
    return found


def _judged(
    text: str, lines: tuple[Line, ...], token: "Token", kind: BlockKind
) -> tuple[Marked, ...]:
    """Keep what Markdown found only as far as a pattern would mean it."""
    assert token.map is not None
    first, last = token.map
    while last > first + 1 and not lines[last - 1].of(text).strip():
        last -= 1
    match kind:
        case BlockKind.HEADING if token.markup in {"=", "-"}:
            return _underlined(text, lines, (first, last), 1 if token.markup == "=" else 2)
        case BlockKind.HEADING:
            if _is_a_repeat(lines[first].of(text)):
                return ()
            return ((first, last, kind, len(token.markup)),)
        case BlockKind.QUOTE:  # a line that only leans on the quote is a line of its own
            return ((first, _while(text, lines, (first, last), _QUOTED), kind, 0),)
        case BlockKind.TABLE:
            return ((first, _while(text, lines, (first, last), re.compile(r".*\|")), kind, 0),)
        case _:
            return ((first, last, kind, 0),)


def _is_a_repeat(line: str) -> bool:
    """Whether the marks of a heading are those of a repeat: `# Sc in next st #`."""
    mark = _REPEAT_MARK.match(line)
    return mark is not None and opens_with_a_verb(line.strip().strip("#").strip())


def _while(
    text: str, lines: tuple[Line, ...], within: tuple[int, int], shape: re.Pattern[str]
) -> int:
    first, last = within
    for at in range(first, last):
        if not shape.match(lines[at].of(text)):
            return at
    return last


def _underlined(
    text: str, lines: tuple[Line, ...], within: tuple[int, int], level: int
) -> tuple[Marked, ...]:
    """Take one short line above a rule for a heading, unless it is a row."""
    first, last = within
    words = lines[first].of(text).strip()
    rule = (last - 1, last, BlockKind.RULE, 0)
    one = last - first == 2  # noqa: PLR2004 - the line and its rule
    titled = one and 0 < len(words) <= _TITLE_LENGTH and words[-1:] not in ".;,:)"
    if titled and not opens_with_a_label(words) and not opens_with_a_verb(words):
        return ((first, last, BlockKind.HEADING, level),)
    return (rule,)


def _raw(text: str, lines: tuple[Line, ...]) -> list[Stretch]:
    """Cut raw lines at the blank ones."""
    blank = [-1, *(i for i, line in enumerate(lines) if not line.of(text).strip()), len(lines)]
    runs = [lines[a + 1 : b] for a, b in pairwise(blank) if b > a + 1]
    return [_stretch(text, _raw_kind(text, run), run, 0) for run in runs]


def _raw_kind(text: str, run: tuple[Line, ...]) -> BlockKind:
    pictures = len(run) == 1 and _PICTURE.match(run[0].of(text))
    return BlockKind.PICTURE if pictures else BlockKind.PROSE


_HEADING_MARKS: Final = re.compile(r"\s*#{1,6}(?:\s+|$)")
_CLOSING_MARKS: Final = re.compile(r"(?:(?<=\s)|^)#+\s*$")


def _stretch(text: str, kind: BlockKind, lines: tuple[Line, ...], level: int) -> Stretch:
    start, end = lines[0].start, lines[-1].end
    if kind is BlockKind.HEADING:
        marks = _HEADING_MARKS.match(text, start, lines[0].end)
        if marks:
            start = marks.end()
            closing = _CLOSING_MARKS.search(text[start:end])
            end = start + closing.start() if closing else end
        else:
            end = lines[0].end
    while start < end and text[start].isspace():
        start += 1
    while end > start and text[end - 1].isspace():
        end -= 1
    return Stretch(kind=kind, lines=lines, level=level, start=start, end=end)
