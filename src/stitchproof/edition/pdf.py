"""From an edition to PDF; the only module that talks to the typesetter.

The template is code, the edition is data: nothing in an author's words is read as markup. The
fonts are those the typesetter brings along, on every machine the same, and so are the bytes. The
file says that it is accessible (PDF/UA-1): tagged, with a title, a language and words for every
picture. That standard allows no character without a shape, so one that the fonts lack is printed
as its name.
"""

import re
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Final, TypeAlias

from stitchproof.edition.characters import shown
from stitchproof.edition.model import (
    Block,
    Caution,
    Edition,
    Facts,
    Figure,
    Heading,
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

Data: TypeAlias = Mapping[str, object]

_NO_TITLE: Final = "Untitled"
_LONG_ROW: Final = 2500  # characters; a longer row may not fit on a page and is let break
_LINE: Final = 120  # characters; hardly a line holds more
_CELL: Final = 10  # a table cell is so much narrower than a row
_LONG_WORD: Final = 48
_PIECE: Final = 24
_RUNNING: Final = 48  # characters at the head or the foot of a page
_LONG_WORDS: Final = re.compile(rf"\S{{{_LONG_WORD},}}")
_DAY: Final = re.compile(r"(\d{4})-(\d{2})-(\d{2})")
_NO_DAY: Final = date(2000, 1, 1)  # where a manuscript gives no date the file still needs one


def pdf(edition: Edition) -> bytes:
    """Typeset an edition.

    Parameters
    ----------
    edition : Edition
        What is published.

    Returns
    -------
    bytes
        A tagged PDF; the same edition gives the same bytes.
    """
    import json
    from importlib.resources import files

    import typst

    template = files("stitchproof.edition").joinpath("data", "sheet.typ").read_bytes()
    made = typst.compile(
        template,
        sys_inputs={"edition": json.dumps(_data(edition))},
        ignore_system_fonts=True,
        pdf_standards=["ua-1"],
        timestamp=_seconds(edition.date),
    )
    assert isinstance(made, bytes)
    return made


# --------------------------------------------------------------------------- dates


def _day(told: str) -> date | None:
    found = _DAY.match(told)
    try:
        return date(*map(int, found.groups())) if found else None
    except ValueError:  # the 31st of June
        return None


def _seconds(told: str) -> int:
    """Give noon of the day as seconds since 1970; days before that as 1970."""
    day = _day(told) or _NO_DAY
    return max(0, (day - date(1970, 1, 1)).days * 86_400 + 43_200)


# --------------------------------------------------------------------------- the edition as data


def _data(edition: Edition) -> Data:
    lang, _, region = edition.language.partition("-")
    day = _day(edition.date)
    heading = f"{edition.title}, size {edition.size}" if edition.size else edition.title
    return {
        "title": _parts(heading if shown(heading).strip() else _NO_TITLE),
        "heading": shown(heading) if shown(heading).strip() else _NO_TITLE,
        "running": {
            "title": _short(heading),
            "version": _short(f"Version {edition.version}" if edition.version else ""),
            "designer": _short(edition.designer),
            "notice": _short(edition.notice),
        },
        "authors": [shown(edition.designer)] if edition.designer else [],
        "day": [day.year, day.month, day.day] if day else None,
        "lang": lang.lower(),
        "region": region.upper() if re.fullmatch("[A-Za-z]{2}", region) else None,
        "draft": edition.draft,
        "facts": _facts(edition.facts),
        "parts": [
            {"title": _heading(part.title), "blocks": list(_blocks(part))} for part in edition.parts
        ],
    }


def _blocks(part: Part) -> Iterator[Data]:
    """Give the blocks of a part, and say which stay on the page of the one below.

    A heading holds the first block fast; one line of it at the foot of a page is not enough.
    """
    below_heading = bool(_heading(part.title))
    for at, block in enumerate(part.blocks):
        last = at + 1 == len(part.blocks) or isinstance(part.blocks[at + 1], Heading)
        yield {**_block(block), "keep": not last and _leads(block, below_heading=below_heading)}
        below_heading = isinstance(block, Heading)


def _leads(block: Block, *, below_heading: bool) -> bool:
    """Whether a block says little without the next: one line below a heading, `Size L only:`."""
    match block:
        case Paragraph(words):
            told = read_out(words)
            return len(told) <= _LINE and (below_heading or told.rstrip().endswith(":"))
        case Row(words, count):
            return below_heading and len(read_out(words)) + len(count) < _LINE
        case _:
            return False


def _block(block: Block) -> Data:  # noqa: C901 - one arm for each kind of block
    match block:
        case Heading(level, words):
            return {"kind": "heading", "level": level, "words": _heading(words)}
        case Paragraph(words):
            return {"kind": "paragraph", "words": _words(words)}
        case Quote(words):
            return {"kind": "quote", "words": _words(words)}
        case Items(items, numbered):
            return {"kind": "items", "items": [_words(i) for i in items], "numbered": numbered}
        case Facts(facts):
            return {"kind": "facts", "facts": _facts(facts)}
        case Row(words, count):
            told = {"words": _words(words), "count": _parts(count) if count else []}
            return {"kind": "row", "long": _is_long(read_out(words), count), **told}
        case Table():
            return _table(block)
        case Figure(caption, svg):
            table = block.lettered()
            drawn = {"svg": shown(svg), "alt": shown(_in_words(block)).strip() or "Drawing"}
            told = {"caption": _parts(caption), "table": table and _table(table)}
            return {"kind": "figure", "long": _is_long(caption), **drawn, **told}
        case Caution(words):
            return {"kind": "caution", "words": _words(words), "long": _is_long(read_out(words))}
        case Verbatim(text):
            return {"kind": "verbatim", "text": shown(text)}


def _in_words(figure: Figure) -> str:
    """Give what stands in place of a drawing, with the figures that only the drawing says."""
    if not figure.told or figure.table is None:
        return figure.alt
    names = figure.table.head[1:]
    told = (
        f"{name} {cell}"
        for _, *cells in figure.table.rows
        for name, cell in zip(names, cells, strict=True)
    )
    return f"{figure.alt} {'; '.join(told)}."


def _is_long(*words: str, times: int = 1) -> bool:
    """Say whether words may not fit on a page in one block, and must be let break."""
    return sum(map(len, words)) * times > _LONG_ROW


def _facts(facts: tuple[tuple[str, Words], ...]) -> list[Data]:
    return [{"name": _parts(name), "words": _words(words)} for name, words in facts]


def _table(table: Table) -> Data:
    return {
        "kind": "table",
        "long": any(
            _is_long(cell, times=_CELL) for row in (table.head, *table.rows) for cell in row
        ),
        "caption": _parts(table.caption),
        "head": [_parts(name) for name in table.head],
        "rows": [[_parts(cell) for cell in row] for row in table.rows],
    }


def _heading(words: Words) -> list[Data]:
    """Give the words of a heading; none where it would be empty, which the standard forbids."""
    return _words(words) if shown(read_out(words)).strip() else []


def _words(words: Words) -> list[Data]:
    return [{"ink": run.ink.value, "parts": _parts(run.words)} for run in words]


# --------------------------------------------------------------------------- characters and words


def _short(words: str) -> str:
    """Give words that fit beside others on one line at the head or the foot of a page."""
    line = " ".join(shown(words).split())
    return line if len(line) <= _RUNNING else f"{line[: _RUNNING - 1].rstrip()}…"


def _parts(words: str) -> list[str]:
    """Give words in one piece, or in more where a word is too long for a line."""
    return list(_broken(shown(words)))


def _broken(words: str) -> Iterator[str]:
    at = 0
    for found in _LONG_WORDS.finditer(words):
        if found.start() > at:
            yield words[at : found.start()]
        for start in range(found.start(), found.end(), _PIECE):
            yield words[start : min(start + _PIECE, found.end())]
        at = found.end()
    if at < len(words) or at == 0:
        yield words[at:]
