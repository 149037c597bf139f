"""Colours and hooks that the rows use and the materials do not name."""

import re
from collections.abc import Iterator, Mapping
from typing import ClassVar, Final

from stitchproof.base.diagnostics import Code, Diagnostic, Level
from stitchproof.base.facts import facts
from stitchproof.checks import narrative
from stitchproof.checks.courses import address
from stitchproof.checks.seen import Seen
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.manuscript import Manuscript
from stitchproof.language.tree import Colour, Group, Repeat, RepeatRows, Steps

_LETTER: Final = re.compile(r"[A-Z]|MC|CC\d?|C[A-Z]")
_LISTED: Final = re.compile(
    r"(?:\b(?:[Cc]olou?rs?|[Yy]arns?|[Ss]hades?|COLOU?R|YARN)\s{1,3}|[(\[]|[\"“])(?P<one>[A-Z]|MC|CC\d?|C[A-Z])(?=[)\]:=\"”,;\s–—-]|$)"
    r"|^\W{0,6}(?P<two>[A-Z]|MC|CC\d?|C[A-Z])\s{0,3}(?=[:=–—]|\s-\s)"
    r"|\b(?P<three>MC|CC\d?)\b",
)
_BEFORE_ITS_NAME: Final = re.compile(r"\b(?P<one>[A-Z])\s\((?=[a-z])")  # `A (cream) and B (rust)`
_OF_YARN: Final = re.compile(r"\b(?:yarns?|colou?rs?|shades?|skeins?|balls?)\b", re.IGNORECASE)
_MM: Final = re.compile(r"(?P<mm>\d{1,2}(?:[.,]\d{1,2})?)\s{0,2}mm\b", re.IGNORECASE)
_OTHERWISE: Final = re.compile(
    r"\b(?:U\.?S\.?|UK|size|no\.?)\s{0,2}[A-Z0-9]|\b[A-Z][-/]\d|\b(?:smaller|larger|second|two|sizes)\b",
    re.IGNORECASE,
)
_GAUGE: Final = re.compile(r"\b(?:gauge|tension)\b|=|\bto \d+ ?cm\b", re.IGNORECASE)
_WORD: Final = re.compile(r"\b[A-Z]{1,2}\d?\b")
_RELATIVE: Final = frozenset(("larger", "smaller", "bigger"))


@facts
class ColourNotListed:
    """The letter used, and those that are listed."""

    code: ClassVar[Code] = Code("C436", "colour-not-listed", Level.WARNING)
    name: str
    listed: tuple[str, ...]

    def message(self) -> str:
        """Say which are known."""
        known = ", ".join(f"`{one}`" for one in self.listed)
        return f"works with `{self.name}`, but the materials list {known}"

    def help(self) -> str:
        """Say what to do."""
        return "add the colour to the materials, or check the letter"


@facts
class HookNotListed:
    """The hook the row asks for, and those that are listed."""

    code: ClassVar[Code] = Code("C437", "hook-not-listed", Level.WARNING)
    name: str
    listed: tuple[str, ...]

    def message(self) -> str:
        """Say which are known."""
        known = ", ".join(f"`{one}`" for one in self.listed)
        verb = "is" if len(self.listed) == 1 else "are"
        return f"asks for the {self.name} hook, but only {known} {verb} listed"

    def help(self) -> str:
        """Say what to do."""
        return "add the hook to the materials, or check its size"


def check(seen: Seen) -> Iterator[Diagnostic]:
    """Hold the colours and hooks of the rows against the materials."""
    worked = [(course, step) for course in seen.proof.courses for step in _colours(course)]
    used = [(course, step) for course, step in worked if _is_written(step, course, seen)]
    if not used:
        return
    names = {step.name for _, step in used if not step.hook and _LETTER.fullmatch(step.name)}
    letters = _letters(seen.manuscript, names) if names else ()
    hooks = _hooks(seen.manuscript) if any(step.hook for _, step in used) else ()
    told: set[str] = set()
    for course, step in used:
        finding = _hook(step, hooks) if step.hook else _colour(step, letters, names)
        if finding is not None and step.name not in told:
            told.add(step.name)
            yield Diagnostic(finding=finding, place=course.at(step.place), address=address(course))


def _is_written(step: Colour, course: WorkedCourse, seen: Seen) -> bool:
    """Tell whether the text has the name itself, and not `main color` for `MC`."""
    place = course.at(step.place)
    return step.hook or step.name in seen.manuscript.text[place.start : place.end]


def _colours(course: WorkedCourse) -> Iterator[Colour]:
    does = course.course.does
    yield from _in(does.extra if isinstance(does, RepeatRows) else does)


def _in(steps: Steps) -> Iterator[Colour]:
    for step in steps:
        if isinstance(step, Colour):
            yield step
        elif isinstance(step, Group | Repeat):
            yield from _in(step.body)


def _colour(step: Colour, listed: tuple[str, ...], used: set[str]) -> ColourNotListed | None:
    """Tell of a letter that stands nowhere in the materials, where others that are used do."""
    known = tuple(one for one in listed if one in used)
    if not known or step.name not in used or step.name in listed:
        return None
    return ColourNotListed(step.name, known)


def _hook(step: Colour, listed: tuple[str, ...]) -> HookNotListed | None:
    size = _MM.search(step.name)
    missing = size is not None and _mm(size["mm"]) not in listed
    alone = step.name.lower() in _RELATIVE and len(listed) == 1
    return HookNotListed(step.name, listed) if listed and (missing or alone) else None


# --------------------------------------------------------------------------- listed


def _letters(manuscript: Manuscript, used: set[str]) -> tuple[str, ...]:
    """Give the letters of colours in the materials, and any used one that the narrative names."""
    found: dict[str, None] = {}
    for key in _keys(manuscript, "yarn"):
        if _LETTER.fullmatch(key.upper()):
            found[key.upper()] = None
    for line in narrative.lines(manuscript):
        words = manuscript.text[line.start : line.end]
        if "size" not in words.lower():
            for m in _LISTED.finditer(manuscript.text, line.start, line.end):
                found[m["one"] or m["two"] or m["three"]] = None
            if _OF_YARN.search(words):
                found.update((one, None) for one in _BEFORE_ITS_NAME.findall(words))
            for m in _WORD.finditer(manuscript.text, line.start, line.end):
                if found and m.group() in used:
                    found[m.group()] = None
    return tuple(found)


def _hooks(manuscript: Manuscript) -> tuple[str, ...]:
    """Give the hooks of the materials in millimetres; none where some are given otherwise."""
    found: dict[str, None] = {}
    named = False
    for value in _keys(manuscript, "hooks").values():
        sizes = _MM.findall(str(value)[:80])
        if not sizes:
            return ()
        found.update((_mm(size), None) for size in sizes)
    for line in narrative.lines(manuscript):
        words = manuscript.text[line.start : line.end]
        if "hook" in words.lower():
            sizes = _MM.findall(words)
            if len(_OTHERWISE.findall(words)) > len(sizes):
                return ()
            found.update((_mm(size), None) for size in sizes)
            named = named or (bool(sizes) and _GAUGE.search(words) is None)
    listed = named or _keys(manuscript, "hooks")  # a gauge alone lists no materials
    return tuple(found) if listed else ()


def _mm(words: str) -> str:
    number = words.replace(",", ".")
    return f"{number.rstrip('0').rstrip('.') if '.' in number else number} mm"


def _keys(manuscript: Manuscript, table: str) -> Mapping[str, object]:
    found = manuscript.front.table.get(table) if manuscript.front is not None else None
    return found if isinstance(found, Mapping) else {}
