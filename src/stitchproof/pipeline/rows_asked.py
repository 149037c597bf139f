"""Which rows an address names: "Front, Row 12", "Row 12", "Front, rows 1-8", "line 40"."""

import re
from collections.abc import Sequence
from typing import Final

from stitchproof.base.place import Lines
from stitchproof.base.records import dataclass, replace
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.fabric.told import ToldRow
from stitchproof.language.tree import Course
from stitchproof.pipeline.desk import Unusable
from stitchproof.pipeline.press import Pressed

_MOST_ROWS: Final = 12  # rows of one address that are explained one after another
_NEAREST: Final = 4
_MOST_PARTS: Final = 8  # commas of an address
_LINE: Final = re.compile(r"line\s+(?P<line>\d{1,7})", re.IGNORECASE)
_ROW: Final = re.compile(
    r"(?:(?P<section>.+?)\s*,\s*)?(?P<noun>row|rnd|round|r)s?\.?\s*(?P<first>\d{1,6})"
    r"(?:\s*(?:-|–|—|to)\s*(?P<last>\d{1,6}))?",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Found:
    """A line that an address names, and the row of it where it was worked."""

    line: int
    course: WorkedCourse
    row: ToldRow | None
    alike: tuple[int, ...] = ()  # numbers of rows that are worked just so

    def address(self) -> str:
        """Name it as one may ask for it."""
        label = self.course.label
        if self.row is not None and self.row.number is not None:
            noun = "Rnd" if self.course.course.label.round else "Row"
            label = f"{noun} {self.row.number}"
        return ", ".join(part for part in (self.course.section, label) if part)


def all_rows(pressed: Pressed, rows: Sequence[ToldRow]) -> list[Found]:
    """List every row once, and every line that was not worked to rows."""
    by_line: dict[int, list[ToldRow]] = {}
    for row in rows:
        known = by_line.setdefault(row.line, [])
        if row.number is None or all(row.number != one.number for one in known):
            known.append(row)
    return [
        Found(line, course, row)
        for line, course in enumerate(pressed.proof.courses)
        for row in by_line.get(line) or (None,)
    ]


def find_rows(at: str, every: Sequence[Found], text: Lines) -> list[Found]:
    """Find the rows that an address names.

    Raises
    ------
    Unusable
        When it names nothing, or more than one line.
    """
    numbered = _ROW.fullmatch(at)
    in_line = _LINE.fullmatch(at)
    if in_line is not None:
        line = int(in_line["line"])
        found = [one for one in every if _line_of(one, text) == line]
        if found:
            return _told_once(found)
    found = _by_number(numbered, every) if numbered else []
    found = found or _by_label(at, every)
    if not found:
        raise Unusable(_no_such_row(at, every))
    several = not (numbered and numbered["last"])
    if several and len({one.line for one in found}) > 1:
        names = [one.address() for one in found]
        alike = len(set(names)) < len(names)
        named = [f"line {_line_of(one, text)}" for one in found] if alike else names
        either = _quoted(list(dict.fromkeys(named))[:_MOST_ROWS], "or")
        msg = f"`{at}` may be {either}; name one of them"
        raise Unusable(msg)
    found = _told_once(found)
    if len(found) > _MOST_ROWS:
        msg = f"`{at}` names {len(found)} rows; ask for at most {_MOST_ROWS}"
        raise Unusable(msg)
    return found


def _no_such_row(at: str, every: Sequence[Found]) -> str:
    """Say that an address names no row, and which ones there are."""
    inside = [one.address() for one in every if at and _is_section(at, one.course)]
    if inside:
        return f"`{at}` is a part with {len(inside)} rows; name one of them, as in `{inside[0]}`"
    if not at:
        numbered = (one for one in every if one.row is not None and one.row.number is not None)
        some = next((one.address() for one in numbered), "")
        return f"no row is named; name one{f', as in `{some}`' if some else ''}"
    near = _nearest(at, every)
    hint = f"; nearest {'is' if len(near) == 1 else 'are'} {_quoted(near)}" if near else ""
    return f"no row is called `{at}`{hint}"


def _line_of(one: Found, text: Lines) -> int:
    return text.line_column(one.course.place.start)[0]


def _told_once(found: Sequence[Found]) -> list[Found]:
    """Tell rows of one line that are worked just alike once."""
    once: dict[object, Found] = {}
    for one in found:
        row = one.row
        key = (one.line, row and (row.steps, row.kinds, row.places, row.into, row.side))
        first = once.setdefault(key, one)
        if first is not one and row is not None and row.number is not None:
            once[key] = replace(first, alike=(*first.alike, row.number))
    return list(once.values())


def _by_number(asked: re.Match[str], every: Sequence[Found]) -> list[Found]:
    first = int(asked["first"])
    last = int(asked["last"] or first)
    in_section = [one for one in every if _is_section(asked["section"], one.course)]
    rounds = asked["noun"].lower() in {"rnd", "round"}
    alike = [one for one in in_section if one.course.course.label.round is rounds]
    return _numbered(alike, first, last) or _numbered(in_section, first, last)


def _numbered(in_section: Sequence[Found], first: int, last: int) -> list[Found]:
    worked = [
        one
        for one in in_section
        if one.row is not None and one.row.number is not None and first <= one.row.number <= last
    ]
    return worked or [one for one in in_section if _covers(one.course.course, first, last)]


def _is_section(asked: str | None, course: WorkedCourse) -> bool:
    if asked is None:
        return True
    words, name = asked.casefold(), course.section.casefold()
    return words == name or re.match(rf"{re.escape(words)}(?!\w)", name) is not None


def _covers(course: Course, first: int, last: int) -> bool:
    """Tell whether a line that could not be worked has a row number asked for."""
    label = course.label
    numbers = [
        value
        for number in (label.first, label.last, *label.listed)
        if number is not None and isinstance(number.value, tuple)
        for value in number.value
        if isinstance(value, int)
    ]
    return bool(numbers) and min(numbers) <= last and first <= max(numbers)


def _by_label(at: str, every: Sequence[Found]) -> list[Found]:
    parts = at.split(",")
    for cut in range(min(len(parts), _MOST_PARTS)):
        asked = ",".join(parts[:cut]).strip() or None
        want = ",".join(parts[cut:]).strip().casefold()
        found = [
            one
            for one in every
            if _is_section(asked, one.course) and one.course.label.casefold() == want
        ]
        found = found or [
            one
            for one in every
            if _is_section(asked, one.course) and want and _begins(one.course.label, want)
        ]
        if found:
            return found
    return []


def _begins(label: str, want: str) -> bool:
    return re.match(rf"{re.escape(want)}(?!\w)", label.casefold()) is not None


def _nearest(at: str, every: Sequence[Found]) -> list[str]:
    from difflib import get_close_matches

    names = list(dict.fromkeys(one.address() for one in every))
    asked = _ROW.fullmatch(at)
    if asked is not None:
        number = int(asked["first"])
        numbered = [one for one in every if one.row is not None and one.row.number is not None]
        inside = [one for one in numbered if _is_section(asked["section"], one.course)]
        ranked = sorted(
            inside or [], key=lambda one: abs((one.row.number or 0) - number) if one.row else 0
        )
        if ranked:
            return list(dict.fromkeys(one.address() for one in ranked))[:_NEAREST]
    lower = {name.casefold(): name for name in names}
    close = get_close_matches(at.casefold(), list(lower), n=_NEAREST, cutoff=0.3)
    return [lower[one] for one in close]


def _quoted(names: Sequence[str], word: str = "and") -> str:
    *most, last = [f"`{name}`" for name in names]
    return f"{', '.join(most)} {word} {last}" if most else last
