"""What only some sizes work within a row: `Size S: sc in next 40 sts. Size M: …`, `For L only, …`.

Such words are a repeat that these sizes do once and the others not at all.
"""

from typing import Final

from stitchproof.language.number import Number
from stitchproof.language.read.size_names import SAYING
from stitchproof.language.read.steps.reader import CLOSING, Frame, Reader
from stitchproof.language.tree import Remark, Repeat, Steps, Times

_EVERY: Final = frozenset(("all", "both", "every", "each"))
_OTHER: Final = frozenset(("other", "others", "remaining"))
_CLOSE: Final = frozenset((":", ",", "–", "—", "-"))
_REACH: Final = 60  # tokens that name sizes


def _may_open(reader: Reader) -> bool:
    """Tell whether words for some sizes only may begin here."""
    if not reader.context.sizes.names:
        return False
    text = reader.text(1) if reader.text() in _BRACKETS else reader.text()
    return text in _WORDS or text in reader.context.sizes.forms


_BRACKETS: Final = frozenset(("(", "["))
_WORDS: Final = frozenset(("for", "the", "on", *SAYING, *_EVERY, *_OTHER))


def read_sized(reader: Reader, frame: Frame) -> Steps | None:
    """Read what some sizes work, up to where others begin; None where no sizes are named."""
    start = reader.at
    opened = _opening(reader, start) if _may_open(reader) else None
    if opened is None or reader.depth or not _begins(reader, start):
        return None
    sizes, rest = opened
    every = len(sizes) == len(reader.context.sizes.names)
    reader.take(rest - start)
    told = Remark(reader.words(start), reader.span(start))
    if every:
        return (told,)
    stop = _stop(reader, rest, alone=bool(frame.steps))
    if stop == rest:
        return None
    if reader.text() == "no":  # "size S: no increases here, plain sc"
        reader.take(stop - rest)
        return (Remark(reader.words(start), reader.span(start)),)
    inner = reader.inner(reader, stop)
    once = tuple(int(i in sizes) for i in range(len(reader.context.sizes.names)))
    number = Number(value=once, spelling="", place=told.place)
    if reader.at == start or not inner.steps:
        return None
    return (Repeat(tuple(inner.steps), Times(number), place=reader.span(start)),)


def _begins(reader: Reader, at: int) -> bool:
    """Tell whether a clause begins at a token."""
    return at == 0 or reader.tokens[at - 1].text in _BEFORE_SIZES


_BEFORE_SIZES: Final = frozenset((".", ";", ",", ":", ")", "]", "-", "–", "—"))


def _opening(reader: Reader, at: int) -> tuple[frozenset[int], int] | None:
    """Read `for sizes S and M only:`, `(L only)`: the sizes, and the index behind it."""
    if at < len(reader.tokens) and reader.tokens[at].text in _BRACKETS:
        inside = _opening(reader, at + 1) if reader.partner[at] > at + 1 else None
        whole = inside is not None and inside[1] == reader.partner[at]
        return (inside[0], _closed(reader, inside[1] + 1)) if inside and whole else None
    texts = [token.text for token in reader.tokens[at : at + _REACH]]
    names = reader.context.sizes
    i, said = 0, False
    spoken = texts[:1] in (["for"], ["on"])
    while i < len(texts) and texts[i] in {"for", "the", "on"}:
        i += 1
    if texts[i : i + 1] and texts[i] in _EVERY and texts[i + 1 : i + 2] in (["sizes"], ["size"]):
        return frozenset(range(len(names.names))), _closed(reader, at + i + 2)
    while i < len(texts) and texts[i] in SAYING:
        said, i = True, i + 1
    found, end = names.run(texts, i)
    if not found or len(found) == len(names.names):
        return None
    only = False
    while end < len(texts) and texts[end] in SAYING | {"only"}:
        said, only, end = True, only or texts[end] == "only", end + 1
    told = said or only or (spoken and not any(map(names.is_number, found)))
    colon = texts[end : end + 1] == [":"] and not any(map(names.is_number, found))
    return (frozenset(found), _closed(reader, at + end)) if told or colon else None


def _closed(reader: Reader, at: int) -> int:
    """Go past the mark behind the names."""
    behind = at < len(reader.tokens) and reader.tokens[at].text in _CLOSE
    return at + behind


def _stop(reader: Reader, start: int, *, alone: bool) -> int:
    """Find where the words for these sizes end: where other sizes begin.

    Behind words for all sizes, `alone`, they end with their sentence where none begin.
    """
    depth, sentence = 0, len(reader.tokens)
    for i in range(start, len(reader.tokens)):
        text = reader.tokens[i].text
        depth += (reader.partner[i] > i) - (text in CLOSING and reader.partner[i] >= 0)
        if depth or i == start or text not in {".", ";", ","}:
            continue
        opened = _opening(reader, i + 1) if i + 1 < len(reader.tokens) else None
        if opened is not None and (text != "," or reader.tokens[i + 1].text not in _EVERY):
            return i
        if text == ".":
            sentence = min(sentence, i)
    return sentence if alone else len(reader.tokens)
