"""Where the writing of a line stands."""

from collections.abc import Callable, Sequence
from dataclasses import field

from stitchproof.base.diagnostics import Diagnostic, Finding
from stitchproof.base.place import Span
from stitchproof.base.records import dataclass
from stitchproof.language.tree import Post, Step, Stitch
from stitchproof.language.write.places import Way
from stitchproof.language.write.stitch_words import loop_before_place
from stitchproof.language.write.wording import Wording


@dataclass(slots=True, kw_only=True)
class Pen:
    """Where the writing stands in a line.

    Attributes
    ----------
    wording : Wording
        Whose words.
    rounds : bool
        The line is a round.
    brackets, marks : int
        How many repeats stand around.
    groups : int
        How many groups in one place stand around: what is in them names no place.
    opposite : bool
        The line works along the other side of the foundation.
    begun : bool
        Something was done: a yarn named now is changed to.
    shaped : bool
        A schedule of shaping was written: what follows goes beside it, or behind.
    worked : bool
        Stitches were made.
    remaining : bool
        A repeat was written, or a run to a place of its own: what goes to the end is the rest.
    last : str
        Name of the stitch written last.
    found : list of Diagnostic
        What had no words.
    inner : callable
        Writes the steps between two brackets.
    """

    wording: Wording
    inner: Callable[[Sequence[Step], "Pen"], str]
    rounds: bool = False
    brackets: int = 0
    groups: int = 0
    marks: int = 0
    opposite: bool = False
    begun: bool = False
    shaped: bool = False
    worked: bool = False
    remaining: bool = False
    last: str = ""
    found: list[Diagnostic] = field(default_factory=list)

    def report(self, finding: Finding, place: Span) -> None:
        """Keep a finding."""
        self.found.append(Diagnostic(finding=finding, place=place))

    def way(self, stitch: Stitch | None = None, *, many: bool = False) -> Way:
        """Give the way to a place for a stitch."""
        around = stitch is not None and stitch.post is not Post.NONE
        loop = "" if stitch is None else loop_before_place(stitch, self.wording)
        return Way(
            wording=self.wording,
            around=around,
            loop=loop,
            many=many,
            rounds=self.rounds,
            opposite=self.opposite,
            worked=self.worked,
            remaining=self.remaining,
        )
