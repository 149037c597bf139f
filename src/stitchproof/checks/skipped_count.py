"""A part is worked on stitches skipped before, and on another number of them than were skipped."""

from collections.abc import Iterator, Sequence
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.courses import address, steps_of
from stitchproof.checks.seen import Seen, words
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import Make, Next, Skip, Skipped


@facts
class SkippedOtherwise:
    """How many are worked and how many were skipped, for each wrong size."""

    code: ClassVar[Code] = Code("C450", "skipped-otherwise", Level.ERROR)
    worked: tuple[int, ...]
    skipped: tuple[int, ...]
    before: str
    words: str

    def message(self) -> str:
        """Both numbers."""
        return (
            f"`{self.words}` works {size_list(self.worked)} skipped sts, "
            f"but `{self.before}` skips {size_list(self.skipped)}"
        )

    def help(self) -> str:
        """Say where to look."""
        return "check both numbers: what one part leaves, the other takes up"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Hold stitches skipped in one section against those worked in a later one."""
    before: list[tuple[WorkedCourse, Skip]] = []
    for course in seen.proof.courses:
        steps = steps_of(course)
        skips = [s for s in steps if isinstance(s, Skip) and isinstance(s.at, Next)]
        elsewhere = [(c, s) for c, s in before if c.section != course.section]
        if elsewhere and not skips:
            for step in steps:
                if isinstance(step, Make) and isinstance(step.at, Skipped):
                    yield from _compared(seen, course, step, elsewhere)
        before += [(course, s) for s in skips]


def _compared(
    seen: Seen, course: WorkedCourse, step: Make, before: Sequence[tuple[WorkedCourse, Skip]]
) -> Iterator[Diagnostic]:
    """Compare with the skip that fits the most sizes: with one that fits none, nothing is known."""
    assert isinstance(step.at, Skipped)
    values = seen.resolved.of(step.at.number)
    if values is None:
        return
    fits = []
    for earlier, skip in before:
        assert isinstance(skip.at, Next)
        skipped = seen.resolved.of(skip.at.number)
        if skipped is not None:
            pairs = list(zip(seen.proof.sizes, values, skipped, strict=True))
            fits.append((sum(v == s for _, v, s in pairs), pairs, earlier))
    right, pairs, earlier = max(fits, key=lambda f: f[0], default=(0, [], course))
    wrong = [
        (name, worked, skipped)
        for name, worked, skipped in pairs
        if isinstance(worked, int) and isinstance(skipped, int) and worked != skipped
    ]
    if wrong and right:
        yield Diagnostic(
            finding=SkippedOtherwise(
                tuple(n for _, n, _ in wrong),
                tuple(n for _, _, n in wrong),
                earlier.label,
                words(seen, course.at(step.place)),
            ),
            place=course.at(step.place),
            address=address(course),
            sizes=tuple(name for name, _, _ in wrong),
        )
