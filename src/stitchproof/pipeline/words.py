"""The proof for people: calm, short, readable without colour and aloud."""

import textwrap
from collections.abc import Iterable

from stitchproof.base.diagnostics import Diagnostic, Level, listed
from stitchproof.base.place import Lines
from stitchproof.pipeline.press import Pressed
from stitchproof.pipeline.report import works

_WIDTH = 96


def proof_words(pressed: Pressed) -> str:
    """Say what was worked, what is wrong, and what was taken for granted."""
    rows = sum(works(c.course) for c in pressed.proof.courses)
    sizes = len(pressed.proof.sizes)
    said = f"{pressed.manuscript.source}: {_number(rows, 'instruction')} worked"
    if sizes > 1:
        said += f" in {sizes} sizes ({', '.join(pressed.proof.sizes)})"
    elif pressed.sizing.sizes != pressed.proof.sizes:
        said += f" in size {pressed.proof.sizes[0]}"
    unread = sum(works(c.course) and not c.read for c in pressed.proof.courses)
    said += f"; {_number(unread, 'instruction')} not read whole" if unread else ""
    return f"{_wrapped(said + '.', '')}{finding_words(pressed)}"


def finding_words(pressed: Pressed) -> str:
    """List the findings: errors and warnings first, then what was taken for granted."""
    lines = Lines.of(pressed.manuscript.text)
    open_ = [d for d in pressed.found if d.accepted is None]
    grave = [d for d in open_ if d.finding.code.level is not Level.NOTE]
    notes = [d for d in open_ if d.finding.code.level is Level.NOTE]
    accepted = [d for d in pressed.found if d.accepted is not None]
    out = "".join(_one(d, lines) for d in grave)
    if notes:
        out += "\nTaken for granted, since the manuscript does not say:\n"
        out += "".join(_note(d, lines, notes[:i]) for i, d in enumerate(notes))
    if accepted:
        out += "\nAccepted:\n"
        out += "".join(
            _wrapped(f"line {_line(d, lines)}: {d.message()} ({d.accepted})", "  ")
            for d in accepted
        )
    return f"{out}\n{_sum(grave)}\n"


def _note(one: Diagnostic, lines: Lines, before: list[Diagnostic]) -> str:
    """Say a note, and with the first of its kind what to do about it."""
    told = f"line {_line(one, lines)}: {one.message()}"
    known = any(type(other.finding) is type(one.finding) for other in before)
    if one.help() and not known:
        told = f"{told}. What to do: {one.help()}."
    return _wrapped(told, "  ")


def listing(found: Iterable[Diagnostic], text: str) -> str:
    """List findings one after another, by line of a text."""
    lines = Lines.of(text)
    return "".join(_one(one, lines) for one in found)


def _one(found: Diagnostic, lines: Lines) -> str:
    level = found.finding.code.level.value
    line, column = lines.line_column(found.place.start)
    out = "\n" + _wrapped(f"{level}, line {line}, column {column} ({found.finding.code.slug})", "")
    out += _wrapped(f"{found.message()}.", "  ")
    for place, note in found.also:
        out += _wrapped(f"see line {lines.line_column(place.start)[0]}: {note}", "  ")
    if found.help():
        out += _wrapped(f"What to do: {found.help()}.", "  ")
    return out


def _line(found: Diagnostic, lines: Lines) -> int:
    return lines.line_column(found.place.start)[0]


def _sum(grave: Iterable[Diagnostic]) -> str:
    levels = [d.finding.code.level for d in grave]
    errors, warnings = levels.count(Level.ERROR), levels.count(Level.WARNING)
    if not errors and not warnings:
        return "No error found."
    parts = (
        _number(errors, "error") if errors else "No error",
        _number(warnings, "warning") if warnings else "",
    )
    return f"{', '.join(p for p in parts if p)} found."


def before_publishing(pressed: Pressed) -> str:
    """Ask about figures that were recalled and not read at their source."""
    recalled = [
        p.name.replace("_", " ")
        for p in pressed.sizing.points
        if p.used and any(pressed.sizing.worked(p.recalled))
    ]
    if not recalled:
        return ""
    what = listed(tuple(recalled))
    return "\n" + _wrapped(
        f"Before you publish, please check against {pressed.sizing.body_source or 'the publisher'}"
        f" the body figures for {what}: they were recalled, not read at their source. `grade` "
        "shows which.",
        "",
    )


def _number(count: int, noun: str) -> str:
    return f"{count} {noun}{'' if count == 1 else 's'}"


def _wrapped(words: str, indent: str) -> str:
    return (
        textwrap.fill(
            words,
            _WIDTH,
            initial_indent=indent,
            subsequent_indent=indent,
            break_long_words=False,
            break_on_hyphens=False,
        )
        + "\n"
    )
