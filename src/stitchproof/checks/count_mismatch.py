"""A line makes another number of stitches than it says."""

from collections.abc import Iterator
from itertools import pairwise
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.courses import steps_of
from stitchproof.checks.seen import Gathered, Seen, gathered, many, words
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.fabric.trouble import Failing
from stitchproof.language.tree import Chain, makes_stitches

_LONGEST: Final = 40  # of words that are quoted as a count


@facts
class CountMismatch:
    """What is made and what is said, for each wrong size."""

    code: ClassVar[Code] = Code("C401", "row-count-mismatch", Level.ERROR)
    made: tuple[int, ...]
    stated: tuple[int, ...]
    noun: str
    words: str
    change: str = ""
    each: str = ""  # the part of the edge that holds so many
    meant: bool | None = None  # the rows after it fit what is said, or what is made
    founded: bool = False  # it is the first row into a foundation

    def message(self) -> str:
        """Both numbers, the made one first."""
        noun = "sts on each edge" if self.noun == "edge" else many(self.noun)
        if self.change:
            back = {"increased": "decreases", "decreased": "increases"}
            away = all(n < 0 for n in self.made)
            does = back[self.change] if away else f"{self.change[:-1]}s"
            by = size_list(tuple(abs(n) if away else n for n in self.made))
            return f"{does} by {by} {noun}, but says `{self.words}`"
        noun = f"{noun} per {self.each}" if self.each else noun
        return f"makes {size_list(self.made)} {noun}, but says `{self.words}`"

    def help(self) -> str:
        """Say the count that would be true."""
        if self.change and any(n < 0 for n in self.made):
            return "check the shaping, and the word for it"
        if self.meant is True:
            fits = f"the next rows fit {size_list(self.stated)}"
            return f"{fits}: check {'the foundation chain, and ' * self.founded}what the row does"
        if self.meant is False:
            return f"write {size_list(self.made)}: the next rows fit it"
        return f"write {size_list(self.made)}, or change what the row does"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Hold every stated count against the fabric."""
    for found in gathered(seen, Failing.COUNT):
        noun = found.troubles[0].what or "st"
        if noun in ("seam", "marker"):
            continue
        said = words(seen, found.place)
        made, stated = _numbers(seen, found)
        facts = CountMismatch(
            made,
            stated,
            noun,
            _said(said, stated, noun),
            *_change(found),
            _meant(seen, found),
            founded=(chain := _foundation(seen, found.course)) is not None,
        )
        yield Diagnostic(
            finding=facts,
            place=found.place,
            address=found.address(),
            sizes=found.named_sizes(),
            also=((chain.place, "the foundation that it works into"),) if chain is not None else (),
        )


def _foundation(seen: Seen, course: WorkedCourse) -> WorkedCourse | None:
    """Give the foundation chain right before a line; None where stitches lie below."""
    before = next((one for one, after in pairwise(seen.proof.courses) if after is course), None)
    if before is None or before.section != course.section:
        return None
    steps = steps_of(before)
    chained = any(isinstance(step, Chain) for step in steps)
    plain = not makes_stitches(tuple(step for step in steps if not isinstance(step, Chain)))
    return before if chained and plain else None


def _numbers(seen: Seen, found: Gathered) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Give what is made and what is said in every wrong size, whatever else fails in some."""
    if len(found.troubles) == len(found.sizes):
        return found.had, found.wanted
    for line in found.course.counts:
        if line.kind != found.troubles[0].what or line.stated is None:
            continue
        sizes = (i for i, name in enumerate(seen.proof.sizes) if name in found.sizes)
        both = [(line.worked[i], line.stated[i]) for i in sizes]
        known = [(made, said) for made, said in both if made is not None and said is not None]
        if len(known) == len(both):
            return tuple(made for made, _ in known), tuple(said for _, said in known)
    return found.had, found.wanted


def _said(written: str, stated: tuple[int, ...], noun: str) -> str:
    """Quote what is said; the numbers themselves where a formula stands or many sizes are right."""
    if "{" in written or len(written) > _LONGEST:
        return f"{size_list(stated)} {many(noun)}" if noun != "edge" else size_list(stated)
    return written


def _change(found: Gathered) -> tuple[str, str]:
    """Give the change a count tells of, and the part it is of, where it is no total."""
    stated = found.course.course.stated
    for statement in stated.statements if stated is not None else ():
        if found.course.at(statement.place) == found.place:
            return statement.change, statement.each
    return "", ""


def _meant(seen: Seen, found: Gathered) -> bool | None:
    """Say whether the next rows fit what is said in all wrong sizes, or what is made."""
    sizes = found.course.meant
    wrong = {m for name, m in zip(seen.proof.sizes, sizes, strict=False) if name in found.sizes}
    return wrong.pop() if len(wrong) == 1 else None
