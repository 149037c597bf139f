"""What an edition is made from, and the author's words with their numbers filled in."""

import re
from collections.abc import Callable, Iterable
from functools import cached_property
from typing import Final

from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.edition.model import Ink, Run, Words
from stitchproof.fabric.proof import Proof
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.tree import RepeatRows, SeamSides, SeamTops
from stitchproof.language.write.numbers import written_text
from stitchproof.sizing.model import Sizing
from stitchproof.trade.tables import Terms

_BLANKS: Final = re.compile(r"[ \t]*(?:\r\n|\n|\r)\s*")
_LINE_END: Final = re.compile(r"\r\n|\n|\r")
_SEWING: Final = re.compile(r"\b(?:sew|seam|whip[ -]?stitch|mattress)", re.IGNORECASE)
_BRACES: Final = re.compile(r"\{\{|\}\}")


@dataclass(frozen=True)
class Matter:
    """A manuscript with everything worked out from it.

    Attributes
    ----------
    manuscript, sizing, proof
        What was read, sized and worked.
    """

    manuscript: Manuscript
    sizing: Sizing
    proof: Proof

    @property
    def terms(self) -> Terms:
        """Whose stitch names the manuscript uses."""
        return self.manuscript.terms

    @property
    def names(self) -> tuple[str, ...]:
        """(W,) the sizes of this copy."""
        return self.sizing.names

    @property
    def one_size(self) -> str:
        """The size of a one-size copy of a pattern that has more; empty else."""
        return self.names[0] if len(self.names) == 1 < len(self.sizing.sizes) else ""

    @property
    def groups(self) -> tuple[int, ...]:
        """How the sizes of this copy stand together; empty: the first outside, the others in."""
        whole = len(self.names) == len(self.sizing.sizes)
        return self.sizing.groups if whole else ()

    @cached_property
    def sewn(self) -> bool:
        """Whether pieces are sewn, in the instructions or in the words about them."""
        steps = (
            step
            for section in self.manuscript.sections
            for course in section.courses
            if not isinstance(course.does, RepeatRows)
            for step in course.does
        )
        told = any(isinstance(step, SeamTops | SeamSides) for step in steps)
        return told or _SEWING.search(self.manuscript.text) is not None

    @cached_property
    def lengths(self) -> frozenset[str]:
        """Names of the front matter that are lengths."""
        return frozenset(measure.name for measure in self.sizing.measures)

    def words(self, place: Span) -> Words:
        """Give the author's words on one line, every number filled in."""
        runs = self.kept(place)
        return tidy(Run(_BLANKS.sub(" ", run.words), run.ink) for run in runs)

    def kept(self, place: Span) -> Words:
        """Give the author's words with their line breaks, every number filled in."""
        written = written_text(
            self.manuscript, place, self.sizing.resolved, self.groups, self.lengths
        )
        return tuple(
            Run(run.words, Ink.NUMBER) if run.number else Run(self._unescaped(run.words), Ink.PLAIN)
            for run in written
        )

    def lines(self, place: Span) -> tuple[Words, ...]:
        """Give the author's words line by line."""
        lines: list[list[Run]] = [[]]
        for run in self.kept(place):
            first, *rest = _LINE_END.split(run.words)
            lines[-1].append(Run(first, run.ink))
            lines.extend([Run(part, run.ink)] for part in rest)
        return tuple(tuple(run for run in line if run.words) for line in lines)

    def _unescaped(self, words: str) -> str:
        """Turn `{{` into the brace it stands for; without front matter braces are only prose."""
        if self.manuscript.front is None:
            return words
        return _BRACES.sub(lambda pair: pair[0][0], words)


def tidy(runs: Iterable[Run]) -> Words:
    """Join neighbours of one ink, and drop what holds nothing."""
    joined: list[Run] = []
    for run in runs:
        if joined and joined[-1].ink is run.ink:
            joined[-1] = Run(joined[-1].words + run.words, run.ink)
        elif run.words:
            joined.append(run)
    return tuple(joined)


def on_first(words: Words, change: Callable[[str], str]) -> Words:
    """Change the beginning of some words: take a mark off."""
    if not words:
        return words
    first, *rest = words
    return tidy((Run(change(first.words), first.ink), *rest))


def one_line(lines: Iterable[Words]) -> Words:
    """Join lines with a blank between them; blanks at their ends go."""
    runs: list[Run] = []
    for line in lines:
        stripped = _trimmed(line)
        if runs and stripped:
            runs.append(Run(" "))
        runs.extend(stripped)
    return tidy(runs)


def _trimmed(words: Words) -> Words:
    """Take the blanks off both ends."""
    kept = list(on_first(words, str.lstrip))
    if kept:
        kept[-1] = Run(kept[-1].words.rstrip(), kept[-1].ink)
    return tidy(kept)
