"""A group the author describes without a place, and that no row gives one."""

import re
from collections.abc import Iterator
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks.seen import Seen
from stitchproof.language.tree import Group, Make, Repeat, Special, Steps

_PLACE: Final = re.compile(
    r"\b(?:in(?:to)?|around|over|across|between|under|through|on|to|along|each|every|same)\b",
    re.IGNORECASE,
)
_CLAUSE: Final = re.compile(r"[^,;.()\[\]*]{0,60}")


@facts
class SpecialWithoutPlace:
    """The stitch, and its description."""

    code: ClassVar[Code] = Code("C442", "special-without-place", Level.NOTE)
    name: str
    words: str

    def message(self) -> str:
        """Say what is missing."""
        return (
            f"`{self.name}: {self.words}` does not say where it is worked, and no row does; "
            "it is taken to go into one stitch"
        )

    def help(self) -> str:
        """Say what to do."""
        return f"add the place, such as `{self.words} in indicated st`, and what it counts as"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Look at every group of several stitches for a place, here or where it is worked."""
    # one that a row names where it makes it, `5 dc in next dc (shell made)`, is placed there
    told = {s.place for s in seen.manuscript.specials if _in_a_row(s, seen)}
    for special in seen.manuscript.specials:
        if special.place in told or special.body is None or _PLACE.search(special.words):
            continue
        if _stitches(special.body) > 1 and _never_placed(special, seen):
            told.add(special.place)
            words = special.words.split(".", maxsplit=1)[0].strip()
            yield Diagnostic(
                finding=SpecialWithoutPlace(special.written, words), place=special.place
            )


def _in_a_row(special: Special, seen: Seen) -> bool:
    start = special.place.start
    return any(c.place.start <= start < c.place.end for c in seen.proof.courses)


def _stitches(steps: Steps) -> int:
    """Count the steps that make stitches, a number of them as several."""
    made = 0
    for step in steps:
        match step:
            case Make(each=each):
                made += 1 if each.value == (1,) and not _several(step) else 2
            case Group(body) | Repeat(body):
                made += _stitches(body)
            case _:
                pass
    return made


def _several(step: Make) -> bool:
    number = getattr(step.at, "number", None)
    return number is not None and number.value != (1,)


def _never_placed(special: Special, seen: Seen) -> bool:
    """Whether the rows work a stitch, and none of them says where."""
    name = r"[\s-]*".join(map(re.escape, re.split(r"[\s-]+", special.name)))
    used = re.compile(rf"(?<![a-z]){name}(?:e?s)?(?![a-z])", re.IGNORECASE)
    text = seen.manuscript.text
    found = False
    for course in seen.proof.courses:
        stated = course.course.stated
        end = course.at(stated.place).start if stated is not None else course.place.end
        for use in used.finditer(text, course.place.start, max(end, course.place.start)):
            behind = _CLAUSE.match(text, use.end())
            if behind is None or _PLACE.search(behind.group()):
                return False
            found = True
    return found
