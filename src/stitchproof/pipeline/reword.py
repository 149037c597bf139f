"""The same manuscript in the other terms: only words of stitches change, every other byte stays."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator

from stitchproof.base.diagnostics import Address, Diagnostic, Edit, Finding
from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.language.manuscript import Block, BlockKind, Manuscript
from stitchproof.language.read.manuscript import read_manuscript
from stitchproof.language.write.rewording import NoWayBack, TermsUnsaid, WordLeft
from stitchproof.language.write.swap import (
    PAIRS,
    Pair,
    Swap,
    other,
    pair_swaps,
    statement_swaps,
    swaps,
)
from stitchproof.trade.tables import Terms


@dataclass(frozen=True, slots=True)
class Reworded:
    """A manuscript in other terms.

    Attributes
    ----------
    text : str
        The whole text.
    edits : tuple of Edit
        What was replaced, by place in the text before.
    found : tuple of Diagnostic
        What does not lead back, or is nowhere said.
    """

    text: str
    edits: tuple[Edit, ...]
    found: tuple[Diagnostic, ...]


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A part of the text whose words may change; `works`: it is an instruction."""

    start: int
    end: int
    works: bool


def reword(text: str, source: str, terms: Terms, written_in: Terms | None = None) -> Reworded:
    """Put a manuscript into the terms named.

    Parameters
    ----------
    text : str
        The manuscript.
    source : str
        What it is called.
    terms : Terms
        "US" or "UK"; a text that is in them already comes back as it is.
    written_in : Terms, optional
        The terms it is in, for a text that does not say; one that says is believed.
    """
    made = _reword(read_manuscript(text, source)[0], terms, written_in)
    if not made.edits:
        return made
    found = list(made.found)
    here = other(terms)
    again, _ = read_manuscript(made.text, source)
    back = _reword(again, here, terms)
    told = {one.finding.code.slug for one in found}
    if back.text != text and not told & {NoWayBack.code.slug, WordLeft.code.slug}:
        found.append(_first_that_differs(text, back.text, made.edits, terms))
    if again.terms != terms:
        found.append(_at(TermsUnsaid(terms), Span(source, 0, 0)))
    ordered = sorted(found, key=lambda one: one.place.start)
    return Reworded(made.text, made.edits, tuple(ordered))


def _reword(manuscript: Manuscript, terms: Terms, written_in: Terms | None) -> Reworded:
    """Put a manuscript into other terms, without looking back."""
    text, source = manuscript.text, manuscript.source
    here = manuscript.terms
    changes: dict[int, Swap] = {}
    stretches = tuple(_stretches(manuscript))
    held = _formulas(manuscript)
    if written_in not in {None, here} and not _says_in_front(manuscript):
        here = other(here)
        stretches, held = _read_as(text, source, manuscript, here)
    elif here != terms:
        changes = {swap.start: swap for swap in _front(manuscript, here)}
    if here == terms:
        return Reworded(text, (), ())
    found: list[Diagnostic] = []
    for stretch in stretches:
        for swap in (
            *statement_swaps(text, stretch.start, stretch.end, here),
            *swaps(text, stretch.start, stretch.end, here, works=stretch.works),
        ):
            changes.setdefault(swap.start, swap)
    for pair in PAIRS:
        found += _pair(text, source, stretches, pair, here, changes)
    kept = _apart([changes[start] for start in sorted(changes)], held)
    found += _told(text, source, kept, terms)
    edits = tuple(Edit(Span(source, swap.start, swap.end), swap.words) for swap in kept)
    return Reworded(_put(text, kept), edits, tuple(found))


def _first_that_differs(text: str, back: str, edits: tuple[Edit, ...], terms: Terms) -> Diagnostic:
    """Name the replaced word where the way there and back first goes wrong."""
    at = next((i for i, (a, b) in enumerate(zip(text, back, strict=False)) if a != b), len(text))
    before = [edit for edit in edits if edit.place.start <= at] or list(edits[:1])
    place = before[-1].place
    return _at(NoWayBack(text[place.start : place.end], before[-1].words, terms), place)


def _formulas(manuscript: Manuscript) -> list[tuple[int, int]]:
    numbers = manuscript.numbers
    return [(n.place.start, n.place.end) for n in numbers if not isinstance(n.value, tuple)]


def _says_in_front(manuscript: Manuscript) -> bool:
    return manuscript.front is not None and ("terms",) in manuscript.front.places


def _read_as(
    text: str, source: str, manuscript: Manuscript, here: Terms
) -> tuple[tuple[_Stretch, ...], list[tuple[int, int]]]:
    """Read a text as if its front matter said whose terms it uses."""
    said = f'terms = "{here}"\n'
    at = 0
    if manuscript.front is None:
        said = f"+++\n{said}+++\n"
    else:
        at = manuscript.front.place.start
    again, _ = read_manuscript(f"{text[:at]}{said}{text[at:]}", source)
    by = len(said)
    stretches = tuple(
        _Stretch(one.start - by, one.end - by, one.works) for one in _stretches(again)
    )
    return stretches, [(start - by, end - by) for start, end in _formulas(again) if start >= by]


def _front(manuscript: Manuscript, here: Terms) -> Iterator[Swap]:
    """Change `terms = "US"` in the front matter."""
    front = manuscript.front
    if front is None or ("terms",) not in front.places:
        return
    place = front.places[("terms",)]
    at = manuscript.text.find(here, place.start, place.end)
    if at >= 0:
        yield Swap(at, at + len(here), other(here))


_NARRATIVE = frozenset((BlockKind.PROSE, BlockKind.LIST, BlockKind.QUOTE, BlockKind.TABLE))


def _stretches(manuscript: Manuscript) -> Iterator[_Stretch]:
    """Give the parts of the text in which words may change, in order."""
    definitions = [special.place for special in manuscript.specials]
    sections = [rule for section in manuscript.sections for rule in section.rules]
    told = sorted({(r.place.start, r.place.end) for r in (*manuscript.rules, *sections)})
    for block in manuscript.blocks:
        start, end = block.place.start, block.place.end
        if block.kind is BlockKind.INSTRUCTION:
            yield _Stretch(start, end, works=True)
        elif block.kind in _NARRATIVE:
            if any(start <= one.start < end for one in definitions):
                yield _Stretch(start, end, works=True)
            else:
                yield from _with_conventions(start, end, told)
        elif block.kind is BlockKind.HEADING and not _is_referred_to(manuscript, block):
            yield _Stretch(start, end, works=False)


def _with_conventions(start: int, end: int, rules: list[tuple[int, int]]) -> Iterator[_Stretch]:
    """Part narrative at its conventions: in "3ch is the first treble" a treble is a stitch."""
    at = start
    for first, last in rules:
        if at <= first < last <= end:
            yield _Stretch(at, first, works=False)
            yield _Stretch(first, last, works=True)
            at = last
    yield _Stretch(at, end, works=False)


def _is_referred_to(manuscript: Manuscript, heading: Block) -> bool:
    """Tell whether the front matter names a heading, which then must keep its words."""
    front = manuscript.front
    words = manuscript.text[heading.place.start : heading.place.end].strip()
    title = words.split("(")[0].strip()
    return (
        front is not None
        and bool(title)
        and title in manuscript.text[front.place.start : front.place.end]
    )


def _pair(
    text: str,
    source: str,
    stretches: Iterable[_Stretch],
    pair: Pair,
    here: Terms,
    changes: dict[int, Swap],
) -> Iterator[Diagnostic]:
    """Change a word that each system has its own of; where a text uses both, both stay."""
    own, foreign = (pair.us, pair.uk) if here == "US" else (pair.uk, pair.us)
    mine: list[Swap] = []
    theirs: list[Swap] = []
    for s in stretches:
        within, explained = (s.start, s.end), pair.works and not s.works
        mine += pair_swaps(text, within, own, foreign, explained=explained)
        theirs += pair_swaps(text, within, foreign, own, explained=explained)
    if mine and theirs:
        return
    if mine or pair.both:
        for swap in mine or theirs:
            changes.setdefault(swap.start, swap)
    elif theirs:
        place = Span(source, theirs[0].start, theirs[0].end)
        yield _at(WordLeft(text[place.start : place.end], other(here)), place)


def _apart(changes: list[Swap], held: list[tuple[int, int]]) -> list[Swap]:
    """Leave out changes that overlap one before, or a formula."""
    kept: list[Swap] = []
    at = 0
    starts = sorted(start for start, _ in held)
    ends = sorted(end for _, end in held)
    for swap in changes:
        inside = bisect_right(starts, swap.start) > bisect_right(ends, swap.start)
        if swap.start >= at and not inside:
            kept.append(swap)
            at = swap.end
    return kept


def _put(text: str, changes: Iterable[Swap]) -> str:
    parts: list[str] = []
    at = 0
    for swap in changes:
        parts += (text[at : swap.start], swap.words)
        at = swap.end
    parts.append(text[at:])
    return "".join(parts)


def _told(text: str, source: str, changes: Iterable[Swap], terms: Terms) -> Iterator[Diagnostic]:
    """Tell each word that does not lead back, once."""
    said: set[str] = set()
    for swap in changes:
        words = text[swap.start : swap.end]
        if not swap.back and words not in said:
            said.add(words)
            place = Span(source, swap.start, swap.end)
            yield _at(NoWayBack(words, swap.words, terms), place)


def _at(finding: Finding, place: Span) -> Diagnostic:
    return Diagnostic(finding=finding, place=place, address=Address())
