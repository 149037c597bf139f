"""Read the small patterns of `tests/patterns` and compare the program with them."""

import re
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any, Literal, TypeAlias

from stitchproof.fabric.memory import Memory
from stitchproof.language.read.kept import KeptLines
from stitchproof.pipeline.press import press
from stitchproof.pipeline.report import proof_object

Told: TypeAlias = int | Literal["?", "*"] | None  # None: not worked in this size
Object: TypeAlias = dict[str, Any]

PATTERNS = Path(__file__).parent / "patterns"
ROW_LABEL = re.compile(r"(?i)(rows?|rnds?|rounds?|r)\b\.?\s*\d|\d+(st|nd|rd|th)\s+(row|rnd|round)")


@dataclass(frozen=True, slots=True)
class Line:
    """What a maker has after one line."""

    section: str | None
    label: str
    told: tuple[Told, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A small pattern and its counts."""

    name: str
    topic: str
    text: str
    wide: bool
    sizes: tuple[str, ...]
    lines: tuple[Line, ...]


@dataclass(slots=True)
class _Draft:
    name: str
    text: list[str] = field(default_factory=list)
    counts: list[str] = field(default_factory=list)
    info: str = ""


@dataclass(slots=True)
class OneFile:
    """A desk with one manuscript on it."""

    text: str
    memory: Memory = field(default_factory=Memory)
    lines: KeptLines = field(default_factory=KeptLines)

    def read(self, name: str) -> bytes:  # noqa: ARG002 - whatever its name
        """Give the manuscript."""
        return self.text.encode()


def proof(text: str, name: str = "pattern.md") -> Object:
    """Prove a manuscript with the program."""
    return proof_object(press(OneFile(text), name, shapes=True))


@cache
def patterns() -> tuple[Pattern, ...]:
    """Give every small pattern, in the order of files and of their text."""
    found: list[Pattern] = []
    for path in sorted(PATTERNS.glob("*.md")):
        if path.name != "README.md":
            found += [_pattern(draft, path.stem) for draft in _drafts(path.read_text("utf-8"))]
    names = [pattern.name for pattern in found]
    assert len(names) == len(set(names)), "two patterns with one name"
    return tuple(found)


def _drafts(text: str) -> list[_Draft]:
    drafts: list[_Draft] = []
    fence = ""
    for line in text.split("\n"):
        if line.startswith("```"):
            fence = "" if fence else line[3:].split()[0]
            if fence == "manuscript":
                drafts[-1].info = line
        elif fence == "manuscript":
            drafts[-1].text.append(line)
        elif fence == "counts":
            drafts[-1].counts.append(line)
        elif line.startswith("## "):
            drafts.append(_Draft(line[3:].strip()))
    return drafts


def pattern_of(name: str, text: str, counts: str) -> Pattern:
    """Give a pattern that stands in a file of another kind, with its counts."""
    return _pattern(_Draft(name, text.split("\n"), counts.split("\n")), "")


def _pattern(draft: _Draft, topic: str) -> Pattern:
    text = "\n".join(draft.text) + "\n"
    if "escaped" in draft.info:
        text = re.sub(r"\\u([0-9a-f]{4})", lambda m: chr(int(m[1], 16)), text)
        text = text.replace("\\t", "\t").replace("\\r\n", "\r\n").replace("\\r", "\r")
    sizes: tuple[str, ...] = ("",)
    section: str | None = None
    lines: list[Line] = []
    for line in draft.counts:
        if line.startswith("sizes: "):
            names = line.removeprefix("sizes: ")
            sizes = tuple(names.split(" | ") if " | " in names else names.split())
        elif line.startswith("## "):
            section = line[3:].strip()
        elif line.strip():
            label, told = line.rsplit(" | ", 1)
            lines.append(Line(section, label.strip(), _told(told, len(sizes))))
    assert lines, f"{draft.name} has no counts"
    return Pattern(
        name=draft.name,
        topic=topic,
        text=text,
        wide="wide" in draft.info,
        sizes=sizes,
        lines=tuple(lines),
    )


def _told(words: str, sizes: int) -> tuple[Told, ...]:
    told: list[Told] = []
    for word in words.split():
        match word:
            case "-":
                told.append(None)
            case "?" | "*":
                told.append(word)
            case _:
                told.append(int(word))
    assert len(told) in {1, sizes}, f"`{words}` does not fit {sizes} sizes"
    return tuple(told) if len(told) == sizes else tuple(told) * sizes


def same_label(mine: str, theirs: str) -> bool:
    """Say whether two labels name the same line; a remark or side after it does not matter."""
    if mine == "*":
        return True
    one, other = _plain(mine), _plain(theirs)
    shorter, longer = sorted((one, other), key=len)
    return bool(shorter) and re.match(re.escape(shorter) + r"(?!\w)", longer) is not None


def _plain(label: str) -> str:
    label = re.sub(r"[\u2010-\u2015\u2212]", "-", label.replace("*", "").replace("\u00a0", " "))
    label = re.sub(r"\s*-\s*", "-", label)
    return re.sub(r"\s+", " ", label).strip(" :.-–—").lower()


def compare(pattern: Pattern, made: Object) -> list[str]:
    """Give every way in which the program's counts differ from those of a pattern."""
    wrong: list[str] = []
    sizes = tuple(made["sizes"])
    if len(sizes) != len(pattern.sizes) or (len(sizes) > 1 and sizes != pattern.sizes):
        wrong.append(f"sizes are {sizes}, not {pattern.sizes}")
        return wrong
    courses = [(s["name"], c) for s in made["sections"] for c in s["courses"]]
    at = 0
    for line in pattern.lines:
        found = at
        while found < len(courses) and not _is(line, *courses[found]):
            found += 1
        if found == len(courses):
            wrong.append(f"no line `{line.label}`")
            continue
        wrong += [f"extra line `{c['label']}`" for _, c in courses[at:found] if _row(c)]
        course = courses[found][1]
        if not _agrees(line.told, course):
            wrong.append(f"`{line.label}` comes to {course['worked']}, not {list(line.told)}")
        at = found + 1
    wrong += [f"extra line `{c['label']}`" for _, c in courses[at:] if _row(c)]
    return wrong


def _is(line: Line, section: str, course: Object) -> bool:
    if line.section is not None and line.section != section:
        return False
    return same_label(line.label, course["label"])


def _row(course: Object) -> bool:
    return ROW_LABEL.match(course["label"].strip("* ")) is not None


def _agrees(told: tuple[Told, ...], course: Object) -> bool:
    for expected, worked in zip(told, course["worked"], strict=True):
        if expected == "*":
            continue
        if worked != (None if expected == "?" else expected):
            return False
    return True


def errors(made: Object) -> list[Object]:
    """Give the findings of a proof that are errors and not accepted."""
    return [f for f in made["findings"] if f["level"] == "error" and not f["accepted"]]


def shown(finding: Object) -> str:
    """Write a finding on a line."""
    where = f"{finding['section'] or ''}, {finding['label'] or ''}"
    return f"{finding['level']}[{finding['slug']}] {where} {finding['sizes']}: {finding['message']}"
