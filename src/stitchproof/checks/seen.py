"""What a check looks at, and how it gathers what is wrong over the sizes."""

from collections.abc import Callable, Iterator
from typing import Final

from stitchproof.base.diagnostics import Address, Diagnostic
from stitchproof.base.place import NOWHERE, Span
from stitchproof.base.records import dataclass
from stitchproof.fabric.proof import Proof, WorkedCourse
from stitchproof.fabric.trouble import Failing, Trouble
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.number import Resolved
from stitchproof.language.tree import Noun
from stitchproof.language.write.stitch_words import noun_words
from stitchproof.language.write.wording import wording_of

_LONGEST: Final = 90  # characters quoted whole
_HEAD: Final = 56  # of longer words, and of their end
_TAIL: Final = 31


@dataclass(frozen=True, slots=True)
class Seen:
    """Everything a check may look at."""

    manuscript: Manuscript
    resolved: Resolved
    proof: Proof


Check = Callable[[Seen], Iterator[Diagnostic]]


@dataclass(frozen=True, slots=True)
class Gathered:
    """One failing of one line over the sizes in which it is wrong.

    Attributes
    ----------
    course : WorkedCourse
        The line.
    troubles : tuple of Trouble
        One for each size in `sizes`.
    sizes : tuple of str
        The wrong sizes; all of them where the line is wrong in all.
    everywhere : bool
        It is wrong in every size in which the line is worked.
    """

    course: WorkedCourse
    troubles: tuple[Trouble, ...]
    sizes: tuple[str, ...]
    everywhere: bool

    @property
    def wanted(self) -> tuple[int, ...]:
        """What the words say or need, for each wrong size."""
        return tuple(t.wanted for t in self.troubles)

    @property
    def had(self) -> tuple[int, ...]:
        """What there is, for each wrong size."""
        return tuple(t.had for t in self.troubles)

    @property
    def place(self) -> Span:
        """The words that fail; the whole line where they are not known."""
        place = self.troubles[0].place
        return self.course.place if place == NOWHERE else place

    def address(self) -> Address:
        """Where a maker would look."""
        return Address(self.course.section or None, self.course.label or None)

    def named_sizes(self) -> tuple[str, ...]:
        """Sizes for the finding: empty when it is wrong in all."""
        return () if self.everywhere else self.sizes


def gathered(seen: Seen, *failings: Failing) -> Iterator[Gathered]:
    """Give the lines whose first trouble is of one of some kinds, each once."""
    for course in seen.proof.courses:
        if not any(course.troubles):
            continue
        wrong = [
            (name, trouble)
            for name, trouble in zip(seen.proof.sizes, course.troubles, strict=False)
            if trouble is not None
        ]
        lead = wrong[0][1]
        if lead.failing not in failings:
            continue
        alike = [(n, t) for n, t in wrong if _alike(t, lead)]
        worked = len(seen.proof.sizes) - len(course.absent)
        everywhere = len(wrong) == worked and not course.absent and len(alike) == len(wrong)
        names = tuple(n for n, _ in (alike if everywhere else wrong))
        yield Gathered(course, tuple(t for _, t in alike), names, everywhere)


def _alike(one: Trouble, lead: Trouble) -> bool:
    numbered = one.what.isdigit() and lead.what.isdigit()  # the same row, by its number in a size
    same = one.what == lead.what or numbered
    return same and (one.failing, one.noun) == (lead.failing, lead.noun)


def words(seen: Seen, place: Span) -> str:
    """Quote the author's words, on one line, left out in the middle when long."""
    text = " ".join(seen.manuscript.text[place.start : place.end].split())
    if len(text) <= _LONGEST:
        return text
    head, tail = text[:_HEAD], text[-_TAIL:]
    if " " in head and " " in tail:
        head, tail = head[: head.rindex(" ")], tail[tail.index(" ") + 1 :]
    return f"{head} … {tail}"


def place_name(seen: Seen, noun: Noun, *, plural: bool = False) -> str:
    """Name what places are counted in, one of them or several, in the manuscript's own terms."""
    named = noun_words(noun, wording_of(seen.manuscript), many=plural)
    return many(named) if plural else named


def a_or_an(noun: str) -> str:
    """Give a noun with its article, as it is spoken: `a dc`, `an hdc`, `an edge`."""
    letters = noun[:1].lower() == "h" and noun[1:2].lower() not in set("aeiou")  # read as letters
    return f"an {noun}" if letters or noun[:1].lower() in set("aeio") else f"a {noun}"


def plural(count: int, noun: str) -> str:
    """Give a number with its noun: `1 st`, `3 sts`, `2 ch-1 sps`."""
    return f"{count} {many(noun) if count != 1 else noun}"


def many(noun: str) -> str:
    """Give the plural of a unit of the trade; stitch names stay as they are."""
    if noun in ("st", "sp", "ch", "row", "stitch", "round") or noun.endswith(" sp"):
        return f"{noun}es" if noun == "stitch" else f"{noun}s"
    if noun in ("shell", "fan", "repeat", "cluster", "space", "loop", "bobble", "popcorn"):
        return f"{noun}s"
    if noun.endswith(("-st", "-sp", " loop", " group")):
        return f"{noun}s"
    return noun
