"""A row shaped alike at both ends in most sizes, and otherwise in some."""

from collections import Counter
from collections.abc import Iterator
from typing import ClassVar

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.checks.courses import address
from stitchproof.checks.seen import Seen
from stitchproof.fabric.pairs import Pair


@facts
class ShapingNotMirrored:
    """How far from the beginning and from the end each wrong size is shaped."""

    code: ClassVar[Code] = Code("C449", "shaping-not-mirrored", Level.ERROR)
    before: tuple[int, ...]
    behind: tuple[int, ...]

    def message(self) -> str:
        """Both numbers."""
        return (
            f"is shaped {size_list(self.before)} sts from its beginning and "
            f"{size_list(self.behind)} sts from its end; in the other sizes both are alike"
        )

    def help(self) -> str:
        """Say where to look."""
        return "check the numbers of these sizes before and behind the shaping"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Compare the two ends of every row that is shaped twice, over the sizes.

    What leans in every size leans on purpose; nothing is said where as many sizes lean as not.
    """
    for course in seen.proof.courses:
        if not any(course.pairs):
            continue
        known = [
            (name, pair)
            for name, pair in zip(seen.proof.sizes, course.pairs, strict=False)
            if pair is not None
        ]
        if any(t is not None for t in course.troubles):
            continue
        leans = Counter(_lean(pair) for _, pair in known)
        usual, most = leans.most_common(1)[0] if leans else (0, 0)
        wrong = [(name, pair) for name, pair in known if _lean(pair) != usual]
        if wrong and most > len(wrong) and most > 1 and abs(usual) <= 1:
            yield Diagnostic(
                finding=ShapingNotMirrored(
                    tuple(a for _, (a, _) in wrong), tuple(b for _, (_, b) in wrong)
                ),
                place=course.place,
                address=address(course),
                sizes=tuple(name for name, _ in wrong),
            )


def _lean(pair: Pair) -> int:
    return pair[0] - pair[1]
