"""From an edition to one web page that needs nothing else: no script, no other file, no network.

Every word of the author goes through one escaping function, so that markup in a manuscript is
shown and never run. Only the drawings are put in as they are; they are made here.
"""

from collections.abc import Iterator
from dataclasses import field
from typing import TypeAlias

from stitchproof.base.records import dataclass
from stitchproof.edition.characters import printable
from stitchproof.edition.model import (
    Block,
    Caution,
    Edition,
    Facts,
    Figure,
    Heading,
    Ink,
    Items,
    Paragraph,
    Part,
    Quote,
    Row,
    Table,
    Verbatim,
    Words,
    read_out,
)

Lines: TypeAlias = Iterator[str]


@dataclass(slots=True)
class _Anchors:
    """Names for links; equal headings get numbers."""

    taken: dict[str, int] = field(default_factory=dict)

    def name(self, title: str) -> str:
        slug = "-".join("".join(c if c.isalnum() else " " for c in title.lower()).split()) or "part"
        self.taken[slug] = self.taken.get(slug, 0) + 1
        return f"s-{slug}" if self.taken[slug] == 1 else f"s-{slug}-{self.taken[slug]}"


def html(edition: Edition) -> bytes:
    """Write an edition as a self-contained web page.

    Parameters
    ----------
    edition : Edition
        What is published.

    Returns
    -------
    bytes
        A whole HTML document in UTF-8.
    """
    return "".join(f"{line}\n" for line in _page(edition)).encode("utf-8")


def _page(edition: Edition) -> Lines:
    from importlib.resources import files

    css = files("stitchproof.edition").joinpath("data", "page.css").read_text("utf-8")
    title = f"{edition.title}, size {edition.size}" if edition.size else edition.title
    mark = f"{edition.notice} – " if edition.draft else ""
    yield "<!DOCTYPE html>"
    yield f'<html lang="{_safe(edition.language)}">'
    yield "<head>"
    yield '<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{_safe(mark + title)}</title>"
    if edition.designer:
        yield f'<meta name="author" content="{_safe(edition.designer)}">'
    yield f"<style>\n{css}</style>"
    yield "</head>"
    yield "<body>"
    if edition.draft:
        yield f'<p class="draft" role="note">{_safe(edition.notice)}</p>'
        yield f'<p class="draft-mark" aria-hidden="true">{_safe(edition.notice)}</p>'
    anchors = _Anchors()
    named = tuple((part, anchors.name(read_out(part.title))) for part in edition.parts)
    yield "<header>"
    yield f"<h1>{_safe(title)}</h1>"
    yield from _facts(Facts(edition.facts))
    yield from _contents(named)
    yield "</header>"
    yield "<main>"
    for part, anchor in named:
        yield from _part(part, anchor)
    yield "</main>"
    yield "<footer>"
    yield f"<p>{_safe(_closing(edition))}</p>"
    yield "</footer>"
    yield "</body>"
    yield "</html>"


def _closing(edition: Edition) -> str:
    told = (
        edition.title,
        f"size {edition.size}" if edition.size else "",
        f"version {edition.version}" if edition.version else "",
        edition.date,
        edition.designer,
    )
    return " · ".join(word for word in told if word)


def _contents(named: tuple[tuple[Part, str], ...]) -> Lines:
    links = [
        f'<li><a href="#{_safe(anchor)}">{_safe(read_out(part.title))}</a></li>'
        for part, anchor in named
        if part.title
    ]
    if len(links) > 1:
        yield '<nav aria-label="Contents">'
        yield "<ul>"
        yield from links
        yield "</ul>"
        yield "</nav>"


def _part(part: Part, anchor: str) -> Lines:
    if not part.title:
        for block in part.blocks:
            yield from _block(block)
        return
    yield f'<section aria-labelledby="{_safe(anchor)}">'
    yield f'<h2 id="{_safe(anchor)}">{_words(part.title)}</h2>'
    for block in part.blocks:
        yield from _block(block)
    yield "</section>"


def _block(block: Block) -> Lines:  # noqa: C901 - one arm for each kind of block
    match block:
        case Heading(level, words):
            yield f"<h{level}>{_words(words)}</h{level}>"
        case Paragraph(words):
            yield f"<p>{_words(words)}</p>"
        case Quote(words):
            yield f"<blockquote><p>{_words(words)}</p></blockquote>"
        case Items(items, numbered):
            name = "ol" if numbered else "ul"
            yield f"<{name}>"
            yield from (f"<li>{_words(item)}</li>" for item in items)
            yield f"</{name}>"
        case Facts():
            yield from _facts(block)
        case Row(words, count, worked):
            told = f' <span class="count">{_safe(count)}</span>' if count else ""
            left_out = "" if worked else " left-out"
            yield f'<p class="row{left_out}">{_words(words)}{told}</p>'
        case Table():
            yield from _table(block)
        case Figure(caption, svg):
            yield "<figure>"
            yield f"<figcaption>{_safe(caption)}</figcaption>"
            yield printable(svg).rstrip("\n")
            yield "</figure>"
            table = block.lettered()
            if table:
                yield from _table(table)
        case Caution(words):
            yield f'<p class="caution" role="note"><strong>Caution:</strong> {_words(words)}</p>'
        case Verbatim(text):
            # A line break right after the tag would be swallowed.
            yield f"<pre>\n{_safe(text)}</pre>"


def _facts(facts: Facts) -> Lines:
    if not facts.facts:
        return
    yield '<dl class="facts">'
    for name, words in facts.facts:
        yield f"<dt>{_safe(name)}</dt><dd>{_words(words)}</dd>"
    yield "</dl>"


def _table(table: Table) -> Lines:
    yield f'<div class="table" role="region" aria-label="{_safe(table.caption)}" tabindex="0">'
    yield '<table class="sizes">'
    yield f"<caption>{_safe(table.caption)}</caption>"
    head = "".join(f'<th scope="col">{_safe(name)}</th>' for name in table.head)
    yield f"<thead><tr>{head}</tr></thead>"
    yield "<tbody>"
    for name, *cells in table.rows:
        told = "".join(
            f'<td data-name="{_safe(column)}">{_safe(cell)}</td>'
            for column, cell in zip(table.head[1:], cells, strict=True)
        )
        yield f'<tr><th scope="row">{_safe(name)}</th>{told}</tr>'
    yield "</tbody>"
    yield "</table>"
    yield "</div>"


def _words(words: Words) -> str:
    told = []
    for run in words:
        match run.ink:
            case Ink.PLAIN:
                told.append(_safe(run.words))
            case Ink.NUMBER:
                told.append(f'<span class="number">{_safe(run.words)}</span>')
            case Ink.LABEL:
                told.append(f'<span class="label">{_safe(run.words)}</span>')
    return "".join(told)


def _safe(words: str) -> str:
    from html import escape

    return escape(printable(words), quote=True)
