"""The proof as one object of plain values, for programs; its shape is stable."""

from stitchproof.base.diagnostics import Diagnostic, Fix
from stitchproof.base.place import Lines, Span
from stitchproof.fabric.proof import WorkedCourse
from stitchproof.language.tree import Course, RepeatRows, Unread, makes_stitches
from stitchproof.pipeline.desk import Unusable
from stitchproof.pipeline.press import Pressed


def proof_object(pressed: Pressed) -> dict[str, object]:
    """Give what `proof --json` prints.

    Returns
    -------
    dict
        `manuscript`, `sizes`, `sections` with their courses, and `findings`; lines and columns
        from 1, in code points; null where a count is not known.
    """
    lines = Lines.of(pressed.manuscript.text)
    return {
        "manuscript": pressed.manuscript.source,
        "sizes": list(pressed.proof.sizes),
        "sections": _sections(pressed, lines),
        "findings": findings_object(pressed, lines),
    }


def findings_object(pressed: Pressed, lines: Lines | None = None) -> list[dict[str, object]]:
    """Give the findings as plain values."""
    lines = lines or Lines.of(pressed.manuscript.text)
    return [_finding(one, lines) for one in pressed.found]


def unusable_proof(wrong: Unusable, name: str) -> dict[str, object]:
    """Give what `proof --json` prints of a file that cannot be used: the same keys, one finding."""
    return {"manuscript": name, "sizes": [], "sections": [], "findings": unusable_findings(wrong)}


def unusable_grade(wrong: Unusable) -> dict[str, object]:
    """Give what `grade --json` prints of a file that cannot be used: the same keys, one finding."""
    return {"sizes": [], "measures": [], "counts": [], "findings": unusable_findings(wrong)}


def unusable_findings(wrong: Unusable) -> list[dict[str, object]]:
    """Give why a file cannot be used, as plain values."""
    return [_finding(wrong.found, Lines.of(wrong.text))]


def _sections(pressed: Pressed, lines: Lines) -> list[dict[str, object]]:
    sections: list[dict[str, object]] = []
    courses = list(pressed.proof.courses)
    start = 0
    for section in pressed.manuscript.sections:
        own = courses[start : start + len(section.courses)]
        start += len(own)
        worked = [_course(c, lines) for c in own if works(c.course)]
        if worked:
            sections.append({"name": section.name, "courses": worked})
    return sections


def works(course: Course) -> bool:
    """Whether a line works stitches, or tries to: a row in any case, and whatever is unread."""
    if isinstance(course.does, RepeatRows) or makes_stitches(course.does):
        return True
    label = course.label
    numbered = label.first is not None or label.span is not None or bool(label.listed)
    return numbered or any(isinstance(step, Unread) for step in course.does)


def _course(course: WorkedCourse, lines: Lines) -> dict[str, object]:
    return {
        "label": course.label,
        "line": lines.line_column(course.place.start)[0],
        "read": course.read,
        "reading": course.reading,
        "side": course.side,
        "worked": list(course.worked),
        "stated": list(course.stated) if course.stated is not None else None,
        "absent": list(course.absent),
        "counts": [
            {
                "kind": c.kind,
                "worked": list(c.worked),
                "stated": list(c.stated) if c.stated is not None else None,
            }
            for c in course.counts
        ],
    }


def _finding(one: Diagnostic, lines: Lines) -> dict[str, object]:
    code = one.finding.code
    return {
        "code": code.number,
        "slug": code.slug,
        "level": code.level.value,
        **_place(one.place, lines),
        "section": one.address.section,
        "label": one.address.label,
        "sizes": list(one.sizes),
        "message": one.message(),
        "help": one.help(),
        "also": [{**_place(place, lines), "note": note} for place, note in one.also],
        "fix": _fix(one.fix, lines),
        "accepted": one.accepted,
    }


def _place(place: Span, lines: Lines) -> dict[str, int]:
    line, column = lines.line_column(place.start)
    end_line, end_column = lines.line_column(place.end)
    return {"line": line, "column": column, "end_line": end_line, "end_column": end_column}


def _fix(fix: Fix | None, lines: Lines) -> dict[str, object] | None:
    if fix is None:
        return None
    return {
        "safety": fix.safety.value,
        "edits": [{**_place(e.place, lines), "words": e.words} for e in fix.edits],
    }
