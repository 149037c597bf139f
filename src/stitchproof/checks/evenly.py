"""More stitches to be decreased evenly than two made into one can take away."""

from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.courses import address, steps_of
from stitchproof.checks.seen import Seen, plural, words
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import Evenly, Make


@facts
class DecreasesTooMany:
    """How many are to go and how many there are, for each wrong size."""

    code: ClassVar[Code] = Code("C440", "decreases-too-many", Level.WARNING)
    decreased: tuple[int, ...]
    there: tuple[int, ...]
    words: str

    def message(self) -> str:
        """Both numbers, and how many can go."""
        most = size_list(tuple(n // 2 for n in self.there))
        stitches = (
            size_list(self.there) if len(set(self.there)) > 1 else plural(self.there[0], "st")
        )
        return (
            f"`{self.words}` takes {size_list(self.decreased)} from {stitches}, "
            f"but two worked together take away {most} at most"
        )

    def help(self) -> str:
        """Say what to do."""
        return "spread the decreases over more rows, or say how many are worked together"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Hold decreases spread over a row against its stitches."""
    for course in seen.proof.courses:
        for step in steps_of(course):
            if isinstance(step, Make) and isinstance(step.at, Evenly):
                yield from _told(seen, course, step, step.at)


def _told(seen: Seen, course: WorkedCourse, step: Make, at: Evenly) -> Iterator[Diagnostic]:
    values = seen.resolved.of(at.count) if at.count is not None else None
    if at.change != "decreased" or values is None or step.stitch.together > 1:
        return
    if any(t is not None for t in course.troubles):
        return
    wrong = [
        (name, value, value + left)
        for name, value, left in zip(seen.proof.sizes, values, course.worked, strict=True)
        if isinstance(value, int) and left and value > left
    ]
    if wrong:
        yield Diagnostic(
            finding=DecreasesTooMany(
                tuple(n for _, n, _ in wrong),
                tuple(t for _, _, t in wrong),
                words(seen, course.at(step.place)),
            ),
            place=course.at(step.place),
            address=address(course),
            sizes=() if len(wrong) == len(values) else tuple(name for name, _, _ in wrong),
        )
