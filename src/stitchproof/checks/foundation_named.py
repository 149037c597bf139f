"""A line speaks of the foundation by another number of chains than it has."""

import re
from collections.abc import Iterator
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level, size_list
from stitchproof.base.facts import facts
from stitchproof.base.place import Span
from stitchproof.checks.courses import address, pieces, steps_of
from stitchproof.checks.seen import Seen, words
from stitchproof.fabric.founding import founds
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.number import Value
from stitchproof.language.tree import Chain
from stitchproof.language.walk import nodes

# `the end stitch of the 35 chain stitches`; `each of the 34 ch` may be those that are left
_LIST: Final = r"\s*[(\[{][^()\n]{1,80}[)\]}]"
_NAMED: Final = re.compile(
    r"\b(?:last|first|end|final|beginning|start)\s+(?:(?:st|stitch|ch|chain|one)\s+)?"
    r"(?P<words>of\s+(?:the|these|those)\s+(?P<number>\d{2,4})\b"
    rf"(?P<list>(?:{_LIST}){{1,3}})?\s*"
    r"(?:foundation\s+|starting\s+|base\s+|beginning\s+)?ch(?:ain)?s?)\b(?![-\s]*\d)",
    re.IGNORECASE,
)
_NAMED_AT_ALL: Final = re.compile(r"(?i:of)\s+(?i:the|these|those)\s+\d")


@facts
class FoundationOtherwise:
    """The chains spoken of and those made, for each wrong size."""

    code: ClassVar[Code] = Code("C451", "foundation-otherwise", Level.ERROR)
    named: tuple[int, ...]
    made: tuple[int, ...]
    words: str
    begun: str

    def message(self) -> str:
        """Both numbers."""
        return (
            f"`{self.words}` speaks of {size_list(self.named)} chains, "
            f"but `{self.begun}` makes {size_list(self.made)}"
        )

    def help(self) -> str:
        """Say where to look."""
        return "check both numbers"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Hold every number of chains that a line speaks of against the chains of its piece."""
    if _NAMED_AT_ALL.search(seen.manuscript.text) is None:
        return
    for courses in pieces(seen):
        first, last = courses[0].place.start, courses[-1].place.end
        if _NAMED.search(seen.manuscript.text, first, last) is None:
            continue
        made: list[tuple[Value, ...]] = []
        begun: tuple[Span, tuple[Value, ...]] | None = None
        for course in courses:
            if begun is not None:
                yield from _spoken(seen, course, begun, made)
            steps = steps_of(course)
            for node in nodes(steps):
                if isinstance(node, Chain) and (values := seen.resolved.of(node.count)):
                    made.append(values)
                    if begun is None or (founds(steps) and node is steps[0]):
                        begun = course.at(node.place), values


def _spoken(
    seen: Seen,
    course: WorkedCourse,
    begun: tuple[Span, tuple[Value, ...]],
    made: list[tuple[Value, ...]],
) -> Iterator[Diagnostic]:
    text = seen.manuscript.text
    foundation, chains = begun
    for found in _NAMED.finditer(text, course.place.start, course.place.end):
        values = _values(seen, found)
        if values is None or values in made:
            continue
        wrong = [
            (name, said, has)
            for name, said, has in zip(seen.proof.sizes, values, chains, strict=True)
            if isinstance(said, int) and isinstance(has, int) and said != has
        ]
        if wrong:
            place = Span(course.place.source, *found.span("words"))
            yield Diagnostic(
                finding=FoundationOtherwise(
                    tuple(n for _, n, _ in wrong),
                    tuple(n for _, _, n in wrong),
                    words(seen, place),
                    words(seen, foundation),
                ),
                place=place,
                address=address(course),
                sizes=() if len(wrong) == len(values) else tuple(name for name, _, _ in wrong),
            )


def _values(seen: Seen, found: re.Match[str]) -> tuple[Value, ...] | None:
    """Give the number spoken of in every size."""
    if not found["list"]:
        return (int(found["number"]),) * len(seen.proof.sizes)
    at = found.start("number")
    number = next((n for n in seen.manuscript.numbers if n.place.start == at), None)
    return seen.resolved.of(number) if number is not None else None
